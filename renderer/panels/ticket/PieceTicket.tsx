// A board: its lengths, what is done at both ends and how the saw is set, when it goes up, what it is cut from, its scribe.
// A measured length is typed here.

import { capital } from '../../../core/fit/say.ts';
import { lookup } from '../../../core/plan/index.ts';
import { LINE_NAMES } from '../../../core/plan/kinds.ts';
import type { Solved } from '../../../core/report/index.ts';
import type { PieceEnd } from '../../../core/trim/index.ts';
import type { Ref } from '../../state/refs.ts';
import { FigureField } from '../kit/FigureField.tsx';
import { ABOVE_ZERO } from '../kit/range.ts';
import { setStretch } from './edits.ts';
import type { PieceFound } from './find.ts';
import { Fact, Head, Part, ThingLink, type TicketContext, Why } from './parts.tsx';
import { pieceFacts } from './piece-facts.ts';
import { endWords, profileWords, sawWords } from './say.ts';

export function PieceTicket({
  context,
  found,
  solved,
}: {
  readonly context: TicketContext;
  readonly found: PieceFound;
  readonly solved: Solved | null;
}) {
  const { app, shown, figures, level, plan } = context;
  const { piece, trim } = found;
  const on = level.walk.levelId;
  const facts = pieceFacts(shown, solved, found);
  const { stretch, segment } = piece;
  const own = lookup(segment.record?.stretches ?? {}, stretch.key) ?? null;
  const byFace = own === null && stretch.measured !== null;
  const isReturn = piece.returnOf !== null;
  const what = isReturn ? `Return of board ${piece.returnOf}` : `Board ${piece.id}`;
  return (
    <>
      <Head
        title={`${what}, ${LINE_NAMES[piece.line]}`}
        under={
          <>
            {profileWords(plan, piece.profileId)} ·{' '}
            <ThingLink to={{ kind: 'room', level: on, id: piece.room }}>{trim.room.name}</ThingLink> ·{' '}
            <ThingLink to={{ kind: 'segment', level: on, id: segment.key }}>its wall</ThingLink>
          </>
        }
      />
      <Part title="Length">
        {isReturn ? null : (
          <FigureField
            range={ABOVE_ZERO}
            label={piece.parts > 1 ? 'Measured, whole stretch' : 'Measured'}
            figures={figures}
            takes="length"
            value={own}
            placeholder={
              byFace
                ? `${figures.length(stretch.measured!)}, from the wall`
                : `drawn ${figures.length(stretch.drawn)}`
            }
            mayBeEmpty
            onSet={(value) => app.commit(setStretch(on, segment.key, stretch.key, value))}
          />
        )}
        <table className="ticket-lengths">
          <thead>
            <tr>
              <th scope="col">back</th>
              <th scope="col">face</th>
              <th scope="col">overall</th>
            </tr>
          </thead>
          <tbody>
            <tr>
              <td>{figures.inches(piece.back)}</td>
              <td>{figures.inches(piece.face)}</td>
              <td>
                <strong>{figures.inches(piece.overall)}</strong>
              </td>
            </tr>
          </tbody>
        </table>
        {piece.spring > 0 ? <Fact label="To spring in, on top">{figures.fine(piece.spring)}</Fact> : null}
        {piece.lengthFrom === 'drawn' && !isReturn ? (
          <p className="ticket-warn">Drawn: measure before cutting.</p>
        ) : null}
      </Part>
      <Part title="Ends, as seen facing the wall">
        {(['left', 'right'] as const).map((side) => (
          <EndFact key={side} context={context} side={side} end={piece[side]} />
        ))}
      </Part>
      {isReturn ? null : (
        <Part title="Putting up">
          <Fact label="Order">{facts.order}</Fact>
          {facts.after.length > 0 ? (
            <Fact label="After">
              {facts.after.map((id) => (
                <ThingLink key={id} to={{ kind: 'piece', level: on, id }}>
                  {id}
                </ThingLink>
              ))}
            </Fact>
          ) : null}
        </Part>
      )}
      <Part title="Cut from">
        {solved === null ? (
          <p className="soft">Being worked out…</p>
        ) : facts.stock !== null ? (
          <Fact label={facts.stock.onHand ? 'Board on hand' : 'Board'}>
            {figures.length(facts.stock.length)}
            {facts.stock.others.length > 0 ? ` together with ${facts.stock.others.join(', ')}` : ''}
          </Fact>
        ) : (
          <p className={facts.unplaced ? 'wrong' : 'soft'}>
            {facts.unplaced ? 'No board is long enough.' : 'This profile has no stock list.'}
          </p>
        )}
      </Part>
      {facts.scribe.length > 0 ? (
        <Part title="Scribe to the floor">
          {facts.scribe.map((words) => (
            <Why key={words}>{words}</Why>
          ))}
        </Part>
      ) : null}
    </>
  );
}

function EndFact({
  context: { level },
  side,
  end,
}: {
  readonly context: TicketContext;
  readonly side: 'left' | 'right';
  readonly end: PieceEnd;
}) {
  const on = level.walk.levelId;
  const to: Ref =
    'corner' in end.at
      ? { kind: 'corner', level: on, id: end.at.corner.key }
      : 'opening' in end.at
        ? { kind: 'opening', level: on, id: end.at.opening }
        : 'builtIn' in end.at
          ? { kind: 'builtIn', level: on, id: end.at.builtIn }
          : { kind: 'piece', level: on, id: end.at.piece };
  return (
    <Fact label={capital(side)}>
      <ThingLink to={to}>{endWords(level, end)}</ThingLink>
      <br />
      <strong>{sawWords(end)}</strong>
    </Fact>
  );
}
