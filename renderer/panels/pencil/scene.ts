// The part of the derived plan that a finding lies in, and the few edits that several remedies are made of. Ticks.

import type { Edit } from '../../../core/edit/index.ts';
import type { Finding } from '../../../core/fit/index.ts';
import { bareName } from '../../../core/fit/say.ts';
import {
  type LevelId,
  lookup,
  type Plan,
  type Profile,
  type ProfileId,
  type RoomId,
  type SegmentKey,
  type TrimLine,
} from '../../../core/plan/index.ts';
import type { Derived, DerivedLevel } from '../../../core/report/index.ts';
import type { LineTrim, Piece, RoomTrim, Stretch } from '../../../core/trim/index.ts';

export interface Scene {
  readonly plan: Plan;
  readonly levelId: LevelId;
  readonly level: DerivedLevel;
  /** Null where the finding lies in no room. */
  readonly trim: RoomTrim | null;
}

/** Null where the finding is of the whole plan. */
export function sceneOf(finding: Finding, derived: Derived): Scene | null {
  const level = derived.levels.find(({ walk }) => walk.levelId === finding.level);
  if (level === undefined) return null;
  const trim = level.trims.find(({ room }) => room.id === finding.room) ?? null;
  return { plan: derived.plan, levelId: level.walk.levelId, level, trim };
}

/** A moulding by name within a sentence. */
export function named(plan: Plan, id: ProfileId): string {
  const profile = lookup(plan.profiles, id);
  return profile === undefined ? id : `“${bareName(id, profile)}”`;
}

export function profileOf(plan: Plan, id: string): Profile | null {
  return lookup(plan.profiles, id) ?? null;
}

/** One edit of several; null of none. */
export function together(edits: readonly Edit[], words: string): Edit | null {
  if (edits.length === 0) return null;
  return edits.length === 1 ? edits[0]! : ({ type: 'several', edits, words } as Edit);
}

/** Wherever the room or one of its faces names a profile for a line, it names another instead. Null where none does. */
export function swapIn(
  levelId: LevelId,
  { room }: RoomTrim,
  line: TrimLine,
  from: ProfileId,
  to: ProfileId,
): Edit | null {
  const lines = { [line]: { profile: to } };
  const edits: Edit[] = [];
  if (room.record?.trim?.[line] === from)
    edits.push({ type: 'setTrim', level: levelId, of: { room: room.id as RoomId }, lines });
  for (const segment of room.loops.flatMap((loop) => loop.segments))
    if (segment.record?.trim?.[line] === from)
      edits.push({ type: 'setTrim', level: levelId, of: { face: segment.key }, lines });
  return together(edits, `change ${line} of room`);
}

/** One face carries a profile; where that is what its room carries, it follows the room again. */
export function onFace(
  levelId: LevelId,
  { room }: RoomTrim,
  face: SegmentKey,
  line: TrimLine,
  to: ProfileId | null,
): Edit {
  const asRoom = to !== null && room.record?.trim?.[line] === to;
  const lines = { [line]: asRoom ? null : { profile: to } };
  return { type: 'setTrim', level: levelId, of: { face }, lines };
}

/** A board by id, with its line. */
export function pieceIn(
  trim: RoomTrim,
  id: string,
): { readonly line: LineTrim; readonly piece: Piece } | null {
  for (const line of trim.lines)
    for (const run of line.runs)
      for (const piece of [...run.pieces, ...run.returns]) if (piece.id === id) return { line, piece };
  return null;
}

/** The stretches of a line that end at an opening, with that end. */
export function stretchesAt(
  trim: RoomTrim,
  line: TrimLine,
  opening: string,
): { readonly stretch: Stretch; readonly stop: Extract<Stretch['left'], { kind: 'opening' }> }[] {
  const stretches = trim.lines.find((each) => each.line === line)?.stretches ?? [];
  return stretches.flatMap((stretch) =>
    [stretch.left, stretch.right].flatMap((stop) =>
      stop.kind === 'opening' && stop.opening.id === opening ? [{ stretch, stop }] : [],
    ),
  );
}

/** At most so many mouldings are offered for one finding. */
export const MOST_PROFILES = 3;

/** A step of the plan's fine figures, upwards: 1/16 in or 1 mm. */
export function roundedUp(scene: Scene, ticks: number): number {
  const step = scene.plan.units === 'imperial' ? 508 : 320;
  return Math.ceil(ticks / step) * step;
}
