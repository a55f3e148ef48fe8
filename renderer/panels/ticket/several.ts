// Several things chosen: how many of each, and what walls have in common. A figure that differs is null.

import type { FaceSurface, Level, WallId } from '../../../core/plan/index.ts';
import { lookup } from '../../../core/plan/index.ts';
import type { Ref } from '../../state/refs.ts';
import { counted } from './say.ts';

const NAMES: Readonly<Record<Ref['kind'], readonly [string, string]>> = {
  wall: ['wall', 'walls'],
  node: ['point', 'points'],
  opening: ['opening', 'openings'],
  builtIn: ['built-in', 'built-ins'],
  mark: ['outlet or register', 'outlets and registers'],
  room: ['room', 'rooms'],
  corner: ['corner', 'corners'],
  segment: ['wall face', 'wall faces'],
  piece: ['board', 'boards'],
  casing: ['casing', 'casings'],
};

/** `3 walls, 1 opening`. */
export function severalWords(refs: readonly Ref[]): string {
  const counts = new Map<Ref['kind'], number>();
  for (const { kind } of refs) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  return [...counts].map(([kind, count]) => counted(count, ...NAMES[kind])).join(', ');
}

export interface CommonOfWalls {
  readonly ids: readonly WallId[];
  /** Ticks; null where they differ. */
  readonly thickness: number | null;
  /** `ceiling` where all go up to it; null where they differ. */
  readonly height: number | 'ceiling' | null;
  readonly surface: FaceSurface | null;
}

/** Null where no wall is chosen. */
export function commonOfWalls(level: Level, refs: readonly Ref[]): CommonOfWalls | null {
  const ids = refs.flatMap((ref) => (ref.kind === 'wall' && ref.level === level.id ? [ref.id] : []));
  const walls = ids.flatMap((id) => lookup(level.walls, id) ?? []);
  if (walls.length === 0) return null;
  const same = <T>(values: readonly T[]): T | null =>
    values.every((each) => each === values[0]) ? (values[0] ?? null) : null;
  return {
    ids,
    thickness: same(walls.map(({ thickness }) => thickness)),
    height: same(walls.map(({ height }) => height ?? ('ceiling' as const))),
    surface: same(
      walls.flatMap(({ faces }) => [
        faces?.left ?? ('drywall' as const),
        faces?.right ?? ('drywall' as const),
      ]),
    ),
  };
}
