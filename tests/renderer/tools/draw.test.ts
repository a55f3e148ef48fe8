// Drawing tools by events: what each gesture commits, how typed figures and snapping meet it, what Escape leaves.

import { describe, expect, it } from 'vitest';
import { derive } from '../../../core/report/index.ts';
import { pictureOf } from '../../../renderer/tools/run.ts';
import { MM, mm, type Program, places, program } from './program.ts';

const segments = (own: Program) =>
  derive(own.plan()).levels[0]!.walk.rooms.flatMap(({ loops }) => loops.flatMap((loop) => loop.segments));
const clear = (own: Program) =>
  segments(own)
    .map(({ drawn }) => mm(drawn))
    .sort((a, b) => a - b);

describe('walls', () => {
  it('are drawn click by click and closed at their start, as one step', () => {
    const own = program();
    own.tool('wall');
    for (const at of [
      [0, 0],
      [4000, 0],
      [4000, 3000],
      [0, 3000],
      [0, 0],
    ] as const)
      own.click(at);
    expect(own.steps()).toBe(1);
    expect(Object.keys(own.level().walls)).toHaveLength(4);
    expect(clear(own)).toEqual([3000, 3000, 4000, 4000]);
    own.app.undo();
    expect(own.level().walls).toEqual({});
  });

  it('drawn along their middle end at the node under the pointer, though the face corner beside it was passed', () => {
    const own = program();
    own.app.change(({ drawing }) => ({ drawing: { ...drawing, along: 'centre' } }));
    own.app.change(({ viewport }) => ({ viewport: { ...viewport, pixelsPerTick: 1 / (30 * MM) } }));
    own.tool('room');
    own.click([0, 0]);
    own.click([4000, 3000]);
    own.tool('wall');
    own.pointer('move', [4060, -60]);
    own.click([4000, 0]);
    own.click([7000, 0]);
    own.click([7000, 3000]);
    own.pointer('move', [4060, 3060]);
    own.click([4000, 3000]);
    own.key('Enter');
    expect(Object.keys(own.level().walls)).toHaveLength(7);
    expect(clear(own)).toHaveLength(8);
  });

  it('are drawn by pressing and dragging', () => {
    const own = program();
    own.tool('wall');
    own.drag([0, 0], [4000, 0]);
    own.key('Enter');
    expect(Object.keys(own.level().walls)).toHaveLength(1);
    expect(own.steps()).toBe(1);
  });

  it('end at a double click, and at a second click on the last point', () => {
    const own = program();
    own.tool('wall');
    own.click([0, 0]);
    own.click([4000, 0]);
    own.click([4000, 0]);
    own.pointer('double', [4000, 0]);
    expect(Object.keys(own.level().walls)).toHaveLength(1);
    expect(own.steps()).toBe(1);
  });

  it('take typed lengths between faces, a quarter turn to the right where no turn is typed', () => {
    const own = program();
    own.tool('wall');
    for (const length of ['3.76m', '3100', '3760', '310cm']) expect(own.give(length)).toBe(true);
    expect(clear(own)).toEqual([3100, 3100, 3760, 3760]);
    expect(Object.values(own.level().faces).map(({ measured }) => mm(measured!))).toEqual([
      3760, 3100, 3760, 3100,
    ]);
    expect(own.steps()).toBe(1);
  });

  it('take a turn: to the right hand positive, to the left negative', () => {
    const own = program();
    own.tool('wall');
    own.give('4000', '0');
    own.give('1000', '-90');
    own.key('Enter');
    // Inside on the left hand: the line itself is the face, the walls stand half their thickness off it.
    expect(places(own.level())).toEqual(['0,57.5', '4057.5,-1000', '4057.5,57.5']);
  });

  it('go where the pointer points, as far as was typed', () => {
    const own = program();
    own.tool('wall');
    own.click([0, 0]);
    own.pointer('move', [-900, 12]);
    own.give('2500');
    own.key('Enter');
    const [a, b] = Object.values<readonly [number, number]>(own.level().nodes);
    expect(Math.abs(a![0] - b![0])).toBe(2500 * MM);
    expect(Math.min(a![0], b![0])).toBe(-2500 * MM);
  });

  it('mix typed and pointed walls in one chain, and keep only what was typed as measured', () => {
    const own = program();
    own.tool('wall');
    own.click([0, 0]);
    own.give('4000', '0');
    own.click([4000, 3000]);
    own.click([0, 3000]);
    own.click([0, 0]);
    expect(clear(own)).toEqual([3000, 3000, 4000, 4000]);
    expect(Object.values(own.level().faces).map(({ measured }) => mm(measured!))).toEqual([4000]);
  });

  it('lie along the line that is chosen, which A changes in mid gesture', () => {
    const own = program();
    own.tool('wall');
    own.click([0, 0]);
    own.click([4000, 0]);
    expect(own.app.store.get().drawing.along).toBe('inside');
    own.key('a');
    own.key('Enter');
    expect(places(own.level())).toEqual(['0,0', '4000,0']);
  });

  it('lose their last point to Backspace and are given up by Escape, which commits nothing', () => {
    const own = program();
    own.tool('wall');
    own.click([0, 0]);
    own.click([4000, 0]);
    own.click([4000, 3000]);
    own.key('Backspace');
    own.key('Enter');
    expect(Object.keys(own.level().walls)).toHaveLength(1);
    const before = own.plan();
    own.click([9000, 0]);
    own.click([9000, 5000]);
    own.key('Escape');
    expect(own.plan()).toBe(before);
    expect(own.app.store.get().tool.id).toBe('wall');
    own.key('Escape');
    expect(own.app.store.get().tool.id).toBe('select');
  });

  it('snap to the end of a wall exactly, and not while the key that inverts is held', () => {
    const own = program();
    own.app.change(({ drawing }) => ({ drawing: { ...drawing, along: 'centre' } }));
    own.tool('wall');
    own.click([0, 0]);
    own.click([4000, 0]);
    own.key('Enter');
    own.click([4030, 40]);
    own.click([4000, 3000]);
    own.key('Enter');
    expect(Object.keys(own.level().nodes)).toHaveLength(3);
    own.click([30, 43], { mod: true });
    own.click([30, 2000], { mod: true });
    own.key('Enter');
    expect(Object.keys(own.level().nodes).length).toBeGreaterThan(3);
  });

  it.each(['wall', 'room', 'measure'] as const)('N shows what it went on to at once (%s)', (tool) => {
    const own = program();
    own.tool('room');
    own.give('4000', '3000');
    own.tool(tool);
    // Near a corner several things can be caught.
    own.pointer('move', [4, 5]);
    const seen = new Set([own.hint()]);
    for (let k = 0; k < 4; k++) {
      own.key('n');
      const now = own.hint();
      own.pointer('move', [4, 5]);
      expect(own.hint()).toBe(now);
      seen.add(now);
    }
    expect(seen.size).toBeGreaterThan(1);
  });

  it('name in the hint what was caught', () => {
    const own = program();
    own.app.change(({ drawing }) => ({ drawing: { ...drawing, along: 'centre' } }));
    own.tool('wall');
    own.click([0, 0]);
    own.click([4000, 0]);
    own.key('Enter');
    own.pointer('move', [4030, 5]);
    expect(own.hint()).toContain('end of wall w1');
    expect(pictureOf(own.app.store.get())!.points).toContainEqual(
      expect.objectContaining({ at: [4000 * MM, 0], kind: 'end' }),
    );
  });

  it('a corner that turns back on the wall just drawn is refused as it is put down, and nothing is lost', () => {
    const own = program();
    own.tool('wall');
    own.click([0, 0], { mod: true });
    own.click([1000, 0], { mod: true });
    // By typing, by a click on that wall, and so sharply that it comes to the same.
    expect(own.give('400', '180')).toBe(false);
    expect(own.said()).toMatch(/^This wall would turn back along the one just drawn/);
    expect(own.app.store.get().tool.texts).toMatchObject({ length: '400', angle: '180' });
    own.key('Escape');
    for (const place of [
      [600, 0],
      [-200, 30],
    ] as const) {
      const before = own.app.store.get().notices.length;
      own.click(place, { mod: true });
      expect(
        own.app.store
          .get()
          .notices.slice(before)
          .map(({ words }) => words),
      ).toEqual([expect.stringMatching(/^This wall would turn back along the one just drawn/)]);
    }
    own.click([1000, 800], { mod: true });
    own.key('Enter');
    expect(own.plan().levels[0]!.walls).toMatchObject({ w1: {}, w2: {} });
    expect(Object.keys(own.level().walls)).toHaveLength(2);
    expect(own.steps()).toBe(1);
  });

  it('stay as drawn when they are refused', () => {
    const own = program();
    own.tool('wall');
    own.click([0, 0], { mod: true });
    own.click([2000, 0], { mod: true });
    own.click([4000, 0], { mod: true });
    expect(own.key('k')).toBe(true);
    expect(own.said()).toMatch(/turns back/);
    own.key('Enter');
    expect(Object.keys(own.level().walls)).toHaveLength(2);
  });

  it('are what guides run from next', () => {
    const own = program();
    own.app.change(({ drawing }) => ({ drawing: { ...drawing, along: 'centre' } }));
    own.tool('wall');
    own.click([0, 0], { mod: true });
    own.click([4000, 0], { mod: true });
    own.key('Enter');
    own.pointer('move', [4050, 2500]);
    expect(own.hint()).toContain('straight up and down from n2');
  });

  it('of half height carry it', () => {
    const own = program();
    own.tool('halfWall');
    own.give('1200');
    own.key('Enter');
    expect(Object.values(own.level().walls).map(({ height }) => mm(height!))).toEqual([1050]);
    expect(own.app.store.get().open!.done.at(-1)!.words).toBe('draw half wall');
  });

  it('are drawn with arrow keys and Enter, on grid steps, without a pointer', () => {
    const own = program();
    own.tool('wall');
    own.key('ArrowRight');
    own.key('Enter');
    for (let i = 0; i < 20; i++) own.key('ArrowRight');
    own.key('Enter');
    for (let i = 0; i < 10; i++) own.key('ArrowDown');
    own.key('Enter');
    own.key('Enter');
    expect(own.steps()).toBe(1);
    const xs = Object.values<readonly [number, number]>(own.level().nodes).map(([x]) => mm(x));
    expect(Math.max(...xs) - Math.min(...xs)).toBe(2057.5);
  });

  it('start at the chosen node when typed', () => {
    const own = program();
    own.app.change(({ drawing }) => ({ drawing: { ...drawing, along: 'centre' } }));
    own.tool('wall');
    own.give('4000');
    own.key('Enter');
    const end = Object.entries<readonly [number, number]>(own.level().nodes).find(([, [x]]) => x > 0)!;
    own.choose({ kind: 'node', level: own.level().id, id: end[0] as never });
    own.give('2000', '90');
    own.key('Enter');
    expect(places(own.level())).toEqual(['0,0', '4000,0', '4000,2000'].sort());
  });
});

