// A corner's trim, line by line, as its ticket tells it: the joint and its reason, the boards, what the user chose; and
// where two boards do not meet, how those that come there end. Words and ids; nothing is reckoned.

import { capital } from '../../../core/fit/say.ts';
import type { CornerRecord, TrimLine } from '../../../core/plan/index.ts';
import type { DerivedLevel } from '../../../core/report/index.ts';
import type { JointAt, PieceEnd } from '../../../core/trim/index.ts';
import { boardsAt, type CornerFound } from './find.ts';
import { endWords } from './say.ts';

type Chosen = NonNullable<NonNullable<CornerRecord['lines']>[TrimLine]>;

export interface CornerLine {
  readonly line: TrimLine;
  /** Null where two boards do not meet. */
  readonly joint: JointAt | null;
  /** Boards that end here: on the wall walked in on, at its right; on the wall walked out on, at its left. */
  readonly before: string | null;
  readonly after: string | null;
  readonly why: string | null;
  /** Why what the user chose cannot be made. */
  readonly unmade: string | null;
  readonly chosen: Chosen;
  /** How the boards that come here end, in a sentence. */
  readonly ends: string;
}

/** The lines that come to this corner, or for which the user chose something here. */
export function cornerLines(level: DerivedLevel, found: CornerFound): readonly CornerLine[] {
  const { corner, trim, loopIndex, index, before: faceBefore, after: faceAfter } = found;
  return trim.lines.flatMap((line): CornerLine[] => {
    const joint = line.joints[loopIndex]?.[index] ?? null;
    const { before, after } = boardsAt(line, corner);
    const unmade = line.unmade.find((each) => each.corner.key === corner.key)?.why ?? null;
    const chosen: Chosen = corner.record?.lines?.[line.line] ?? {};
    const runsBy = line.stretches.some(
      ({ segment }) => segment.key === faceBefore.key || segment.key === faceAfter.key,
    );
    if (
      joint === null &&
      before === undefined &&
      after === undefined &&
      !runsBy &&
      Object.keys(chosen).length === 0
    )
      return [];
    const told = (id: string, end: PieceEnd): string => `board ${id} ends ${endWords(level, end)}`;
    const ends = [
      ...(before === undefined ? [] : [told(before.id, before.right)]),
      ...(after === undefined ? [] : [told(after.id, after.left)]),
    ];
    return [
      {
        line: line.line,
        joint,
        before: before?.id ?? null,
        after: after?.id ?? null,
        why: joint === null ? null : sentence(joint.why),
        unmade,
        chosen,
        ends: `No two boards meet here${ends.length === 0 ? '' : `: ${ends.join('; ')}`}.`,
      },
    ];
  });
}

const sentence = (words: string): string => `${capital(words)}${words.endsWith('.') ? '' : '.'}`;
