// Choosing and moving by events: clicks, boxes, drags, nudges and typed distances; one edit each, Escape none.

import { describe, expect, it } from 'vitest';
import {
  type BuiltInId,
  mustLookup,
  type NodeId,
  type OpeningId,
  type WallId,
} from '../../../core/plan/index.ts';
import { derive } from '../../../core/report/index.ts';
import { pictureOf, runningOf } from '../../../renderer/tools/run.ts';
import { MM, mm, type Program, places, program } from './program.ts';

/** A room of 4000 × 3000 clear with its top left inside corner at 0, 0. */
function room(): Program {
  const own = program();
  own.tool('room');
  own.give('4000', '3000');
  own.tool('select');
  own.pointer('move', [2000, 1500]);
  return own;
}
const segments = (own: Program) =>
  derive(own.plan()).levels[0]!.walk.rooms.flatMap(({ loops }) => loops.flatMap((loop) => loop.segments));
const drawn = (own: Program) => segments(own).map((each) => Math.round(mm(each.drawn)));
const wall = (own: Program, where: 'top' | 'right' | 'bottom' | 'left') => {
  const index = ['top', 'right', 'bottom', 'left'].indexOf(where);
  return Object.keys(own.level().walls).sort()[index] as WallId;
};
/** Puts a cabinet on a wall's face in the room, `at` along the wall, and chooses it. */
function cabinet(own: Program, where: Parameters<typeof wall>[1], at: number, width: number): void {
  const { id: level } = own.level();
  const record = {
    side: 'right',
    bottom: 0,
    top: 900 * MM,
    kind: 'cabinet',
    wall: wall(own, where),
    at,
    width,
  } as const;
  const builtIn = `b${Object.keys(own.level().builtIns).length + 1}` as BuiltInId;
  own.app.commit({ type: 'addBuiltIn', level, builtIn, record });
  own.choose({ kind: 'builtIn', level, id: builtIn });
}
/** What stands in the tape bar's fields while nothing is typed. */
const live = (own: Program) => {
  const { tool, state, context } = runningOf(own.app.store.get())!;
  return tool.fields(state, context).map((each) => each.live);
};
const ON = { top: [2000, -50], right: [4050, 700], bottom: [2000, 3050], left: [-50, 700] } as const;

describe('choosing', () => {
  it('a click chooses a wall, on the floor the room, beside everything nothing', () => {
    const own = room();
    own.click(ON.top);
    expect(own.app.store.get().selection).toEqual([{ kind: 'wall', level: 'L1', id: wall(own, 'top') }]);
    own.click([1000, 1000]);
    expect(own.app.store.get().selection.map(({ kind }) => kind)).toEqual(['room']);
    own.click([7000, 7000]);
    expect(own.app.store.get().selection).toEqual([]);
    expect(own.steps()).toBe(1);
  });

  it('with Shift, adds and takes away', () => {
    const own = room();
    own.click(ON.top);
    own.click(ON.left, { shift: true });
    expect(own.app.store.get().selection).toHaveLength(2);
    own.click(ON.top, { shift: true });
    expect(own.app.store.get().selection.map(({ id }) => id)).toEqual([wall(own, 'left')]);
  });

  it('a box from left to right takes what lies inside it, from right to left what it touches', () => {
    const own = room();
    own.drag([-400, -400], [2500, 3500]);
    const inside = own.app.store.get().selection.filter(({ kind }) => kind === 'wall');
    expect(inside.map(({ id }) => id)).toEqual([wall(own, 'left')]);
    own.drag([2500, 3500], [-400, -400]);
    const touched = own.app.store.get().selection.filter(({ kind }) => kind === 'wall');
    expect(touched.map(({ id }) => id).sort()).toEqual(
      [wall(own, 'top'), wall(own, 'bottom'), wall(own, 'left')].sort(),
    );
  });

  it('N goes through what lies under the last click', () => {
    const own = room();
    own.click(ON.top);
    const first = own.app.store.get().selection;
    own.key('n');
    expect(own.app.store.get().selection).not.toEqual(first);
    for (let i = 0; i < 6; i++) own.key('n');
    expect(own.app.store.get().selection).toHaveLength(1);
  });
});

