// An opening that goes to another wall shows the room the side that it showed: dragged, typed and pasted, onto walls drawn
// either way round. What the report makes of it is asked, not the record: whose casing it is.

import { describe, expect, it } from 'vitest';
import {
  emptyPlan,
  type Opening,
  type OpeningId,
  type Plan,
  type ProfileId,
  type WallId,
} from '../../../core/plan/index.ts';
import { derive } from '../../../core/report/index.ts';
import { toolActions } from '../../../renderer/tools/actions.ts';
import { MM, type Program, program } from './program.ts';

const run = (own: Program, id: 'edit.copy' | 'edit.paste') => toolActions[id]!.run(own.app);

type Spot = readonly [number, number];

const casing = {
  kind: 'casing',
  name: 'Flat',
  height: 18 * MM,
  width: 70 * MM,
  thickness: 18 * MM,
  form: 'flat',
  material: 'pine',
  stock: [],
};

/** Rooms of 4000 by 3000 in a row, each drawn round as said: to the right hand of its line or to the left. */
function row(...ways: readonly ('right' | 'left')[]): Program {
  const plan = { ...emptyPlan('metric'), profiles: { flat: casing } } as unknown as Plan;
  const own = program(plan);
  const { id: level } = own.level();
  for (const [i, way] of ways.entries()) {
    const x = i * 6000;
    const round: Spot[] = [
      [x, 0],
      [x + 4000, 0],
      [x + 4000, 3000],
      [x, 3000],
    ];
    const points = (way === 'right' ? round : [...round].reverse()).map(
      ([px, py]): Spot => [px * MM, py * MM],
    );
    own.app.commit({ type: 'addChain', level, points, closed: true, along: 'centre', thickness: 100 * MM });
  }
  return own;
}

/** Walls along the middle of a line, which is open. */
function draw(own: Program, ...line: readonly Spot[]): void {
  const { id: level } = own.level();
  const points = line.map(([x, y]): Spot => [x * MM, y * MM]);
  own.app.commit({ type: 'addChain', level, points, closed: false, along: 'centre', thickness: 100 * MM });
}

/** Puts the opening o1 into a wall and chooses it, to be moved. */
function put(own: Program, record: Opening): void {
  const { id: level } = own.level();
  const opening = 'o1' as OpeningId;
  expect(own.app.commit({ type: 'addOpening', level, opening, record })).toBe(true);
  own.choose({ kind: 'opening', level, id: opening });
  own.tool('select');
}

/** The wall that lies along a line between two places. */
function wallAt(own: Program, [x, y]: Spot): WallId {
  const { nodes, walls } = own.level();
  const found = Object.entries(walls).find(([, { from, to }]) => {
    const [a, b] = [nodes[from]!, nodes[to]!];
    return (
      [a, b].every((end) => end[1] === y * MM) &&
      Math.min(a[0], b[0]) < x * MM &&
      Math.max(a[0], b[0]) > x * MM
    );
  });
  return found![0] as WallId;
}

/** A pocket door in the top wall of the first room, cased towards the room alone. */
function cased(own: Program): void {
  const wall = wallAt(own, [2000, 0]);
  const { from, to } = own.level().walls[wall]!;
  const towardsRoom = own.level().nodes[from]![0] < own.level().nodes[to]![0] ? 'right' : 'left';
  const record = {
    wall,
    at: 1500 * MM,
    width: 800 * MM,
    height: 2000 * MM,
    sill: 0,
    kind: 'pocket',
    pocket: towardsRoom === 'right' ? 'start' : 'end',
    reveal: 1600,
    casing: { [towardsRoom]: 'flat' as ProfileId },
  } as const;
  put(own, record);
}

/** Whether each casing is a room's, and on which hand of that room the pocket of its door lies. */
function seen(
  own: Program,
): readonly { readonly opening: string; readonly inRoom: boolean; readonly pocket: string }[] {
  const { openings } = own.level();
  return derive(own.plan()).levels[0]!.casings.map(({ opening, side, room }) => ({
    opening,
    inRoom: room !== null,
    pocket: (openings[opening]!.pocket === 'start') === (side === 'right') ? 'on the left' : 'on the right',
  }));
}

const WAYS = [
  ['right', 'right'],
  ['right', 'left'],
  ['left', 'right'],
  ['left', 'left'],
] as const;

