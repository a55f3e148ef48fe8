// Random chains of edits on small houses: after each edit exactly planar, readable, numbers where they were; undone to
// the start the first plan, done again the last.

import { expect, test } from 'vitest';
import { apply, type Edit, sameButCounter } from '../../../core/edit/index.ts';
import { writePlan } from '../../../core/plan/index.ts';
import { cases, random } from '../../seeds.ts';
import { house, randomEdit } from './chains.ts';
import { allNumbers, checkEdit } from './helpers.ts';

/**
 * Seeds that failed once. 13: a free end's second corner took the first one's number. 14, 83: a wall of a tick hid the
 * corner's node. 163: a sliver between two walls has its corner kilometres away. 69, 194: the test took one corner for
 * another.
 */
const FAILED_ONCE = [13, 14, 69, 83, 163, 194];

test('[ED1][ED6][ED10][ED11] random chains of edits stay planar and readable, move no number and can be undone', () => {
  const runs = cases(500);
  const counts: Record<string, number> = {};
  const count = (what: string) => {
    counts[what] = (counts[what] ?? 0) + 1;
  };
  const seeds = [...new Set([...Array.from({ length: runs }, (_, i) => i + 1), ...FAILED_ONCE])];
  for (const seed of seeds) {
    const next = random(seed);
    const first = house(next);
    const given = new Set(allNumbers(first));
    let plan = first;
    const undo: Edit[] = [];
    const tries: Edit[] = [];
    try {
      for (let step = 0; step < 8; step++) {
        const edit = randomEdit(plan, next, step);
        tries.push(edit);
        const tried = apply(plan, edit);
        if (!tried.ok) {
          expect(['bad-plan', 'bad-patch', 'not-planar'], tried.message).not.toContain(tried.code);
          count(`refused ${tried.code}`);
          continue;
        }
        const before = new Set(allNumbers(plan));
        const done = checkEdit(plan, edit);
        // A number that went with its corner never comes back.
        for (const number of allNumbers(done.plan)) {
          if (!before.has(number)) expect(given.has(number), `number ${number} given again`).toBe(false);
          given.add(number);
        }
        undo.push(done.inverse);
        plan = done.plan;
        count(edit.type);
        for (const { message } of done.notes)
          count(`note: ${message.replace(/\b[a-z]+\d+\w*\b|\(.*\)|\b\S+:\S+\b|\d+ /g, '…')}`);
      }
      const last = plan;
      const redo: Edit[] = [];
      for (const edit of undo.reverse()) {
        const done = apply(plan, edit);
        if (!done.ok) throw new Error(done.message);
        redo.push(done.inverse);
        plan = done.plan;
      }
      expect(sameButCounter(plan, first)).toBe(true);
      for (const edit of redo.reverse()) {
        const done = apply(plan, edit);
        if (!done.ok) throw new Error(done.message);
        plan = done.plan;
      }
      expect(writePlan(plan)).toBe(writePlan(last));
    } catch (error) {
      throw new Error(`seed ${seed}: ${JSON.stringify(tries)}`, { cause: error });
    }
  }
  console.log(`edits: seeds 1 to ${runs} and ${FAILED_ONCE}`, counts);
  for (const type of ['joinWalls', 'addWall', 'moveNode', 'moveWall', 'splitWall', 'deleteWall', 'patch']) {
    expect(counts[type], type).toBeGreaterThan(0);
  }
});
