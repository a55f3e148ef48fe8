// The walk's rows of a small invented house: in the order a carpenter goes round, with names that can be read out.

import { describe, expect, test } from 'vitest';
import { prepare } from '../../../core/edit/index.ts';
import { derive } from '../../../core/report/index.ts';
import { levelKey, looseKey, roomKey, sameRow } from '../../../renderer/panels/walk/row.ts';
import { foundRows, walkRows } from '../../../renderer/panels/walk/rows.ts';
import { rowLeft, rowOfNumber, rowsBetween, treeStep } from '../../../renderer/panels/walk/tree-keys.ts';
import { after, house, MM } from '../ticket/house.ts';

const all = (it = house()) => walkRows(it.shown, null, it.figures);
const inRoom = (name: string, it = house()) => {
  const rows = all(it);
  const room = rows.find(({ kind, words }) => kind === 'room' && words === name)!;
  return rows.filter(({ parent }) => parent === room.key);
};

describe('the rows of a room', () => {
  test('go round it: corner, wall, its boards and doors from left to right, the next corner', () => {
    expect(
      inRoom('Kitchen').map(({ kind, sign, words }) => `${kind} ${sign}${words.split('  ')[0]}`),
    ).toEqual([
      'corner 9inside 90°',
      'face Wall 9 to 10',
      'board 9A',
      'board 9B',
      'opening Window o8',
      'corner 10inside 90°',
      'face Wall 10 to 11',
      'board 10A',
      'thing Cabinet b1',
      'board 10B',
      'corner 11inside 90°',
      'face Wall 11 to 12',
      'board 11A',
      'opening Pocket door o4',
      'board 11B',
      'corner 12inside 90°',
      'face Wall 12 to 9',
      'board 12A',
      'opening Door o1',
      'board 12B',
    ]);
  });

  test('tell a cabinet in a corner once: on the wall that it stands on, as wide as it is, not as deep', () => {
    const inCorner = house((file) => {
      const [ground] = file.levels;
      const b1 = { ...ground!.builtIns!.b1!, at: 82.5, width: 900 };
      return { ...file, levels: [{ ...ground!, builtIns: { ...ground!.builtIns, b1 } }] };
    });
    // It reaches round corner 10 by its depth of 600 mm.
    const reaches = inCorner.level.walk.rooms
      .flatMap(({ loops }) => loops.flatMap(({ segments }) => segments))
      .flatMap(({ builtIns }) => builtIns.filter(({ id }) => id === 'b1'));
    expect(reaches.map(({ roundCorner }) => roundCorner).toSorted()).toEqual([false, true]);
    const rows = inRoom('Kitchen', inCorner);
    const at = rows.findIndex(({ words }) => words === 'Cabinet b1');
    expect(rows.filter(({ words }) => words === 'Cabinet b1')).toHaveLength(1);
    expect(rows.slice(0, at).findLast(({ kind }) => kind === 'face')!.words).toBe('Wall 10 to 11');
    expect(rows[at]!.name).toBe(`Cabinet b1, ${inCorner.figures.length(900 * MM)} wide`);
  });

  test('say aloud what is at a corner: its number, kind, angle, joint and the board that is worked', () => {
    const names = inRoom('Parlour').map(({ name }) => name);
    expect(names).toContain('Corner 1, inside 90°, cope: board 1A is coped; shoe: butt');
    expect(names).toContain('Corner 3, outside 90°, mitre');
    const measured = after(house(), {
      type: 'setCorner',
      level: 'L1' as never,
      corner: house().level.walk.rooms[1]!.loops[0]!.corners.find(({ number }) => number === 10)!.key,
      set: { measured: 91.5 },
    });
    expect(inRoom('Kitchen', measured).map(({ name }) => name)).toContain(
      'Corner 10, inside 91.5°, cope: board 9B is coped',
    );
  });

  test('tell a wall that ends free, and what stands free in the room comes last', () => {
    expect(inRoom('Parlour').map(({ words }) => words)).toContain('Wall end 3 to 4');
    const garden = inRoom('Garden room');
    const free = garden.findIndex(({ kind }) => kind === 'island');
    expect(
      garden
        .slice(0, free)
        .filter(({ kind }) => kind === 'corner')
        .map(({ sign }) => sign),
    ).toEqual(['13', '14', '15', '16', '17']);
    expect(
      garden
        .slice(free)
        .filter(({ kind }) => kind === 'corner')
        .map(({ sign }) => sign),
    ).toEqual(['18', '19', '20', '21']);
  });

  test('say that a room has no name, and of a corner no joint where the room carries no trim yet', () => {
    const bare = house((file) => ({ ...file, levels: [{ ...file.levels[0]!, rooms: {} }] }));
    const rooms = all(bare).filter(({ kind }) => kind === 'room');
    expect(rooms.map(({ words }) => words)).toEqual(['Room 1', 'Room 2', 'Room 3', 'Room 4']);
    for (const { name, more } of rooms) {
      expect(name).toContain('no name yet');
      expect(more).toContain('no name yet');
    }
    expect(all(bare).find(({ sign }) => sign === '9')!.name).toBe('Corner 9, inside 90°');
    const faces = house().level.walk.rooms[1]!.loops[0]!.segments.map(({ key }) => key);
    const without = faces.slice(1).reduce(
      (it, face) =>
        after(it, {
          type: 'setTrim',
          level: 'L1' as never,
          of: { face },
          lines: { base: { profile: null }, shoe: { profile: null } },
        }),
      house(),
    );
    const kitchen = inRoom('Kitchen', without).filter(({ kind }) => kind === 'corner');
    expect(kitchen.map(({ name }) => name.split(', ').at(-1))).toContain('no two boards meet');
  });

  test('carry what the red pencil marked, worst first', () => {
    const rows = all();
    const door = rows.find(({ name }) => name.startsWith('Pocket door o4'))!;
    expect([door.count, door.worst]).toEqual([2, 'fix']);
    expect(door.name).toContain('2 findings, the worst: fix');
    const kitchen = rows.find(({ words }) => words === 'Kitchen')!;
    const { shown } = house();
    const ofRoom = shown.findings.filter(({ room }) => room === 'r2').length;
    expect([kitchen.count, kitchen.worst]).toEqual([ofRoom, 'fix']);
  });
});

