// The strip: walls unrolled left to right, to one scale, with every board and every corner.

import { beforeAll, describe, expect, test } from 'vitest';
import { derive } from '../../../core/report/index.ts';
import type { Solved } from '../../../core/report/types.ts';
import { type Box, boxesOverlap, boxOf } from '../../../core/sheets/boxes.ts';
import { flow } from '../../../core/sheets/flow.ts';
import type { Item } from '../../../core/sheets/items.ts';
import { textItems, textOverlaps } from '../../../core/sheets/sheet-faults.ts';
import { strip, stripNote } from '../../../core/sheets/strip.ts';
import type { StripSpec } from '../../../core/sheets/strip-spec.ts';
import type { TypeSizes } from '../../../core/sheets/table.ts';
import { figuresOf } from '../../../core/sheets/words.ts';
import { housePlan } from '../trim/houses.ts';
import { measure } from './fonts.ts';
import { manyWalls, solved, surveyed } from './page-solved.ts';

const SIZES: TypeSizes = { heading: 12, body: 8.5, small: 7.3, by: 1 };
const WIDTH = 540;
type Line = Extract<Item, { kind: 'line' }>;

function specs(of: Solved): StripSpec[] {
  const pieces = new Map(of.report.pieces.map((piece) => [piece.id, piece]));
  const scribes = new Map(of.scribes.map((scribe) => [scribe.piece, scribe]));
  return of.levels
    .flatMap((level) => level.trims)
    .flatMap((trim, index) =>
      trim.room.loops.map((_, loop) => ({
        trim,
        loop,
        reportRoom: of.report.rooms[index]!,
        pieces,
        scribes,
      })),
    );
}

function drawn(of: Solved, spec: StripSpec): Item[] {
  const column: Box = [0, 0, WIDTH, 100_000];
  return flow(strip(measure, SIZES, figuresOf(of.plan), WIDTH, spec), () => [column]).flat();
}

function ofRole(items: readonly Item[], role: string): Item[] {
  return items.filter((item) => 'role' in item && item.role === role);
}

let cottage: Solved;
beforeAll(async () => {
  cottage = await solved(surveyed());
});

