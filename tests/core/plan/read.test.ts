import { describe, expect, it } from 'vitest';
import {
  DEFAULT_SETTINGS,
  emptyPlan,
  MAX_PLAN_BYTES,
  MAX_WALLS,
  mustLookup,
  type Plan,
  type PlanError,
  readPlan,
  readPlanBytes,
  settingsOf,
  writePlan,
} from '../../../core/plan/index.ts';
import { exampleFile, exampleText } from './example.ts';

type Example = ReturnType<typeof exampleFile>;
type Loose = Record<string, unknown>;

function read(text: string): Plan {
  const answer = readPlan(text);
  if (!answer.ok) throw new Error(answer.error.message);
  return answer.plan;
}

function refusal(change: (file: Example) => void): PlanError {
  const file = exampleFile();
  change(file);
  const answer = readPlan(JSON.stringify(file, null, 2));
  if (answer.ok) throw new Error('the changed example was read');
  return answer.error;
}

const level = (file: Example) => file.levels[0]!;

describe('a plan that is read', () => {
  it('[PL4] the example of the plan file, in ticks, with null for absent and none kept apart', () => {
    const plan = read(exampleText());
    const first = plan.levels[0]!;
    const wall = mustLookup(first.walls, 'w1');
    expect(wall.thickness).toBe(114.3 * 320);
    expect(Object.keys(wall)).toEqual(['from', 'to', 'thickness', 'faces']);
    expect(mustLookup(first.nodes, 'n2')).toEqual([1_365_504, 0]);
    expect(mustLookup(first.rooms, 'r1').trim).toEqual({
      base: 'base-a',
      shoe: null,
      crown: null,
      chairRail: null,
      pictureRail: null,
    });
    expect(mustLookup(first.faces, 'w1:right').trim).toEqual({ base: null });
    expect(mustLookup(first.corners, 'n2:w1>w2').number).toBe(7);
    expect(settingsOf(plan)).toEqual(DEFAULT_SETTINGS);
  });

  it('[PL4] every optional part may be left out', () => {
    const least = { format: 'copewright-plan', version: 1, title: '', units: 'metric', levels: [] };
    expect(read(JSON.stringify(least))).toEqual({
      ...least,
      settings: {},
      profiles: {},
      stockOnHand: {},
      heldBoards: {},
      counters: { corner: 0 },
    });
  });

  it('[PL4] null equals absent in every field that may be left out, and an absent casing stays unknown', () => {
    const file = exampleFile();
    const opening = level(file).openings.o1 as Loose;
    opening.casing = { left: null };
    (level(file).rooms.r1 as Loose).old = null;
    (file as Loose).builtYear = null;
    (file as Loose).studs = null;
    (level(file).walls.w1 as Loose).faces = { left: null };
    const plan = read(JSON.stringify(file));
    expect('builtYear' in plan || 'studs' in plan).toBe(false);
    expect('old' in mustLookup(plan.levels[0]!.rooms, 'r1')).toBe(false);
    expect(mustLookup(plan.levels[0]!.walls, 'w1').faces).toEqual({});
    expect(mustLookup(plan.levels[0]!.openings, 'o1').casing).toEqual({ left: null });
  });

  it('[UN2, PL4] lengths go to the nearest tick, wall thickness to an even number of them', () => {
    const file = exampleFile();
    level(file).nodes.n1 = [0.0015625, -0.0015625];
    level(file).walls.w1.thickness = 100.0046875; // 32001.5 ticks
    level(file).openings.o1.reveal = 4.7625;
    const first = read(JSON.stringify(file)).levels[0]!;
    expect(mustLookup(first.nodes, 'n1')).toEqual([1, -1]);
    expect(mustLookup(first.walls, 'w1').thickness).toBe(32_002);
    expect(mustLookup(first.openings, 'o1').reveal).toBe(12 * 127);
  });

  it('[PL4] ids may be named like parts of every object', () => {
    const file = exampleFile();
    const here = level(file) as unknown as { nodes: Loose; walls: Loose };
    Object.assign(here.nodes, { constructor: [0, 500], toString: [500, 500] });
    Object.assign(here.walls, { hasOwnProperty: { from: 'constructor', to: 'toString', thickness: 100 } });
    expect(mustLookup(read(JSON.stringify(file)).levels[0]!.walls, 'hasOwnProperty').from).toBe(
      'constructor',
    );
    const error = refusal((bad) => {
      (level(bad).walls.w1 as Loose).to = 'valueOf';
    });
    expect(error.message).toContain('there is no node "valueOf" on this level');
  });

  it('[PL6] a counter that is too low is raised, one that is higher is kept', () => {
    const file = exampleFile();
    file.counters.corner = 3;
    expect(read(JSON.stringify(file)).counters.corner).toBe(7);
    file.counters.corner = 12;
    expect(read(JSON.stringify(file)).counters.corner).toBe(12);
  });

  it('[PL5, PL6] what is mended or noted later is no error: zero-length walls, records that fit nothing', () => {
    const file = exampleFile();
    (level(file).walls as Loose).w2 = { from: 'n1', to: 'n1', thickness: 100 };
    (level(file).corners as Loose)['n9:w8>w9#1'] = { number: 8 };
    (level(file).faces as Loose)['w9:left'] = { measured: 100 };
    read(JSON.stringify(file));
  });

  it('[PL6] an opening may touch both ends of its wall, at any angle, but not pass them', () => {
    const file = exampleFile();
    level(file).nodes.n2 = [3000.1, 1999.9];
    const length = Math.hypot(3000.1, 1999.9);
    level(file).openings.o1.at = 0;
    level(file).openings.o1.width = length;
    read(JSON.stringify(file));
    level(file).openings.o1.width = length + 0.02;
    expect(readPlan(JSON.stringify(file)).ok).toBe(false);
  });

  it('[PL1] bytes: a byte order mark is left out, positions count from after it', () => {
    const bytes = new TextEncoder().encode(exampleText());
    expect(readPlanBytes(bytes)).toEqual(readPlan(exampleText()));
    expect(readPlanBytes(new Uint8Array([0xef, 0xbb, 0xbf, ...bytes]))).toEqual(readPlan(exampleText()));
    expect(readPlan('\ufeff{x')).toMatchObject({ error: { line: 1, column: 2 } });
  });

  it('[PL9] a new plan reads back, in both units', () => {
    for (const units of ['imperial', 'metric'] as const) {
      expect(read(writePlan(emptyPlan(units)))).toEqual(emptyPlan(units));
    }
  });
});

