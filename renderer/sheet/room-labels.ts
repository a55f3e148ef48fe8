// The labels of one room at one zoom step: names, corner numbers with their joints, board ids, dimensions, angles, findings.
// Core/sheets' own candidates, placed within the room only, so that rooms can be placed one by one and never disturb each
// other. Each label is pinned to a place on the plan (ticks) and keeps its size in points.
// Kept: no two labels overlap; corner numbers come first; what finds no place is left out until there is more room.

import type { Point } from '../../core/graph/index.ts';
import { type Box, grown } from '../../core/sheets/boxes.ts';
import type { Item } from '../../core/sheets/items.ts';
import { cornerMark, MARK_SIZE } from '../../core/sheets/marks.ts';
import { shownLine } from '../../core/sheets/plan-boards.ts';
import { numberCandidates, tagCandidates, tagged } from '../../core/sheets/plan-corners.ts';
import {
  builtInCandidates,
  endMarkCandidates,
  flagCandidates,
  idCandidates,
  markedEnds,
  nameCandidates,
  openingCandidates,
} from '../../core/sheets/plan-labels.ts';
import type { Candidate } from '../../core/sheets/plan-place.ts';
import { builtInOutlines } from '../../core/sheets/plan-walls.ts';
import { circle, patch } from '../../core/sheets/shapes.ts';
import { nameOr } from '../../core/sheets/words.ts';
import type { Ref } from '../state/refs.ts';
import { boardsOf } from './boards.ts';
import { angles, dimensions, readings } from './figure-labels.ts';
import { type Pinned, pinned } from './pinned.ts';
import { type Placing, put, type RoomAsked, startPlacing } from './placing.ts';
import { segmentsOf } from './shapes.ts';
import { detailFor, POINT_PX } from './steps.ts';

/** How far from its corner a number may stand, points; with its joint's mark; and a finding's flag from its place. */
const NUMBER_REACH = 34;
const TAG_REACH = 42;
const FLAG_REACH = 70;

/** Places the labels of a room. The costly part of drawing: kept by the caller for as long as the room and step stay. */
export function placeRoom(asked: RoomAsked): readonly Pinned[] {
  const { stage } = asked;
  let placing = startPlacing(asked);
  if (placing === null) return [];
  const { box } = placing;
  const sides = [(box[2] - box[0]) * POINT_PX, (box[3] - box[1]) * POINT_PX] as const;
  const detail = detailFor(Math.min(...sides), Math.max(...sides));
  if (!detail.names && !detail.corners) return [];
  const trims = stage === 'trim' || stage === 'cut';
  if (stage !== 'measure') blockFlags(placing);
  let numbered = true;
  if (detail.corners && stage !== 'draw') {
    let missing = corners(placing, trims);
    if (missing > 0 && trims) {
      // Joints give way to numbers.
      const bare = startPlacing(asked)!;
      blockFlags(bare);
      const still = corners(bare, false);
      if (still < missing) [placing, missing] = [bare, still];
      if (placing === bare) jointMarks(bare);
    }
    numbered = missing === 0;
  }
  if (stage === 'measure' && detail.corners) angles(placing);
  if (stage !== 'measure') flags(placing);
  if (detail.names) name(placing);
  if (detail.corners && trims && numbered) {
    ids(placing);
    endMarks(placing);
  }
  if (detail.figures && !trims) dimensions(placing);
  if (detail.figures && stage === 'measure') readings(placing);
  if (detail.figures && stage !== 'measure') builtIns(placing);
  if (detail.figures && stage === 'draw') openings(placing);
  return placing.found;
}

/** Half a spot that a finding's place takes, points; places in one spot are one to the eye. */
const SPOT = 2;

const spotOf = ([x, y]: Point): string => `${Math.round(x / SPOT)} ${Math.round(y / SPOT)}`;

function blockFlags({ flags: all, view, placer }: Placing): void {
  const blocked = new Set<string>();
  for (const { at } of all) {
    const place = view.on(at);
    const spot = spotOf(place);
    if (!blocked.has(spot)) placer.block(grown([...place, ...place], SPOT));
    blocked.add(spot);
  }
}

/** Corner numbers, with their joints' marks where asked. How many numbers found no place. */
function corners(placing: Placing, marked: boolean): number {
  const { trim, measure, view, inRoom } = placing;
  const line = marked ? shownLine(trim) : null;
  let missing = 0;
  for (const [loopIndex, loop] of trim.room.loops.entries())
    for (const [index, corner] of loop.corners.entries()) {
      const joint = line?.joints[loopIndex]?.[index] ?? null;
      const tag = tagged(loop, index, view.on(corner.at), joint);
      const ref: Ref = { kind: 'corner', level: trim.room.level, id: corner.key };
      if (joint !== null && put(placing, tagCandidates(measure, tag, inRoom, TAG_REACH), ref)) continue;
      if (!put(placing, numberCandidates(measure, tag, inRoom, NUMBER_REACH), ref)) missing += 1;
    }
  return missing;
}

