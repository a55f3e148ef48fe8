// Words for messages: lengths in the plan's units, corners and boards by name, and the one constructor of findings.
// Lengths in ticks in, text or mm out. Knows nothing of what is wrong with a house.

import type { Point } from '../graph/types.ts';
import { BUILT_IN_KINDS, OPENING_KINDS } from '../plan/kinds.ts';
import type { LevelId, Plan, Profile, ProfileId } from '../plan/schema.ts';
import { sayLength } from '../trim/index.ts';
import { mmFromTicks, roundHalfAway, type Ticks } from '../units/ticks.ts';
import type { Corner, Room, Segment, SegmentBuiltIn, SegmentOpening } from '../walk/types.ts';
import type { Finding, FindingCode, Severity } from './types.ts';

export { sayLength };

/** How bad each finding is (RULES: FD1). */
export const SEVERITY_OF: Readonly<Record<FindingCode, Severity>> = {
  'base-proud': 'stop',
  'base-flush': 'look',
  'base-short': 'stop',
  'base-close': 'look',
  'height-change': 'fix',
  'opening-clash': 'stop',
  'built-in-clash': 'fix',
  'casing-crowded': 'fix',
  sliver: 'look',
  'joint-in-sight': 'look',
  'angle-odd': 'look',
  'length-odd': 'look',
  'saw-limit': 'fix',
  'order-circle': 'stop',
  'too-narrow': 'fix',
  mended: 'look',
  'cope-short': 'look',
  'not-closed': 'fix',
  'scribe-deep': 'stop',
  'end-tilt': 'fix',
  'pocket-nails': 'fix',
  'outlet-hit': 'fix',
  'sill-hit': 'fix',
  'stock-none': 'stop',
  'held-loose': 'look',
  unmeasured: 'look',
  'old-paint': 'look',
  'old-floor': 'look',
  'record-unused': 'look',
  'room-twice': 'look',
};

/** A length that must not be undercut, rounded up to the plan's fine step (1/64 in or 0.1 mm). */
export function sayAtLeast(plan: Plan, ticks: Ticks): string {
  const step = plan.units === 'imperial' ? 127 : 32;
  return sayLength(plan, Math.ceil(whole(Math.abs(ticks)) / step) * step);
}

/** A length that must not be exceeded, rounded down to the plan's fine step. */
export function sayAtMost(plan: Plan, ticks: Ticks): string {
  const step = plan.units === 'imperial' ? 127 : 32;
  return sayLength(plan, Math.floor(whole(Math.abs(ticks)) / step) * step);
}

/** Degrees to two decimals, no needless zeros. */
export function sayDegrees(degrees: number): string {
  return `${Number(degrees.toFixed(2))}°`;
}

/** `corner 7`, or its key while it has no number. */
export function cornerName(corner: Corner): string {
  return `corner ${corner.number ?? corner.key}`;
}

/** `door o3`: an opening as the crew knows it, with the name it has on the plan. */
export function openingName({ id, opening }: SegmentOpening): string {
  return `${OPENING_KINDS[opening.kind]} ${id}`;
}

/** `cabinet b3`. */
export function builtInName({ id, kind }: SegmentBuiltIn): string {
  return `${BUILT_IN_KINDS[kind]} ${id}`;
}

/** A moulding by its name, by its id where it has none. */
export function bareName(id: ProfileId, profile: Profile): string {
  const name = profile.name.trim();
  return name === '' ? id : name;
}

/** The same within a sentence: `"Tall eased base"`. */
export function profileName(id: ProfileId, profile: Profile): string {
  return `"${bareName(id, profile)}"`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** First letter large: a sentence that starts with a name of ours. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A point of the plan on a segment, `at` ticks from its left corner. */
export function pointOn(segment: Segment, at: number): Point {
  return [segment.start[0] + segment.along[0] * at, segment.start[1] + segment.along[1] * at];
}

/** Where a finding about a whole room stands: its record's place, else the middle of its first segment. */
export function roomPoint(room: Room): Point | null {
  if (room.record) return room.record.at;
  const first = room.loops[0]?.segments[0];
  return first ? pointOn(first, first.drawn / 2) : null;
}

/** A derived length as whole ticks, so that comparisons are exact and do not hang on a last bit. */
export function whole(ticks: number): Ticks {
  return roundHalfAway(ticks);
}

export const mm = mmFromTicks;

/** Where a finding stands. */
export interface Place {
  readonly level: LevelId | null;
  readonly room: string | null;
  readonly at: Point | null;
}

export interface Said {
  readonly about?: readonly string[];
  readonly message: string;
  readonly remedies?: readonly string[];
  readonly figures?: Readonly<Record<string, number>>;
}

/** A finding with the severity its code has. */
export function finding(code: FindingCode, place: Place, said: Said): Finding {
  return {
    code,
    severity: SEVERITY_OF[code],
    level: place.level,
    room: place.room,
    at: place.at,
    about: said.about ?? [],
    message: said.message,
    remedies: said.remedies ?? [],
    figures: said.figures ?? {},
  };
}
