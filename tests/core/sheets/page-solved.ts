// Solved plans for the tests of the pages: the cottage of the fixtures with floors, readings and measured values, and the
// odd cases. The solver is the real one.

import { lookup } from '../../../core/plan/maps.ts';
import { type Plan, type PlanFile, PlanSchema } from '../../../core/plan/schema.ts';
import { derive, solve } from '../../../core/report/index.ts';
import type { Solved } from '../../../core/report/types.ts';
import type { Sheet, TextItem } from '../../../core/sheets/items.ts';
import { textItems } from '../../../core/sheets/sheet-faults.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { cottage } from '../../fixtures/cottage.ts';

export async function solved(plan: Plan): Promise<Solved> {
  return solve(derive(plan), await loadHighs());
}

type Faces = NonNullable<PlanFile['levels'][number]['faces']>;

/** The cottage with new and old floors, floor readings on every long wall, one measured corner and one measured wall. */
export function surveyed(change: (file: PlanFile) => PlanFile = (file) => file): Plan {
  const bare = derive(cottage(change));
  const rooms = bare.levels[0]!.walk.rooms;
  const faces: Faces = {};
  for (const room of rooms)
    for (const segment of room.loops[0]!.segments) {
      if (segment.drawn < 320_000) continue;
      const long = segment.drawn / 320;
      faces[segment.key] = {
        floor: [
          { at: 0, height: 0 },
          { at: long * 0.4, height: segment.index % 2 === 0 ? 4 : -3 },
          { at: long, height: segment.index % 3 === 0 ? -2 : 0 },
        ],
      };
    }
  const first = rooms[0]!.loops[0]!;
  const measured = first.segments.find((segment) => lookup(faces, segment.key) !== undefined)!;
  faces[measured.key] = { ...faces[measured.key], measured: measured.drawn / 320 - 3 };
  return cottage((before) => {
    const file = change(before);
    const level = file.levels[0]!;
    for (const room of Object.values(level.rooms ?? {})) {
      room.old ??= { baseHeight: 88.9, floor: 19.05, gap: 0 };
      room.new ??= { floor: 12.7, gap: 0 };
    }
    level.faces = faces;
    level.corners = { [first.corners[1]!.key]: { measured: 91.5 } };
    return file;
  });
}

/** A plan without anything. */
export function emptyPlan(): Plan {
  return PlanSchema.parse({ format: 'copewright-plan', version: 1, title: '', units: 'metric', levels: [] });
}

/** One level with a wall that encloses nothing. */
export function roomlessPlan(): Plan {
  return PlanSchema.parse({
    format: 'copewright-plan',
    version: 1,
    title: 'One wall',
    units: 'metric',
    levels: [
      {
        id: 'L1',
        name: 'Yard',
        ceilingHeight: 2400,
        nodes: { n1: [0, 0], n2: [3000, 0] },
        walls: { w1: { from: 'n1', to: 'n2', thickness: 100 } },
      },
    ],
  });
}

/** A round-ish room with so many walls, none square to the next: long tables. */
export function manyWalls(count: number): Plan {
  const nodes: Record<string, [number, number]> = {};
  const walls: Record<string, { from: string; to: string; thickness: number }> = {};
  for (let k = 0; k < count; k++) {
    const turn = (2 * Math.PI * k) / count;
    nodes[`n${k}`] = [6000 + 6000 * Math.cos(turn), 6000 + 6000 * Math.sin(turn)];
    walls[`w${k}`] = { from: `n${k}`, to: `n${(k + 1) % count}`, thickness: 100 };
  }
  return cottage((file) => ({
    ...file,
    title: 'Drum',
    levels: [
      {
        id: 'L1',
        name: 'Floor',
        ceilingHeight: 2400,
        nodes,
        walls,
        rooms: { r1: { name: 'Drum', at: [6000, 6000], trim: { base: 'base' } } },
      },
    ],
  }));
}

export function texts(sheets: readonly Sheet[], role?: string): TextItem[] {
  return sheets
    .flatMap((sheet) => textItems(sheet.items))
    .filter((item) => role === undefined || item.role === role);
}

/** All words of sheets, run together in drawing order: wrapped lines are joined by a space, no-break spaces are spaces. */
export function wordsOf(sheets: readonly Sheet[]): string {
  return texts(sheets)
    .map((item) => item.text)
    .join(' ')
    .replaceAll('\u00a0', ' ');
}
