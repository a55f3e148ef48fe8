// What goes where, room by room: a row for each room, a column for each line. One cell, a row like another, or a whole
// column is set at once; faces that do otherwise are listed below.

import { useState } from 'react';
import { bareName } from '../../../core/fit/say.ts';
import { lookup, type Plan, type ProfileId, sortedEntries, type TrimLine } from '../../../core/plan/index.ts';
import { LINE_NAMES } from '../../../core/plan/kinds.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { DialogBox } from '../kit/DialogBox.tsx';
import { ONLY_NAMED, onlyNamedWords } from '../ticket/laid-out.ts';
import {
  asRoom,
  type CellValue,
  COLUMNS,
  type Column,
  exceptionsOf,
  likeRow,
  type MatrixRow,
  matrixOf,
  setCell,
  setSeveral,
} from './rooms-matrix.ts';
import './profiles.css';

const WORDS: Readonly<Record<Column, string>> = { ...LINE_NAMES, casing: 'casing' };
/** Values of a list that no id can have. */
const NONE = '/none';
const UNSET = '/unset';
const SEVERAL = '/several';

const wordOf = (cell: CellValue): string =>
  cell.is === 'profile' ? cell.id : { none: NONE, unset: UNSET, several: SEVERAL }[cell.is];
const profileOf = (value: string): ProfileId | null | undefined =>
  value === UNSET ? undefined : value === NONE ? null : (value as ProfileId);

/** What a room would do without the casing said: `unset` is the checks' word for not known. */
const unsetWords = (column: Column): string => (column === 'casing' ? 'not known' : '–');

export function RoomsDialog() {
  const app = useApp();
  const derived = usePicked(({ open }) => open?.derived ?? null);
  const [copied, setCopied] = useState<MatrixRow | null>(null);
  if (derived === null) return null;
  const { plan } = derived;
  const rows = matrixOf(derived);
  const exceptions = exceptionsOf(derived);
  const levels = derived.levels.map(({ walk }) => walk.levelId);

  function column(of: Column, value: string): void {
    const wanted = rows.map((row) => ({ row, column: of, profile: profileOf(value) }));
    const edit = setSeveral(plan, wanted, `set ${WORDS[of]} everywhere`);
    if (edit !== null) app.commit(edit, { words: `set ${WORDS[of]} everywhere` });
  }
  function like(row: MatrixRow, other: MatrixRow): void {
    const wanted = likeRow(other).map((each) => ({ row, ...each }));
    const words = `trim ${row.room.name} as ${other.room.name}`;
    const edit = setSeveral(plan, wanted, words);
    if (edit !== null) app.commit(edit, { words });
  }

  return (
    <DialogBox
      title="What goes where"
      wide
      foot={
        <>
          <button type="button" onClick={() => app.show({ id: 'profiles' })}>
            Profiles…
          </button>
          <button type="button" className="main" title="Close (Esc)" onClick={() => app.show(null)}>
            Done
          </button>
        </>
      }
    >
      {rows.length === 0 ? (
        <p className="soft">There is no room yet: draw walls until they go round one.</p>
      ) : (
        <table className="matrix">
          <thead>
            <tr>
              <th scope="col">Room</th>
              {COLUMNS.map((each) => (
                <th key={each} scope="col">
                  {WORDS[each]}
                </th>
              ))}
              <th scope="col">Row</th>
            </tr>
            <tr className="matrix-all">
              <th scope="row">Every room</th>
              {COLUMNS.map((each) => (
                <td key={each}>
                  <select
                    value=""
                    aria-label={`${WORDS[each]} in every room`}
                    title={`Set the ${WORDS[each]} of every room at once`}
                    onChange={({ target }) => column(each, target.value)}
                  >
                    <option value="" disabled>
                      set all…
                    </option>
                    <Profiles plan={plan} column={each} />
                  </select>
                </td>
              ))}
              <td />
            </tr>
          </thead>
          {levels.map((level) => {
            const own = rows.filter((row) => row.level === level);
            if (own.length === 0) return null;
            return (
              <tbody key={level}>
                {levels.length > 1 ? (
                  <tr className="matrix-level">
                    <th scope="rowgroup" colSpan={COLUMNS.length + 2}>
                      {own[0]!.levelName}
                    </th>
                  </tr>
                ) : null}
                {own.map((row) => (
                  <tr key={row.room.id}>
                    <th scope="row">{row.room.name || row.room.id}</th>
                    {COLUMNS.map((each) => (
                      <td key={each}>
                        <Cell plan={plan} row={row} column={each} />
                      </td>
                    ))}
                    <td>
                      <CopyRow row={row} copied={copied} onCopy={setCopied} onPaste={like} />
                    </td>
                  </tr>
                ))}
              </tbody>
            );
          })}
        </table>
      )}
      <p className="soft matrix-note">{onlyNamedWords(ONLY_NAMED)}</p>
      <h3 className="matrix-head">Faces that do otherwise</h3>
      {exceptions.length === 0 ? (
        <p className="soft">None: every face does as its room.</p>
      ) : (
        <ul className="matrix-exceptions">
          {exceptions.map((each) => {
            const what = each.profile === null ? 'none' : named(plan, each.profile);
            const where = `${each.room.name}, wall ${each.between[0]} to ${each.between[1]}`;
            return (
              <li key={`${each.level} ${each.face} ${each.line}`}>
                <span>
                  {where}: {LINE_NAMES[each.line]} <strong>{what}</strong>
                </span>
                <button
                  type="button"
                  title={`${where}: ${LINE_NAMES[each.line]} as the room has it`}
                  onClick={() => app.commit(asRoom(each))}
                >
                  As the room<span className="unseen">, {where}</span>
                </button>
              </li>
            );
          })}
        </ul>
      )}
    </DialogBox>
  );
}

