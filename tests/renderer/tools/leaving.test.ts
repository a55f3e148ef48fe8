// Gestures that are disturbed: undo, commands and other levels in the middle of one, another tool before it has ended, what
// stands in the tape bar when something else is done. Nothing drawn or typed is lost, and nothing is done to what is not meant.

import { describe, expect, it } from 'vitest';
import type { LevelId } from '../../../core/plan/index.ts';
import { toolActions } from '../../../renderer/tools/actions.ts';
import { deleteLevel, endGesture } from '../../../renderer/tools/leaving.ts';
import { doDeed, isDrawing, pictureOf, runningOf } from '../../../renderer/tools/run.ts';
import { type Program, places, program } from './program.ts';

const texts = (own: Program) => own.app.store.get().tool.texts ?? {};
const fieldsOf = (own: Program) => {
  const { tool, state, context } = runningOf(own.app.store.get())!;
  return tool.fields(state, context).map(({ id }) => id);
};
const typed = (own: Program) => Object.values(texts(own)).filter((text) => text !== '');

function withRoom(): Program {
  const own = program();
  own.tool('room');
  own.give('4m', '3m');
  own.tool('select');
  return own;
}

/** Presses on the room's top left corner and moves on, without letting go. */
function holdCorner(own: Program): void {
  own.app.select([]);
  const [x, y] = places(own.level())[0]!.split(',').map(Number) as [number, number];
  own.pointer('move', [x, y]);
  own.pointer('down', [x, y]);
  own.pointer('move', [x - 300, y - 200]);
  expect(pictureOf(own.app.store.get())!.preview).not.toBeNull();
}

const withUpstairs = (own: Program): LevelId => {
  const level = 'L9' as LevelId;
  own.app.commit({
    type: 'addLevel',
    at: 1,
    level,
    record: { name: 'Upstairs', ceilingHeight: 780_000 },
  } as never);
  return level;
};

describe('in the middle of a drag', () => {
  it('undo puts the drag back, and takes nothing that was done before', () => {
    const own = withRoom();
    const before = own.plan();
    holdCorner(own);
    own.undo();
    expect(pictureOf(own.app.store.get())!.preview).toBeNull();
    own.pointer('move', [-900, -900]);
    own.pointer('up', [-900, -900]);
    expect(own.plan()).toBe(before);
  });

  it('what the drag holds may go: by a command, or by the store itself', () => {
    for (const away of ['delete', 'undo'] as const) {
      const own = withRoom();
      const [x, y] = [0, 0];
      holdCorner(own);
      if (away === 'undo') own.app.undo();
      else {
        const walls = Object.keys(own.level().walls);
        own.app.select(walls.map((id) => ({ kind: 'wall', level: own.level().id, id }) as never));
        toolActions['edit.delete']!.run(own.app);
      }
      expect(Object.keys(own.level().walls)).toEqual([]);
      expect(() => pictureOf(own.app.store.get())).not.toThrow();
      own.pointer('move', [x, y]);
      own.pointer('up', [x, y]);
      expect(Object.keys(own.level().walls)).toEqual([]);
    }
  });

  it('another level is never moved instead', () => {
    const own = withRoom();
    const upstairs = withUpstairs(own);
    own.app.setLevel(upstairs);
    own.tool('room');
    own.give('4m', '3m');
    own.tool('select');
    own.app.setLevel(own.level().id);
    holdCorner(own);
    const before = own.plan();
    own.app.setLevel(upstairs);
    own.pointer('move', [-900, -900]);
    own.pointer('up', [-900, -900]);
    expect(own.plan()).toBe(before);
  });
});

