// What a schema cannot say about a plan: every id that is named exists and is of the right kind, openings lie inside
// their walls, corner numbers are given once. Plan in (ticks), the first problem out. Whatever an edit can mend on
// opening (crossing or zero-length walls) and records that fit nothing are no problems here. RULES: PL5, PL6.

import { mmFromTicks } from '../units/ticks.ts';
import type { Problem } from './issues.ts';
import { byCodeUnit, changedKeys, lookup, sortedEntries } from './maps.ts';
import { type JsonPath, pathText, quoted } from './scan.ts';
import {
  type BuiltIn,
  type CornerKey,
  type HeldBoard,
  type Level,
  LINES,
  type Mark,
  type Plan,
  type Profile,
  type TrimChoice,
  type WallId,
} from './schema.ts';

/** How far an opening may reach past its wall's end: both were rounded to ticks, on walls at any angle. */
const OPENING_SLACK_TICKS = 2;

/** How lengths and fields are called: as a file has them, or in the words of whoever works on the plan. */
export interface ReferenceWords {
  length(ticks: number): string;
  field(name: string): string;
  /** After the name of a length's field. */
  readonly unit: string;
}

/** Millimetres, to a thousandth. */
const FILE_WORDS: ReferenceWords = {
  length: (ticks) => `${Math.round(mmFromTicks(ticks) * 1000) / 1000} mm`,
  field: (name) => `"${name}"`,
  unit: ' in millimetres',
};

/**
 * The first reference or limit that does not hold, or null. `since`: an earlier plan in which all held; what is the same
 * object in both, and names nothing that is not, is not looked at again.
 */
export function referenceProblem(plan: Plan, since?: Plan, words = FILE_WORDS): Problem | null {
  for (const problem of problems(plan, since, words)) return problem;
  return null;
}

function* problems(plan: Plan, since: Plan | undefined, words: ReferenceWords): Generator<Problem> {
  const sameProfiles = plan.profiles === since?.profiles;
  for (const [id, profile] of entriesOf(plan.profiles, since?.profiles)) {
    yield* profileProblems(profile, ['profiles', id], words);
  }
  for (const [id] of entriesOf(plan.stockOnHand, sameProfiles ? since?.stockOnHand : undefined)) {
    if (!lookup(plan.profiles, id)) yield missing(['stockOnHand', id], 'key', 'profile', id);
  }
  for (const [id, boards] of entriesOf(plan.heldBoards, sameProfiles ? since?.heldBoards : undefined)) {
    if (!lookup(plan.profiles, id)) yield missing(['heldBoards', id], 'key', 'profile', id);
    yield* heldProblems(boards, ['heldBoards', id]);
  }
  const levelIds = new Map<string, number>();
  const numbers = new Map<number, readonly [JsonPath, CornerKey]>();
  const before = (id: Level['id']) => since?.levels.find((level) => level.id === id);
  const sameNumbers = plan.levels.every((level) => hasSameNumbers(before(level.id)?.corners, level.corners));
  for (const [index, level] of plan.levels.entries()) {
    const path = ['levels', index];
    const earlier = levelIds.get(level.id);
    if (earlier !== undefined) {
      yield at(
        [...path, 'id'],
        `the id ${quoted(level.id)} is already that of levels[${earlier}]; each level needs its own`,
      );
    }
    levelIds.set(level.id, index);
    yield* levelProblems(plan, level, path, sameProfiles ? before(level.id) : undefined, words);
    if (!sameNumbers) yield* numberProblems(level, path, numbers);
  }
}

/** Entries in code-unit order: all, or those that are not the same object in an earlier map, or that are `also` meant. */
function entriesOf<K extends string, V>(
  map: Readonly<Record<K, V>>,
  before: Readonly<Record<K, V>> | undefined,
  also?: (record: V) => boolean,
): [K, V][] {
  if (before === undefined) return sortedEntries(map);
  const changed = changedKeys(before, map);
  if (also === undefined) return entriesAt(map, changed);
  return entriesAt(map, [...changed, ...(Object.keys(map) as K[]).filter((id) => also(map[id]))]);
}

