// Rooms, records and names, corners, built on small drawn houses. Expectations reckoned by hand, in mm.

import { describe, expect, it } from 'vitest';
import { mmFromTicks } from '../../../core/units/ticks.ts';
import { type Room, walkLevel } from '../../../core/walk/index.ts';
import { mm, planOf, pointMm, rectangle, ring } from '../graph/plans.ts';

const walk = (plan: ReturnType<typeof planOf>) => walkLevel(plan, plan.levels[0]!);
const areaM2 = (room: Room) => Math.round((room.area / 320_000 ** 2) * 1e6) / 1e6;

const box = rectangle('', 0, 0, 4000, 3000);
const walls = ring(box);
/** Two rooms side by side: west 3900 by 2900 and east 2900 by 2900 clear. */
const pair = { ...box, e: [7000, 0], f: [7000, 3000] } as const;
const pairWalls = { ...walls, w5: ['b', 'e'], w6: ['e', 'f'], w7: ['f', 'c'] } as const;

describe('rooms', () => {
  it('a level without walls has none and nothing to note', () => {
    const { rooms, voids, outside, notes } = walk(planOf({}, {}));
    expect([rooms, voids, outside, notes]).toEqual([[], [], [], []]);
  });

  it('[WK16] a room without a record is still a room: its place gives its name, its first segment its id', () => {
    const { rooms } = walk(planOf(pair, pairWalls));
    expect(rooms.map(({ id, name, record }) => [id, name, record])).toEqual([
      ['@w4:right', 'Room 1', undefined],
      ['@w2:left', 'Room 2', undefined],
    ]);
  });

  it('[WK16] a record names the room that holds its point; the numbers of the others do not change', () => {
    const plan = planOf(pair, pairWalls, { rooms: { hall: { name: 'Hall', at: [100, 100] } } });
    const { rooms, notes } = walk(plan);
    expect(rooms.map(({ id, name }) => [id, name])).toEqual([
      ['hall', 'Hall'],
      ['@w2:left', 'Room 2'],
    ]);
    expect(rooms[0]!.loops[0]!.segments.every(({ room }) => room === 'hall')).toBe(true);
    expect(notes).toEqual([]);
  });

  it('clear area and perimeter run face to face, islands off the area and on to the perimeter', () => {
    const plan = planOf({ ...box, m: [2000, 1000], n: [2000, 1500] }, { ...walls, s: ['m', 'n'] });
    const [room] = walk(plan).rooms;
    expect(areaM2(room!)).toBeCloseTo(3.9 * 2.9 - 0.05, 9);
    expect(mm(room!.perimeter)).toBe(2 * (3900 + 2900) + 2 * (500 + 100));
    expect(room!.loops.map(({ kind, signedArea }) => [kind, Math.sign(signedArea)])).toEqual([
      ['outer', 1],
      ['island', -1],
    ]);
    expect(room!.loops[1]!.segments.map(({ loop, index }) => [loop, index])).toEqual([
      [1, 0],
      [1, 1],
      [1, 2],
      [1, 3],
    ]);
  });

  it('voids and the outside are outlines, not rooms', () => {
    const flue = rectangle('f', 1000, 1000, 400, 400);
    const { rooms, voids, outside } = walk(planOf({ ...box, ...flue }, { ...walls, ...ring(flue, 'f') }));
    expect(rooms).toHaveLength(1);
    expect(voids.map((outline) => outline.map(pointMm))).toEqual([
      [
        [1050, 1050],
        [1350, 1050],
        [1350, 1350],
        [1050, 1350],
      ],
    ]);
    expect(outside).toHaveLength(1);
  });

  it('the void setting is the plan’s own', () => {
    const flue = rectangle('f', 0, 0, 400, 400);
    const plan = planOf(flue, ring(flue), {}, { settings: { voidAreaM2: 0.05 } });
    expect(walk(plan).rooms.map(areaM2)).toEqual([0.09]);
  });
});

