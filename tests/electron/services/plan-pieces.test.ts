// A plan that goes to a thread in pieces is the same plan when it comes together again.

import { describe, expect, it } from 'vitest';
import type { Plan } from '../../../core/plan/schema.ts';
import { gatherPlan, piecesOf, valuesIn } from '../../../electron/services/plan-pieces.ts';
import { preparedCottage, roomy } from './helpers.ts';

/** As over a wire between threads. */
function sent(plan: Plan): { plan: Plan; pieces: number; most: number } {
  const gatherer = gatherPlan();
  let [pieces, most] = [0, 0];
  for (const piece of piecesOf(plan)) {
    pieces += 1;
    most = Math.max(most, valuesIn(piece, Number.POSITIVE_INFINITY));
    gatherer.take(structuredClone(piece));
  }
  return { plan: gatherer.plan(), pieces, most };
}

describe('a plan in pieces', () => {
  it('a small plan is one piece', () => {
    const plan = preparedCottage();
    expect(sent(plan)).toMatchObject({ plan, pieces: 1 });
  });

  it('a large map goes in portions and comes together in its order, frozen', () => {
    const plan = roomy(12_345);
    const whole = sent(plan);
    expect(whole.plan).toEqual(plan);
    expect(JSON.stringify(whole.plan)).toBe(JSON.stringify(plan));
    expect(whole.pieces).toBeGreaterThan(4);
    expect(whole.most).toBeLessThan(11_000);
    const { rooms } = whole.plan.levels[0]!;
    expect([Object.isFrozen(whole.plan), Object.isFrozen(rooms)]).toEqual([true, true]);
    expect(Object.values(rooms).every((room) => Object.isFrozen(room) && Object.isFrozen(room.at))).toBe(
      true,
    );
  });

  it('a map of few and heavy records is divided as well', () => {
    const plan = roomy(3);
    const readings = Array.from({ length: 4_000 }, (_, i) => ({ at: i, gap: 1 }));
    const rooms = Object.fromEntries(
      Object.entries(plan.levels[0]!.rooms).map(([id, room]) => [id, { ...room, readings }]),
    );
    const [first, ...others] = plan.levels;
    const heavy = { ...plan, levels: [{ ...first!, rooms }, ...others] } as Plan;
    const whole = sent(heavy);
    expect(whole.plan).toEqual(heavy);
    expect(whole.pieces).toBeGreaterThanOrEqual(Object.keys(rooms).length);
    expect(whole.most).toBeLessThan(14_000);
  });

  it('what is counted stops where it is enough', () => {
    expect(valuesIn({ a: [1, 2], b: null }, 100)).toBe(5);
    expect(valuesIn({ a: [1, 2], b: null }, 3)).toBe(3);
  });

  it('without its frame it is no plan', () => {
    expect(() => gatherPlan().plan()).toThrow('the frame of a plan was not sent');
  });
});