describe('a plan that is refused', () => {
  it.each<[string, (file: Example) => void, string, RegExp]>([
    [
      'PL4 wrong type',
      (f) => Object.assign(level(f).walls.w1, { thickness: 'thick' }),
      'levels[0].walls.w1.thickness',
      /found "thick" where there should be a number/,
    ],
    [
      'PL4 missing',
      (f) => delete (level(f).walls.w1 as Loose).thickness,
      'levels[0].walls.w1',
      /"thickness" is missing/,
    ],
    [
      'PL4 unknown key',
      (f) => Object.assign(level(f).walls.w1, { thicknes: 1 }),
      'levels[0].walls.w1.thicknes',
      /the key "thicknes" is not known here; known keys are from, to, thickness/,
    ],
    [
      'PL4 unknown key in an optional record',
      (f) => Object.assign(level(f).rooms.r1.old, { colour: 1 }),
      'levels[0].rooms.r1.old.colour',
      /known keys are baseHeight, floor, gap/,
    ],
    [
      'PL4 bad id',
      (f) => Object.assign(level(f).nodes, { '1n': [0, 0] }),
      'levels[0].nodes["1n"]',
      /should be an id/,
    ],
    [
      'PL4 bad corner key',
      (f) => Object.assign(level(f).corners, { 'n1:w1': {} }),
      'levels[0].corners["n1:w1"]',
      /should be a corner key/,
    ],
    [
      'PL4 bad segment key',
      (f) => Object.assign(level(f).faces, { w1: {} }),
      'levels[0].faces.w1',
      /should be a segment key/,
    ],
    [
      'PL4 setting outside its list',
      (f) => Object.assign(f.settings, { roundIn: 7 }),
      'settings.roundIn',
      /one of 8, 16, 32, 64/,
    ],
    [
      'PL4 beyond 1 km',
      (f) => Object.assign(level(f).nodes, { n1: [1e7, 0] }),
      'levels[0].nodes.n1[0]',
      /not above 1000000/,
    ],
    [
      'PL4 half a position',
      (f) => Object.assign(level(f).nodes, { n1: [1] }),
      'levels[0].nodes.n1',
      /a list of at least 2/,
    ],
    [
      'PL4 null where a value must be',
      (f) => Object.assign(level(f).walls, { w1: null }),
      'levels[0].walls.w1',
      /found null/,
    ],
    ['PL4 a line end in a name', (f) => Object.assign(f, { title: 'a\nb' }), 'title', /text on one line/],
    [
      'PL4 a newer version',
      (f) => Object.assign(f, { version: 2 }),
      'version',
      /made by a newer version .* left as it is/,
    ],
    ['PL4 a version that never was', (f) => Object.assign(f, { version: 0 }), 'version', /found 0/],
    ['PL4 another format', (f) => Object.assign(f, { format: 'copewright-report' }), 'format', /not a plan/],
    [
      'PL5 a node that is not there',
      (f) => Object.assign(level(f).walls.w1, { to: 'n9' }),
      'levels[0].walls.w1.to',
      /no node "n9"/,
    ],
    [
      'PL5 an opening in no wall',
      (f) => Object.assign(level(f).openings.o1, { wall: 'w9' }),
      'levels[0].openings.o1.wall',
      /no wall "w9"/,
    ],
    [
      'PL5 a built-in at no wall',
      (f) => Object.assign(level(f).builtIns.b1, { wall: 'w9' }),
      'levels[0].builtIns.b1.wall',
      /no wall "w9"/,
    ],
    [
      'PL5 a mark at no wall',
      (f) => Object.assign(level(f).marks.k1, { wall: 'w9' }),
      'levels[0].marks.k1.wall',
      /no wall "w9"/,
    ],
    [
      'PL5 an entry that is not there',
      (f) => Object.assign(level(f).rooms.r1, { entry: 'o9' }),
      'levels[0].rooms.r1.entry',
      /no opening "o9"/,
    ],
    [
      'PL5 casing of another kind',
      (f) => Object.assign(level(f).openings.o1.casing, { left: 'base-a' }),
      'levels[0].openings.o1.casing.left',
      /of kind "base", where one of kind "casing"/,
    ],
    [
      'PL5 room trim of another kind',
      (f) => Object.assign(level(f).rooms.r1.trim, { shoe: 'base-a' }),
      'levels[0].rooms.r1.trim.shoe',
      /where one of kind "shoe"/,
    ],
    [
      'PL5 face trim that is not there',
      (f) => Object.assign(level(f).faces['w1:right'].trim, { base: 'x' }),
      'levels[0].faces["w1:right"].trim.base',
      /no profile "x" in this plan/,
    ],
    [
      'PL5 stock of no profile',
      (f) => Object.assign(f.stockOnHand, { x: [] }),
      'stockOnHand.x',
      /no profile "x"/,
    ],
    [
      'PL5 boards held of no profile',
      (f) => Object.assign(f, { heldBoards: { x: [] } }),
      'heldBoards.x',
      /no profile "x"/,
    ],
    [
      'PL10 a piece on two held boards',
      (f) =>
        Object.assign(f, {
          heldBoards: {
            'base-a': [
              { length: 3657.6, onHand: false, pieces: ['7A', '7B'] },
              { length: 3657.6, onHand: true, pieces: ['9A', '7B'] },
            ],
          },
        }),
      'heldBoards.base-a[1].pieces[1]',
      /the piece "7B" is already held at heldBoards\.base-a\[0\]\.pieces\[1\]; each piece is cut from one board\./,
    ],
    [
      'PL10 what a piece was that is not on the board',
      (f) =>
        Object.assign(f, {
          heldBoards: {
            'base-a': [
              { length: 3657.6, onHand: false, pieces: ['7A'], was: [{ piece: '7B', length: 900 }] },
            ],
          },
        }),
      'heldBoards.base-a[0].was[0].piece',
      /the piece "7B" is not one of this board, or is told of twice/,
    ],
    [
      'PL4 a held board without pieces',
      (f) => Object.assign(f, { heldBoards: { 'base-a': [{ length: 3657.6, onHand: false, pieces: [] }] } }),
      'heldBoards.base-a[0].pieces',
      /a list of at least 1/,
    ],
    [
      'PL4 a held piece with a name that no report gives',
      (f) =>
        Object.assign(f, { heldBoards: { 'base-a': [{ length: 3657.6, onHand: false, pieces: ['?'] }] } }),
      'heldBoards.base-a[0].pieces[0]',
      /the name of a piece as the report has it, such as "7A"/,
    ],
    [
      'PL5 a casing without width',
      (f) => delete (f.profiles['case-a'] as Loose).width,
      'profiles.case-a',
      /needs its "width"/,
    ],
    [
      'PL5 a base without height',
      (f) => delete (f.profiles['base-a'] as Loose).height,
      'profiles.base-a',
      /needs its "height"/,
    ],
    [
      'PL5 a crown without sizes',
      (f) => Object.assign(f.profiles['base-a'], { kind: 'crown' }),
      'profiles.base-a',
      /"projection" and "drop"/,
    ],
    [
      'PL5 a built-in upside down',
      (f) => Object.assign(level(f).builtIns.b1, { bottom: 901 }),
      'levels[0].builtIns.b1.top',
      /below the bottom, 901 mm/,
    ],
    [
      'PL6 an opening past its wall',
      (f) => Object.assign(level(f).openings.o1, { at: 4000 }),
      'levels[0].openings.o1.at',
      /ends 4812.8 mm along a wall of 4267.2 mm/,
    ],
    [
      'PL6 a corner number twice',
      (f) => Object.assign(level(f).corners, { 'n1:w1>w1#0': { number: 7 } }),
      'levels[0].corners["n2:w1>w2"].number',
      /number 7 is already given at levels\[0\].corners\["n1:w1>w1#0"\]/,
    ],
    [
      'PL6 a level id twice',
      (f) => f.levels.push({ ...level(f), corners: {} as never }),
      'levels[1].id',
      /already that of levels\[0\]/,
    ],
  ])('[%s]', (_name, change, path, message) => {
    const error = refusal(change);
    expect(error.message).toMatch(message);
    expect(error.path).toBe(path);
    expect(error.message).toContain(`${error.line}:${error.column}`);
    expect(error.message).toMatch(/^[^\n]+\.$/);
  });

  it('[PL6] a corner number may not come back on another level either', () => {
    const error = refusal((file) => {
      file.levels.push({ ...structuredClone(level(file)), id: 'L2' });
    });
    expect(error.message).toMatch(/number 7 is already given at levels\[0\]/);
  });

  it('[PL2] the place is the line and column in the text as it stands', () => {
    const text = exampleText().replace('"thickness": 114.3', '"thickness": "x"');
    const answer = readPlan(text);
    if (answer.ok) throw new Error('was read');
    const line = text.split('\n')[answer.error.line! - 1]!;
    expect(line.slice(answer.error.column! - 1)).toMatch(/^"x"/);
  });

  it('[PL2] files that are too large or hold too many walls', () => {
    expect(readPlanBytes(new Uint8Array(MAX_PLAN_BYTES + 1))).toMatchObject({
      ok: false,
      error: { message: expect.stringMatching(/^The file is larger than 64 MiB/), path: null },
    });
    const walls = Object.fromEntries(Array.from({ length: MAX_WALLS + 1 }, (_, k) => [`w${k}`, 0]));
    expect(refusal((file) => Object.assign(level(file), { walls }))).toMatchObject({
      path: 'levels[0].walls',
      message: expect.stringMatching(/100001 walls/),
    });
  });

  it.each<[string, (level: Loose) => void, RegExp]>([
    [
      'every wall of 100,000 wrong',
      (l) => {
        l.walls = Object.fromEntries(Array.from({ length: MAX_WALLS }, (_, k) => [`w${k}`, {}]));
      },
      /^levels\[0\]\.walls\.w\d+ /,
    ],
    [
      'only the last of 100,000 nodes wrong',
      (l) => {
        const nodes = Array.from({ length: 100_000 }, (_, k) => [`m${k}`, k < 99_999 ? [k, 0] : [k, 'x']]);
        Object.assign(l.nodes as Loose, Object.fromEntries(nodes));
      },
      /^levels\[0\]\.nodes\.m99999\[1\] .*found "x"/,
    ],
    [
      'one reading wrong among many',
      (l) => {
        const floor: unknown[] = Array.from({ length: 9_000 }, (_, k) => ({ at: k, height: 0 }));
        floor[8_321] = { at: 0 };
        l.faces = { 'w1:left': { floor } };
      },
      /^levels\[0\]\.faces\["w1:left"\]\.floor\[8321\] .*"height" is missing/,
    ],
    [
      'a bad key among many',
      (l) => {
        for (let k = 0; k < 20_000; k++) (l.nodes as Loose)[`m${k}`] = [0, 0];
        (l.nodes as Loose)['m 1'] = [0, 0];
      },
      /^levels\[0\]\.nodes\["m 1"\] .*should be an id/,
    ],
    [
      'a large record where a list should be',
      (l) => {
        l.faces = {
          'w1:left': { floor: Object.fromEntries(Array.from({ length: 9_000 }, (_, k) => [`a${k}`, 0])) },
        };
      },
      /^levels\[0\]\.faces\["w1:left"\]\.floor .*found a record in braces where there should be a list/,
    ],
    [
      'a large list under a key that is not known',
      (l) => {
        l.extra = Array.from({ length: 9_000 }, () => 0);
      },
      /^levels\[0\]\.extra .*not known here/,
    ],
  ])('[PL4] a large plan: %s', (_name, change, message) => {
    expect(refusal((file) => change(level(file) as unknown as Loose)).message).toMatch(message);
  });

  it('[PL4] a large plan without fault is read', () => {
    const file = exampleFile();
    const nodes = Array.from({ length: 5_000 }, (_, k) => [`m${k}`, [k * 10, 0]]);
    const walls = nodes.slice(1).map(([id], k) => [`v${k}`, { from: `m${k}`, to: id, thickness: 100 }]);
    Object.assign(level(file).nodes, Object.fromEntries(nodes));
    Object.assign(level(file).walls, Object.fromEntries(walls));
    expect(Object.keys(read(JSON.stringify(file)).levels[0]!.walls)).toHaveLength(5_000);
  });

  it('[PL2] an empty file, one of zeros, and one of another kind', () => {
    for (const bytes of [new Uint8Array(), new Uint8Array(100), Buffer.from('%PDF-1.7\n%âã', 'latin1')]) {
      expect(readPlanBytes(bytes)).toMatchObject({
        ok: false,
        error: { message: expect.stringMatching(/^\d+:\d+: /) },
      });
    }
  });
});
