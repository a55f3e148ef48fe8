// The small drawings of the demo houses are of the demo houses: drawn here again from their plan files.

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { DEMO_HOUSES } from '../../../electron/contract.ts';
import { DEMOS, DRAWING } from '../../../renderer/panels/files/demos.ts';
import { demoFile } from '../window.ts';

interface PlanFile {
  readonly title: string;
  readonly levels: readonly {
    readonly nodes: Readonly<Record<string, readonly [number, number]>>;
    readonly walls: Readonly<Record<string, { readonly from: string; readonly to: string }>>;
    readonly openings: Readonly<Record<string, { wall: string; at: number; width: number; kind: string }>>;
    readonly rooms: Readonly<Record<string, object>>;
  }[];
}

const planOf = (house: string): PlanFile => JSON.parse(readFileSync(demoFile(house), 'utf8')) as PlanFile;

/** The ground floor as two paths, scaled to fit the drawing: walls along their middles, and the openings in them. */
function drawn({ levels }: PlanFile): { walls: string; openings: string } {
  const { nodes, walls, openings } = levels[0]!;
  const places = Object.values(nodes);
  const [xs, ys] = [places.map(([x]) => x), places.map(([, y]) => y)];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  const { width, height, margin } = DRAWING;
  const across = (width - 2 * margin) / (Math.max(...xs) - left);
  const down = (height - 2 * margin) / (Math.max(...ys) - top);
  const scale = Math.min(across, down);
  const [right, low] = [Math.max(...xs) - left, Math.max(...ys) - top].map((size) => size * scale) as [
    number,
    number,
  ];
  const put = (x: number, y: number): string =>
    `${Math.round((x - left) * scale + (width - right) / 2)} ${Math.round((y - top) * scale + (height - low) / 2)}`;
  const wallPath = Object.values(walls).map(
    ({ from, to }) => `M${put(...nodes[from]!)}L${put(...nodes[to]!)}`,
  );
  const openingPath = Object.values(openings).map(({ wall, at, width: wide }) => {
    const { from, to } = walls[wall]!;
    const [[x1, y1], [x2, y2]] = [nodes[from]!, nodes[to]!];
    const length = Math.hypot(x2 - x1, y2 - y1);
    const along = (by: number): string => put(x1 + ((x2 - x1) * by) / length, y1 + ((y2 - y1) * by) / length);
    return `M${along(at)}L${along(at + wide)}`;
  });
  return { walls: wallPath.join(''), openings: openingPath.join('') };
}

describe.each(DEMO_HOUSES)('%s', (house) => {
  test('is named as its plan is', () => {
    expect(DEMOS[house].name).toBe(planOf(house).title);
  });

  test('is drawn as its plan is', () => {
    const { walls, openings } = drawn(planOf(house));
    expect(DEMOS[house].walls).toBe(walls);
    expect(DEMOS[house].openings).toBe(openings);
  });

  test('says how many rooms it has', () => {
    const words = { 3: 'Three rooms', 19: 'Nineteen rooms' } as Readonly<Record<number, string>>;
    const count = planOf(house).levels.reduce((sum, { rooms }) => sum + Object.keys(rooms).length, 0);
    expect(words[count]).toBeDefined();
    expect(DEMOS[house].about).toContain(words[count]);
  });
});
