// Walls mirrored and turned where they stand. What a mirror does to boards is held against the report of the plan before:
// the same boards with left and right ends changed over.

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { apply, type Edit, sameButCounter } from '../../../core/edit/index.ts';
import { type Plan, readPlan, settingsOf } from '../../../core/plan/index.ts';
import { derive, type Report } from '../../../core/report/index.ts';
import { walkLevel } from '../../../core/walk/index.ts';
import { demoFile } from '../../renderer/window.ts';
import { cases, random } from '../../seeds.ts';
import { boxPlan, checkEdit, level, MM, prepared } from './helpers.ts';

const place = (plan: Plan, how: object, walls: readonly string[] = Object.keys(level(plan).walls)): Edit =>
  ({ type: 'placeWalls', level: level(plan).id, walls, place: { by: [0, 0], ...how } }) as unknown as Edit;

/** In the upright line through the middle of all nodes. */
const mirror = (plan: Plan, walls?: readonly string[]): Edit => {
  const { nodes, walls: all } = level(plan);
  const ends = (walls ?? Object.keys(all)).flatMap((id) => {
    const { from, to } = all[id as never] as { from: string; to: string };
    return [from, to];
  });
  const xs = ends.map((id) => (nodes[id as never] as [number, number])[0]);
  return place(plan, { mirror: true, about: [(Math.min(...xs) + Math.max(...xs)) / 2, 0] }, walls);
};

const code = (plan: Plan, edit: Edit) => {
  const done = apply(plan, edit);
  return done.ok ? null : `${done.code}: ${done.message}`;
};

/** A room with something of everything, not the same from left and right. */
const furnished = (): Plan =>
  prepared(
    boxPlan(4000, 3000, {
      openings: {
        o1: {
          wall: 'w1',
          at: 500 * MM,
          width: 800 * MM,
          height: 2000 * MM,
          sill: 0,
          kind: 'pocket',
          pocket: 'start',
          casing: { left: null },
        },
      },
      builtIns: {
        b1: {
          wall: 'w2',
          side: 'right',
          at: 300 * MM,
          width: 600 * MM,
          bottom: 0,
          top: 900 * MM,
          kind: 'tub',
          ends: 'scribe',
        },
      },
      marks: {
        k1: {
          wall: 'w3',
          side: 'right',
          at: 700 * MM,
          width: 70 * MM,
          bottom: 0,
          top: 90 * MM,
          kind: 'outlet',
        },
      },
      rooms: { r1: { name: 'Hall', at: [1000 * MM, 1200 * MM], entry: 'o1' } },
      corners: {
        'n2:w1>w2': { number: 7, measured: 91, lines: { base: { joint: 'cope', coped: 'after' } } },
        'n9:w9>w8': { measured: 80 },
      },
      faces: {
        'w1:right': {
          measured: 3950 * MM,
          stretches: { 'corner..o1': 440 * MM },
          floor: [
            { at: 100 * MM, height: 1 },
            { at: 3000 * MM, height: 2 },
          ],
          line: [{ at: 10 * MM, height: 5 }],
          studs: [5 * MM, 400 * MM],
          trim: { base: null },
        },
      },
    }),
  );

