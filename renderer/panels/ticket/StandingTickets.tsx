// What stands on a wall beside openings: built-ins, outlets and registers. All their fields.

import { capital } from '../../../core/fit/say.ts';
import { type BuiltIn, type BuiltInId, lookup, type Mark, type MarkId } from '../../../core/plan/index.ts';
import { BUILT_IN_KINDS } from '../../../core/plan/kinds.ts';
import { runCommand } from '../../app/commands.ts';
import { faceOf, widened } from '../../tools/faces.ts';
import { Choice, kindOptions } from '../kit/Choice.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { ABOVE_ZERO, type Range, ZERO_UP } from '../kit/range.ts';
import { Distances, WIDTH_TITLE } from './OpeningTicket.tsx';
import { Head, Part, ThingLink, type TicketContext, Why } from './parts.tsx';
import { placesOf, putOn } from './places.ts';

const KINDS = kindOptions(BUILT_IN_KINDS);

export function BuiltInTicket({ context, id }: { readonly context: TicketContext; readonly id: BuiltInId }) {
  const { app, figures, level } = context;
  const on = level.walk.levelId;
  const item = lookup(level.walk.level.builtIns, id);
  if (item === undefined) return null;
  const ref = { kind: 'builtIn', level: on, id } as const;
  const face = faceOf(level.walk.level, level.walk, item.wall, item.side);
  const set = (change: { [K in keyof BuiltIn]?: BuiltIn[K] | null }): boolean =>
    app.commit({ type: 'changeBuiltIn', level: on, builtIn: id, set: change });
  const length = (label: string, field: 'width' | 'bottom' | 'top' | 'depth') => (
    <FigureField
      label={label}
      figures={figures}
      takes="length"
      range={standingRange(item, field)}
      value={item[field] ?? null}
      {...(field === 'width' ? { title: WIDTH_TITLE } : {})}
      {...(field === 'depth' ? { placeholder: '0', mayBeEmpty: true } : {})}
      onSet={(value) =>
        field === 'width' && face !== null
          ? putOn(context, ref, { face, ...widened(item, value!, face) })
          : set({ [field]: value })
      }
    />
  );
  const places = placesOf(level, { kind: 'builtIn', id, wall: item.wall });
  return (
    <>
      <Head
        title={`${capital(BUILT_IN_KINDS[item.kind])} ${id}`}
        under={<ThingLink to={{ kind: 'wall', level: on, id: item.wall }}>on wall {item.wall}</ThingLink>}
      />
      <Part title="Built-in">
        <Choice<BuiltIn['kind']> label="Kind" value={item.kind} of={KINDS} onSet={(kind) => set({ kind })} />
        {length('Width', 'width')}
        {length('Bottom', 'bottom')}
        {length('Top', 'top')}
        {length('Depth', 'depth')}
        <Choice<'square' | 'scribe' | 'return'>
          label="Boards end"
          value={item.ends ?? 'square'}
          of={[
            { value: 'square', words: 'square against it' },
            { value: 'scribe', words: 'scribed to it' },
            { value: 'return', words: 'returned, short of it' },
          ]}
          onSet={(ends) => set({ ends })}
        />
        <Why>
          It stops a line of trim where their heights overlap. With a depth it stops the next wall too, at a
          corner.
        </Why>
      </Part>
      {places.map((place) => (
        <Distances key={place.found.segment.key} context={context} place={place} thing={{ ref, ...item }} />
      ))}
      <OtherSide side={item.side} flip={(side) => set({ side })} what="built-in" context={context} />
    </>
  );
}

export function MarkTicket({ context, id }: { readonly context: TicketContext; readonly id: MarkId }) {
  const { app, figures, level } = context;
  const on = level.walk.levelId;
  const mark = lookup(level.walk.level.marks, id);
  if (mark === undefined) return null;
  const ref = { kind: 'mark', level: on, id } as const;
  const face = faceOf(level.walk.level, level.walk, mark.wall, mark.side);
  const set = (change: { [K in keyof Mark]?: Mark[K] | null }): boolean =>
    app.commit({ type: 'changeMark', level: on, mark: id, set: change });
  const length = (label: string, field: 'width' | 'bottom' | 'top') => (
    <FigureField
      label={label}
      figures={figures}
      takes="length"
      range={standingRange(mark, field)}
      value={mark[field]}
      {...(field === 'width' ? { title: WIDTH_TITLE } : {})}
      onSet={(value) =>
        field === 'width' && face !== null
          ? putOn(context, ref, { face, ...widened(mark, value!, face) })
          : set({ [field]: value })
      }
    />
  );
  const places = placesOf(level, { kind: 'mark', id, wall: mark.wall });
  return (
    <>
      <Head
        title={`${capital(mark.kind)} ${id}`}
        under={<ThingLink to={{ kind: 'wall', level: on, id: mark.wall }}>on wall {mark.wall}</ThingLink>}
      />
      <Part title="Heights above the subfloor">
        <Choice<Mark['kind']>
          label="Kind"
          value={mark.kind}
          of={[
            { value: 'outlet', words: 'outlet' },
            { value: 'register', words: 'register' },
          ]}
          onSet={(kind) => set({ kind })}
        />
        {length('Width', 'width')}
        {length('Bottom', 'bottom')}
        {length('Top', 'top')}
      </Part>
      {places.map((place) => (
        <Distances key={place.found.segment.key} context={context} place={place} thing={{ ref, ...mark }} />
      ))}
      <OtherSide side={mark.side} flip={(side) => set({ side })} what={mark.kind} context={context} />
    </>
  );
}

/** What stands on a wall goes from a bottom up to a top. */
function standingRange(
  { bottom, top }: { readonly bottom: number; readonly top: number },
  field: 'width' | 'bottom' | 'top' | 'depth',
): Range {
  switch (field) {
    case 'width':
      return ABOVE_ZERO;
    case 'depth':
      return ZERO_UP;
    case 'bottom':
      return { most: top, because: 'its top is there' };
    case 'top':
      return { least: bottom, because: 'its bottom is there' };
  }
}

function OtherSide({
  side,
  flip,
  what,
  context: { app },
}: {
  readonly side: 'left' | 'right';
  readonly flip: (side: 'left' | 'right') => boolean;
  readonly what: string;
  readonly context: TicketContext;
}) {
  return (
    <div className="ticket-do row">
      <button
        type="button"
        title="Puts it on the wall's other face"
        onClick={() => flip(side === 'left' ? 'right' : 'left')}
      >
        To the other face
      </button>
      <button type="button" title={`Delete the ${what} (Del)`} onClick={() => runCommand(app, 'edit.delete')}>
        Delete
      </button>
    </div>
  );
}
