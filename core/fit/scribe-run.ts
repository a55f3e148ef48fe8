// A room's base runs to what the scribing programme needs: bars, the heights they share in corners, stations with floor,
// tolerance and old line. Along in ticks from the segment's left corner, heights in ticks above the subfloor.
// Kept: the bars of one run are joined end to end; a block, or boards of unlike height, part a run in two.

import type { LevelId, Plan, SegmentKey } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import type { Piece, RoomTrim, Run, Stretch } from '../trim/types.ts';
import type { Corner, LevelWalk, Room, Segment } from '../walk/types.ts';
import { lineOf, oldLine, placeParts, stretchesOf } from './context.ts';
import {
  cornerReading,
  datumOf,
  faceEnd,
  filled,
  floorOf,
  heightAt,
  type Reading,
  tidied,
  toleranceOf,
} from './floor.ts';
import { cornerName } from './say.ts';

/** A station of a bar: an end of the board or a floor reading. */
export interface RunStation {
  readonly at: number;
  /** The surface the base stands on, the gap under the base included. */
  readonly floor: number;
  /** How far the bottom may stand over it. */
  readonly tolerance: number;
  /** The line to be covered; null where none is known. */
  readonly line: number | null;
}

/** A straight bar: the board or the scarfed boards of one stretch. */
export interface ScribeBar {
  readonly segment: SegmentKey;
  /** The boards of the bar from the left, with their extents along the segment. */
  readonly pieces: readonly { readonly id: string; readonly from: number; readonly to: number }[];
  readonly from: number;
  readonly to: number;
  /** Of its profile; null where the plan gives none: then no old line is held. */
  readonly height: number | null;
  /** Which of the run's free heights its left and right end have. Bars that meet share one. */
  readonly left: number;
  readonly right: number;
  /** From the left; the first and the last are the board's ends. */
  readonly stations: readonly RunStation[];
  /** Places between stations where the old line was read: it must be covered there too. */
  readonly lineOnly: readonly { readonly at: number; readonly line: number }[];
  readonly assumed: readonly string[];
}

export interface ScribeRun {
  readonly level: LevelId;
  readonly room: string;
  readonly closed: boolean;
  /** How many free heights there are: one at each end of each bar, joined ends counted once. */
  readonly heights: number;
  readonly bars: readonly ScribeBar[];
  /** What shims come in. */
  readonly shimStep: number;
  /** The gap that is kept under the base, part of every station's floor, and whether carpet goes there. */
  readonly gap: number;
  readonly carpet: boolean;
}

/** Every base run of a level that has a floor reading on one of its faces (RULES: SC4). `trims` parallel to `walk.rooms`. */
export function scribeRuns(plan: Plan, walk: LevelWalk, trims: readonly RoomTrim[]): ScribeRun[] {
  return trims.flatMap((trim) => {
    const base = lineOf(trim, 'base');
    if (!base) return [];
    return base.runs
      .flatMap((run) => joined(run))
      .filter((group) => group.bars.some((bar) => floorOf(bar.stretch.segment) !== null))
      .map((group) => scribeRun(plan, walk.levelId, trim, group));
  });
}

interface Bar {
  readonly stretch: Stretch;
  readonly pieces: readonly Piece[];
}

interface Group {
  readonly bars: readonly Bar[];
  readonly closed: boolean;
}

/** The bars of a run, parted where two boards do not have level tops in common. */
function joined(run: Run): Group[] {
  const bars: { stretch: Stretch; pieces: Piece[] }[] = [];
  for (const piece of run.pieces) {
    const last = bars.at(-1);
    const sameBar =
      last &&
      last.stretch.segment.key === piece.stretch.segment.key &&
      last.stretch.key === piece.stretch.key;
    if (sameBar) last.pieces.push(piece);
    else bars.push({ stretch: piece.stretch, pieces: [piece] });
  }
  const meets = (a: Bar, b: Bar): boolean => {
    const right = a.pieces.at(-1)!.right;
    const left = b.pieces[0]!.left;
    return (
      'corner' in right.at &&
      'corner' in left.at &&
      right.at.corner.key === left.at.corner.key &&
      right.end !== 'block' &&
      left.end !== 'block' &&
      a.stretch.profile.height === b.stretch.profile.height
    );
  };
  const n = bars.length;
  if (n === 0) return [];
  const breaks: number[] = [];
  for (let i = 0; i < n; i += 1) {
    const isWrap = i === n - 1;
    const met = isWrap ? run.closed && n > 1 && meets(bars[i]!, bars[0]!) : meets(bars[i]!, bars[i + 1]!);
    if (!met) breaks.push(i);
  }
  if (breaks.length === 0) return [{ bars, closed: true }];
  return breaks.map((end, b) => {
    const before = breaks[(b + breaks.length - 1) % breaks.length]!;
    const size = (end - before + n) % n || n;
    const group = Array.from({ length: size }, (_, k) => bars[(before + 1 + k) % n]!);
    return { bars: group, closed: false };
  });
}

/** Heights of a room's corners for one run, by loop corner; with those that nobody read. */
interface CornerHeights {
  heightOf(loop: number, corner: number): number | null;
  isAssumed(loop: number, corner: number): boolean;
}

/** Positions of a segment's two corners in its loop. */
function cornersAt(room: Room, segment: Segment): readonly [left: number, right: number] {
  const count = room.loops[segment.loop]?.corners.length ?? 1;
  return [(segment.index + count - 1) % count, segment.index];
}

