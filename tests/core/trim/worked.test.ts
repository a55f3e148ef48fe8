// The choice of worked boards against trying every choice. The brute force below shares nothing with the dynamic
// programme: it writes out each assignment, weighs it with plain numbers, and looks for circles by walking the graph.

import { expect, test } from 'vitest';
import {
  type Chain,
  chooseWorked,
  type EndEffect,
  type JunctionOption,
  puttingUp,
} from '../../../core/trim/worked.ts';
import { cases, random } from '../../seeds.ts';

const COPE_MIN = 48768;

/** Lexicographic: broken needs, last resorts, circle, both ends worked, seams, −through. */
function weigh(chain: Chain, pick: readonly JunctionOption[]): number[] {
  const n = chain.lengths.length;
  const leftOf = (p: number): EndEffect =>
    chain.closed ? pick[p]!.after : p === 0 ? chain.leftEnd : pick[p - 1]!.after;
  const rightOf = (p: number): EndEffect =>
    chain.closed ? pick[(p + 1) % n]!.before : p === n - 1 ? chain.rightEnd : pick[p]!.before;
  let broken = 0;
  let both = 0;
  for (let p = 0; p < n; p++) {
    const [l, r] = [leftOf(p), rightOf(p)];
    const back = chain.lengths[p]! + l.backOffset + r.backOffset;
    for (const end of [l, r]) {
      if (end.needs === 'long' && Math.round(back) < chain.copeMin) broken++;
      if (end.needs === 'short' && Math.round(back) >= chain.copeMin) broken++;
    }
    if (l.worked && r.worked) both++;
  }
  return [
    broken,
    pick.filter((option) => option.lastResort).length,
    hasCircle(chain, pick) ? 1 : 0,
    both,
    pick.reduce((sum, option) => sum + option.seam, 0),
    -pick.reduce((sum, option) => sum + Math.round(option.through), 0),
  ];
}

/** From every board, can it be reached again by going on to boards that must wait for it? */
function hasCircle(chain: Chain, pick: readonly JunctionOption[]): boolean {
  const n = chain.lengths.length;
  const waiters: number[][] = chain.lengths.map(() => []);
  pick.forEach(({ first }, j) => {
    const right = chain.closed ? j : j + 1;
    const left = (right + n - 1) % n;
    if (first === 'before') waiters[left]!.push(right);
    if (first === 'after') waiters[right]!.push(left);
  });
  return chain.lengths.some((_, start) => {
    const seen = new Set<number>();
    const stack = [...waiters[start]!];
    while (stack.length > 0) {
      const next = stack.pop()!;
      if (next === start) return true;
      if (!seen.has(next)) {
        seen.add(next);
        stack.push(...waiters[next]!);
      }
    }
    return false;
  });
}

/** −1, 0 or 1; seams within 1e-9 are alike. */
function compare(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) {
    if (Math.abs(a[i]! - b[i]!) > (i === 4 ? 1e-9 : 0)) return a[i]! < b[i]! ? -1 : 1;
  }
  return 0;
}

function bruteForce(chain: Chain): { chosen: number[]; weight: number[] } {
  let best: { chosen: number[]; weight: number[] } | null = null;
  const chosen: number[] = [];
  // Assignments come in walking order, first option first: an equal one later on is no better.
  const go = (j: number): void => {
    if (j === chain.junctions.length) {
      const weight = weigh(
        chain,
        chosen.map((o, i) => chain.junctions[i]![o]!),
      );
      if (best === null || compare(weight, best.weight) < 0) best = { chosen: [...chosen], weight };
      return;
    }
    for (let o = 0; o < chain.junctions[j]!.length; o++) {
      chosen.push(o);
      go(j + 1);
      chosen.pop();
    }
  };
  go(0);
  return best!;
}

const effect = (worked: boolean, backOffset = 0, needs: EndEffect['needs'] = null): EndEffect => ({
  worked,
  backOffset,
  needs,
});

/** A cope by rule between two boards. */
function cope(seam: number, seamOther: number, left: number, right: number, acute = 0): JunctionOption[] {
  const mitre = effect(true, 0, 'short');
  return [
    {
      choice: 'after',
      before: effect(false, -acute),
      after: effect(true, 0, 'long'),
      first: 'before',
      seam,
      through: left,
      lastResort: false,
    },
    {
      choice: 'before',
      before: effect(true, 0, 'long'),
      after: effect(false, -acute),
      first: 'after',
      seam: seamOther,
      through: right,
      lastResort: false,
    },
    { choice: 'mitre', before: mitre, after: mitre, first: null, seam: 0, through: 0, lastResort: true },
  ];
}

