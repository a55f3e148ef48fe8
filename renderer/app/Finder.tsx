// Every command by its words: type some of them, choose, Enter. What cannot be had now says why and stays in the list.

import { Combobox, ComboboxItem, ComboboxList, ComboboxProvider } from '@ariakit/react';
import { useState } from 'react';
import { COMMAND_ROWS, type CommandId } from '../../electron/menu.ts';
import { DialogBox } from '../panels/kit/DialogBox.tsx';
import { useApp, usePicked } from '../state/react.ts';
import { found } from './command-list.ts';
import { actionOf, runCommand } from './commands.ts';
import { keysOf } from './keys.ts';
import { goOn } from './zones.ts';

export function Finder() {
  const app = useApp();
  const state = usePicked((whole) => whole);
  const [typed, setTyped] = useState('');
  const wordsOf = (id: CommandId): string => actionOf(id)?.words?.(state) ?? COMMAND_ROWS[id].words;
  const whyNot = (id: CommandId): string | null => actionOf(id)?.unavailable?.(state) ?? null;
  const ids = found(typed, wordsOf, (id) => whyNot(id) === null);
  const run = (id: CommandId): void => {
    app.show(null);
    // The dialog gives the focus back first: what the command opens or focuses comes after.
    queueMicrotask(() => {
      runCommand(app, id);
      goOn(app, id);
    });
  };
  return (
    <DialogBox title="Find a command">
      <ComboboxProvider open value={typed} setValue={setTyped} resetValueOnHide={false}>
        <Combobox
          className="finder-typed"
          data-first
          aria-label="Words of the command"
          placeholder="Part of its words"
          autoSelect="always"
        />
        <ComboboxList alwaysVisible className="finder-list" aria-label="Commands">
          {ids.map((id) => {
            const why = whyNot(id);
            return (
              <ComboboxItem
                key={id}
                className="finder-item"
                value={id}
                setValueOnClick={false}
                hideOnClick={false}
                disabled={why !== null}
                accessibleWhenDisabled
                onClick={() => why === null && run(id)}
              >
                <span className="finder-words">
                  {wordsOf(id)}
                  {why === null ? null : <span className="soft finder-why">{why}</span>}
                </span>
                <span className="soft">{COMMAND_ROWS[id].menu}</span>
                <kbd>{keysOf(id, app.bridge)[0] ?? ''}</kbd>
              </ComboboxItem>
            );
          })}
        </ComboboxList>
        <p className="soft" aria-live="off">
          {ids.length === 0 ? 'No command has these words.' : ''}
        </p>
      </ComboboxProvider>
    </DialogBox>
  );
}
