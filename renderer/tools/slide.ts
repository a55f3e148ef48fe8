// A thing that slides along a face under the pointer: caught by corners, middles, the grid and its neighbours' edges, and
// held where there is room for it. Ticks along the wall.

import { roundHalfAway } from '../../core/units/index.ts';
import { type Face, gapsOf, OPEN_ENDS, placeByGap, standingOn } from './faces.ts';
import { placesOn, type Wanted } from './room-on-face.ts';
import type { ToolContext } from './types.ts';

export interface Slide {
  /** Whole ticks. */
  readonly at: number;
  /** What was caught; empty where nothing was. */
  readonly words: string;
  readonly held: string | null;
}

const CAUGHT_PX = 8;
const LET_GO_PX = 12;
const BEATEN_PX = 3;

export interface SlideWish extends Wanted {
  /** The thing that slides, no target to itself. */
  readonly but: string | null;
  readonly held: string | null;
  /** False: takes the place as it is. */
  readonly snaps: boolean;
}

/** A thing slid along a face to where its nearer edge is `at`: caught by corners, middles and its neighbours' edges. */
export function slide(face: Face, at: number, wish: SlideWish, context: ToolContext): Slide {
  const { width, held, snaps, but } = wish;
  const [least, most] = placesFor(face, wish);
  const fits = (place: number): boolean => place > least - 1 && place < most + 1;
  const clamp = (place: number): number => Math.max(least, Math.min(most, roundHalfAway(place)));
  if (!snaps) return { at: clamp(at), words: '', held: null };
  const { pixelsPerTick, level, snapping } = context;
  const targets = slideTargets(face, width, standingOn(level, face, but));
  const near = targets
    .map((each) => ({ ...each, off: Math.abs(each.at - at) * pixelsPerTick }))
    .filter(
      ({ off, key, at: place }) =>
        off <= (key === held ? LET_GO_PX : CAUGHT_PX) && fits(roundHalfAway(place)),
    )
    .sort((a, b) => a.off - b.off);
  // What was caught stays, unless another is nearer by enough.
  const kept = near.find(({ key, off }) => key === held && off < near[0]!.off + BEATEN_PX);
  const best = kept ?? near[0];
  if (best !== undefined) return { at: clamp(best.at), words: best.words, held: best.key };
  const { grid } = snapping;
  if (grid !== null && grid > 0) {
    const gap = gapsOf(face, at, width).left;
    const place = placeByGap(face, Math.round(gap / grid) * grid, 'left', width);
    if (Math.abs(place - at) * pixelsPerTick <= CAUGHT_PX && fits(place))
      return { at: clamp(place), words: 'the grid', held: null };
  }
  return { at: clamp(at), words: '', held: null };
}

/** Where a thing may be put as it slides; one too wide for the face goes by its wall alone. */
function placesFor(face: Face, wanted: Wanted): readonly [least: number, most: number] {
  const places = placesOn(face, wanted);
  return places[0] <= places[1] ? places : placesOn({ ...face, shut: OPEN_ENDS }, wanted);
}

function slideTargets(
  face: Face,
  width: number,
  spans: readonly (readonly [number, number])[],
): readonly { readonly key: string; readonly at: number; readonly words: string }[] {
  const atLow = face.side === 'right' ? 'left' : 'right';
  const atHigh = atLow === 'left' ? 'right' : 'left';
  return [
    { key: 'low', at: face.low, words: `the ${atLow} corner` },
    { key: 'high', at: face.high - width, words: `the ${atHigh} corner` },
    { key: 'middle', at: (face.low + face.high - width) / 2, words: 'the middle of the face' },
    ...spans.flatMap(([from, to], i) => [
      { key: `before${i}`, at: from - width, words: 'beside what stands there' },
      { key: `after${i}`, at: to, words: 'beside what stands there' },
    ]),
  ];
}
