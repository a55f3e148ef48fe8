// How each stock board is cut, drawn to scale along its length, with the proof of each profile's cost. A piece is a button:
// it selects the board on the plan.

import { type CutThing, cutOutline, cutThings, laidThings } from '../../../core/sheets/index.ts';
import type { SolvedPlan } from '../../state/app-state.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { sameRef } from '../../state/refs.ts';
import type { Figures } from '../kit/figures.ts';
import { stockCostWords } from './cost.ts';
import { profileName, refOf, roomName, thingNames, ticks } from './names.ts';

type Stock = SolvedPlan['solved']['report']['stock'][number];

/** The drawing's own units: the longest board is this wide. */
const WIDE = 640;
const HIGH = 28;
const MOST_SLANT = 16;

export interface HandoverProps {
  readonly last: SolvedPlan;
  readonly figures: Figures;
}

export function Boards({ last, figures }: HandoverProps) {
  const { stock } = last.solved.report;
  if (stock.length === 0)
    return (
      <p className="handover-wait soft">
        No profile in use has stock lengths. Add them under Trim, Profiles.
      </p>
    );
  const things = cutThings(last.solved.report, last.plan.levels.length);
  return (
    <>
      {stock.map((each) => (
        <ProfileBoards key={each.profile} stock={each} things={things} last={last} figures={figures} />
      ))}
    </>
  );
}

interface Laid extends HandoverProps {
  readonly things: ReadonlyMap<string, CutThing>;
}

function ProfileBoards({ stock, things, last, figures }: Laid & { readonly stock: Stock }) {
  const longest = Math.max(1, ...stock.boards.map(({ lengthMm }) => lengthMm));
  const kept = stock.keep.map(({ lengthMm, count }) => `${count} × ${figures.inches(ticks(lengthMm))}`);
  const unplaced = stock.unplaced.map((id) => {
    const thing = things.get(id);
    return thing === undefined ? id : thingNames(last, thing).full;
  });
  return (
    <section className="handover-profile" aria-label={profileName(last, stock.profile)}>
      <header className="row">
        <h2>{profileName(last, stock.profile)}</h2>
        <span className="soft">
          {stock.boards.length} {stock.boards.length === 1 ? 'board' : 'boards'}
        </span>
        <span className={stock.proved ? 'handover-proof proved' : 'handover-proof'}>
          {stockCostWords(stock, figures)}
        </span>
      </header>
      {unplaced.length === 0 ? null : <p className="wrong">No stock board holds: {unplaced.join(', ')}.</p>}
      <ol className="handover-boards">
        {stock.boards.map((board, index) => (
          // Boards have no id of their own: their place in the profile is their number.
          <li key={`${index + 1}`}>
            <BoardRow
              number={index + 1}
              board={board}
              perMm={WIDE / longest}
              things={things}
              last={last}
              figures={figures}
            />
          </li>
        ))}
      </ol>
      {kept.length === 0 ? null : <p className="soft">Off-cuts worth keeping: {kept.join(', ')}.</p>}
    </section>
  );
}

function BoardRow(props: Laid & { number: number; board: Stock['boards'][number]; perMm: number }) {
  const { number, board, perMm, things, last, figures } = props;
  const app = useApp();
  const selection = usePicked((state) => state.selection);
  const end = board.lengthMm * perMm;
  const drawn = laidThings(board, things).map(({ thing, fromMm }) => ({
    thing,
    from: fromMm * perMm,
    wide: thing.needMm * perMm,
    names: thingNames(last, thing),
  }));
  const offcut = figures.inches(ticks(board.offcutMm));
  return (
    <div className="handover-board">
      <span className="handover-board-number">
        {number}
        <small className="soft">
          {figures.length(ticks(board.lengthMm))}
          {board.onHand ? ' on hand' : ''}
        </small>
      </span>
      <div className="handover-board-picture">
        <svg viewBox={`-1 -1 ${WIDE + 2} ${HIGH + 2}`} aria-hidden="true" preserveAspectRatio="xMinYMid meet">
          <rect className="handover-stock" x={0} y={0} width={end} height={HIGH} />
          {drawn.map(({ thing, from, wide, names }) => {
            const chosen = selection.some((each) => sameRef(each, refOf(thing)));
            return (
              <g key={thing.id} className={chosen ? 'handover-piece chosen' : 'handover-piece'}>
                <polygon
                  points={cutOutline(thing, from, wide, HIGH, MOST_SLANT)
                    .map((point) => point.join(','))
                    .join(' ')}
                />
                {wide > 9 * names.short.length + 16 ? (
                  <text x={from + wide / 2} y={HIGH / 2 + 5}>
                    {names.short}
                  </text>
                ) : null}
              </g>
            );
          })}
        </svg>
        <span className="handover-board-pieces">
          {drawn.map(({ thing, names }) => {
            const room = roomName(last, thingLevel(thing), thingRoom(thing));
            const chosen = selection.some((each) => sameRef(each, refOf(thing)));
            return (
              <button
                key={thing.id}
                type="button"
                className="plain"
                aria-pressed={chosen}
                title={`Show ${names.full}, ${room}${springWords(thing, figures)}`}
                onClick={() => app.select([refOf(thing)])}
              >
                <b>{names.full}</b> {figures.inches(ticks(lengthMm(thing)))}
              </button>
            );
          })}
        </span>
      </div>
      <span className="handover-offcut">{board.offcutMm > 0 ? `off-cut ${offcut}` : 'no off-cut'}</span>
    </div>
  );
}

/** The length in the cut list. What a board is cut long to spring in is told apart, as there. */
function lengthMm({ of, needMm }: CutThing): number {
  return of.kind === 'piece' ? of.piece.overallMm : needMm;
}

function springWords({ of }: CutThing, figures: Figures): string {
  if (of.kind !== 'piece' || of.piece.springMm === 0) return '';
  return `; cut ${figures.fine(ticks(of.piece.springMm))} long to spring in`;
}

function thingLevel(thing: CutThing): string {
  return thing.of.kind === 'piece' ? thing.of.piece.level : thing.of.casing.level;
}

function thingRoom(thing: CutThing): string | null {
  return thing.of.kind === 'piece' ? thing.of.piece.room : thing.of.casing.room;
}
