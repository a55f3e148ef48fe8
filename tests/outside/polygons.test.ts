// Mitre settings of regular polygons and of casings against a published table of flat mitres: the compound-angle table in the
// operator's manual of a Craftsman 10-inch mitre saw (model 315.21212, p. 24), the row of pitch 0.

import { describe, expect, it } from 'vitest';
import { emptyLevel, type FileLevel, type FileProfile, type PlanJson, planOf, tick } from './lib/file.ts';
import { reportOf } from './product.ts';

/** Sides and degrees off square, as printed. */
const TABLE: readonly (readonly [sides: number, degrees: number])[] = [
  [4, 45],
  [5, 36],
  [6, 30],
  [7, 25.71],
  [8, 22.5],
  [9, 20],
  [10, 18],
];

const base = (form: 'flat' | 'shaped'): FileProfile =>
  ({
    kind: 'base',
    name: 'Base',
    height: 120,
    thickness: 14,
    form,
    material: 'pine',
    stock: [{ length: 20000 }],
  }) as const;

function ring(level: FileLevel, name: string, sides: number, radius: number, turned: number): string[] {
  const nodes = Array.from({ length: sides }, (_, i) => `${name}n${i}`);
  nodes.forEach((id, i) => {
    const angle = ((i + turned) / sides) * 2 * Math.PI;
    level.nodes[id] = [tick(radius * Math.cos(angle)), tick(radius * Math.sin(angle))];
    level.walls[`${name}w${i}`] = { from: id, to: nodes[(i + 1) % sides]!, thickness: 100 };
  });
  return nodes;
}

/** A room of `sides` equal faces with a column of as many in it, no build-up. */
function polygonRoom(sides: number, form: 'flat' | 'shaped'): PlanJson {
  const level = emptyLevel();
  ring(level, 'r', sides, 4000, 0.1);
  const column = ring(level, 'c', sides, 300, 0.3);
  level.rooms.r1 = { name: 'Room', at: [1500, 200], trim: { base: 'base-a' }, new: { floor: 0, gap: 0 } };
  const plan = planOf(`${sides} sides`, [level]);
  plan.settings.buildUpDeg = 0;
  plan.profiles['base-a'] = base(form);
  expect(column.length).toBe(sides);
  return plan;
}

describe('flat mitres of regular polygons, against a published table', () => {
  for (const form of ['flat', 'shaped'] as const) {
    it(`[LN] ${form} base is mitred at every corner of the room and of the column at the printed setting`, () => {
      for (const [sides, degrees] of TABLE) {
        const plan = polygonRoom(sides, form);
        if (sides === 4) {
          // A square room is coped or butted; the table's mitre is then the user's choice.
          const first = reportOf(plan).rooms[0]!.loops[0]!;
          for (const { key } of first.corners)
            plan.levels[0]!.corners[key] = { lines: { base: { joint: 'mitre' } } };
        }
        const report = reportOf(plan);
        const room = report.rooms[0]!;
        expect(room.loops.map((loop) => loop.corners.length)).toEqual([sides, sides]);
        for (const corner of room.loops.flatMap((loop) => loop.corners)) {
          expect(corner.base!.joint, `${sides} sides, ${corner.kind}`).toBe('mitre');
          // Printed to two decimals; the corners are drawn on whole ticks.
          expect(Math.abs(corner.base!.sawDeg - degrees), `${sides} sides, ${corner.kind}`).toBeLessThan(
            0.0051,
          );
        }
        const ends = report.pieces.flatMap((piece) => [piece.left, piece.right]);
        expect(ends.length).toBe(4 * sides);
        for (const end of ends) expect(Math.abs(end.sawDeg - degrees), `${sides} sides`).toBeLessThan(0.0051);
        // The long point is at the back inside and at the face outside.
        const long = report.pieces.map((piece) => `${piece.left.longPoint} ${piece.right.longPoint}`).sort();
        expect(long).toEqual([...Array(sides).fill('back back'), ...Array(sides).fill('face face')]);
      }
    });
  }

  it('[CS] casing is a frame of 4 sides: at 45° the long points stand two widths out, one at a leg', () => {
    const level = emptyLevel();
    ring(level, 'r', 4, 4000, 0.5);
    level.openings.door = {
      wall: 'rw0',
      at: 1500,
      width: 800,
      height: 2000,
      sill: 0,
      kind: 'door',
      reveal: 5,
      casing: { left: 'case-a', right: 'case-a' },
    };
    level.openings.high = {
      wall: 'rw1',
      at: 1500,
      width: 900,
      height: 1000,
      sill: 800,
      kind: 'window',
      reveal: 5,
      casing: { left: 'case-a', right: 'case-a' },
    };
    level.rooms.r1 = { name: 'Room', at: [0, 0], trim: {}, new: { floor: 12, gap: 0 } };
    const plan = planOf('casings', [level]);
    plan.profiles['case-a'] = {
      kind: 'casing',
      name: 'Casing',
      width: 70,
      thickness: 18,
      form: 'flat',
      material: 'pine',
      stock: [],
    };
    const { casings } = reportOf(plan);
    const tan = Math.tan((TABLE[0]![1] * Math.PI) / 180);
    const inRoom = casings.filter((casing) => casing.room === 'r1');
    expect(inRoom.map((casing) => casing.opening).sort()).toEqual(['door', 'high']);
    for (const { opening, parts } of inRoom) {
      expect(parts.length).toBe(opening === 'door' ? 3 : 4);
      for (const { part, shortMm, longMm } of parts) {
        const mitres = part === 'head' || part === 'sill' || opening === 'high' ? 2 : 1;
        expect(longMm - shortMm, `${opening} ${part}`).toBeCloseTo(mitres * 70 * tan, 6);
      }
      const size = (part: string): number => parts.find((p) => p.part === part)!.shortMm;
      expect(size('head')).toBeCloseTo((opening === 'door' ? 800 : 900) + 10, 6);
      // Door legs stand on the new floor; a frame's legs run between head and sill.
      expect(size('legLeft')).toBeCloseTo(opening === 'door' ? 2000 - 12 + 5 : 1000 + 10, 6);
    }
  });
});
