// Drawing and editing commands: each one edit that undo takes back, or a sentence that says what is missing.

import { describe, expect, it } from 'vitest';
import { sameButCounter } from '../../../core/edit/index.ts';
import type { WallId } from '../../../core/plan/index.ts';
import { derive } from '../../../core/report/index.ts';
import type { LevelWalk } from '../../../core/walk/index.ts';
import type { CommandId } from '../../../electron/menu.ts';
import { toolActions } from '../../../renderer/tools/actions.ts';
import { demo, mm, type Program, places, program } from './program.ts';

function run(own: Program, id: CommandId): string | null {
  const action = toolActions[id]!;
  const why = action.unavailable?.(own.app.store.get()) ?? null;
  if (why === null) action.run(own.app);
  return why;
}
function room(): Program {
  const own = program();
  own.tool('room');
  own.give('4000', '3000');
  own.tool('opening');
  own.pointer('move', [1500, 0]);
  own.give('500');
  own.tool('select');
  own.choose();
  return own;
}

/** The same with a cabinet, a name and an entry. */
function furnishedRoom(): Program {
  const own = room();
  own.tool('builtIn');
  own.pointer('move', [3990, 1500], { mod: true });
  expect(own.give('300')).toBe(true);
  own.tool('select');
  const record = { name: 'Pantry', at: [700_000, 500_000], entry: 'o1', new: { carpet: true } } as never;
  expect(own.app.commit({ type: 'addRoom', level, room: 'r1' as never, record })).toBe(true);
  return own;
}

type Room = LevelWalk['rooms'][number];
/** Its faces as long as they are drawn, each with what stands on it. */
const shapeOf = ({ loops }: Room) =>
  loops.flatMap(({ segments }) =>
    segments.map(({ drawn, openings, builtIns }) => [
      drawn,
      openings.map(({ holeFrom, holeTo }) => [holeFrom, holeTo]),
      builtIns.map(({ from, to }) => [from, to]),
    ]),
  );
const rooms = (own: Program) => derive(own.plan()).levels[0]!.walk.rooms;
const level = 'L1' as never;
const walls = (own: Program) => Object.keys(own.level().walls) as WallId[];

/** Does something and takes it back: the plan must be the one before. */
function undone(own: Program, what: () => void): void {
  const [before, steps] = [own.plan(), own.steps()];
  what();
  expect(own.steps()).toBe(steps + 1);
  const after = own.plan();
  own.app.undo();
  expect(sameButCounter(own.plan(), before)).toBe(true);
  own.app.redo();
  expect(sameButCounter(own.plan(), after)).toBe(true);
}

describe('deleting', () => {
  it('takes a wall with what stands on it', () => {
    const own = room();
    own.choose({ kind: 'wall', level, id: 'w1' as WallId }, { kind: 'opening', level, id: 'o1' as never });
    undone(own, () => {
      run(own, 'edit.delete');
      expect(own.app.store.get().selection).toEqual([]);
    });
    expect(walls(own)).toHaveLength(3);
    expect(own.level().openings).toEqual({});
  });

  it('takes every kind that can go and says why a corner cannot', () => {
    const own = room();
    own.choose({ kind: 'opening', level, id: 'o1' as never });
    undone(own, () => run(own, 'edit.delete'));
    own.choose({ kind: 'corner', level, id: rooms(own)[0]!.loops[0]!.corners[0]!.key });
    run(own, 'edit.delete');
    expect(own.said()).toMatch(/goes with its walls/);
    own.choose({ kind: 'segment', level, id: rooms(own)[0]!.loops[0]!.segments[0]!.key });
    undone(own, () => run(own, 'edit.delete'));
    expect(walls(own)).toHaveLength(3);
  });

  it('takes a node out of a wall that goes on, and walls with a node where they do not', () => {
    const own = room();
    own.choose({ kind: 'wall', level, id: 'w2' as WallId });
    run(own, 'draw.split');
    expect(walls(own)).toHaveLength(5);
    undone(own, () => run(own, 'edit.delete'));
    expect(walls(own)).toHaveLength(4);
    own.choose({ kind: 'node', level, id: 'n1' as never });
    undone(own, () => run(own, 'edit.delete'));
    expect(walls(own)).toHaveLength(2);
  });

  it('takes a room with the walls that are its alone', () => {
    const own = program(demo('thimble-cottage'));
    const before = rooms(own).length;
    own.choose({ kind: 'room', level: own.level().id, id: rooms(own)[0]!.id });
    undone(own, () => run(own, 'edit.delete'));
    expect(rooms(own).length).toBe(before - 1);
  });
});

