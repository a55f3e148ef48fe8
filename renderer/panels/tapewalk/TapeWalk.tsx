// A room typed as the tape gives it: the length of each wall and the corner at its end, once round. Shows how far the walk
// misses its start and how that would be spread, then draws the room as one step.

import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { Point } from '../../../core/graph/index.ts';
import type { Misclosure } from '../../../core/survey/index.ts';
import type { App } from '../../state/app.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { levelOf } from '../../state/selectors.ts';
import { contextOf } from '../../tools/context.ts';
import { startPlace } from '../../tools/cursor.ts';
import { angleText } from '../../tools/directions.ts';
import { Choice } from '../kit/Choice.tsx';
import { DialogBox } from '../kit/DialogBox.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { type Figures, figuresOf } from '../kit/figures.ts';
import { useSpoken } from '../kit/Problem.tsx';
import { WALL_THICKNESS } from '../kit/range.ts';
import { TextField } from '../kit/TextField.tsx';
import { TapeDrawing } from './TapeDrawing.tsx';
import { NEW_ROW, placeFor, readRows, type TapeReading, type TapeRow, tapeRoom } from './tape-rows.ts';
import './tapewalk.css';

const WAYS = [
  { value: '0', words: 'to the right' },
  { value: '90', words: 'down the sheet' },
  { value: '180', words: 'to the left' },
  { value: '270', words: 'up the sheet' },
] as const;

/** A walk that was not drawn yet: it is there again when the dialog is. */
const drafts = new WeakMap<App, { readonly rows: readonly TapeRow[]; readonly name: string }>();

