// Measuring, wrapping, boxes and scales: the small things that every sheet stands on, and the two checkers that all other
// sheet tests trust. Scale ratios are reckoned here from inches and feet (1/4 in to the foot: 12 / 0.25 = 48).

import { create } from 'fontkit';
import { describe, expect, test } from 'vitest';
import type { Point } from '../../../core/graph/types.ts';
import { type Item, SMALLEST_TEXT } from '../../../core/sheets/items.ts';
import { fontMetrics } from '../../../core/sheets/measure.ts';
import { sheetFrame } from '../../../core/sheets/plan-frame.ts';
import { makePlacer } from '../../../core/sheets/plan-place.ts';
import { chooseScale, looseScale, pointsPerTick, SCALES, scaleBar } from '../../../core/sheets/scale.ts';
import { dimensionLine, flaggedLetter, rectangle, ringedNumber, rule } from '../../../core/sheets/shapes.ts';
import { outsideSheet, textItems, textOverlaps } from '../../../core/sheets/sheet-faults.ts';
import { CAP_EM, fitText, paragraph, text, wrapText } from '../../../core/sheets/texts.ts';
import { random } from '../../seeds.ts';
import { fonts, measure } from './fonts.ts';

const at = [100, 100] as const;

describe('text', () => {
  test('[SH2] text under the smallest size, and text with a line break, is refused', () => {
    expect(() => text(measure, { text: 'x', at, size: SMALLEST_TEXT - 0.01, role: 't' })).toThrow('6.99');
    expect(() => text(measure, { text: 'x', at, size: Number.NaN, role: 't' })).toThrow();
    expect(() => text(measure, { text: 'a\nb', at, size: 9, role: 't' })).toThrow('line break');
  });

  test('[SH2] a font that is missing is named', () => {
    expect(() => fontMetrics({} as never).width('a', 'bold', 9)).toThrow("'bold'");
  });

  test('[SH2] the box holds the ink of every glyph that plans print', () => {
    const font = create(fonts.regular);
    for (const words of [
      '12′ 4 13⁄16″',
      'Age, jug (Qy)',
      '7A',
      'Émile’s Ängby',
      '–',
      '[{|}]/\\@_',
      '1:50',
      'Bk',
      '°½¼¾',
    ]) {
      const item = text(measure, { text: words, at: [0, 0], size: 1000, role: 't' });
      const glyphs = font.layout(words, words.includes('⁄') ? ['kern', 'frac', 'tnum'] : undefined).glyphs;
      const top = Math.max(...glyphs.map((each) => each.bbox.maxY).filter(Number.isFinite)) / font.unitsPerEm;
      const low = Math.min(...glyphs.map((each) => each.bbox.minY).filter(Number.isFinite)) / font.unitsPerEm;
      expect(-item.box[1] / 1000, words).toBeGreaterThanOrEqual(top - 0.02);
      expect(item.box[3] / 1000, words).toBeGreaterThanOrEqual(-low - 0.02);
    }
    expect(font.capHeight / font.unitsPerEm).toBe(CAP_EM);
  });

  test('[SH2] turning is about the anchor: at −90 the text goes up the sheet and its top looks left', () => {
    const level = text(measure, { text: 'Tag', at, size: 10, role: 't' });
    const [wide, up, down] = [level.box[2] - 100, 100 - level.box[1], level.box[3] - 100];
    const turned = (turn: 90 | -90) => text(measure, { text: 'Tag', at, size: 10, role: 't', turn }).box;
    const close = (box: readonly number[], like: number[]) =>
      box.forEach((v, k) => void expect(v).toBeCloseTo(like[k]!, 9));
    close(turned(-90), [100 - up, 100 - wide, 100 + down, 100]);
    close(turned(90), [100 - down, 100, 100 + up, 100 + wide]);
  });

  test('[SH3] wrapping loses nothing, keeps no-break spaces together and breaks a word only when it must', () => {
    const words =
      'Score the paint line before prying: twelve\u00a0feet\u00a04, then Donaudampfschiffahrtsgesellschaft';
    for (const width of [8, 20, 55, 140, 1000]) {
      const lines = wrapText(measure, words, 'regular', 9, width);
      expect(lines.join('').replaceAll(' ', '')).toBe(words.replaceAll(' ', ''));
      for (const line of lines)
        if ([...line].length > 1) expect(measure.width(line, 'regular', 9)).toBeLessThanOrEqual(width);
    }
    expect(wrapText(measure, words, 'regular', 9, 80)).toContain('twelve\u00a0feet\u00a04, then');
    expect(wrapText(measure, '', 'regular', 9, 80)).toEqual(['']);
    expect(wrapText(measure, 'a\n\nb', 'regular', 9, 80)).toEqual(['a', '', 'b']);
  });

  test('[SH3] fitting goes smaller, then on to more lines, and never cuts', () => {
    const one = (width: number) =>
      fitText(measure, { text: 'Ground floor, north wing', at, size: 14, width, role: 't' });
    expect(one(400).map((each) => each.size)).toEqual([14]);
    const smaller = one(120);
    expect(smaller).toHaveLength(1);
    expect(smaller[0]!.size).toBeLessThan(14);
    expect(smaller[0]!.box[2] - 100).toBeCloseTo(120, 4);
    const wrapped = one(40);
    expect(wrapped.length).toBeGreaterThan(1);
    expect(wrapped.map((each) => each.text).join(' ')).toBe('Ground floor, north wing');
    expect(new Set(wrapped.map((each) => each.size))).toEqual(new Set([SMALLEST_TEXT]));
    expect(textOverlaps({ items: wrapped })).toEqual([]);
  });

  test('[SH2] lines of a paragraph do not touch at any size', () => {
    for (const size of [7, 8.5, 12, 20]) {
      const { items } = paragraph(measure, {
        text: 'Ägyptens jög ÉQ Ågy '.repeat(6),
        at,
        size,
        width: 90,
        role: 't',
      });
      expect(items.length).toBeGreaterThan(2);
      expect(textOverlaps({ items })).toEqual([]);
    }
  });
});