describe('what is taken in hand', () => {
  const chosen = (own: Program) => own.app.store.get().selection.map(({ kind, id }) => `${kind} ${id}`);

  it('is the wall at a chosen room’s edge, not the room', () => {
    const own = withRoom();
    const room = own.app.store.get().open!.derived.levels[0]!.walk.rooms[0]!;
    own.choose({ kind: 'room', level: own.level().id, id: room.id });
    const corners = room.loops[0]!.corners.map(({ at }) => [at[0] / 320, at[1] / 320] as const);
    const [left, top] = [Math.min(...corners.map(([x]) => x)), Math.min(...corners.map(([, y]) => y))];
    // On the top wall, near its inner edge.
    own.drag([left + 2000, top - 10], [left + 2000, top + 490]);
    const heights = Object.values(own.level().nodes).map(([, y]) => y);
    expect(new Set(heights).size).toBe(2);
    const after = own.app.store.get().open!.derived.levels[0]!.walk.rooms[0]!;
    expect(after.area).toBeLessThan(room.area);
  });

  it('is chosen from then on, and it alone is what Delete takes', () => {
    const own = withRoom();
    const walls = Object.keys(own.level().walls);
    own.choose({ kind: 'wall', level: own.level().id, id: walls[1] } as never);
    const { from, to } = own.level().walls[walls[0] as never]!;
    const [a, b] = [own.level().nodes[from]!, own.level().nodes[to]!].map(
      ([x, y]) => [x / 320, y / 320] as const,
    );
    const middle = [(a![0] + b![0]) / 2, (a![1] + b![1]) / 2] as const;
    own.drag(middle, [middle[0] - 60, middle[1] - 300]);
    expect(chosen(own)).toEqual([`wall ${walls[0]}`]);
    toolActions['edit.delete']!.run(own.app);
    expect(Object.keys(own.level().walls).sort()).toEqual(walls.slice(1).sort());
  });
});

describe('a wall that begins in another', () => {
  it('is as long as was typed, from the face that it leaves by, wherever in the wall it began', () => {
    for (const off of [-50, -20, 0, 20, 50]) {
      const own = withRoom();
      const corners = own.app.store.get().open!.derived.levels[0]!.walk.rooms[0]!.loops[0]!.corners;
      const [xs, ys] = [0, 1].map((axis) => corners.map(({ at }) => at[axis as 0 | 1] / 320));
      const [left, middle] = [Math.min(...xs!), (Math.min(...ys!) + Math.max(...ys!)) / 2];
      own.tool('halfWall');
      // Into the wall on the left, so far from its middle.
      own.click([left - 57 + off, middle], { mod: true });
      own.pointer('move', [left + 900, middle]);
      expect(own.give('1200', '0')).toBe(true);
      own.key('Enter');
      const end = Math.max(
        ...Object.values(own.level().nodes)
          .map(([x]) => x / 320)
          .filter((x) => x < left + 3000),
      );
      expect(end, `${off} mm off its middle`).toBeCloseTo(left + 1200, 1);
    }
  });
});

describe('a drag in which a figure was typed', () => {
  it('ends there, though the button is let go before Enter', () => {
    const own = withRoom();
    const [wall] = Object.keys(own.level().walls);
    const { from, to } = own.level().walls[wall as never]!;
    const [a, b] = [own.level().nodes[from]!, own.level().nodes[to]!].map(
      ([x, y]) => [x / 320, y / 320] as const,
    );
    const middle = [(a![0] + b![0]) / 2, (a![1] + b![1]) / 2] as const;
    own.pointer('move', middle);
    own.pointer('down', middle);
    own.pointer('move', [middle[0], middle[1] - 300]);
    own.type(fieldsOf(own)[0]!, '3500');
    own.pointer('up', [middle[0], middle[1] - 350]);
    const drawn = own.app.store
      .get()
      .open!.derived.levels[0]!.walk.rooms[0]!.loops[0]!.segments.map((each) => Math.round(each.drawn / 320));
    expect(drawn.sort()).toEqual([3500, 3500, 4000, 4000]);
    expect(typed(own)).toEqual([]);
  });
});

describe('a thing placed by a press', () => {
  it('goes where the press is, never on a chosen wall far from it', () => {
    const own = withRoom();
    own.tool('builtIn');
    const corners = own.app.store.get().open!.derived.levels[0]!.walk.rooms[0]!.loops[0]!.corners;
    const [x, y] = [0, 1].map(
      (axis) => corners.reduce((sum, { at }) => sum + at[axis as 0 | 1] / 320, 0) / 4,
    );
    const top = Math.min(...corners.map(({ at }) => at[1] / 320));
    own.click([x!, top - 20]);
    expect(Object.keys(own.level().builtIns)).toHaveLength(1);
    own.click([x!, y!]);
    expect(Object.keys(own.level().builtIns)).toHaveLength(1);
    expect(own.said()).toBe('Point at a wall for the built-in.');
    // Enter is meant for the wall that is chosen.
    own.key('Enter');
    expect(Object.keys(own.level().builtIns).length).toBeGreaterThanOrEqual(1);
  });
});

