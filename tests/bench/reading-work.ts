// The measured part of reading.ts. CPU time of this process, so that other work on the machine counts little.

import { prepare } from '../../core/edit/index.ts';
import { readPlanBytes } from '../../core/plan/index.ts';
import { crossing, levelOf, overlapping, planOf } from '../fixtures/tangles.ts';

/** A square grid of walls, `across` rooms by `across`: 2 * across * (across + 1) walls. */
function grid(across: number): string {
  const nodes: Record<string, [number, number]> = {};
  const walls: Record<string, object> = {};
  for (let i = 0; i <= across; i += 1)
    for (let j = 0; j <= across; j += 1) {
      nodes[`n${i}x${j}`] = [i * 3000, j * 3000];
      if (i > 0) walls[`h${i}x${j}`] = { from: `n${i - 1}x${j}`, to: `n${i}x${j}`, thickness: 100 };
      if (j > 0) walls[`v${i}x${j}`] = { from: `n${i}x${j - 1}`, to: `n${i}x${j}`, thickness: 100 };
    }
  return planOf(levelOf(nodes, walls));
}

/** Many bytes and few values: rooms with the longest names there may be. */
function longNames(megabytes: number): string {
  const name = '木'.repeat(200);
  const count = Math.round((megabytes * 1e6) / 640);
  const rooms = Object.fromEntries(Array.from({ length: count }, (_, i) => [`r${i}`, { name, at: [i, 0] }]));
  const level = { id: 'L1', name: 'x', ceilingHeight: 2400, rooms };
  return JSON.stringify({
    format: 'copewright-plan',
    version: 1,
    title: 'x',
    units: 'metric',
    levels: [level],
  });
}

const FILES: readonly (readonly [what: string, text: () => string])[] = [
  ['grid of 1,300 walls', () => grid(25)],
  ['grid of 5,100 walls', () => grid(50)],
  ['grid of 20,200 walls', () => grid(100)],
  ['grid of 80,400 walls', () => grid(200)],
  ['long names, 13 MB', () => longNames(13)],
  ['long names, 26 MB', () => longNames(26)],
  ['long names, 51 MB', () => longNames(51)],
  ['100 walls that all cross', () => planOf(crossing(100))],
  ['400 walls that all cross', () => planOf(crossing(400))],
  ['4,000 walls that all cross', () => planOf(crossing(4_000))],
  ['4,000 walls over each other', () => planOf(overlapping(4_000))],
  ['40,000 walls over each other', () => planOf(overlapping(40_000))],
  ['200,000 nested lists', () => '['.repeat(200_000) + ']'.repeat(200_000)],
  ['3,000,000 nulls', () => `[${'null,'.repeat(3_000_000)}null]`],
  ['text of 40 MB', () => JSON.stringify({ format: 'copewright-plan', version: 1, title: 'a'.repeat(40e6) })],
  ['number of a million digits', () => `[${'9'.repeat(1_000_000)}]`],
  ['a million spaces', () => ' '.repeat(1_000_000)],
];

/** CPU milliseconds of the quickest of some runs. */
function cpu(action: () => unknown, runs: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < runs; i += 1) {
    const start = process.cpuUsage();
    action();
    const { user, system } = process.cpuUsage(start);
    least = Math.min(least, (user + system) / 1000);
  }
  return least;
}

function parsed(bytes: Uint8Array): void {
  try {
    JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    // A parser that refuses has done its work as well.
  }
}

export function run(): void {
  readAndPrepare(new TextEncoder().encode(grid(25)));
  console.log(
    'file'.padEnd(30),
    'MB'.padStart(7),
    'parser ms',
    'reader ms'.padStart(10),
    'ratio'.padStart(7),
  );
  for (const [what, make] of FILES) {
    const bytes = new TextEncoder().encode(make());
    const runs = bytes.length > 5e6 ? 2 : 5;
    const base = cpu(() => parsed(bytes), runs);
    let answer = '';
    const own = cpu(() => {
      answer = readAndPrepare(bytes);
    }, runs);
    const ratio = base < 1 ? '' : (own / base).toFixed(1);
    const figures = [(bytes.length / 1e6).toFixed(2).padStart(7), base.toFixed(1).padStart(9)];
    console.log(what.padEnd(30), ...figures, own.toFixed(0).padStart(10), ratio.padStart(7), ` ${answer}`);
  }
}

/** All that opening does but the disk: what came of it. */
function readAndPrepare(bytes: Uint8Array): string {
  const read = readPlanBytes(bytes);
  if (!read.ok) return read.error.message.slice(0, 60);
  const prepared = prepare(read.plan);
  return prepared.ok ? 'a plan' : prepared.message.slice(0, 60);
}