interface CopyRowProps {
  readonly row: MatrixRow;
  readonly copied: MatrixRow | null;
  readonly onCopy: (row: MatrixRow | null) => void;
  readonly onPaste: (row: MatrixRow, from: MatrixRow) => void;
}

/** A row is copied with one button and put on others with the same. */
function CopyRow({ row, copied, onCopy, onPaste }: CopyRowProps) {
  const name = row.room.name || row.room.id;
  const own = copied !== null && copied.level === row.level && copied.room.id === row.room.id;
  if (copied === null || own)
    return (
      <button
        type="button"
        aria-pressed={own}
        title={own ? `Let go of ${name}’s trim` : `Copy ${name}’s trim, to put it in other rooms`}
        onClick={() => onCopy(own ? null : row)}
      >
        {own ? 'Copied' : 'Copy'}
        <span className="unseen"> the trim of {name}</span>
      </button>
    );
  return (
    <button type="button" title={`Trim ${name} as ${copied.room.name}`} onClick={() => onPaste(row, copied)}>
      Paste<span className="unseen"> into {name}</span>
    </button>
  );
}

function named(plan: Plan, id: ProfileId): string {
  const profile = lookup(plan.profiles, id);
  return profile === undefined ? id : bareName(id, profile);
}

function Profiles({ plan, column }: { readonly plan: Plan; readonly column: Column }) {
  return (
    <>
      {sortedEntries(plan.profiles)
        .filter(([, each]) => each.kind === column)
        .map(([id, each]) => (
          <option key={id} value={id}>
            {bareName(id, each)}
          </option>
        ))}
      <option value={NONE}>none</option>
      <option value={UNSET}>{unsetWords(column)}</option>
    </>
  );
}

function Cell({
  plan,
  row,
  column,
}: {
  readonly plan: Plan;
  readonly row: MatrixRow;
  readonly column: Column;
}) {
  const app = useApp();
  const cell = row.cells[column];
  if (column === 'casing' && row.openings.length === 0) return <span className="soft">no opening</span>;
  const where = row.room.name || row.room.id;
  return (
    <span className="matrix-cell">
      <select
        value={wordOf(cell)}
        className={cell.is}
        aria-label={`${WORDS[column]} in ${where}`}
        title={`${WORDS[column]} in ${where}${cell.is === 'profile' ? `: ${named(plan, cell.id)}` : ''}`}
        onChange={({ target }) => {
          const edit = setCell(plan, row, column, profileOf(target.value));
          if (edit !== null) app.commit(edit);
        }}
      >
        {cell.is === 'several' ? (
          <option value={SEVERAL} disabled>
            {cell.ids.length} kinds
          </option>
        ) : null}
        <Profiles plan={plan} column={column} />
      </select>
      {column === 'base' || column === 'shoe' ? (
        <button
          type="button"
          className="plain"
          aria-label={`Which ${WORDS[column]} fits in ${where}`}
          title={`Which ${WORDS[column]} fits in ${where}, and why another does not`}
          onClick={() =>
            app.show({
              id: 'picker',
              of: { level: row.level, room: row.room.id, line: column as TrimLine, back: true },
            })
          }
        >
          ?
        </button>
      ) : null}
    </span>
  );
}