describe('walls that no room looks at', () => {
  const open = house((file) => {
    const level = file.levels[0]!;
    const nodes = {
      ...level.nodes,
      n90: [0, 9000] as [number, number],
      n91: [3000, 9000] as [number, number],
    };
    const walls = { ...level.walls, w90: { from: 'n90', to: 'n91', thickness: 100 } };
    const o90 = { wall: 'w90', at: 500, width: 800, height: 2000, sill: 0, kind: 'door' as const };
    return {
      ...file,
      levels: [{ ...level, nodes, walls, openings: { ...level.openings, o90 } }],
    };
  });

  test('have rows of their own after the rooms, with their doors', () => {
    const rows = all(open);
    const mine = rows.filter(({ parent }) => parent === looseKey('L1'));
    expect(mine.map(({ name }) => name)).toEqual(['Wall w90, 9\' 10 1⁄8"', 'Door o90, 2\' 7 1⁄2"']);
    expect(mine.map(({ place, of }) => [place, of])).toEqual([
      [1, 2],
      [2, 2],
    ]);
    expect(rows.find(({ key }) => key === looseKey('L1'))!.name).toBe('In no room, 1 wall');
    expect(all().some(({ key }) => key === looseKey('L1'))).toBe(false);
  });
});

describe('the tree', () => {
  test('takes the very rows again for a room that an edit left alone', () => {
    const one = house();
    const memory = new Map();
    const first = walkRows(one.shown, null, one.figures, memory);
    expect(walkRows(one.shown, null, one.figures, memory)[5]).toBe(first[5]);
    const other = after(one, { type: 'changeLevel', level: 'L1' as never, set: { name: 'Below' } });
    const rows = walkRows(other.shown, null, other.figures, memory);
    expect(rows.map(({ name }) => name).slice(1)).toEqual(first.map(({ name }) => name).slice(1));
    const bare = all(other);
    expect(rows).toEqual(bare);
  });

  test('makes rows only of what is open', () => {
    const { shown, figures } = house();
    const closed = walkRows(shown, new Set(), figures);
    expect(closed.map(({ kind }) => kind)).toEqual(['level']);
    const rooms = walkRows(shown, new Set([levelKey('L1')]), figures);
    expect(rooms.map(({ words }) => words)).toEqual([
      'Ground floor',
      'Parlour',
      'Kitchen',
      'Garden room',
      'Hall',
    ]);
    const one = walkRows(shown, new Set([levelKey('L1'), roomKey('L1', 'r2')]), figures);
    expect(one.filter(({ depth }) => depth === 3)).toHaveLength(20);
  });

  test('counts places among rows of one parent', () => {
    const rows = all();
    for (const row of rows) {
      const kin = rows.filter(({ parent }) => parent === row.parent);
      expect([row.place, row.of]).toEqual([kin.indexOf(row) + 1, kin.length]);
    }
  });

  test('has a key of its own for each row, also of a door that two rooms see', () => {
    const keys = all().map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    expect(all().filter(({ words }) => words === 'Door o1')).toHaveLength(2);
  });

  test('finds by words of a row together with its room: which corners in the hall are coped', () => {
    const found = foundRows(all(), 'hall corner cope:');
    expect(found.filter(({ kind }) => kind === 'corner').map(({ sign }) => sign)).toEqual([
      '22',
      '23',
      '24',
      '25',
    ]);
    expect(found.slice(0, 2).map(({ kind }) => kind)).toEqual(['level', 'room']);
    expect(foundRows(all(), 'no such thing')).toEqual([]);
  });

  test('reads the same when the same plan is derived again, so that nothing is drawn anew', () => {
    const one = house();
    const prepared = prepare(one.plan);
    const other = walkRows(derive((prepared as { plan: typeof one.plan }).plan), null, one.figures);
    const rows = walkRows(one.shown, null, one.figures);
    expect(rows.every((row, at) => sameRow(row, other[at]!))).toBe(true);
    expect(sameRow(rows[3]!, rows[4]!)).toBe(false);
  });
});