describe('segments and corners', () => {
  it('[WK1] facing the wall, boards come left to right: along × inward turns clockwise, inward points into the room', () => {
    const [room] = walk(planOf(box, walls)).rooms;
    const top = room!.loops[0]!.segments[1]!;
    expect(pointMm(top.start)).toEqual([50, 50]);
    expect(pointMm(top.end)).toEqual([3950, 50]);
    expect(mm(top.drawn)).toBe(3900);
    expect(top.along[0]).toBe(1);
    expect(top.inward[1]).toBe(1);
  });

  it('[CN1] inside corners lie below 180°, outside ones above; segment i ends in corner i', () => {
    const plan = planOf(
      { ...box, m: [2000, 0], n: [2000, 1500] },
      {
        w1: ['a', 'm'],
        w5: ['m', 'b'],
        w2: ['b', 'c'],
        w3: ['c', 'd'],
        w4: ['d', 'a'],
        s: ['m', 'n'],
      },
    );
    const loop = walk(plan).rooms[0]!.loops[0]!;
    expect(loop.corners.map(({ key, kind, roomAngleDeg }) => [key, kind, roomAngleDeg])).toEqual([
      ['a:w4>w1', 'inside', 90],
      ['m:w1>s', 'inside', 90],
      ['n:s>s#0', 'outside', 270],
      ['n:s>s#1', 'outside', 270],
      ['m:s>w5', 'inside', 90],
      ['b:w5>w2', 'inside', 90],
      ['c:w2>w3', 'inside', 90],
      ['d:w3>w4', 'inside', 90],
    ]);
    expect(loop.segments.map(({ end }) => end)).toEqual(loop.corners.map(({ at }) => at));
  });

  it('[CN1] a bay of 45° reads 135° at both its corners, a slant of 20° reads 20°', () => {
    const bay = { a: [0, 0], b: [3000, 0], c: [4000, 1000], d: [4000, 3000], e: [0, 3000] } as const;
    const angles = walk(planOf(bay, ring(bay))).rooms[0]!.loops[0]!.corners.map(
      ({ roomAngleDeg }) => roomAngleDeg,
    );
    expect(angles[1]).toBeCloseTo(135, 9);
    expect(angles[2]).toBeCloseTo(135, 9);
    const slant = { a: [0, 0], b: [8000, 0], c: [8000, 8000 * Math.tan(Math.PI / 9)] } as const;
    const [room] = walk(planOf(slant, ring(slant))).rooms;
    expect(room!.loops[0]!.corners[0]!.roomAngleDeg).toBeCloseTo(20, 4);
  });

  it('corner and face records are found by key, with the number given', () => {
    const plan = planOf(box, walls, {
      corners: { 'b:w1>w2': { number: 7, measured: 91.5 } },
      faces: { 'w2:right': { measured: 2895 } },
    });
    const loop = walk(plan).rooms[0]!.loops[0]!;
    expect(loop.corners[1]).toMatchObject({ number: 7, record: { measured: 91.5 } });
    expect(loop.corners[2]).toMatchObject({ number: null, record: undefined });
    expect(mmFromTicks(loop.segments[2]!.record!.measured!)).toBe(2895);
    expect(loop.segments[1]!.record).toBeUndefined();
  });

  it('[WK13] faces are drywall unless the wall says otherwise; left and right of a segment over two walls may differ', () => {
    const nodes = { ...box, m: [2000, 0] } as const;
    const plan = planOf(
      nodes,
      {},
      {
        walls: {
          w1: { from: 'm', to: 'a', thickness: 100, faces: { left: 'masonry' } },
          w5: {
            from: 'm',
            to: 'b',
            thickness: 100,
            faces: { left: 'masonry', right: 'plaster' },
            height: 1200,
          },
          w2: { from: 'b', to: 'c', thickness: 100 },
          w3: { from: 'c', to: 'd', thickness: 100, height: 2400 },
          w4: { from: 'd', to: 'a', thickness: 100, height: null, faces: { right: null } },
        },
      },
    );
    const { segments } = walk(plan).rooms[0]!.loops[0]!;
    expect(segments.map(({ key, surfaceLeft, surfaceRight }) => [key, surfaceLeft, surfaceRight])).toEqual([
      ['w4:right', 'drywall', 'drywall'],
      ['w1:left', 'masonry', 'plaster'],
      ['w2:right', 'drywall', 'drywall'],
      ['w3:right', 'drywall', 'drywall'],
    ]);
    expect(segments.map(({ wallHeight }) => wallHeight)).toEqual([null, 1200 * 320, null, null]);
  });

  it('[WK13] a jog is the thicker wall’s, a wall end its own wall’s two faces', () => {
    const nodes = { ...box, m: [2000, 0], n: [2000, 3000], o: [2000, 2000] } as const;
    const side = (from: string, to: string, thickness: number, rest = {}) => ({
      from,
      to,
      thickness,
      ...rest,
    });
    const plan = planOf(
      nodes,
      {},
      {
        walls: {
          w1: side('a', 'm', 100, { faces: { right: 'wood' } }),
          w5: side('m', 'b', 200, { faces: { right: 'masonry' }, height: 2000 }),
          w2: side('b', 'c', 100),
          w3: side('c', 'n', 100),
          w6: side('n', 'd', 100),
          w4: side('d', 'a', 100),
          s: side('n', 'o', 100, { faces: { left: 'plaster', right: 'wood' }, height: 900 }),
        },
      },
    );
    const { segments } = walk(plan).rooms[0]!.loops[0]!;
    const jog = segments.find(({ key }) => key === 'm:w1>w5')!;
    expect([jog.surfaceLeft, jog.surfaceRight, jog.wallHeight]).toEqual(['masonry', 'masonry', 2000 * 320]);
    const end = segments.find(({ key }) => key === 'o:s>s')!;
    // Walked up the wall's right side and down its left.
    expect([end.surfaceLeft, end.surfaceRight, end.wallHeight]).toEqual(['wood', 'plaster', 900 * 320]);
  });
});

