// The rows of a tape walk: what is read, what is said of what cannot be, how it closes, and the room it draws.

import { describe, expect, it } from 'vitest';
import { apply } from '../../../core/edit/index.ts';
import { emptyPlan } from '../../../core/plan/index.ts';
import { derive } from '../../../core/report/index.ts';
import { figuresOf } from '../../../renderer/panels/kit/figures.ts';
import { NEW_ROW, placeFor, readRows, tapeRoom } from '../../../renderer/panels/tapewalk/tape-rows.ts';
import { MM, mm } from './program.ts';

const plan = emptyPlan('imperial');
const level = plan.levels[0]!;
const figures = figuresOf(plan);
const rows = (...lengths: readonly string[]) => lengths.map((length) => ({ ...NEW_ROW, length }));
const wish = { at: [0, 0] as const, headingDeg: 0, thickness: 114.3 * MM, name: '' };

function drawn(lengths: readonly string[], more: Partial<typeof wish> = {}) {
  const { entries } = readRows(rows(...lengths), figures, 0);
  const made = tapeRoom(plan, level, entries, { ...wish, ...more });
  if (!('edit' in made)) throw new Error(made.why);
  const done = apply(plan, made.edit);
  if (!done.ok) throw new Error(done.message);
  return { plan: done.plan, room: derive(done.plan).levels[0]!.walk.rooms[0]! };
}

describe('a tape walk', () => {
  it('that closes draws the room as typed, with the figures kept as measured', () => {
    const { room, plan: after } = drawn(["12' 4", "10' 2", "12' 4", "10' 2"], { name: 'Study' });
    expect(room.name).toBe('Study');
    expect(room.loops[0]!.segments.map((each) => mm(each.drawn)).sort()).toEqual([
      3098.8, 3098.8, 3759.2, 3759.2,
    ]);
    expect(Object.values(after.levels[0]!.faces)).toHaveLength(4);
  });

  it('that misses keeps right angles where all corners are square, and says by how much', () => {
    const reading = readRows(rows('100', '80', '101', '80'), figures, 0);
    expect(reading.rule).toBe('square');
    expect(reading.walk!.misclosure.distance).toBe(8128);
    expect(reading.walk!.misclosure.fraction).toBeCloseTo(1 / 361, 6);
    const { room } = drawn(['100', '80', '101', '80']);
    for (const { roomAngleDeg } of room.loops[0]!.corners) expect(roomAngleDeg).toBeCloseTo(90, 6);
    expect(room.loops[0]!.segments.map(({ record }) => record?.measured)).toContain(101 * 8128);
  });

  it('with a corner that is not square is spread by the compass rule', () => {
    const walk = rows('100', '80', '101', '80').map((row, i) => (i === 1 ? { ...row, angle: '91' } : row));
    expect(readRows(walk, figures, 0).rule).toBe('compass');
  });

  it('turns to the left at an outside corner', () => {
    const walk = rows('200', '100', '100', '50', '100', '150').map((row, i) =>
      i === 2 ? { ...row, corner: 'outside' as const } : row,
    );
    const { rule, walk: walked } = readRows(walk, figures, 0);
    expect([rule, walked!.angleMissDeg]).toEqual(['none', 0]);
  });

  it('says by row what cannot be read, and passes over rows without a length', () => {
    const { problems, entries } = readRows(rows('100', 'ten', '', '-5'), figures, 0);
    expect(entries).toHaveLength(1);
    expect(problems.map((problem) => problem === null)).toEqual([true, false, true, false]);
    expect(readRows([{ ...NEW_ROW, length: '100', angle: '200' }], figures, 0).problems[0]).toMatch(/180/);
  });

  it('that the plan would not take says why', () => {
    const walk = rows('100', '50', '100').map((row) => ({ ...row, angle: '179.9' }));
    const { entries } = readRows(walk, figures, 0);
    const made = tapeRoom(plan, level, entries, wish);
    expect('why' in made && made.why).toMatch(/\.$/);
  });

  it('goes beside what is drawn already', () => {
    const { plan: after } = drawn(["12' 4", "10' 2", "12' 4", "10' 2"]);
    expect(placeFor(level, null, 'imperial')).toEqual([0, 0]);
    const [x] = placeFor(after.levels[0]!, null, 'imperial');
    expect(mm(x)).toBeGreaterThan(3759 + 500);
    expect(placeFor(after.levels[0]!, [7, 8], 'imperial')).toEqual([7, 8]);
  });
});