describe('deleting a partition', () => {
  it('makes the walls it met whole again, so that a door goes in their middle', () => {
    const own = room();
    own.tool('wall');
    own.click([2000, 3057]);
    own.click([2000, 0]);
    own.key('Enter');
    own.tool('select');
    expect(walls(own)).toHaveLength(7);
    const partition = Object.entries(own.level().walls).find(([, { from, to }]) => {
      const [a, b] = [own.level().nodes[from]!, own.level().nodes[to]!];
      return a[0] === b[0] && Math.abs(mm(a[0]) - 2000) < 300;
    })![0];
    own.choose({ kind: 'wall', level, id: partition as WallId });
    undone(own, () => run(own, 'edit.delete'));
    expect(walls(own)).toHaveLength(4);
    const doors = Object.keys(own.level().openings).length;
    own.tool('opening');
    own.click([2000, 3000]);
    expect(Object.keys(own.level().openings)).toHaveLength(doors + 1);
  });
});

describe('copies', () => {
  it('of a door never lie over another, and go on till the wall is full', () => {
    const own = room();
    own.choose({ kind: 'opening', level, id: 'o1' as never });
    for (let i = 0; i < 9; i++) run(own, 'edit.duplicate');
    expect(own.said()).toBe('There is no room for another one on this wall.');
    const spans = Object.values(own.level().openings)
      .map(({ at, width }) => [at, at + width] as const)
      .sort(([a], [b]) => a - b);
    expect(spans.length).toBeGreaterThan(2);
    // Nor past a corner of the room.
    for (const { drawn, openings } of rooms(own)[0]!.loops[0]!.segments)
      for (const { holeFrom, holeTo } of openings)
        expect([holeFrom >= 0, holeTo <= drawn]).toEqual([true, true]);
    for (const [i, [from]] of spans.entries())
      if (i > 0) expect(from).toBeGreaterThanOrEqual(spans[i - 1]![1]);
  });

  it('of several things are one step', () => {
    const own = room();
    own.tool('mark');
    for (const gap of ['300', '900']) {
      own.pointer('move', [1000, 3000]);
      own.give(gap);
    }
    own.tool('select');
    own.choose(...Object.keys(own.level().marks).map((id) => ({ kind: 'mark', level, id }) as never));
    undone(own, () => run(own, 'edit.duplicate'));
    expect(Object.keys(own.level().marks)).toHaveLength(4);
  });

  it('of a thing go on the wall that is chosen, also when the first one is gone', () => {
    const own = room();
    own.choose({ kind: 'opening', level, id: 'o1' as never });
    run(own, 'edit.copy');
    run(own, 'edit.delete');
    own.choose({ kind: 'wall', level, id: 'w3' as WallId });
    undone(own, () => run(own, 'edit.paste'));
    expect(Object.values(own.level().openings).map(({ wall }) => wall)).toEqual(['w3']);
  });

  it('of walls go straight above them on another level, and beside what stands there', () => {
    const own = room();
    const upstairs = 'L9' as never;
    const record = { name: 'Upstairs', ceilingHeight: 780_000 };
    own.app.commit({ type: 'addLevel', level: upstairs, record });
    run(own, 'edit.selectAll');
    run(own, 'edit.copy');
    own.app.setLevel(upstairs);
    undone(own, () => run(own, 'edit.paste'));
    const above = () => Object.values(own.plan().levels[1]!.nodes);
    expect(above().map(String).sort()).toEqual(Object.values(own.level().nodes).map(String).sort());
    undone(own, () => run(own, 'edit.paste'));
    expect(above()).toHaveLength(8);
  });

  it('of a room are pasted as it was copied when it is gone since, with all that was on its walls', () => {
    const own = furnishedRoom();
    const [before, stood] = [own.level(), rooms(own)[0]!];
    own.choose({ kind: 'room', level, id: stood.id });
    run(own, 'edit.copy');
    run(own, 'edit.delete');
    expect(rooms(own)).toHaveLength(0);
    own.app.look((viewport) => ({ ...viewport, centre: [2000 * 320, 1500 * 320] }));
    undone(own, () => {
      run(own, 'edit.paste');
      expect(own.app.store.get().selection.map(({ id }) => id)).toEqual(walls(own));
    });
    // Where it was, for that place is free again.
    expect(places(own.level())).toEqual(places(before));
    const [again] = rooms(own);
    expect(shapeOf(again!)).toEqual(shapeOf(stood));
    expect(again!.record).toMatchObject({ name: 'Pantry', entry: Object.keys(own.level().openings)[0] });
    const numbers = ({ loops }: Room) => loops.flatMap(({ corners }) => corners.map(({ number }) => number));
    expect(numbers(again!).every((each) => !numbers(stood).includes(each))).toBe(true);
    // A second time they go beside the first.
    undone(own, () => run(own, 'edit.paste'));
    expect(rooms(own)).toHaveLength(2);
  });

  it('of a room are pasted as it was copied when it is another since, here and on another level', () => {
    const own = furnishedRoom();
    const [stood] = rooms(own);
    own.choose({ kind: 'room', level, id: stood!.id });
    run(own, 'edit.copy');
    own.choose({ kind: 'segment', level, id: stood!.loops[0]!.segments[0]!.key });
    expect(own.give('6000')).toBe(true);
    own.choose({ kind: 'opening', level, id: 'o1' as never });
    run(own, 'edit.delete');
    expect(shapeOf(rooms(own)[0]!)).not.toEqual(shapeOf(stood!));
    undone(own, () => run(own, 'edit.paste'));
    expect(rooms(own).map(shapeOf)).toContainEqual(shapeOf(stood!));
    const upstairs = 'L9' as never;
    own.app.commit({
      type: 'addLevel',
      level: upstairs,
      record: { name: 'Upstairs', ceilingHeight: 780_000 },
    });
    own.app.commit({ type: 'deleteLevel', level });
    own.app.setLevel(upstairs);
    undone(own, () => run(own, 'edit.paste'));
    expect(rooms(own).map(shapeOf)).toEqual([shapeOf(stood!)]);
  });

  it('of things go on a wall that is chosen, never on one that has the same name on another level', () => {
    const own = room();
    own.choose({ kind: 'opening', level, id: 'o1' as never });
    run(own, 'edit.copy');
    const upstairs = 'L9' as never;
    own.app.commit({
      type: 'addLevel',
      level: upstairs,
      record: { name: 'Upstairs', ceilingHeight: 780_000 },
    });
    own.app.setLevel(upstairs);
    own.tool('room');
    own.give('5000', '3000');
    own.tool('select');
    own.choose();
    run(own, 'edit.paste');
    expect(own.said()).toBe('Choose the wall that it is to stand on first.');
    const openings = () => own.plan().levels.find(({ id }) => id === upstairs)!.openings;
    expect(openings()).toEqual({});
    own.choose({ kind: 'wall', level: upstairs, id: 'w1' as WallId });
    undone(own, () => run(own, 'edit.paste'));
    own.app.redo();
    const [opening] = Object.values(openings());
    // In the middle of the face chosen, not beside where the other one stands on its own wall.
    expect(opening).toMatchObject({ wall: 'w1' });
    expect(mm(opening!.at + opening!.width / 2)).toBeCloseTo(2557.5, 0);
  });

  it('of a door whose casing is no more go down without it, and it is said', () => {
    const own = program(demo('thimble-cottage'));
    const { id: ground, openings } = own.level();
    const door = openings['o1' as never]!;
    const gone = door.casing!.right!;
    own.choose({ kind: 'opening', level: ground, id: 'o1' as never });
    run(own, 'edit.copy');
    expect(own.app.commit({ type: 'deleteProfile', profile: gone, instead: null })).toBe(true);
    undone(own, () => run(own, 'edit.paste'));
    own.app.redo();
    const fresh = Object.entries(own.level().openings).filter(([id]) => !Object.hasOwn(openings, id));
    expect(fresh.map(([, { casing }]) => casing)).toEqual([{ left: null, right: null }]);
    own.app.undo();
    run(own, 'edit.paste');
    expect(own.said()).toBe(`What is pasted goes without ${gone}, which is no more.`);
  });

  it('are of the plan that is open only', () => {
    const own = room();
    own.choose({ kind: 'room', level, id: rooms(own)[0]!.id });
    run(own, 'edit.copy');
    own.app.replaced(own.plan(), own.app.store.get().open!.view);
    expect(run(own, 'edit.paste')).toBe('Nothing has been copied yet.');
  });

  it('duplicate a room beside itself with its door, and choose the new walls', () => {
    const own = room();
    own.choose({ kind: 'room', level, id: rooms(own)[0]!.id });
    undone(own, () => run(own, 'edit.duplicate'));
    expect(rooms(own)).toHaveLength(2);
    expect(Object.keys(own.level().openings)).toHaveLength(2);
    own.app.undo();
    run(own, 'edit.duplicate');
    expect(own.app.store.get().selection).toHaveLength(4);
  });

  it.each(['thimble-cottage', 'larkspur-house'] as const)('never go over the walls of %s', (house) => {
    const own = program(demo(house));
    const before = own.level();
    for (const { id } of rooms(own)) {
      own.choose({ kind: 'room', level: before.id, id });
      run(own, 'edit.copy');
      for (const command of ['edit.duplicate', 'edit.paste'] as const) {
        run(own, command);
        expect(own.level().walls, `${command} of ${id}`).toMatchObject(before.walls);
        expect(rooms(own).length, `${command} of ${id}`).toBe(
          derive({ ...own.plan(), levels: [before] }).levels[0]!.walk.rooms.length + 1,
        );
        own.app.undo();
      }
    }
  });

  it('things back to back that are chosen together are pasted each on its own side', () => {
    const own = furnishedRoom();
    const { wall, side } = own.level().builtIns['b1' as never] as { wall: WallId; side: 'left' | 'right' };
    const mark = { wall, at: 0, width: 22_400, bottom: 96_000, top: 128_000, kind: 'outlet' } as const;
    for (const each of ['left', 'right'] as const)
      own.app.commit({ type: 'addMark', level, mark: `k-${each}` as never, record: { ...mark, side: each } });
    own.choose(
      { kind: 'mark', level, id: `k-${side}` as never },
      { kind: 'mark', level, id: `k-${side === 'left' ? 'right' : 'left'}` as never },
    );
    run(own, 'edit.copy');
    for (let i = 0; i < 2; i++) {
      run(own, 'edit.paste');
      const sides = own.app.store.get().selection.map(({ id }) => own.level().marks[id as never]!.side);
      expect(sides).toEqual([side, side === 'left' ? 'right' : 'left']);
    }
  });

  it('a room that is doubled is called one each time, a part of it is not', () => {
    const own = furnishedRoom();
    const last = () => own.app.store.get().open!.done.at(-1)!.words;
    own.choose({ kind: 'room', level, id: rooms(own)[0]!.id as never });
    for (let i = 0; i < 2; i++) {
      run(own, 'edit.duplicate');
      expect(last()).toBe('duplicate room');
    }
    own.choose({ kind: 'wall', level, id: walls(own)[0]! }, { kind: 'wall', level, id: walls(own)[1]! });
    run(own, 'edit.duplicate');
    expect(last()).toBe('duplicate walls');
  });

  it('a cabinet goes to the other face of its own wall where that is chosen, and back to its own where the wall is', () => {
    const own = furnishedRoom();
    own.tool('room');
    own.click([4057.5, -57.5]);
    own.pointer('move', [5000, 1000]);
    own.give('3500', '3000');
    const cabinet = own.level().builtIns['b1' as never] as { wall: WallId; side: string };
    const pastedOn = (): string => {
      run(own, 'edit.paste');
      const { id } = own.app.store.get().selection[0]!;
      const { wall, side } = own.level().builtIns[id as never] as { wall: WallId; side: string };
      own.app.undo();
      return wall === cabinet.wall ? side : 'another wall';
    };
    own.choose({ kind: 'builtIn', level, id: 'b1' as never });
    run(own, 'edit.copy');
    const faces = rooms(own).flatMap(({ loops }) => loops.flatMap(({ segments }) => segments));
    for (const side of ['left', 'right'] as const) {
      const { key } = faces.find(({ parts }) =>
        parts.some((part) => part.wall === cabinet.wall && part.side === side),
      )!;
      own.choose({ kind: 'segment', level, id: key });
      expect(pastedOn()).toBe(side);
    }
    own.choose({ kind: 'wall', level, id: cabinet.wall });
    expect(pastedOn()).toBe(cabinet.side);
  });

  it('paste what was copied in the middle of what is shown', () => {
    const own = room();
    expect(run(own, 'edit.paste')).toMatch(/copied/);
    own.choose({ kind: 'room', level, id: rooms(own)[0]!.id });
    run(own, 'edit.copy');
    own.app.look((viewport) => ({ ...viewport, centre: [9000 * 320, 9000 * 320] }));
    undone(own, () => run(own, 'edit.paste'));
    expect(rooms(own)).toHaveLength(2);
  });

  it('duplicate a door along its wall', () => {
    const own = room();
    own.choose({ kind: 'opening', level, id: 'o1' as never });
    undone(own, () => run(own, 'edit.duplicate'));
    expect(Object.keys(own.level().openings)).toHaveLength(2);
  });

  it('mirror a room where it stands: the door changes ends', () => {
    const own = room();
    const gap = () =>
      rooms(own)[0]!.loops[0]!.segments.flatMap(({ openings, drawn }) =>
        openings.map(({ holeFrom, holeTo }) => [mm(holeFrom), mm(drawn - holeTo)] as const),
      )[0]!;
    const [left, right] = gap();
    own.choose({ kind: 'room', level, id: rooms(own)[0]!.id });
    undone(own, () => run(own, 'edit.mirror'));
    expect(gap()[0]).toBeCloseTo(right, 1);
    expect(gap()[1]).toBeCloseTo(left, 1);
    expect(rooms(own)).toHaveLength(1);
    own.choose({ kind: 'room', level, id: rooms(own)[0]!.id });
    run(own, 'edit.mirror');
    const chosen = () => own.app.store.get().selection.map(({ kind, id }) => `${kind} ${id}`);
    expect(chosen()).toEqual([`room ${rooms(own)[0]!.id}`]);
    // Faces have other names in the mirror.
    const faces = rooms(own)[0]!.loops[0]!.segments;
    own.choose(...faces.map(({ key }) => ({ kind: 'segment', level, id: key }) as const));
    run(own, 'edit.mirror');
    expect(chosen().sort()).toEqual(Object.keys(own.level().walls).map((id) => `wall ${id}`));
  });

  it('neither mirror nor turn a room that shares its walls: one sentence says with what', () => {
    const own = room();
    own.tool('room');
    own.click([4114, 0]);
    own.give('3000', '2000');
    own.tool('select');
    const before = own.plan();
    own.choose({ kind: 'room', level, id: rooms(own)[0]!.id });
    for (const id of ['edit.mirror', 'edit.turn'] as const) {
      run(own, id);
      expect(own.said()).toMatch(/^Walls? w\d.* at these walls and would be torn off: choose .*\.$/);
    }
    expect(own.plan()).toBe(before);
    own.choose(...Object.keys(own.level().walls).map((id) => ({ kind: 'wall', level, id }) as never));
    undone(own, () => run(own, 'edit.mirror'));
    expect(rooms(own)).toHaveLength(2);
  });

  it('turn a room by a typed angle about its middle', () => {
    const own = room();
    own.choose({ kind: 'room', level, id: rooms(own)[0]!.id });
    undone(own, () => expect(own.give('1000', '', '30')).toBe(true));
    const ways = rooms(own)[0]!.loops[0]!.segments.map(
      ({ along }) => Math.round((((Math.atan2(along[1], along[0]) * 180) / Math.PI) % 90) * 1000) / 1000,
    );
    expect(ways.map((deg) => (deg + 90) % 90)).toEqual([30, 30, 30, 30]);
    const lengths = rooms(own)[0]!.loops[0]!.segments.map(({ drawn }) => Math.round(mm(drawn)));
    expect(lengths.sort()).toEqual([3000, 3000, 4000, 4000]);
  });

  it('turn a room a quarter', () => {
    const own = room();
    own.choose({ kind: 'room', level, id: rooms(own)[0]!.id });
    undone(own, () => run(own, 'edit.turn'));
    const sizes = rooms(own)[0]!.loops[0]!.segments.map(({ drawn, along }) => [
      Math.abs(along[0]),
      mm(drawn),
    ]);
    expect(sizes).toContainEqual([1, 3000]);
    expect(sizes).toContainEqual([0, 4000]);
  });
});

