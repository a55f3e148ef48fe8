// The work of edit.ts: edits of one room each, seeded, on a demo house many times over. Each is applied to the plan the
// last one left and derived from what was derived before it. Times in ms.

import { readFileSync } from 'node:fs';
import { apply, type Edit, prepare } from '../../core/edit/index.ts';
import type { Level, Plan } from '../../core/plan/schema.ts';
import { type Derived, derive } from '../../core/report/index.ts';
import { random } from '../seeds.ts';
import { manyHouses } from './houses.ts';

const SAMPLES = 60;
const WARM_UP = 20;

type Maker = (plan: Plan, derived: Derived, next: () => number, step: number) => Edit;

const pick = <T>(list: readonly T[], next: () => number): T => list[Math.floor(next() * list.length)]!;
const keysOf = <K extends string>(map: Readonly<Record<K, unknown>>): K[] => Object.keys(map) as K[];

function someRoom(derived: Derived, next: () => number) {
  const level = pick(derived.levels, next);
  return { level: level.walk.level, room: pick(level.walk.rooms, next) };
}

function someCorner(derived: Derived, next: () => number) {
  const { level, room } = someRoom(derived, next);
  return { level: level.id, corner: pick(room.loops[0]!.corners, next).key };
}

function someWall(level: Level, next: () => number) {
  const wall = pick(keysOf(level.walls), next);
  const { from, to } = level.walls[wall]!;
  const [a, b] = [level.nodes[from]!, level.nodes[to]!];
  return { wall, length: Math.hypot(b[0] - a[0], b[1] - a[1]) };
}

const MAKERS: Readonly<Record<string, Maker>> = {
  'move a node': (plan, _derived, next) => {
    const level = pick(plan.levels, next);
    const node = pick(keysOf(level.nodes), next);
    const [x, y] = level.nodes[node]!;
    const by = () => Math.round((next() - 0.5) * 320 * 60);
    return { type: 'moveNode', level: level.id, node, to: [x + by(), y + by()] };
  },
  'move a wall': (plan, _derived, next) => {
    const level = pick(plan.levels, next);
    const by = () => Math.round((next() - 0.5) * 320 * 40);
    return { type: 'moveWall', level: level.id, wall: pick(keysOf(level.walls), next), by: [by(), by()] };
  },
  "set a corner's joint": (_plan, derived, next) => {
    const joint = pick(['cope', 'mitre', 'block'] as const, next);
    return { type: 'setCorner', ...someCorner(derived, next), set: { lines: { base: { joint } } } };
  },
  'type a measured angle': (_plan, derived, next) => ({
    type: 'setCorner',
    ...someCorner(derived, next),
    set: { measured: Math.round(880 + next() * 40) / 10 },
  }),
  'type a measured length': (_plan, derived, next) => {
    const { level, room } = someRoom(derived, next);
    const { key, drawn } = pick(room.loops[0]!.segments, next);
    return { type: 'setFace', level: level.id, face: key, set: { measured: Math.round(drawn) + 320 } };
  },
  'add an opening': (plan, _derived, next, step) => {
    const level = pick(plan.levels, next);
    const { wall, length } = someWall(level, next);
    const width = Math.min(256_000, Math.floor(length / 2));
    const at = Math.floor(next() * (length - width));
    return {
      type: 'addOpening',
      level: level.id,
      opening: `new${step}` as never,
      record: {
        wall,
        at,
        width,
        height: 640_000,
        sill: 0,
        kind: 'door',
        casing: { left: null, right: null },
      },
    };
  },
  'change the trim of a room': (plan, _derived, next) => {
    const level = pick(plan.levels, next);
    const bases = keysOf(plan.profiles).filter((id) => plan.profiles[id]!.kind === 'base');
    const base = { profile: pick([...bases, null], next) };
    return {
      type: 'setTrim',
      level: level.id,
      of: { room: pick(keysOf(level.rooms), next) },
      lines: { base },
    };
  },
  'draw a wall': (_plan, derived, next, step) => {
    const { level, room } = someRoom(derived, next);
    const corners = room.loops[0]!.corners;
    const at = pick(corners, next);
    const [x, y] = at.nodeAt;
    const end = `end${step}` as never;
    const to = { id: end, at: [x + 3200 * 5, y + 3200 * 3] as const };
    return {
      type: 'addWall',
      level: level.id,
      wall: `new${step}` as never,
      from: at.node,
      to,
      thickness: 32_000,
    };
  },
};

