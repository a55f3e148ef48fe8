// A tape walk as it stands in the dialog's rows, to the lengths and turns of core's tape walk, to how it closes, to the edit.
// Texts are kept as typed; what cannot be read is said by row. Lengths in ticks; corner angles as an angle finder reads them.

import type { AddChain } from '../../../core/edit/index.ts';
import { apply, idGiver } from '../../../core/edit/index.ts';
import type { Point } from '../../../core/graph/index.ts';
import { type Level, mustLookup, type Plan, type RoomId } from '../../../core/plan/index.ts';
import {
  isSquare,
  type TapeEntry,
  type TapeWalk,
  tapeEdit,
  turnOf,
  walkTape,
} from '../../../core/survey/index.ts';
import { ticksFromMm } from '../../../core/units/index.ts';
import { boundsOfPoints } from '../../state/viewport.ts';
import type { Figures } from '../kit/figures.ts';

export interface TapeRow {
  readonly length: string;
  readonly corner: 'inside' | 'outside';
  readonly angle: string;
}

export const NEW_ROW: TapeRow = { length: '', corner: 'inside', angle: '90' };

export interface ReadRow {
  readonly entry: TapeEntry | null;
  /** What cannot be read, in one sentence; null where all can. An empty length is no problem. */
  readonly problem: string | null;
}

export function readRow(row: TapeRow, figures: Figures): ReadRow {
  if (row.length.trim() === '') return { entry: null, problem: null };
  const length = figures.readLength(row.length);
  if (!length.ok) return { entry: null, problem: length.message };
  if (!(length.value > 0)) return { entry: null, problem: 'A wall needs a length above zero.' };
  const angle = figures.readAngle(row.angle);
  if (!angle.ok) return { entry: null, problem: angle.message };
  if (!(angle.value > 0 && angle.value <= 180))
    return {
      entry: null,
      problem:
        'A corner is above 0° and at most 180°, as an angle finder reads it; say inside or outside beside it.',
    };
  return { entry: { length: length.value, turnDeg: turnOf(row.corner, angle.value) }, problem: null };
}

export interface TapeReading {
  readonly entries: readonly TapeEntry[];
  /** By row. */
  readonly problems: readonly (string | null)[];
  readonly walk: TapeWalk | null;
  /** How the miss would be spread; null below three lengths. */
  readonly rule: 'none' | 'square' | 'compass' | null;
}

/** Rows to entries; rows without a length are passed over. */
export function readRows(rows: readonly TapeRow[], figures: Figures, headingDeg: number): TapeReading {
  const read = rows.map((row) => readRow(row, figures));
  const entries = read.flatMap(({ entry }) => (entry === null ? [] : [entry]));
  const problems = read.map(({ problem }) => problem);
  const walk = entries.length === 0 ? null : walkTape(entries, headingDeg);
  if (walk === null || entries.length < 3) return { entries, problems, walk, rule: null };
  const square = walk.points.length >= 5 && isSquare(walk.points);
  const rule = walk.misclosure.distance < 0.5 ? 'none' : square ? 'square' : 'compass';
  return { entries, problems, walk, rule };
}

/** Where a tape room goes on a level: the chosen place, else beside all that stands there, else the origin. */
export function placeFor(level: Level, chosen: Point | null, units: Plan['units']): Point {
  if (chosen !== null) return chosen;
  const nodes = Object.keys(level.nodes).map((id) => mustLookup<string, Point>(level.nodes, id));
  const box = boundsOfPoints(nodes);
  return box === null ? [0, 0] : [box[2] + ticksFromMm(units === 'metric' ? 1000 : 914.4), box[1]];
}

export interface TapeWish {
  readonly at: Point;
  readonly headingDeg: number;
  readonly thickness: number;
  readonly name: string;
}

/** The edit that draws the room, and a sentence where the plan would not take it. Requires three entries. */
export function tapeRoom(
  plan: Plan,
  level: Level,
  entries: readonly TapeEntry[],
  wish: TapeWish,
): { readonly edit: AddChain; readonly shape: readonly Point[] } | { readonly why: string } {
  const { at, headingDeg, thickness } = wish;
  const name = wish.name.trim();
  const id = idGiver<RoomId>('r', Object.keys(level.rooms))();
  const room = name === '' ? {} : { room: { id, record: { name } } };
  const edit = tapeEdit(entries, { level: level.id, at, headingDeg, thickness, ...room });
  const done = apply(plan, edit);
  return done.ok ? { edit, shape: edit.points } : { why: done.message };
}
