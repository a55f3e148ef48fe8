// Walls that nearly meet, each with the edit that closes the gap: an end carried on to the other wall, two ends carried
// on to their corner, or a short wall between. The gaps are those that the walk notes. Ticks. RULES: SN12, WK18.

import type { Edit } from '../edit/index.ts';
import { idGiver } from '../edit/index.ts';
import type { Point } from '../graph/index.ts';
import { along, cross, distance, dot, minus, unit } from '../graph/index.ts';
import { emptyPlan } from '../plan/empty.ts';
import { byCodeUnit, mustLookup, sortedEntries } from '../plan/maps.ts';
import type { Level, NodeId, Wall, WallId } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { walkLevel } from '../walk/index.ts';
import { whole } from './candidates.ts';
import { listed } from './snap-index.ts';

export interface MeetOffer {
  readonly at: Point;
  /** From the end's middle to the other wall's face. */
  readonly gap: number;
  readonly walls: readonly [WallId, WallId];
  /** What taking the offer does, in words. */
  readonly words: string;
  readonly edit: Edit;
}

/** One offer for each gap that the walk notes, in its order. Requires a planar level. RULES: SN12. */
export function nearlyMeeting(level: Level, settings: Settings): readonly MeetOffer[] {
  const bare: Level = { ...level, openings: {}, builtIns: {}, marks: {}, rooms: {}, corners: {}, faces: {} };
  const plan = { ...emptyPlan('metric'), settings, levels: [bare] };
  return walkLevel(plan, bare).notes.flatMap((note) => {
    if (note.kind !== 'not-closed' || note.gap === null) return [];
    const [own, other] = note.about as readonly [WallId, WallId];
    return [offerFor(level, settings, note.at, note.gap, own, other)];
  });
}

interface Ray {
  readonly node: NodeId;
  readonly at: Point;
  /** Away from its wall. */
  readonly way: Point;
}

function offerFor(
  level: Level,
  settings: Settings,
  at: Point,
  gap: number,
  own: WallId,
  other: WallId,
): MeetOffer {
  const wall = mustLookup(level.walls, own);
  const target = mustLookup(level.walls, other);
  const end = endsOf(level, wall).find((ray) => ray.at[0] === at[0] && ray.at[1] === at[1])!;
  const both = listed([own, other].sort(byCodeUnit));
  const reach = settings.nearlyMeet + wall.thickness + target.thickness;
  const offer = (words: string, edit: object): MeetOffer => ({
    at,
    gap,
    walls: [own, other],
    words,
    edit: edit as Edit,
  });

  const [from, to] = [mustLookup(level.nodes, target.from), mustLookup(level.nodes, target.to)];
  const dir = unit(minus(to, from));
  const met = meetingOf(end, { at: from, way: dir });
  const length = distance(from, to);
  const free = endsOf(level, target).filter(({ node }) => isFree(level, node));
  const near = free.filter((ray) => distance(ray.at, at) <= reach);
  const nearest = near.sort((a, b) => distance(a.at, at) - distance(b.at, at))[0];
  if (met !== null && distance(met, at) <= reach) {
    const ahead = dot(minus(met, from), dir);
    const to = whole(met);
    if (ahead >= 0 && ahead <= length) {
      const words = `carry wall ${own} on to wall ${other}`;
      return offer(words, { type: 'moveNode', level: level.id, node: end.node, to, on: other });
    }
    if (nearest !== undefined && distance(met, nearest.at) <= reach) {
      const moves = [end.node, nearest.node].map((node) => ({ type: 'moveNode', level: level.id, node, to }));
      const words = `carry walls ${both} on to their corner`;
      return offer(words, { type: 'several', edits: moves, words });
    }
  }
  return offer(
    `close the gap between walls ${both}`,
    bridge(level, wall, end, nearest, from, dir, length, other),
  );
}

/** Both ends of a wall, each with the way out of it. */
function endsOf(level: Level, { from, to }: Wall): readonly Ray[] {
  const [a, b] = [mustLookup(level.nodes, from), mustLookup(level.nodes, to)];
  return [
    { node: from, at: a, way: unit(minus(a, b)) },
    { node: to, at: b, way: unit(minus(b, a)) },
  ];
}

function isFree(level: Level, node: NodeId): boolean {
  return sortedEntries(level.walls).filter(([, { from, to }]) => from === node || to === node).length === 1;
}

/** Walls nearer to one direction than 20° are not carried on to each other: their corner lies far off. */
const LEAST_MEET_SINE = Math.sin((20 * Math.PI) / 180);

function meetingOf(a: { at: Point; way: Point }, b: { at: Point; way: Point }): Point | null {
  const turn = cross(a.way, b.way);
  if (Math.abs(turn) < LEAST_MEET_SINE) return null;
  return along(a.at, a.way, cross(minus(b.at, a.at), b.way) / turn);
}

/** A wall from the end to the other wall: to its free end where that is near, else to the nearest place on it. */
function bridge(
  level: Level,
  wall: Wall,
  end: Ray,
  nearest: Ray | undefined,
  from: Point,
  dir: Point,
  length: number,
  other: WallId,
): object {
  const giveWall = idGiver<WallId>('w', Object.keys(level.walls));
  const giveNode = idGiver<NodeId>('n', Object.keys(level.nodes));
  const ahead = Math.max(0, Math.min(length, dot(minus(end.at, from), dir)));
  const foot = { id: giveNode(), at: whole(along(from, dir, ahead)), on: other };
  return {
    type: 'addWall',
    level: level.id,
    wall: giveWall(),
    from: end.node,
    to: nearest?.node ?? foot,
    thickness: wall.thickness,
    ...(wall.height === undefined ? {} : { height: wall.height }),
    ...(wall.faces === undefined ? {} : { faces: wall.faces }),
  };
}