describe('typing', () => {
  it('refuses what it cannot read with a sentence and keeps it', () => {
    const own = program();
    own.tool('wall');
    expect(own.give('twelve')).toBe(false);
    expect(own.said()).toMatch(/length/);
    expect(own.app.store.get().tool.texts).toEqual({ length: 'twelve' });
    expect(own.steps()).toBe(0);
  });

  it('is shown from where it would start, before there is a start', () => {
    const own = program();
    own.tool('wall');
    own.key('9');
    expect(pictureOf(own.app.store.get())!.shapes).toHaveLength(1);
    expect(own.steps()).toBe(0);
  });

  it('is taken out by Escape before the walls are', () => {
    const own = program();
    own.tool('wall');
    own.give('4000');
    own.key('1');
    own.key('Escape');
    expect(own.app.store.get().tool.texts).toEqual({});
    own.key('Enter');
    expect(Object.keys(own.level().walls)).toHaveLength(1);
  });

  it('begins with a digit on the sheet, which asks for the tape bar', () => {
    const own = program();
    own.tool('wall');
    expect(own.key('1')).toBe(true);
    const { texts, ask } = own.app.store.get().tool;
    expect([texts, ask]).toEqual([{ length: '1' }, 1]);
  });

  it('holds the typed length in the picture while the pointer turns', () => {
    const own = program();
    own.tool('wall');
    own.click([0, 0]);
    own.key('2');
    own.app.change(({ tool }) => ({ tool }));
    own.pointer('move', [0, 777]);
    const drawn = pictureOf(own.app.store.get())!.lines.find(({ kind }) => kind === 'drawn')!;
    expect(drawn.to.map(mm)).toEqual([0, 2]);
  });
});

