// Boards held as they are, in a real window on a real server: held and let go by keys, marked in word and drawing, kept over an
// edit and a reload, told where they can no longer be held, and written into the plan. And the real worker's answers in stages.

import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readPlanBytes } from '../../../core/plan/index.ts';
import { axeFaults } from '../app/axe.ts';
import type { OpenWindow } from '../window.ts';
import { boardsShown, openCottage } from './boards-shown.ts';

let w: OpenWindow;
let page: Page;

/** Until the boards of the plan shown are worked out whole. */
const workedOut = async (): Promise<void> => {
  await page.locator('p.handover-standing:empty').waitFor({ state: 'attached', timeout: 120_000 });
};
const profile = (name: string) => page.getByRole('region', { name, exact: true });
const tall = () => profile('Tall eased base');
const rowOf = (piece: string) =>
  tall()
    .locator('.handover-boards > li')
    .filter({ has: page.locator('button', { hasText: new RegExp(`^${piece} `) }) });
const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');
const undo = () => page.getByRole('button', { name: /^Undo/ }).first();
const pencil = () => page.locator('.pencil');
const noLongerHeld = () => pencil().locator('[data-finding]', { hasText: 'Board no longer held' });

interface Seen {
  answers: string[];
  standing: string[];
}

beforeAll(async () => {
  // No shoe, and the tall base in two lengths.
  w = await openCottage(({ profiles, levels }) => {
    for (const { trim } of Object.values(levels[0]!.rooms)) trim.shoe = null;
    profiles['base-tall']!.stock.splice(1, 1);
  });
  page = w.page;
  await boardsShown(page);
  await workedOut();
});
afterAll(async () => {
  const { errors } = w;
  await w.close();
  expect(errors).toEqual([]);
});

