// Two tabs of one browser on the same window: they show one plan, and neither undoes unseen what the other did.

import type { Page } from 'playwright';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Answer, OpenedPlan } from '../../../electron/contract.ts';
import { demoFile, type OpenWindow, openWindow } from '../../renderer/window.ts';

describe('two tabs', () => {
  let window: OpenWindow;
  beforeEach(async () => {
    window = await openWindow({ file: demoFile('thimble-cottage') });
  });
  afterEach(() => window.close());

  const held = async (): Promise<OpenedPlan> => {
    const { opened } = (await window.local.desk.handle('start', {})) as { opened: OpenedPlan };
    return opened;
  };

  const titleIn = (page: Page) => page.getByLabel('Title of the plan');
  const rename = async (page: Page, words: string): Promise<void> => {
    await titleIn(page).fill(words);
    await titleIn(page).press('Enter');
  };

  it('what is done in the one is shown in the other at once, with its undo; view and choice stay', async () => {
    const one = window.page;
    const two = await window.context.newPage();
    await two.goto(`${window.local.origin}/`);
    await titleIn(two).waitFor();
    await two.keyboard.press('Alt+3');
    await rename(one, 'From the one');
    await expect.poll(() => titleIn(two).inputValue()).toBe('From the one');
    expect(await two.getByRole('button', { name: 'Trim' }).getAttribute('aria-current')).toBe('step');
    await two.getByText('changed in another window; it is shown as it is now').waitFor();
    await one.bringToFront();
    await one.keyboard.press('Control+s');
    for (const page of [one, two]) await page.getByText('Saved', { exact: true }).waitFor();
    // The other takes it back, and the first follows.
    await two.bringToFront();
    await two.getByRole('button', { name: 'Undo rename plan' }).click();
    await expect.poll(() => titleIn(one).inputValue()).toBe('Thimble Cottage');
    for (const page of [one, two]) await page.getByText('Unsaved changes').waitFor();
    expect(window.errors).toEqual([]);
    await two.close();
  });

  it('what is done in the one after the other closed the plan is kept as a plan without a file, with its undo', async () => {
    const one = window.page;
    const two = await window.context.newPage();
    await two.goto(`${window.local.origin}/`);
    await titleIn(two).waitFor();
    await one.bringToFront();
    await rename(one, 'Before');
    await expect.poll(() => titleIn(two).inputValue()).toBe('Before');
    await one.keyboard.press('Control+w');
    await one.getByRole('button', { name: /^Keep for later/ }).click();
    await one
      .getByRole('button', { name: /^New plan in/ })
      .first()
      .waitFor();
    await two.bringToFront();
    await rename(two, 'After');
    await two.getByText(/was closed in another window\. What is shown here is kept/).waitFor();
    await rename(two, 'Still later');
    const now = async () => {
      const { view, plan } = await held();
      return { title: plan.title, name: view.name, unsaved: view.unsaved };
    };
    await expect.poll(now).toEqual({ title: 'Still later', name: null, unsaved: true });
    expect(await two.title()).toMatch(/^• /);
    for (const words of ['After', 'Before']) {
      await two.keyboard.press('Control+z');
      await expect.poll(async () => (await held()).plan.title).toBe(words);
    }
    expect(window.errors).toEqual([]);
    await two.close();
  });

  it('what is done in both at once is kept in both: in the later as a plan without a file', async () => {
    const one = window.page;
    const two = await window.context.newPage();
    await two.goto(`${window.local.origin}/`);
    await titleIn(two).waitFor();
    const first = (await held()).view.handle;
    const kept = async (): Promise<string[]> => {
      const shown = (await window.local.desk.handle('plan', { handle: first })) as Answer<'plan'>;
      const { view, plan } = await held();
      return [shown!.plan.title, ...(view.handle === first ? [] : [plan.title])];
    };
    // Edits of the second do not get through until the first has changed the plan.
    let letThrough = (): void => undefined;
    const gate = new Promise<void>((resolve) => {
      letThrough = resolve;
    });
    await two.route('**/call/edit', async (route) => {
      await gate;
      await route.continue();
    });
    for (const words of ['Two, first', 'Two, then', 'Two, last']) await rename(two, words);
    // What is on its way is in no file, and is said to be so before any answer.
    await two.getByText('Unsaved changes').waitFor();
    await rename(one, 'One');
    await expect.poll(() => kept()).toEqual(['One']);
    letThrough();
    await two.getByText(/changed in another window at the same time\. What is shown here is kept/).waitFor();
    await expect.poll(() => kept()).toEqual(['One', 'Two, last']);
    expect(await titleIn(one).inputValue()).toBe('One');
    await two.bringToFront();
    await two.keyboard.press('F6');
    for (const words of ['Two, then', 'Two, first', 'Thimble Cottage']) {
      await two.keyboard.press('Control+z');
      await expect.poll(() => kept()).toEqual(['One', words]);
    }
    expect(await titleIn(one).inputValue()).toBe('One');
    // Each shows its own when it is loaded again.
    for (const [page, words] of [
      [one, 'One'],
      [two, 'Thimble Cottage'],
    ] as const) {
      await page.reload();
      await expect.poll(() => titleIn(page).inputValue()).toBe(words);
      expect(await titleIn(page).count()).toBe(1);
    }
    expect(window.errors).toEqual([]);
    await two.close();
  });
});
