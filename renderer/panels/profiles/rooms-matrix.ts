// What goes where, as a table: rooms by level, a column for each trim line and one for casings; and the edits that set one
// cell, a row like another, or a whole column. Faces with a choice of their own are the exceptions. Draws nothing.

import type { Edit } from '../../../core/edit/index.ts';
import {
  type LevelId,
  LINES,
  lookup,
  type Plan,
  type ProfileId,
  type SegmentKey,
  type TrimLine,
} from '../../../core/plan/index.ts';
import type { Derived, DerivedLevel } from '../../../core/report/index.ts';
import type { Room, SegmentOpening } from '../../../core/walk/index.ts';
import { roomEdit } from '../ticket/room-edits.ts';

export type Column = TrimLine | 'casing';
export const COLUMNS: readonly Column[] = [...LINES, 'casing'];

/** What a cell says: a profile, none, or several (of casings); `unset`: nothing is said. */
export type CellValue =
  | { readonly is: 'profile'; readonly id: ProfileId }
  | { readonly is: 'none' }
  | { readonly is: 'unset' }
  | { readonly is: 'several'; readonly ids: readonly (ProfileId | null | undefined)[] };

export interface MatrixRow {
  readonly level: LevelId;
  readonly levelName: string;
  readonly room: Room;
  readonly cells: Readonly<Record<Column, CellValue>>;
  /** Openings that carry a casing on this room's side. */
  readonly openings: readonly SegmentOpening[];
}

export interface Exception {
  readonly level: LevelId;
  readonly room: Room;
  readonly face: SegmentKey;
  readonly line: TrimLine;
  readonly profile: ProfileId | null;
  /** Numbers of the corners at its left and right end. */
  readonly between: readonly [string, string];
}

/** One row for each room, levels as the plan has them. */
export function matrixOf(derived: Derived): MatrixRow[] {
  return derived.levels.flatMap((level) => level.walk.rooms.map((room) => rowOf(level, room)));
}

function rowOf({ walk }: DerivedLevel, room: Room): MatrixRow {
  const openings = room.loops
    .flatMap((loop) => loop.segments.flatMap((segment) => segment.openings))
    .filter(({ opening }) => opening.kind !== 'passage')
    .filter((each, at, all) => all.findIndex(({ id, side }) => id === each.id && side === each.side) === at);
  const line = (name: TrimLine): CellValue => {
    const chosen = room.record?.trim?.[name];
    if (chosen === undefined) return { is: 'unset' };
    return chosen === null ? { is: 'none' } : { is: 'profile', id: chosen };
  };
  return {
    level: walk.levelId,
    levelName: walk.level.name || walk.levelId,
    room,
    openings,
    cells: {
      base: line('base'),
      shoe: line('shoe'),
      crown: line('crown'),
      chairRail: line('chairRail'),
      pictureRail: line('pictureRail'),
      casing: casingOf(openings),
    },
  };
}

function casingOf(openings: readonly SegmentOpening[]): CellValue {
  const ids = openings.map(({ casing }) => (casing == null ? casing : casing.id));
  const [first] = ids;
  if (ids.length === 0 || ids.every((id) => id === undefined)) return { is: 'unset' };
  if (ids.some((id) => id !== first)) return { is: 'several', ids: [...new Set(ids)] };
  return first === null || first === undefined ? { is: 'none' } : { is: 'profile', id: first };
}

/** Sets one cell; null where nothing would change or the room has no place for a record. */
export function setCell(
  plan: Plan,
  row: MatrixRow,
  column: Column,
  profile: ProfileId | null | undefined,
): Edit | null {
  if (column === 'casing') return several(casingEdits(plan, row, profile), 'case openings');
  return roomEdit(
    plan,
    row.room,
    (room, level) => ({
      type: 'setTrim',
      level,
      of: { room },
      lines: { [column]: profile === undefined ? null : { profile } },
    }),
    `set ${column} of ${row.room.name}`,
  );
}