describe('records', () => {
  const rooms = (records: Record<string, readonly [number, number]>) =>
    Object.fromEntries(Object.entries(records).map(([id, at]) => [id, { name: id, at }]));

  it('[WK16] of two records in one room the first id in code-unit order wins; one note names both', () => {
    const plan = planOf(box, walls, { rooms: rooms({ b: [1000, 1000], B: [2000, 1000], a: [3000, 1000] }) });
    const { rooms: found, notes } = walk(plan);
    expect(found.map(({ id }) => id)).toEqual(['B']);
    expect(notes).toEqual([{ kind: 'room-twice', ids: ['B', 'a', 'b'], at: [3000 * 320, 1000 * 320] }]);
  });

  it('[WK16, WK19] a record in a wall, outside, in a void or in an island’s wall is unused', () => {
    const flue = rectangle('f', 1000, 1000, 400, 400);
    const plan = planOf(
      { ...box, ...flue },
      { ...walls, ...ring(flue, 'f') },
      {
        rooms: rooms({
          inWall: [2000, 0],
          outside: [9000, 9000],
          inFlue: [1200, 1200],
          inFlueWall: [1000, 1200],
        }),
      },
    );
    const { rooms: found, notes } = walk(plan);
    expect(found.map(({ id }) => id)).toEqual(['@w4:right']);
    expect(
      notes.map((note) => (note.kind === 'record-unused' ? `${note.record} ${note.id}` : note.kind)),
    ).toEqual(['room inFlue', 'room inFlueWall', 'room inWall', 'room outside']);
  });

  it('[WK16] a record right on a face belongs to that room', () => {
    const plan = planOf(box, walls, { rooms: rooms({ r: [50, 1000] }) });
    expect(walk(plan).rooms[0]!.id).toBe('r');
  });

  it('[WK16] a record in the ring between an island room and the walls round it belongs to the outer room', () => {
    const inner = rectangle('i', 1000, 700, 1500, 1500);
    const plan = planOf(
      { ...box, ...inner },
      { ...walls, ...ring(inner, 'i') },
      {
        rooms: rooms({ ring: [500, 500], core: [1500, 1500] }),
      },
    );
    const found = walk(plan).rooms;
    expect(found.map(({ id, loops }) => [id, loops.length])).toEqual([
      ['ring', 2],
      ['core', 1],
    ]);
  });

  it('[WK19] corner and face records that fit nothing are noted where they would be', () => {
    const plan = planOf(box, walls, {
      corners: {
        'a:w1>w4': { number: 1, measured: 91 },
        'zz:w1>w4': { lines: { base: { joint: 'mitre' } } },
        'a:w4>w1': { number: 3 },
        'b:w1>w4': { number: 4 },
      },
      faces: {
        'w1:left': { measured: 1 },
        'gone:left': { measured: 1 },
        'a:w1>w1': { measured: 1 },
        'w1:right': {},
      },
    });
    expect(walk(plan).notes).toEqual([
      { kind: 'record-unused', record: 'corner', id: 'a:w1>w4', at: [0, 0] },
      { kind: 'record-unused', record: 'corner', id: 'zz:w1>w4', at: null },
      { kind: 'record-unused', record: 'face', id: 'a:w1>w1', at: [0, 0] },
      { kind: 'record-unused', record: 'face', id: 'gone:left', at: null },
      { kind: 'record-unused', record: 'face', id: 'w1:left', at: [2000 * 320, 0] },
    ]);
  });
});

