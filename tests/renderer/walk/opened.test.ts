// Which rooms of the walk stay open while the house changes under them.

import { describe, expect, test } from 'vitest';
import type { Edit } from '../../../core/edit/index.ts';
import { derive } from '../../../core/report/index.ts';
import { firstOpened, openedStill, rowKeyNow } from '../../../renderer/panels/walk/opened.ts';
import { levelKey, roomKey, rowKey } from '../../../renderer/panels/walk/row.ts';
import { boxPlan, MM, prepared } from '../../core/edit/helpers.ts';
import { after, type House, house } from '../ticket/house.ts';

const bare = (): House => ({ ...house(), shown: derive(prepared(boxPlan())), plan: prepared(boxPlan()) });
const level = (it: House): string => it.shown.levels[0]!.walk.levelId;
const rooms = (it: House): readonly string[] =>
  it.shown.levels[0]!.walk.rooms.map(({ id }) => roomKey(level(it), id));
const edit = (fields: object): Edit => fields as Edit;
const still = (then: House, now: House, opened = firstOpened(then.shown)) =>
  openedStill(opened, then.shown, now.shown);

const name = (it: House) =>
  edit({
    type: 'addRoom',
    level: level(it),
    room: 'r1',
    record: { name: 'Hall', at: [1000 * MM, 1000 * MM] },
  });
const cut = (it: House) =>
  edit({
    type: 'addWall',
    level: level(it),
    wall: 'w9',
    from: { id: 'n8', at: [1500 * MM, 0] },
    to: { id: 'n9', at: [1500 * MM, 3000 * MM] },
    thickness: 100 * MM,
  });

describe('a room that was open', () => {
  test('is open under the id that its first record gives it, and again once the record is gone', () => {
    const then = bare();
    const now = after(then, name(then));
    expect(rooms(then)).not.toEqual(rooms(now));
    expect(still(then, now).has(rooms(now)[0]!)).toBe(true);
    expect(still(now, then, still(then, now)).has(rooms(then)[0]!)).toBe(true);
  });

  test('is open in both halves when a wall cuts it in two, and folded in both where it was folded', () => {
    const then = after(bare(), name(bare()));
    const now = after(then, cut(then));
    expect(rooms(now)).toHaveLength(2);
    for (const key of rooms(now)) expect(still(then, now).has(key)).toBe(true);
    const folded = still(then, now, new Set([levelKey(level(then))]));
    for (const key of rooms(now)) expect(folded.has(key)).toBe(false);
  });

  test('is open mirrored', () => {
    const then = bare();
    const walls = Object.keys(then.plan.levels[0]!.walls);
    const place = { by: [0, 0], mirror: true, about: [2000 * MM, 0] };
    const now = after(then, edit({ type: 'placeWalls', level: level(then), walls, place }));
    expect(rooms(now)).not.toEqual(rooms(then));
    expect(still(then, now).has(rooms(now)[0]!)).toBe(true);
  });
});

test('a new room is open in a small house', () => {
  const then = bare();
  const next = edit({
    type: 'addRoomByCorners',
    level: level(then),
    from: [6000 * MM, 0],
    to: [8000 * MM, 2000 * MM],
    along: 'inside',
    thickness: 100 * MM,
  });
  const now = after(then, next);
  expect(rooms(now).every((key) => still(then, now).has(key))).toBe(true);
});

test('what did not change its rooms gives the same set back', () => {
  const it = house();
  const opened = firstOpened(it.shown);
  expect(openedStill(opened, it.shown, it.shown)).toBe(opened);
});

test('a row keeps its place under its room’s new id', () => {
  const then = bare();
  const now = after(then, name(then));
  const [old] = then.shown.levels[0]!.walk.rooms;
  const ref = { kind: 'segment', level: level(then) as never, id: old!.loops[0]!.segments[0]!.key } as const;
  expect(rowKeyNow(rowKey(old!.id, ref), then.shown, now.shown)).toBe(rowKey('r1', ref));
  expect(rowKeyNow(rooms(then)[0]!, then.shown, now.shown)).toBe(rooms(now)[0]);
  expect(rowKeyNow(levelKey('L1'), then.shown, now.shown)).toBe(levelKey('L1'));
});
