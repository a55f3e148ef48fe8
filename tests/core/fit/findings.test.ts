// One test for each finding: it fires with its figures, and does not fire just on the other side.

import { describe, expect, it } from 'vitest';
import { findingsOf, mendedFinding, planFindings, sortFindings } from '../../../core/fit/index.ts';
import type { Finding } from '../../../core/fit/types.ts';
import type { LevelId } from '../../../core/plan/schema.ts';
import { all, bundleOf, type Change, DOOR, found, inch, one, planOf, profiles } from './house.ts';

const WINDOW = { ...DOOR, kind: 'window', sill: 600, height: 1200 } as const;
/** Reveal and casing together. */
const OUT = inch(3 / 16 + 2.75);
/** Where a distance along w1's inner face lies along its centre line: half a wall more. */
const along = (face: number): number => face + 50;
const codes = (change: Change) => found(change).map((each) => each.code);
const TICK = 1 / 320;

describe('corners', () => {
  it('[FD5] height-change: two profiles that meet in a corner', () => {
    const change: Change = {
      plan: profiles({ tall: { kind: 'base', height: inch(7.25) } }),
      faces: { 'w2:right': { trim: { base: 'tall' } } },
    };
    const findings = all('height-change', change);
    expect(findings.map((each) => each.about[0])).toEqual(['corner 1', 'corner 2']);
    expect(findings[0]).toMatchObject({
      severity: 'fix',
      figures: { beforeMm: inch(5.5), afterMm: inch(7.25) },
    });
    expect(findings[0]!.remedies[0]).toContain('block');
    expect(findings[0]!.remedies[1]).toContain('taller');
    expect(all('height-change', {})).toEqual([]);
    expect(all('height-change', { faces: { 'w2:right': { trim: { base: null } } } })).toEqual([]);
  });

  it('[FD12] angle-odd: measured and drawn differ by more than 5°', () => {
    const measured = (deg: number): Change => ({ corners: { 'n2:w1>w2': { number: 1, measured: deg } } });
    expect(one('angle-odd', measured(95.001))).toMatchObject({ severity: 'look', about: ['corner 1'] });
    expect(one('angle-odd', measured(95.001)).figures.offDeg).toBeCloseTo(5.001, 9);
    expect(one('angle-odd', measured(84.9)).figures.drawnDeg).toBeCloseTo(90, 9);
    expect(all('angle-odd', measured(95))).toEqual([]);
    expect(all('angle-odd', measured(85))).toEqual([]);
  });

  it('[FD9] saw-limit: a mitre beyond 50°, once for both boards', () => {
    // An inside corner of α degrees is mitred at (180 − α) / 2: sharp corners are beyond the saw.
    const sharp = (rise: number): Change => ({
      nodes: { n1: [0, 0], n2: [4000, 0], n3: [0, rise] },
      walls: {
        w1: { from: 'n1', to: 'n2', thickness: 100 },
        w2: { from: 'n2', to: 'n3', thickness: 100 },
        w3: { from: 'n3', to: 'n1', thickness: 100 },
      },
      corners: { 'n2:w1>w2': { number: 1 }, 'n3:w2>w3': { number: 2 }, 'n1:w3>w1': { number: 3 } },
      room: { at: [800, 400] },
      plan: { settings: { buildUpDeg: 0 } },
    });
    const findings = all('saw-limit', sharp(3000));
    expect(findings).toHaveLength(2);
    const [first] = findings;
    expect(first!.severity).toBe('fix');
    expect(first!.about[0]).toMatch(/^corner [12]$/);
    expect(first!.about).toHaveLength(3);
    expect(first!.figures.limitDeg).toBe(50);
    const wide = sharp(3000);
    expect(all('saw-limit', { ...wide, plan: { settings: { buildUpDeg: 0, sawStandingDeg: 75 } } })).toEqual(
      [],
    );
  });

  it('[FD10] cope-short: both boards under 6 in', () => {
    const niche = (width: number, depth: number): Change => ({
      nodes: {
        n1: [0, 0],
        n2: [2000, 0],
        n3: [2000, 1500],
        n4: [1000 + width, 1500],
        n5: [1000 + width, 1500 + depth],
        n6: [1000, 1500 + depth],
        n7: [1000, 1500],
        n8: [0, 1500],
      },
      walls: Object.fromEntries(
        [1, 2, 3, 4, 5, 6, 7, 8].map((i) => [
          `w${i}`,
          { from: `n${i}`, to: `n${(i % 8) + 1}`, thickness: 20 },
        ]),
      ),
      corners: {},
      room: { at: [1000, 700] },
    });
    const findings = all('cope-short', niche(160, 140));
    expect(findings).toHaveLength(2);
    expect(findings[0]).toMatchObject({ severity: 'look', figures: { copeMinMm: 152.4 } });
    expect(all('cope-short', niche(400, 140))).toEqual([]);
  });

  it('[FD11] order-circle: corners chosen so that each board is worked into the next', () => {
    const chosen = (last: 'before' | 'after'): Change => {
      const line = (coped: 'before' | 'after') => ({ lines: { base: { joint: 'cope' as const, coped } } });
      return {
        corners: {
          'n2:w1>w2': { number: 1, ...line('after') },
          'n3:w2>w3': { number: 2, ...line('after') },
          'n4:w3>w4': { number: 3, ...line('after') },
          'n1:w4>w1': { number: 4, ...line(last) },
        },
      };
    };
    const finding = one('order-circle', chosen('after'));
    expect(finding.severity).toBe('stop');
    expect(finding.about).toEqual(
      expect.arrayContaining(['corner 1', 'corner 2', 'corner 3', 'corner 4', '4A']),
    );
    expect(finding.figures.boards).toBe(4);
    expect(all('order-circle', chosen('before'))).toEqual([]);
  });
});

