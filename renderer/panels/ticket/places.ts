// Where things stand on the faces they are seen on, from corner to corner, and what becomes of them when such a distance is
// typed. Ticks along the face from its left corner.

import type { Edit } from '../../../core/edit/index.ts';
import type { BuiltInId, LevelId, MarkId, OpeningId, Side, WallId } from '../../../core/plan/index.ts';
import type { DerivedLevel } from '../../../core/report/index.ts';
import { facingSegments, type Segment } from '../../../core/walk/index.ts';
import type { App } from '../../state/app.ts';
import type { StandingRef } from '../../tools/drag.ts';
import { putThing } from '../../tools/put-thing.ts';
import type { Place as FacePlace } from '../../tools/standing-places.ts';
import type { Figures } from '../kit/figures.ts';
import { type SegmentFound, segmentsOfWall } from './find.ts';

export interface Place {
  readonly found: SegmentFound;
  readonly side: Side;
  /** From the left corner to its left edge, and from its right edge to the right corner. */
  readonly toLeft: number;
  readonly toRight: number;
}

type Standing =
  | { readonly kind: 'opening'; readonly id: OpeningId; readonly wall: WallId }
  | { readonly kind: 'builtIn'; readonly id: BuiltInId; readonly wall: WallId }
  | { readonly kind: 'mark'; readonly id: MarkId; readonly wall: WallId };

/** A thing on every face that shows it. */
export function placesOf(level: DerivedLevel, thing: Standing): readonly Place[] {
  return segmentsOfWall(level, thing.wall).flatMap((found): Place[] => {
    const extent = extentOf(found.segment, thing);
    if (extent === null) return [];
    const { from, to, side } = extent;
    return [{ found, side, toLeft: from, toRight: found.segment.drawn - to }];
  });
}

/** Puts a thing elsewhere on a face, as it was typed; false, with a sentence said, where there is no room for it. */
export function putOn(
  {
    app,
    figures,
    level: { walk },
  }: { readonly app: App; readonly figures: Figures; readonly level: DerivedLevel },
  ref: StandingRef,
  to: FacePlace,
): boolean {
  const made = putThing(ref, to, {}, { level: walk.level, walk, figures });
  if ('edit' in made) return app.commit(made.edit);
  app.say(made.why, 'problem');
  return false;
}

function extentOf(
  segment: Segment,
  thing: Standing,
): { readonly from: number; readonly to: number; readonly side: Side } | null {
  if (thing.kind === 'opening') {
    const on = segment.openings.find(({ id }) => id === thing.id);
    return on === undefined ? null : { from: on.holeFrom, to: on.holeTo, side: on.side };
  }
  const on =
    thing.kind === 'builtIn'
      ? segment.builtIns.find(({ id, roundCorner }) => id === thing.id && !roundCorner)
      : segment.marks.find(({ id }) => id === thing.id);
  const side = segment.parts.find(({ wall }) => wall === thing.wall)?.side;
  return on === undefined || side === undefined ? null : { from: on.from, to: on.to, side };
}

/** A clear distance across a room from one wall's face to another's. */
export interface Clear {
  readonly own: { readonly wall: WallId; readonly side: Side };
  readonly other: { readonly wall: WallId; readonly side: Side };
  readonly distance: number;
  readonly across: SegmentFound;
  readonly to: Segment;
}

/** What a wall's faces look at, nearest first, room by room. */
export function clearDistances(level: DerivedLevel, wall: WallId): readonly Clear[] {
  return segmentsOfWall(level, wall).flatMap((across): Clear[] => {
    const part = across.segment.parts.find((each) => each.wall === wall)!;
    return facingSegments(across.room, across.segment).flatMap(({ segment, distance }): Clear[] => {
      const [first] = segment.parts;
      if (first === undefined || first.wall === wall) return [];
      return [
        {
          own: { wall, side: part.side },
          other: { wall: first.wall, side: first.side },
          distance,
          across,
          to: segment,
        },
      ];
    });
  });
}

/** Makes a clear distance what was typed; `moves` says which of the two walls goes. */
export function clearEdit(level: LevelId, clear: Clear, moves: 'own' | 'other', distance: number): Edit {
  const [stays, goes] = moves === 'own' ? [clear.other, clear.own] : [clear.own, clear.other];
  return { type: 'setClearDistance', level, stays, moves: goes, distance };
}
