// A room without a record goes by its first segment: what is chosen stays with it when that becomes another.

import { describe, expect, it } from 'vitest';
import type { Edit } from '../../../core/edit/index.ts';
import type { WallId } from '../../../core/plan/index.ts';
import type { Ref } from '../../../renderer/state/refs.ts';
import { numbersOf, roomNow } from '../../../renderer/state/same-room.ts';
import { toolActions } from '../../../renderer/tools/actions.ts';
import { type Program, program } from '../tools/program.ts';

const level = 'L1' as never;
const derived = (own: Program) => own.app.store.get().open!.derived;
const rooms = (own: Program) => derived(own).levels[0]!.walk.rooms;
const chosen = (own: Program) => own.app.store.get().selection;
const roomRef = (id: string): Ref => ({ kind: 'room', level, id });

/** A room of 4 by 3 m without a record, chosen. */
function room(): Program {
  const own = program();
  own.tool('room');
  own.give('4000', '3000');
  own.tool('select');
  expect(rooms(own)[0]!.record).toBeUndefined();
  own.choose(roomRef(rooms(own)[0]!.id));
  return own;
}

const turn = (own: Program): void => toolActions['edit.turn']!.run(own.app);

describe('a chosen room without a record', () => {
  it('is turned a quarter as often as it is asked, and each time undo and redo leave it chosen', () => {
    const own = room();
    const names = new Set<string>();
    for (let times = 1; times <= 4; times++) {
      turn(own);
      expect(own.steps()).toBe(1 + times);
      names.add(rooms(own)[0]!.id);
      expect(chosen(own)).toEqual([roomRef(rooms(own)[0]!.id)]);
      own.app.undo();
      expect(chosen(own)).toEqual([roomRef(rooms(own)[0]!.id)]);
      own.app.redo();
      expect(chosen(own)).toEqual([roomRef(rooms(own)[0]!.id)]);
    }
    expect(names.size).toBeGreaterThan(1);
  });

  it('stays chosen when one of its corners is dragged out to be the first', () => {
    const own = room();
    const was = rooms(own)[0]!.id;
    own.app.change(() => ({ hover: roomRef(was) }));
    const [low] = Object.entries<readonly [number, number]>(own.level().nodes)
      .toSorted(([, a], [, b]) => b[1] - a[1] || a[0] - b[0])
      .map(([id]) => id);
    const edit = { type: 'moveNodes', level, nodes: [low], by: [-640_000, -1_200_000] } as unknown as Edit;
    expect(own.app.commit(edit)).toBe(true);
    expect(rooms(own)[0]!.id).not.toBe(was);
    expect(chosen(own)).toEqual([roomRef(rooms(own)[0]!.id)]);
    expect(own.app.store.get().hover).toEqual(roomRef(rooms(own)[0]!.id));
  });

  it('goes by its record once it has one, and by its first segment when that is taken back', () => {
    const own = room();
    const was = rooms(own)[0]!.id;
    const record = { name: 'Hall', at: [640_000, 480_000] };
    own.app.commit({ type: 'addRoom', level, room: 'r1', record } as unknown as Edit);
    expect(chosen(own)).toEqual([roomRef('r1')]);
    own.app.undo();
    expect(chosen(own)).toEqual([roomRef(was)]);
    own.app.redo();
    expect(chosen(own)).toEqual([roomRef('r1')]);
  });

  it('stays chosen where an edit says what is chosen after it by the name from before', () => {
    const own = room();
    const select = chosen(own);
    const walls = Object.keys(own.level().walls) as WallId[];
    own.app.commit(
      { type: 'placeWalls', level, walls, place: { by: [0, 0], turnDeg: 90, about: [0, 0] } },
      { select },
    );
    expect(chosen(own)).toEqual([roomRef(rooms(own)[0]!.id)]);
  });
});

it('two rooms that change names in a mirror keep to their corners', () => {
  const own = program();
  own.tool('room');
  own.give('4000', '3000');
  own.click([4114, 0]);
  own.give('2000', '3000');
  own.tool('select');
  const before = rooms(own);
  expect(before).toHaveLength(2);
  const walls = Object.keys(own.level().walls) as WallId[];
  const about: [number, number] = [1_000_000, 0];
  own.app.commit({ type: 'placeWalls', level, walls, place: { by: [0, 0], mirror: true, about } });
  const now = rooms(own);
  for (const room of before) {
    const heir = now.find(({ id }) => id === roomNow(room.id, before, now))!;
    expect(numbersOf(heir).toSorted()).toEqual(numbersOf(room).toSorted());
  }
});

it('of a room that a wall cuts in two, the half with more of its corners is meant', () => {
  const own = room();
  const was = rooms(own);
  const nodes = Object.values<readonly [number, number]>(own.level().nodes);
  const [left, top] = [Math.min(...nodes.map(([x]) => x)), Math.min(...nodes.map(([, y]) => y))];
  own.app.commit({
    type: 'addWall',
    level,
    wall: 'w9',
    from: { id: 'n8', at: [left + 320_000, top] },
    to: { id: 'n9', at: [left, top + 320_000] },
    thickness: 32_000,
  } as unknown as Edit);
  const now = rooms(own);
  expect(now).toHaveLength(2);
  const heir = now.find(({ id }) => id === roomNow(was[0]!.id, was, now))!;
  expect(heir.area).toBe(Math.max(...now.map(({ area }) => area)));
});