describe('walls half drawn', () => {
  /** Two walls, 2 m and 1.5 m, the second by typed figures. */
  function begun(own: Program): void {
    own.tool('wall');
    own.click([10_000, 10_000]);
    own.click([12_000, 10_000]);
    expect(own.give('1.5m', '90')).toBe(true);
  }
  const wallsOn = (own: Program, id: string) =>
    Object.keys(own.plan().levels.find((level) => level.id === id)!.walls).length;

  it('undo takes back the last point, then the one before, and only then what was done earlier', () => {
    const own = withRoom();
    begun(own);
    own.undo();
    own.key('Enter');
    expect(wallsOn(own, own.level().id)).toBe(5);
    own.undo();
    expect(wallsOn(own, own.level().id)).toBe(4);
  });

  it('redo puts down again what undo took back, with its typed length, to the start and on', () => {
    const own = withRoom();
    begun(own);
    own.key('h');
    const whole = own.state();
    for (const back of [1, 2, 3]) {
      for (let i = 0; i < back; i++) own.undo();
      for (let i = 0; i < back; i++) own.redo();
      expect(own.state(), `${back} back`).toEqual(whole);
    }
    own.redo();
    own.key('Enter');
    expect(wallsOn(own, own.level().id)).toBe(6);
  });

  it('redo of a point is gone once another is put down, or the plan is another', () => {
    const own = withRoom();
    begun(own);
    own.undo();
    own.click([12_000, 12_000]);
    own.redo();
    own.key('Enter');
    expect(wallsOn(own, own.level().id)).toBe(6);
    expect(Math.max(...places(own.level()).map((place) => Number(place.split(',')[1])))).toBeGreaterThan(
      11_800,
    );

    own.click([15_000, 10_000]);
    own.undo();
    own.undo();
    expect(wallsOn(own, own.level().id)).toBe(4);
    own.redo();
    expect(wallsOn(own, own.level().id)).toBe(6);
    own.redo();
    expect(isDrawing(own.app.store.get())).toBe(false);
  });

  it('another tool or level keeps what was drawn, where it was drawn', () => {
    for (const leave of ['tool', 'level'] as const) {
      const own = withRoom();
      const upstairs = withUpstairs(own);
      const here = own.level().id;
      begun(own);
      if (leave === 'tool') own.tool('opening');
      else own.app.setLevel(upstairs);
      expect(wallsOn(own, here), leave).toBe(6);
      expect(own.said(), leave).toBe('The walls drawn so far are kept.');
      own.key('Enter');
      expect(wallsOn(own, upstairs), leave).toBe(0);
      own.undo();
      expect(wallsOn(own, here), leave).toBe(4);
      // What is taken back is seen.
      expect(own.app.store.get().level).toBe(here);
    }
  });

  it('are kept when their level is deleted under them: undo shows that level with them', () => {
    const own = withRoom();
    const upstairs = withUpstairs(own);
    own.app.setLevel(upstairs);
    begun(own);
    const notices = own.app.store.get().notices.length;
    expect(deleteLevel(own.app, upstairs)).toBe(true);
    const said = own.app.store
      .get()
      .notices.slice(notices)
      .map(({ words }) => words);
    expect(said.at(-1)).toBe('The walls drawn so far are kept.');
    expect(said.join(' ')).not.toContain('There is no level');
    expect(own.plan().levels).toHaveLength(1);
    expect(isDrawing(own.app.store.get())).toBe(false);
    own.undo();
    expect(own.app.store.get().level).toBe(upstairs);
    expect(wallsOn(own, upstairs)).toBe(2);
    own.undo();
    expect(wallsOn(own, upstairs)).toBe(0);
  });

  it('go on when another level is deleted; undo shows that one, and nothing chosen elsewhere', () => {
    const own = withRoom();
    const here = own.level().id;
    const upstairs = withUpstairs(own);
    begun(own);
    expect(deleteLevel(own.app, upstairs)).toBe(true);
    expect(isDrawing(own.app.store.get())).toBe(true);
    own.key('Enter');
    expect(wallsOn(own, here)).toBe(6);
    own.undo();
    own.undo();
    expect(own.app.store.get().level).toBe(upstairs);
    expect(own.app.store.get().selection).toEqual([]);
  });

  it('Escape puts them aside and says so; undo takes them up again', () => {
    const own = withRoom();
    begun(own);
    own.key('Escape');
    expect(own.said()).toBe('What was being drawn is put aside. Undo takes it up again.');
    expect(wallsOn(own, own.level().id)).toBe(4);
    own.undo();
    own.key('Enter');
    expect(wallsOn(own, own.level().id)).toBe(6);
  });

  it('put aside on another level, they are taken up there', () => {
    const own = withRoom();
    const upstairs = withUpstairs(own);
    const here = own.level().id;
    begun(own);
    own.key('Escape');
    own.app.setLevel(upstairs);
    own.undo();
    expect(own.app.store.get().level).toBe(here);
    own.key('Enter');
    expect(wallsOn(own, here)).toBe(6);
  });

  it('are kept before the plan is left', () => {
    const own = withRoom();
    begun(own);
    endGesture(own.app);
    expect(wallsOn(own, own.level().id)).toBe(6);
  });

  it('what was put aside outlives the tool, and goes with the next edit', () => {
    const own = withRoom();
    begun(own);
    own.key('Escape');
    own.key('Escape');
    own.click([-3000, -3000]);
    own.undo();
    own.key('Enter');
    expect(wallsOn(own, own.level().id)).toBe(6);

    const other = withRoom();
    begun(other);
    other.key('Escape');
    other.app.commit({ type: 'setPlan', set: { title: 'Later' } });
    other.undo();
    expect(other.plan().title).not.toBe('Later');
    expect(wallsOn(other, other.level().id)).toBe(4);
  });

  it('what was put aside is gone once something else is begun', () => {
    const own = withRoom();
    begun(own);
    own.key('Escape');
    own.click([20_000, 20_000]);
    own.key('Escape');
    own.undo();
    expect(wallsOn(own, own.level().id)).toBe(0);
  });
});