const fixed = (first: 'before' | 'after' | null, back = 0): JunctionOption[] => [
  {
    choice: 'mitre',
    before: effect(true, back),
    after: effect(true, -back),
    first,
    seam: 0,
    through: 0,
    lastResort: false,
  },
];

const covered = {
  rings: 0,
  mitred: 0,
  noEntry: 0,
  user: 0,
  scarfs: 0,
  butts: 0,
  shorts: 0,
  circles: 0,
  lastResorts: 0,
};

function randomChain(next: () => number): Chain {
  const closed = next() < 0.6;
  // Now and then a user who set every side the same way round.
  const stubborn = next() < 0.06 ? (next() < 0.5 ? 0 : 1) : null;
  const n = (closed ? 2 : 1) + Math.floor(next() * 8);
  const blind = next() < 0.3;
  const few = next() < 0.5; // few different lengths: many ties
  const lengths = Array.from({ length: n }, () => {
    if (next() < 0.2) return Math.floor(COPE_MIN - 400 + next() * 800);
    if (next() < 0.15) return Math.floor(5000 + next() * 40000);
    return few ? 320 * 1000 * (1 + Math.floor(next() * 3)) : Math.floor(60000 + next() * 1e6);
  });
  const seams = few ? [0, 1, Math.SQRT1_2] : [next(), next(), next(), 0, 1];
  const seam = () => (blind ? 0 : seams[Math.floor(next() * seams.length)]!);
  let mitred = false;
  let scarfs = false;
  let user = false;
  let butts = false;
  const junctions = Array.from({ length: closed ? n : n - 1 }, (_, j) => {
    const right = closed ? j : j + 1;
    const [a, b] = [lengths[(right + n - 1) % n]!, lengths[right]!];
    const kind = stubborn === null ? next() : 0.3;
    if (kind < 0.1) {
      mitred = true;
      return fixed(null);
    }
    if (kind < 0.2) {
      scarfs = true;
      return fixed(next() < 0.5 ? 'before' : 'after', 2346);
    }
    const all = cope(seam(), seam(), a, b, next() < 0.3 ? Math.floor(next() * 700) : 0);
    if (kind < 0.35) {
      user = true;
      const one = all[stubborn ?? (next() < 0.5 ? 0 : 1)]!;
      return [{ ...one, before: { ...one.before, needs: null }, after: { ...one.after, needs: null } }];
    }
    if (kind < 0.5) {
      butts = true;
      return all.slice(0, 2).map((option) => ({
        ...option,
        before: { ...option.before, needs: null, backOffset: option.before.worked ? -4064 : 0 },
        after: { ...option.after, needs: null, backOffset: option.after.worked ? -4064 : 0 },
      }));
    }
    return all;
  });
  const end = () => (next() < 0.5 ? effect(false) : effect(true, -4064));
  if (closed) covered.rings++;
  if (mitred) covered.mitred++;
  if (blind) covered.noEntry++;
  if (scarfs) covered.scarfs++;
  if (user) covered.user++;
  if (butts) covered.butts++;
  if (lengths.some((length) => length < COPE_MIN + 400)) covered.shorts++;
  return { closed, lengths, junctions, leftEnd: end(), rightEnd: end(), copeMin: COPE_MIN };
}