describe('what crowds', () => {
  it('[FD6] casing-crowded: against a corner, by how much', () => {
    const at = (face: number): Change => ({ openings: { o1: { ...DOOR, at: along(face) } } });
    const finding = one('casing-crowded', at(OUT - inch(0.5)));
    expect(finding.severity).toBe('fix');
    expect(finding.figures.ripMm).toBeCloseTo(inch(0.5), 2);
    expect(finding.figures.leftMm).toBeCloseTo(inch(2.25), 2);
    expect(finding.about).toEqual(['o1', 'corner 4']);
    expect(all('casing-crowded', at(OUT))).toEqual([]);
    const right = one('casing-crowded', at(4000 - 800 - OUT + inch(0.25)));
    expect(right.about).toEqual(['o1', 'corner 1']);
    expect(right.figures.ripMm).toBeCloseTo(inch(0.25), 2);
  });

  it('[FD6] casing-crowded: against a built-in, only where they meet in height', () => {
    const item = (over: number, bottom: number): Change => ({
      openings: { o1: DOOR },
      builtIns: {
        b1: {
          wall: 'w1',
          side: 'right',
          at: 1650 + 800 + OUT - over,
          width: 600,
          bottom,
          top: bottom + 700,
          kind: 'cabinet',
        },
      },
    });
    expect(one('casing-crowded', item(10, 0)).figures.ripMm).toBeCloseTo(10, 1);
    expect(one('casing-crowded', item(10, 0)).about).toEqual(['o1', 'b1']);
    expect(all('casing-crowded', item(0, 0))).toEqual([]);
    expect(all('casing-crowded', item(10, 2032 + OUT + 1))).toEqual([]);
  });

  it('[FD6] a radiator under a window crowds nothing; one that reaches its lower casing does', () => {
    const radiator = (top: number): Change => ({
      openings: { o1: WINDOW },
      builtIns: {
        b1: { wall: 'w1', side: 'right', at: 1700, width: 600, bottom: 100, top, kind: 'radiator' },
      },
    });
    expect(all('casing-crowded', radiator(600 - OUT - 1))).toEqual([]);
    expect(one('casing-crowded', radiator(600 - OUT + 8)).figures.ripMm).toBeCloseTo(8, 1);
  });

  it('[FD6] casing-crowded: two casings, one finding; windows one above the other are held by height', () => {
    const two = (between: number): Change => ({
      openings: { o1: { ...DOOR, at: 700 }, o2: { ...DOOR, at: 700 + 800 + between } },
    });
    expect(one('casing-crowded', two(2 * OUT - 6)).about).toEqual(['o1', 'o2']);
    expect(one('casing-crowded', two(2 * OUT - 6)).figures.ripMm).toBeCloseTo(6, 1);
    expect(all('casing-crowded', two(2 * OUT))).toEqual([]);
  });

  it('[FD6] an opening in a corner, its casing not known: no casing has room there', () => {
    const { casing: _, ...bare } = DOOR as typeof DOOR & { casing?: unknown };
    const at = (face: number, more: object = {}): Change => ({
      openings: { o1: { ...bare, ...more, at: along(face) } } as never,
    });
    const said = one('casing-crowded', at(0));
    expect(said).toMatchObject({ severity: 'fix', about: ['o1', 'corner 4'], figures: { gapMm: 0 } });
    expect(said.message).toBe('Door o1 stands right in corner 4: no casing has room on that side.');
    expect(one('casing-crowded', at(4000 - DOOR.width)).about).toEqual(['o1', 'corner 1']);
    expect(all('casing-crowded', at(inch(3 / 16) + TICK))).toEqual([]);
    expect(all('casing-crowded', at(0, { kind: 'passage' }))).toEqual([]);
    expect(all('casing-crowded', at(0, { casing: { right: null } }))).toEqual([]);
  });

  it('[FD22] opening-clash: two openings in one place on a wall, by how much; one above the other they are clear', () => {
    const two = (over: number, more: object = {}): Change => ({
      openings: { o1: { ...DOOR, at: 700 }, o2: { ...DOOR, at: 700 + DOOR.width - over, ...more } },
    });
    const said = one('opening-clash', two(300));
    expect(said).toMatchObject({ severity: 'stop', about: ['o1', 'o2'] });
    expect(said.figures.overlapMm).toBeCloseTo(300, 2);
    expect(said.message).toMatch(/^Door o1 and door o2 overlap by .+: one wall cannot hold both there\.$/);
    expect(all('casing-crowded', two(300)), 'no casing is ripped by more than a foot').toEqual([]);
    expect(all('opening-clash', two(0))).toEqual([]);
    expect(all('casing-crowded', two(0))).toHaveLength(1);
    const above = { ...WINDOW, sill: DOOR.height, height: 200 };
    expect(all('opening-clash', two(300, above))).toEqual([]);
  });

  it('[FD22] opening-clash: past a corner, into the next wall; up to the corner is none', () => {
    const at = (face: number): Change => ({ openings: { o1: { ...DOOR, at: along(face) } } });
    const said = one('opening-clash', at(-30));
    expect(said).toMatchObject({ severity: 'stop', about: ['o1', 'corner 4'] });
    expect(said.figures.overlapMm).toBeCloseTo(30, 2);
    expect(all('casing-crowded', at(-30))).toEqual([]);
    expect(all('opening-clash', at(0))).toEqual([]);
    expect(one('opening-clash', at(4000 - DOOR.width + 20)).about).toEqual(['o1', 'corner 1']);
  });

  it('[FD23] built-in-clash: two built-ins of one face in one place; end to end and one above the other they are clear', () => {
    const box = {
      wall: 'w1',
      side: 'right',
      at: 500,
      width: 900,
      bottom: 0,
      top: 900,
      kind: 'cabinet',
    } as const;
    const two = (over: number, more: object = {}): Change => ({
      builtIns: { b1: box, b2: { ...box, at: box.at + box.width - over, kind: 'radiator', ...more } },
    });
    const said = one('built-in-clash', two(300));
    expect(said).toMatchObject({ severity: 'fix', about: ['b1', 'b2'] });
    expect(said.figures.overlapMm).toBeCloseTo(300, 2);
    expect(said.message).toMatch(/^Cabinet b1 and radiator b2 overlap by .+ along the wall and in height\.$/);
    expect(all('built-in-clash', two(0))).toEqual([]);
    expect(all('built-in-clash', two(300, { bottom: 900, top: 1800 }))).toEqual([]);
    expect(all('built-in-clash', two(300, { side: 'left' }))).toEqual([]);
  });

  it('[FD23] built-in-clash: a built-in before an opening, cased or not; beside it, or under its sill, it is clear', () => {
    const box = (width: number, more: { readonly at?: number; readonly top?: number } = {}) => ({
      ...({ wall: 'w1', side: 'right', kind: 'cabinet', bottom: 0, top: 900 } as const),
      at: DOOR.at - width,
      width,
      ...more,
    });
    for (const door of [DOOR, { ...DOOR, kind: 'passage' as const, casing: null }]) {
      const before = (builtIn: ReturnType<typeof box>): Change => ({
        openings: { o1: door },
        builtIns: { b1: builtIn },
      });
      const said = one('built-in-clash', before(box(600, { at: DOOR.at - 400 })));
      expect(said).toMatchObject({ severity: 'fix', about: ['b1', 'o1'] });
      expect(said.figures.overlapMm).toBeCloseTo(200, 2);
      expect(all('casing-crowded', before(box(600, { at: DOOR.at - 400 })))).toEqual([]);
      expect(all('built-in-clash', before(box(600)))).toEqual([]);
    }
    expect(all('casing-crowded', { openings: { o1: DOOR }, builtIns: { b1: box(600) } })).toHaveLength(1);
    const under: Change = {
      openings: { o1: WINDOW },
      builtIns: { b1: box(600, { at: WINDOW.at, top: WINDOW.sill }) },
    };
    expect(all('built-in-clash', under)).toEqual([]);
  });

  it('[FD23] built-in-clash: cabinets that both go into a corner are none', () => {
    const box = { bottom: 0, top: 900, depth: 600, kind: 'cabinet', side: 'right', width: 1500 } as const;
    const corner: Change = {
      builtIns: { b1: { ...box, wall: 'w1', at: 4000 - 1500 }, b2: { ...box, wall: 'w2', at: 0 } },
    };
    expect(all('built-in-clash', corner)).toEqual([]);
  });

  it('[FD6][FD22][FD23] of many in one place as many are told as there are, not as many as there are pairs', () => {
    const count = 200;
    const many = <T extends object>(id: string, of: (i: number) => T) =>
      Object.fromEntries(Array.from({ length: count }, (_, i) => [`${id}${i}`, of(i)]));
    const box = { wall: 'w1', side: 'right', width: 900, bottom: 0, top: 900, kind: 'cabinet' } as const;
    const doors = many('o', (i) => ({ ...DOOR, at: 700 + i }));
    const slits = many('o', (i) => ({ ...DOOR, at: 300 + 10 * i, width: 5 }));
    const boxes = many('b', (i) => ({ ...box, at: 700 + i }));
    for (const change of [
      { openings: doors },
      { openings: slits },
      { builtIns: boxes },
      { openings: doors, builtIns: boxes },
      { openings: slits, builtIns: boxes },
    ]) {
      const told = found(change as Change).length;
      expect(told).toBeGreaterThan(count / 2);
      expect(told).toBeLessThan(8 * count);
    }
  });

  it('[FD13] pocket-nails: base over the pocket, on both sides of the wall', () => {
    const change: Change = { openings: { o1: { ...DOOR, kind: 'pocket', pocket: 'end' } } };
    const finding = one('pocket-nails', change);
    expect(finding).toMatchObject({ severity: 'fix', about: ['o1', '4B'] });
    expect(finding.figures.nailMm).toBe(inch(1));
    expect(all('pocket-nails', { openings: { o1: DOOR } })).toEqual([]);
    expect(all('pocket-nails', { ...change, room: { trim: {} } })).toEqual([]);
    // The wall between two rooms: a pocket shows on both faces.
    const both = all('pocket-nails', {
      nodes: {
        n1: [0, 0],
        n2: [4000, 0],
        n3: [4000, 3000],
        n4: [0, 3000],
        n5: [4000, -3000],
        n6: [0, -3000],
      },
      walls: {
        w1: { from: 'n1', to: 'n2', thickness: 100 },
        w2: { from: 'n2', to: 'n3', thickness: 100 },
        w3: { from: 'n3', to: 'n4', thickness: 100 },
        w4: { from: 'n4', to: 'n1', thickness: 100 },
        w5: { from: 'n2', to: 'n5', thickness: 100 },
        w6: { from: 'n5', to: 'n6', thickness: 100 },
        w7: { from: 'n6', to: 'n1', thickness: 100 },
      },
      corners: {},
      openings: { o1: { ...DOOR, kind: 'pocket', pocket: 'start' } },
      faces: { 'w1:left': { trim: { base: 'base' } } },
    });
    expect(both).toHaveLength(2);
    expect(new Set(both.map((each) => each.room)).size).toBe(2);
  });

  it('[FD14] outlet-hit: base over a marked outlet or register', () => {
    const mark = (bottom: number, kind: 'outlet' | 'register' = 'outlet', at = 500): Change => ({
      marks: { k1: { wall: 'w1', side: 'right', at, kind, bottom, top: bottom + 115, width: 70 } },
    });
    const finding = one('outlet-hit', mark(inch(5.5) - 3));
    expect(finding).toMatchObject({ severity: 'fix', about: ['k1', 'base'] });
    expect(finding.figures.overlapMm).toBeCloseTo(3, 2);
    expect(finding.remedies.join(' ')).toContain('licensed electrician');
    expect(one('outlet-hit', mark(20, 'register')).message).toContain('register k1');
    expect(all('outlet-hit', mark(inch(5.5)))).toEqual([]);
    // Under the floor, or where no base stands.
    expect(all('outlet-hit', mark(-115))).toEqual([]);
    expect(all('outlet-hit', { ...mark(20), faces: { 'w1:right': { trim: { base: null } } } })).toEqual([]);
    expect(all('outlet-hit', { ...mark(20, 'outlet', 2000), openings: { o1: DOOR } })).toEqual([]);
    // New floor and gap lift the base.
    expect(
      one('outlet-hit', { ...mark(inch(5.5) + 5), room: { new: { floor: 4, gap: 3 } } }).figures.overlapMm,
    ).toBeCloseTo(2, 1);
  });

  it('[FD15] sill-hit: base above the under side of the casing under a window, else of the sill', () => {
    const window = (sill: number, casing: string | null): Change => ({
      openings: { o1: { ...WINDOW, sill, casing: { left: casing, right: casing } } },
    });
    const cased = one('sill-hit', window(inch(5.5) + OUT - 4, 'casing'));
    expect(cased).toMatchObject({ severity: 'fix', about: ['o1', 'base'] });
    expect(cased.figures.overlapMm).toBeCloseTo(4, 1);
    expect(all('sill-hit', window(inch(5.5) + OUT + TICK, 'casing'))).toEqual([]);
    expect(all('sill-hit', window(inch(5.5), null))).toEqual([]);
    // A line that breaks at the window does not run into it.
    expect(all('sill-hit', window(inch(5.5) - 5, null))).toEqual([]);
    expect(all('sill-hit', window(inch(5.5) - 5, 'casing'))).toEqual([]);
    expect(all('sill-hit', { openings: { o1: DOOR } })).toEqual([]);
  });
});

