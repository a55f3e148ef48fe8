// One room while its labels are being placed: what it was asked, its outline in points, what is taken and what was found.
// Kept: nothing is put outside the room, so that rooms never disturb each other.

import type { Point } from '../../core/graph/index.ts';
import type { Level } from '../../core/plan/index.ts';
import { type Box, boxOf, grown } from '../../core/sheets/boxes.ts';
import type { TextMeasure } from '../../core/sheets/items.ts';
import { type Candidate, makePlacer, type Placer } from '../../core/sheets/plan-place.ts';
import { inRings, type PlanView } from '../../core/sheets/plan-view.ts';
import { builtInOutlines, casingLines } from '../../core/sheets/plan-walls.ts';
import type { RoomTrim } from '../../core/trim/types.ts';
import type { Stage } from '../state/app-state.ts';
import type { Ref } from '../state/refs.ts';
import type { Bounds } from '../state/viewport.ts';
import { type Pinned, pinned } from './pinned.ts';
import { segmentsOf } from './shapes.ts';
import { viewAt } from './steps.ts';

/** How figures are printed. */
export interface SheetWords {
  length(ticks: number): string;
  height(ticks: number): string;
  angle(deg: number): string;
  area(squareTicks: number): string;
}

export interface FlagAt {
  readonly letter: string;
  readonly at: Point;
}

export interface RoomAsked {
  readonly level: Level;
  readonly trim: RoomTrim;
  readonly stage: Stage;
  readonly step: number;
  readonly measure: TextMeasure;
  readonly words: SheetWords;
  readonly flags: readonly FlagAt[];
  /** What is in sight of the room, ticks; null: all of it. Figures of lengths stand there. */
  readonly sight: Bounds | null;
}

export interface Placing extends RoomAsked {
  readonly view: PlanView;
  readonly rings: readonly (readonly Point[])[];
  readonly box: Box;
  readonly placer: Placer;
  readonly inRoom: (p: Point) => boolean;
  readonly found: Pinned[];
}

/** A room with nothing placed yet; null where it has no outline. */
export function startPlacing(asked: RoomAsked): Placing | null {
  const view = viewAt(asked.step);
  const rings = asked.trim.room.loops.map((loop) => loop.corners.map(({ at }) => view.on(at)));
  const outer = rings[0];
  if (outer === undefined || outer.length < 3) return null;
  const box = boxOf(outer);
  const placer = makePlacer(grown(box, 2), linesOf(asked, rings, view));
  return { ...asked, view, rings, box, placer, inRoom: (p) => inRings(rings, p), found: [] };
}

/** What labels had better not cover: walls, casings, edges of built-ins. */
function linesOf(
  { trim, level }: RoomAsked,
  rings: readonly (readonly Point[])[],
  view: PlanView,
): readonly (readonly [Point, Point])[] {
  const edges = (ring: readonly Point[]): (readonly [Point, Point])[] =>
    ring.map((p, i) => [p, ring[(i + 1) % ring.length]!] as const);
  return [
    ...rings.flatMap(edges),
    ...segmentsOf(trim.room).flatMap((segment) => [
      ...casingLines(segment, view),
      ...builtInOutlines(segment, level, view).flatMap(({ outline }) => edges(outline)),
    ]),
  ];
}

/** The candidates that lie wholly within the room. */
function* within(candidates: Iterable<Candidate>, { inRoom }: Placing): Generator<Candidate> {
  for (const candidate of candidates)
    if (
      candidate.boxes.every(
        ([x0, y0, x1, y1]) => inRoom([x0, y0]) && inRoom([x1, y0]) && inRoom([x1, y1]) && inRoom([x0, y1]),
      )
    )
      yield candidate;
}

/** Places the best of the candidates within the room. False where none has a free place. */
export function put(
  placing: Placing,
  candidates: Iterable<Candidate>,
  ref: Ref | null,
  flag?: string,
): boolean {
  const items = placing.placer.place(within(candidates, placing));
  if (items === null) return false;
  placing.found.push(...pinned(items, placing.view, ref, flag));
  return true;
}
