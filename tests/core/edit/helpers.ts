// Small plans from coordinates, an independent check that a level is planar, and the one checker that every edit test
// goes through. Lengths in ticks unless a name says mm.

import { expect } from 'vitest';
import { apply, type Edit, type EditDone, mend, prepare, sameButCounter } from '../../../core/edit/index.ts';
import { faceLoops } from '../../../core/graph/index.ts';
import {
  emptyPlan,
  type Level,
  type NodeId,
  type Plan,
  readPlan,
  settingsOf,
  type WallId,
  writePlan,
} from '../../../core/plan/index.ts';

export const MM = 320;

type Place = readonly [number, number];

/** A plan of one level: nodes by id, walls as `a-b` by id, thickness 100 mm unless given. */
export function planOf(
  nodes: Readonly<Record<string, Place | readonly number[]>>,
  walls: Readonly<Record<string, string | readonly [string, number]>>,
  more: Readonly<Record<string, unknown>> = {},
): Plan {
  const empty = emptyPlan('metric');
  const level = {
    ...empty.levels[0],
    nodes: Object.fromEntries(Object.entries(nodes).map(([id, [x, y]]) => [id, [x, y]])),
    walls: Object.fromEntries(
      Object.entries(walls).map(([id, text]) => {
        const [ends, thickness] = typeof text === 'string' ? [text, 100 * MM] : text;
        const [from, to] = ends.split('-');
        return [id, { from, to, thickness }];
      }),
    ),
    ...more,
  };
  return { ...empty, levels: [level as unknown as Level] };
}

/** A room of `width` by `depth` mm, walls w1 to w4 clockwise from its top left node n1. */
export function boxPlan(width = 4000, depth = 3000, more: Readonly<Record<string, unknown>> = {}): Plan {
  const [w, d] = [width * MM, depth * MM];
  return planOf(
    { n1: [0, 0], n2: [w, 0], n3: [w, d], n4: [0, d] },
    { w1: 'n1-n2', w2: 'n2-n3', w3: 'n3-n4', w4: 'n4-n1' },
    more,
  );
}

export function level(plan: Plan): Level {
  return plan.levels[0]!;
}