describe('boards', () => {
  it('[FD7] sliver: a piece under 2 in', () => {
    // A door beside the corner leaves a stub of this width between its casing and the corner.
    const stub = (width: number): Change => ({ openings: { o1: { ...DOOR, at: along(OUT + width) } } });
    const finding = one('sliver', stub(inch(1.5)));
    expect(finding).toMatchObject({ severity: 'look', about: ['4A'] });
    expect(finding.figures.lengthMm).toBeCloseTo(inch(1.5), 1);
    expect(all('sliver', stub(inch(2)))).toEqual([]);
  });

  it('[FD8] joint-in-sight: a scarf within 24 in of an end, and one that a longer board would spare', () => {
    const stock = (...lengths: number[]): Change => ({
      plan: profiles({ base: { stock: lengths.map((length) => ({ length, price: null, onHand: null })) } }),
    });
    // 4 m in two parts of 2 m: far from the ends, and no board reaches.
    expect(all('joint-in-sight', stock(2438.4))).toEqual([]);
    // In four parts of 1 m none is near, in seven the first and last are.
    const near = all('joint-in-sight', stock(600));
    expect(near.length).toBeGreaterThan(0);
    for (const finding of near) expect(finding.figures.fromEndMm).toBeLessThan(609.6);
    expect(near[0]!.severity).toBe('look');
  });

  it('[FD8] joint-in-sight: a scarf placed by hand where one board would reach', () => {
    const plan = planOf();
    const bundle = bundleOf(plan);
    const trim = bundle.trims[0]!;
    const line = trim.lines.find((each) => each.line === 'base')!;
    const run = line.runs[0]!;
    const piece = run.pieces.find((each) => each.L > 4000 * 320 - 1)!;
    const half = (part: number) => ({ ...piece, id: `${piece.id}${part}`, part, parts: 2, L: piece.L / 2 });
    const pieces = run.pieces.flatMap((each) => (each === piece ? [half(0), half(1)] : [each]));
    const split = { ...trim, lines: [{ ...line, runs: [{ ...run, pieces }] }] };
    const scarfs = (plan_: typeof plan) =>
      findingsOf(plan_, { ...bundle, trims: [split] }).filter((each) => each.code === 'joint-in-sight');
    expect(scarfs(plan)).toHaveLength(1);
    expect(scarfs(plan)[0]!.message).toContain('board would reach');
  });

  it('[FD12] length-odd: a measured face or stretch and the drawing differ by more than 1/2 in', () => {
    const face = (measured: number): Change => ({ faces: { 'w1:right': { measured } } });
    expect(one('length-odd', face(4013)).figures).toMatchObject({ measuredMm: 4013, offMm: 13 });
    expect(one('length-odd', face(3987)).figures.offMm).toBe(-13);
    expect(all('length-odd', face(4012.7))).toEqual([]);
    const stretch = (measured: number): Change => ({
      openings: { o1: DOOR },
      faces: { 'w1:right': { stretches: { 'corner..o1': measured } } },
    });
    const drawn = 1600 - OUT;
    expect(one('length-odd', stretch(drawn + 13)).about).toEqual(['w1:right', 'corner..o1']);
    expect(all('length-odd', stretch(drawn + 12))).toEqual([]);
  });

  it('[FD16] stock-none: no board long enough and no scarf allowed', () => {
    const stock = (length: number, scarf: boolean): Change => ({
      plan: profiles({ base: { scarf, stock: [{ length, price: null, onHand: null }] } }),
    });
    const findings = all('stock-none', stock(3000, false));
    expect(findings.length).toBeGreaterThan(0);
    expect(findings[0]).toMatchObject({ severity: 'stop', figures: { longestMm: 3000, endTrimMm: 12.7 } });
    expect(all('stock-none', stock(3000, true))).toEqual([]);
    expect(all('stock-none', { plan: profiles({ base: { scarf: false, stock: [] } }) })).toEqual([]);
    // 4 m squarely between two walls: no spring, 4000 + 12.7 is just enough; the coped boards need a little more.
    const square = (length: number): Change => ({
      ...stock(length, false),
      faces: {
        'w2:right': { trim: { base: null } },
        'w4:right': { trim: { base: null } },
        'w3:right': { trim: { base: null } },
      },
    });
    const spring = inch(1 / 32);
    expect(all('stock-none', square(4012.7 + spring))).toEqual([]);
    expect(all('stock-none', square(4012.6))).toHaveLength(1);
    const onHand = square(3000);
    expect(
      all('stock-none', {
        ...onHand,
        plan: { ...onHand.plan, stockOnHand: { base: [{ length: 4100, count: 1 }] } },
      }),
    ).toEqual([]);
  });

  it('[FD16] stock-none: a casing head is never scarfed', () => {
    const casing = (length: number): Change => ({
      openings: { o1: DOOR },
      plan: profiles({ casing: { stock: [{ length, price: null, onHand: null }] } }),
    });
    expect(one('stock-none', casing(2000)).about).toEqual(['o1.right', 'casing']);
    const leg = 2032 + OUT;
    expect(all('stock-none', casing(leg + 12.7))).toEqual([]);
    expect(all('stock-none', casing(leg + 12.6))).toHaveLength(1);
  });
});

