// The job with the pointer, and the keyboard for what has to be typed: menus, rows of the walk and places on the sheet are
// clicked. The sheet is read as a person reads it: the plan is fitted, and its outer corners stand where its margin ends.

import type { Locator, Page } from 'playwright';
import type { NewWall } from './house.ts';
import { dialogOpen, type Figures, type Hands, row, tree, type Way } from './ways.ts';

/** The house with its walls, inches: what a fitted sheet shows. */
const SHOWN = { left: -4.5, top: -4.5, right: 297, bottom: 244.5 } as const;
/** Kept free round a fitted plan, and what lies over the sheet's edges: the tools, the scale. Pixels. */
const [MARGIN, TOOLS, SCALE] = [28, 44, 48];

export function byPointer(page: Page, hands: Pick<Hands, 'menu'>): Way {
  const { keyboard } = page;

  /** Where a place of the plan is on the screen, with the whole plan fitted. */
  async function place([x, y]: readonly [number, number]): Promise<readonly [number, number]> {
    const box = (await page.locator('.sheet-paper').boundingBox())!;
    const [wide, high] = [SHOWN.right - SHOWN.left, SHOWN.bottom - SHOWN.top];
    const [free, tall] = [box.width - TOOLS, box.height - SCALE];
    const scale = Math.min((free - 2 * MARGIN) / wide, (tall - 2 * MARGIN) / high);
    return [
      box.x + TOOLS + free / 2 + (x - (SHOWN.left + SHOWN.right) / 2) * scale,
      box.y + tall / 2 + (y - (SHOWN.top + SHOWN.bottom) / 2) * scale,
    ];
  }
  async function clickAt(at: readonly [number, number]): Promise<void> {
    const [x, y] = await place(at);
    await page.mouse.move(x - 7, y - 5);
    await page.mouse.move(x, y, { steps: 3 });
    await page.mouse.down();
    await page.mouse.up();
  }

  async function tape(figures: Figures): Promise<void> {
    for (const [label, figure] of Object.entries(figures)) {
      await page.locator('.tape-give').getByLabel(label, { exact: true }).click();
      await keyboard.type(figure);
    }
    await keyboard.press('Enter');
  }

  /** Where fields and buttons are looked for: the open dialog, else the ticket. */
  async function part(): Promise<Locator> {
    const dialog = dialogOpen(page);
    return (await dialog.count()) > 0 ? dialog.last() : page.locator('.ticket');
  }

  async function unfold(wanted: RegExp): Promise<void> {
    for (let i = 0; i < 8 && (await row(page, wanted).count()) === 0; i++) {
      const folded = tree(page).locator('[aria-expanded="false"]').first();
      if ((await folded.count()) === 0) break;
      await folded.locator('[data-turn]').first().click();
    }
  }

  return {
    page,
    async command(id) {
      await hands.menu(id);
      // The window goes on to the sheet once the menu has folded; only then is there something to type into.
      if (id.startsWith('draw.'))
        await page.waitForFunction(() => document.activeElement?.closest('[data-zone="sheet"]') !== null);
    },

    async choose(wanted) {
      await unfold(wanted);
      await row(page, wanted).first().click();
    },
    tape,

    async wall({ command, from, to, length, heading }: NewWall) {
      await hands.menu('view.fitAll');
      const name = command === 'wall' ? 'Draw walls' : 'Draw a half wall';
      await page.getByRole('toolbar', { name: 'Tools' }).getByRole('button', { name }).click();
      await page.getByLabel('Drawn along').selectOption('centre');
      await clickAt(from);
      if (command === 'wall') await clickAt(to);
      else await tape({ Length: length, Heading: heading });
      await page.locator('.tape').getByRole('button', { name: 'End', exact: true }).click();
      await page
        .getByRole('toolbar', { name: 'Tools' })
        .getByRole('button', { name: 'Choose and move' })
        .click();
    },

    async type(label, text) {
      const field = (await part()).getByLabel(label, { exact: true });
      await field.click();
      await field.fill(text);
      await keyboard.press('Enter');
    },

    async pick(label, words) {
      const list = (await part()).getByRole('combobox', { name: label, exact: true });
      const options = await list.locator('option').allTextContents();
      const option = options.find((each) => each.startsWith(words));
      if (option === undefined) throw new Error(`${label} has no ${words}: ${options.join(' | ')}`);
      await list.selectOption({ label: option });
    },

    async press(button, within) {
      const where = within !== undefined ? page.locator(within) : await part();
      await where
        .getByRole('button', { name: button, ...(typeof button === 'string' ? { exact: true } : {}) })
        .first()
        .click();
    },

    async openFinding(words) {
      const line = page.locator('.pencil [data-finding]').filter({ hasText: words }).first();
      if ((await line.getAttribute('aria-expanded')) !== 'true') await line.click();
    },

    async undo(times) {
      for (let i = 0; i < times; i++) await page.getByRole('button', { name: /^Undo/ }).first().click();
    },
    async redo(times) {
      for (let i = 0; i < times; i++) await page.getByRole('button', { name: /^Redo/ }).first().click();
    },
  };
}