describe('a room by two corners', () => {
  it('is one step, clear inside as far as the corners', () => {
    const own = program();
    own.tool('room');
    own.click([0, 0]);
    own.click([4000, 3000]);
    expect(clear(own)).toEqual([3000, 3000, 4000, 4000]);
    expect(own.steps()).toBe(1);
  });

  it('is chosen once it is drawn, so that its ticket takes its name; the tool stays in hand', () => {
    const own = program();
    own.tool('room');
    own.give('3760', '3100');
    const { selection, tool, open } = own.app.store.get();
    const [room] = open!.derived.levels[0]!.walk.rooms;
    expect(selection).toEqual([{ kind: 'room', level: own.level().id, id: room!.id }]);
    expect(tool.id).toBe('room');
  });

  it('takes typed width and depth and keeps them as measured', () => {
    const own = program();
    own.tool('room');
    expect(own.give('3760', '3100')).toBe(true);
    expect(clear(own)).toEqual([3100, 3100, 3760, 3760]);
    expect(Object.keys(own.level().faces)).toHaveLength(4);
  });

  /** A room of 3 × 2.5 m drawn beside one of 4 × 3 m, begun at a place on or in the wall between. */
  const beside = (at: readonly [number, number], before?: (own: Program) => void): Program => {
    const own = program();
    own.tool('room');
    own.click([0, 0]);
    own.give('4000', '3000');
    before?.(own);
    own.pointer('move', at);
    own.click(at);
    own.pointer('move', [at[0] + 1500, at[1] + 1500]);
    expect(own.give('3000', '2500')).toBe(true);
    return own;
  };

  it.each([
    ['its far face', [4114, 0]],
    ['its middle, where the walls’ end is caught', [4057, -57]],
    ['its near face', [4000, 0]],
    ['somewhere in it', [4080, -30]],
  ] as const)('drawn beside another from %s shares its wall and stands in line with it', (_, at) => {
    const own = beside(at);
    expect(clear(own)).toEqual([2500, 2500, 3000, 3000, 3000, 3000, 4000, 4000]);
    const { walls, nodes } = own.level();
    expect(Object.keys(walls), 'no wall beside a wall').toHaveLength(8);
    expect(new Set(Object.values<readonly [number, number]>(nodes).map(([, y]) => y)).size).toBe(3);
    expect(Object.values(own.level().faces).filter(({ measured }) => measured === 3000 * MM).length).toBe(4);
  });

  it('against a thicker wall its clear width is still what was typed', () => {
    const own = beside([4114, 0], (it) => {
      const walls = Object.keys(it.level().walls) as never[];
      it.app.commit({ type: 'changeWalls', level: it.level().id, walls, set: { thickness: 300 * MM } });
    });
    const [, room] = [...own.app.store.get().open!.derived.levels[0]!.walk.rooms].sort(
      (a, b) => b.area - a.area,
    );
    const sizes = room!.loops[0]!.segments.map(({ drawn }) => Math.round(mm(drawn)));
    expect(sizes.filter((each) => each === 3000).length).toBeGreaterThan(0);
  });

  it('asks for the figure that is missing', () => {
    const own = program();
    own.tool('room');
    expect(own.give('3760')).toBe(false);
    expect(own.said()).toMatch(/depth/);
    expect(own.steps()).toBe(0);
  });

  it('is given up by Escape', () => {
    const own = program();
    own.tool('room');
    own.click([0, 0]);
    own.pointer('move', [2000, 2000]);
    own.key('Escape');
    own.pointer('down', [4000, 3000]);
    expect(own.steps()).toBe(0);
  });
});