function cornerHeights(room: Room, group: Group): CornerHeights {
  const loop = group.bars[0]!.stretch.segment.loop;
  const path: number[] = [];
  const places: number[] = [];
  let place = 0;
  for (const bar of group.bars) {
    const [left, right] = cornersAt(room, bar.stretch.segment);
    if (path.length === 0 && bar.stretch.left.kind === 'corner' && !group.closed) {
      path.push(left);
      places.push(place);
    }
    place += faceEnd(bar.stretch.segment);
    if (bar.stretch.right.kind === 'corner') {
      path.push(right);
      places.push(place);
    }
  }
  const readings = path.map((corner) => cornerReading(room, loop, corner));
  // A ring that one block opens comes back to its own corner: that corner still has one height.
  const ring = group.closed || (path.length > 1 && path[0] === path.at(-1));
  const heights = filled(readings, places, ring ? place : null);
  const byCorner = new Map(path.map((corner, i) => [corner, heights[i] ?? null]));
  return {
    heightOf: (inLoop, corner) =>
      (inLoop === loop ? byCorner.get(corner) : undefined) ?? cornerReading(room, inLoop, corner),
    isAssumed: (inLoop, corner) => cornerReading(room, inLoop, corner) === null,
  };
}

function scribeRun(plan: Plan, level: LevelId, trim: RoomTrim, group: Group): ScribeRun {
  const settings = settingsOf(plan);
  const { room } = trim;
  const datum = datumOf(room);
  const corners = cornerHeights(room, group);
  const gap = room.record?.new?.gap ?? 0;
  const carpet = room.record?.new?.carpet === true;
  // Without a datum or a new floor the readings hang in the air: no line can be set against them.
  const level0 = datum.placed ? oldLine(room) : null;
  const shoes = stretchesOf(trim, 'shoe');

  const bars = group.bars.map((bar, b): ScribeBar => {
    const { segment } = bar.stretch;
    const { from } = bar.stretch;
    const to = bar.stretch.right.kind === 'corner' ? faceEnd(segment) : bar.stretch.to;
    const [leftCorner, rightCorner] = cornersAt(room, segment);
    const own = floorOf(segment);
    const assumed = new Set<string>(datum.assumed);
    const loop = segment.loop;
    const useCorner = (corner: number): number | null => {
      const height = corners.heightOf(loop, corner);
      const record: Corner | undefined = room.loops[loop]?.corners[corner];
      if (record && corners.isAssumed(loop, corner)) {
        assumed.add(`the floor height in ${cornerName(record)}`);
      }
      return height;
    };
    const straight = (): readonly Reading[] => {
      const left = useCorner(leftCorner);
      const right = useCorner(rightCorner);
      const height = left ?? right;
      if (height === null) throw new Error(`scribe: no floor height for board ${bar.pieces[0]?.id}`);
      return [
        { at: 0, height: left ?? height },
        { at: faceEnd(segment), height: right ?? height },
      ];
    };
    const face = own ?? straight();
    const endFloor = (stop: Stretch['left'], corner: number, at: number): number =>
      (stop.kind === 'corner' ? useCorner(corner) : null) ?? heightAt(face, at);

    const lines = segment.record?.line;
    const ownLine = lines && lines.length > 0 && datum.placed ? tidied(lines) : null;
    const profileHeight = bar.stretch.profile.height ?? null;
    const lineAt = (at: number): number | null => {
      if (profileHeight === null) return null;
      return ownLine ? heightAt(ownLine, at) + datum.shift : level0;
    };
    if (!ownLine && level0 !== null && profileHeight !== null) assumed.add('the old line (taken as level)');

    const shoeAt = (at: number): number | null => {
      const over = shoes.find(
        (shoe) =>
          shoe.segment.key === segment.key &&
          at >= shoe.from - SHOE_REACH &&
          at <= (shoe.right.kind === 'corner' ? faceEnd(segment) : shoe.to) + SHOE_REACH,
      );
      return over?.profile.height ?? null;
    };
    const station = (at: number, reading: number): RunStation => ({
      at,
      floor: reading + datum.shift + gap,
      tolerance: toleranceOf(settings, carpet, shoeAt(at)),
      line: lineAt(at),
    });
    const isInside = (reading: Reading): boolean =>
      reading.at > from + NEAR_END && reading.at < to - NEAR_END;
    const stations = [
      station(from, endFloor(bar.stretch.left, leftCorner, from)),
      ...(own ?? []).filter(isInside).map((reading) => station(reading.at, reading.height)),
      station(to, endFloor(bar.stretch.right, rightCorner, to)),
    ];
    const lineOnly =
      ownLine && profileHeight !== null
        ? ownLine.filter(isInside).map((reading) => ({ at: reading.at, line: reading.height + datum.shift }))
        : [];
    const last = group.closed && b === group.bars.length - 1;
    return {
      segment: segment.key,
      pieces: placeParts({ ...bar.stretch, to }, bar.pieces).map(({ piece, from: a, to: z }) => ({
        id: piece.id,
        from: a,
        to: z,
      })),
      from,
      to,
      height: profileHeight,
      left: b,
      right: last ? 0 : b + 1,
      stations,
      lineOnly,
      assumed: [...assumed],
    };
  });
  return {
    level,
    room: room.id,
    closed: group.closed,
    heights: group.closed ? bars.length : bars.length + 1,
    bars,
    shimStep: settings.shimStep,
    gap,
    carpet,
  };
}

/** A reading this near to a board's end is the end. Half a tick. */
const NEAR_END = 0.5;
/** Shoe that ends this near to a station still covers it. 1 mm. */
const SHOE_REACH = 320;
