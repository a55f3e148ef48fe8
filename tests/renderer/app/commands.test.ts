// The command table against what the window does with it: nothing in it is without an action, no two keys clash, every key
// can be read, and the finder finds.

import { describe, expect, test } from 'vitest';
import { COMMAND_IDS, COMMAND_ROWS, type CommandId, MENUS } from '../../../electron/menu.ts';
import { found, groupsOf } from '../../../renderer/app/command-list.ts';
import { actionOf } from '../../../renderer/app/commands.ts';
import { initialState } from '../../../renderer/state/initial.ts';

const all = (): boolean => true;
const find = (typed: string, can: (id: CommandId) => boolean = all) =>
  found(typed, (id) => COMMAND_ROWS[id].words, can);

describe('the command table', () => {
  test.each(COMMAND_IDS)('%s does something', (id) => {
    expect(actionOf(id)).not.toBeNull();
  });

  test('no two commands have the same key', () => {
    const taken = new Map<string, CommandId>();
    for (const id of COMMAND_IDS)
      for (const key of COMMAND_ROWS[id].keys ?? []) {
        expect(taken.get(key), `${key} of ${id}`).toBeUndefined();
        taken.set(key, id);
      }
  });

  test('every command stands in its menu once', () => {
    const shown = MENUS.flatMap((menu) => groupsOf(menu).flat());
    expect([...shown].sort()).toEqual([...COMMAND_IDS].sort());
  });

  test('without a plan every command can be asked whether it is to be had, and gives a sentence where not', () => {
    const state = initialState();
    for (const id of COMMAND_IDS) {
      const why = actionOf(id)?.unavailable?.(state) ?? null;
      if (why !== null) expect(why, id).toMatch(/^[A-Z].*\.$/s);
      actionOf(id)?.checked?.(state);
      expect(actionOf(id)?.words?.(state) ?? 'words', id).not.toBe('');
    }
    for (const id of ['file.save', 'edit.undo', 'view.walk'] as const)
      expect(actionOf(id)?.unavailable?.(state), id).not.toBeNull();
    expect(actionOf('file.open')?.unavailable?.(state) ?? null).toBeNull();
  });
});

describe('the finder', () => {
  test('with nothing typed it shows every command', () => {
    expect(find('')).toHaveLength(COMMAND_IDS.length);
  });

  test('it takes the words in any order, in any case, and parts of them', () => {
    expect(find('walls draw')[0]).toBe('draw.wall');
    expect(find('PDF')).toContain('file.exportPdf');
    expect(find('whole pl')[0]).toBe('view.fitAll');
  });

  test('what begins with the typed word comes first, and what can be had before what cannot', () => {
    expect(find('zoom')[0]).toBe('view.zoomIn');
    expect(find('zoom', (id) => id !== 'view.zoomIn')[0]).toBe('view.zoomOut');
  });

  test('words that no command has find nothing', () => {
    expect(find('qqq')).toEqual([]);
  });
});
