// A room cut in two by a wall, and two rooms joined by taking the wall away: what becomes of the names and of everything
// else that is kept. The room is 4 × 3 m; the cut runs down at a place along its upper wall.

import { describe, expect, test } from 'vitest';
import type { Edit, EditDone } from '../../../core/edit/index.ts';
import type { FaceRecord, Plan } from '../../../core/plan/index.ts';
import { derive } from '../../../core/report/index.ts';
import { walkLevel } from '../../../core/walk/index.ts';
import { boxPlan, checkEdit, level, MM, prepared } from './helpers.ts';

const edit = (fields: object): Edit => ({ level: 'L1', ...fields }) as unknown as Edit;
const cutAt = (x: number): Edit =>
  edit({
    type: 'addWall',
    wall: 'w9',
    from: { id: 'n8', at: [x * MM, 0] },
    to: { id: 'n9', at: [x * MM, 3000 * MM] },
    thickness: 100 * MM,
  });

const rooms = (plan: Plan) => walkLevel(plan, level(plan)).rooms;
/** By the room's middle: left of or right of a place. */
const half = (plan: Plan, x: number, which: 'left' | 'right') =>
  rooms(plan).find(({ loops }) => {
    const [at] = loops[0]!.segments.map(({ start, end }) => (start[0] + end[0]) / 2);
    const middle =
      loops[0]!.corners.reduce((sum, corner) => sum + corner.at[0], 0) / loops[0]!.corners.length;
    return at !== undefined && (which === 'left' ? middle < x * MM : middle > x * MM);
  })!;
const faces = (plan: Plan) => level(plan).faces as unknown as Record<string, FaceRecord>;

const hall = (): Plan =>
  prepared(
    boxPlan(4000, 3000, {
      openings: {
        o1: { wall: 'w1', at: 500 * MM, width: 800 * MM, height: 2000 * MM, sill: 0, kind: 'door' },
        o2: { wall: 'w1', at: 3000 * MM, width: 800 * MM, height: 2000 * MM, sill: 0, kind: 'door' },
      },
      rooms: {
        r1: {
          name: 'Hall',
          at: [1000 * MM, 1500 * MM],
          entry: 'o1',
          old: { baseHeight: 90 * MM, floor: 10 * MM },
          floorDatum: 3 * MM,
        },
      },
      corners: {
        'n2:w1>w2': { number: 2, measured: 91 },
        'n1:w4>w1': { number: 1, lines: { base: { joint: 'mitre' } } },
      },
      faces: {
        'w1:right': {
          measured: 3890 * MM,
          stretches: { 'corner..o1': 440 * MM, 'o2..corner': 140 * MM, 'o1..o2': 1690 * MM },
          floor: [
            { at: 300 * MM, height: 1 },
            { at: 3400 * MM, height: 2 },
          ],
          studs: [400 * MM, 3200 * MM],
          trim: { base: null },
        },
      },
    }),
  );