describe('a room mirrored where it stands', () => {
  test('[ED26] sides, worked sides, stretches, readings and studs change over; ids, angles and lengths stay', () => {
    const plan = furnished();
    const walls = { ...level(plan).walls };
    walls['w1' as never] = { ...walls['w1' as never], faces: { left: 'masonry' } } as never;
    const given = prepared({ ...plan, levels: [{ ...level(plan), walls }] });
    checkEdit(given, mirror(given), (after) => {
      const now = level(after) as unknown as Record<string, Record<string, Record<string, unknown>>>;
      expect(now.nodes).toEqual({
        n1: [4000 * MM, 0],
        n2: [0, 0],
        n3: [0, 3000 * MM],
        n4: [4000 * MM, 3000 * MM],
      });
      expect(now.walls!.w1).toMatchObject({ from: 'n1', to: 'n2', faces: { right: 'masonry' } });
      expect(now.openings!.o1).toMatchObject({ at: 500 * MM, pocket: 'start', casing: { right: null } });
      expect(now.builtIns!.b1).toMatchObject({ side: 'left', at: 300 * MM, ends: 'scribe' });
      expect(now.marks!.k1).toMatchObject({ side: 'left', at: 700 * MM });
      expect(now.rooms!.r1).toEqual({ name: 'Hall', at: [3000 * MM, 1200 * MM], entry: 'o1' });
      expect(now.corners!['n2:w2>w1']).toEqual({
        number: 7,
        measured: 91,
        lines: { base: { joint: 'cope', coped: 'before' } },
      });
      expect(now.corners!['n9:w9>w8'], 'what fits nothing stays').toEqual({ measured: 80 });
      expect(now.faces!['w1:left']).toEqual({
        measured: 3950 * MM,
        stretches: { 'o1..corner': 440 * MM },
        floor: [
          { at: 950 * MM, height: 2 },
          { at: 3850 * MM, height: 1 },
        ],
        line: [{ at: 3940 * MM, height: 5 }],
        studs: [3550 * MM, 3945 * MM],
        trim: { base: null },
      });
      expect(walkLevel(after, level(after)).rooms.map(({ name }) => name)).toEqual(['Hall']);
    });
  });

  test('[ED26] boards that are held are left as they are, with a note: in the mirror boards have other names', () => {
    const base = {
      kind: 'base',
      name: 'Base',
      height: 90 * MM,
      thickness: 12 * MM,
      form: 'flat',
      material: '',
      stock: [],
    };
    const board = { length: 3600 * MM, onHand: false, pieces: ['7A'] };
    const plan = { ...furnished(), profiles: { b1: base }, heldBoards: { b1: [board] } } as unknown as Plan;
    const { plan: after, notes } = checkEdit(plan, mirror(plan));
    expect(after.heldBoards).toEqual(plan.heldBoards);
    expect(notes.map(({ about, loses }) => [about, loses])).toEqual([[['b1'], true]]);
    expect(checkEdit(plan, place(plan, { turnDeg: 90, about: [0, 0] })).notes).toEqual([]);
  });

  test('[ED27] walls that others end at are not mirrored or turned: one sentence names the others', () => {
    const plan = prepared({
      ...boxPlan(),
      levels: [
        {
          ...level(boxPlan()),
          nodes: { ...level(boxPlan()).nodes, n5: [2000 * MM, 0], n6: [2000 * MM, 3000 * MM] },
          walls: { ...level(boxPlan()).walls, w5: { from: 'n5', to: 'n6', thickness: 100 * MM } },
        } as never,
      ],
    });
    const half = ['w1', 'w4', 'w3', 'w5'];
    const said = code(plan, mirror(plan, half));
    expect(said).toMatch(
      /^walls-shared: Walls w\d+, w\d+( and w\d+|, w\d+ and \d+ more) end at these walls and would be torn off: choose .*\.$/,
    );
    expect(code(plan, place(plan, { turnDeg: 90 }, half))).toBe(said);
    expect(code(plan, mirror(plan))).toBe(null);
    expect(code(plan, mirror(plan, []))).toMatch(/^no-walls/);
    expect(code(plan, place(plan, { turnDeg: Number.NaN }))).toMatch(/^bad-number/);
    expect(code(plan, place(plan, { by: [1e12, 0] }))).toMatch(/^bad-number/);
  });

  test('[ED27] a column placed on a room’s point moves the point, and the room keeps its name', () => {
    const big = boxPlan(6000, 4000, { rooms: { r1: { name: 'Hall', at: [1000 * MM, 1000 * MM] } } });
    const column = { n5: [4800, 800], n6: [5200, 800], n7: [5200, 1200], n8: [4800, 1200] };
    const at = Object.fromEntries(Object.entries(column).map(([id, [x, y]]) => [id, [x! * MM, y! * MM]]));
    const plan = prepared({
      ...big,
      levels: [
        {
          ...level(big),
          nodes: { ...level(big).nodes, ...at },
          walls: {
            ...level(big).walls,
            ...Object.fromEntries(
              ['n5-n6', 'n6-n7', 'n7-n8', 'n8-n5'].map((ends, i) => {
                const [from, to] = ends.split('-');
                return [`w${5 + i}`, { from, to, thickness: 100 * MM }];
              }),
            ),
          },
        } as never,
      ],
    });
    const about = [3000 * MM, 0];
    checkEdit(plan, place(plan, { mirror: true, about }, ['w5', 'w6', 'w7', 'w8']), (after) => {
      const rooms = walkLevel(after, level(after)).rooms;
      expect(rooms.map(({ name }) => name)).toContain('Hall');
      expect(level(after).rooms['r1' as never]).not.toEqual(level(plan).rooms['r1' as never]);
    });
  });

  test('[ED26] four quarter turns about one place give the first plan, with every record', () => {
    const first = furnished();
    let plan = first;
    for (let turn = 0; turn < 4; turn++)
      plan = checkEdit(plan, place(plan, { turnDeg: 90, about: [2000 * MM, 1500 * MM] })).plan;
    expect(sameButCounter(plan, first)).toBe(true);
  });
});

type Piece = Report['pieces'][number];

/** Boards as they read from the left, or from the right. */
function boards({ pieces }: Report, seen: 'as it is' | 'in the mirror'): string[] {
  const near = (mm: number) => Math.round(mm * 1000) / 1000;
  const end = ({ end, sawDeg, longPoint }: Piece['left']) => ({ end, saw: near(sawDeg), longPoint });
  const all = pieces.map(({ line, profile, backMm, faceMm, overallMm, left, right }) => {
    const [first, last] = seen === 'as it is' ? [left, right] : [right, left];
    const lengths = [backMm, faceMm, overallMm].map(near);
    return JSON.stringify([line, profile, lengths, end(first), end(last)]);
  });
  return all.sort();
}

const findings = ({ findings: all }: Report): string[] => all.map(({ code: what }) => what).sort();

/**
 * A chain of joined rooms of slanting and square walls with doors, built-ins and a free wall end. Every corner has its
 * worked side chosen, so that no tie is broken by the order of walking.
 */
