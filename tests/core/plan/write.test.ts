import { describe, expect, it } from 'vitest';
import {
  emptyPlan,
  type Level,
  type Plan,
  PlanSchema,
  readPlan,
  sortedEntries,
  writePlan,
} from '../../../core/plan/index.ts';
import { mmFromTicks, ticksFromMm } from '../../../core/units/index.ts';
import { cases, random } from '../../seeds.ts';
import { exampleText } from './example.ts';

function read(text: string): Plan {
  const answer = readPlan(text);
  if (!answer.ok) throw new Error(answer.error.message);
  return answer.plan;
}

/** A plan of whole ticks with a little of everything, seeded; ids in no order. */
function randomPlan(next: () => number): Plan {
  const whole = (from: number, to: number) => from + Math.floor(next() * (to - from));
  const maybe = <T>(value: T) => (next() < 0.5 ? value : undefined);
  const drop = (record: object) =>
    Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined));
  const names = ['b', 'a', 'B', 'n10', 'n9', 'constructor', 'toString', 'a-b', 'a_b', 'z'].sort(
    () => next() - 0.5,
  );
  const nodes = Object.fromEntries(names.map((name) => [name, [whole(-3e8, 3e8), whole(-3e8, 3e8)]]));
  const walls = Object.fromEntries(
    names.slice(1).map((name, k) => [
      name,
      drop({
        from: names[k],
        to: name,
        thickness: 2 * whole(1, 100_000),
        height: maybe(whole(1, 900_000)),
        faces: maybe(drop({ left: maybe('plaster'), right: maybe('wood') })),
      }),
    ]),
  );
  const base = drop({
    kind: 'base',
    name: 'ä ½ "q" \\',
    height: whole(1, 100_000),
    thickness: whole(1, 9_000),
    form: next() < 0.5 ? 'flat' : 'shaped',
    material: '',
    stock: Array.from({ length: whole(0, 4) }, () =>
      drop({ length: whole(1, 3e6), price: maybe(next() * 100), onHand: maybe(whole(0, 9)) }),
    ),
    scarf: maybe(false),
  });
  const faces = Object.fromEntries(
    names.slice(1, 1 + whole(0, 4)).map((name) => [
      `${name}:left`,
      drop({
        measured: maybe(whole(1, 1e6)),
        stretches: maybe({ 'o2..corner': whole(1, 1e6), 'corner..o10': whole(1, 1e6) }),
        floor: maybe(
          Array.from({ length: whole(0, 20) }, () => ({ at: whole(-9, 1e6), height: whole(-3000, 3000) })),
        ),
        studs: maybe([whole(0, 100_000), whole(0, 100_000)]),
        trim: maybe(drop({ base: next() < 0.5 ? null : 'p', crown: maybe(null) })),
      }),
    ]),
  );
  const corners = Object.fromEntries(
    names
      .slice(1)
      .map((name, k) => [
        `${name}:${name}>${name}#${k % 2}`,
        drop({ number: k + 1, measured: maybe(next() * 179 + 1) }),
      ]),
  );
  const heldBoard = (piece: string) =>
    drop({
      length: whole(1, 3e6),
      onHand: next() < 0.5,
      pieces: [piece, `shoe-${whole(1, 90)}Br-left`],
      was: maybe([
        drop({
          piece,
          length: whole(1, 3e6),
          of: maybe({
            corner: whole(0, 90),
            line: 'shoe',
            stretch: 'o1..corner',
            part: 1,
            parts: whole(1, 4),
          }),
        }),
      ]),
      joints: maybe([
        { corner: whole(0, 90), line: 'base', stretch: 'corner..o1', from: 'right', at: [whole(1, 3e6)] },
      ]),
    });
  return drop({
    ...emptyPlan(next() < 0.5 ? 'imperial' : 'metric'),
    builtYear: maybe(whole(1850, 2026)),
    settings: drop({
      roundMm: maybe(0.1),
      kerf: maybe(whole(0, 2000)),
      buildUpDeg: maybe(next() * 3),
      labelRows: maybe(4),
    }),
    profiles: { z: base, p: base, B: base },
    levels: [{ ...emptyPlan('metric').levels[0], nodes, walls, faces, corners }],
    heldBoards: next() < 0.5 ? {} : { z: [heldBoard('7A')], B: [heldBoard('L1:o1.left.head')] },
    studs: maybe({ spacing: whole(1, 200_000) }),
    counters: { corner: 20 },
  }) as unknown as Plan;
}

/** The same plan with the keys of every record in another order. */
function shuffled(value: unknown, next: () => number): unknown {
  if (Array.isArray(value)) return value.map((inner) => shuffled(inner, next));
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([key, inner]) => ({
    key,
    inner: shuffled(inner, next),
    place: next(),
  }));
  return Object.fromEntries(entries.sort((a, b) => a.place - b.place).map(({ key, inner }) => [key, inner]));
}