describe('strip', () => {
  test('[SH26] has every corner, every wall’s length and every board of its loop, none on another’s words', () => {
    for (const spec of specs(cottage)) {
      const items = drawn(cottage, spec);
      const said = textItems(items);
      expect(textOverlaps({ items })).toEqual([]);
      const loop = spec.reportRoom.loops[spec.loop]!;
      for (const corner of loop.corners)
        expect(said.filter((item) => item.role === 'corner-number').map((item) => item.text)).toContain(
          `${corner.number}`,
        );
      expect(said.filter((item) => item.role === 'wall-length')).toHaveLength(loop.segments.length);
      const keys = new Set(loop.segments.map((segment) => segment.key));
      const boards = [...spec.pieces.values()].filter(
        (piece) => piece.line === 'base' && piece.returnOf === null && keys.has(piece.segment),
      );
      expect(
        said
          .filter((item) => item.role === 'board-id')
          .map((item) => item.text)
          .toSorted(),
      ).toEqual(boards.map((piece) => piece.id).toSorted());
    }
  });

  test('[SH26] boards are as long as they are drawn, all to one scale, whatever the row', () => {
    for (const spec of specs(cottage)) {
      const base = spec.trim.lines.find((line) => line.line === 'base')!;
      const stretches = base.stretches.filter((stretch) => stretch.segment.loop === spec.loop);
      const total = stretches.reduce((sum, stretch) => sum + stretch.drawn, 0);
      const boxes = ofRole(drawn(cottage, spec), 'board').map((item) =>
        boxOf(item.kind === 'line' ? item.points : []),
      );
      const long = boxes.reduce((sum, box) => sum + box[2] - box[0], 0);
      const scale = long / total;
      const widths = boxes.map((box) => box[2] - box[0]).toSorted((a, b) => a - b);
      const expected = stretches
        .flatMap((stretch) => {
          const parts = base.runs.flatMap((run) => run.pieces).filter((piece) => piece.stretch === stretch);
          const sum = parts.reduce((own, piece) => own + piece.L, 0);
          return parts.map((piece) => (piece.L / sum) * stretch.drawn * scale);
        })
        .toSorted((a, b) => a - b);
      expect(widths.length).toBe(expected.length);
      widths.forEach((width, index) => {
        expect(width).toBeCloseTo(expected[index]!, 3);
      });
    }
  });

  test('[SH26] no board’s name or length lies under a mark, wherever on the board that stands', async () => {
    const plan = surveyed();
    const [level] = plan.levels;
    const [id, mark] = Object.entries(level!.marks)[0]!;
    const { rooms } = derive(plan).levels[0]!.walk;
    const segment = rooms
      .flatMap(({ loops }) => loops.flatMap(({ segments }) => segments))
      .find(({ parts, marks }) => parts.length === 1 && marks.some((each) => each.id === id))!;
    let beside = 0;
    for (const part of [0.3, 0.4, 0.5, 0.6]) {
      const at = Math.round((segment.drawn - mark.width) * part);
      const marks = { ...level!.marks, [id]: { ...mark, at, bottom: 0, top: 900 * 320 } };
      const moved = await solved({ ...plan, levels: [{ ...level!, marks }, ...plan.levels.slice(1)] });
      for (const spec of specs(moved)) {
        const items = drawn(moved, spec);
        const boxes = ofRole(items, mark.kind).map((item) => boxOf((item as Line).points));
        const names = textItems(items).filter(({ role }) => role === 'board-id' || role === 'overall');
        for (const name of names) {
          expect(
            boxes.some((box) => boxesOverlap(box, name.box)),
            `${name.text} ${part}`,
          ).toBe(false);
          beside += boxes.length;
        }
      }
    }
    expect(beside).toBeGreaterThan(20);
  });

  test('[SH26] left is left: along a row, boards come in walking order', () => {
    const spec = specs(cottage)[0]!;
    const numbers = textItems(drawn(cottage, spec))
      .filter((item) => item.role === 'corner-number')
      .map((item) => ({ number: Number(item.text), at: item.at }));
    const rows = new Map<number, number[]>();
    for (const { number, at } of numbers.toSorted((a, b) => a.at[0] - b.at[0]))
      rows.set(Math.round(at[1]), [...(rows.get(Math.round(at[1])) ?? []), number]);
    const order = spec.trim.room.loops[0]!.corners.map((corner) => corner.number!);
    for (const row of rows.values())
      row.slice(1).forEach((number, index) => {
        const before = order.indexOf(row[index]!);
        expect(order[(before + 1) % order.length]).toBe(number);
      });
    expect(rows.size).toBeGreaterThan(1);
  });

  test('the old line is dashed, and the floor’s shape is drawn larger by the factor that the note states', () => {
    const spec = specs(cottage)[0]!;
    const items = drawn(cottage, spec);
    expect(ofRole(items, 'old-line').length).toBeGreaterThan(0);
    for (const item of ofRole(items, 'old-line'))
      expect(item.kind === 'line' && item.stroke.dash).toBeTruthy();
    const note = stripNote(SIZES, WIDTH, spec);
    const [, heights] = /Heights drawn (\d+) times/.exec(note)!;
    const [, humps] = /drawn (\d+) times as large as other heights/.exec(note)!;
    const shape = ofRole(items, 'floor-shape').find((item) => {
      const box = item.kind === 'line' ? boxOf(item.points) : [0, 0, 0, 0];
      return box[3]! - box[1]! > 1;
    })!;
    if (shape.kind !== 'line') throw new Error('a floor’s shape is a line');
    // The same station heights as the scribe's, times along-scale, times both stated factors.
    const boards = ofRole(items, 'board').map((item) => boxOf(item.kind === 'line' ? item.points : []));
    const [x0, y0, x1, y1] = boxOf(shape.points);
    const board = boards.find((box) => Math.abs(box[0] - x0) < 0.01 && Math.abs(box[2] - x1) < 0.01)!;
    const scribe = cottage.scribes.find((each) => {
      const length = each.stations.at(-1)!.at;
      const heightsOf = each.stations.map((station) => station.floor);
      const range = Math.max(...heightsOf) - Math.min(...heightsOf);
      const along = (board[2] - board[0]) / length;
      return Math.abs(range * along * Number(heights) * Number(humps) - (y1 - y0)) < 0.05;
    });
    expect(scribe).toBeDefined();
  });

  test('[SH4] the length of a jog keeps clear of the one beside it, at any size of text', async () => {
    const outline: [number, number][] = [
      [0, 0],
      [841, 0],
      [841, 15],
      [2680, 15],
      [2680, 2300],
      [0, 2300],
    ];
    const jog = await solved(housePlan(outline));
    for (const by of [1, 1.2, 1.42, 1.7]) {
      const sizes = { heading: 12 * by, body: 8.5 * by, small: 7.3 * by, by };
      const column: Box = [0, 0, WIDTH, 100_000];
      const items = flow(strip(measure, sizes, figuresOf(jog.plan), WIDTH, specs(jog)[0]!), () => [
        column,
      ]).flat();
      expect(textItems(items).map(({ text }) => text)).toContain('15 mm');
      expect(textOverlaps({ items }), `${by}`).toEqual([]);
    }
  });

  test('sixty short walls wrap into rows and keep their words apart', async () => {
    const drum = await solved(manyWalls(60));
    const items = drawn(drum, specs(drum)[0]!);
    expect(textOverlaps({ items })).toEqual([]);
    expect(textItems(items).filter((item) => item.role === 'board-id')).toHaveLength(60);
  });

  test('a room without trim has bare walls', async () => {
    const bare = surveyed((file) => {
      for (const room of Object.values(file.levels[0]!.rooms ?? {})) delete room.trim;
      return file;
    });
    const of = { ...derive(bare), scribes: [], stock: [], solverFindings: [] };
    for (const spec of specs(of)) {
      const items = drawn(of, spec);
      expect(ofRole(items, 'board')).toEqual([]);
      expect(ofRole(items, 'floor').length).toBeGreaterThan(0);
    }
  });
});