describe('boards held as they are', () => {
  test('by key: marked at once in word and drawing, the focus stays, and undo names it', async () => {
    const row = rowOf('12A');
    const pieces = await row.locator('.handover-board-pieces').textContent();
    const hold = row.getByRole('button', { name: /^Hold board \d+ as it is$/ });
    expect(await hold.getAttribute('title')).toMatch(/^Hold this board as it is/);
    await hold.focus();
    await page.keyboard.press('Space');
    await row.getByRole('button', { name: /^Let go of board \d+$/ }).waitFor();
    expect(await row.locator('.handover-held').textContent()).toBe('held');
    expect(await row.locator('.handover-held-ends').count()).toBe(1);
    expect(await undo().getAttribute('title')).toMatch(/hold board of .*12A/);
    await workedOut();
    expect(await focused()).toMatch(/^Let go of board \d+$/);
    expect(await row.locator('.handover-board-pieces').textContent()).toBe(pieces);
    expect(await tall().locator('header').textContent()).toContain(', 1 held');
    expect(await axeFaults(page, '.handover')).toEqual([]);
  });

  test('others are laid out anew and cost the same; what is bought otherwise is with the board held', async () => {
    expect(await tall().locator('.handover-proof').textContent()).toMatch(/proved$/);
    await page.getByRole('tab', { name: 'Bought otherwise' }).click();
    expect(await page.locator('[role="tabpanel"]:visible tbody tr').count()).toBeGreaterThan(3);
    await page.getByRole('tab', { name: 'Boards' }).click();
  });

  test('a reload and a saved file keep it', async () => {
    await page.keyboard.press('Control+s');
    await expect
      .poll(async () => {
        const read = readPlanBytes(await readFile(w.file!));
        return read.ok ? Object.values(read.plan.heldBoards).flat().length : read.error.message;
      })
      .toBe(1);
    await page.reload();
    await boardsShown(page);
    await workedOut();
    expect(await rowOf('12A').locator('.handover-held').textContent()).toBe('held');
  });

  test('what can no longer be held is told with the reason', async () => {
    await rowOf('12A').locator('button', { hasText: /^12A / }).click();
    const measured = page.getByLabel('Measured', { exact: true });
    // The wall of the board is measured longer than any stock.
    await measured.fill(`40'`);
    await measured.press('Enter');
    await workedOut();
    const said = /^The .* board of "Tall eased base" held for .*12A.* can no longer be held: .*\.$/;
    await expect
      .poll(() => tall().locator('.handover-loose > span').allTextContents())
      .toEqual([expect.stringMatching(said)]);
    expect(await tall().locator('.handover-held').count()).toBe(0);
    expect(await noLongerHeld().count()).toBe(1);
  });

  test('it is let go of beside what is said of it', async () => {
    await tall().locator('.handover-loose').getByRole('button', { name: 'Let it go', exact: true }).click();
    await expect.poll(() => tall().locator('.handover-loose').count()).toBe(0);
    expect(await tall().locator('header').textContent()).not.toContain('held');
    await undo().click();
    await expect.poll(() => tall().locator('.handover-loose').count()).toBe(1);
  });

  test('the red pencil lets it go', async () => {
    await noLongerHeld().click();
    await pencil()
      .locator('.pencil-remedies')
      .getByRole('button', { name: 'Let it go', exact: true })
      .click();
    await expect.poll(() => noLongerHeld().count()).toBe(0);
    await workedOut();
    expect(await noLongerHeld().count()).toBe(0);
    expect(await tall().locator('.handover-loose').count()).toBe(0);
    await undo().click();
    await expect.poll(() => noLongerHeld().count()).toBe(1);
  });

  test('once its piece fits again it is held again', async () => {
    await undo().click();
    await workedOut();
    expect(await tall().locator('.handover-loose').count()).toBe(0);
    expect(await rowOf('12A').locator('.handover-held').textContent()).toBe('held');
  });

  test('all of a moulding are let go of at once, and one by its own button', async () => {
    await tall()
      .getByRole('button', { name: /^Hold board \d+ as it is$/ })
      .first()
      .click();
    await workedOut();
    expect(await tall().locator('header').textContent()).toContain(', 2 held');
    const own = rowOf('12A').getByRole('button', { name: /^Let go of board/ });
    await own.focus();
    await page.keyboard.press('Enter');
    expect(await tall().locator('header').textContent()).toContain(', 1 held');
    await workedOut();
    expect(await focused()).toMatch(/^(Hold|Let go of) board \d+/);
    await tall()
      .getByRole('button', { name: /^Let all go/ })
      .click();
    await expect.poll(() => tall().locator('.handover-held').count()).toBe(0);
    expect(
      await tall()
        .getByRole('button', { name: /^Let all go/ })
        .count(),
    ).toBe(0);
    await workedOut();
  });
});

describe('answers in stages', () => {
  test('the worker says a first layout, then better boards, then the rest; the window says which is shown', async () => {
    await page.addInitScript(() => {
      const seen: Seen = { answers: [], standing: [] };
      Object.assign(globalThis, { seen });
      globalThis.Worker = class extends Worker {
        constructor(address: string | URL, options?: WorkerOptions) {
          super(address, options);
          this.addEventListener('message', ({ data }: MessageEvent<{ kind: string; stage?: string }>) =>
            seen.answers.push(data.stage ?? data.kind),
          );
        }
      };
      const look = (): void => {
        const words = document.querySelector('.handover-standing > span')?.textContent ?? '';
        if (words !== seen.standing.at(-1)) seen.standing.push(words);
      };
      new MutationObserver(look).observe(document, { childList: true, subtree: true, characterData: true });
    });
    await page.keyboard.press('Control+s');
    await page.getByText('Unsaved changes').waitFor({ state: 'detached' });
    await page.reload();
    await boardsShown(page);
    await workedOut();
    const { answers, standing } = await page.evaluate(() => (globalThis as unknown as { seen: Seen }).seen);
    expect(answers.filter((each) => each !== 'progress' && each !== 'better')).toEqual([
      'first',
      'boards',
      'solved',
    ]);
    expect(answers).toContain('better');
    const first = standing.findIndex((words) => words.startsWith('A first layout is shown'));
    const otherwise = standing.findIndex((words) =>
      words.startsWith('Working out what it costs bought otherwise'),
    );
    expect(first).toBeGreaterThanOrEqual(0);
    expect(otherwise).toBeGreaterThan(first);
  });
});
