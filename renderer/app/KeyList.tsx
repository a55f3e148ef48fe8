// All keys, by menu, made from the command table, and those that every part has by its own.

import { COMMAND_ROWS, MENUS } from '../../electron/menu.ts';
import { DialogBox } from '../panels/kit/DialogBox.tsx';
import { useApp } from '../state/react.ts';
import { groupsOf } from './command-list.ts';
import { keysOf } from './keys.ts';

/** What tools and parts do by keys of their own, by what is in hand. */
const POINTER: readonly (readonly [string, string])[] = [
  ['Wheel, pinch', 'Zoom at the pointer'],
  ['Space and drag, middle button', 'Move the sheet'],
  ['Ctrl while pointing or dragging', 'Snapping the other way'],
  ['N while drawing or dragging', 'Catch the next thing near'],
  ['Esc while dragging', 'Put everything back'],
  ['Shift and click', 'Choose one more, or let it go'],
  ['Alt and click again', 'Choose what lies under it'],
  ['Drag over the floor to the right', 'Choose what lies inside the box'],
  ['The same to the left, or with Alt', 'Choose what the box touches'],
  ['Double click', 'Type distances of a wall or a thing'],
  ['Alt while dragging a wall', 'Without the walls in line with it'],
  ['Arrow keys, with Shift farther', 'Move what is chosen; with nothing chosen, the sheet'],
  ['Arrow keys, with Shift finer, and Enter', 'While drawing: move the cross and click there'],
  ['A', 'While drawing: along the inside, the middle or the outside'],
  ['K, Enter', 'While drawing walls: close them, end them'],
  ['H, Backspace', 'While drawing walls: the room on the other side, one point back'],
  ['Tab, Shift+Tab', 'From part to part, and within the tape bar from figure to figure'],
];

export function KeyList() {
  const { bridge } = useApp();
  return (
    <DialogBox title="List of keys" wide>
      <p className="files-said">
        Keys without Ctrl or Alt work while the sheet or the walk has the focus, ? on every button too. A
        field that you type in keeps its own keys.
        {bridge.form === 'browser' ? ' Keys that the browser keeps for its tabs are left out.' : ''}
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it is read by scrolling, so keys must reach it */}
      <section className="keys-columns" aria-label="Keys by menu" tabIndex={0} data-first>
        {MENUS.map((menu) => (
          <section key={menu} aria-labelledby={`keys-${menu}`}>
            <h3 id={`keys-${menu}`}>{menu}</h3>
            <table>
              <tbody>
                {groupsOf(menu)
                  .flat()
                  .filter((id) => keysOf(id, bridge).length > 0)
                  .map((id) => (
                    <tr key={id}>
                      <th scope="row">{COMMAND_ROWS[id].words.replace(/…$/, '')}</th>
                      <td>
                        {keysOf(id, bridge).map((each) => (
                          <kbd key={each}>{each}</kbd>
                        ))}
                      </td>
                    </tr>
                  ))}
              </tbody>
            </table>
          </section>
        ))}
        <section aria-labelledby="keys-pointer">
          <h3 id="keys-pointer">On the sheet</h3>
          <table>
            <tbody>
              {POINTER.map(([what, does]) => (
                <tr key={what}>
                  <th scope="row">{does}</th>
                  <td>{what}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      </section>
    </DialogBox>
  );
}
