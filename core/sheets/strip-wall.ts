// What stands on one wall of a strip: the wall itself, boards with their names, the floor's shape, casings, openings,
// built-ins, marks, the line of the old base. Heights in ticks above the subfloor, put on the sheet by the strip's scale;
// points, y 0 at the floor that is drawn. Labels that find no room on the wall go to the strip's lanes.

import { oldLine, placeParts } from '../fit/context.ts';
import type { Point } from '../graph/types.ts';
import { BUILT_IN_KINDS, OPENING_KINDS } from '../plan/kinds.ts';
import type { Piece } from '../trim/types.ts';
import type { Segment } from '../walk/types.ts';
import { type Box, boxesOverlap, grown } from './boxes.ts';
import type { Item, TextMeasure } from './items.ts';
import { MEDIUM, patch, rectangle, rule, THIN } from './shapes.ts';
import type { Label } from './strip-labels.ts';
import { boardLine, HUMP_HIGH, line, type StripScale, type StripSpec, stands } from './strip-spec.ts';
import type { TypeSizes } from './table.ts';
import { CAP_EM, lineHeight, middleBaseline, text } from './texts.ts';
import type { Figures } from './words.ts';

/** The band of wall and the floor under it. */
export function wall(
  segment: Segment,
  from: number,
  to: number,
  yOf: (height: number) => number,
  bandTop: number,
  scale: StripScale,
): Item[] {
  const floorY = yOf(scale.floor);
  return [
    patch([from, bandTop, to, floorY], 'wash'),
    rule([from, bandTop], [to, bandTop], { ink: 'faint', width: THIN, dash: [3, 2] }, 'wall-cut'),
    rule([from, floorY], [to, floorY], { ink: 'graphite', width: MEDIUM }, 'floor'),
    ...(segment.parts.length === 0
      ? [rule([from, bandTop], [from, floorY], { ink: 'faint', width: THIN })]
      : []),
  ];
}

/** The boards on one wall, with their names, and the shoe as a dashed line. */
export function boards(
  measure: TextMeasure,
  sizes: TypeSizes,
  figures: Figures,
  spec: StripSpec,
  segment: Segment,
  at: (ticks: number) => number,
  yOf: (height: number) => number,
  scale: StripScale,
  below: Label[],
): Item[] {
  const trim = boardLine(spec);
  if (!trim) return [];
  const shoe = line(spec, 'shoe');
  const items: Item[] = [];
  const bottom = stands(spec);
  const marks = segment.marks.map(
    (mark): Box => [at(mark.from), yOf(mark.top), at(mark.to), yOf(mark.bottom)],
  );
  for (const stretch of trim.stretches.filter(
    (each) => each.segment.key === segment.key && each.segment.loop === spec.loop,
  )) {
    const parts = trim.runs
      .flatMap((run) => run.pieces)
      .filter((piece) => piece.stretch.segment.key === segment.key && piece.stretch.key === stretch.key)
      .toSorted((a, b) => a.part - b.part);
    const top = bottom + (stretch.profile.height ?? 0);
    for (const { piece, from, to } of placeParts(stretch, parts)) {
      const box: Box = [at(from), yOf(top), at(to), yOf(bottom)];
      items.push(rectangle(box, { ink: 'ink', width: MEDIUM }, 'paper', 'board'));
      items.push(...floorUnder(spec, piece, box, scale, sizes.by));
      items.push(...boardLabel(measure, sizes, figures, spec, piece, box, yOf(scale.top), marks, below));
    }
  }
  if (shoe && shoe !== trim)
    for (const stretch of shoe.stretches.filter(
      (each) => each.segment.key === segment.key && each.segment.loop === spec.loop,
    )) {
      const y = yOf(bottom + (stretch.profile.height ?? 0));
      items.push(
        rule(
          [at(stretch.from), y],
          [at(stretch.to), y],
          { ink: 'ink', width: MEDIUM, dash: [4, 1.2] },
          'shoe',
        ),
      );
    }
  return items;
}

/** The middle nearest to a board's where so wide a label stands on it clear of marks; null where there is none. */
function clearMiddle([low, , high]: Box, width: number, marks: readonly Box[]): number | null {
  const middle = (low + high) / 2;
  const half = width / 2 + 1.5;
  const beside = marks.flatMap(([from, , to]) => [from - half, to + half]);
  const stands = (x: number): boolean =>
    x - half >= low && x + half <= high && marks.every(([from, , to]) => x + half <= from || x - half >= to);
  const places = [middle, ...beside.toSorted((a, b) => Math.abs(a - middle) - Math.abs(b - middle))];
  return places.find(stands) ?? null;
}

/**
 * A board's id and overall length on the wall above it, beside what is marked there; where there is no room for them, its id
 * below the floor.
 */
