// Corners decided, a loop's stretches become boards: the parts of each stretch, named, with the ends that no choice can
// change, and how each board goes on into the next. Lengths in ticks. RULES: LN30 to LN40, JT10 to JT15.
// Which board is worked is decided later (runs.ts).

import type { TrimLine } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import type { Corner } from '../walk/types.ts';
import type { CornerJoint, CornerWork, LoopLine } from './corners.ts';
import { endAtStop, mitredEnds, springOf, workedEnds } from './ends.ts';
import { overallLength } from './lengths.ts';
import { type Making, partsOf, type Reach } from './scarfs.ts';
import type { PieceEnd, Stretch } from './types.ts';

/** A piece before its joints are chosen. */
export interface Board {
  readonly id: string;
  readonly stretch: Stretch;
  readonly part: number;
  readonly parts: number;
  readonly L: number;
  /** Of the whole stretch [LN30]. */
  readonly wholeNeed: number;
  /** Null where it meets the next board. */
  readonly leftEnd: PieceEnd | null;
  readonly rightEnd: PieceEnd | null;
  /** How it goes on to the board on its right; null where the run ends. */
  readonly next: Link | null;
}

export type Link =
  | { readonly kind: 'scarf'; readonly rightLaps: boolean }
  | { readonly kind: 'corner'; readonly joint: CornerJoint };

export type Choice = 'after' | 'before' | 'mitre';

/** All that may be chosen at a joint, in the order after, before, mitre. Empty for a block. */
export function choicesOf(joint: CornerJoint): readonly Choice[] {
  if (joint.how === 'block') return [];
  if (joint.how === 'mitre') return ['mitre'];
  return joint.needsLength ? [...joint.sides, 'mitre'] : joint.sides;
}

/** Both boards' ends at a joint for one choice. A block has no choice: its ends are the corner's own. */
export function jointEnds(
  joint: CornerJoint,
  choice: Choice,
): { readonly before: PieceEnd; readonly after: PieceEnd } {
  const { corner, angles, before, after, how } = joint;
  if (choice === 'mitre') return mitredEnds(corner, angles, before, after);
  if (how !== 'cope' && how !== 'butt') throw new Error(`a ${how} has no worked side`);
  return workedEnds(how, choice, corner, angles, before, after);
}

/** A, B … Z, AA, AB … for 0, 1, 2 … */
export function letters(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letters(Math.floor(index / 26) - 1) + last;
}

/** `7A`: the number of the corner where the segment starts, then the letter; other lines are named first [LN40]. */
function boardId(line: TrimLine, corner: Corner, index: number): string {
  const name = corner.number === null ? `?${corner.key}` : `${corner.number}`;
  return `${line === 'base' ? '' : `${line}-`}${name}${letters(index)}`;
}

interface Ends {
  readonly left: PieceEnd | null;
  readonly right: PieceEnd | null;
  readonly reach: Reach;
}

/** The ends of a whole stretch, null where a joint decides, and how far they can stand out. */
function endsOf(at: LoopLine, works: readonly CornerWork[], stretch: Stretch, settings: Settings): Ends {
  const index = stretch.segment.index;
  const leftWork = works[(index + works.length - 1) % works.length]!;
  const rightWork = works[index]!;
  const standsOut = at.line === 'shoe' ? at.behind[index]!.wall + stretch.profile.thickness : null;
  const left =
    stretch.left.kind === 'corner'
      ? leftWork.afterEnd
      : endAtStop(stretch, stretch.left, settings, standsOut);
  const right =
    stretch.right.kind === 'corner'
      ? rightWork.beforeEnd
      : endAtStop(stretch, stretch.right, settings, standsOut);
  const possible = (end: PieceEnd | null, joint: CornerJoint | null, mine: 'before' | 'after'): PieceEnd[] =>
    end !== null
      ? [end]
      : joint === null
        ? []
        : choicesOf(joint).map((choice) => jointEnds(joint, choice)[mine]);
  const lefts = possible(left, leftWork.joint, 'after');
  const rights = possible(right, rightWork.joint, 'before');
  const most = (ends: readonly PieceEnd[]): number =>
    Math.max(...ends.map((end) => Math.max(end.backOffset, end.faceOffset)));
  const needs = lefts.flatMap((one) =>
    rights.map((other) => {
      const overall = overallLength(stretch.L, one, other);
      return overall + springOf(one, other, overall, settings);
    }),
  );
  return { left, right, reach: { left: most(lefts), right: most(rights), whole: Math.max(...needs) } };
}

/**
 * The boards of one line in one loop, walking order, segment 0 first. `alive`: the stretches that make pieces; `unparted`:
 * those whose parts came out too short, which stay one board.
 */
export function boardsOf(
  at: LoopLine,
  works: readonly CornerWork[],
  alive: (stretch: Stretch) => boolean,
  unparted: ReadonlySet<Stretch>,
  making: Making,
): readonly Board[] {
  const { settings } = making;
  const boards: Board[] = [];
  at.segments.forEach((segment, index) => {
    const corner = at.loop.corners[(index + works.length - 1) % works.length]!;
    let count = 0;
    for (const stretch of segment.stretches) {
      if (!alive(stretch)) continue;
      const ends = endsOf(at, works, stretch, settings);
      const parts = partsOf(stretch, ends.reach, making, unparted.has(stretch));
      parts.forEach((part, i) => {
        const isLast = i === parts.length - 1;
        const joint = stretch.right.kind === 'corner' ? works[index]!.joint : null;
        const meets = joint !== null && joint.how !== 'block' && joint.before === stretch;
        boards.push({
          id: boardId(at.line, corner, count++),
          stretch,
          part: i,
          parts: parts.length,
          L: part.to - part.from,
          wholeNeed: ends.reach.whole,
          leftEnd: i === 0 ? ends.left : null,
          rightEnd: isLast ? ends.right : null,
          next: !isLast
            ? { kind: 'scarf', rightLaps: part.rightLaps === true }
            : meets
              ? { kind: 'corner', joint }
              : null,
        });
      });
    }
  });
  return boards;
}