function drawn(next: () => number): Plan {
  const within = (least: number, most: number) => Math.round((least + next() * (most - least)) * MM);
  const count = 2 + Math.floor(next() * 2);
  const nodes: Record<string, [number, number]> = { a0: [0, 0], b0: [within(-300, 300), within(2500, 4000)] };
  const walls: Record<string, object> = {};
  const wall = (id: string, from: string, to: string) => {
    walls[id] = { from, to, thickness: 2 * within(40, 80) };
  };
  wall('s0', 'a0', 'b0');
  for (let i = 1; i <= count; i++) {
    const x = nodes[`a${i - 1}`]![0] + within(2500, 4500);
    const square = next() < 0.5;
    nodes[`a${i}`] = [x, square ? nodes[`a${i - 1}`]![1] : within(-200, 200)];
    nodes[`b${i}`] = [square ? x : x + within(-200, 200), within(2500, 4000)];
    wall(`t${i}`, `a${i - 1}`, `a${i}`);
    wall(`u${i}`, `b${i}`, `b${i - 1}`);
    wall(`s${i}`, `a${i}`, `b${i}`);
  }
  nodes.f = [nodes.a1![0] + within(200, 500), within(900, 1400)];
  wall('p', 'a1', 'f');
  const standing = (of: string, more: object) => ({ wall: of, at: within(300, 1200), ...more });
  const openings = Object.fromEntries(
    Array.from({ length: count }, (_, i) => [
      `o${i}`,
      standing(`t${i + 1}`, {
        width: within(600, 900),
        height: 2000 * MM,
        sill: 0,
        kind: 'door',
        casing: { left: 'c1', right: 'c1' },
      }),
    ]),
  );
  const profile = (kind: string, thickness: number) => ({
    kind,
    name: kind,
    height: 100 * MM,
    width: 60 * MM,
    thickness: thickness * MM,
    form: 'shaped',
    material: 'pine',
    stock: [{ length: 9000 * MM }],
  });
  const rooms = Object.fromEntries(
    Array.from({ length: count }, (_, i) => [
      `r${i}`,
      {
        name: `Room ${i}`,
        at: [nodes[`a${i}`]![0] + 1200 * MM, 1900 * MM],
        entry: `o${i}`,
        trim: { base: 'b1', shoe: next() < 0.5 ? 's1' : null },
      },
    ]),
  );
  const builtIns = {
    b1: standing('u1', {
      side: 'right',
      width: 500 * MM,
      bottom: 0,
      top: 900 * MM,
      kind: 'cabinet',
      depth: 500 * MM,
    }),
  };
  const plain = prepared({
    ...boxPlan(),
    profiles: { b1: profile('base', 14), s1: profile('shoe', 12), c1: profile('casing', 18) },
    levels: [{ ...level(boxPlan()), nodes, walls, openings, builtIns, rooms }],
  } as unknown as Plan);
  const corners = Object.fromEntries(
    Object.entries(level(plain).corners).map(([key, record]) => {
      const coped = next() < 0.5 ? 'before' : 'after';
      const measured = next() < 0.3 ? { measured: within(80, 140) / MM } : {};
      return [key, { ...record, ...measured, lines: { base: { coped }, shoe: { coped } } }];
    }),
  );
  return { ...plain, levels: [{ ...level(plain), corners }] } as unknown as Plan;
}

test('[ED26] mirrored, a house has the same boards with left and right ends changed over; twice, it is what it was', () => {
  const runs = cases(400);
  let seen = 0;
  for (let seed = 1; seed <= runs; seed++) {
    const plan = drawn(random(seed));
    try {
      const after = checkEdit(plan, mirror(plan)).plan;
      const [was, is] = [derive(plan).report, derive(after).report];
      expect(boards(is, 'in the mirror')).toEqual(boards(was, 'as it is'));
      expect(findings(is)).toEqual(findings(was));
      expect(is.rooms.map(({ name }) => name).sort()).toEqual(was.rooms.map(({ name }) => name).sort());
      const again = checkEdit(after, mirror(after)).plan;
      expect(sameButCounter(again, plan)).toBe(true);
      seen += was.pieces.length;
    } catch (error) {
      throw new Error(`seed ${seed}`, { cause: error });
    }
  }
  console.log(`mirrors: seeds 1 to ${runs}, ${seen} boards`);
  expect(seen).toBeGreaterThan(runs * 10);
}, 300_000);

test.each(['larkspur-house', 'thimble-cottage'])('[ED26] %s mirrored twice is what it was', (house) => {
  const read = readPlan(readFileSync(demoFile(house), 'utf8'));
  if (!read.ok) throw new Error(read.error.message);
  const plan = prepared(read.plan);
  const after = checkEdit(plan, mirror(plan)).plan;
  expect(settingsOf(after)).toEqual(settingsOf(plan));
  expect(derive(after).report.casings).toHaveLength(derive(plan).report.casings.length);
  expect(sameButCounter(checkEdit(after, mirror(after)).plan, plan)).toBe(true);
});