describe('entry', () => {
  const door = (wall: string, at: number) => ({ wall, at, width: 800, height: 2000, sill: 0, kind: 'door' });
  const hall = (entry: string) => ({ r1: { name: 'Hall', at: [1000, 1000], entry } });

  it('[WK17] the entry stands in the middle of its opening, on the room’s face, looking in', () => {
    const plan = planOf(pair, pairWalls, { openings: { o1: door('w2', 1000) }, rooms: hall('o1') });
    const { entry } = walk(plan).rooms[0]!;
    expect(entry!.id).toBe('o1');
    expect(pointMm(entry!.middle)).toEqual([3950, 1400]);
    expect(entry!.inward[0]).toBe(-1);
    expect(entry!.segment.key).toBe('w2:right');
  });

  it('[WK17] with both sides in the room it stands on the wall’s right side', () => {
    const plan = planOf(
      { ...box, m: [2000, 500], n: [2000, 2500] },
      { ...walls, s: ['m', 'n'] },
      {
        openings: { o1: door('s', 600) },
        rooms: hall('o1'),
      },
    );
    const { entry } = walk(plan).rooms[0]!;
    expect(entry!.segment.key).toBe('s:right');
    expect(pointMm(entry!.middle)).toEqual([1950, 1500]);
  });

  it('[WK17, WK19] an entry that is not in the room is noted and left out', () => {
    const plan = planOf(pair, pairWalls, { openings: { o1: door('w6', 1000) }, rooms: hall('o1') });
    const { rooms, notes } = walk(plan);
    expect(rooms[0]!.entry).toBeNull();
    expect(notes).toEqual([
      { kind: 'record-unused', record: 'entry', id: 'r1', at: [1000 * 320, 1000 * 320] },
    ]);
  });
});