describe('the checkers', () => {
  test('[SH4] overlaps are found across clips, touching edges are none', () => {
    const one = text(measure, { text: 'Board', at, size: 10, role: 'a' });
    const beside = text(measure, { text: 'Board', at: [one.box[2], 100], size: 10, role: 'b' });
    const over = text(measure, { text: 'Board', at: [one.box[2] - 2, 100], size: 10, role: 'c' });
    expect(textOverlaps({ items: [one, beside] })).toEqual([]);
    const found = textOverlaps({ items: [one, { kind: 'clip', box: [0, 0, 300, 300], items: [over] }] });
    expect(found.map(([a, b]) => [a.role, b.role])).toEqual([['a', 'c']]);
  });

  test('[SH4] what leaves the sheet is found: text, line by its width, clip, and words that a clip cuts', () => {
    const sheet = (items: readonly Item[]) => outsideSheet({ width: 200, height: 100, items });
    const word = text(measure, { text: 'Board', at: [180, 50], size: 10, role: 't' });
    expect(sheet([word])).toEqual([word]);
    const edge = rule([0.2, 10], [0.2, 90], { ink: 'ink', width: 1 });
    expect(sheet([edge])).toEqual([edge]);
    const clip: Item = { kind: 'clip', box: [150, 10, 210, 90], items: [] };
    expect(sheet([clip])).toEqual([clip]);
    const inner = text(measure, { text: 'Board', at: [20, 50], size: 10, role: 't' });
    expect(
      sheet([
        {
          kind: 'clip',
          box: [10, 10, 30, 90],
          items: [
            inner,
            rule([0, 0], [900, 0], edge.kind === 'line' ? edge.stroke : { ink: 'ink', width: 1 }),
          ],
        },
      ]),
    ).toEqual([inner]);
    expect(sheet([inner, rectangle([1, 1, 199, 99], { ink: 'ink', width: 1 })])).toEqual([]);
  });
});