describe('what stands in the tape bar', () => {
  it('of two gaps and a width that do not add up nothing is done, and it says why', () => {
    const own = withRoom();
    own.tool('opening');
    own.pointer('move', [1000, 0]);
    const steps = own.steps();
    expect(own.give('1000', '1000', '900')).toBe(false);
    expect(own.said()).toMatch(/^The two gaps and the width make 2900 mm together, and there is 4000 mm/);
    expect(own.steps()).toBe(steps);
    expect(own.give('1000', '1000', '2000')).toBe(true);
    own.tool('select');
    own.choose({ kind: 'opening', level: own.level().id, id: 'o1' as never });
    expect(own.give('1000', '1000', '900')).toBe(false);
    expect(own.give('500', '1500', '2000')).toBe(true);
  });

  it('goes when a click uses it up', () => {
    const own = program();
    own.tool('wall');
    own.click([0, 0]);
    own.pointer('move', [1000, 0]);
    own.type('length', '3m');
    own.click([1000, 0]);
    expect(places(own.level())).toEqual([]);
    expect(typed(own)).toEqual([]);
    own.key('Enter');
    expect(places(own.level()).map((place) => place.split(',')[0])).toEqual(['0', '3000']);

    own.tool('room');
    own.click([0, 5000]);
    own.pointer('move', [1000, 6000]);
    own.type('width', '2m');
    own.click([1000, 6000]);
    expect(typed(own)).toEqual([]);
  });

  it('of both sides of a wall that do not fit together nothing is done, and it says why', () => {
    const own = withRoom();
    own.tool('wall');
    own.click([1000, 3057]);
    own.click([1000, 0]);
    own.key('Enter');
    own.tool('select');
    const rooms = own.app.store.get().open!.derived.levels[0]!.walk.rooms;
    expect(rooms).toHaveLength(2);
    const sides = (id: string) =>
      rooms.filter(({ loops }) =>
        loops.some(({ segments }) => segments.some(({ parts }) => parts.some(({ wall }) => wall === id))),
      ).length;
    const partition = Object.keys(own.level().walls).find((id) => sides(id) === 2)!;
    own.choose({ kind: 'wall', level: own.level().id, id: partition } as never);
    const steps = own.steps();
    expect(own.give('2000', '3000')).toBe(false);
    expect(own.said()).toMatch(/^Both sides together make 5000 mm, and there is 388\d mm beside the wall/);
    expect(own.steps()).toBe(steps);
    expect(own.give('2000', '')).toBe(true);
  });

  it('says what is wrong with a length of nothing, or less', () => {
    const own = program();
    own.tool('room');
    own.click([0, 0]);
    own.pointer('move', [1000, 1000]);
    for (const [texts, side] of [
      [['0', '3m'], 'width'],
      [['3m', '-5'], 'depth'],
    ] as const) {
      expect(own.give(...texts)).toBe(false);
      expect(own.said()).toBe(`The room’s ${side} must be above zero.`);
    }
    own.tool('wall');
    own.click([0, 0]);
    expect(own.give('0', '')).toBe(false);
    expect(own.said()).toBe('A wall needs a length above zero.');
  });

  it('goes when something else is chosen', () => {
    const own = withRoom();
    const walls = Object.keys(own.level().walls).map(
      (id) => ({ kind: 'wall', level: own.level().id, id }) as never,
    );
    own.choose(walls[0]!);
    own.type('left', '9m');
    own.choose(walls[1]!);
    expect(typed(own)).toEqual([]);
    expect(own.said()).toBe('“9m” was typed and not taken: Enter gives it.');
    own.tool('opening');
    own.type('left', '7 zz');
    own.tool('mark');
    expect(own.said()).toBe('“7 zz” was typed and not taken: Enter gives it.');
  });
});