export function TapeWalk() {
  const app = useApp();
  const plan = usePicked((state) => state.open?.plan ?? null);
  const level = usePicked(levelOf);
  const drawing = usePicked((state) => state.drawing);
  const [rows, setRows] = useState<readonly TapeRow[]>(drafts.get(app)?.rows ?? [NEW_ROW]);
  const [name, setName] = useState(drafts.get(app)?.name ?? '');
  const [heading, setHeading] = useState<(typeof WAYS)[number]['value']>('0');
  const [where, setWhere] = useState<'beside' | 'chosen'>('beside');
  const [focus, setFocus] = useState(0);
  const table = useRef<HTMLTableElement>(null);
  useEffect(() => {
    table.current?.querySelector<HTMLInputElement>(`[data-row="${focus}"]`)?.focus();
  }, [focus]);
  useEffect(() => {
    drafts.set(app, { rows, name });
  }, [app, rows, name]);
  if (plan === null || level === null) return null;

  const figures = figuresOf(plan);
  const context = contextOf(app.store.get());
  const hasChosen = context?.selection.some(({ kind }) => kind === 'node' || kind === 'corner') ?? false;
  const chosen: Point | null =
    where === 'chosen' && context !== null && hasChosen ? startPlace(context) : null;
  const reading = readRows(rows, figures, Number(heading));
  const at = placeFor(level, chosen, plan.units);
  const wish = { at, headingDeg: Number(heading), thickness: drawing.thickness, name };
  const room = reading.entries.length < 3 ? null : tapeRoom(plan, level, reading.entries, wish);
  const wrong = reading.problems.find((problem) => problem !== null) ?? null;
  const ready = wrong === null && room !== null && 'edit' in room;

  const change = (i: number, some: Partial<TapeRow>): void =>
    setRows((all) => all.map((row, j) => (i === j ? { ...row, ...some } : row)));
  const drop = (i: number): void => {
    setRows((all) => (all.length === 1 ? [NEW_ROW] : all.filter((_, j) => j !== i)));
    setFocus(Math.max(0, i - 1));
  };
  const enter = (event: KeyboardEvent, i: number): void => {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    if (event.ctrlKey || event.metaKey) {
      draw();
      return;
    }
    if (i === rows.length - 1) setRows((all) => [...all, NEW_ROW]);
    setFocus(i + 1);
  };
  function draw(): void {
    if (!ready) return;
    if (
      app.commit(room.edit, {
        words: name.trim() === '' ? 'draw room from the tape' : `draw ${name.trim()} from the tape`,
      })
    ) {
      drafts.delete(app);
      app.show(null);
    }
  }

  return (
    <DialogBox
      title="Tape walk"
      wide
      foot={
        <>
          <span className={wrong === null ? 'soft tapewalk-why' : 'wrong tapewalk-why'}>
            {wrong ??
              (room === null ? 'Three lengths at least go round a room.' : 'why' in room ? room.why : '')}
          </span>
          <button type="button" onClick={() => app.show(null)}>
            Cancel
          </button>
          <button
            type="button"
            className="main tapewalk-draw"
            title="Draw the room (Ctrl+Enter)"
            aria-disabled={!ready}
            onClick={draw}
          >
            Draw the room
          </button>
        </>
      }
    >
      <div className="tapewalk">
        <div className="tapewalk-rows">
          <p className="soft">
            Go round with the wall on your left hand. Type each wall’s length and the corner at its end; Enter
            adds the next.
          </p>
          <table ref={table}>
            <thead>
              <tr>
                <th scope="col">Wall</th>
                <th scope="col">Length</th>
                <th scope="col">Corner at its end</th>
                <th scope="col">Reads</th>
                <th scope="col">
                  <span className="unseen">Take out</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {rows.map((row, i) => (
                <tr key={i} onKeyDown={(event) => enter(event, i)}>
                  <th scope="row">{i + 1}</th>
                  <td>
                    <input
                      data-row={i}
                      aria-label={`Length of wall ${i + 1}`}
                      title={`Length of wall ${i + 1}`}
                      aria-invalid={reading.problems[i] != null}
                      autoComplete="off"
                      spellCheck={false}
                      value={row.length}
                      onChange={({ target }) => change(i, { length: target.value })}
                    />
                  </td>
                  <td>
                    <select
                      aria-label={`Corner after wall ${i + 1}`}
                      title={`Corner after wall ${i + 1}`}
                      value={row.corner}
                      onChange={({ target }) => change(i, { corner: target.value as TapeRow['corner'] })}
                    >
                      <option value="inside">Inside</option>
                      <option value="outside">Outside</option>
                    </select>
                  </td>
                  <td>
                    <input
                      className="tapewalk-angle"
                      aria-label={`Angle of the corner after wall ${i + 1}, degrees`}
                      title={`Angle of the corner after wall ${i + 1}, degrees`}
                      autoComplete="off"
                      spellCheck={false}
                      value={row.angle}
                      onChange={({ target }) => change(i, { angle: target.value })}
                    />
                  </td>
                  <td>
                    <button
                      type="button"
                      className="plain"
                      aria-label={`Take out wall ${i + 1}`}
                      title={`Take out wall ${i + 1}`}
                      onClick={() => drop(i)}
                    >
                      ×
                    </button>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
          <button
            type="button"
            title="Add a wall (Enter in a row)"
            onClick={() => {
              setRows((all) => [...all, NEW_ROW]);
              setFocus(rows.length);
            }}
          >
            Add a wall
          </button>
        </div>
        <div className="tapewalk-side">
          <TapeDrawing
            walk={reading.walk}
            shape={room !== null && 'shape' in room ? room.shape : null}
            at={at}
          />
          <Closing reading={reading} figures={figures} />
          <TextField label="Room’s name" value={name} placeholder="Room" onSet={setName} />
          <FigureField
            label="Walls are thick"
            figures={figures}
            takes="length"
            range={WALL_THICKNESS}
            value={drawing.thickness}
            onSet={(value) => app.change((now) => ({ drawing: { ...now.drawing, thickness: value! } }))}
          />
          <Choice label="Wall 1 runs" value={heading} of={WAYS} onSet={setHeading} />
          <Choice
            label="It starts"
            value={where}
            of={[
              {
                value: 'beside',
                words: Object.keys(level.nodes).length === 0 ? 'at the sheet’s origin' : 'beside the plan',
              },
              { value: 'chosen', words: 'at the chosen corner', disabled: !hasChosen },
            ]}
            onSet={setWhere}
          />
        </div>
      </div>
    </DialogBox>
  );
}

/** How the walk comes back to its start. */
function Closing({ reading, figures }: { readonly reading: TapeReading; readonly figures: Figures }) {
  const { walk, rule } = reading;
  const missed =
    walk === null || rule === null
      ? ''
      : rule === 'none'
        ? 'nothing: it closes'
        : `${figures.length(walk.misclosure.distance)}, ${fractionWords(walk.misclosure)}`;
  useSpoken(missed === '' ? '' : `Misses its start by ${missed}.`);
  if (walk === null || rule === null)
    return <p className="tapewalk-closing soft">The walk is not round yet.</p>;
  const { perimeter, angleMissDeg } = walk;
  return (
    <dl className="tapewalk-closing">
      <dt>Round</dt>
      <dd>{figures.length(perimeter)}</dd>
      <dt>Misses its start by</dt>
      <dd>{missed}</dd>
      {angleMissDeg === null || Math.abs(angleMissDeg) < 0.05 ? null : (
        <>
          <dt>Corners miss a full turn by</dt>
          <dd>{angleText(angleMissDeg)}</dd>
        </>
      )}
      <dt>Spread</dt>
      <dd>{RULE_WORDS[rule]}</dd>
    </dl>
  );
}

const RULE_WORDS = {
  none: 'not needed',
  square: 'over opposite walls, so that right angles stay',
  compass: 'over all walls by their length (compass rule)',
} as const;

function fractionWords({ fraction }: Misclosure): string {
  return fraction === 0 ? '' : `1 in ${Math.round(1 / fraction)} of the way round`;
}