/** The entries at some keys, those that are there, in code-unit order. */
function entriesAt<K extends string, V>(map: Readonly<Record<K, V>>, keys: Iterable<K>): [K, V][] {
  const there = [...new Set(keys)].filter((id) => Object.hasOwn(map, id));
  return there.sort(byCodeUnit).map((id) => [id, map[id]]);
}

/** Walls that are not what they were, or of which an end is not. */
function touchedWalls(before: Level, after: Level): Set<WallId> {
  const touched = new Set(changedKeys(before.walls, after.walls));
  const nodes = new Set(changedKeys(before.nodes, after.nodes));
  if (nodes.size === 0) return touched;
  for (const id of Object.keys(after.walls) as WallId[]) {
    const { from, to } = after.walls[id]!;
    if (nodes.has(from) || nodes.has(to)) touched.add(id);
  }
  return touched;
}

/** Whether every corner has the number that it had; one that is gone takes no number from another. */
function hasSameNumbers(before: Level['corners'] | undefined, after: Level['corners']): boolean {
  if (before === undefined) return false;
  return entriesOf(after, before).every(([key, { number }]) => lookup(before, key)?.number === number);
}

/** Each kind of moulding needs the sizes that its lengths and checks are reckoned from. */
function* profileProblems(
  profile: Profile,
  path: JsonPath,
  { field, unit }: ReferenceWords,
): Generator<Problem> {
  if (profile.kind === 'casing') {
    if (profile.width === undefined) yield at(path, `a casing needs its ${field('width')}${unit}`);
  } else if (profile.kind === 'crown') {
    const bySpring =
      profile.springAngle !== undefined &&
      (profile.height ?? profile.projection ?? profile.drop) !== undefined;
    const bySize = profile.projection !== undefined && profile.drop !== undefined;
    if (!bySpring && !bySize) {
      yield at(
        path,
        `a crown needs ${field('projection')} and ${field('drop')}, or ${field('springAngle')} and one of ${field('height')}, ${field('projection')}, ${field('drop')}`,
      );
    }
  } else if (profile.height === undefined) {
    yield at(path, `this kind of moulding needs its ${field('height')}${unit}`);
  }
}

/** Each piece is cut from one board; what a board's pieces were is said of its own, once. */
function* heldProblems(boards: readonly HeldBoard[], path: JsonPath): Generator<Problem> {
  const seen = new Map<string, JsonPath>();
  for (const [index, { pieces, was = [] }] of boards.entries()) {
    const untold = new Set(pieces);
    for (const [place, { piece }] of was.entries()) {
      if (!untold.delete(piece)) {
        yield at(
          [...path, index, 'was', place, 'piece'],
          `the piece ${quoted(piece)} is not one of this board, or is told of twice`,
        );
      }
    }
    for (const [place, piece] of pieces.entries()) {
      const here = [...path, index, 'pieces', place];
      const earlier = seen.get(piece);
      if (earlier) {
        yield at(
          here,
          `the piece ${quoted(piece)} is already held at ${pathText(earlier)}; each piece is cut from one board`,
        );
      }
      seen.set(piece, here);
    }
  }
}