describe('the plan and the walk', () => {
  it('[FD18] old-paint to 1977 and old-floor to 1980, and both where the year is not known', () => {
    const year = (builtYear: number | null) =>
      planFindings(planOf({ plan: { builtYear } })).map((each) => each.code);
    expect(year(1977)).toEqual(['old-paint', 'old-floor']);
    expect(year(1978)).toEqual(['old-floor']);
    expect(year(1980)).toEqual(['old-floor']);
    expect(year(1981)).toEqual([]);
    expect(year(null)).toEqual(['old-paint', 'old-floor']);
    const [paint] = planFindings(planOf({ plan: { builtYear: 1962 } }));
    expect(paint).toMatchObject({
      severity: 'look',
      level: null,
      room: null,
      at: null,
      figures: { builtYear: 1962 },
    });
    expect(paint!.remedies.join(' ')).toContain('40 CFR 745 subpart E');
  });

  it('[FD19] what the walk notes becomes findings', () => {
    const plan = planOf();
    const bundle = bundleOf(plan);
    const noted = (note: (typeof bundle.walk.notes)[number]): Finding => {
      const [finding] = findingsOf(plan, { ...bundle, walk: { ...bundle.walk, notes: [note] } });
      return finding!;
    };
    expect(noted({ kind: 'too-narrow', room: 'r1', at: [0, 0], about: ['w1'] })).toMatchObject({
      code: 'too-narrow',
      severity: 'fix',
      room: 'r1',
    });
    expect(noted({ kind: 'not-closed', at: [0, 0], about: ['w1', 'w2'], gap: 25.4 * 320 })).toMatchObject({
      code: 'not-closed',
      severity: 'fix',
      figures: { gapMm: 25.4 },
    });
    expect(noted({ kind: 'not-closed', at: [0, 0], about: ['w1'], gap: null }).figures).toEqual({});
    expect(noted({ kind: 'record-unused', record: 'face', id: 'w9:left', at: null })).toMatchObject({
      code: 'record-unused',
      severity: 'look',
      about: ['w9:left'],
    });
    expect(noted({ kind: 'room-twice', ids: ['r1', 'r2'], at: [1, 2] })).toMatchObject({
      code: 'room-twice',
      severity: 'look',
      about: ['r1', 'r2'],
    });
    expect(findingsOf(plan, bundle)).toEqual([]);
  });

  it('[FD19] mendedFinding says what was mended', () => {
    const level = 'L1' as LevelId;
    expect(mendedFinding({ level, at: [5, 6], about: ['w1'], message: 'Wall w1 was split.' })).toMatchObject({
      code: 'mended',
      severity: 'look',
      level,
      at: [5, 6],
      message: 'Wall w1 was split.',
    });
  });

  it('[FD17] unmeasured is one for a room', () => {
    expect(codes({ room: { old: null, new: null }, openings: { o1: { ...DOOR, casing: null } } })).toEqual([
      'unmeasured',
    ]);
  });

  it('[FD1] findings are sorted by severity, level, place (y, x), code, then what they are about', () => {
    const plan = planOf();
    const base: Finding = {
      ...mendedFinding({ level: 'L1' as LevelId, at: [0, 0], about: [], message: '' }),
    };
    const make = (name: string, over: Partial<Finding>): Finding => ({ ...base, message: name, ...over });
    const sorted = [
      make('a', { severity: 'stop', at: [9, 9] }),
      make('b', { severity: 'fix', level: null, at: null }),
      make('c', { severity: 'fix', at: [5, 1] }),
      make('d', { severity: 'fix', at: [1, 2] }),
      make('e', { severity: 'fix', at: [1 + 1e-9, 2 - 1e-9], about: ['x'] }),
      make('f', { severity: 'fix', at: [1, 2], code: 'sliver' }),
      make('g', { severity: 'look', at: [0, 0] }),
    ];
    const shuffled = [4, 0, 6, 2, 5, 1, 3].map((i) => sorted[i]!);
    expect(
      sortFindings(shuffled, plan)
        .map((each) => each.message)
        .join(''),
    ).toBe('abcdefg');
    expect(shuffled[0]!.message).toBe('e');
  });
});
