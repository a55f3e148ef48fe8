// The native menus from the one table of commands. An item sends its command to the window; keys are shown here and left to
// the window, so that a text field keeps its own. A Mac gives them to the menu all the same: there the window hands the
// editing ones back to its focused field. On a Mac the first menu is the program's.

import type { MenuItemConstructorOptions } from 'electron';
import { COMMAND_IDS, COMMAND_ROWS, type CommandId, MENUS, type MenuName } from '../menu.ts';

export interface MenuWish {
  readonly platform: 'mac' | 'windows' | 'linux';
  readonly developing: boolean;
  readonly recent: readonly { readonly id: string; readonly name: string; readonly folder: string }[];
  send(id: CommandId): void;
  openRecent(id: string): void;
}

/** `Mod+Shift+Z` as the runtime writes it; null for keys it must not take from the window (single letters, F keys stay). */
export function acceleratorOf(keys: readonly string[] | undefined): string | null {
  const first = keys?.[0];
  if (first === undefined || !/^(Mod|Alt)\+/.test(first)) return null;
  return first.replace('Mod+', 'CommandOrControl+').replace('+=', '+Plus');
}

export function menuTemplate(wish: MenuWish): MenuItemConstructorOptions[] {
  const menus = MENUS.map(
    (name): MenuItemConstructorOptions => ({
      label: name,
      ...(name === 'Help' ? { role: 'help' } : {}),
      submenu: [...commandItems(wish, name), ...extraItems(wish, name)],
    }),
  );
  return wish.platform === 'mac' ? [{ role: 'appMenu' }, ...menus, { role: 'windowMenu' }] : menus;
}

function commandItems(wish: MenuWish, menu: MenuName): MenuItemConstructorOptions[] {
  const items: MenuItemConstructorOptions[] = [];
  let group: number | null = null;
  for (const id of COMMAND_IDS) {
    const row = COMMAND_ROWS[id];
    if (row.menu !== menu) continue;
    if (group !== null && row.group !== group) items.push({ type: 'separator' });
    group = row.group;
    const accelerator = acceleratorOf(row.keys);
    items.push({
      id,
      label: row.words,
      ...(accelerator === null ? {} : { accelerator, registerAccelerator: false }),
      click: () => wish.send(id),
    });
    if (id === 'file.recent') items.push(recentItems(wish));
  }
  return items;
}

function recentItems({ recent, openRecent }: MenuWish): MenuItemConstructorOptions {
  return {
    label: 'Recent plans',
    enabled: recent.length > 0,
    submenu: recent.map(({ id, name, folder }) => ({
      label: `${asLabel(name)} – ${asLabel(folder)}`,
      click: () => openRecent(id),
    })),
  };
}

/** A menu takes one `&` for the mark of a key. */
const asLabel = (name: string): string => name.replaceAll('&', '&&');

function extraItems({ platform, developing }: MenuWish, menu: MenuName): MenuItemConstructorOptions[] {
  // On a Mac a text field can be cut from only where a menu has the role.
  if (menu === 'Edit' && platform === 'mac') return [{ type: 'separator' }, { role: 'cut' }];
  if (menu === 'File' && platform !== 'mac') return [{ type: 'separator' }, { role: 'quit' }];
  if (menu === 'View')
    return [
      { type: 'separator' },
      { role: 'togglefullscreen' },
      ...(developing ? [{ role: 'toggleDevTools' } as const] : []),
    ];
  return [];
}