/** What is not planar about a level, by big whole numbers and without any index; empty when it is planar. */
export function planarFaults({ nodes, walls }: Level): string[] {
  const faults: string[] = [];
  const ids = Object.entries(nodes) as unknown as [string, Place][];
  for (const [id, at] of ids) if (!at.every(Number.isInteger)) faults.push(`${id} is not whole`);
  const big = new Map(
    ids.map(([id, [x, y]]) => [id, [BigInt(Math.round(x)), BigInt(Math.round(y))] as const]),
  );
  const list = Object.entries(walls) as unknown as [string, { from: string; to: string }][];
  const places = new Set([...big.values()].map(([x, y]) => `${x},${y}`));
  if (places.size !== big.size) faults.push('two nodes in one place');
  const turn = (a: string, b: string, c: string): bigint => {
    const [p, q, r] = [big.get(a)!, big.get(b)!, big.get(c)!];
    const det = (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
    return det > 0n ? 1n : det < 0n ? -1n : 0n;
  };
  for (const [i, [id, a]] of list.entries()) {
    if (a.from === a.to) faults.push(`${id} has no length`);
    for (const [node, at] of big) {
      if (node === a.from || node === a.to || turn(a.from, a.to, node) !== 0n) continue;
      const [p, q] = [big.get(a.from)!, big.get(a.to)!];
      const before = (at[0] - p[0]) * (q[0] - p[0]) + (at[1] - p[1]) * (q[1] - p[1]);
      const whole = (q[0] - p[0]) ** 2n + (q[1] - p[1]) ** 2n;
      if (before > 0n && before < whole) faults.push(`${node} lies in ${id}`);
    }
    for (const [other, b] of list.slice(i + 1)) {
      const pair = new Set([a.from, a.to, b.from, b.to]);
      if (pair.size === 2) faults.push(`${id} and ${other} join the same nodes`);
      if (pair.size < 4) continue;
      const apart = turn(a.from, a.to, b.from) * turn(a.from, a.to, b.to) === -1n;
      if (apart && turn(b.from, b.to, a.from) * turn(b.from, b.to, a.to) === -1n) {
        faults.push(`${id} and ${other} cross`);
      }
    }
  }
  return faults;
}

/** Openings lie inside walls that exist, and whatever else stands names a wall that exists. */
export function standingFaults(of: Level): string[] {
  const faults: string[] = [];
  for (const [id, { wall, at, width }] of Object.entries(of.openings)) {
    const on = of.walls[wall];
    if (on === undefined) faults.push(`${id} stands on no wall`);
    else {
      const [p, q] = [of.nodes[on.from]!, of.nodes[on.to]!];
      const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
      if (at < 0 || at + width > length + 1) faults.push(`${id} lies outside ${wall}`);
    }
  }
  for (const map of [of.builtIns, of.marks]) {
    for (const [id, { wall }] of Object.entries(map)) {
      if (of.walls[wall] === undefined) faults.push(`${id} stands on no wall`);
    }
  }
  return faults;
}

export function expectSound(plan: Plan): void {
  for (const of of plan.levels) {
    expect(planarFaults(of), `planar: ${JSON.stringify(of.walls)} ${JSON.stringify(of.nodes)}`).toEqual([]);
    expect(standingFaults(of)).toEqual([]);
  }
  const again = readPlan(writePlan(plan));
  expect(again.ok ? null : again.error.message).toBe(null);
  if (again.ok) expect(sameButCounter(again.plan, plan)).toBe(true);
  // What an edit gives is prepared: mending and numbering find nothing to do.
  const prepared = prepare(plan);
  expect(prepared.ok && prepared.plan === plan).toBe(true);
}

export function mended(plan: Plan) {
  const result = mend(plan);
  if (!result.ok) throw new Error(result.message);
  expectPlanar(result.plan);
  return result;
}

export function expectPlanar(plan: Plan): void {
  for (const of of plan.levels) {
    expect(planarFaults(of)).toEqual([]);
    expect(standingFaults(of)).toEqual([]);
  }
}

export function prepared(plan: Plan): Plan {
  const result = prepare(plan);
  if (!result.ok) throw new Error(result.message);
  return result.plan;
}

/**
 * Numbers by where the corner is: node place, and the directions of the walls walked in and out on. Only corners that
 * the faces have, so that a stale record is not counted, and not where two walls leave the node in nearly one direction:
 * there a place does not tell which corner is meant. Corners of walls that have a node of `without` are left out.
 */
export function numbersByPlace(
  plan: Plan,
  without: ReadonlySet<string> = new Set(),
): { numbers: Map<string, number>; unclear: Set<string> } {
  const numbers = new Map<string, number>();
  const unclear = new Set<string>();
  for (const of of plan.levels) {
    const wayOf = (wall: WallId, node: NodeId): [number, number] => {
      const { from, to } = of.walls[wall]!;
      const [near, far] = [of.nodes[from === node ? from : to]!, of.nodes[from === node ? to : from]!];
      const long = Math.hypot(far[0] - near[0], far[1] - near[1]);
      return [(far[0] - near[0]) / long, (far[1] - near[1]) / long];
    };
    const ways = new Map<NodeId, [number, number][]>();
    for (const [id, { from, to }] of Object.entries(of.walls)) {
      for (const node of [from, to]) {
        const here = ways.get(node) ?? [];
        const way = wayOf(id as WallId, node);
        const close = here.some((other) => Math.hypot(other[0] - way[0], other[1] - way[1]) < 1e-3);
        if (close) unclear.add(`${of.id} ${of.nodes[node]!.join(',')}`);
        ways.set(node, [...here, way]);
      }
    }
    for (const loop of faceLoops(of, settingsOf(plan))) {
      for (const { key, node, nodeAt, wallIn, wallOut } of loop.corners) {
        const number = of.corners[key]?.number;
        const ends = [wallIn, wallOut].flatMap((wall) => [of.walls[wall]!.from, of.walls[wall]!.to]);
        if (number === undefined || ends.some((end) => without.has(end))) continue;
        // Beside a part too short to show the wall walked out on does not start at the node.
        if (!ends.slice(2).includes(node)) continue;
        const index = key.includes('#') ? key.slice(-2) : '';
        const [into, out] = [wayOf(wallIn, node), wayOf(wallOut, node)].map((way) =>
          way.map((part) => (Math.abs(part) < 5e-4 ? 0 : part).toFixed(3)).join(','),
        );
        numbers.set(`${of.id} ${nodeAt.join(',')} ${into} ${out}${index}`, number);
      }
    }
  }
  return { numbers, unclear };
}

/** Every number in use, and that none is used twice. */
export function allNumbers(plan: Plan): number[] {
  const numbers = plan.levels.flatMap((of) =>
    Object.values(of.corners).flatMap(({ number }) => number ?? []),
  );
  expect(new Set(numbers).size).toBe(numbers.length);
  for (const number of numbers) expect(number).toBeLessThanOrEqual(plan.counters.corner);
  return numbers;
}

/** The nodes that an edit moves: where walls moved, another corner may come to stand at the same place. */
function movedBy(plan: Plan, edit: Edit, after: Plan): Set<string> {
  const moved = new Set<string>();
  if (edit.type === 'moveNode') moved.add(edit.node);
  if (edit.type === 'moveWall') {
    const wall = plan.levels.find(({ id }) => id === edit.level)?.walls[edit.wall];
    if (wall !== undefined) moved.add(wall.from).add(wall.to);
  }
  if (edit.type === 'moveNodes') for (const node of edit.nodes) moved.add(node);
  for (const of of plan.levels) {
    const now = after.levels.find(({ id }) => id === of.id);
    for (const [id, at] of Object.entries(of.nodes) as [string, Place][]) {
      const to = now?.nodes[id as NodeId];
      if (to !== undefined && (to[0] !== at[0] || to[1] !== at[1])) moved.add(id);
      // Moved onto another node: it is gone, but its walls moved.
      if (to === undefined && edit.type === 'setClearDistance') moved.add(id);
    }
  }
  return moved;
}

/** A corner that is there before and after an edit has the same number; in several as one, after each of them. [ED22] */
function expectNumbersKept(plan: Plan, edit: Edit, after: Plan): void {
  if (edit.type === 'several') {
    let at = plan;
    for (const part of edit.edits) {
      const done = apply(at, part);
      if (!done.ok) throw new Error(`${done.code}: ${done.message}`);
      expectNumbersKept(at, part, done.plan);
      at = done.plan;
    }
    expect(at, 'one after the other').toEqual(after);
    return;
  }
  const now = numbersByPlace(after);
  const then = numbersByPlace(plan, movedBy(plan, edit, after));
  for (const [place, number] of then.numbers) {
    const node = place.split(' ').slice(0, 2).join(' ');
    if (!now.numbers.has(place) || now.unclear.has(node) || then.unclear.has(node)) continue;
    expect(now.numbers.get(place), `the number of the corner at ${place}`).toBe(number);
  }
}

/** The one checker: the edit is done, sound, can be undone and done again, moves no number and uses none twice. */
export function checkEdit(
  plan: Plan,
  edit: Edit,
  expectation?: (after: Plan, done: EditDone) => void,
): EditDone {
  const before = structuredClone(plan);
  const done = apply(plan, edit);
  if (!done.ok) throw new Error(`${done.code}: ${done.message}`);
  expect(plan, 'the old plan is untouched').toEqual(before);
  expectSound(done.plan);
  allNumbers(done.plan);

  const undone = apply(done.plan, done.inverse);
  if (!undone.ok) throw new Error(`undo: ${undone.code}: ${undone.message}`);
  expect(sameButCounter(undone.plan, plan), 'undo').toBe(true);
  expect(writePlan({ ...undone.plan, counters: plan.counters })).toBe(writePlan(plan));
  expect(undone.plan.counters.corner).toBe(done.plan.counters.corner);
  const redone = apply(undone.plan, undone.inverse);
  if (!redone.ok) throw new Error(`redo: ${redone.code}: ${redone.message}`);
  expect(redone.plan).toEqual(done.plan);

  expectNumbersKept(plan, edit, done.plan);
  const old = new Set(allNumbers(plan));
  for (const number of allNumbers(done.plan)) {
    if (!old.has(number)) expect(number, 'a new number').toBeGreaterThan(plan.counters.corner);
  }
  expectation?.(done.plan, done);
  return done;
}
