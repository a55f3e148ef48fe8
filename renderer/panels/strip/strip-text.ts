// The strip in words: what stands on each wall from left to right, for those who do not see it. Figures are the report's.

import { placeParts } from '../../../core/fit/context.ts';
import { BUILT_IN_KINDS, OPENING_KINDS } from '../../../core/plan/kinds.ts';
import type { Derived } from '../../../core/report/index.ts';
import { wallsFromLowest } from '../../../core/sheets/strip-spec.ts';
import type { RoomTrim } from '../../../core/trim/index.ts';
import { ticksFromMm } from '../../../core/units/index.ts';
import type { Figures } from '../kit/figures.ts';

export interface WallWords {
  readonly key: string;
  readonly words: string;
}

/** One sentence for each wall of a loop, from the lowest corner number on. */
export function stripWords(shown: Derived, trim: RoomTrim, loopIndex: number, figures: Figures): WallWords[] {
  const loop = trim.room.loops[loopIndex];
  if (loop === undefined) return [];
  const line =
    trim.lines.find((each) => each.line === 'base' && each.stretches.length > 0) ??
    trim.lines.find((each) => each.line === 'shoe');
  const lengths = new Map(
    shown.report.pieces
      .filter(({ level }) => level === trim.room.level)
      .map(({ id, overallMm }) => [id, ticksFromMm(overallMm)]),
  );
  return wallsFromLowest(loop.corners).map((index) => {
    const segment = loop.segments[index]!;
    const number = (at: number) => loop.corners[at]?.number ?? '?';
    const left = number((index + loop.corners.length - 1) % loop.corners.length);
    const boards = (line?.stretches ?? [])
      .filter((stretch) => stretch.segment.key === segment.key && stretch.segment.loop === loopIndex)
      .flatMap((stretch) => {
        const parts = line!.runs
          .flatMap((run) => run.pieces)
          .filter((piece) => piece.stretch.segment.key === segment.key && piece.stretch.key === stretch.key)
          .toSorted((a, b) => a.part - b.part);
        return placeParts(stretch, parts).map(({ piece, from }) => {
          const long = lengths.get(piece.id);
          return {
            at: from,
            words: `board ${piece.id}${long === undefined ? '' : ` ${figures.inches(long)}`}`,
          };
        });
      });
    const things = [
      ...boards,
      ...segment.openings.map((each) => ({
        at: each.from,
        words: `${OPENING_KINDS[each.opening.kind]} ${each.id}`,
      })),
      ...segment.builtIns.map((each) => ({
        at: each.from,
        words: `${BUILT_IN_KINDS[each.kind]} ${each.id}`,
      })),
      ...segment.marks.map((each) => ({ at: each.from, words: `${each.kind} ${each.id}` })),
    ].toSorted((a, b) => a.at - b.at);
    const what = things.length === 0 ? 'nothing on it' : things.map(({ words }) => words).join(', ');
    const long = figures.length(segment.record?.measured ?? segment.drawn);
    return { key: segment.key, words: `Wall ${left} to ${number(index)}, ${long}: ${what}.` };
  });
}
