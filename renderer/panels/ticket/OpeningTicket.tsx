// A door, window or other opening: its size, how far it stands from the corners on both sides, casing and plinth, which way
// a pocket door slides, whose entry it is, and the lengths of its casings.

import { capital } from '../../../core/fit/say.ts';
import {
  lookup,
  type Opening,
  type OpeningId,
  type ProfileId,
  type RoomId,
  type Side,
  type WallId,
} from '../../../core/plan/index.ts';
import { OPENING_KINDS } from '../../../core/plan/kinds.ts';
import { CASING_PARTS } from '../../../core/sheets/words.ts';
import { runCommand } from '../../app/commands.ts';
import type { CommitOptions } from '../../state/app.ts';
import type { StandingRef } from '../../tools/drag.ts';
import { faceOf, placeByGap, widened } from '../../tools/faces.ts';
import { faceOfRef } from '../../tools/standing-places.ts';
import { Choice, kindOptions } from '../kit/Choice.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { ABOVE_ZERO, ZERO_UP } from '../kit/range.ts';
import { setCasing } from './edits.ts';
import { ProfileChoice } from './fields.tsx';
import { Head, Part, ThingLink, Tick, type TicketContext, Why } from './parts.tsx';
import { type Place, placesOf, putOn } from './places.ts';
import { cornerWords, profileWords } from './say.ts';

const KINDS = kindOptions(OPENING_KINDS);

/** Of everything that stands on a wall. */
export const WIDTH_TITLE = 'Width: its middle stays where it is, unless a corner is in the way';

