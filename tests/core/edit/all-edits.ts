// Random edits of everything in a plan, from a seeded source: many of them degenerate, some of them impossible.

import { copiedPart, type Edit } from '../../../core/edit/index.ts';
import { faceLoops } from '../../../core/graph/index.ts';
import { type Level, type Plan, settingsOf, type WallId } from '../../../core/plan/index.ts';
import { house, randomEdit } from './chains.ts';
import { MM, prepared } from './helpers.ts';

type Next = () => number;

const profile = (kind: string, more: object = {}) => ({
  kind,
  name: `A ${kind}`,
  height: 100 * MM,
  width: 70 * MM,
  thickness: 12 * MM,
  form: 'shaped',
  material: 'pine',
  stock: [{ length: 3600 * MM, price: 12.5 }],
  ...more,
});

/** A small house of two levels with profiles and trim, so that every edit has something to work on. */
export function furnished(next: Next): Plan {
  const plan = house(next);
  const upper = { ...plan.levels[0]!, id: 'L2', name: 'Upper floor', corners: {}, faces: {}, rooms: {} };
  return prepared({
    ...plan,
    profiles: {
      b1: profile('base'),
      b2: profile('base', { height: 140 * MM }),
      c1: profile('casing'),
      s1: profile('shoe'),
    },
    stockOnHand: { b1: [{ length: 900 * MM, count: 2 }] },
    heldBoards: {
      b1: [{ length: 3600 * MM, onHand: false, pieces: ['2A', '4B'] }],
      c1: [
        {
          length: 3600 * MM,
          onHand: false,
          pieces: ['L1:o2.left.head'],
          was: [{ piece: 'L1:o2.left.head', length: 900 * MM }],
        },
      ],
    },
    levels: [plan.levels[0], upper],
  } as unknown as Plan);
}

const CUT = ['1A', 'shoe-2A', 'o1.left.head', 'L1:o1.left.head'];
const CUT_TOO = ['1B', '3Ar-left', 'L1:o1.left.legLeft'];
const heldPieces = ({ heldBoards }: Plan): string[] =>
  Object.values(heldBoards).flatMap((boards) => boards.flatMap(({ pieces }) => pieces));

const LINES = ['base', 'shoe', 'crown', 'chairRail', 'pictureRail'];