test('[WB1–WB6] the dynamic programme finds the same choice as trying them all', () => {
  const seed = 20_260_101;
  const next = random(seed);
  const count = cases(4000, 400);
  for (let i = 0; i < count; i++) {
    const chain = randomChain(next);
    const found = chooseWorked(chain);
    const best = bruteForce(chain);
    const pick = found.chosen.map((o, j) => chain.junctions[j]![o]!);
    const told = `seed ${seed} case ${i}: ${JSON.stringify(chain)}`;
    expect(found.chosen, told).toEqual(best.chosen);
    expect(found.circle, told).toBe(best.weight[2] === 1);
    if (found.circle) covered.circles++;
    if (best.weight[1]! > 0) covered.lastResorts++;

    // The order of putting up: every board once, and none before the one it waits for.
    const order = puttingUp(
      chain.lengths.length,
      chain.closed,
      pick.map((option) => option.first),
    );
    expect(
      [...order].sort((a, b) => a - b),
      told,
    ).toEqual(chain.lengths.map((_, p) => p + 1));
    if (!found.circle) {
      pick.forEach(({ first }, j) => {
        const right = chain.closed ? j : j + 1;
        const left = (right + chain.lengths.length - 1) % chain.lengths.length;
        if (first === 'before') expect(order[left]!, told).toBeLessThan(order[right]!);
        if (first === 'after') expect(order[right]!, told).toBeLessThan(order[left]!);
      });
    }
    // The aim named is the first in which the best other choice is worse.
    found.aims.forEach((aim, j) => {
      expect(aim === 'only', told).toBe(chain.junctions[j]!.length === 1);
    });
  }
  console.log(`worked boards: seed ${seed}, ${count} runs, ${JSON.stringify(covered)}`);
  for (const [what, times] of Object.entries(covered)) expect(times, what).toBeGreaterThan(5);
});

test('[WB1] the aim that settled a corner is the first in which forcing the other choice is worse', () => {
  const next = random(77);
  const names = ['short', 'short', 'order', 'bothEnds', 'sight', 'length'];
  for (let i = 0; i < cases(600, 60); i++) {
    const chain = randomChain(next);
    const found = chooseWorked(chain);
    const best = bruteForce(chain).weight;
    found.aims.forEach((aim, j) => {
      const others = chain.junctions[j]!.filter((_, o) => o !== found.chosen[j]);
      if (others.length === 0) return;
      const junctions = chain.junctions.map((options, k) => (k === j ? others : options));
      const rival = bruteForce({ ...chain, junctions }).weight;
      const part = best.findIndex((value, k) => Math.abs(value - rival[k]!) > (k === 4 ? 1e-9 : 0));
      expect(aim, `case ${i} junction ${j}`).toBe(part < 0 ? 'walking' : names[part]);
    });
  }
});

test('[WB1] a ring whose sides the user set all one way is a circle, and still gets an order', () => {
  const junctions = [0, 1, 2, 3].map(() => [cope(0, 0, 9e5, 9e5)[0]!]);
  const chain: Chain = {
    closed: true,
    lengths: [9e5, 9e5, 9e5, 9e5],
    junctions,
    leftEnd: effect(false),
    rightEnd: effect(false),
    copeMin: COPE_MIN,
  };
  expect(chooseWorked(chain).circle).toBe(true);
  expect(puttingUp(4, true, ['before', 'before', 'before', 'before'])).toEqual([1, 2, 3, 4]);
});

test('[WB7] of boards that may go up, the first in walking order goes', () => {
  // 0 waits for 1, 2 waits for 3: 1 is the first that is free, then 0, then 3, then 2.
  expect(puttingUp(4, false, ['after', null, 'after'])).toEqual([2, 1, 4, 3]);
  expect(puttingUp(1, false, [])).toEqual([1]);
});

test('a run of one board, and one whose junctions do not fit', () => {
  const one: Chain = {
    closed: false,
    lengths: [1000],
    junctions: [],
    leftEnd: effect(true),
    rightEnd: effect(false),
    copeMin: COPE_MIN,
  };
  expect(chooseWorked(one)).toEqual({ chosen: [], aims: [], circle: false });
  expect(() => chooseWorked({ ...one, closed: true })).toThrow('1 pieces with 0 junctions');
  expect(() => chooseWorked({ ...one, lengths: [1, 2], junctions: [[]] })).toThrow('without an option');
});

test('a ring of 5,000 boards is a matter of one pass', () => {
  const n = 5000;
  const lengths = Array.from({ length: n }, (_, i) => 320 * (1000 + ((i * 7919) % 3000)));
  const junctions = lengths.map((length, j) => cope(0, 0, lengths[(j + n - 1) % n]!, length));
  const found = chooseWorked({
    closed: true,
    lengths,
    junctions,
    leftEnd: effect(false),
    rightEnd: effect(false),
    copeMin: COPE_MIN,
  });
  expect(found.chosen).toHaveLength(n);
  expect(found.circle).toBe(false);
});