export function OpeningTicket({ context, id }: { readonly context: TicketContext; readonly id: OpeningId }) {
  const { app, figures, level, plan } = context;
  const on = level.walk.levelId;
  const opening = lookup(level.walk.level.openings, id);
  if (opening === undefined) return null;
  const ref = { kind: 'opening', level: on, id } as const;
  const places = placesOf(level, { kind: 'opening', id, wall: opening.wall });
  const face = faceOfRef(ref, { level: level.walk.level, walk: level.walk });
  const set = (change: { [K in keyof Opening]?: Opening[K] | null }, options?: CommitOptions): boolean =>
    app.commit({ type: 'changeOpening', level: on, opening: id, set: change }, options);
  const length = (label: string, field: 'width' | 'height' | 'sill' | 'reveal', fine = false) => (
    <FigureField
      label={label}
      figures={figures}
      takes="length"
      range={field === 'width' || field === 'height' ? ABOVE_ZERO : ZERO_UP}
      value={opening[field] ?? null}
      {...(fine && opening[field] !== undefined ? { shown: figures.fine(opening[field]) } : {})}
      {...(field === 'reveal' ? { placeholder: '0', mayBeEmpty: true } : {})}
      {...(field === 'width' ? { title: WIDTH_TITLE } : {})}
      onSet={(value) =>
        field === 'width' && face !== null
          ? putOn(context, ref, { face, ...widened(opening, value!, face) })
          : set({ [field]: value })
      }
    />
  );
  const sets = level.casings.filter((each) => each.opening === id);
  const cased = opening.kind !== 'passage';
  return (
    <>
      <Head
        title={`${capital(OPENING_KINDS[opening.kind])} ${id}`}
        under={
          <ThingLink to={{ kind: 'wall', level: on, id: opening.wall }}>in wall {opening.wall}</ThingLink>
        }
      />
      <Part title="Opening, jamb face to jamb face">
        <Choice<Opening['kind']>
          label="Kind"
          value={opening.kind}
          of={KINDS}
          onSet={(kind) => set({ kind })}
        />
        {length('Width', 'width')}
        {length('Height', 'height')}
        {length('Sill', 'sill')}
        {cased ? length('Reveal', 'reveal', true) : null}
        {opening.kind === 'pocket' ? (
          <Choice<'start' | 'end' | 'unknown'>
            label="Slides"
            value={opening.pocket ?? 'unknown'}
            of={[
              { value: 'unknown', words: 'not known' },
              { value: 'start', words: slides(places, 'start') },
              { value: 'end', words: slides(places, 'end') },
            ]}
            onSet={(pocket) => set({ pocket: pocket === 'unknown' ? null : pocket })}
          />
        ) : null}
      </Part>
      {places.map((place) => (
        <Distances
          key={`${place.found.segment.key} ${place.side}`}
          context={context}
          place={place}
          seenFrom={sideRoom(places, place.side)}
          thing={{ ref, ...opening }}
        />
      ))}
      {cased ? (
        <Part title="Casing">
          {(['left', 'right'] as const).map((side) => (
            <ProfileChoice<'unknown' | 'none'>
              key={side}
              label={`In ${sideRoom(places, side)}`}
              plan={plan}
              kind="casing"
              value={casingOf(opening, side)}
              others={[
                { value: 'unknown', words: 'not known yet' },
                { value: 'none', words: 'none' },
              ]}
              onSet={(choice) => app.commit(setCasing(on, id, opening, side, choice as ProfileId))}
            />
          ))}
          <Plinth context={context} opening={opening} set={set} />
        </Part>
      ) : null}
      {sets.map((each) => (
        <Part
          key={each.id}
          title={`Casing in ${sideRoom(places, each.side)}: ${profileWords(plan, each.profileId)}`}
        >
          <table className="ticket-lengths">
            <thead>
              <tr>
                <th scope="col">part</th>
                <th scope="col">short point</th>
                <th scope="col">long point</th>
              </tr>
            </thead>
            <tbody>
              {each.parts.map(({ part, short, long }) => (
                <tr key={part}>
                  <td>{CASING_PARTS[part]}</td>
                  <td>{figures.inches(short)}</td>
                  <td>
                    <strong>{figures.inches(long)}</strong>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
          {each.assumedFloor ? (
            <p className="ticket-warn">The new floor is not known: legs are reckoned from the subfloor.</p>
          ) : null}
        </Part>
      ))}
      <Entries context={context} id={id} places={places} />
      <div className="ticket-do row">
        <button type="button" title="Delete the opening (Del)" onClick={() => runCommand(app, 'edit.delete')}>
          Delete
        </button>
      </div>
    </>
  );
}

const casingOf = (opening: Opening, side: Side): 'unknown' | 'none' | ProfileId => {
  const own = opening.casing?.[side];
  return own === undefined ? 'unknown' : (own ?? 'none');
};

export function sideRoom(places: readonly Place[], side: Side): string {
  const own = places.find((place) => place.side === side);
  if (own === undefined) return 'no room';
  const { name, id } = own.found.room;
  // A wall that ends within a room has that room on both sides; two rooms may have one name, or none.
  const alike = places.some((other) => other.side !== side && other.found.room.name === name);
  if (!alike) return name;
  const numbers = [own.found.left, own.found.right].map((corner) => cornerWords(corner));
  return `${name || id}, ${numbers.join(' to ')}`;
}

/** Which way a pocket is, as seen in a room: towards the corner there. */
function slides(places: readonly Place[], pocket: 'start' | 'end'): string {
  const [place] = places;
  if (place === undefined) return pocket === 'start' ? 'towards the first end' : 'towards the second end';
  const toRight = (pocket === 'end') === (place.side === 'right');
  const { left, right, room } = place.found;
  return `${toRight ? 'right' : 'left'}, seen from ${room.name}: towards ${cornerWords(toRight ? right : left)}`;
}

/** How far it stands from both corners of a face; typed, it moves. */
export function Distances({
  context,
  place,
  seenFrom = place.found.room.name,
  thing: { ref, wall, width },
}: {
  readonly context: TicketContext;
  readonly place: Place;
  /** The room, where its name alone does not do. */
  readonly seenFrom?: string;
  readonly thing: { readonly ref: StandingRef; readonly wall: WallId; readonly width: number };
}) {
  const { figures, level } = context;
  const { found, side, toLeft, toRight } = place;
  const put = (from: 'left' | 'right', gap: number): boolean => {
    const face = faceOf(level.walk.level, level.walk, wall, side)!;
    return putOn(context, ref, { face, at: placeByGap(face, gap, from, width), width });
  };
  return (
    <Part title={`Seen from ${seenFrom}`}>
      <FigureField
        label={`From ${cornerWords(found.left)}, left`}
        figures={figures}
        takes="length"
        value={toLeft}
        onSet={(value) => put('left', value!)}
      />
      <FigureField
        label={`From ${cornerWords(found.right)}, right`}
        figures={figures}
        takes="length"
        value={toRight}
        onSet={(value) => put('right', value!)}
      />
    </Part>
  );
}

function Plinth({
  context: { figures, plan },
  opening,
  set,
}: {
  readonly context: TicketContext;
  readonly opening: Opening;
  readonly set: (change: { plinth: Opening['plinth'] | null }) => boolean;
}) {
  const { plinth } = opening;
  const size = (label: string, field: 'width' | 'thickness' | 'height') =>
    plinth === undefined ? null : (
      <FigureField
        label={label}
        figures={figures}
        takes="length"
        range={ABOVE_ZERO}
        value={plinth[field]}
        shown={figures.fine(plinth[field])}
        onSet={(value) => set({ plinth: { ...plinth, [field]: value! } })}
      />
    );
  return (
    <>
      <Tick
        label="Stands on plinth blocks"
        on={plinth !== undefined}
        onSet={(on) => set({ plinth: on ? firstPlinth(opening, plan) : null })}
      />
      {size('Plinth width', 'width')}
      {size('Plinth thickness', 'thickness')}
      {size('Plinth height', 'height')}
    </>
  );
}

const MM = 320;

/** A plinth to begin with: a little wider and thicker than the casing, 6 in high. Common practice, no published source. */
function firstPlinth(opening: Opening, plan: TicketContext['plan']): NonNullable<Opening['plinth']> {
  const id = opening.casing?.left ?? opening.casing?.right ?? null;
  const casing = lookup(plan.profiles, id);
  return {
    width: (casing?.width ?? 70 * MM) + 6 * MM,
    thickness: (casing?.thickness ?? 18 * MM) + 6 * MM,
    height: Math.round(152.4 * MM),
  };
}

function Entries({
  context: { app, level },
  id,
  places,
}: {
  readonly context: TicketContext;
  readonly id: OpeningId;
  readonly places: readonly Place[];
}) {
  const rooms = [...new Map(places.map(({ found }) => [found.room.id, found.room])).values()];
  if (rooms.length === 0) return null;
  return (
    <Part title="Entry">
      {rooms.map((room) => (
        <Tick
          key={room.id}
          label={`One comes into ${room.name} here`}
          on={room.record?.entry === id}
          disabled={room.record === undefined}
          onSet={(on) =>
            app.commit({
              type: 'changeRoom',
              level: level.walk.levelId,
              room: room.id as RoomId,
              set: { entry: on ? id : null },
            })
          }
        />
      ))}
      <Why>
        {rooms.some(({ record }) => record === undefined)
          ? 'A room without a name has no entry: name it first.'
          : 'Boards that face the entry run through, so that seams do not open to the eye.'}
      </Why>
    </Part>
  );
}
