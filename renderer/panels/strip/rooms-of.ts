// In which rooms a chosen thing stands: the strip shows one of them. Reads the derived level and changes nothing.

import type { DerivedLevel } from '../../../core/report/index.ts';
import type { RoomTrim } from '../../../core/trim/index.ts';
import type { Ref } from '../../state/refs.ts';

/** The rooms, by id, in the order of the walk; of walls and nodes those with a face on them. */
export function roomsOf({ walk, trims }: DerivedLevel, ref: Ref): string[] {
  if (ref.level !== walk.levelId) return [];
  return trims.filter((trim) => stands(trim, ref)).map(({ room }) => room.id);
}

function stands({ room, lines }: RoomTrim, ref: Ref): boolean {
  const segments = room.loops.flatMap((loop) => loop.segments);
  switch (ref.kind) {
    case 'room':
      return room.id === ref.id;
    case 'segment':
      return segments.some(({ key }) => key === ref.id);
    case 'corner':
      return room.loops.some(({ corners }) => corners.some(({ key }) => key === ref.id));
    case 'opening':
      return segments.some(({ openings }) => openings.some(({ id }) => id === ref.id));
    case 'casing':
      return segments.some(({ openings }) =>
        openings.some(({ id, side }) => id === ref.opening && side === ref.id),
      );
    case 'builtIn':
      return segments.some(({ builtIns }) => builtIns.some(({ id }) => id === ref.id));
    case 'mark':
      return segments.some(({ marks }) => marks.some(({ id }) => id === ref.id));
    case 'wall':
      return segments.some(({ parts }) => parts.some(({ wall }) => wall === ref.id));
    case 'node':
      return room.loops.some(({ corners }) => corners.some(({ node }) => node === ref.id));
    case 'piece':
      return lines.some(({ runs }) =>
        runs.some(({ pieces, returns }) => [...pieces, ...returns].some(({ id }) => id === ref.id)),
      );
  }
}