describe('dragging', () => {
  it('a wall goes square to itself, its neighbours follow, in one step', () => {
    const own = room();
    own.drag(ON.right, [4555, 1400]);
    expect(own.steps()).toBe(2);
    const xs = [...new Set(Object.values<readonly [number, number]>(own.level().nodes).map(([x]) => mm(x)))];
    expect(xs).toHaveLength(2);
    expect(Math.max(...xs)).toBeGreaterThan(4400);
    expect(drawn(own)[0]).toBe(drawn(own)[2]);
    own.app.undo();
    expect(drawn(own)).toEqual([3000, 4000, 3000, 4000]);
  });

  it('shows the clear distance while it goes, and the plan only changes at the end', () => {
    const own = room();
    const before = own.plan();
    own.pointer('down', ON.right);
    own.pointer('move', [4500, 700], { mod: true });
    expect(own.plan()).toBe(before);
    const picture = pictureOf(own.app.store.get())!;
    expect(picture.preview!.changedWalls.size).toBe(3);
    expect(picture.labels.map(({ words }) => words)).toContain('4450 mm');
    expect(live(own)).toEqual(['4450 mm']);
    own.pointer('up', [4500, 700], { mod: true });
    expect(drawn(own)).toContain(4450);
  });

  it('Escape in a drag leaves the very same plan, and the release after it does nothing', () => {
    const own = room();
    const before = own.plan();
    own.pointer('down', ON.right);
    own.pointer('move', [5000, 700]);
    own.key('Escape');
    own.pointer('move', [5200, 700]);
    own.pointer('up', [5200, 700]);
    expect(own.plan()).toBe(before);
    expect(own.steps()).toBe(1);
    expect(pictureOf(own.app.store.get())!.preview).toBeNull();
  });

  it('a corner moves to where it is let go', () => {
    const own = room();
    own.pointer('down', [4057.5, -57.5]);
    own.pointer('move', [4900, -900], { mod: true });
    expect(live(own)).toEqual(['843 mm', '−843 mm']);
    own.pointer('up', [4900, -900], { mod: true });
    expect(places(own.level())).toContain('4900,-900');
    expect(own.steps()).toBe(2);
  });

  it('a corner let go on another is one with it', () => {
    const own = room();
    own.drag([4057.5, -57.5], [-50, -60]);
    expect(Object.keys(own.level().nodes)).toHaveLength(3);
    expect(own.steps()).toBe(2);
    own.app.undo();
    expect(drawn(own)).toEqual([3000, 4000, 3000, 4000]);
  });

  it('what is dragged is no target: a node near its own old place stays where the pointer is', () => {
    const own = room();
    own.app.change(() => ({ recent: [] }));
    own.drag([4057, -57], [4107, -57]);
    expect(places(own.level())).not.toContain('4057.5,-57.5');
  });

  it('a door slides along its wall with both gaps shown, and is typed to a gap', () => {
    const own = room();
    own.tool('opening');
    own.click([1200, 0]);
    own.tool('select');
    const [id] = Object.keys(own.level().openings) as [OpeningId];
    own.pointer('down', [1200, -50]);
    own.pointer('move', [2500, 40], { mod: true });
    expect(pictureOf(own.app.store.get())!.labels).toHaveLength(2);
    own.pointer('up', [2500, 40], { mod: true });
    expect(mm(segments(own).flatMap(({ openings }) => openings)[0]!.holeFrom)).toBeCloseTo(2095, 0);
    own.app.undo();
    expect(own.said()).toBe('Undone: move door.');
    own.app.redo();
    own.choose({ kind: 'opening', level: own.level().id, id });
    expect(own.give('', '300')).toBe(true);
    const segment = segments(own).find(({ openings }) => openings.length > 0)!;
    expect(mm(segment.drawn - segment.openings[0]!.holeTo)).toBeCloseTo(300, 2);
  });

  it('a width that is typed keeps the middle; what would pass the corner stays at it, where there is room', () => {
    const own = room();
    cabinet(own, 'top', Math.round(57.5 * MM), 600 * MM);
    const edges = () =>
      segments(own)
        .flatMap(({ builtIns }) => builtIns)
        .flatMap(({ from, to }) => [from, to].map((each) => Math.round(mm(each))));
    expect(edges()).toEqual([0, 600]);
    expect(own.give('', '', '650')).toBe(true);
    expect(edges()).toEqual([0, 650]);
    expect(own.give('1000')).toBe(true);
    expect(own.give('', '', '850')).toBe(true);
    expect(edges()).toEqual([900, 1750]);
    expect(own.give('', '200')).toBe(true);
    expect(own.give('', '', '1450')).toBe(true);
    expect(edges()).toEqual([2550, 4000]);
    expect(own.give('', '', '4000')).toBe(true);
    expect(edges()).toEqual([0, 4000]);
  });

  it('what is typed past an inside corner is refused with both figures, however it is typed', () => {
    const own = room();
    own.tool('opening');
    own.click([2000, 3000]);
    own.tool('mark');
    own.click([4000, 1500]);
    own.tool('select');
    cabinet(own, 'top', 1000 * MM, 900 * MM);
    const { level, openings, marks } = { level: own.level().id, ...own.level() };
    const [door, outlet] = [Object.keys(openings)[0], Object.keys(marks)[0]];
    for (const [kind, id, typed, left, right] of [
      ['builtIn', 'b1', ['-200'], '−200', '3300'],
      ['builtIn', 'b1', ['3990'], '3990', '−890'],
      ['builtIn', 'b1', ['', '', '9000'], /−\d+/, /−\d+/],
      ['opening', door, ['-40'], '−40', '3230'],
      ['mark', outlet, ['-60'], '−60', '2990'],
    ] as const) {
      own.choose({ kind, level, id: id as never });
      const before = own.plan();
      expect(own.give(...typed)).toBe(false);
      expect(own.plan()).toBe(before);
      expect(own.said()).toMatch(/^The (built-in|opening|mark) does not fit there: it would leave .*\.$/);
      const [, saidLeft, saidRight] = /leave (.*) mm on its left and (.*) mm on its right/.exec(own.said())!;
      expect(saidLeft).toMatch(left);
      expect(saidRight).toMatch(right);
      own.key('Escape');
    }
    // A new one is held to the same.
    own.tool('builtIn');
    own.pointer('move', [2000, 0]);
    expect(own.give('-200')).toBe(false);
    expect(own.said()).toMatch(/^The built-in does not fit there: it would leave −200 mm on its left/);
    own.tool('select');
    // And one in a drag, whose figures are typed.
    own.pointer('down', [1400, -20]);
    own.pointer('move', [2200, -20], { mod: true });
    own.type('left', '-200');
    own.pointer('up', [2200, -20], { mod: true });
    expect(own.said()).toMatch(/^The built-in does not fit there: it would leave −200 mm on its left/);
  });

  it('what stands past a corner already is moved towards the room, and no farther out', () => {
    const own = room();
    cabinet(own, 'top', Math.round(-142.5 * MM), 900 * MM);
    expect(live(own)[0]).toBe('−200 mm');
    expect(own.give('-300')).toBe(false);
    expect(own.give('-100')).toBe(true);
    expect(live(own)[0]).toBe('−100 mm');
    expect(own.give('0')).toBe(true);
    expect(own.give('-100')).toBe(false);
  });

  it('past a free end a cabinet reaches as it likes', () => {
    const own = room();
    own.tool('halfWall');
    own.pointer('move', [2000, 3000]);
    own.pointer('down', [2000, 3000]);
    own.pointer('up', [2000, 3000]);
    own.give('1200', '-90');
    own.key('Enter');
    own.tool('select');
    const half = Object.entries(own.level().walls).find(
      ([, { height }]) => height !== undefined,
    )![0] as WallId;
    const { id: level } = own.level();
    const record = { side: 'right', bottom: 0, top: 900 * MM, kind: 'cabinet', wall: half } as const;
    const place = { at: 300 * MM, width: 600 * MM };
    own.app.commit({
      type: 'addBuiltIn',
      level,
      builtIn: 'b1' as BuiltInId,
      record: { ...record, ...place },
    });
    own.choose({ kind: 'builtIn', level, id: 'b1' as BuiltInId });
    expect(own.give('', '-150')).toBe(true);
    expect(live(own)[1]).toBe('−150 mm');
    expect(own.give('-150')).toBe(false);
  });

  it('a cabinet that is dragged, or nudged, stops at the corner', () => {
    const own = room();
    cabinet(own, 'top', 1000 * MM, 900 * MM);
    own.drag([1400, -20], [100, -20], { mod: true });
    expect(live(own)[0]).toBe('0 mm');
    const before = own.plan();
    own.key('ArrowLeft');
    expect(own.plan()).toBe(before);
    expect(own.said()).toMatch(/^It goes no farther that way/);
  });

  it('things on facing walls chosen together go the same way on the sheet, by arrow key and by drag', () => {
    const own = room();
    cabinet(own, 'top', 1000 * MM, 600 * MM);
    cabinet(own, 'bottom', 2000 * MM, 600 * MM);
    const level = own.level().id;
    const lefts = () =>
      (['b1', 'b2'] as BuiltInId[]).map((id) => {
        const { wall: on, at, width } = own.level().builtIns[id]!;
        const { from, to } = own.level().walls[on]!;
        const [a, b] = [mustLookup(own.level().nodes, from), mustLookup(own.level().nodes, to)];
        return mm(b[0] > a[0] ? a[0] + at : a[0] - at - width);
      });
    own.choose(
      { kind: 'builtIn', level, id: 'b1' as BuiltInId },
      { kind: 'builtIn', level, id: 'b2' as BuiltInId },
    );
    const before = lefts();
    own.key('ArrowRight', { shift: true });
    const after = lefts();
    const step = after[0]! - before[0]!;
    expect(step).toBeGreaterThan(0);
    expect(after[1]! - before[1]!).toBe(step);
    own.drag([after[0]! + 300, -20], [after[0]! + 800, -20], { mod: true });
    const dragged = lefts();
    expect(dragged[0]! - after[0]!).toBeCloseTo(500, 0);
    expect(dragged[1]! - after[1]!).toBe(dragged[0]! - after[0]!);
    // Both stop where the first of them comes to its corner.
    own.drag([dragged[0]! + 300, -20], [dragged[0]! + 3900, -20], { mod: true });
    const [top, bottom] = lefts();
    expect(Math.max(top!, bottom!)).toBeCloseTo(3400, 0);
    expect(top! - dragged[0]!).toBe(bottom! - dragged[1]!);
  });

  it('the figures of a door stay on one face while it is dragged to and fro across its wall', () => {
    const own = room();
    own.tool('opening');
    own.click([1200, 0]);
    own.tool('select');
    own.click([1200, -50]);
    const [left] = live(own);
    own.pointer('down', [1200, -50]);
    for (const y of [-20, -90, 30, -110, -50]) {
      own.pointer('move', [1300, y], { mod: true });
      own.pointer('move', [1200, y], { mod: true });
      expect(live(own)[0]).toBe(left);
    }
    // Over another wall too.
    own.pointer('move', [4040, 1500], { mod: true });
    const there = live(own);
    own.pointer('move', [4080, 1300], { mod: true });
    const inner = live(own).map((each) => Number.parseFloat(each));
    own.pointer('move', [4030, 1300], { mod: true });
    expect(live(own).map((each) => Number.parseFloat(each))).toEqual(inner);
    own.pointer('move', [4080, 1500], { mod: true });
    expect(live(own)).toEqual(there);
    own.pointer('up', [4080, 1500], { mod: true });
    expect(live(own)).toEqual(there);
  });

  it('a width of nothing is told as what it is', () => {
    const own = room();
    cabinet(own, 'top', 1000 * MM, 600 * MM);
    expect(own.give('', '', '0')).toBe(false);
    expect(own.said()).toBe('Type a width above zero.');
    own.key('Escape');
    own.tool('builtIn');
    own.pointer('move', [3000, 0]);
    expect(own.give('', '', '0')).toBe(false);
    expect(own.said()).toBe('Type a width above zero.');
  });

  it('a door that is dragged unchosen has its own gaps in the tape bar, and a typed one ends the drag', () => {
    const own = room();
    own.tool('opening');
    own.click([1200, 0]);
    own.tool('select');
    own.click(ON.right);
    const steps = own.steps();
    own.pointer('down', [1200, -50]);
    own.pointer('move', [2500, 40], { mod: true });
    const { tool, state, context } = runningOf(own.app.store.get())!;
    expect(tool.fields(state, context).map(({ label }) => label)).toEqual([
      'From left',
      'From right',
      'Width',
    ]);
    expect(own.give('', '300')).toBe(true);
    own.pointer('move', [2000, 40], { mod: true });
    own.pointer('up', [2000, 40], { mod: true });
    expect(own.steps()).toBe(steps + 1);
    const segment = segments(own).find(({ openings }) => openings.length > 0)!;
    expect(mm(segment.drawn - segment.openings[0]!.holeTo)).toBeCloseTo(300, 2);
    expect(own.app.store.get().selection).toMatchObject([{ kind: 'opening' }]);
  });

  it('a gap that is typed while a door is over another wall counts on that wall, as the tape bar shows it', () => {
    for (const end of ['Enter', 'up']) {
      const own = room();
      own.tool('opening');
      own.click([1200, 0]);
      own.tool('select');
      own.pointer('down', [1200, -50]);
      own.pointer('move', [4040, 1500], { mod: true });
      expect(live(own)).toEqual(['1095 mm', '1095 mm', '810 mm']);
      if (end === 'Enter') expect(own.give('100')).toBe(true);
      else own.type('left', '100');
      own.pointer('up', [4040, 1500], { mod: true });
      const face = segments(own).find(({ openings }) => openings.length > 0)!;
      expect(face.parts.map((part) => part.wall)).toEqual([wall(own, 'right')]);
      expect(face.openings.map(({ holeFrom, holeTo }) => [holeFrom, holeTo].map(mm))).toEqual([[100, 910]]);
      expect(own.steps()).toBe(3);
      expect(own.app.store.get().selection).toMatchObject([{ kind: 'opening' }]);
      expect(own.said()).not.toContain('not taken');
    }
  });

  it('a gap that is typed while a cabinet is over the other side of its wall counts on that side', () => {
    const own = room();
    own.tool('room');
    own.click([4057.5, -57.5]);
    own.pointer('move', [5000, 1000]);
    own.give('3500', '3000');
    const { id: level } = own.level();
    const on = wall(own, 'right');
    cabinet(own, 'right', 700 * MM, 600 * MM);
    own.tool('select');
    own.pointer('down', [4000, 1000]);
    own.pointer('move', [4200, 1500], { mod: true });
    own.type('left', '400');
    own.pointer('up', [4200, 1500], { mod: true });
    expect(own.level().builtIns['b1' as never]).toMatchObject({ wall: on, side: 'left' });
    own.choose({ kind: 'builtIn', level, id: 'b1' as never });
    expect(live(own)[0]).toBe('400 mm');
  });

  it('several walls and a room move together', () => {
    const own = room();
    own.click([1000, 1000]);
    own.drag([1000, 1000], [3000, 2000], { mod: true });
    expect(places(own.level())).toContain('1942.5,942.5');
    expect(drawn(own)).toEqual([3000, 4000, 3000, 4000]);
    expect(own.steps()).toBe(2);
  });
});