describe('keys in the tree', () => {
  const { shown, figures } = house();
  const open = new Set([levelKey('L1'), roomKey('L1', 'r2')]);
  const rows = walkRows(shown, open, figures);
  const room = roomKey('L1', 'r2');
  const inside = rows.filter(({ parent }) => parent === room);
  const go = (from: string, key: string) => {
    const step = treeStep(rows, from, key);
    return step?.kind === 'focus' ? step.key : step;
  };

  test('move by one, to the ends, and stay inside', () => {
    expect(go(room, 'ArrowDown')).toBe(inside[0]!.key);
    expect(go(inside[0]!.key, 'ArrowUp')).toBe(room);
    expect(go(room, 'Home')).toBe(rows[0]!.key);
    expect(go(room, 'End')).toBe(rows.at(-1)!.key);
    expect(go(rows[0]!.key, 'ArrowUp')).toBe(rows[0]!.key);
    expect(go(rows.at(-1)!.key, 'PageDown')).toBe(rows.at(-1)!.key);
  });

  test('open, go in, go out, close', () => {
    const closed = roomKey('L1', 'r1');
    expect(go(closed, 'ArrowRight')).toEqual({ kind: 'open', keys: [closed] });
    expect(go(room, 'ArrowRight')).toBe(inside[0]!.key);
    expect(go(inside[3]!.key, 'ArrowLeft')).toBe(room);
    expect(go(room, 'ArrowLeft')).toEqual({ kind: 'close', keys: [room] });
    expect(go(inside[3]!.key, 'ArrowRight')).toBeNull();
    const every = go(room, '*') as { keys: readonly string[] };
    expect(every.keys).toHaveLength(4);
  });

  test('stay beside a row that was taken away: the next one left of its room, else the one before, else the row over it', () => {
    const rows = all();
    const left = (focus: string, gone: readonly string[]) =>
      rowLeft(rows, focus, (key) => !gone.includes(key));
    const inside = rows.filter(({ parent }) => parent === rows[1]!.key).map(({ key }) => key);
    expect(left(inside[4]!, [])).toBe(inside[4]);
    expect(left(inside[4]!, [inside[4]!])).toBe(inside[5]);
    expect(left(inside[4]!, [inside[4]!, inside[5]!])).toBe(inside[3]);
    expect(left(inside.at(-1)!, [inside.at(-1)!])).toBe(inside.at(-2));
    expect(left(inside[4]!, inside)).toBe(rows[1]!.key);
    // The room too: the next room.
    const rooms = rows.filter(({ kind }) => kind === 'room').map(({ key }) => key);
    expect(left(inside[4]!, [...inside, rooms[0]!])).toBe(rooms[1]);
    expect(left('no row', ['no row'])).toBeNull();
  });

  test('leave letters to the commands', () => {
    for (const key of ['e', 'r', 'E', ']', 'Delete', 'Escape']) expect(treeStep(rows, room, key)).toBeNull();
  });

  test('find a corner by its number, the whole number before one that begins with it', () => {
    const whole = walkRows(shown, null, figures);
    const key = (sign: string) => whole.find((row) => row.kind === 'corner' && row.sign === sign)!.key;
    expect(rowOfNumber(whole, whole[0]!.key, '2')).toBe(key('2'));
    expect(rowOfNumber(whole, key('24'), '2')).toBe(key('2'));
    expect(rowOfNumber(whole, key('2'), '24')).toBe(key('24'));
    expect(rowOfNumber(whole, key('2'), '99')).toBeNull();
  });

  test('choose a range either way, both ends counted', () => {
    const [a, b] = [inside[2]!.key, inside[5]!.key];
    expect(rowsBetween(rows, a, b)).toEqual(inside.slice(2, 6));
    expect(rowsBetween(rows, b, a)).toEqual(inside.slice(2, 6));
  });
});