describe('the casing towards the room stays towards the room', () => {
  it.each(WAYS)('dragged from a wall drawn to the %s to one drawn to the %s', (...ways) => {
    const own = row(...ways);
    cased(own);
    own.tool('select');
    own.drag([1900, 0], [8000, 0], { mod: true });
    expect(own.level().openings['o1' as OpeningId]!.wall).toBe(wallAt(own, [8000, 0]));
    expect(seen(own)).toEqual([{ opening: 'o1', inRoom: true, pocket: 'on the left' }]);
    own.undo();
    expect(seen(own)).toEqual([{ opening: 'o1', inRoom: true, pocket: 'on the left' }]);
  });

  it.each(WAYS)('pasted from a wall drawn to the %s onto one drawn to the %s', (...ways) => {
    const own = row(...ways);
    cased(own);
    run(own, 'edit.copy');
    own.choose({ kind: 'wall', level: own.level().id, id: wallAt(own, [8000, 0]) });
    run(own, 'edit.paste');
    expect(seen(own)).toEqual([
      { opening: 'o1', inRoom: true, pocket: 'on the left' },
      { opening: 'o2', inRoom: true, pocket: 'on the left' },
    ]);
  });

  it.each(['right', 'left'] as const)(
    'from a wall between two rooms to an outer one drawn to the %s',
    (way) => {
      const own = row('right', way);
      draw(own, [4000, 0], [5000, 0], [5000, 3000], [4000, 3000]);
      const between = Object.entries(own.level().walls).find(([, { from, to }]) =>
        [from, to].every((end) => own.level().nodes[end]![0] === 4000 * MM),
      )![0] as WallId;
      const door = { at: 500 * MM, width: 800 * MM, height: 2000 * MM, sill: 0, kind: 'door' } as const;
      for (const side of ['left', 'right'] as const) {
        const record = { ...door, wall: between, casing: { [side]: 'flat' as ProfileId } };
        put(own, record);
        own.drag([4000, 900], [8000, 0], { mod: true });
        expect(own.level().openings['o1' as OpeningId]!.wall).toBe(wallAt(own, [8000, 0]));
        expect(seen(own)).toMatchObject([{ inRoom: true }]);
        own.undo();
        own.undo();
      }
    },
  );

  it('along a partition of two walls drawn towards each other it stays in its own one of the two rooms', () => {
    const own = row('right');
    draw(own, [0, 1500], [2000, 1500]);
    draw(own, [4000, 1500], [2000, 1500]);
    const door = { at: 500 * MM, width: 800 * MM, height: 2000 * MM, sill: 0, kind: 'door' } as const;
    const roomNow = () => derive(own.plan()).levels[0]!.casings.map(({ room }) => room);
    for (const side of ['left', 'right'] as const) {
      const record = { ...door, wall: wallAt(own, [1000, 1500]), casing: { [side]: 'flat' as ProfileId } };
      put(own, record);
      const before = roomNow();
      expect(before).toEqual([expect.any(String)]);
      own.drag([900, 1500], [3000, 1500], { mod: true });
      expect(own.level().openings['o1' as OpeningId]!.wall).toBe(wallAt(own, [3000, 1500]));
      expect(roomNow()).toEqual(before);
      own.undo();
      own.undo();
    }
  });

  it('typed along a face that runs on over a wall drawn the other way', () => {
    const own = program({ ...emptyPlan('metric'), profiles: { flat: casing } } as unknown as Plan);
    draw(own, [4000, 0], [2000, 0]);
    draw(own, [0, 0], [2000, 0]);
    draw(own, [4000, 0], [4000, 3000], [0, 3000], [0, 0]);
    const record = {
      wall: wallAt(own, [1000, 0]),
      at: 300 * MM,
      width: 800 * MM,
      height: 2000 * MM,
      sill: 0,
      kind: 'door',
      casing: { left: null, right: 'flat' as ProfileId },
    } as const;
    put(own, record);
    expect(own.give('2600')).toBe(true);
    expect(own.level().openings['o1' as OpeningId]!.wall).toBe(wallAt(own, [3000, 0]));
    expect(seen(own)).toMatchObject([{ opening: 'o1', inRoom: true }]);
  });
});