describe('walls', () => {
  it('split where they were clicked, not beside a click elsewhere, and beside a door', () => {
    const at = (own: Program, click: readonly [number, number]) => {
      own.click(click);
      own.choose({ kind: 'wall', level, id: 'w1' as WallId });
      run(own, 'draw.split');
      const [node] = own.app.store.get().selection;
      return mm(own.level().nodes[node!.id as never]![0]);
    };
    expect(at(room(), [3100, -57])).toBeCloseTo(3100, 0);
    // The door stands from 500 mm on; the longest free part is behind it.
    const own = room();
    const door = own.level().openings['o1' as never]!;
    const from = own.level().nodes[own.level().walls['w1' as WallId]!.from]!;
    const behind = mm(from[0] + door.at + door.width);
    const there = at(own, [1000, 1500]);
    expect(there).toBeGreaterThan(behind);
    expect(own.level().openings).toEqual(room().level().openings);
  });

  it('split in the middle and join again', () => {
    const own = room();
    own.choose({ kind: 'wall', level, id: 'w3' as WallId });
    undone(own, () => run(own, 'draw.split'));
    own.app.undo();
    run(own, 'draw.split');
    expect(own.app.store.get().selection.map(({ kind }) => kind)).toEqual(['node']);
    undone(own, () => run(own, 'draw.join'));
    expect(walls(own)).toHaveLength(4);
    own.choose({ kind: 'wall', level, id: 'w1' as WallId });
    run(own, 'draw.join');
    expect(own.said()).toMatch(/two walls/);
  });

  it('of which one has gone meanwhile are not joined, and it says why', () => {
    const own = room();
    own.choose({ kind: 'wall', level, id: 'w3' as WallId });
    run(own, 'draw.split');
    const fresh = walls(own).find((id) => !['w1', 'w2', 'w3', 'w4'].includes(id))!;
    own.choose({ kind: 'wall', level, id: 'w3' as WallId }, { kind: 'wall', level, id: fresh as WallId });
    run(own, 'draw.join');
    own.app.undo();
    own.app.redo();
    expect(own.app.store.get().selection).toHaveLength(2);
    run(own, 'draw.join');
    expect(own.said()).toMatch(/two walls/);
  });

  it('that nearly meet are closed by command', () => {
    const own = program();
    own.app.change(({ drawing }) => ({ drawing: { ...drawing, along: 'centre' } }));
    own.tool('wall');
    own.click([0, 0], { mod: true });
    own.click([4000, 0], { mod: true });
    own.click([4000, 3000], { mod: true });
    own.click([0, 3000], { mod: true });
    own.click([0, 200], { mod: true });
    own.key('Enter');
    expect(rooms(own)).toHaveLength(0);
    undone(own, () => run(own, 'draw.close'));
    expect(rooms(own)).toHaveLength(1);
    run(own, 'draw.close');
    expect(own.said()).toMatch(/no gap/);
  });

  it('are all chosen, and those of a room', () => {
    const own = room();
    run(own, 'edit.selectAll');
    expect(own.app.store.get().selection).toHaveLength(4);
    own.choose({ kind: 'wall', level, id: 'w1' as WallId });
    run(own, 'edit.selectRoom');
    expect(own.app.store.get().selection.map(({ kind }) => kind)).toEqual(['room']);
  });
});