describe('what is asked for once more', () => {
  it('the tool that is drawing goes on with what it draws', () => {
    const own = program();
    own.tool('wall');
    for (const at of [
      [0, 0],
      [4000, 0],
      [4000, 3000],
    ] as const)
      own.click(at);
    own.tool('wall');
    expect(isDrawing(own.app.store.get())).toBe(true);
    own.key('Enter');
    expect(Object.keys(own.level().walls)).toHaveLength(2);
  });

  it('walls half drawn are kept when the stage without the sheet is gone to', () => {
    const own = program();
    own.tool('wall');
    own.click([0, 0]);
    own.click([4000, 0]);
    own.app.setStage('cut');
    expect(Object.keys(own.level().walls)).toHaveLength(1);
    expect(isDrawing(own.app.store.get())).toBe(false);
    expect(own.said()).toBe('The walls drawn so far are kept.');
  });
});

describe('a click elsewhere while a figure stands in the tape bar', () => {
  it.each(['1595 mm', '200'])(
    'chooses what was clicked, says that %s was not taken, and holds nothing',
    (text) => {
      const own = withRoom();
      own.tool('opening');
      own.click([2000, -10]);
      own.tool('select');
      const [door] = Object.keys(own.level().openings);
      const at = JSON.stringify(own.level().openings);
      own.choose({ kind: 'opening', level: own.level().id, id: door as never });
      own.type('left', text);
      own.click([300, 300]);
      expect(own.app.store.get().selection.map(({ kind }) => kind)).toEqual(['room']);
      expect(own.said()).toBe(`“${text}” was typed and not taken: Enter gives it.`);
      expect(isDrawing(own.app.store.get())).toBe(false);
      own.pointer('move', [900, 900]);
      expect(isDrawing(own.app.store.get())).toBe(false);
      expect(JSON.stringify(own.level().openings)).toBe(at);
    },
  );
});

describe('what stands in the tape bar when the walls are ended by a button', () => {
  it.each([
    ['k', 4],
    ['Enter', 3],
  ])('is drawn first, by %s', (key, walls) => {
    const own = program();
    own.tool('wall');
    own.click([0, 0]);
    own.give('4000', '0');
    own.give('3000', '90');
    own.type('length', '4000');
    doDeed(own.app, key, true);
    expect(Object.keys(own.level().walls)).toHaveLength(walls);
    expect(typed(own)).toEqual([]);
  });

  it('and what cannot be read is told and nothing is ended', () => {
    const own = program();
    own.tool('wall');
    own.click([0, 0]);
    own.give('4000', '0');
    own.type('length', 'seven');
    doDeed(own.app, 'Enter', true);
    expect(isDrawing(own.app.store.get())).toBe(true);
    expect(typed(own)).toEqual(['seven']);
  });
});