describe('writing a plan', () => {
  it('[PL7] the example comes back the same, and its text has the order of the plan file', () => {
    const plan = read(exampleText());
    const text = writePlan(plan);
    expect(read(text)).toEqual(plan);
    expect(text.endsWith('}\n')).toBe(true);
    const order = [
      'format',
      'version',
      'title',
      'units',
      'builtYear',
      'settings',
      'profiles',
      'levels',
      'stockOnHand',
      'studs',
      'counters',
    ];
    expect(Object.keys(JSON.parse(text))).toEqual(order);
    const inLevel = [
      'id',
      'name',
      'ceilingHeight',
      'nodes',
      'walls',
      'openings',
      'builtIns',
      'marks',
      'rooms',
      'corners',
      'faces',
    ];
    expect(Object.keys(JSON.parse(text).levels[0])).toEqual(inLevel);
    expect(text).toContain('\n        "n2": [4267.2, 0]\n');
    expect(text).toContain('\n        "w1": { "from": "n1", "to": "n2", "thickness": 114.3, ');
    expect(text).not.toContain('null,\n          "casing"');
  });

  it('[PL7] one changed wall changes one line', () => {
    const plan = read(exampleText());
    const before = writePlan(plan).split('\n');
    const level = structuredClone(plan.levels[0]!);
    for (const [, wall] of sortedEntries(level.walls)) wall.thickness += 2;
    const after = writePlan({ ...plan, levels: [level] }).split('\n');
    expect(after.filter((line, k) => line !== before[k])).toHaveLength(1);
  });

  it('[PL7] seeded: what is written reads back equal, in canonical order whatever order it had in memory', () => {
    const seed = 606;
    const next = random(seed);
    const total = cases(500);
    let bytes = 0;
    for (let k = 0; k < total; k++) {
      const plan = randomPlan(next);
      const text = writePlan(plan);
      bytes += text.length;
      const back = read(text);
      expect(back).toEqual(plan);
      expect(writePlan(back)).toBe(text);
      expect(writePlan(shuffled(plan, next) as Plan)).toBe(text);
      const walls = Object.keys(JSON.parse(text).levels[0].walls);
      expect(walls).toEqual([...walls].sort());
      expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThan(140);
    }
    console.log(`plans written and read: seed ${seed}, ${total} plans, ${bytes} characters`);
  });

  it('[UN1, PL7] seeded: millimetres have at most six decimals, are exact, and give the same ticks', () => {
    const seed = 320;
    const next = random(seed);
    const total = cases(200_000);
    for (let k = 0; k < total; k++) {
      const ticks = Math.round((next() * 2 - 1) * 10 ** (next() * 8.5)) || 1;
      const text = JSON.stringify(mmFromTicks(ticks));
      const [, sign, whole, decimals = ''] = /^(-?)(\d+)(?:\.(\d{1,6}))?$/.exec(text)!;
      // The decimals as a whole number of millionths, times 320, are the ticks exactly.
      const millionths = BigInt(`${sign}${whole}${decimals.padEnd(6, '0')}`);
      expect(millionths * 320n === BigInt(ticks) * 1_000_000n, text).toBe(true);
      expect(ticksFromMm(Number(text))).toBe(ticks);
    }
    console.log(`millimetres: seed ${seed}, ${total} lengths up to 1 km`);
  });

  it('[UN2] seeded: a decimal that is a tie between two ticks goes away from zero', () => {
    const next = random(640);
    for (let k = 0; k < cases(100_000); k++) {
      const lower = Math.floor(next() * 320_000_000);
      const tenMillionths = (2n * BigInt(lower) + 1n) * 15_625n; // (2·lower + 1) / 640 mm
      const digits = tenMillionths.toString().padStart(8, '0');
      const text = `${digits.slice(0, -7)}.${digits.slice(-7)}`;
      expect(ticksFromMm(Number(text)), text).toBe(lower + 1);
      expect(ticksFromMm(-Number(text)), text).toBe(-lower - 1);
    }
  });

  it.each<[string, (level: Level, plan: Plan) => void]>([
    ['a length that is not a number', (level) => Object.assign(level, { ceilingHeight: Number.NaN })],
    ['an infinite length', (level) => Object.assign(level.nodes, { n1: [Number.POSITIVE_INFINITY, 0] })],
    ['half a tick', (level) => Object.assign(level.nodes, { n1: [0.5, 0] })],
    ['an odd thickness', (level) => Object.assign(Object.values(level.walls)[0]!, { thickness: 3 })],
    [
      'an angle that is not a number',
      (level) => Object.assign(Object.values(level.corners)[0]!, { measured: Number.NaN }),
    ],
    [
      'an optional length that is infinite',
      (level) => Object.assign(Object.values(level.walls)[0]!, { height: Number.POSITIVE_INFINITY }),
    ],
    ['a setting that is not a number', (_, plan) => Object.assign(plan.settings, { buildUpDeg: Number.NaN })],
    ['a length beyond 1 km', (level) => Object.assign(level.nodes, { n1: [0, 320_000_001] })],
    ['a key that no file may hold', (level) => Object.assign(level, { colour: 1 })],
    ['an id that no file may hold', (level) => Object.assign(level.nodes, { '1 n': [0, 0] })],
  ])('[PL7] %s is never written', (_name, change) => {
    const plan = structuredClone(read(exampleText()));
    change(plan.levels[0]!, plan);
    expect(() => writePlan(plan)).toThrow(/^(levels\[0\]|settings)/);
  });

  it('[PL7] writing does not touch the plan', () => {
    const plan = read(exampleText());
    const before = structuredClone(plan);
    writePlan(plan);
    expect(plan).toEqual(before);
    expect(PlanSchema.safeParse(JSON.parse(writePlan(plan))).success).toBe(true);
  });
});
