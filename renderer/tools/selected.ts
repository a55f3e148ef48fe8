// The typed twin of a drag: what is chosen, the distances that may be typed for it in the tape bar, and the edit each
// makes. Ticks; left and right as seen facing the wall.

import type { Edit } from '../../core/edit/index.ts';
import type { Point } from '../../core/graph/index.ts';
import { dot } from '../../core/graph/index.ts';
import { roundHalfAway } from '../../core/units/index.ts';
import type { Segment } from '../../core/walk/index.ts';
import type { Ref } from '../state/refs.ts';
import { turned } from './copies.ts';
import { inLineWith, isStanding, type Moved, nodesOf, type StandingRef, thingOf } from './drag.ts';
import { type Face, faceOf, facing, gapsOf, placeByGap, segmentsOf, widened } from './faces.ts';
import { type FreeEnd, freeEndOf, lengthenedBy, longestBy, SAME_TICKS } from './free-end.ts';
import { putThing } from './put-thing.ts';
import { faceOfRef, type Place } from './standing-places.ts';
import type { TapeField, TapeFigures, ToolContext, ToolStep } from './types.ts';

const field = (id: string, label: string, live: string): TapeField => ({ id, label, takes: 'length', live });

const TURN: TapeField = {
  id: 'turn',
  label: 'Turn',
  more: 'To the right about its middle',
  takes: 'angle',
  live: '',
};

/** `moved`: how far a drag has got, where one is under way: the figures go with it. */
export function selectedFields(context: ToolContext, moved: Moved | null = null): readonly TapeField[] {
  const { selection, figures } = context;
  const only = onlyOf(context);
  const by = moved?.by ?? [0, 0];
  if (only !== null && isStanding(only)) {
    const place = placeOfThing(only, moved, context);
    if (place === null) return [];
    const gaps = gapsOf(place.face, place.at, place.width);
    return [
      { ...field('left', 'From left', figures.length(gaps.left)), more: 'From the left corner' },
      { ...field('right', 'From right', figures.length(gaps.right)), more: 'From the right corner' },
      {
        ...field('width', 'Width', figures.length(place.width)),
        more: 'Width about its middle, or from the gap typed with it',
      },
    ];
  }
  if (only?.kind === 'segment') {
    const segment = segmentOfRef(only, context);
    if (segment === undefined) return [];
    const across = facing(context.walk, segment);
    return [
      ...(neighbours(segment, context) === null && freeToLengthen(segment, context) === null
        ? []
        : [field('length', 'Length', figures.length(segment.drawn))]),
      ...(across === null
        ? []
        : [field('across', 'Clear across', figures.length(across.gap - dot(by, segment.inward)))]),
    ];
  }
  if (only?.kind === 'wall') {
    const sides = acrossOf(only, context);
    if (sides.length > 0)
      return sides.map(({ side, gap, own }) =>
        field(side, `Clear on its ${side}`, figures.length(gap - dot(by, own.inward))),
      );
  }
  const moves = nodesOf(selection, context).length;
  if (moves === 0) return [];
  const gone = (way: number): string => (moved === null ? '' : figures.length(way));
  const fields = [field('right', 'Move right', gone(by[0])), field('down', 'Move down', gone(by[1]))];
  return moves === 1 ? fields : [...fields, TURN];
}

function onlyOf({ selection, level }: ToolContext): Ref | null {
  const [only] = selection;
  return selection.length === 1 && only !== undefined && only.level === level.id ? only : null;
}

/** Where a thing stands, or a drag has got it so far. */
function placeOfThing(ref: StandingRef, moved: Moved | null, context: ToolContext): Place | null {
  const thing = thingOf(context.level, ref);
  const face = faceOfRef(ref, context);
  if (thing === undefined || face === null) return null;
  return { face, at: thing.at, width: thing.width, ...moved?.to };
}

/** The clear distances on both sides of a wall, where a face looks at it. */
function acrossOf(ref: Ref & { kind: 'wall' }, { level, walk }: ToolContext) {
  return (['left', 'right'] as const).flatMap((side) => {
    const segment = faceOf(level, walk, ref.id, side)?.segment ?? null;
    const across = segment === null ? null : facing(walk, segment);
    return segment === null || across === null
      ? []
      : [{ side, gap: across.gap, to: across.segment, own: segment }];
  });
}