/** Always the same sums, to hold times against: how fast this machine is just now. */
function reckoning(): number {
  const start = performance.now();
  const map = new Map<string, number>();
  for (let i = 0; i < 20_000; i += 1) map.set(`key${i % 5000}`, (map.get(`key${(i * 7) % 5000}`) ?? 0) + i);
  const sorted = [...map].sort(([a], [b]) => (a < b ? -1 : 1));
  if (sorted.length !== 5000) throw new Error('the reckoning is not what it was');
  return performance.now() - start;
}

/** The value below which a share of the times lies. */
function share(times: readonly number[], of: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * of))]!;
}

function timed<T>(work: () => T): [T, number] {
  const start = performance.now();
  const value = work();
  return [value, performance.now() - start];
}

/** Prints the figures of the demo house at `demo`, that many times over, one size after the other. */
export function run(demo: URL, sizes: readonly number[]): void {
  const text = readFileSync(demo, 'utf8');
  for (let i = 0; i < 20; i += 1) reckoning();
  for (const copies of sizes) oneSize(text, copies);
}

function oneSize(text: string, copies: number): void {
  const prepared = prepare(manyHouses(text, copies));
  if (!prepared.ok) throw new Error(prepared.message);
  let { plan } = prepared;
  const whole: number[] = [];
  let derived = derive(plan);
  for (let i = 0; i < 3; i += 1) whole.push(timed(() => derive(structuredClone(plan)))[1]);
  const walls = plan.levels.reduce((sum, level) => sum + keysOf(level.walls).length, 0);
  const unit = share(Array.from({ length: 15 }, reckoning), 0.5);
  const wholeMs = Math.min(...whole);
  console.log(
    `\n${walls} walls, ${derived.report.rooms.length} rooms; the reckoning takes ${unit.toFixed(2)} ms`,
  );
  console.log(`whole derivation: ${wholeMs.toFixed(0)} ms, ${(wholeMs / unit).toFixed(0)} reckonings`);
  console.log(`${''.padEnd(28)}apply p50    p95   derive p50    p95   p95 in reckonings`);
  const next = random(5);
  let step = 0;
  const all = { apply: [] as number[], derive: [] as number[] };
  const figures = (name: string, applied: readonly number[], derivedIn: readonly number[]): void => {
    const columns = [
      share(applied, 0.5),
      share(applied, 0.95),
      share(derivedIn, 0.5),
      share(derivedIn, 0.95),
    ];
    const [a, b, c, d] = columns.map((ms) => ms.toFixed(1).padStart(6));
    const [applyUnits, deriveUnits] = [columns[1]! / unit, columns[3]! / unit].map((n) => n.toFixed(1));
    console.log(`${name.padEnd(28)}   ${a} ${b}       ${c} ${d}   ${applyUnits} and ${deriveUnits}`);
  };
  const undo: Edit[] = [];
  const one = (edit: Edit): readonly [applied: number, derived: number] | null => {
    const [result, applied] = timed(() => apply(plan, edit));
    if (!result.ok) return null;
    const [now, again] = timed(() => derive(result.plan, derived));
    undo.push(result.inverse);
    [plan, derived] = [result.plan, now];
    return [applied, again];
  };
  const series = (name: string, make: Maker): void => {
    const applied: number[] = [];
    const derivedIn: number[] = [];
    for (let i = 0; applied.length < SAMPLES + WARM_UP && i < 4 * SAMPLES; i += 1) {
      const times = one(make(plan, derived, next, step++));
      if (times === null) continue;
      applied.push(times[0]);
      derivedIn.push(times[1]);
    }
    const [a, d] = [applied.slice(WARM_UP), derivedIn.slice(WARM_UP)];
    all.apply.push(...a);
    all.derive.push(...d);
    figures(name, a, d);
  };
  for (const [name, make] of Object.entries(MAKERS)) series(name, make);
  const back = undo.splice(0).reverse();
  series('undo', () => back.shift()!);
  figures('all', all.apply, all.derive);
}