describe('a room cut in two', () => {
  test('[ED12] the name, entry and heights stay with the half that holds the name’s place; the other has none', () => {
    for (const [x, which, other] of [
      [2000, 'left', 'right'],
      [700, 'right', 'left'],
    ] as const) {
      checkEdit(hall(), cutAt(x), (after) => {
        expect(rooms(after)).toHaveLength(2);
        expect(half(after, x, which).record).toEqual(level(hall()).rooms['r1' as never]);
        expect(half(after, x, other).record).toBeUndefined();
        expect(half(after, x, other).name).toMatch(/^Room \d$/);
      });
    }
  });

  test('[ED6][ED7] corners keep what was measured and chosen; each half of the cut wall gets its readings and studs', () => {
    checkEdit(hall(), cutAt(2000), (after, done) => {
      const corners = level(after).corners as unknown as Record<string, object>;
      expect(Object.values(corners)).toContainEqual({ number: 2, measured: 91 });
      expect(Object.values(corners)).toContainEqual({ number: 1, lines: { base: { joint: 'mitre' } } });
      const [left, right] = (['left', 'right'] as const).map((which) => {
        const segment = half(after, 2000, which).loops[0]!.segments.find(
          ({ start, end }) => start[1] === end[1] && start[1] < 100 * MM,
        )!;
        return faces(after)[segment.key]!;
      });
      expect(left).toEqual({
        stretches: { 'corner..o1': 440 * MM },
        floor: [{ at: 300 * MM, height: 1 }],
        studs: [400 * MM],
        trim: { base: null },
      });
      // The right half begins where the new wall's face ends: 2000 mm of centre line and half its thickness, less the corner's 50.
      expect(right).toEqual({
        stretches: { 'o2..corner': 140 * MM },
        floor: [{ at: 1400 * MM, height: 2 }],
        studs: [1200 * MM],
        trim: { base: null },
      });
      expect(notes(done).filter((each) => / face of wall /.test(each))).toEqual([
        expect.stringMatching(/whole length is dropped/),
        expect.stringMatching(/one measured stretch of it is no more and dropped/),
      ]);
    });
  });

  test('[WK19] an entry that is left in the other half is told, not lost', () => {
    const plan = hall();
    const moved = prepared({
      ...plan,
      levels: [
        { ...level(plan), rooms: { r1: { ...level(plan).rooms['r1' as never], entry: 'o2' } } } as never,
      ],
    });
    checkEdit(moved, cutAt(2000), (after) => {
      expect(level(after).rooms['r1' as never]).toMatchObject({ entry: 'o2' });
      const told = derive(after).report.findings.map(({ message }) => message);
      expect(told).toContain(
        'The entry of Hall does not open into that room, so its boards are reckoned without one.',
      );
    });
  });
});

describe('two rooms joined', () => {
  test('[ED6][ED7] the wall between taken away again, what was divided comes together, heights of the first room only', () => {
    const first = hall();
    const cut = checkEdit(first, cutAt(2000)).plan;
    checkEdit(cut, edit({ type: 'deleteWall', wall: 'w9' }), (after, done) => {
      const [room] = rooms(after);
      expect(rooms(after)).toHaveLength(1);
      expect(room!.record).toEqual(level(first).rooms['r1' as never]);
      const upper = room!.loops[0]!.segments.find(
        ({ start, end }) => start[1] === end[1] && start[1] < 100 * MM,
      )!;
      const { measured: _m, ...was } = faces(first)['w1:right']!;
      const { 'o1..o2': _s, ...stretches } = was.stretches!;
      // The halves were two rooms, each with a zero of its own for its heights.
      expect(faces(after)[upper.key]).toEqual({ ...was, stretches, floor: was.floor!.slice(0, 1) });
      expect(notes(done).join(' ')).toMatch(/whose own record comes first: the rest is dropped/);
      const numbered = (plan: Plan) => rooms(plan)[0]!.loops[0]!.corners.map(({ number }) => number);
      expect(numbered(after)).toEqual(numbered(first));
    });
  });

  test('[WK16][FD19] of two names the first is used, the other is kept and told', () => {
    const cut = checkEdit(hall(), cutAt(2000)).plan;
    const named = checkEdit(
      cut,
      edit({ type: 'addRoom', room: 'r2', record: { name: 'Closet', at: [3000 * MM, 1500 * MM] } }),
    ).plan;
    checkEdit(named, edit({ type: 'deleteWall', wall: 'w9' }), (after) => {
      expect(rooms(after).map(({ name }) => name)).toEqual(['Hall']);
      expect(level(after).rooms['r2' as never]).toMatchObject({ name: 'Closet' });
      const told = derive(after).report.findings.filter(({ code }) => code === 'room-twice');
      expect(told.map(({ about }) => about)).toEqual([['r1', 'r2']]);
    });
  });
});

const notes = ({ notes: all }: EditDone): readonly string[] => all.map(({ message }) => message);
