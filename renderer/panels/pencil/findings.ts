// Findings as the red pencil lists them: by severity, with the room and level in words, and what each is about as
// references that can be chosen. Reads the derived plan; makes no finding and changes none.

import { type Finding, type FindingCode, SEVERITIES, type Severity } from '../../../core/fit/index.ts';
import {
  type BuiltInId,
  type CornerKey,
  type LevelId,
  lookup,
  type MarkId,
  type OpeningId,
  type SegmentKey,
  type WallId,
} from '../../../core/plan/index.ts';
import type { Derived, DerivedLevel } from '../../../core/report/index.ts';
import type { Ref } from '../../state/refs.ts';

export interface FindingGroup {
  readonly severity: Severity;
  readonly findings: readonly Finding[];
}

/** The groups that have findings, worst first; within a group the order of the report. */
export function groupsOf(findings: readonly Finding[]): FindingGroup[] {
  return SEVERITIES.map((severity) => ({
    severity,
    findings: findings.filter((each) => each.severity === severity),
  })).filter((group) => group.findings.length > 0);
}

/**
 * What makes two findings of two states of one plan the same one: code, place and what it is about, but for the profile
 * and the boards, which may be what was changed. Requires the plan in which the finding was made.
 */
export function findingKey(finding: Finding, derived: Derived): string {
  const about = finding.about.filter((id) => lookup(derived.plan.profiles, id) === undefined);
  // Of boards beyond the saw the corner counts and the line; fewer boards over it are no cure.
  const own = finding.code === 'saw-limit' ? [about[0] ?? '', lineOfBoard(about[1] ?? '')] : about;
  return [finding.code, finding.level ?? '', finding.room ?? '', ...own].join('|');
}

/** A board's line, as its id says it: `shoe-7A` is of the shoe, `7A` of the base. */
function lineOfBoard(id: string): string {
  return /^([a-zA-Z]+)-/.exec(id)?.[1] ?? 'base';
}

/** `Kitchen`, or `Kitchen, Ground floor` on another level than the one named: where it is, in words. */
export function placeWords(finding: Finding, derived: Derived, here: LevelId | null = null): string {
  const level = derived.levels.find(({ walk }) => walk.levelId === finding.level);
  if (level === undefined) return 'The whole plan';
  const room = level.walk.rooms.find(({ id }) => id === finding.room)?.name.trim();
  const levelName = level.walk.level.name.trim() || level.walk.levelId;
  if (room === undefined) return levelName;
  const elsewhere = derived.levels.length > 1 && finding.level !== here;
  return elsewhere ? `${room || 'Unnamed room'}, ${levelName}` : room || 'Unnamed room';
}

/** In a word or two what it is, where its code would be read. */
export const CODE_WORDS: Readonly<Record<FindingCode, string>> = {
  'base-proud': 'Base proud of casing',
  'base-flush': 'Base flush with casing',
  'base-short': 'Old line shows',
  'base-close': 'Old line barely covered',
  'height-change': 'Unlike boards meet',
  'opening-clash': 'Opening in the way',
  'built-in-clash': 'Built-in in the way',
  'casing-crowded': 'Casing crowded',
  sliver: 'Sliver',
  'joint-in-sight': 'Joint in sight',
  'angle-odd': 'Odd angle',
  'length-odd': 'Odd length',
  'saw-limit': 'Beyond the saw',
  'order-circle': 'No first board',
  'too-narrow': 'Too narrow',
  mended: 'Mended',
  'cope-short': 'Too short to cope',
  'not-closed': 'Walls do not close',
  'scribe-deep': 'Deep scribe',
  'end-tilt': 'Leaning end',
  'pocket-nails': 'Pocket behind',
  'outlet-hit': 'Outlet in the way',
  'sill-hit': 'Sill in the way',
  'stock-none': 'No board long enough',
  'held-loose': 'Board no longer held',
  unmeasured: 'Not measured',
  'old-paint': 'Old paint',
  'old-floor': 'Old floor',
  'record-unused': 'Not used',
  'room-twice': 'Room named twice',
};

/** What a finding is about, as what can be chosen; its room where nothing of it can. Empty for the whole plan. */
export function refsOf(finding: Finding, derived: Derived): Ref[] {
  const level = derived.levels.find(({ walk }) => walk.levelId === finding.level);
  if (level === undefined) return [];
  const refs = finding.about.flatMap((id) => refOf(id, finding, level) ?? []);
  if (refs.length > 0) return refs;
  const room = level.walk.rooms.find(({ id }) => id === finding.room);
  return room === undefined ? [] : [{ kind: 'room', level: level.walk.levelId, id: room.id }];
}

/** Codes whose `about` names walls, where a wall and an opening may have one id. */
const OF_WALLS: ReadonlySet<FindingCode> = new Set(['not-closed', 'too-narrow', 'mended']);

function refOf(id: string, finding: Finding, derived: DerivedLevel): Ref | null {
  const { level, levelId, rooms } = derived.walk;
  const corner = cornerNamed(derived, id);
  if (corner !== null) return { kind: 'corner', level: levelId, id: corner };
  if (OF_WALLS.has(finding.code)) return wallRef(levelId, derived, id);
  if (hasPiece(derived, id)) return { kind: 'piece', level: levelId, id };
  if (finding.code === 'outlet-hit' && lookup(level.marks, id) !== undefined)
    return { kind: 'mark', level: levelId, id: id as MarkId };
  if (lookup(level.openings, id) !== undefined)
    return { kind: 'opening', level: levelId, id: id as OpeningId };
  if (lookup(level.builtIns, id) !== undefined)
    return { kind: 'builtIn', level: levelId, id: id as BuiltInId };
  const casing = derived.casings.find((each) => each.id === id);
  if (casing !== undefined)
    return { kind: 'casing', level: levelId, opening: casing.opening, id: casing.side };
  const segments = rooms.flatMap(({ loops }) => loops.flatMap((loop) => loop.segments));
  if (segments.some(({ key }) => key === id))
    return { kind: 'segment', level: levelId, id: id as SegmentKey };
  return null;
}

function wallRef(level: LevelId, { walk }: DerivedLevel, id: string): Ref | null {
  return lookup(walk.level.walls, id) === undefined ? null : { kind: 'wall', level, id: id as WallId };
}

function hasPiece({ trims }: DerivedLevel, id: string): boolean {
  return trims.some(({ lines }) =>
    lines.some(({ runs }) =>
      runs.some(({ pieces, returns }) => [...pieces, ...returns].some((piece) => piece.id === id)),
    ),
  );
}

/** The key of `corner 7`, as findings name a corner. */
export function cornerNamed({ walk }: DerivedLevel, name: string): CornerKey | null {
  if (!name.startsWith('corner ')) return null;
  const said = name.slice('corner '.length);
  for (const room of walk.rooms)
    for (const loop of room.loops)
      for (const corner of loop.corners) if (`${corner.number ?? corner.key}` === said) return corner.key;
  return null;
}

/** The finding before or after another in the list, round and round; the first where none is given. */
export function neighbour(findings: readonly Finding[], now: Finding | null, step: 1 | -1): Finding | null {
  if (findings.length === 0) return null;
  const at = now === null ? -1 : findings.indexOf(now);
  if (at < 0) return findings[step === 1 ? 0 : findings.length - 1]!;
  return findings[(at + step + findings.length) % findings.length]!;
}
