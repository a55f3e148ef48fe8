// Where a reference leads in what was derived: the room, the loop, the board. Null where the thing is gone. Nothing is
// reckoned here. Boards by their ends: which board comes to a corner on which side.

import type { Level, WallId } from '../../../core/plan/index.ts';
import { lookup } from '../../../core/plan/index.ts';
import type { Derived, DerivedLevel } from '../../../core/report/index.ts';
import type { CornerAngles, LineTrim, Piece, RoomTrim, Run } from '../../../core/trim/index.ts';
import type { Corner, Loop, Room, Segment } from '../../../core/walk/index.ts';
import type { Ref } from '../../state/refs.ts';

export interface CornerFound {
  readonly trim: RoomTrim;
  readonly room: Room;
  readonly loop: Loop;
  readonly loopIndex: number;
  readonly index: number;
  readonly corner: Corner;
  readonly angles: CornerAngles;
  /** The face that ends in it and the one that starts there. */
  readonly before: Segment;
  readonly after: Segment;
}

export interface SegmentFound {
  readonly trim: RoomTrim;
  readonly room: Room;
  readonly loop: Loop;
  readonly segment: Segment;
  readonly left: Corner;
  readonly right: Corner;
}

export interface PieceFound {
  readonly trim: RoomTrim;
  readonly line: LineTrim;
  readonly run: Run;
  readonly piece: Piece;
}

export function levelFound(shown: Derived, id: string): DerivedLevel | null {
  return shown.levels.find(({ walk }) => walk.levelId === id) ?? null;
}

export function roomFound(level: DerivedLevel, id: string): RoomTrim | null {
  return level.trims.find(({ room }) => room.id === id) ?? null;
}

export function cornerFound(level: DerivedLevel, key: string): CornerFound | null {
  for (const trim of level.trims) {
    const { room } = trim;
    for (const [loopIndex, loop] of room.loops.entries()) {
      const index = loop.corners.findIndex((each) => each.key === key);
      if (index < 0) continue;
      const corner = loop.corners[index]!;
      return {
        trim,
        room,
        loop,
        loopIndex,
        index,
        corner,
        angles: trim.angles[loopIndex]![index]!,
        before: loop.segments[index]!,
        after: loop.segments[(index + 1) % loop.segments.length]!,
      };
    }
  }
  return null;
}

/** The corners at the left and right end of a face. */
export function endsOf(loop: Loop, index: number): readonly [left: Corner, right: Corner] {
  const count = loop.corners.length;
  return [loop.corners[(index + count - 1) % count]!, loop.corners[index]!];
}

export function segmentFound(level: DerivedLevel, key: string): SegmentFound | null {
  for (const trim of level.trims) {
    for (const loop of trim.room.loops) {
      const index = loop.segments.findIndex((each) => each.key === key);
      if (index < 0) continue;
      const [left, right] = endsOf(loop, index);
      return { trim, room: trim.room, loop, segment: loop.segments[index]!, left, right };
    }
  }
  return null;
}

/** Every face of a room of which a side of the wall is a part. */
export function segmentsOfWall(level: DerivedLevel, wall: WallId): readonly SegmentFound[] {
  return level.trims.flatMap((trim) =>
    trim.room.loops.flatMap((loop) =>
      loop.segments.flatMap((segment, index): SegmentFound[] => {
        if (!segment.parts.some((part) => part.wall === wall)) return [];
        const [left, right] = endsOf(loop, index);
        return [{ trim, room: trim.room, loop, segment, left, right }];
      }),
    ),
  );
}

export function pieceFound(level: DerivedLevel, id: string): PieceFound | null {
  for (const trim of level.trims)
    for (const line of trim.lines)
      for (const run of line.runs) {
        const piece = run.pieces.find((each) => each.id === id) ?? run.returns.find((each) => each.id === id);
        if (piece !== undefined) return { trim, line, run, piece };
      }
  return null;
}

/** The boards of a line that end in a corner: the one on the wall walked in on, and the one on the wall walked out on. */
export function boardsAt(
  line: LineTrim,
  corner: Corner,
): { readonly before?: Piece; readonly after?: Piece } {
  let [before, after]: (Piece | undefined)[] = [];
  for (const { pieces } of line.runs) {
    before ??= pieces.find(({ right }) => 'corner' in right.at && right.at.corner.key === corner.key);
    after ??= pieces.find(({ left }) => 'corner' in left.at && left.at.corner.key === corner.key);
  }
  return { ...(before === undefined ? {} : { before }), ...(after === undefined ? {} : { after }) };
}

/** The rooms a thing is seen in, by their ids. */
export function roomsHolding(level: DerivedLevel, ref: Ref): readonly string[] {
  const faces = (has: (segment: Segment) => boolean): string[] =>
    level.walk.rooms
      .filter((room) => room.loops.some((loop) => loop.segments.some(has)))
      .map((room) => room.id);
  switch (ref.kind) {
    case 'room':
      return roomFound(level, ref.id) === null ? [] : [ref.id];
    case 'corner':
      return asList(cornerFound(level, ref.id)?.room.id);
    case 'segment':
      return asList(segmentFound(level, ref.id)?.room.id);
    case 'piece':
      return asList(pieceFound(level, ref.id)?.piece.room);
    case 'opening':
      return faces(({ openings }) => openings.some(({ id }) => id === ref.id));
    case 'casing':
      return faces(({ openings }) => openings.some(({ id, side }) => id === ref.opening && side === ref.id));
    case 'builtIn':
      return faces(({ builtIns }) => builtIns.some(({ id }) => id === ref.id));
    case 'mark':
      return faces(({ marks }) => marks.some(({ id }) => id === ref.id));
    case 'wall':
      return faces(({ parts }) => parts.some(({ wall }) => wall === ref.id));
    case 'node':
      return level.walk.rooms
        .filter((room) => room.loops.some((loop) => loop.corners.some(({ node }) => node === ref.id)))
        .map((room) => room.id);
  }
}

const asList = (id: string | undefined): string[] => (id === undefined ? [] : [id]);

/** Whether the plan still has what a reference names. */
export function stillThere(level: Level, derived: DerivedLevel, ref: Ref): boolean {
  switch (ref.kind) {
    case 'wall':
      return lookup(level.walls, ref.id) !== undefined;
    case 'node':
      return lookup(level.nodes, ref.id) !== undefined;
    case 'opening':
      return lookup(level.openings, ref.id) !== undefined;
    case 'casing':
      return lookup(level.openings, ref.opening) !== undefined;
    case 'builtIn':
      return lookup(level.builtIns, ref.id) !== undefined;
    case 'mark':
      return lookup(level.marks, ref.id) !== undefined;
    default:
      return roomsHolding(derived, ref).length > 0;
  }
}
