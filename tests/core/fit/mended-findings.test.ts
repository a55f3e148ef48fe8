// Findings and words that were wrong once: what really runs into a sill, plinths that crowd, records of a face that are
// not used, stock that is all used up, a gap under the base in words, and plain wording. Hand-worked figures, mm.

import { beforeAll, describe, expect, it } from 'vitest';
import { roomNotes, scribeRuns, scribeWords, solveScribe } from '../../../core/fit/index.ts';
import type { Solver } from '../../../core/fit/types.ts';
import { derive } from '../../../core/report/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { joint } from '../trim/houses.ts';
import { all, bundleOf, type Change, DOOR, found, inch, one, PROFILES, planOf, profiles } from './house.ts';

const OUT = inch(3 / 16 + 2.75);
const along = (face: number): number => face + 50;
const MM = 320;
const SHOD = { trim: { base: 'base', shoe: 'shoe' } } as const;

describe('sill-hit', () => {
  const window = (sill: number): Change['openings'] => ({
    o1: { ...DOOR, kind: 'window', sill, height: 1200 },
  });

  it('[FD15] not on a base that breaks at the window; on a shoe that runs past under it, into its lower casing', () => {
    // Sill 80: the base (139.7) breaks there. Lower casing from 80 − 74.6125 = 5.3875: the shoe's top of 19.05 is 13.6625 in it.
    const hits = all('sill-hit', { openings: window(80), room: SHOD });
    expect(hits.map((each) => each.about)).toEqual([['o1', 'shoe']]);
    expect(hits[0]!.figures.overlapMm).toBeCloseTo(13.6625, 2);
    expect(hits[0]!.message).toMatch(/^The shoe's top runs .* window o1\.$/);
    expect(all('sill-hit', { openings: window(80) })).toEqual([]);
    // Sill 19: both lines break.
    expect(all('sill-hit', { openings: window(19), room: SHOD })).toEqual([]);
    // Sill 200: lower casing from 125.3875; only the base reaches it.
    expect(all('sill-hit', { openings: window(200), room: SHOD }).map((each) => each.about)).toEqual([
      ['o1', 'base'],
    ]);
  });
});

describe('casing-crowded', () => {
  const plinth = { width: 100, thickness: 25, height: 200 };
  it('[FD6] a plinth block over a corner and over a built-in, and how much to rip', () => {
    // Hole edge at 90, reveal 4.7625: the block reaches 14.7625 past the corner; the casing (69.85) stays short of it.
    const change: Change = {
      openings: { o1: { ...DOOR, at: along(90), plinth } },
      builtIns: {
        b1: {
          wall: 'w1',
          side: 'right',
          at: along(90 + 800 + 80),
          width: 500,
          bottom: 0,
          top: 900,
          kind: 'cabinet',
        },
      },
    };
    const told = all('casing-crowded', change);
    expect(told.map((each) => each.about)).toEqual([
      ['o1', 'corner 4'],
      ['o1', 'b1'],
    ]);
    expect(told[0]!.figures.ripMm).toBeCloseTo(14.7625, 2);
    expect(told[0]!.message).toContain('The plinth block of door o1 overlaps corner 4');
    expect(told[0]!.remedies[0]).toMatch(/^Rip .* off the plinth block/);
    // 4.7625 + 100 − 80 = 24.7625 over the cabinet.
    expect(told[1]!.figures.ripMm).toBeCloseTo(24.7625, 2);
    // A cabinet that begins above the block is clear of it: 200 high on the subfloor.
    const high: Change = {
      openings: { o1: { ...DOOR, at: along(500), plinth } },
      builtIns: {
        b1: {
          wall: 'w1',
          side: 'right',
          at: along(500 + 800 + 80),
          width: 500,
          bottom: 200,
          top: 900,
          kind: 'cabinet',
        },
      },
    };
    expect(all('casing-crowded', high)).toEqual([]);
  });

  it('[FD6] plinth blocks of two doors: one finding, of the greatest overlap with a block', () => {
    // Between the holes 190: casings need 2 × 74.6125 = 149.225, blocks 2 × 104.7625 = 209.525: 19.525 too much.
    const two: Change = {
      openings: { o1: { ...DOOR, at: 700, plinth }, o2: { ...DOOR, at: 1690, plinth } },
    };
    const finding = one('casing-crowded', two);
    expect(finding.figures.ripMm).toBeCloseTo(19.525, 2);
    expect(finding.message).toContain('The plinth block of door o1 overlaps that of door o2');
  });

  it('[FD6] names the part that has no room: the head over a door, not its leg', () => {
    const stacked: Change = {
      openings: {
        o1: DOOR,
        t1: { ...DOOR, kind: 'window', sill: 2100, height: 200 },
      },
    };
    expect(one('casing-crowded', stacked).remedies[0]).toContain('leave that head casing out');
  });
});

describe('record-unused', () => {
  it('[FD21] measured stretches that no line has, or on a face without one; not those of a stub that makes no board', () => {
    const stale = one('record-unused', {
      faces: { 'w1:right': { stretches: { 'corner..oX': 500, 'oX..corner': 9 } } },
    });
    expect(stale).toMatchObject({ severity: 'look', about: ['w1:right', 'corner..oX', 'oX..corner'] });
    expect(stale.message).toBe(
      'On the wall from corner 4 to corner 1 the measured stretches corner to oX and oX to corner are not used: no such stretches are there.',
    );
    const bare = one('record-unused', {
      faces: { 'w1:right': { stretches: { 'corner..corner': 500 }, trim: { base: null } } },
    });
    expect(bare.message).toContain('no base or shoe is laid out on it');
    expect(
      all('record-unused', { faces: { 'w1:right': { stretches: { 'corner..corner': 4000 } } } }),
    ).toEqual([]);
    const stub: Change = {
      openings: { o1: { ...DOOR, at: along(OUT + 5) } },
      faces: { 'w1:right': { stretches: { 'corner..o1': 5 } } },
    };
    expect(all('record-unused', stub)).toEqual([]);
  });

  it('[FD21] readings more than 25 mm past the face as drawn or measured, whichever is longer', () => {
    const read = (at: number, measured?: number): Change => ({
      faces: { 'w1:right': { ...(measured ? { measured } : {}), floor: [{ at, height: 0 }] } },
    });
    expect(all('record-unused', read(4025))).toEqual([]);
    const far = one('record-unused', read(4026));
    expect(far.message).toContain('the reading of the floor at');
    expect(far.figures).toMatchObject({ readings: 1, faceMm: 4000 });
    expect(all('record-unused', read(4030, 4010))).toEqual([]);
    expect(all('record-unused', read(4036, 4010))).toHaveLength(1);
    expect(all('record-unused', read(-26))).toHaveLength(1);
  });
});

describe('stock-none', () => {
  const usedUp = (scarf: boolean, more: object = {}): Change => ({
    plan: { ...profiles({ base: { scarf, stock: [{ length: 4876.8, price: null, onHand: 0 }] } }), ...more },
  });
  it('[FD16] all lengths used up and none on hand: told once for the line, scarf or no scarf', () => {
    for (const scarf of [true, false]) {
      const finding = one('stock-none', usedUp(scarf));
      expect(finding.severity).toBe('stop');
      expect(finding.about).toHaveLength(5);
      expect(finding.message).toMatch(
        /^There is nothing to cut boards .* from: every length listed for "Eased base" is used up and none is on hand\.$/,
      );
      expect(
        all('stock-none', usedUp(scarf, { stockOnHand: { base: [{ length: 5000, count: 9 }] } })),
      ).toEqual([]);
    }
  });

  it('[FD16] a casing whose stock is used up', () => {
    const change: Change = {
      openings: { o1: DOOR },
      plan: profiles({ casing: { stock: [{ length: 3000, price: null, onHand: 0 }] } }),
    };
    expect(one('stock-none', change).message).toContain('nothing to cut the casing of door o1 from');
  });

  it('names the moulding, not its id', () => {
    const short: Change = {
      plan: profiles({ base: { scarf: false, stock: [{ length: 3000, price: null, onHand: null }] } }),
    };
    expect(all('stock-none', short)[0]!.message).toContain('the longest "Eased base" is');
  });
});

describe('other findings', () => {
  it('[FD5] the taller board is proposed to run through only where one is taller and does not yet', () => {
    const tall = (height: number, lines?: object): Change => ({
      plan: profiles({ tall: { kind: 'base', height: inch(height) } }),
      faces: { 'w2:right': { trim: { base: 'tall' } } },
      ...(lines ? { corners: { 'n2:w1>w2': { number: 1, lines } } } : {}),
    });
    const remedies = (change: Change) =>
      all('height-change', change)
        .find((each) => each.about[0] === 'corner 1')!
        .remedies.join(' ');
    expect(remedies(tall(7.25))).toContain('taller board run through');
    expect(remedies(tall(5.5))).not.toContain('taller board run');
    expect(remedies(tall(7.25, { base: { joint: 'cope' } }))).not.toContain('taller board run');
    expect(remedies(tall(7.25, { base: { joint: 'cope', coped: 'after' } }))).toContain(
      'taller board run through',
    );
  });

  it('[FD2] no back band is proposed for a plinth block', () => {
    const proud: Change = {
      openings: { o1: { ...DOOR, plinth: { width: 80, thickness: 10, height: 200 } } },
    };
    expect(one('base-proud', proud).remedies.join(' ')).not.toContain('back band');
    const flush: Change = {
      openings: { o1: { ...DOOR, plinth: { width: 80, thickness: 13, height: 200 } } },
    };
    expect(one('base-flush', flush).remedies.join(' ')).not.toContain('back band');
    expect(one('base-flush', flush).remedies.join(' ')).toContain('thicker plinth block');
  });

  it('[FD7] a sliver without a casing beside it is not told to widen one', () => {
    // A wall end 40 thick between two outside corners.
    const nib: Change = {
      nodes: {
        n1: [-50, -50],
        n2: [4050, -50],
        n3: [4050, 3050],
        n4: [-50, 3050],
        m: [2000, -50],
        e: [2000, 1000],
      },
      walls: {
        w1: { from: 'n1', to: 'm', thickness: 100 },
        w1b: { from: 'm', to: 'n2', thickness: 100 },
        w2: { from: 'n2', to: 'n3', thickness: 100 },
        w3: { from: 'n3', to: 'n4', thickness: 100 },
        w4: { from: 'n4', to: 'n1', thickness: 100 },
        f: { from: 'm', to: 'e', thickness: 20 },
      },
      corners: {},
      room: { at: [500, 500] },
    };
    const sliver = one('sliver', nib);
    expect(sliver.remedies.join(' ')).not.toContain('casing');
    expect(sliver.remedies[0]).toContain('from the end of a long board');
  });

  it('[FD17] a pocket door whose pocket the plan does not place is unmeasured', () => {
    const finding = one('unmeasured', { openings: { o1: { ...DOOR, kind: 'pocket' } } });
    expect(finding.about).toEqual(['o1']);
    expect(finding.message).toContain('the side to which pocket door o1 slides');
    expect(all('unmeasured', { openings: { o1: { ...DOOR, kind: 'pocket', pocket: 'end' } } })).toEqual([]);
  });

  it('[FD10] the least length of a cope is the same figure in the reason and in the finding', () => {
    const niche: Change = {
      plan: { units: 'metric' },
      nodes: Object.fromEntries(
        [
          [0, 0],
          [2000, 0],
          [2000, 1500],
          [1160, 1500],
          [1160, 1640],
          [1000, 1640],
          [1000, 1500],
          [0, 1500],
        ].map((at, i) => [`n${i + 1}`, at as [number, number]]),
      ),
      walls: Object.fromEntries(
        [1, 2, 3, 4, 5, 6, 7, 8].map((i) => [
          `w${i}`,
          { from: `n${i}`, to: `n${(i % 8) + 1}`, thickness: 20 },
        ]),
      ),
      corners: {},
      room: { at: [1000, 700] },
    };
    const plan = derive(planOf(niche));
    const short = plan.findings.find((each) => each.code === 'cope-short')!;
    const trim = plan.levels[0]!.trims[0]!;
    expect(short.message).toContain('under 152.4 mm');
    expect(joint(trim, Number(short.about[0]!.split(' ')[1]))!.why).toContain('under 152.4 mm');
  });

  it('[FD19] a wall end that touches a wall across is one finding, which says to join it', () => {
    const change: Change = {
      nodes: {
        n1: [-50, -50],
        n2: [4050, -50],
        n3: [4050, 3050],
        n4: [-50, 3050],
        a: [2000, 0],
        b: [2000, 1000],
      },
      walls: {
        w1: { from: 'n1', to: 'n2', thickness: 100 },
        w2: { from: 'n2', to: 'n3', thickness: 100 },
        w3: { from: 'n3', to: 'n4', thickness: 100 },
        w4: { from: 'n4', to: 'n1', thickness: 100 },
        f: { from: 'a', to: 'b', thickness: 100 },
      },
    };
    const told = found(change).filter((each) => each.code === 'too-narrow' || each.code === 'not-closed');
    expect(told.map((each) => each.code)).toEqual(['too-narrow']);
    expect(told[0]!.remedies[0]).toBe('Join the wall end of f to w1.');
    // 200 from the face: it only does not meet.
    const apart: Change = { ...change, nodes: { ...change.nodes, a: [2000, 200] } };
    const free = found(apart).filter((each) => each.code === 'too-narrow' || each.code === 'not-closed');
    expect(free.map((each) => each.code)).toEqual(['not-closed']);
    expect(free[0]!.message).toMatch(/^The end of wall f is .* from wall w1 and does not meet it\.$/);
  });
});

describe('what the crew is told', () => {
  const preparation = (change: Change): string => {
    const plan = planOf(change);
    const bundle = bundleOf(plan);
    return roomNotes(plan, bundle.trims[0]!.room, bundle.trims[0]!, []).preparation.join('\n');
  };
  it('[CA8] a floor at the subfloor is level with it', () => {
    expect(preparation({})).toContain('The new floor is level with the subfloor.');
  });

  it('[CA8] crown and rails are not reckoned, and the sheet says so', () => {
    const plan = {
      profiles: {
        ...PROFILES,
        rail: { ...PROFILES.base!, kind: 'chairRail' as const, name: 'Rail' },
        crown: { ...PROFILES.base!, kind: 'crown' as const, name: 'Crown', projection: 80, drop: 80 },
      },
    };
    expect(preparation({ plan, room: { trim: { base: 'base', chairRail: 'rail' } } })).toContain(
      'Chair rail is chosen here and not reckoned: this version does base and shoe only. The crew measures that line on site.',
    );
    expect(preparation({ plan, room: { trim: { chairRail: 'rail', crown: 'crown' } } })).toContain(
      'Crown and chair rail are chosen here and not reckoned',
    );
    expect(preparation({})).not.toContain('not reckoned');
  });
});

describe('scribing', () => {
  let solver: Solver;
  beforeAll(async () => {
    solver = await loadHighs();
  });
  const scribed = (change: Change) => {
    const plan = planOf(change);
    const bundle = bundleOf(plan);
    const scribes = scribeRuns(plan, bundle.walk, bundle.trims).flatMap((run) => solveScribe(run, solver));
    return { plan, scribe: scribes.find((each) => each.piece === '4A')! };
  };
  /** w1 alone, read at these places. */
  const single = (pairs: [number, number][], more: Change = {}, measured?: number): Change => ({
    ...more,
    faces: {
      'w1:right': { floor: pairs.map(([at, height]) => ({ at, height })), ...(measured ? { measured } : {}) },
      'w2:right': { trim: { base: null } },
      'w3:right': { trim: { base: null } },
      'w4:right': { trim: { base: null } },
    },
    room: { floorDatum: 0, old: null, ...more.room },
  });

  it('[SC8] under carpet the words speak of the floor under the pad and the gap, in one sum', () => {
    const carpet = { new: { floor: 0, gap: inch(0.5), carpet: true } } as const;
    const level = scribed(
      single(
        [
          [0, 0],
          [4000, 0],
        ],
        { room: carpet },
      ),
    );
    expect(scribeWords(level.scribe, level.plan)).toEqual([
      'The floor under board 4A is level.',
      'Nothing to scribe.',
      'Hold it 1⁄2" off the floor under the carpet and its pad, the gap of 1⁄2" included.',
    ]);
    // A hump of 1/2 in in the middle: y = 1/8 in over the gap at both ends, R = 3/8: blocks 1/2 + 3/8 + 1/8 = 1 in and the
    // scriber at 3/8 + 1/2 = 7/8.
    const hump = scribed(
      single(
        [
          [0, 0],
          [2000, inch(0.5)],
          [4000, 0],
        ],
        { room: carpet },
      ),
    );
    expect(scribeWords(hump.scribe, hump.plan).slice(1)).toEqual([
      'Block the left end 1" and the right end 1" off the floor under the carpet and its pad, the gap of 1⁄2" included.',
      'Set the scriber at 7⁄8" (3⁄8" and the gap), draw along the floor under the carpet and its pad and cut to the line: it comes off in its middle, 3⁄8" at the deepest.',
    ]);
  });

  it('[SC1] readings between the drawn and the measured end count, up to the measured end', () => {
    // Drawn 4000, measured 4100: a fall of 6 from 4050 to 4100 is the board's right end.
    const { scribe } = scribed(
      single(
        [
          [0, 0],
          [4050, 0],
          [4100, -6],
        ],
        { plan: { settings: { scribeTolerance: 0 } } },
        4100,
      ),
    );
    expect(scribe.stations.map((each) => each.at / MM)).toEqual([0, 4050, 4100]);
    expect(scribe.stations.map((each) => each.floor / MM)).toEqual([0, 0, -6]);
    // Only a reading at 4050: level from there to the end.
    const last = scribed(
      single(
        [
          [0, 0],
          [4050, -5],
        ],
        {},
        4100,
      ),
    );
    expect(last.scribe.stations.at(-1)).toMatchObject({ at: 4100 * MM, floor: -5 * MM });
    // Measured shorter than drawn: as drawn.
    const shorter = scribed(
      single(
        [
          [0, 0],
          [3990, -5],
        ],
        {},
        3990,
      ),
    );
    expect(shorter.scribe.stations.at(-1)).toMatchObject({ at: 4000 * MM, floor: -5 * MM });
  });

  it('[SC2] what was assumed is a list of single things', () => {
    const { plan, scribe } = scribed(
      single(
        [
          [0, 0],
          [4000, 3],
        ],
        { room: { floorDatum: null, new: null, old: null } },
      ),
    );
    expect(scribe.assumed).toEqual(['the floor datum', 'the new floor height']);
    expect(scribeWords(scribe, plan).at(-1)).toBe(
      'Assumed, not measured: the floor datum and the new floor height. Check before cutting.',
    );
  });
});