/** `was`: an earlier state of the level in a plan with the same profiles. */
function* levelProblems(
  plan: Plan,
  level: Level,
  path: JsonPath,
  was: Level | undefined,
  words: ReferenceWords,
): Generator<Problem> {
  const touched = was && touchedWalls(was, level);
  const isTouched = (wall: WallId): boolean => touched?.has(wall) !== false;
  const walls = touched === undefined ? sortedEntries(level.walls) : entriesAt(level.walls, touched);
  for (const [id, wall] of walls) {
    for (const end of ['from', 'to'] as const) {
      if (!lookup(level.nodes, wall[end]))
        yield missing([...path, 'walls', id, end], 'value', 'node', wall[end]);
    }
  }
  for (const [id, opening] of entriesOf(level.openings, was?.openings, (each) => isTouched(each.wall))) {
    const here = [...path, 'openings', id];
    const length = wallLength(level, opening.wall);
    if (length === null) {
      yield missing([...here, 'wall'], 'value', 'wall', opening.wall);
    } else if (opening.at + opening.width > length + OPENING_SLACK_TICKS) {
      const figures = `it ends ${words.length(opening.at + opening.width)} along a wall of ${words.length(length)}`;
      yield at(
        [...here, 'at'],
        `the opening does not lie inside its wall ${quoted(opening.wall)}: ${figures}`,
      );
    }
    for (const side of ['left', 'right'] as const) {
      const casing = opening.casing?.[side];
      yield* profileReference(plan, casing, 'casing', [...here, 'casing', side]);
    }
  }
  for (const [id, builtIn] of entriesOf(level.builtIns, was?.builtIns, (each) => isTouched(each.wall))) {
    yield* standingProblems(level, builtIn, [...path, 'builtIns', id], words);
  }
  for (const [id, mark] of entriesOf(level.marks, was?.marks, (each) => isTouched(each.wall))) {
    yield* standingProblems(level, mark, [...path, 'marks', id], words);
  }
  const openings = new Set<string>(was && changedKeys(was.openings, level.openings));
  for (const [id, room] of entriesOf(level.rooms, was?.rooms, ({ entry }) => openings.has(entry ?? ''))) {
    const here = [...path, 'rooms', id];
    if (room.entry !== undefined && !lookup(level.openings, room.entry)) {
      yield missing([...here, 'entry'], 'value', 'opening', room.entry);
    }
    yield* trimProblems(plan, room.trim, [...here, 'trim']);
  }
  for (const [key, face] of entriesOf(level.faces, was?.faces)) {
    yield* trimProblems(plan, face.trim, [...path, 'faces', key, 'trim']);
  }
}

/** What stands on a wall's face, from a bottom to a top. */
function* standingProblems(
  level: Level,
  record: BuiltIn | Mark,
  path: JsonPath,
  words: ReferenceWords,
): Generator<Problem> {
  if (!lookup(level.walls, record.wall)) yield missing([...path, 'wall'], 'value', 'wall', record.wall);
  if (record.top < record.bottom) {
    yield at(
      [...path, 'top'],
      `the top, ${words.length(record.top)}, lies below the bottom, ${words.length(record.bottom)}`,
    );
  }
}

function* trimProblems(plan: Plan, trim: TrimChoice | undefined, path: JsonPath): Generator<Problem> {
  for (const line of LINES) yield* profileReference(plan, trim?.[line], line, [...path, line]);
}

function* profileReference(
  plan: Plan,
  id: string | null | undefined,
  kind: Profile['kind'],
  path: JsonPath,
): Generator<Problem> {
  if (id == null) return;
  const profile = lookup(plan.profiles, id);
  if (!profile) yield missing(path, 'value', 'profile', id);
  else if (profile.kind !== kind) {
    yield at(
      path,
      `the profile ${quoted(id)} is of kind "${profile.kind}", where one of kind "${kind}" is needed`,
    );
  }
}

function* numberProblems(
  level: Level,
  path: JsonPath,
  seen: Map<number, readonly [JsonPath, CornerKey]>,
): Generator<Problem> {
  const place = (of: JsonPath, key: CornerKey): JsonPath => [...of, 'corners', key, 'number'];
  for (const [key, corner] of sortedEntries<CornerKey, Level['corners'][CornerKey]>(level.corners)) {
    if (corner.number === undefined) continue;
    const earlier = seen.get(corner.number);
    if (earlier) {
      yield at(
        place(path, key),
        `the corner number ${corner.number} is already given at ${pathText(place(...earlier))}; each corner needs its own`,
      );
    }
    seen.set(corner.number, [path, key]);
  }
}

/** Length of a wall's centre line in ticks; null where the wall or one of its nodes does not exist. */
function wallLength(level: Level, id: string): number | null {
  const wall = lookup(level.walls, id);
  const from = lookup(level.nodes, wall?.from);
  const to = lookup(level.nodes, wall?.to);
  return from && to ? Math.hypot(to[0] - from[0], to[1] - from[1]) : null;
}

function at(path: JsonPath, what: string): Problem {
  return { path, on: 'value', what };
}

function missing(path: JsonPath, on: 'key' | 'value', kind: string, id: string): Problem {
  const where = kind === 'profile' ? 'in this plan' : 'on this level';
  return { path, on, what: `there is no ${kind} ${quoted(id)} ${where}` };
}
