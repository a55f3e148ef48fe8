// What is measured in a room, in the order a carpenter goes round it: each corner's angle, each wall's length and its
// stretches, drawn beside measured; and what is still missing. What differs too much is the findings' to say.

import type { Finding } from '../../../core/fit/index.ts';
import { capital } from '../../../core/fit/say.ts';
import type { OpeningId, Side } from '../../../core/plan/index.ts';
import type { DerivedLevel } from '../../../core/report/index.ts';
import { wallsFromLowest } from '../../../core/sheets/strip-spec.ts';
import type { RoomTrim } from '../../../core/trim/index.ts';
import type { Corner, Segment, SegmentOpening } from '../../../core/walk/index.ts';
import { endsOf } from '../ticket/find.ts';
import { cornerWords, openingWords } from '../ticket/say.ts';
import { type NamedStretch, stretchesOf } from '../ticket/stretches.ts';

interface Figure {
  /** Ticks, or degrees of an angle. */
  readonly drawn: number;
  readonly measured: number | null;
  /** A finding says that the two differ too much. */
  readonly odd: boolean;
}

export interface SurveyCorner extends Figure {
  readonly kind: 'corner';
  readonly corner: Corner;
  readonly words: string;
}

export interface SurveyFace extends Figure {
  readonly kind: 'face';
  readonly segment: Segment;
  readonly words: string;
  /** Stretches of their own; none where the wall is one stretch, or has no trim. */
  readonly stretches: readonly (Figure & Pick<NamedStretch, 'key' | 'words'>)[];
  /** Nobody reads a floor along a wall's end or a step. */
  readonly narrow: boolean;
}

export interface SurveyCasing {
  readonly id: OpeningId;
  readonly side: Side;
  readonly words: string;
  readonly on: SegmentOpening;
}

export interface Missing {
  readonly angles: number;
  readonly lengths: number;
  readonly floors: number;
  readonly casings: number;
  /** Of the old base, the old floor and the new floor. */
  readonly heights: number;
}

export interface Survey {
  readonly items: readonly (SurveyCorner | SurveyFace)[];
  readonly casings: readonly SurveyCasing[];
  readonly missing: Missing;
}

export function surveyOf(level: DerivedLevel, trim: RoomTrim, findings: readonly Finding[]): Survey {
  const { room } = trim;
  const odd = oddOf(level, findings);
  const items = room.loops.flatMap((loop, loopIndex) =>
    wallsFromLowest(loop.corners).flatMap((index): (SurveyCorner | SurveyFace)[] => {
      const segment = loop.segments[index]!;
      const [left, right] = endsOf(loop, index);
      const angles = trim.angles[loopIndex]![(index + loop.corners.length - 1) % loop.corners.length]!;
      const stretches = stretchesOf(level, { trim, room, loop, segment, left, right });
      // A wall of one stretch is measured as a whole, unless that stretch has a figure of its own.
      const several =
        stretches.length > 1 ||
        stretches.some(({ key, measured }) => key !== 'corner..corner' || measured !== null);
      return [
        {
          kind: 'corner',
          corner: left,
          words: `${capital(cornerWords(left))}, ${left.kind}`,
          drawn: angles.drawn,
          measured: angles.measured,
          odd: odd.has(cornerWords(left)),
        },
        {
          kind: 'face',
          segment,
          words: `Wall ${left.number ?? '–'} to ${right.number ?? '–'}`,
          drawn: segment.drawn,
          measured: segment.record?.measured ?? null,
          odd:
            odd.has(segment.key) ||
            (!several && stretches.some(({ key }) => odd.has(`${segment.key} ${key}`))),
          stretches: several
            ? stretches.map(({ key, words, drawn, measured }) => ({
                key,
                words: capital(words),
                drawn,
                measured,
                odd: odd.has(`${segment.key} ${key}`),
              }))
            : [],
          narrow: segment.parts.length === 0,
        },
      ];
    }),
  );
  const casings = casingsOf(level, trim);
  return { items, casings, missing: missingOf(trim, items, casings) };
}

/** What an angle-odd or length-odd finding names: `corner 7`, a face, a face and its stretch. */
function oddOf(level: DerivedLevel, findings: readonly Finding[]): ReadonlySet<string> {
  return new Set(
    findings.flatMap(({ code, level: on, about }) =>
      on === level.walk.levelId && (code === 'angle-odd' || code === 'length-odd') ? [about.join(' ')] : [],
    ),
  );
}

function casingsOf(level: DerivedLevel, { room }: RoomTrim): readonly SurveyCasing[] {
  const found = new Map<string, SurveyCasing>();
  for (const { segments } of room.loops)
    for (const { openings } of segments)
      for (const on of openings) {
        if (on.opening.kind === 'passage') continue;
        const key = `${on.id}.${on.side}`;
        if (!found.has(key))
          found.set(key, { id: on.id, side: on.side, words: capital(openingWords(level, on.id)), on });
      }
  return [...found.values()];
}

function missingOf(
  { room, lines }: RoomTrim,
  items: Survey['items'],
  casings: readonly SurveyCasing[],
): Missing {
  let [angles, lengths, floors] = [0, 0, 0];
  for (const item of items) {
    if (item.kind === 'corner') angles += item.measured === null ? 1 : 0;
    else {
      const own = item.stretches.length > 0 ? item.stretches : item.narrow ? [] : [item];
      lengths += own.filter(({ measured }) => measured === null).length;
      floors += !item.narrow && (item.segment.record?.floor ?? []).length === 0 ? 1 : 0;
    }
  }
  const based = lines.some(({ line, stretches }) => line === 'base' && stretches.length > 0);
  const { old, new: next } = room.record ?? {};
  const heights = [old?.baseHeight, old?.floor, next?.floor].filter((each) => each === undefined).length;
  return {
    angles,
    lengths,
    floors,
    casings: casings.filter(({ on }) => on.casing === undefined).length,
    heights: based ? heights : 0,
  };
}

/** How many figures are missing; floors are told apart, since not every job needs them. */
export const missingCount = ({ angles, lengths, casings, heights }: Missing): number =>
  angles + lengths + casings + heights;

/** `4 angles, 3 lengths, 1 casing`; null where nothing is missing. */
export function missingWords({ angles, lengths, casings, heights, floors }: Missing): string | null {
  const told = [
    [angles, 'angle', 'angles'],
    [lengths, 'length', 'lengths'],
    [casings, 'casing', 'casings'],
    [heights, 'height of old base and floors', 'heights of old base and floors'],
    [floors, 'wall without floor readings', 'walls without floor readings'],
  ] as const;
  const words = told.flatMap(([count, one, many]) =>
    count === 0 ? [] : [`${count} ${count === 1 ? one : many}`],
  );
  return words.length === 0 ? null : words.join(', ');
}