describe('not closed', () => {
  const notesOf = (...args: Parameters<typeof planOf>) => walk(planOf(...args)).notes;

  it('[WK18] walls that enclose nothing: one note for those that hang together', () => {
    const notes = notesOf(
      { a: [0, 0], b: [3000, 0], c: [3000, 3000], x: [9000, 9000], y: [9000, 8000] },
      { w1: ['a', 'b'], w2: ['b', 'c'], w3: ['x', 'y'] },
    );
    expect(notes).toEqual([
      { kind: 'not-closed', at: [0, 0], about: ['w1', 'w2'], gap: null },
      { kind: 'not-closed', at: [9000 * 320, 8000 * 320], about: ['w3'], gap: null },
    ]);
  });

  it('[WK18] a free-standing wall in a room, or one in a void, is nothing unusual', () => {
    expect(notesOf({ ...box, m: [2000, 1000], n: [2000, 1800] }, { ...walls, s: ['m', 'n'] })).toEqual([]);
    const flue = rectangle('f', 1000, 1000, 500, 500);
    const inFlue = { p: [1240, 1250], q: [1260, 1250] } as const;
    const plan = planOf(
      { ...box, ...flue, ...inFlue },
      { ...walls, ...ring(flue, 'f'), s: ['p', 'q', 10] },
      {},
      { settings: { nearlyMeet: 0 } },
    );
    expect(walk(plan).notes).toEqual([]);
  });

  it('[WK18] a void outside encloses no room and is noted', () => {
    const flue = rectangle('f', 0, 0, 400, 400);
    expect(notesOf(flue, ring(flue))).toMatchObject([{ kind: 'not-closed', gap: null }]);
  });

  it('[WK18] a free end 250 mm short of a wall’s face is noted with its gap, one 12 in short still, one further off not', () => {
    const short = (gap: number) =>
      notesOf(
        { ...box, m: [2000, 0], n: [2000, 2950 - gap] },
        { w1: ['a', 'm'], w5: ['m', 'b'], w2: ['b', 'c'], w3: ['c', 'd'], w4: ['d', 'a'], s: ['m', 'n'] },
      );
    expect(short(250)).toEqual([
      { kind: 'not-closed', at: [2000 * 320, 2700 * 320], about: ['s', 'w3'], gap: 250 * 320 },
    ]);
    expect(short(304.8)).toHaveLength(1);
    expect(short(305)).toEqual([]);
  });

  it('[WK18] a short nib is not near the walls it stands on', () => {
    const notes = notesOf(
      { ...box, m: [2000, 0], n: [2000, 200] },
      { w1: ['a', 'm'], w5: ['m', 'b'], w2: ['b', 'c'], w3: ['c', 'd'], w4: ['d', 'a'], s: ['m', 'n'] },
    );
    expect(notes).toEqual([]);
  });

  it('[WK18] two free ends that face each other give one note: the gap between their flat ends', () => {
    const nodes = { ...box, m: [2000, 0], n: [2000, 1400], p: [2000, 3000], q: [2000, 1600] } as const;
    const notes = notesOf(nodes, {
      w1: ['a', 'm'],
      w5: ['m', 'b'],
      w2: ['b', 'c'],
      w3: ['c', 'p'],
      w6: ['p', 'd'],
      w4: ['d', 'a'],
      s: ['m', 'n'],
      t: ['p', 'q', 200],
    });
    expect(notes).toEqual([
      { kind: 'not-closed', at: [2000 * 320, 1400 * 320], about: ['s', 't'], gap: 200 * 320 },
    ]);
  });
});

describe('too narrow', () => {
  it('[WK11] one note a room, with the walls that cross; its loop says so too', () => {
    const plan = planOf({ ...box, m: [90, 1000], n: [90, 2000] }, { ...walls, s: ['m', 'n'] });
    const { rooms, notes } = walk(plan);
    expect(rooms[0]!.loops.map(({ tooNarrow }) => tooNarrow)).toEqual([true, true]);
    expect(notes.filter(({ kind }) => kind === 'too-narrow')).toMatchObject([
      { room: '@w4:right', about: ['s', 'w4'] },
    ]);
  });
});