/** The faces at both ends of a face, where they stand square to it. A wall's end or a jog is as long as its walls make it. */
function neighbours(segment: Segment, { walk }: ToolContext): readonly [Segment, Segment] | null {
  if (segment.parts.length === 0) return null;
  const loop = walk.rooms.find(({ id }) => id === segment.room)?.loops[segment.loop];
  const count = loop?.segments.length ?? 0;
  const before = loop?.segments[(segment.index + count - 1) % count];
  const after = loop?.segments[(segment.index + 1) % count];
  if (before === undefined || after === undefined || before.parts.length === 0 || after.parts.length === 0)
    return null;
  const square = [before, after].every((each) => Math.abs(dot(each.along, segment.along)) < 1e-3);
  return square ? [before, after] : null;
}

/** The free end that a typed length moves; null where a wall at its end is moved. */
function freeToLengthen(segment: Segment, context: ToolContext): FreeEnd | null {
  return neighbours(segment, context) === null ? freeEndOf(segment, context) : null;
}

function segmentOfRef(ref: Ref, { walk }: ToolContext): Segment | undefined {
  return ref.kind === 'segment' ? segmentsOf(walk).find(({ key }) => key === ref.id) : undefined;
}

/** Does what was typed for what is chosen. `moved`: how far a drag has got, as for the fields. */
export function giveSelected<S>(
  state: S,
  figures: TapeFigures,
  context: ToolContext,
  moved: Moved | null = null,
): ToolStep<S> {
  const only = onlyOf(context);
  if (only !== null && isStanding(only)) return giveThing(state, only, moved, figures, context);
  const wrong = only === null ? null : wrongDistance(only, figures, context);
  if (wrong !== null) return { state, say: wrong };
  const edits = only === null ? [] : distanceEdits(only, figures, context);
  if (edits.length > 0) return commitOf(state, edits);
  const nodes = nodesOf(context.selection, context);
  const by: Point = [figures.right ?? 0, figures.down ?? 0];
  if (figures.turn !== undefined && nodes.length > 1) {
    const made = turned(context, figures.turn, by);
    return 'why' in made ? { state, say: made.why } : { state, commit: { edit: made.edit } };
  }
  if (nodes.length === 0 || (by[0] === 0 && by[1] === 0))
    return { state, say: 'Choose a wall, a corner or a thing on a wall first, then type a distance.' };
  return { state, commit: { edit: { type: 'moveNodes', level: context.level.id, nodes, by } } };
}

/** A sentence on what was typed for a wall or a face and cannot be; else null. */
function wrongDistance(ref: Ref, figures: TapeFigures, context: ToolContext): string | null {
  if (ref.kind === 'wall') return overdoneAcross(ref, figures, context);
  const segment = segmentOfRef(ref, context);
  const { length } = figures;
  if (segment === undefined || length === undefined) return null;
  if (length <= 0) return 'A wall needs a length above zero.';
  const free = freeToLengthen(segment, context);
  const most = free === null ? Number.POSITIVE_INFINITY : longestBy(free, segment, context);
  if (length <= most + SAME_TICKS) return null;
  return `There is ${context.figures.length(most)} to the wall across: type that or less.`;
}

/** A wall between two rooms stands in one place: both clear distances typed must fit it. A sentence where they do not. */
function overdoneAcross(
  ref: Ref & { kind: 'wall' },
  { left, right }: TapeFigures,
  context: ToolContext,
): string | null {
  const gaps = acrossOf(ref, context).map(({ gap }) => gap);
  if (left === undefined || right === undefined || gaps.length < 2) return null;
  const [typed, there] = [left + right, gaps[0]! + gaps[1]!];
  if (Math.abs(typed - there) <= SAME_TICKS) return null;
  const { length } = context.figures;
  return `Both sides together make ${length(typed)}, and there is ${length(there)} beside the wall. Leave one of the two empty.`;
}

function commitOf<S>(state: S, edits: readonly Edit[]): ToolStep<S> {
  const [first, ...more] = edits.filter(({ type }) => type !== 'setFace');
  const one = first?.type === 'moveNodes' ? 'set length of wall' : 'set distance between walls';
  const words = more.length === 0 ? one : 'set distances';
  const edit: Edit = edits.length === 1 ? edits[0]! : { type: 'several', edits, words };
  return { state, commit: { edit } };
}

function giveThing<S>(
  state: S,
  ref: StandingRef,
  moved: Moved | null,
  figures: TapeFigures,
  context: ToolContext,
): ToolStep<S> {
  const place = placeOfThing(ref, moved, context);
  if (place === null) return { state, say: 'That is no longer there.' };
  const { face } = place;
  const { left, right } = figures;
  const both = left !== undefined && right !== undefined;
  const width = both ? roundHalfAway(face.high - face.low - left - right) : (figures.width ?? place.width);
  const at =
    left !== undefined
      ? placeByGap(face, left, 'left', width)
      : right !== undefined
        ? placeByGap(face, right, 'right', width)
        : widened(place, width, face).at;
  const made = putThing(ref, { face, at, width }, figures, context);
  return 'why' in made ? { state, say: made.why } : { state, commit: made };
}

