// A row of the walk, its keys, and rows counted among their kin. Nothing is derived here.

import type { Severity } from '../../../core/fit/index.ts';
import { type Ref, refKey } from '../../state/refs.ts';

export type RowKind =
  | 'level'
  | 'room'
  | 'loose'
  | 'island'
  | 'corner'
  | 'face'
  | 'board'
  | 'opening'
  | 'thing';

export interface WalkRow {
  /** Unique in the tree: a door stands in two rooms and has a row in each. */
  readonly key: string;
  readonly kind: RowKind;
  /** Null of a level and of the heading over what stands free. */
  readonly ref: Ref | null;
  /** The reference's key. */
  readonly id: string | null;
  /** Keys of other things this row shows: the walls of a face, the node of a corner. */
  readonly also: readonly string[];
  readonly depth: 1 | 2 | 3;
  readonly parent: string | null;
  /** Has rows of its own. */
  readonly opens: boolean;
  readonly open: boolean;
  /** Among the rows with the same parent, from 1; and how many those are. */
  readonly place: number;
  readonly of: number;
  /** In a ring or a box at the row's left: a corner's number, nothing else. */
  readonly sign: string;
  readonly words: string;
  readonly more: string;
  /** What a screen reader says. */
  readonly name: string;
  /** Drawn larger: outside corners, wall ends. */
  readonly shape: string;
  readonly count: number;
  readonly worst: Severity | null;
  /** A board of several on one stretch: its length goes with where they are joined. */
  readonly joined: boolean;
}

/** Which rows are open: levels and rooms by their row keys; null for all. */
export type Opened = ReadonlySet<string> | null;

/** The key of the row over walls that no room looks at. */
export const looseKey = (level: string): string => `loose|${level}`;
export const levelKey = (level: string): string => `level|${level}`;
export const roomKey = (level: string, room: string): string =>
  refKey({ kind: 'room', level: level as never, id: room });
/** The key of a thing's row in a room. */
export const rowKey = (room: string, ref: Ref): string =>
  ref.kind === 'room' ? refKey(ref) : `${room} ${refKey(ref)}`;

/** A row before it is counted among its kin. */
export type Bare = Omit<WalkRow, 'place' | 'of'>;

export const PLAIN = {
  id: null,
  also: [],
  sign: '',
  more: '',
  shape: '',
  count: 0,
  worst: null,
  joined: false,
  opens: false,
  open: false,
} as const;

/** Rows with their places among the rows of the same parent. */
export function placed(rows: readonly Bare[]): readonly WalkRow[] {
  const counts = new Map<string | null, number>();
  const places = rows.map(({ parent }) => {
    const place = (counts.get(parent) ?? 0) + 1;
    counts.set(parent, place);
    return place;
  });
  return rows.map((row, index) => ({ ...row, place: places[index]!, of: counts.get(row.parent)! }));
}

/** Whether two rows look and read the same. */
export function sameRow(a: WalkRow, b: WalkRow): boolean {
  return (
    a === b ||
    (a.key === b.key &&
      a.name === b.name &&
      a.words === b.words &&
      a.more === b.more &&
      a.sign === b.sign &&
      a.shape === b.shape &&
      a.open === b.open &&
      a.opens === b.opens &&
      a.place === b.place &&
      a.of === b.of &&
      a.count === b.count &&
      a.worst === b.worst &&
      a.joined === b.joined)
  );
}