function casingEdits(plan: Plan, row: MatrixRow, profile: ProfileId | null | undefined): Edit[] {
  const level = plan.levels.find(({ id }) => id === row.level);
  return row.openings.flatMap(({ id, side, opening }) => {
    const record = lookup(level?.openings ?? {}, id) ?? opening;
    const { [side]: was, ...other } = record.casing ?? {};
    if (was === profile) return [];
    const casing = profile === undefined ? other : { ...other, [side]: profile };
    return [{ type: 'changeOpening', level: row.level, opening: id, set: { casing } } satisfies Edit];
  });
}

/** One cell and what it is to say. */
export interface Wanted {
  readonly row: MatrixRow;
  readonly column: Column;
  readonly profile: ProfileId | null | undefined;
}

/**
 * Edits of several cells as one step. A room without a record gets one on the way, once; what an earlier edit says of an
 * opening's other side stays. Null where nothing would change.
 */
export function setSeveral(plan: Plan, wanted: readonly Wanted[], words: string): Edit | null {
  const edits: Edit[] = [];
  let now = plan;
  const named = new Map<string, Room>();
  for (const { row, column, profile } of wanted) {
    const key = `${row.level}|${row.room.id}`;
    const edit = setCell(now, { ...row, room: named.get(key) ?? row.room }, column, profile);
    if (edit === null) continue;
    for (const each of edit.type === 'several' ? edit.edits : [edit]) {
      edits.push(each);
      if (each.type === 'addRoom') named.set(key, { ...row.room, id: each.room, record: each.record });
      now = withRecords(now, each);
    }
  }
  return several(edits, words);
}

/** The plan with the records that later edits of the same step build on. Everything else of it is as it was. */
function withRecords(plan: Plan, edit: Edit): Plan {
  if (edit.type !== 'addRoom' && edit.type !== 'changeOpening') return plan;
  const levels = plan.levels.map((level) => {
    if (level.id !== edit.level) return level;
    if (edit.type === 'addRoom') return { ...level, rooms: { ...level.rooms, [edit.room]: edit.record } };
    const was = lookup(level.openings, edit.opening);
    const { casing } = edit.set;
    if (was === undefined || casing == null) return level;
    return { ...level, openings: { ...level.openings, [edit.opening]: { ...was, casing } } };
  });
  return { ...plan, levels };
}

function several(edits: readonly Edit[], words: string): Edit | null {
  if (edits.length === 0) return null;
  return edits.length === 1 ? edits[0]! : { type: 'several', edits, words };
}

/** What one row would have to change to be like another: lines and, where that has one casing, casings. */
export function likeRow(
  from: MatrixRow,
): { readonly column: Column; readonly profile: ProfileId | null | undefined }[] {
  return COLUMNS.flatMap((column) => {
    const cell = from.cells[column];
    if (cell.is === 'several') return [];
    if (column === 'casing' && cell.is === 'unset') return [];
    return [{ column, profile: cell.is === 'profile' ? cell.id : cell.is === 'none' ? null : undefined }];
  });
}

/** Faces that do not do as their room. */
export function exceptionsOf(derived: Derived): Exception[] {
  return derived.levels.flatMap(({ walk }) =>
    walk.rooms.flatMap((room) =>
      room.loops.flatMap((loop) =>
        loop.segments.flatMap((segment, index) => {
          const name = (at: number): string => `${loop.corners[at]?.number ?? '?'}`;
          const between = [
            name((index + loop.corners.length - 1) % loop.corners.length),
            name(index),
          ] as const;
          return LINES.flatMap((line) => {
            const profile = segment.record?.trim?.[line];
            if (profile === undefined) return [];
            return [{ level: walk.levelId, room, face: segment.key, line, profile, between }];
          });
        }),
      ),
    ),
  );
}

/** The face does as its room again. */
export function asRoom({ level, face, line }: Exception): Edit {
  return { type: 'setTrim', level, of: { face }, lines: { [line]: null } };
}
