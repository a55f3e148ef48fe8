// How each stock board is cut, drawn to scale along its length, with the proof of each profile's cost. A piece is a button:
// it selects the piece on the plan. A board can be held as it is, so that all others are laid around it.

import type { ProfileId } from '../../../core/plan/index.ts';
import { type CutThing, cutOutline, cutThings, laidThings } from '../../../core/sheets/index.ts';
import type { SolvedPlan } from '../../state/app-state.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { sameRef } from '../../state/refs.ts';
import type { Figures } from '../kit/figures.ts';
import { stockCostWords } from './cost.ts';
import { type Board, heldCount, holdEdit, isHeld, type Stock } from './held.ts';
import { useKeptFocus } from './kept-focus.ts';
import { cutNames, profileName, refOf, roomName, thingNames, ticks } from './names.ts';

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
  const app = useApp();
  const plan = usePicked((state) => state.open?.plan) ?? last.plan;
  const keepFocus = useKeptFocus<HTMLOListElement>();
  const name = profileName(last, stock.profile);
  const held = heldCount(plan, stock.profile);
  const loose = last.solved.report.findings.filter(
    ({ code, about }) => code === 'held-loose' && about.at(-1) === stock.profile,
  );
  const longest = Math.max(1, ...stock.boards.map(({ lengthMm }) => lengthMm));
  const kept = stock.keep.map(({ lengthMm, count }) => `${count} × ${figures.inches(ticks(lengthMm))}`);
  const unplaced = stock.unplaced.map(cutNames(last));
  return (
    <section className="handover-profile" aria-label={name}>
      <header className="row">
        <h2>{name}</h2>
        <span className="soft">
          {stock.boards.length} {stock.boards.length === 1 ? 'board' : 'boards'}
          {held === 0 ? '' : `, ${held} held`}
        </span>
        {held === 0 ? null : (
          <button
            type="button"
            className="handover-hold"
            aria-label={`Let all go, boards of ${name}`}
            title={`Let go of what is held of ${name}: its boards are laid out anew`}
            onClick={() => app.commit({ type: 'letGoBoards', profile: stock.profile as ProfileId })}
          >
            Let all go
          </button>
        )}
        <span className={stock.proved ? 'handover-proof proved' : 'handover-proof'}>
          {stockCostWords(stock, figures)}
        </span>
      </header>
      {unplaced.length === 0 ? null : <p className="wrong">No stock board holds: {unplaced.join(', ')}.</p>}
      {loose.map(({ message, about }) => (
        <p key={message} className="handover-loose row">
          <span>{message}</span>
          <button
            type="button"
            className="handover-hold"
            title="Let go of this board: its record is taken out of the plan"
            onClick={() =>
              app.commit({ type: 'letGoBoard', profile: stock.profile as ProfileId, piece: about[0]! })
            }
          >
            Let it go
          </button>
        </p>
      ))}
      <ol className="handover-boards" ref={keepFocus}>
        {stock.boards.map((board, index) => (
          // Boards have no id of their own: a piece is on one board only.
          <li key={board.pieces[0] ?? index}>
            <BoardRow
              stock={stock}
              place={index}
              board={board}
              held={isHeld(last, plan, stock.profile, index)}
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

interface RowProps extends Laid {
  readonly stock: Stock;
  readonly place: number;
  readonly board: Board;
  readonly held: boolean;
  readonly perMm: number;
}

function BoardRow({ stock, place, board, held, perMm, things, last, figures }: RowProps) {
  const number = place + 1;
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
        {number} {held ? <b className="handover-held">held</b> : null}
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
          {held ? <path className="handover-held-ends" d={`M2.5 0V${HIGH}M${end - 2.5} 0V${HIGH}`} /> : null}
        </svg>
        <span className="handover-board-pieces">
          {drawn.map(({ thing, names }) => {
            const chosen = selection.some((each) => sameRef(each, refOf(thing)));
            return (
              <button
                key={thing.id}
                type="button"
                className="plain"
                aria-pressed={chosen}
                title={`Show ${placed(last, thing)}`}
                onClick={() => app.select([refOf(thing)])}
              >
                <b>{names.full}</b> {figures.inches(ticks(thing.lengthMm))}
                {thing.springMm > 0 ? (
                  <span className="soft">, spring + {figures.fine(ticks(thing.springMm))}</span>
                ) : null}
              </button>
            );
          })}
        </span>
      </div>
      <span className="handover-offcut">
        {offcut === figures.inches(0) ? 'no off-cut' : `off-cut ${offcut}`}
        <button
          type="button"
          className="handover-hold"
          aria-label={held ? `Let go of board ${number}` : `Hold board ${number} as it is`}
          title={
            held
              ? 'Let go of this board: it is laid out anew with all others'
              : 'Hold this board as it is: all others are laid around it'
          }
          onClick={() => {
            const plan = app.store.get().open?.plan;
            if (plan !== undefined) app.commit(holdEdit(last, plan, stock, place));
          }}
        >
          {held ? 'Let go' : 'Hold'}
        </button>
      </span>
    </div>
  );
}

/** Its name with the room: a casing's name has the room already. */
function placed(last: SolvedPlan, thing: CutThing): string {
  const { full } = thingNames(last, thing);
  if (thing.of.kind === 'casing') return full;
  return `${full}, ${roomName(last, thing.of.piece.level, thing.of.piece.room)}`;
}
