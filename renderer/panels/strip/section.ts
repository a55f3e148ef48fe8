// What the section shows: how base and casing meet at an opening, how two boards meet in a corner, and how the base stands
// against the floor and the old line. Thicknesses and heights are the plan's and the checks' own; ticks throughout.
// Gives figures and outlines; draws nothing.

import { oldLine, standingHeight } from '../../../core/fit/context.ts';
import { type Plan, type Profile, type ProfileId, settingsOf } from '../../../core/plan/index.ts';
import { OPENING_KINDS } from '../../../core/plan/kinds.ts';
import type { JointAt, RoomTrim, Stretch } from '../../../core/trim/index.ts';
import { sayLength } from '../../../core/trim/index.ts';
import type { SegmentOpening } from '../../../core/walk/index.ts';
import { type Ref, refKey } from '../../state/refs.ts';

type Spot = readonly [x: number, y: number];

export interface AtOpening {
  readonly kind: 'opening';
  readonly name: string;
  readonly opening: SegmentOpening;
  /** Null where no base comes to this opening. */
  readonly base: { readonly id: ProfileId; readonly profile: Profile } | null;
  readonly against: 'casing' | 'plinth' | 'open';
  /** Of what the base ends against; null where it is not known. */
  readonly edge: number | null;
  /** From that edge down to the base's face: negative where the base stands proud. */
  readonly step: number | null;
  readonly verdict: 'proud' | 'flush' | 'clear' | 'open' | 'unknown';
  /** The verdict as a sentence with its figure. */
  readonly words: string;
}

export interface AtCorner {
  readonly kind: 'corner';
  readonly name: string;
  readonly joint: JointAt | null;
  readonly words: string;
  /** The two boards as they lie on the floor, the corner at [0, 0]; empty where they do not meet. */
  readonly before: readonly Spot[];
  readonly after: readonly Spot[];
  /** The wall faces, from far along the wall walked in on to far along the one walked out on. */
  readonly faces: readonly Spot[];
}

export type PlanSection = AtOpening | AtCorner;

/** Heights of one room's base, ticks above the subfloor. */
export interface Upright {
  readonly base: Profile;
  readonly bottom: number;
  readonly top: number;
  readonly floor: number | null;
  readonly gap: number;
  readonly oldFloor: number | null;
  readonly oldLine: number | null;
  readonly shoe: Profile | null;
  /** How far the top stands over the old line; negative where the line shows. */
  readonly covers: number | null;
  readonly words: string;
}

/**
 * The plan section of what is chosen. Of a room, or of nothing, the first opening where a base ends, a cased one before
 * others; where none ends at one, the first corner where two boards meet; only then an opening that no base comes to. Of a
 * wall the same, its own openings first.
 */
export function planSection(plan: Plan, trim: RoomTrim, chosen: Ref | null): PlanSection | null {
  if (chosen?.kind === 'corner') {
    const at = cornerSection(plan, trim, chosen.id);
    if (at !== null) return at;
  }
  const openings = trim.room.loops.flatMap((loop) => loop.segments.flatMap((segment) => segment.openings));
  const named = openings.find(
    ({ id, side }) =>
      (chosen?.kind === 'opening' && chosen.id === id) ||
      (chosen?.kind === 'casing' && chosen.opening === id && chosen.id === side),
  );
  const beside = chosen?.kind === 'piece' ? besideBoard(trim, chosen.id) : null;
  if (beside?.corner !== undefined) return cornerSection(plan, trim, beside.corner);
  const opening = named ?? beside?.opening ?? withBase(trim, openings, chosen);
  if (opening !== undefined) return openingSection(plan, trim, opening);
  const corner = trim.room.loops
    .flatMap(({ corners }, l) => corners.map(({ key }, i) => ({ key, l, i })))
    .find(({ l, i }) => trim.lines.some(({ joints }) => joints[l]?.[i] != null));
  if (corner !== undefined) return cornerSection(plan, trim, corner.key);
  const [first] = openings;
  return first === undefined ? null : openingSection(plan, trim, first);
}

/** The opening to show where none is chosen: a base ends at it. */
function withBase(
  trim: RoomTrim,
  openings: readonly SegmentOpening[],
  chosen: Ref | null,
): SegmentOpening | undefined {
  const onWall = new Set(
    trim.room.loops
      .flatMap((loop) => loop.segments)
      .filter(({ key }) => chosen?.kind === 'segment' && key === chosen.id)
      .flatMap((segment) => segment.openings),
  );
  const rank = (opening: SegmentOpening): number => (onWall.has(opening) ? 2 : 0) + (opening.casing ? 1 : 0);
  return openings.filter(({ id }) => baseAt(trim, id) !== null).sort((a, b) => rank(b) - rank(a))[0];
}