function boardLabel(
  measure: TextMeasure,
  sizes: TypeSizes,
  figures: Figures,
  spec: StripSpec,
  piece: Piece,
  box: Box,
  nameTop: number,
  marks: readonly Box[],
  below: Label[],
): Item[] {
  const said = spec.pieces.get(piece.id);
  if (!said) throw new Error(`strip: the report has no piece ${piece.id}`);
  const size = sizes.small;
  const idSize = size + 1;
  const idWide = measure.width(piece.id, 'bold', idSize);
  const overall = figures.cut(said.overallMm);
  const overallWide = measure.width(overall, 'regular', size);
  const idAt = (baseline: number, x: number): Item =>
    text(measure, {
      text: piece.id,
      at: [x, baseline],
      size: idSize,
      font: 'bold',
      align: 'middle',
      role: 'board-id',
    });
  const top = nameTop + 3.5 * sizes.by;
  const idBase = top + idSize * CAP_EM;
  const lengthBase = idBase + size * 1.35;
  const inTheWay = marks.filter(([, high, , low]) => high < lengthBase && low > top);
  const clear = clearMiddle(box, Math.max(idWide, overallWide), inTheWay);
  if (clear !== null) {
    const length = {
      text: overall,
      at: [clear, lengthBase],
      size,
      align: 'middle',
      role: 'overall',
    } as const;
    return [idAt(idBase, clear), text(measure, length)];
  }
  below.push({
    x: (box[0] + box[2]) / 2,
    width: idWide,
    height: lineHeight(size),
    draw: (x, lane) => [idAt(lane + idSize * CAP_EM, x)],
  });
  return [];
}

/**
 * The floor's shape under a scribed board, larger by the stated factor, in a lane of its own below the floor, with the
 * line that it would be if it were level.
 */
function floorUnder(spec: StripSpec, piece: Piece, box: Box, scale: StripScale, by: number): Item[] {
  const scribe = spec.scribes.get(piece.id);
  if (!scribe || scale.humps === null || scribe.stations.length < 2) return [];
  const last = scribe.stations.at(-1)!.at;
  const factor = scale.humps * scale.up;
  const level = (3 + HUMP_HIGH) * by;
  const deep = (3 + 2 * HUMP_HIGH) * by;
  const points = scribe.stations.map((station): Point => {
    const x = box[0] + ((box[2] - box[0]) * station.at) / last;
    return [x, level - (station.floor - stands(spec)) * factor];
  });
  return [
    { kind: 'area', rings: [[...points, [box[2], deep], [box[0], deep]]], fill: 'wash', role: 'ground' },
    rule([box[0], level], [box[2], level], { ink: 'graphite', width: THIN, dash: [1, 1.6] }, 'floor-level'),
    { kind: 'line', points, stroke: { ink: 'ink', width: 1 }, role: 'floor-shape' },
  ];
}

/** Casings, openings, built-ins and marks as they stand on one wall. */
export function standing(
  measure: TextMeasure,
  sizes: TypeSizes,
  segment: Segment,
  at: (ticks: number) => number,
  yOf: (height: number) => number,
  bandTop: number,
  above: Label[],
): Item[] {
  const items: Item[] = [];
  const taken: Box[] = [];
  const clip = (height: number) => Math.min(Math.max(yOf(height), bandTop), yOf(0));
  const named = (words: string, from: number, to: number, top: number, bottom: number) => {
    const size = sizes.small;
    const wide = measure.width(words, 'regular', size);
    const draw = (x: number, baseline: number) =>
      text(measure, {
        text: words,
        at: [x, baseline],
        size,
        ink: 'graphite',
        align: 'middle',
        role: 'standing',
      });
    const inPlace = draw((from + to) / 2, middleBaseline((top + bottom) / 2, size));
    // Built-ins may stand one before the other: what is named already keeps its place.
    const free = !taken.some((box) => boxesOverlap(box, inPlace.box));
    if (free && wide + 4 <= to - from && bottom - top > size * 1.6) {
      taken.push(inPlace.box);
      items.push(patch(grown(inPlace.box, 1.5), 'paper'), inPlace);
      return;
    }
    above.push({
      x: (from + to) / 2,
      width: wide + 2,
      height: size * 1.1,
      draw: (x, y) => [draw(x, y + size * 0.85)],
    });
  };
  for (const opening of segment.openings) {
    const [top, bottom] = [clip(opening.top), clip(opening.bottom)];
    if (bottom - top < 0.5) continue;
    const [from, to] = [at(opening.from), at(opening.to)];
    items.push(patch([from, top, to, bottom], 'paper'));
    items.push(
      rule([from, top], [from, bottom], { ink: 'ink', width: THIN }),
      rule([to, top], [to, bottom], { ink: 'ink', width: THIN }),
    );
    items.push(...casings(segment, opening, at, clip));
    named(`${OPENING_KINDS[opening.opening.kind]} ${opening.id}`, from, to, top, bottom);
  }
  for (const builtIn of segment.builtIns) {
    const [top, bottom] = [clip(builtIn.top), clip(builtIn.bottom)];
    const [from, to] = [at(builtIn.from), at(builtIn.to)];
    if (bottom - top < 0.5 || to - from < 0.5) continue;
    items.push({
      kind: 'area',
      rings: [
        [
          [from, top],
          [to, top],
          [to, bottom],
          [from, bottom],
        ],
      ],
      fill: 'paper',
      stroke: { ink: 'ink', width: THIN },
      hatch: { spacing: 5, angleDeg: 45, stroke: { ink: 'faint', width: THIN } },
      role: 'built-in',
    });
    const words = `${BUILT_IN_KINDS[builtIn.kind]} ${builtIn.id}`;
    named(words, from, to, top, bottom);
  }
  for (const mark of segment.marks) {
    const [top, bottom] = [clip(mark.top), clip(mark.bottom)];
    if (bottom - top < 1) continue;
    const box: Box = [at(mark.from), top, at(mark.to), bottom];
    items.push(rectangle(box, { ink: 'ink', width: THIN }, 'wash', mark.kind));
    above.push(...markLabel(measure, sizes, mark.kind, (box[0] + box[2]) / 2));
  }
  return items;
}