describe('things on walls', () => {
  const room = (): Program => {
    const own = program();
    own.tool('room');
    own.give('4000', '3000');
    return own;
  };

  it('a door goes where the wall is pointed at, caught in the middle of the face', () => {
    const own = room();
    own.tool('opening');
    own.click([2030, 0]);
    const [door] = Object.values(own.level().openings);
    const segment = segments(own).find(({ openings }) => openings.length > 0)!;
    const [hole] = segment.openings;
    expect(mm(hole!.holeFrom)).toBeCloseTo((4000 - 810) / 2, 2);
    expect(door!.kind).toBe('door');
    expect(own.steps()).toBe(2);
    expect(own.app.store.get().selection).toHaveLength(1);
  });

  it('a typed gap to the left corner is the gap as seen facing the wall', () => {
    for (const [at, side] of [
      [[2000, 0], 'top'],
      [[2000, 3000], 'bottom'],
      [[0, 1500], 'left'],
    ] as const) {
      const own = room();
      own.tool('opening');
      own.pointer('move', at);
      expect(own.give('500')).toBe(true);
      const segment = segments(own).find(({ openings }) => openings.length > 0)!;
      expect(mm(segment.openings[0]!.holeFrom), side).toBeCloseTo(500, 2);
    }
  });

  it('both gaps typed give the width', () => {
    const own = room();
    own.tool('opening');
    own.pointer('move', [2000, 0]);
    own.give('500', '2500');
    expect(Object.values(own.level().openings).map(({ width }) => mm(width))).toEqual([1000]);
  });

  it('a wall chosen in the walk takes the pointer’s place', () => {
    const own = room();
    const key = segments(own)[1]!.key;
    own.choose({ kind: 'segment', level: own.level().id, id: key });
    own.tool('opening');
    expect(own.give('', '250')).toBe(true);
    const segment = segments(own).find(({ key: each }) => each === key)!;
    expect(mm(segment.drawn - segment.openings[0]!.holeTo)).toBeCloseTo(250, 2);
  });

  it('one that does not fit is refused with both gaps', () => {
    const own = room();
    own.tool('opening');
    own.pointer('move', [2000, 0]);
    expect(own.give('3900')).toBe(false);
    expect(own.said()).toMatch(/does not fit/);
    expect(own.steps()).toBe(1);
  });

  it('without a wall, says what to do', () => {
    const own = program();
    own.tool('opening');
    own.click([500, 500]);
    expect(own.said()).toMatch(/Point at a wall/);
  });

  it('a cabinet and an outlet stand on the face that is pointed at', () => {
    const own = room();
    own.tool('builtIn');
    own.click([700, 30]);
    own.tool('mark');
    own.click([3000, 30]);
    const [cabinet] = Object.values(own.level().builtIns);
    const [mark] = Object.values(own.level().marks);
    expect([cabinet!.side, mark!.side]).toEqual(['right', 'right']);
    expect(segments(own).flatMap(({ builtIns, marks }) => [builtIns.length, marks.length])).toContain(1);
    expect(own.steps()).toBe(3);
  });
});

describe('measuring', () => {
  it('says the distance and changes nothing', () => {
    const own = program();
    const before = own.plan();
    own.tool('measure');
    own.click([0, 0]);
    own.click([3000, 4000]);
    expect(own.hint()).toContain('5000 mm');
    expect(own.plan()).toBe(before);
  });
});
