// What the checks of one room look at, and the small questions several of them ask: how high a base stands, where each
// piece lies along its segment, how long the stock is. Lengths in ticks.

import type { Point } from '../graph/types.ts';
import type { LevelId, Plan } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import type { LineTrim, Piece, RoomTrim, Stretch } from '../trim/types.ts';
import type { Ticks } from '../units/ticks.ts';
import type { Corner, Room, Segment } from '../walk/types.ts';
import type { Place } from './say.ts';

export interface RoomContext {
  readonly plan: Plan;
  readonly settings: Settings;
  readonly level: LevelId;
  readonly room: Room;
  readonly trim: RoomTrim;
}

/** A place in the context's room. */
export function placeIn(context: RoomContext, at: Point | null): Place {
  return { level: context.level, room: context.room.id, at };
}

/** The trim of one line; empty where the room has none. */
export function lineOf(trim: RoomTrim, line: LineTrim['line']): LineTrim | undefined {
  return trim.lines.find((each) => each.line === line);
}

export function stretchesOf(trim: RoomTrim, line: LineTrim['line']): readonly Stretch[] {
  return lineOf(trim, line)?.stretches ?? [];
}

/**
 * Where the surface lies on which the base stands: new floor and the gap under the base, above the subfloor.
 * An absent gap is 0 where the floor is known (RULES: FD3). Null where the floor is not known.
 */
export function standingHeight(room: Room): Ticks | null {
  const next = room.record?.new;
  if (next?.floor === undefined) return null;
  return next.floor + (next.gap ?? 0);
}

/** The line the old base left: old floor, old gap and old height, above the subfloor. Null where floor or height is unknown. */
export function oldLine(room: Room): Ticks | null {
  const old = room.record?.old;
  if (old?.floor === undefined || old.baseHeight === undefined) return null;
  return old.floor + (old.gap ?? 0) + old.baseHeight;
}

/** The corners at a segment's left and right end. */
export function cornersOf(
  room: Room,
  segment: Segment,
): readonly [left: Corner | undefined, right: Corner | undefined] {
  const corners = room.loops[segment.loop]?.corners ?? [];
  return [corners[(segment.index + corners.length - 1) % corners.length], corners[segment.index]];
}

/** All pieces of a line, return pieces left out, in walking order. */
export function piecesOf(line: LineTrim | undefined): readonly Piece[] {
  return line?.runs.flatMap((run) => run.pieces) ?? [];
}

/** A stretch and its pieces from the left. */
export interface Parted {
  readonly stretch: Stretch;
  readonly parts: readonly Piece[];
}

/** The stretches of a line with their pieces, in walking order. */
export function partedOf(line: LineTrim): readonly Parted[] {
  const parts = new Map<string, Piece[]>();
  for (const piece of piecesOf(line)) {
    const key = keyOf(piece.stretch);
    const known = parts.get(key);
    if (known) known.push(piece);
    else parts.set(key, [piece]);
  }
  for (const list of parts.values()) if (list.length > 1) list.sort((a, b) => a.part - b.part);
  return line.stretches.map((stretch) => ({ stretch, parts: parts.get(keyOf(stretch)) ?? [] }));
}

const keyOf = (stretch: Stretch): string => `${stretch.segment.key} ${stretch.key}`;

/** A piece with its extent along its segment as drawn. */
export interface PlacedPiece {
  readonly piece: Piece;
  readonly from: number;
  readonly to: number;
}

/** Lays the parts of a stretch out on its drawn extent, in proportion to their lengths (a measured stretch may differ). */
export function placeParts(stretch: Stretch, parts: readonly Piece[]): readonly PlacedPiece[] {
  const total = parts.reduce((sum, piece) => sum + piece.L, 0);
  const scale = total > 0 ? (stretch.to - stretch.from) / total : 0;
  let before = 0;
  return parts.map((piece) => {
    const from = stretch.from + before * scale;
    before += piece.L;
    return { piece, from, to: stretch.from + before * scale };
  });
}
