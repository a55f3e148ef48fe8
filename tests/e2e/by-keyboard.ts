// The job by the keyboard alone: nothing but `page.keyboard`, and reading what stands in the page. What has the focus is
// asked for as a screen reader would: by its name.

import type { Page } from 'playwright';
import { COMMAND_ROWS, type CommandId, type CommandRow } from '../../electron/menu.ts';
import type { NewWall } from './house.ts';
import { dialogOpen, type Figures, tree, type Way } from './ways.ts';

/** So many presses of Tab, or rows of the walk, are more than any part of the window has. */
const ENOUGH = 160;

interface Focused {
  readonly name: string;
  readonly tag: string;
  readonly value: string;
  readonly expanded: string | null;
}

/** What has the focus: its name, kind, what a list shows. */
function focused(page: Page): Promise<Focused> {
  return page.evaluate(() => {
    const at = document.activeElement;
    const labels = at instanceof HTMLInputElement || at instanceof HTMLSelectElement ? at.labels : null;
    const value = at instanceof HTMLSelectElement ? (at.selectedOptions[0]?.textContent ?? '') : '';
    // A label may stand round its field: the field's own words are no part of the name.
    const label = labels?.[0]?.cloneNode(true) as Element | undefined;
    for (const own of label?.querySelectorAll('input, select') ?? []) own.remove();
    const said = at === document.body ? '' : at?.textContent;
    const name = at?.getAttribute('aria-label') ?? label?.textContent ?? said ?? '';
    return {
      name: name.replace(/\s+/g, ' ').trim(),
      tag: at?.tagName ?? '',
      value,
      expanded: at?.getAttribute('aria-expanded') ?? null,
    };
  });
}

const fits = (name: string, wanted: string | RegExp): boolean =>
  typeof wanted === 'string' ? name === wanted : wanted.test(name);

export function byKeyboard(page: Page): Way {
  const { keyboard } = page;
  const press = async (key: string, times = 1): Promise<void> => {
    for (let i = 0; i < times; i++) await keyboard.press(key);
  };

  /** Tab until what is wanted has the focus. */
  async function tabTo(name: string | RegExp, tags: readonly string[]): Promise<void> {
    const seen: string[] = [];
    for (let i = 0; i < ENOUGH; i++) {
      const now = await focused(page);
      if (tags.includes(now.tag) && fits(now.name, name)) return;
      seen.push(now.name);
      await press('Tab');
    }
    throw new Error(`Tab does not come to ${name}; it went over: ${[...new Set(seen)].join(' | ')}`);
  }

  /** In a dialog fields are looked for from where the focus is; else from the ticket's beginning. */
  async function toFields(): Promise<void> {
    if ((await dialogOpen(page).count()) === 0) await press('F8');
  }

  async function command(id: CommandId): Promise<void> {
    const { words, keys }: CommandRow = COMMAND_ROWS[id];
    const key = keys?.[0]?.replace('Mod', 'ControlOrMeta');
    // Without a key of its own a command is found by its words.
    if (key === undefined) {
      await press('ControlOrMeta+k');
      await keyboard.type(words.replace('…', ''));
      await press('Enter');
      return;
    }
    if (!/Mod|Alt|^F\d/.test(keys?.[0] ?? '') && (await dialogOpen(page).count()) === 0) {
      const inKeys = await page.evaluate(() => document.activeElement?.closest('[data-keys]') !== null);
      if (!inKeys) await press('F7');
    }
    await press(key);
  }

  async function choose(wanted: RegExp): Promise<void> {
    await press('F6');
    await press('Home');
    for (let i = 0; i < ENOUGH; i++) {
      const { name, expanded } = await focused(page);
      if (wanted.test(name)) {
        await press('Space');
        return;
      }
      if (expanded === 'false') await press('ArrowRight');
      await press('ArrowDown');
    }
    throw new Error(`The walk has no row ${wanted}: ${await tree(page).textContent()}`);
  }

  async function tape(figures: Figures): Promise<void> {
    await press('F9');
    for (const [label, figure] of Object.entries(figures)) {
      await tabTo(label, ['INPUT']);
      await keyboard.type(figure);
    }
    await press('Enter');
  }

  return {
    page,
    command,
    choose,
    tape,

    async wall({ command: kind, corner, presses, length, heading }: NewWall) {
      await choose(new RegExp(`^Corner ${corner},`));
      await command(kind === 'wall' ? 'draw.wall' : 'draw.halfWall');
      // From middle line to middle line of the walls it stands between: A goes on to the next of three lines.
      for (let i = 0; i < 3; i++) {
        if ((await page.getByLabel('Drawn along').inputValue()) === 'centre') break;
        await press('a');
      }
      for (const [key, times] of presses) await press(key, times);
      await press('Enter');
      await tape({ Length: length, Heading: heading });
      await press('Enter');
      await press('Escape');
    },

    async type(label, text) {
      await toFields();
      await tabTo(label, ['INPUT']);
      await press('ControlOrMeta+a');
      await keyboard.type(text);
      await press('Enter');
    },

    async pick(label, words) {
      await toFields();
      await tabTo(label, ['SELECT']);
      // A list goes to what begins with the letters typed.
      if ((await focused(page)).value.startsWith(words)) return;
      await keyboard.type(words);
    },

    async press(button, within) {
      if ((await dialogOpen(page).count()) === 0 && within === '.pencil') await press('F10');
      await tabTo(button, ['BUTTON']);
      await press('Enter');
    },

    async openFinding(words) {
      for (let i = 0; i < ENOUGH; i++) {
        const open = page.locator('.pencil [data-finding][aria-expanded="true"]');
        if ((await open.count()) > 0 && (await open.textContent())?.includes(words)) return;
        await command('trim.nextFinding');
      }
      throw new Error(`No finding says ${words}.`);
    },

    async undo(times) {
      await press('F7');
      await press('ControlOrMeta+z', times);
    },
    async redo(times) {
      await press('F7');
      await press('ControlOrMeta+y', times);
    },
  };
}