describe('small drawings', () => {
  test('[SH10] a dimension line reaches from end to end, its figure inside where there is room and beside it where not', () => {
    const long = dimensionLine(measure, { from: [10, 50], to: [110, 50], figure: '8′ 4″' });
    const xs = long.flatMap((item) =>
      item.kind === 'line' && !item.fill ? item.points.map(([x]) => x) : [],
    );
    expect([Math.min(...xs), Math.max(...xs)]).toEqual([10, 110]);
    const figure = textItems(long)[0]!;
    expect((figure.box[0] + figure.box[2]) / 2).toBeCloseTo(60, 6);
    const short = textItems(
      dimensionLine(measure, { from: [10, 50], to: [22, 50], figure: '8′ 4″', beside: [0, -1] }),
    )[0]!;
    expect(short.box[3]).toBeLessThan(50);
    expect(dimensionLine(measure, { from: [10, 50], to: [10, 50], figure: 'x' })).toEqual([]);
  });

  test('[SH9] a ring holds its number, of one figure or of ten', () => {
    for (const number of ['1', '27', '128', '1000000000']) {
      const items = ringedNumber(measure, [50, 50], number, 8);
      const ring = items.find((item) => item.kind === 'arc')!;
      const [x0, , x1] = textItems(items)[0]!.box;
      expect(ring.kind === 'arc' && ring.radius * 2).toBeGreaterThan(x1 - x0);
    }
  });

  test('[SH5] a frame holds titles of any length without overlaps and leaves room for the sheet', () => {
    for (const size of [
      [612, 792],
      [842, 595],
      [1728, 2592],
    ] as const)
      for (const words of ['Plan', 'The long hall and everything north of it, '.repeat(4), 'W'.repeat(200)]) {
        const { items, inner } = sheetFrame(measure, size, {
          title: words,
          subtitle: words,
          job: words,
          date: words.slice(0, 40),
          revision: 'rev C',
        });
        expect(textOverlaps({ items }), words.slice(0, 20)).toEqual([]);
        expect(outsideSheet({ width: size[0], height: size[1], items }), words.slice(0, 20)).toEqual([]);
        expect(inner[3] - inner[1]).toBeGreaterThan(200);
        for (const item of textItems(items))
          expect(item.box[3] <= inner[1] || item.box[1] >= inner[3]).toBe(true);
      }
  });
});

describe('scales', () => {
  test('[SH8] each architectural scale is what its name says', () => {
    const inches: Record<string, number> = {
      '3': 3,
      '1 1⁄2': 1.5,
      '1': 1,
      '3⁄4': 0.75,
      '1⁄2': 0.5,
      '3⁄8': 0.375,
      '1⁄4': 0.25,
      '3⁄16': 0.1875,
      '1⁄8': 0.125,
      '3⁄32': 0.09375,
      '1⁄16': 0.0625,
    };
    expect(SCALES.imperial).toHaveLength(Object.keys(inches).length);
    for (const { name, ratio } of SCALES.imperial) expect(12 / inches[name.split('″')[0]!]!).toBe(ratio);
    for (const { name, ratio } of SCALES.metric) expect(name).toBe(`1:${ratio}`);
    // A foot at 1/4 in to the foot is 18 points.
    expect(pointsPerTick(48) * 12 * 8128).toBeCloseTo(18, 12);
  });

  test('[SH8] the largest that fits is chosen, a hair too large is not, and nothing fits a box that is too small', () => {
    const foot = 12 * 8128;
    expect(chooseScale([30 * foot, foot], [540, 540], SCALES.imperial)?.ratio).toBe(48);
    expect(chooseScale([30 * foot + 1, foot], [540, 540], SCALES.imperial)?.ratio).toBe(64);
    expect(chooseScale([30 * foot, foot], [10, 540], SCALES.imperial)).toBeNull();
    expect(chooseScale([0, 0], [10, 10], SCALES.metric)?.ratio).toBe(5);
    const { ratio } = looseScale([1e9, 1e9], [100, 50]);
    expect(1e9 * pointsPerTick(ratio)).toBeLessThanOrEqual(50);
    expect(1e9 * pointsPerTick(ratio - 1)).toBeGreaterThan(50);
  });

  test('[SH8] a bar’s length on paper times the scale is what its last figure says, and it fits its width', () => {
    // Real size and larger too, as on the screen.
    for (const units of ['imperial', 'metric'] as const)
      for (const ratio of [1 / 40, 1 / 8, 1 / 4, 1 / 2, 1, 2, ...SCALES[units].map((each) => each.ratio)])
        for (const width of [120, 168, 400]) {
          const bar = scaleBar(measure, { at: [10, 10], width, ratio, units });
          const cells = bar.items.filter((item) => item.kind === 'line' && item.role === 'scale-bar');
          const xs = cells.flatMap((item) => (item.kind === 'line' ? item.points.map(([x]) => x) : []));
          const paperMm = ((Math.max(...xs) - Math.min(...xs)) / 72) * 25.4;
          const [, whole = '0', top = '0', over = '1', unit] = textItems(bar.items)
            .at(-1)!
            .text.match(/^(?:([\d.]+)(?= ))?(?: ?(\d+)⁄(\d+))? (in|ft|mm|m)$/)!;
          const figure = Number(whole) + Number(top) / Number(over);
          const saidMm = figure * { in: 25.4, ft: 304.8, mm: 1, m: 1000 }[unit as 'in' | 'ft' | 'mm' | 'm'];
          expect(Math.abs(paperMm - saidMm / ratio), `${units} 1:${ratio}`).toBeLessThan(0.01);
          expect(Math.max(...textItems(bar.items).map((each) => each.box[2])) - 10).toBeLessThanOrEqual(
            width,
          );
          expect(textOverlaps({ items: bar.items })).toEqual([]);
        }
  });
});

