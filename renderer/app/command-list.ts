// The command table as lists: by menu, and as found by words. Pure.

import { COMMAND_IDS, COMMAND_ROWS, type CommandId, MENUS, type MenuName } from '../../electron/menu.ts';

/** Commands of a menu, in groups between lines. */
export function groupsOf(menu: MenuName): readonly (readonly CommandId[])[] {
  const groups = new Map<number, CommandId[]>();
  for (const id of COMMAND_IDS) {
    const { menu: of, group } = COMMAND_ROWS[id];
    if (of === menu) groups.set(group, [...(groups.get(group) ?? []), id]);
  }
  return [...groups].sort(([a], [b]) => a - b).map(([, ids]) => ids);
}

const plain = (text: string): string => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();

/**
 * Commands whose words hold every typed word: the beginning of a word before its middle, what can be had now before what
 * cannot, in the table's order otherwise. `wordsOf`: the words as they are now.
 */
export function found(
  typed: string,
  wordsOf: (id: CommandId) => string,
  canBeHad: (id: CommandId) => boolean,
): readonly CommandId[] {
  const wanted = plain(typed)
    .split(/\s+/)
    .filter((each) => each !== '');
  const ranked: { readonly id: CommandId; readonly rank: number }[] = [];
  for (const id of MENUS.flatMap((menu) => groupsOf(menu).flat())) {
    const text = plain(`${wordsOf(id)} ${COMMAND_ROWS[id].words} ${COMMAND_ROWS[id].menu}`);
    if (!wanted.every((each) => text.includes(each))) continue;
    const begins = wanted.filter((each) => text.startsWith(each) || text.includes(` ${each}`)).length;
    const leads = wanted[0] !== undefined && text.startsWith(wanted[0]) ? 1 : 0;
    ranked.push({ id, rank: -4 * begins - 2 * leads - (canBeHad(id) ? 1 : 0) });
  }
  return ranked.sort((a, b) => a.rank - b.rank).map(({ id }) => id);
}