function markLabel(measure: TextMeasure, sizes: TypeSizes, kind: string, x: number): Label[] {
  const size = sizes.small;
  return [
    {
      x,
      width: measure.width(kind, 'italic', size) + 2,
      height: size * 1.1,
      draw: (middle, y) => [
        text(measure, {
          text: kind,
          at: [middle, y + size * 0.85],
          size,
          font: 'italic',
          ink: 'graphite',
          align: 'middle',
          role: 'standing',
        }),
      ],
    },
  ];
}

/** The legs of a cased opening, and its plinths. */
function casings(
  segment: Segment,
  opening: Segment['openings'][number],
  at: (ticks: number) => number,
  clip: (height: number) => number,
): Item[] {
  const casing = opening.casing;
  if (!casing) return [];
  const wide = casing.profile.width ?? 0;
  const foot = opening.bottom > 0 ? opening.bottom - opening.reveal - wide : 0;
  const legs: [number, number][] = [
    [opening.holeFrom - opening.reveal - wide, opening.holeFrom - opening.reveal],
    [opening.holeTo + opening.reveal, opening.holeTo + opening.reveal + wide],
  ];
  return legs.flatMap(([from, to]): Item[] => {
    const [x0, x1] = [Math.max(from, 0), Math.min(to, segment.drawn)];
    if (x1 <= x0) return [];
    const leg = rectangle(
      [at(x0), clip(opening.top + opening.reveal), at(x1), clip(foot)],
      { ink: 'ink', width: THIN },
      'paper',
      'casing',
    );
    const plinth = opening.opening.plinth;
    if (!plinth || opening.bottom > 0) return [leg];
    const inner = from < opening.holeFrom ? to : from;
    const outer = from < opening.holeFrom ? inner - plinth.width : inner + plinth.width;
    const px = [inner, outer]
      .map((each) => at(Math.min(Math.max(each, 0), segment.drawn)))
      .toSorted((a, b) => a - b);
    return [
      leg,
      rectangle(
        [px[0]!, clip(plinth.height), px[1]!, clip(0)],
        { ink: 'ink', width: MEDIUM },
        'paper',
        'plinth',
      ),
    ];
  });
}

/** The line that the old base left: level, or through the face's own readings. */
export function paintLine(
  spec: StripSpec,
  segment: Segment,
  at: (ticks: number) => number,
  yOf: (height: number) => number,
  bandTop: number,
): Item[] {
  const level = oldLine(spec.trim.room);
  const readings = [...(segment.record?.line ?? [])].sort((a, b) => a.at - b.at);
  if (readings.length === 0 && level === null) return [];
  const heights: (readonly [number, number])[] =
    readings.length === 0
      ? [
          [0, level!],
          [segment.drawn, level!],
        ]
      : [
          [0, readings[0]!.height],
          ...readings
            .filter((each) => each.at > 0 && each.at < segment.drawn)
            .map((each) => [each.at, each.height] as const),
          [segment.drawn, readings.at(-1)!.height],
        ];
  // What is read beyond the band is drawn at its edge.
  const points = heights.map(([x, height]): Point => [at(x), Math.min(0, Math.max(bandTop, yOf(height)))]);
  return [{ kind: 'line', points, stroke: { ink: 'pencil', width: MEDIUM, dash: [3, 2] }, role: 'old-line' }];
}