/** One random edit of any kind. New ids hold `step`, so that they are new. */
export function anyEdit(plan: Plan, next: Next, step: number): Edit {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)]!;
  const of: Level = next() < 0.75 ? plan.levels[0]! : pick(plan.levels);
  const some = (map: object, spare: string): string => {
    const keys = Object.keys(map).sort();
    return keys.length === 0 || next() < 0.03 ? spare : pick(keys);
  };
  const loops = () =>
    faceLoops(of, settingsOf(plan)).filter(({ kind }) => kind === 'outer' || kind === 'island');
  const face = () => {
    const keys = [
      ...loops().flatMap((loop) => loop.segments.map(({ key }) => key as string)),
      ...Object.keys(of.faces),
    ];
    return keys.length === 0 || next() < 0.03 ? 'w1:left' : pick(keys);
  };
  const corner = () => {
    const keys = [
      ...loops().flatMap((loop) => loop.corners.map(({ key }) => key as string)),
      ...Object.keys(of.corners),
    ];
    return keys.length === 0 || next() < 0.03 ? 'n1:w1>w1' : pick(keys);
  };
  const wall = () => some(of.walls, 'w1');
  const length = (most: number) =>
    next() < 0.02 ? Number.NaN : Math.floor(next() * most) * MM + pick([0, 0, 0.5, 7]);
  const side = () => pick(['left', 'right']);
  const place = (): [number, number] =>
    next() < 0.6
      ? [Math.floor(next() * 8) * 700 * MM - 700 * MM, Math.floor(next() * 7) * 600 * MM]
      : [Math.floor(next() * 5000 * MM), Math.floor(next() * 4000 * MM)];
  const profiles = (kind: string) =>
    Object.keys(plan.profiles).filter((id) => next() < 0.05 || plan.profiles[id as never]!.kind === kind);
  const profileOf = (kind: string) => pick([...profiles(kind), null]) ?? null;
  const trimOf = (line: string) => pick([null, { profile: null }, { profile: profileOf(line) }]);
  const readings = () =>
    Array.from({ length: Math.floor(next() * 3) }, () => ({ at: length(4000), height: length(9) }));
  const thickness = () => pick([60, 100, 160, 300]) * MM;
  const opening = () => ({
    wall: wall(),
    at: length(2500),
    width: length(1500),
    height: 2000 * MM,
    sill: pick([0, 900 * MM]),
    kind: pick(['door', 'window', 'pocket', 'passage']),
    ...(next() < 0.5 ? { casing: { left: profileOf('casing') } } : {}),
  });
  const makers: Record<string, () => object> = {
    addOpening: () => ({ opening: `o${step}x`, record: opening() }),
    changeOpening: () => ({
      opening: some(of.openings, 'o9'),
      set: pick<() => object>([
        () => ({ at: length(3000) }),
        () => ({ wall: wall(), at: length(2000) }),
        () => ({ width: length(1500), reveal: pick([null, 5 * MM]) }),
        () => ({ casing: pick([null, { right: profileOf('casing') }]), pocket: pick([null, 'start']) }),
        () => ({ plinth: pick([null, { width: 90 * MM, thickness: 20 * MM, height: 150 * MM }]) }),
      ])(),
    }),
    deleteOpening: () => ({ opening: some(of.openings, 'o9') }),
    addBuiltIn: () => ({
      builtIn: `b${step}x`,
      record: {
        wall: wall(),
        side: side(),
        at: length(3000) - 300 * MM,
        width: 600 * MM,
        bottom: 0,
        top: length(900),
        kind: 'cabinet',
      },
    }),
    changeBuiltIn: () => ({
      builtIn: some(of.builtIns, 'b9'),
      set: pick<() => object>([
        () => ({ at: length(3500) }),
        () => ({ wall: wall(), side: side() }),
        () => ({ depth: pick([null, 600 * MM]), ends: pick([null, 'scribe']), top: length(900) }),
      ])(),
    }),
    deleteBuiltIn: () => ({ builtIn: some(of.builtIns, 'b9') }),
    addMark: () => ({
      mark: `k${step}x`,
      record: {
        wall: wall(),
        side: side(),
        at: length(3000),
        width: 70 * MM,
        bottom: 0,
        top: 100 * MM,
        kind: 'register',
      },
    }),
    changeMark: () => ({
      mark: some(of.marks, 'k9'),
      set: pick([{ at: length(3500) }, { wall: wall() }, { kind: 'outlet' }]),
    }),
    deleteMark: () => ({ mark: some(of.marks, 'k9') }),
    addRoom: () => ({ room: `r${step}x`, record: { name: `Room ${step}`, at: place() } }),
    changeRoom: () => ({
      room: some(of.rooms, 'r9'),
      set: pick<() => object>([
        () => ({ name: `Renamed ${step}` }),
        () => ({ at: place() }),
        () => ({ entry: pick([null, some(of.openings, 'o9')]) }),
        () => ({
          old: pick([null, { baseHeight: 80 * MM, floor: length(20) }]),
          new: { floor: length(20), carpet: true },
        }),
        () => ({ floorDatum: pick([null, length(9)]) }),
      ])(),
    }),
    deleteRoom: () => ({ room: some(of.rooms, 'r9') }),
    setTrim: () => {
      const line = pick(LINES);
      const lines = next() < 0.3 ? { [line]: trimOf(line), base: trimOf('base') } : { [line]: trimOf(line) };
      return { of: next() < 0.5 ? { room: some(of.rooms, 'r9') } : { face: face() }, lines };
    },
    setCorner: () => ({
      corner: corner(),
      set: pick<() => object>([
        () => ({ measured: pick([null, 88.5, 91, 180, 181, 0]) }),
        () => ({ lines: { base: pick([null, { joint: pick(['cope', 'mitre', 'block', null]) }]) } }),
        () => ({ lines: { base: { coped: pick(['before', 'after', null]) }, crown: null } }),
      ])(),
    }),
    setFace: () => ({
      face: face(),
      set: pick<() => object>([
        () => ({ measured: pick([null, length(4000)]) }),
        () => ({ stretches: { [`corner..${some(of.openings, 'o9')}`]: pick([null, length(900)]) } }),
        () => ({ floor: readings(), line: pick([null, readings()]) }),
        () => ({ studs: pick([null, [0, 400 * MM]]) }),
      ])(),
    }),
    addLevel: () => ({
      level: `M${step}`,
      record: { name: 'Attic', ceilingHeight: 2400 * MM },
      ...(next() < 0.5 ? { position: pick([0, 1, 9]) } : {}),
    }),
    changeLevel: () => ({ set: pick([{ name: `Floor ${step}` }, { ceilingHeight: length(3000) }]) }),
    moveLevel: () => ({ position: pick([0, 1, 2]) }),
    deleteLevel: () => ({}),
    addProfile: () => ({ profile: `p${step}x`, record: profile(pick(['base', 'shoe', 'casing', 'crown'])) }),
    changeProfile: () => ({
      profile: some(plan.profiles, 'p9'),
      set: pick<() => object>([
        () => ({ height: pick([null, length(200)]) }),
        () => ({ kind: pick(['base', 'shoe']), name: 'Changed' }),
        () => ({ stock: [], scarf: pick([null, false]), edgeThickness: pick([null, 9 * MM]) }),
      ])(),
    }),
    renameProfile: () => ({ profile: some(plan.profiles, 'p9'), to: `q${step}` }),
    deleteProfile: () => ({
      profile: some(plan.profiles, 'p9'),
      ...(next() < 0.6 ? { instead: pick([null, some(plan.profiles, 'p9')]) } : {}),
    }),
    setSettings: () => ({
      set: pick([
        { voidAreaM2: pick([0, 1, 5, null]) },
        { kerf: length(5), buildUpDeg: 1.25 },
        { roundIn: pick([8, null, 5]) },
      ]),
    }),
    setPlan: () => ({
      set: pick([
        { title: `Title ${step}` },
        { units: 'imperial' },
        { builtYear: pick([null, 1960]) },
        { studs: pick([null, { spacing: length(600) }]) },
      ]),
    }),
    setStockOnHand: () => ({
      profile: some(plan.profiles, 'p9'),
      boards: readings().map(({ at }) => ({ length: at, count: 2 })),
    }),
    holdBoard: () => ({
      profile: some(plan.profiles, 'p9'),
      board: {
        length: length(4000),
        onHand: next() < 0.3,
        pieces: [pick(CUT), pick(CUT_TOO)],
        ...(next() < 0.4
          ? {
              was: [{ piece: pick(CUT), length: length(3000) }],
              joints: [{ corner: 2, line: 'base', stretch: 'corner..o1', from: 'right', at: [length(3000)] }],
            }
          : {}),
      },
    }),
    letGoBoard: () => ({
      profile: some(plan.profiles, 'p9'),
      piece: pick([...heldPieces(plan), 'o1.left.head']),
    }),
    letGoBoards: () => ({ profile: some(plan.profiles, 'p9') }),
    changeWalls: () => ({
      walls: [wall(), wall()],
      set: pick<() => object>([
        () => ({ thickness: thickness() }),
        () => ({ height: pick([null, 900 * MM]) }),
        () => ({ faces: { left: pick([null, 'masonry']), right: pick([null, 'plaster']) } }),
      ])(),
    }),
    moveNodes: () => ({
      nodes: [some(of.nodes, 'n1'), some(of.nodes, 'n1')],
      by: pick([
        [0, 0],
        [600 * MM, 0],
        [1, -1],
      ]),
      turnDeg: pick([0, 90, 180, 17]),
      about: place(),
    }),
    setClearDistance: () => {
      const lying = Object.entries(of.walls).flatMap(([id, { from, to }]) => {
        const [a, b] = [of.nodes[from]!, of.nodes[to]!];
        return a[1] === b[1] ? [{ id, y: a[1], east: b[0] > a[0] }] : [];
      });
      const [one, other] = [pick(lying), pick(lying)];
      if (one === undefined || other === undefined || next() < 0.1) {
        const face = () => ({ wall: wall(), side: side() });
        return { stays: face(), moves: face(), distance: length(5000) };
      }
      // The side that looks down the sheet is the right one of a wall that runs east.
      const down = (each: { east: boolean }) => (each.east ? 'right' : 'left');
      const up = (each: { east: boolean }) => (each.east ? 'left' : 'right');
      const below = other.y > one.y;
      return {
        stays: { wall: one.id, side: below ? down(one) : up(one) },
        moves: { wall: other.id, side: below ? up(other) : down(other) },
        distance: length(5000),
      };
    },
    pasteWalls: () => {
      const walls = (Object.keys(of.walls) as WallId[]).filter(() => next() < 0.6);
      return {
        level: pick(plan.levels).id,
        source: copiedPart(of, walls, plan),
        place: {
          by: pick([
            [5000 * MM, 0],
            [100 * MM, 0],
            [0, 3000 * MM],
            [0, 0],
          ]),
          turnDeg: pick([0, 0, 90, 30]),
          mirror: next() < 0.4,
          about: place(),
        },
      };
    },
    placeWalls: () => ({
      walls: next() < 0.5 ? Object.keys(of.walls) : Object.keys(of.walls).filter(() => next() < 0.6),
      place: {
        by: pick([
          [0, 0],
          [100 * MM, 0],
        ]),
        turnDeg: pick([0, 0, 90, 30]),
        mirror: next() < 0.6,
        about: place(),
      },
    }),
    addChain: () => ({
      points: Array.from({ length: 2 + Math.floor(next() * 3) }, place),
      closed: next() < 0.4,
      along: pick(['inside', 'centre', 'outside']),
      thickness: thickness(),
      ...(next() < 0.3
        ? { measured: [1000 * MM, null, 2000 * MM], room: { id: `c${step}`, record: { name: 'Chain' } } }
        : {}),
    }),
    addRoomByCorners: () => ({
      from: place(),
      to: place(),
      along: pick(['inside', 'centre', 'outside']),
      thickness: thickness(),
      ...(next() < 0.5 ? { room: { id: `d${step}`, record: { name: 'Drawn' } } } : {}),
    }),
  };
  const chance = next();
  if (chance < 0.25) {
    const edit = randomEdit(plan, next, step);
    return edit.type === 'patch' ? edit : ({ ...edit, level: plan.levels[0]!.id } as Edit);
  }
  if (chance < 0.29) {
    const edits = [anyEdit(plan, next, step * 10 + 1000), anyEdit(plan, next, step * 10 + 1001)];
    return { type: 'several', edits, ...(next() < 0.5 ? { words: 'two things' } : {}) };
  }
  const type = pick(Object.keys(makers));
  return { level: of.id, type, ...makers[type]!() } as unknown as Edit;
}

/** Every kind of edit that the generator makes. */
export const ALL_TYPES = [
  'addWall',
  'moveNode',
  'moveWall',
  'splitWall',
  'joinWalls',
  'deleteWall',
  'patch',
  'several',
  'addOpening',
  'changeOpening',
  'deleteOpening',
  'addBuiltIn',
  'changeBuiltIn',
  'deleteBuiltIn',
  'addMark',
  'changeMark',
  'deleteMark',
  'addRoom',
  'changeRoom',
  'deleteRoom',
  'setTrim',
  'setCorner',
  'setFace',
  'addLevel',
  'changeLevel',
  'moveLevel',
  'deleteLevel',
  'addProfile',
  'changeProfile',
  'renameProfile',
  'deleteProfile',
  'setSettings',
  'setPlan',
  'setStockOnHand',
  'holdBoard',
  'letGoBoard',
  'letGoBoards',
  'changeWalls',
  'moveNodes',
  'setClearDistance',
  'pasteWalls',
  'placeWalls',
  'addChain',
  'addRoomByCorners',
] as const;