describe('keys and figures', () => {
  it('arrow keys nudge, and presses that follow are one step', () => {
    const own = room();
    own.click(ON.right);
    for (let i = 0; i < 4; i++) own.key('ArrowRight');
    expect(drawn(own)).toContain(4020);
    expect(own.steps()).toBe(2);
    own.app.undo();
    expect(drawn(own)).toEqual([3000, 4000, 3000, 4000]);
  });

  it('a typed clear distance moves the chosen wall', () => {
    const own = room();
    own.click(ON.right);
    expect(own.give('3500')).toBe(true);
    expect(drawn(own)).toEqual(
      [3000, 3500, 3000, 3500].map((each, i) => (i % 2 === 0 ? drawn(own)[i]! : each)),
    );
    expect(drawn(own).filter((each) => each === 3500)).toHaveLength(2);
  });

  it('a face takes its length and the clear distance across', () => {
    const own = room();
    const top = segments(own).find(({ inward, drawn: length }) => inward[1] === 1 && length > 3500 * MM)!;
    own.choose({ kind: 'segment', level: own.level().id, id: top.key });
    expect(own.give('4200', '2800')).toBe(true);
    expect([...new Set(drawn(own))].sort()).toEqual([2800, 4200]);
    expect(own.steps()).toBe(2);
  });

  it('what was drawn to typed sizes stays measured as its clear distance is typed anew; what was found odd stays', () => {
    const own = program();
    own.tool('room');
    own.click([0, 0]);
    expect(own.give('4000', '3000')).toBe(true);
    own.tool('select');
    const faces = () => segments(own).map(({ record }) => mm(record?.measured ?? 0));
    expect([...faces()].sort()).toEqual([3000, 3000, 4000, 4000]);
    const top = segments(own).find(({ inward }) => inward[1] === 1)!;
    own.choose({ kind: 'segment', level: own.level().id, id: top.key });
    expect(own.give('', '2800')).toBe(true);
    expect([...faces()].sort()).toEqual([2800, 2800, 4000, 4000]);
    expect([...new Set(drawn(own))].sort()).toEqual([2800, 4000]);
    own.app.undo();
    expect([...faces()].sort()).toEqual([3000, 3000, 4000, 4000]);

    const side = segments(own).find(({ inward }) => inward[0] === 1)!;
    own.app.commit({ type: 'setFace', level: own.level().id, face: side.key, set: { measured: 2990 * MM } });
    own.choose({ kind: 'segment', level: own.level().id, id: top.key });
    expect(own.give('', '2800')).toBe(true);
    expect([...faces()].sort()).toEqual([2800, 2990, 4000, 4000]);
  });

  it('a half wall takes its length on either face: its free end moves, and what it was typed to stays measured', () => {
    const own = room();
    own.tool('halfWall');
    own.click([2000, -50]);
    expect(own.give('1200', '90')).toBe(true);
    own.key('Enter');
    own.tool('select');
    const faces = () =>
      segments(own).filter(({ inward, drawn: length }) => inward[0] !== 0 && length < 2500 * MM);
    const half = () => faces().filter(({ parts }) => parts.length > 0);
    for (const length of [1500, 900]) {
      for (const at of [0, 1]) {
        const steps = own.steps();
        own.choose({ kind: 'segment', level: own.level().id, id: half()[at]!.key });
        expect(own.give(`${length + at}`)).toBe(true);
        expect(half().map((each) => Math.round(mm(each.drawn)))).toEqual([length + at, length + at]);
        expect(half().map(({ record }) => mm(record?.measured ?? 0))).toEqual([length + at, 0]);
        expect(own.steps()).toBe(steps + 1);
      }
    }
    expect(own.app.store.get().open!.done.at(-1)!.words).toBe('set length of wall');
    expect(drawn(own).filter((each) => each === 4000)).toHaveLength(1);
  });

  it('a half wall gets no longer than there is room before the next wall, and no shorter than something', () => {
    const own = room();
    own.tool('halfWall');
    own.click([2000, -50]);
    expect(own.give('1200', '90')).toBe(true);
    own.key('Enter');
    own.tool('select');
    const walls = Object.keys(own.level().walls).length;
    const half = () =>
      segments(own).filter(({ parts }) =>
        parts.some((part) => mustLookup(own.level().walls, part.wall).height !== undefined),
      );
    const give = (face: number, length: string): boolean => {
      own.choose({ kind: 'segment', level: own.level().id, id: half()[face]!.key });
      return own.give(length);
    };
    for (const from of ['1200', '3000']) {
      expect(give(0, from)).toBe(true);
      const before = own.plan();
      for (const face of [0, 1]) {
        for (const length of ['3050', '3500']) {
          expect(give(face, length)).toBe(false);
          expect(own.said()).toBe('There is 3000 mm to the wall across: type that or less.');
        }
        for (const length of ['0', '-5']) {
          expect(give(face, length)).toBe(false);
          expect(own.said()).toBe('A wall needs a length above zero.');
        }
      }
      expect(own.plan()).toBe(before);
      expect(half().map(({ drawn: length }) => mm(length))).toEqual([+from, +from]);
      expect(half().map(({ record }) => mm(record?.measured ?? 0))).toEqual([+from, 0]);
    }
    expect(Object.keys(own.level().walls)).toHaveLength(walls);
  });

  it('a half wall in the way of another is where that one must end; one beside it is not', () => {
    const own = room();
    for (const [from, way] of [
      [[2000, -50], '90'],
      [[4050, 2000], '180'],
      [[-50, 1000], '0'],
    ] as const) {
      own.tool('halfWall');
      own.click(from, { mod: true });
      expect(own.give(from[1] === -50 ? '1200' : from[0] > 0 ? '3000' : '1500', way)).toBe(true);
      own.key('Enter');
    }
    own.tool('select');
    const face = segments(own).find(
      ({ inward, drawn: length }) => inward[0] === 1 && Math.abs(mm(length) - 1200) < 1,
    )!;
    own.choose({ kind: 'segment', level: own.level().id, id: face.key });
    expect(own.give('2500')).toBe(false);
    expect(own.said()).toBe('There is 2000 mm to the wall across: type that or less.');
    expect(own.give('1900')).toBe(true);
  });

  it('the end of a half wall has no length to type: it is as wide as its wall', () => {
    const own = room();
    own.tool('halfWall');
    own.click([2000, -50]);
    own.give('1200', '90');
    own.key('Enter');
    own.tool('select');
    const end = segments(own).find(({ parts }) => parts.length === 0)!;
    own.choose({ kind: 'segment', level: own.level().id, id: end.key });
    const { tool, state, context } = runningOf(own.app.store.get())!;
    expect(tool.fields(state, context).map(({ id }) => id)).not.toContain('length');
  });

  it('a double click on a wall asks for its figure', () => {
    const own = room();
    own.click(ON.top);
    own.pointer('double', ON.top);
    expect(own.app.store.get().tool.ask).toBe(1);
  });

  it('a node moves by typed distances', () => {
    const own = room();
    const [id] = Object.entries<readonly [number, number]>(own.level().nodes).find(
      ([, [x, y]]) => x > 0 && y > 0,
    )!;
    own.choose({ kind: 'node', level: own.level().id, id: id as NodeId });
    own.give('100', '-50');
    expect(mustLookup(own.level().nodes, id).map(mm)).toEqual([4157.5, 3007.5]);
  });
});
