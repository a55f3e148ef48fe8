// What stands on a segment: openings, built-ins and marks, projected square from the wall's centre line onto the face
// and clipped to the segment (RULES: WK14, WK15). Ticks along the segment from its left corner. Which of them stops
// which trim line is core/trim's.

import type { FacePart, Point } from '../graph/index.ts';
import { dot, minus, unit } from '../graph/index.ts';
import { byCodeUnit, mustLookup, sortedEntries } from '../plan/maps.ts';
import type {
  BuiltIn,
  BuiltInId,
  Level,
  Mark,
  MarkId,
  Opening,
  OpeningId,
  Plan,
  Side,
  WallId,
} from '../plan/schema.ts';
import type { SegmentBuiltIn, SegmentMark, SegmentOpening } from './types.ts';

/** Everything of a level by the wall it stands on, in code-unit order of ids. */
export interface Standing {
  readonly openings: ReadonlyMap<WallId, readonly (readonly [OpeningId, Opening])[]>;
  readonly builtIns: ReadonlyMap<WallId, readonly (readonly [BuiltInId, BuiltIn])[]>;
  readonly marks: ReadonlyMap<WallId, readonly (readonly [MarkId, Mark])[]>;
}

/** The straight piece of face that things are projected onto. */
export interface Stand {
  readonly start: Point;
  readonly along: Point;
  readonly drawn: number;
  readonly parts: readonly FacePart[];
}

/** An extent along a segment, before and after clipping. */
interface Extent {
  readonly holeFrom: number;
  readonly holeTo: number;
  readonly from: number;
  readonly to: number;
}

/** A built-in on its own segment, with what is needed to reach round a corner. */
export interface OwnBuiltIn extends SegmentBuiltIn {
  readonly holeFrom: number;
  readonly holeTo: number;
  readonly depth: number;
}

/** Sorts what stands on a level's walls by wall. */
export function standingOf(level: Level): Standing {
  return {
    openings: byWall(sortedEntries(level.openings)),
    builtIns: byWall(sortedEntries(level.builtIns)),
    marks: byWall(sortedEntries(level.marks)),
  };
}

function byWall<K, V extends { readonly wall: WallId }>(entries: readonly [K, V][]): Map<WallId, [K, V][]> {
  const map = new Map<WallId, [K, V][]>();
  for (const entry of entries) {
    const list = map.get(entry[1].wall);
    if (list === undefined) map.set(entry[1].wall, [entry]);
    else list.push(entry);
  }
  return map;
}

/** Projects [at, at + width] on a wall's centre line square onto the face. Null where nothing of it is left. */
function extentOn(stand: Stand, level: Level, wallId: WallId, at: number, width: number): Extent | null {
  const wall = mustLookup(level.walls, wallId);
  const origin = mustLookup(level.nodes, wall.from);
  const dir = unit(minus(mustLookup(level.nodes, wall.to), origin));
  const base = dot(minus(origin, stand.start), stand.along);
  const step = dot(dir, stand.along);
  const [one, other] = [base + step * at, base + step * (at + width)];
  const [holeFrom, holeTo] = one < other ? [one, other] : [other, one];
  const from = Math.max(0, holeFrom);
  const to = Math.min(stand.drawn, holeTo);
  return from < to ? { holeFrom, holeTo, from, to } : null;
}

/** Openings on a segment, sorted by `from`, then id. RULES: WK14. */
export function openingsOn(stand: Stand, plan: Plan, level: Level, standing: Standing): SegmentOpening[] {
  const found: SegmentOpening[] = [];
  for (const { wall, side } of stand.parts) {
    for (const [id, opening] of standing.openings.get(wall) ?? []) {
      const extent = extentOn(stand, level, wall, opening.at, opening.width);
      if (extent === null) continue;
      found.push({
        id,
        opening,
        side,
        ...extent,
        bottom: opening.sill,
        top: opening.sill + opening.height,
        casing: casingOf(plan, opening, side),
        reveal: opening.reveal ?? 0,
        pocket: pocketOn(stand, level, opening),
      });
    }
  }
  return inPlace(found);
}

/** A passage has no casing whatever is said; elsewhere `undefined` is unknown and `null` none. */
function casingOf(plan: Plan, opening: Opening, side: Side): SegmentOpening['casing'] {
  const id = opening.kind === 'passage' ? null : opening.casing?.[side];
  return id == null ? id : { id, profile: mustLookup(plan.profiles, id) };
}

/** The pocket is as long as the opening is wide, on the side of the wall's first node or of its second. */
function pocketOn(stand: Stand, level: Level, opening: Opening): SegmentOpening['pocket'] {
  if (opening.pocket === undefined) return null;
  const at = opening.pocket === 'start' ? opening.at - opening.width : opening.at + opening.width;
  const extent = extentOn(stand, level, opening.wall, at, opening.width);
  return extent === null ? null : { from: extent.from, to: extent.to };
}

/** Built-ins that stand on a segment's own face, sorted by `from`, then id. RULES: WK15. */
export function builtInsOn(stand: Stand, level: Level, standing: Standing): OwnBuiltIn[] {
  const found: OwnBuiltIn[] = [];
  for (const { wall, side } of stand.parts) {
    for (const [id, item] of standing.builtIns.get(wall) ?? []) {
      if (item.side !== side) continue;
      const extent = extentOn(stand, level, wall, item.at, item.width);
      if (extent === null) continue;
      found.push({
        id,
        ...extent,
        bottom: item.bottom,
        top: item.top,
        kind: item.kind,
        ends: item.ends ?? 'square',
        roundCorner: false,
        depth: item.depth ?? 0,
      });
    }
  }
  return inPlace(found);
}

/** Marks on a segment, sorted by `from`, then id. */
export function marksOn(stand: Stand, level: Level, standing: Standing): SegmentMark[] {
  const found: SegmentMark[] = [];
  for (const { wall, side } of stand.parts) {
    for (const [id, mark] of standing.marks.get(wall) ?? []) {
      if (mark.side !== side) continue;
      const extent = extentOn(stand, level, wall, mark.at, mark.width);
      if (extent === null) continue;
      const { from, to } = extent;
      found.push({ id, kind: mark.kind, from, to, bottom: mark.bottom, top: mark.top });
    }
  }
  return inPlace(found);
}

/** Sorted by `from`, then id. */
export function inPlace<T extends { readonly from: number; readonly id: string }>(list: T[]): T[] {
  return list.sort((a, b) => a.from - b.from || byCodeUnit(a.id, b.id));
}
