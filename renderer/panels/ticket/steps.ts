// From one corner to the next in walking order: round its room, then on to the next room of the level, at the last back to
// the first.

import type { Derived } from '../../../core/report/index.ts';
import { wallsFromLowest } from '../../../core/sheets/strip-spec.ts';
import type { Room } from '../../../core/walk/index.ts';
import type { Ref } from '../../state/refs.ts';
import { levelFound, pieceFound, roomsHolding, segmentFound } from './find.ts';

/** Corners of a room as the walk lists them. */
export function cornersInOrder(room: Room): readonly Room['loops'][number]['corners'][number][] {
  return room.loops.flatMap(({ corners }) =>
    wallsFromLowest(corners).map((index) => corners[(index + corners.length - 1) % corners.length]!),
  );
}

/** The corner after, or before, the one that is chosen; a board or a wall leads to the corner at its end. */
export function corner(shown: Derived, levelId: string | null, from: Ref | null, step: 1 | -1): Ref | null {
  const level = levelId === null ? null : levelFound(shown, levelId);
  if (level === null) return null;
  const all = level.walk.rooms.flatMap(cornersInOrder);
  if (all.length === 0) return null;
  const refOf = (index: number): Ref => ({
    kind: 'corner',
    level: level.walk.levelId,
    id: all[(index + all.length) % all.length]!.key,
  });
  if (from === null || from.level !== levelId) return refOf(step === 1 ? 0 : -1);
  if (from.kind === 'corner') {
    const at = all.findIndex(({ key }) => key === from.id);
    return refOf(at === -1 ? 0 : at + step);
  }
  const segment =
    from.kind === 'segment'
      ? from.id
      : from.kind === 'piece'
        ? pieceFound(level, from.id)?.piece.segment.key
        : undefined;
  const found = segment === undefined ? null : segmentFound(level, segment);
  if (found !== null) {
    const { key } = step === 1 ? found.right : found.left;
    return { kind: 'corner', level: level.walk.levelId, id: key };
  }
  const room = level.walk.rooms.find(({ id }) => id === roomsHolding(level, from)[0]);
  const first = room === undefined ? undefined : cornersInOrder(room)[0];
  return first === undefined ? refOf(0) : { kind: 'corner', level: level.walk.levelId, id: first.key };
}
