// Whether the new base of a room covers the paint line the old one left, in a sentence: from the findings, which compare
// them; where none complains and all of it is known, it covers.

import type { Derived, DerivedLevel } from '../../../core/report/index.ts';
import type { RoomTrim } from '../../../core/trim/index.ts';

export interface Verdict {
  readonly words: string;
  readonly bad: boolean;
  /** What to do. */
  readonly more: string | null;
}

/** Null where the room has no base. */
export function lineVerdict(shown: Derived, level: DerivedLevel, { room, lines }: RoomTrim): Verdict | null {
  const base = lines.find(({ line }) => line === 'base');
  if (base === undefined || base.stretches.length === 0) return null;
  const said = shown.findings.find(
    (each) =>
      (each.code === 'base-short' || each.code === 'base-close') &&
      each.level === level.walk.levelId &&
      each.room === room.id,
  );
  if (said !== undefined)
    return { words: said.message, bad: said.severity === 'stop', more: said.remedies[0] ?? null };
  const { old, new: next } = room.record ?? {};
  const missing = [
    ...(old?.baseHeight === undefined ? ['the old base height'] : []),
    ...(old?.floor === undefined ? ['the old floor'] : []),
    ...(next?.floor === undefined ? ['the new floor'] : []),
  ];
  if (missing.length > 0)
    return {
      words: `Not known yet: ${missing.join(', ')} ${missing.length === 1 ? 'is' : 'are'} missing.`,
      bad: false,
      more: null,
    };
  return { words: 'The new base covers it.', bad: false, more: null };
}