/** What a board ends against: an opening first, else a corner. */
function besideBoard(trim: RoomTrim, id: string) {
  const piece = trim.lines
    .flatMap((line) => line.runs.flatMap((run) => run.pieces))
    .find((each) => each.id === id);
  if (piece === undefined) return null;
  for (const stop of [piece.stretch.left, piece.stretch.right])
    if (stop.kind === 'opening') return { opening: stop.opening };
  for (const end of [piece.left, piece.right])
    if ('corner' in end.at) return { corner: end.at.corner.key as string };
  return null;
}

function baseAt(trim: RoomTrim, opening: string): { stretch: Stretch; stop: Stretch['left'] } | null {
  for (const stretch of trim.lines.find(({ line }) => line === 'base')?.stretches ?? [])
    for (const stop of [stretch.left, stretch.right])
      if (stop.kind === 'opening' && stop.opening.id === opening) return { stretch, stop };
  return null;
}

function openingSection(plan: Plan, trim: RoomTrim, opening: SegmentOpening): AtOpening {
  const name = `${OPENING_KINDS[opening.opening.kind]} ${opening.id}`;
  const at = baseAt(trim, opening.id);
  const base = at === null ? null : { id: at.stretch.profileId, profile: at.stretch.profile };
  const bare = { kind: 'opening', name, opening, base } as const;
  if (at === null || at.stop.kind !== 'opening')
    return {
      ...bare,
      against: opening.casing ? 'casing' : 'open',
      edge: null,
      step: null,
      verdict: 'unknown',
      words: `No base comes to ${name}.`,
    };
  const { against, thickness: edge } = at.stop;
  if (against === 'open')
    return {
      ...bare,
      against,
      edge,
      step: null,
      verdict: 'open',
      words: `Nothing is cased at ${name}: the base returns.`,
    };
  if (edge === null)
    return {
      ...bare,
      against,
      edge,
      step: null,
      verdict: 'unknown',
      words: `The casing of ${name} is not known.`,
    };
  const step = edge - at.stretch.profile.thickness;
  const thing = against === 'plinth' ? 'the plinth block' : 'the casing’s outer edge';
  const said = sayLength(plan, step);
  if (step < 0)
    return {
      ...bare,
      against,
      edge,
      step,
      verdict: 'proud',
      words: `The base stands ${said} proud of ${thing}.`,
    };
  if (step === 0)
    return { ...bare, against, edge, step, verdict: 'flush', words: `Base and ${thing} lie flush.` };
  const verdict = step < settingsOf(plan).flushUnder ? 'flush' : 'clear';
  const words = `From ${thing} down to the base it is ${verdict === 'flush' ? 'only ' : ''}${said}.`;
  return { ...bare, against, edge, step, verdict, words };
}

/** How far along each wall a corner is drawn: so many times the thicker board. */
const ARMS = 4.5;

function cornerSection(plan: Plan, trim: RoomTrim, key: string): AtCorner | null {
  for (const [l, loop] of trim.room.loops.entries()) {
    const index = loop.corners.findIndex((each) => each.key === key);
    const corner = loop.corners[index];
    const before = loop.segments[index];
    const after = loop.segments[(index + 1) % loop.segments.length];
    if (corner === undefined || before === undefined || after === undefined) continue;
    const joint =
      trim.lines.map((line) => line.joints[l]?.[index] ?? null).find((each) => each !== null) ?? null;
    const name = `corner ${corner.number ?? corner.key}`;
    const u = before.along as Spot;
    const v = after.along as Spot;
    const [n1, n2] = [right(u), right(v)];
    const [t1, t2] = [joint?.before.profile.thickness ?? 0, joint?.after.profile.thickness ?? 0];
    const arm = ARMS * Math.max(t1, t2, 4064);
    const faces: Spot[] = [scaled(u, -arm), [0, 0], scaled(v, arm)];
    if (joint === null)
      return {
        kind: 'corner',
        name,
        joint,
        words: `No two boards meet in ${name}.`,
        before: [],
        after: [],
        faces,
      };
    const outlines = outlinesOf(joint, u, v, n1, n2, t1, t2, arm, settingsOf(plan).blockSize);
    return { kind: 'corner', name, joint, words: joint.why, ...outlines, faces };
  }
  return null;
}

