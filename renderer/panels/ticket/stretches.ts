// The stretches of a face in words, to be measured: 'corner 7 to door o1'. Of the first line that has any, base before shoe;
// a stretch that only another line has comes after them.

import { lookup } from '../../../core/plan/index.ts';
import type { DerivedLevel } from '../../../core/report/index.ts';
import type { StopAt, Stretch } from '../../../core/trim/index.ts';
import type { SegmentFound } from './find.ts';
import { builtInWords, cornerWords, openingWords } from './say.ts';

export interface NamedStretch {
  /** As the plan file keys it: `corner..o1`. */
  readonly key: string;
  readonly words: string;
  readonly drawn: number;
  readonly measured: number | null;
  readonly left: StopAt;
  readonly right: StopAt;
}

export function stretchesOf(level: DerivedLevel, { trim, segment }: SegmentFound): readonly NamedStretch[] {
  const found = new Map<string, Stretch>();
  for (const { stretches } of trim.lines)
    for (const stretch of stretches)
      if (stretch.segment.key === segment.key && !found.has(stretch.key)) found.set(stretch.key, stretch);
  return [...found.values()]
    .sort((a, b) => a.from - b.from)
    .map(({ key, left, right, drawn }) => ({
      key,
      words: `${stopWords(level, left)} to ${stopWords(level, right)}`,
      drawn,
      measured: lookup(segment.record?.stretches ?? {}, key) ?? null,
      left,
      right,
    }));
}

function stopWords(level: DerivedLevel, stop: StopAt): string {
  switch (stop.kind) {
    case 'corner':
      return cornerWords(stop.corner);
    case 'opening':
      return openingWords(level, stop.opening.id);
    case 'builtIn':
      return builtInWords(level, stop.id);
  }
}