/** Joints' marks alone, near their corners, where the numbers have left room. */
function jointMarks(placing: Placing): void {
  const { trim, measure, view } = placing;
  const line = shownLine(trim);
  for (const [loopIndex, loop] of trim.room.loops.entries())
    for (const [index, corner] of loop.corners.entries()) {
      const joint = line?.joints[loopIndex]?.[index] ?? null;
      if (joint === null) continue;
      const { at, shape } = tagged(loop, index, view.on(corner.at), joint);
      const ref: Ref = { kind: 'corner', level: trim.room.level, id: corner.key };
      const mark = (centre: Point) => [
        patch(squareAt(centre, MARK_SIZE / 2), 'paper'),
        ...cornerMark(measure, joint.joint, shape, centre),
      ];
      put(placing, besides(at, shape.inwardBefore, shape.inwardAfter, mark), ref);
    }
}

/** Places for a mark close to a corner, along the middle of its two faces first. */
function* besides(
  at: Point,
  a: Point,
  b: Point,
  mark: (centre: Point) => readonly Item[],
): Generator<Candidate> {
  const base = Math.atan2(a[1] + b[1], a[0] + b[0]);
  // No further off: it would be taken for another corner's.
  for (const away of [16, 18.5])
    for (let turn = 0; turn < 5; turn++) {
      const swing = ((turn % 2 === 0 ? 1 : -1) * Math.ceil(turn / 2) * Math.PI) / 10;
      const way: Point = [Math.cos(base + swing), Math.sin(base + swing)];
      const centre: Point = [at[0] + way[0] * away, at[1] + way[1] * away];
      const boxes = [squareAt(centre, MARK_SIZE / 2)];
      yield { boxes, opaque: true, cost: (away - 16) * 0.5 + Math.abs(swing) * 3, items: () => mark(centre) };
    }
}

function squareAt([x, y]: Point, half: number): Box {
  return [x - half, y - half, x + half, y + half];
}

/** Flags, worst first. Once one of a spot has found no place it is a dot, which stands for all that come after it there. */
function flags(placing: Placing): void {
  const { measure, view, flags: all } = placing;
  const full = new Set<string>();
  for (const { letter, at } of all) {
    const place = view.on(at);
    const spot = spotOf(place);
    if (full.has(spot)) continue;
    if (put(placing, flagCandidates(measure, letter, place, FLAG_REACH), null, letter)) continue;
    full.add(spot);
    // Where walls are drawn, a dot is not in the way of the node under it.
    const dot = circle(place, 2.4, { ink: 'pencil', width: 1 }, 'paper', 'finding-place');
    placing.found.push(...pinned([dot], view, null, placing.stage === 'draw' ? undefined : letter));
  }
}

function name(placing: Placing): void {
  const { trim, measure, words, rings, box } = placing;
  const { room } = trim;
  const spec = { name: nameOr(room.name, 'Room'), area: words.area(room.area), rings };
  const ref: Ref = { kind: 'room', level: room.level, id: room.id };
  put(placing, nameCandidates(measure, spec, box), ref);
}

function ids(placing: Placing): void {
  const { trim, measure, view, inRoom, step } = placing;
  for (const drawn of boardsOf(trim, step)) {
    const ref: Ref = { kind: 'piece', level: trim.room.level, id: drawn.piece.id };
    put(placing, idCandidates(measure, drawn, view, inRoom), ref);
  }
}

function endMarks(placing: Placing): void {
  const { trim, measure, view, inRoom, step } = placing;
  for (const drawn of boardsOf(trim, step))
    for (const end of markedEnds(drawn, view)) {
      const ref: Ref = { kind: 'piece', level: trim.room.level, id: drawn.piece.id };
      put(placing, endMarkCandidates(measure, end, inRoom), ref);
    }
}

function builtIns(placing: Placing): void {
  const { trim, level, measure, view } = placing;
  for (const segment of segmentsOf(trim.room))
    for (const { builtIn, box } of builtInOutlines(segment, level, view)) {
      const ref: Ref = { kind: 'builtIn', level: trim.room.level, id: builtIn.id };
      const items = placing.placer.place(builtInCandidates(measure, builtIn.kind, box));
      if (items !== null) placing.found.push(...pinned(items, view, ref));
    }
}

function openings(placing: Placing): void {
  const { trim, measure, view, inRoom, words } = placing;
  for (const segment of segmentsOf(trim.room))
    for (const seen of segment.openings) {
      // Said once, from the side the wall is drawn on.
      if (seen.side !== 'right' || (seen.to - seen.from) * view.pointsPerTick < 16) continue;
      const ref: Ref = { kind: 'opening', level: trim.room.level, id: seen.id };
      const said = words.length(seen.opening.width);
      put(placing, openingCandidates(measure, said, segment, seen, view, inRoom), ref);
    }
}