/** To the right of the walk: into the room. y is down. */
const right = ([x, y]: Spot): Spot => [-y, x];
const scaled = ([x, y]: Spot, by: number): Spot => [x * by, y * by];
const plus = (...spots: readonly Spot[]): Spot => [
  spots.reduce((sum, [x]) => sum + x, 0),
  spots.reduce((sum, [, y]) => sum + y, 0),
];

/** Where a line through `a` along `u` meets one through `b` along `v`; null where they run side by side. */
function meeting(a: Spot, u: Spot, b: Spot, v: Spot): Spot | null {
  const turn = u[0] * v[1] - u[1] * v[0];
  if (Math.abs(turn) < 1e-9) return null;
  const ahead = ((b[0] - a[0]) * v[1] - (b[1] - a[1]) * v[0]) / turn;
  return plus(a, scaled(u, ahead));
}

function outlinesOf(
  joint: JointAt,
  u: Spot,
  v: Spot,
  n1: Spot,
  n2: Spot,
  t1: number,
  t2: number,
  arm: number,
  block: number,
): { readonly before: readonly Spot[]; readonly after: readonly Spot[] } {
  const [a, b] = [scaled(n1, t1), scaled(n2, t2)];
  const [farBefore, farAfter] = [scaled(u, -arm), scaled(v, arm)];
  const origin: Spot = [0, 0];
  if (joint.joint === 'block') {
    const [endBefore, endAfter] = [scaled(u, -block), scaled(v, block)];
    return {
      before: [farBefore, endBefore, plus(endBefore, a), plus(farBefore, a)],
      after: [endAfter, farAfter, plus(farAfter, b), plus(endAfter, b)],
    };
  }
  const inner = meeting(a, u, b, v) ?? a;
  if (joint.coped === null || joint.joint === 'mitre')
    return {
      before: [farBefore, origin, inner, plus(farBefore, a)],
      after: [origin, farAfter, plus(farAfter, b), inner],
    };
  if (joint.coped === 'after') {
    // The board walked in on runs through to the wall.
    const corner = meeting(a, u, origin, v) ?? origin;
    return {
      before: [farBefore, origin, corner, plus(farBefore, a)],
      after: [corner, farAfter, plus(farAfter, b), inner],
    };
  }
  const corner = meeting(b, v, origin, u) ?? origin;
  return {
    before: [farBefore, corner, inner, plus(farBefore, a)],
    after: [origin, farAfter, plus(farAfter, b), corner],
  };
}

/** The base of a room in vertical section; null where it has none or no height is known. */
export function upright(plan: Plan, trim: RoomTrim, chosen: Ref | null): Upright | null {
  const { room } = trim;
  const base = trim.lines.find(({ line }) => line === 'base');
  const piece = base?.runs
    .flatMap((run) => run.pieces)
    .find(
      (each) =>
        chosen !== null && refKey(chosen) === refKey({ kind: 'piece', level: room.level, id: each.id }),
    );
  const stretch =
    piece?.stretch ??
    base?.stretches.find((each) => chosen?.kind === 'segment' && each.segment.key === chosen.id) ??
    base?.stretches[0];
  const height = stretch?.profile.height;
  if (stretch === undefined || height === undefined) return null;
  const stands = standingHeight(room);
  const gap = room.record?.new?.gap ?? 0;
  const bottom = stands ?? gap;
  const line = oldLine(room);
  const covers = stands === null || line === null ? null : stands + height - line;
  const shoe = trim.lines.find((each) => each.line === 'shoe')?.stretches[0]?.profile ?? null;
  return {
    base: stretch.profile,
    bottom,
    top: bottom + height,
    floor: room.record?.new?.floor ?? null,
    gap,
    oldFloor: room.record?.old?.floor ?? null,
    oldLine: line,
    shoe,
    covers,
    words: coverWords(plan, covers, line, stands),
  };
}

function coverWords(plan: Plan, covers: number | null, line: number | null, stands: number | null): string {
  if (line === null) return 'The old line is not known: old floor or old base is not measured.';
  if (stands === null || covers === null) return 'The new floor is not known.';
  if (covers < 0) return `The old line shows: the base ends ${sayLength(plan, covers)} under it.`;
  if (covers === 0) return 'The base just reaches the old line.';
  return `The base covers the old line by ${sayLength(plan, covers)}.`;
}
