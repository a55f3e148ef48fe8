// A wall between two measured rooms is moved by a typed clear distance: what the tape said of the neighbour stays, the user
// is told, and each such length is forgotten, or drawn as measured, with one click.

import { describe, expect, it } from 'vitest';
import { remediesOf } from '../../../renderer/panels/pencil/remedies.ts';
import { leftOddWords } from '../../../renderer/state/left-odd.ts';
import { shownOf } from '../../../renderer/state/selectors.ts';
import { mm, type Program, program } from './program.ts';

const derived = (own: Program) => shownOf(own.app.store.get())!;
const odd = (own: Program) => derived(own).findings.filter(({ code }) => code === 'length-odd');
const measured = (own: Program) =>
  Object.values(own.level().faces).flatMap((record) =>
    record.measured === undefined ? [] : mm(record.measured),
  );

/** Two rooms side by side, typed 3 × 2.5 m and 4 × 2.5 m, the second drawn against the first. */
function twoRooms(): Program {
  const own = program();
  own.tool('room');
  own.click([0, 0]);
  own.give('3000', '2500');
  const { thickness } = own.level().walls['w1' as never]!;
  own.click([3000 + mm(thickness), 0]);
  own.give('4000', '2500');
  own.tool('select');
  expect(derived(own).levels[0]!.walk.rooms).toHaveLength(2);
  return own;
}

/** The wall between them, moved 500 mm into the second room: the first is made 3.5 m wide. */
function widen(own: Program): void {
  const { walk } = derived(own).levels[0]!;
  const facesOf = (size: number) =>
    walk.rooms
      .flatMap(({ loops }) => loops.map(({ segments }) => segments))
      .find((segments) => segments.some(({ drawn }) => mm(drawn) === size))!;
  const walls = facesOf(4000).flatMap(({ parts }) => parts.map(({ wall }) => wall));
  const shared = facesOf(3000).find(({ parts }) => walls.includes(parts[0]!.wall))!;
  own.choose({ kind: 'segment', level: walk.levelId, id: shared.key });
  own.give('', '3500');
}

describe('a clear distance that moves the wall between two measured rooms', () => {
  it('takes the length across with it and leaves the neighbour’s as measured, told at once and in red pencil', () => {
    const own = twoRooms();
    expect(odd(own)).toEqual([]);
    const before = measured(own);
    widen(own);
    const after = measured(own);
    expect(after.filter((each) => each === 3500)).toHaveLength(before.filter((each) => each === 3000).length);
    expect(after.filter((each) => each === 4000)).toEqual(before.filter((each) => each === 4000));
    expect(odd(own).length).toBeGreaterThan(0);
    expect(own.said()).toBe(leftOddWords(odd(own).length));
    for (const finding of odd(own)) {
      expect(finding.message).toMatch(
        /was measured at .* and is drawn .* long: 500 mm more\. .* a length that was measured stays when walls are moved\.$/,
      );
    }
  });

  it('each is cleared by one click: forgotten', () => {
    const own = twoRooms();
    widen(own);
    for (let left = odd(own).length; left > 0; left = odd(own).length) {
      const offered = remediesOf(odd(own)[0]!, derived(own));
      const forget = offered.find(({ words }) => words === 'Forget the measured length')!;
      if (forget.kind !== 'edit') throw new Error('forgetting is no edit');
      own.app.commit(forget.edit);
      expect(odd(own).length).toBeLessThan(left);
    }
    expect(measured(own)).not.toContain(4000);
  });

  it('nothing is said where nothing measured is left odd', () => {
    const own = program();
    own.tool('room');
    own.click([0, 0]);
    own.give('3000', '2500');
    own.tool('select');
    const said = own.said();
    const { walk } = derived(own).levels[0]!;
    own.choose({ kind: 'segment', level: walk.levelId, id: walk.rooms[0]!.loops[0]!.segments[1]!.key });
    own.give('', '3500');
    expect(odd(own)).toEqual([]);
    expect(own.said()).toBe(said);
  });
});

describe('a wall that cuts a measured face in two', () => {
  it('what no longer fits is told with the way back', () => {
    const own = program();
    own.tool('room');
    own.click([0, 0]);
    own.give('3000', '2500');
    own.tool('wall');
    own.click([1500, 0]);
    own.click([1500, 2500]);
    own.key('Enter');
    expect(derived(own).levels[0]!.walk.rooms).toHaveLength(2);
    expect(own.said()).toMatch(/whole length is dropped\. And 1 more\. Undo brings them back\.$/);
    own.app.undo();
    expect(measured(own).filter((each) => each === 3000)).toHaveLength(2);
  });
});

describe('what new walls do beside what was asked', () => {
  it('a window that a new wall pushes aside is told, with the way back', () => {
    const own = program();
    own.tool('room');
    own.click([0, 0]);
    own.give('3000', '2500');
    own.tool('opening');
    own.pointer('move', [1500, 0]);
    own.give('1000');
    const [window] = Object.values(own.level().openings);
    own.tool('wall');
    own.click([1200, 0]);
    own.click([1200, 2500]);
    own.key('Enter');
    expect(Object.values(own.level().openings)).not.toEqual([window]);
    expect(own.said()).toMatch(/^Opening o1 stood past the end .* Undo brings them back\.$/);
    own.app.undo();
    expect(Object.values(own.level().openings)).toEqual([window]);
  });

  it('a typed length that no room can keep yet is told, and no undo is offered for it', () => {
    const own = program();
    own.tool('wall');
    own.click([0, 0]);
    own.give('3000', '0');
    own.key('Enter');
    expect(own.said()).toMatch(
      /^Wall w1 is as long as you typed, but that is not kept as measured: [^.]*\.$/,
    );
  });
});
