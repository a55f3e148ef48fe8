// Boards held as they are: held, held otherwise, let go, and what becomes of them when profiles and levels change. Every edit
// goes through the one checker.

import { expect, test } from 'vitest';
import type { Edit } from '../../../core/edit/index.ts';
import { apply, describe as wordsOf } from '../../../core/edit/index.ts';
import type { HeldBoard, Plan } from '../../../core/plan/index.ts';
import { boxPlan, checkEdit, MM, prepared } from './helpers.ts';

const edit = (of: object): Edit => of as Edit;

function house(): Plan {
  const profile = (kind: string) => ({
    kind,
    name: `A ${kind}`,
    height: 100 * MM,
    width: 70 * MM,
    thickness: 12 * MM,
    form: 'flat',
    material: 'pine',
    stock: [],
  });
  return prepared({
    ...boxPlan(4000, 3000),
    profiles: { b1: profile('base'), b2: profile('base'), c1: profile('casing') },
  } as unknown as Plan);
}

const board = (pieces: readonly string[], more: Partial<HeldBoard> = {}): HeldBoard => ({
  length: 3600 * MM,
  onHand: false,
  pieces: [...pieces],
  ...more,
});

const hold = (profile: string, of: HeldBoard): Edit => edit({ type: 'holdBoard', profile, board: of });

test('[ED28] a board is held with its joints, in whole ticks; held again nothing changes', () => {
  const joints = [
    { corner: 7, line: 'base' as const, stretch: 'corner..corner', from: 'left' as const, at: [1000.4] },
  ];
  const held = checkEdit(house(), hold('b1', board(['1A', '7B'], { length: 100.6, joints }))).plan;
  expect(held.heldBoards).toEqual({
    b1: [board(['1A', '7B'], { length: 101, joints: [{ ...joints[0]!, at: [1000] }] })],
  });
  const same = apply(held, hold('b1', Object.values(held.heldBoards)[0]![0]!));
  expect(same.ok && same.plan).toBe(held);
});

test('[ED28] a piece is cut from one board: what held it before is held no more, and undo brings it back', () => {
  const one = checkEdit(house(), hold('b1', board(['1A', '2A']))).plan;
  const two = checkEdit(one, hold('b1', board(['3A']))).plan;
  const done = checkEdit(two, hold('b1', board(['2A', '4A'])));
  expect(done.plan.heldBoards).toEqual({ b1: [board(['3A']), board(['2A', '4A'])] });
  const back = apply(done.plan, done.inverse);
  expect(back.ok && back.plan.heldBoards).toEqual({ b1: [board(['1A', '2A']), board(['3A'])] });
});

test('[ED28] one board is let go of, or all of a profile; the last one leaves nothing behind', () => {
  let plan = checkEdit(house(), hold('b1', board(['1A', '2A']))).plan;
  plan = checkEdit(plan, hold('b1', board(['3A']))).plan;
  plan = checkEdit(plan, hold('c1', board(['o1.left.head']))).plan;
  const first = checkEdit(plan, edit({ type: 'letGoBoard', profile: 'b1', piece: '2A' })).plan;
  expect(first.heldBoards).toEqual({ b1: [board(['3A'])], c1: [board(['o1.left.head'])] });
  const last = checkEdit(first, edit({ type: 'letGoBoard', profile: 'b1', piece: '3A' })).plan;
  expect(last.heldBoards).toEqual({ c1: [board(['o1.left.head'])] });
  const all = checkEdit(plan, edit({ type: 'letGoBoards', profile: 'b1' })).plan;
  expect(all.heldBoards).toEqual({ c1: [board(['o1.left.head'])] });
  const none = apply(all, edit({ type: 'letGoBoards', profile: 'b1' }));
  expect(none.ok && none.plan).toBe(all);
});

test('[ED28] what cannot be done is refused with a reason', () => {
  const plan = house();
  const refusal = (of: Edit): string => {
    const done = apply(plan, of);
    return done.ok ? 'done' : done.code;
  };
  expect(refusal(hold('p9', board(['1A'])))).toBe('no-profile');
  expect(refusal(hold('b1', board([])))).toBe('bad-plan');
  expect(refusal(hold('b1', board(['1A', '1A'])))).toBe('bad-plan');
  expect(refusal(hold('b1', board(['1A'], { length: 0 })))).toBe('bad-plan');
  expect(refusal(edit({ type: 'letGoBoard', profile: 'b1', piece: '1A' }))).toBe('not-held');
  expect(refusal(edit({ type: 'letGoBoard', profile: 'p9', piece: '1A' }))).toBe('no-profile');
});

test('[ED16][ED28] held boards go with their profile: renamed with it, gone with it', () => {
  const plan = checkEdit(house(), hold('b1', board(['1A']))).plan;
  checkEdit(plan, edit({ type: 'renameProfile', profile: 'b1', to: 'b9' }), (after) =>
    expect(after.heldBoards).toEqual({ b9: [board(['1A'])] }),
  );
  checkEdit(plan, edit({ type: 'deleteProfile', profile: 'b1', instead: 'b2' }), (after) =>
    expect(after.heldBoards).toEqual({}),
  );
});

test('[ED28] parts of casings are named with their level while there are several: held ones follow', () => {
  const pieces = ['o1.left.head', 'o1.left.legLeft'];
  const board = (names: readonly string[]): HeldBoard => ({
    length: 3600 * MM,
    onHand: false,
    pieces: [...names],
    was: names.map((piece, at) => ({ piece, length: (900 + at) * MM })),
  });
  const plan = checkEdit(house(), hold('c1', board(pieces))).plan;
  const add = edit({ type: 'addLevel', level: 'L2', record: { name: 'Up', ceilingHeight: 2400 * MM } });
  const two = checkEdit(plan, add).plan;
  expect(two.heldBoards).toEqual({ c1: [board(pieces.map((piece) => `L1:${piece}`))] });
  checkEdit(two, edit({ type: 'deleteLevel', level: 'L2' }), (after) =>
    expect(after.heldBoards).toEqual({ c1: [board(pieces)] }),
  );
  // Those of a level that is gone are gone too: their record stays to be told of.
  checkEdit(two, edit({ type: 'deleteLevel', level: 'L1' }), (after) =>
    expect(after.heldBoards).toEqual(two.heldBoards),
  );
});

test('[ED23] holding and letting go have names in plain words', () => {
  const plan = house();
  expect(wordsOf(hold('b1', board(['1A', '2B'])), plan)).toBe('hold board of 1A, 2B');
  expect(wordsOf(edit({ type: 'letGoBoard', profile: 'b1', piece: '1A' }), plan)).toBe(
    'let go of board of 1A',
  );
  expect(wordsOf(edit({ type: 'letGoBoards', profile: 'b1' }), plan)).toBe('let go of all boards of A base');
});
