// The window's own menu bar, for the form that has none from the system: made from the command table alone.

import {
  Menu,
  MenuButton,
  Menubar,
  MenubarProvider,
  MenuItem,
  MenuProvider,
  MenuSeparator,
} from '@ariakit/react';
import { Fragment } from 'react';
import { COMMAND_ROWS, type CommandId, MENUS, type MenuName } from '../../electron/menu.ts';
import { useApp, usePicked } from '../state/react.ts';
import { groupsOf } from './command-list.ts';
import { actionOf, runCommand } from './commands.ts';
import { keysOf } from './keys.ts';
import { goOn } from './zones.ts';

export function Menus() {
  return (
    <MenubarProvider>
      <Menubar className="menus" aria-label="Menus">
        {MENUS.map((menu) => (
          <OneMenu key={menu} name={menu} />
        ))}
      </Menubar>
    </MenubarProvider>
  );
}

function OneMenu({ name }: { readonly name: MenuName }) {
  return (
    <MenuProvider>
      <MenuButton render={<MenuItem />} className="menu-name" title={`${name} menu`}>
        {name}
      </MenuButton>
      <Menu
        portal={false}
        gutter={2}
        overflowPadding={8}
        className="menu"
        unmountOnHide
        autoFocusOnHide={focusIsInMenus}
      >
        {groupsOf(name).map((group, at) => (
          <Fragment key={group[0]}>
            {at === 0 ? null : <MenuSeparator className="menu-line" />}
            {group.map((id) => (
              <Row key={id} id={id} />
            ))}
          </Fragment>
        ))}
      </Menu>
    </MenuProvider>
  );
}

/** A menu gives the focus back to its name, unless what was chosen in it has sent the focus on. */
const focusIsInMenus = (): boolean => {
  const { activeElement } = document;
  return activeElement === document.body || activeElement?.closest('.menus') != null;
};

function Row({ id }: { readonly id: CommandId }) {
  const app = useApp();
  const action = actionOf(id);
  const words = usePicked((state) => action?.words?.(state) ?? COMMAND_ROWS[id].words);
  const why = usePicked((state) => action?.unavailable?.(state) ?? null);
  const on = usePicked((state) => action?.checked?.(state));
  return (
    <MenuItem
      className="menu-row"
      role={on === undefined ? 'menuitem' : 'menuitemcheckbox'}
      aria-checked={on}
      disabled={why !== null}
      accessibleWhenDisabled
      title={why ?? undefined}
      onClick={() => {
        runCommand(app, id);
        goOn(app, id);
      }}
    >
      <span className="menu-mark" aria-hidden="true">
        {on === true ? '✓' : ''}
      </span>
      <span className="menu-words">{words}</span>
      <kbd>{keysOf(id, app.bridge)[0] ?? ''}</kbd>
    </MenuItem>
  );
}
