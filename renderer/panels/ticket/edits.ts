// What the ticket's fields and the trim commands change, as edits: joints, boards to be coped, back to the rule, faces,
// casings. Plain data; null where there is nothing to do. New ids are the caller's.

import type { Edit } from '../../../core/edit/index.ts';
import {
  type CornerKey,
  type JointChoice,
  type LevelId,
  LINES,
  lookup,
  type Opening,
  type OpeningId,
  type ProfileId,
  type SegmentKey,
  type Side,
  type TrimLine,
} from '../../../core/plan/index.ts';
import type { Derived } from '../../../core/report/index.ts';
import type { Ref } from '../../state/refs.ts';
import { type CornerFound, cornerFound, levelFound, pieceFound } from './find.ts';
import { counted } from './say.ts';

/** Choices of the user at a corner, for one line. */
export function setJoint(level: LevelId, corner: CornerKey, line: TrimLine, joint: JointChoice | null): Edit {
  return { type: 'setCorner', level, corner, set: { lines: { [line]: { joint } } } };
}

export function setCoped(
  level: LevelId,
  corner: CornerKey,
  line: TrimLine,
  coped: 'before' | 'after' | null,
): Edit {
  return { type: 'setCorner', level, corner, set: { lines: { [line]: { coped } } } };
}

/** The corners that are meant: those chosen; where none is, the one under the pointer or the walk's focus. */
export function cornersMeant(selection: readonly Ref[], hover: Ref | null): readonly Ref[] {
  const chosen = selection.filter(({ kind }) => kind === 'corner');
  if (chosen.length > 0 || selection.length > 0) return chosen;
  return hover?.kind === 'corner' ? [hover] : [];
}

/** Copes, or butts, the other board at each of these corners. Null where no board is worked at any of them. */
export function swapCope(shown: Derived, corners: readonly Ref[]): Edit | null {
  const edits = corners.flatMap((ref): Edit[] => {
    const found = cornerOf(shown, ref);
    if (found === null) return [];
    const lines: Partial<Record<TrimLine, { coped: 'before' | 'after' }>> = {};
    for (const { line, joints } of found.trim.lines) {
      const coped = joints[found.loopIndex]?.[found.index]?.coped ?? null;
      if (coped !== null) lines[line] = { coped: coped === 'before' ? 'after' : 'before' };
    }
    if (Object.keys(lines).length === 0) return [];
    return [{ type: 'setCorner', level: ref.level, corner: found.corner.key, set: { lines } }];
  });
  if (edits.length === 0) return null;
  if (edits.length > 1)
    return { type: 'several', edits, words: `cope ${counted(edits.length, 'corner')} the other way` };
  const number = cornerOf(shown, corners[0]!)?.corner.number;
  return {
    type: 'several',
    edits,
    words: `cope ${number == null ? 'the corner' : `corner ${number}`} the other way`,
  };
}

/** Lets corners, the ends of boards and faces follow the rule again. Null where nothing of them was chosen by the user. */
export function backToRule(shown: Derived, refs: readonly Ref[]): Edit | null {
  const edits = new Map<string, Edit>();
  const corner = (level: LevelId, key: CornerKey, only: TrimLine | null): void => {
    const record = lookup(shown.plan.levels.find(({ id }) => id === level)?.corners ?? {}, key);
    const lines = LINES.filter(
      (line) => record?.lines?.[line] !== undefined && (only === null || only === line),
    );
    if (lines.length === 0) return;
    const set = { lines: Object.fromEntries(lines.map((line) => [line, null])) };
    edits.set(`corner ${key}`, { type: 'setCorner', level, corner: key, set });
  };
  for (const ref of refs) {
    const level = levelFound(shown, ref.level);
    if (level === null) continue;
    if (ref.kind === 'corner') corner(ref.level, ref.id, null);
    else if (ref.kind === 'piece') {
      const piece = pieceFound(level, ref.id)?.piece;
      for (const end of piece === undefined ? [] : [piece.left, piece.right])
        if ('corner' in end.at) corner(ref.level, end.at.corner.key, piece!.line);
    } else if (ref.kind === 'segment') {
      const trim = lookup(level.walk.level.faces, ref.id)?.trim;
      const lines = LINES.filter((line) => trim?.[line] !== undefined);
      if (lines.length > 0)
        edits.set(`face ${ref.id}`, {
          type: 'setTrim',
          level: ref.level,
          of: { face: ref.id },
          lines: Object.fromEntries(lines.map((line) => [line, null])),
        });
    }
  }
  const all = [...edits.values()];
  if (all.length === 0) return null;
  return all.length === 1 ? all[0]! : { type: 'several', edits: all, words: 'back to the rule' };
}

/** What a face carries of one line: its room's, none, or a profile. */
export function setFaceLine(
  level: LevelId,
  face: SegmentKey,
  line: TrimLine,
  choice: 'room' | 'none' | ProfileId,
): Edit {
  const of = choice === 'room' ? null : { profile: choice === 'none' ? null : choice };
  return { type: 'setTrim', level, of: { face }, lines: { [line]: of } };
}

/** The casing of one side of an opening: unknown, none, or a profile. */
export function setCasing(
  level: LevelId,
  id: OpeningId,
  opening: Opening,
  side: Side,
  choice: 'unknown' | 'none' | ProfileId,
): Edit {
  const { [side]: _was, ...other } = opening.casing ?? {};
  const casing = choice === 'unknown' ? other : { ...other, [side]: choice === 'none' ? null : choice };
  return {
    type: 'changeOpening',
    level,
    opening: id,
    set: { casing: Object.keys(casing).length === 0 ? null : casing },
  };
}

/** Sets a measured stretch of a face, or takes it back. */
export function setStretch(level: LevelId, face: SegmentKey, stretch: string, measured: number | null): Edit {
  return { type: 'setFace', level, face, set: { stretches: { [stretch]: measured } } };
}

export interface Reading {
  readonly at: number;
  readonly height: number;
}

/** Readings of a floor or of the old line, in the order they lie along the face. */
export function setReadings(
  level: LevelId,
  face: SegmentKey,
  which: 'floor' | 'line',
  readings: readonly Reading[],
): Edit {
  const sorted = readings.toSorted((a, b) => a.at - b.at);
  return { type: 'setFace', level, face, set: { [which]: sorted } };
}

function cornerOf(shown: Derived, ref: Ref): CornerFound | null {
  const level = levelFound(shown, ref.level);
  return level === null || ref.kind !== 'corner' ? null : cornerFound(level, ref.id);
}