function distanceEdits(ref: Ref, figures: TapeFigures, context: ToolContext): readonly Edit[] {
  const { level, walk } = context;
  const clear = (
    stays: Segment,
    moves: { wall: Face['wall']; side: Face['side'] },
    distance: number,
  ): Edit => {
    const { wall, side } = stays.parts[0]!;
    return { type: 'setClearDistance', level: level.id, stays: { wall, side }, moves, distance };
  };
  if (ref.kind === 'wall')
    return acrossOf(ref, context).flatMap(({ side, gap, to, own }) => {
      const typed = figures[side];
      if (typed === undefined) return [];
      return [clear(to, { wall: ref.id, side }, typed), ...following(own, gap, typed, context)];
    });
  const segment = segmentOfRef(ref, context);
  if (segment === undefined) return [];
  const own = segment.parts[0];
  const across = facing(walk, segment);
  const edits: Edit[] = [];
  if (figures.across !== undefined && across !== null && own !== undefined)
    edits.push(
      clear(across.segment, { wall: own.wall, side: own.side }, figures.across),
      ...following(segment, across.gap, figures.across, context),
    );
  const ends = neighbours(segment, context);
  const free = freeToLengthen(segment, context);
  if (figures.length !== undefined && free !== null)
    edits.push(...lengthenedBy(free, segment, figures.length, context, measuredAsDrawn));
  if (figures.length !== undefined && ends !== null) {
    const [stays, moves] = ends;
    const { wall, side } = moves.parts[0]!;
    const face = dot(stays.inward, segment.along) > 0 && dot(moves.inward, segment.along) < 0;
    const more = figures.length - segment.drawn;
    const by: Point = [roundHalfAway(segment.along[0] * more), roundHalfAway(segment.along[1] * more)];
    edits.push(
      face
        ? clear(stays, { wall, side }, figures.length)
        : { type: 'moveNodes', level: level.id, nodes: inLineWith(level, wall), by },
      ...(face ? following(moves, segment.drawn, figures.length, context) : []),
    );
  }
  return edits;
}

/**
 * A typed clear distance is what the tape says between two faces. Where a face that runs from one to the other was
 * measured and drawn alike, its measured length goes with it; one that had been found different stays, to be asked about.
 */
function following(moves: Segment, gap: number, typed: number, context: ToolContext): readonly Edit[] {
  const level = context.level.id;
  return (neighbours(moves, context) ?? [])
    .filter((each) => measuredAsDrawn(each) && Math.abs(gap - each.drawn) <= SAME_TICKS)
    .map(({ key }) => ({ type: 'setFace', level, face: key, set: { measured: roundHalfAway(typed) } }));
}

function measuredAsDrawn({ record, drawn }: Segment): boolean {
  return record?.measured !== undefined && Math.abs(record.measured - drawn) <= SAME_TICKS;
}

export function selectedHint(context: ToolContext): string {
  const { selection, walk } = context;
  const [only] = selection;
  if (only === undefined) return 'Click to choose, drag to move, drag over the floor for a box.';
  if (selection.length > 1) return `${selection.length} chosen: drag, arrow keys, or type how far to move.`;
  if (isStanding(only)) {
    const room = faceOfRef(only, context)?.segment?.room;
    const name = walk.rooms.find(({ id }) => id === room)?.name;
    return `Drag it, or type its gap to a corner${name === undefined ? '' : `, seen from ${name}`}.`;
  }
  if (only.kind === 'wall')
    return acrossOf(only, context).length > 0
      ? 'Drag it square to itself, or type the clear distance across the room.'
      : 'Drag it square to itself, or type how far to move.';
  if (only.kind === 'segment') return faceHint(context);
  if (only.kind === 'node') return 'Drag it, use arrow keys, or type how far to move.';
  if (only.kind === 'room') return 'Drag its floor to move the whole room.';
  return 'Its ticket shows what is known about it.';
}

/** Names only what there is a field for: a slanting wall's length is made by the walls at its ends. */
function faceHint(context: ToolContext): string {
  const ids = selectedFields(context).map(({ id }) => id);
  const [length, across] = [ids.includes('length'), ids.includes('across')];
  if (length) return `Type its length between the corners${across ? ', or the clear distance across' : ''}.`;
  return across
    ? 'Type the clear distance across. Its length is changed at the ends of its walls.'
    : 'Its length is changed at the ends of its walls: drag one, or choose it and type how far to move.';
}