describe('the placer', () => {
  test('[SH4] thousands of random labels: what is placed is free and in the frame, what is not placed had no free candidate', () => {
    let [placed, refused] = [0, 0];
    for (let seed = 1; seed <= 10; seed++) {
      const next = random(seed);
      const frame = [0, 0, 300, 200] as const;
      const placer = makePlacer(frame, [
        [
          [0, 100],
          [300, 100],
        ],
      ]);
      const taken: (readonly [number, number, number, number])[] = [];
      for (let k = 0; k < 300; k++) {
        const boxes = Array.from({ length: 6 }, () => {
          const [x, y] = [next() * 320 - 10, next() * 220 - 10];
          return [x, y, x + 4 + next() * 40, y + 4 + next() * 12] as const;
        });
        const free = (box: readonly number[]) =>
          box[0]! >= 0 &&
          box[1]! >= 0 &&
          box[2]! <= 300 &&
          box[3]! <= 200 &&
          taken.every(
            (t) =>
              box[0]! - 1.2 >= t[2] - 0.01 ||
              t[0] >= box[2]! + 1.2 - 0.01 ||
              box[1]! - 1.2 >= t[3] - 0.01 ||
              t[1] >= box[3]! + 1.2 - 0.01,
          );
        let chosen = -1;
        const items = placer.place(
          boxes.map((box, index) => ({
            boxes: [box],
            cost: index,
            items: () => {
              chosen = index;
              return [];
            },
          })),
        );
        const could = boxes.map(free);
        expect(items !== null, `seed ${seed}, label ${k}`).toBe(could.some(Boolean));
        if (items === null) refused++;
        else {
          expect(could[chosen]).toBe(true);
          taken.push(boxes[chosen]!);
          placed++;
        }
      }
    }
    expect(placed).toBeGreaterThan(300);
    expect(refused).toBeGreaterThan(300);
  });
});

describe('a letter in its triangle', () => {
  test('every letter up to ZZ stands clear of the sides, at its foot and at its top', () => {
    const letters = Array.from({ length: 26 }, (_, index) => String.fromCharCode(65 + index));
    for (const letter of [...letters, 'AA', 'WW', 'ZZ']) {
      const [triangle, word] = flaggedLetter(measure, [0, 0], letter, 8);
      if (triangle?.kind !== 'line' || word?.kind !== 'text') throw new Error('no triangle, no letter');
      const [[, top], [right, base]] = triangle.points as [Point, Point];
      const half = measure.width(letter, 'bold', 8) / 2;
      const wideAt = (y: number) => (right * (y - top)) / (base - top);
      expect(word.at[1], letter).toBeLessThan(base - 1);
      expect(wideAt(word.at[1]), letter).toBeGreaterThan(half + 0.5);
      // A, J and L are narrow at the top.
      if (!/[AJL]/.test(letter)) expect(wideAt(word.at[1] - CAP_EM * 8), letter).toBeGreaterThan(half + 0.5);
    }
  });
});
