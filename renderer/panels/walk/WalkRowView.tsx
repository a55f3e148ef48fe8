// One row of the walk: a sign in the gutter that shows what stands there on the way round, its words, and a red pencil mark
// where something is wrong. Drawn again only where it reads otherwise.

import { memo } from 'react';
import { usePicked } from '../../state/react.ts';
import { isPlacingJoints } from '../../state/selectors.ts';
import { sameRow, type WalkRow } from './row.ts';

export interface WalkRowProps {
  readonly row: WalkRow;
  readonly chosen: boolean;
  readonly focused: boolean;
}

/** Height of a row, as in walk.css. */
const ROW_REM = 1.625;

const never = (): boolean => false;

export const idOfRow = (key: string): string => `walk:${key}`;

const WalkRowView = memo(
  function WalkRowView({ row, chosen, focused }: WalkRowProps) {
    const placing = usePicked(row.joined ? isPlacingJoints : never);
    const { key, kind, depth, opens, open, sign, words, more, name, shape, count, worst, place, of } = row;
    return (
      <div
        id={idOfRow(key)}
        data-row={key}
        role="treeitem"
        className={`walk-row walk-${kind}${shape === '' ? '' : ` walk-${shape}`}`}
        aria-level={depth}
        aria-posinset={place}
        aria-setsize={of}
        aria-expanded={opens ? open : undefined}
        aria-selected={chosen}
        aria-label={placing ? `${name}, its joint is still being placed` : name}
        tabIndex={focused ? 0 : -1}
        data-focus={focused ? '' : undefined}
      >
        {opens ? (
          <span className="walk-turn" data-turn="">
            <svg viewBox="0 0 12 12" aria-hidden="true">
              <path d={open ? 'M2.5 4.5 6 8l3.5-3.5' : 'M4.5 2.5 8 6 4.5 9.5'} />
            </svg>
          </span>
        ) : (
          <span className="walk-sign">{sign}</span>
        )}
        <span className="walk-words">{words}</span>
        <span className="walk-more">{placing ? `joint being placed · ${more}` : more}</span>
        {worst === null ? null : (
          <span
            className={`walk-mark walk-mark-${worst}`}
            title={`${count} in red pencil, the worst: ${worst}`}
          >
            {count}
          </span>
        )}
      </div>
    );
  },
  (a, b) => a.chosen === b.chosen && a.focused === b.focused && sameRow(a.row, b.row),
);

/** Rows that stand together; drawn again only where one of them reads otherwise, is chosen or has the focus. */
export const RowGroup = memo(
  function RowGroup({
    rows,
    chosen,
    focused,
  }: {
    readonly rows: readonly WalkRow[];
    /** Keys, one a line. */
    readonly chosen: string;
    readonly focused: string | null;
  }) {
    const keys = new Set(chosen === '' ? [] : chosen.split('\n'));
    const views = rows.map((row) => (
      <WalkRowView key={row.key} row={row} chosen={keys.has(row.key)} focused={row.key === focused} />
    ));
    if (rows[0]?.depth !== 3) return views;
    // What is out of sight is not laid out; this is how high it will be.
    return (
      <div className="walk-group" style={{ containIntrinsicBlockSize: `auto ${rows.length * ROW_REM}rem` }}>
        {views}
      </div>
    );
  },
  (a, b) =>
    a.chosen === b.chosen &&
    a.focused === b.focused &&
    a.rows.length === b.rows.length &&
    a.rows.every((row, at) => sameRow(row, b.rows[at]!)),
);
