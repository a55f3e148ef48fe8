// Every remedy of the red pencil is done on a plan made for it: it can be done, and the finding is gone, or what remains
// is said. What is offered is named, so that a remedy that vanishes is missed.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { apply, prepare } from '../../../core/edit/index.ts';
import type { Finding, FindingCode } from '../../../core/fit/index.ts';
import { type Plan, readPlanBytes } from '../../../core/plan/index.ts';
import { type Derived, derive, solve } from '../../../core/report/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { outcomeWords, remediesOf } from '../../../renderer/panels/pencil/remedies.ts';
import { type Change, DOOR, inch, PROFILES, planOf, profiles } from '../../core/fit/house.ts';

const solver = await loadHighs();

function derived(plan: Plan): Derived {
  const ready = prepare(plan);
  if (!ready.ok) throw new Error(ready.message);
  return derive(ready.plan);
}

/** The same trouble at the same place, told without the code under test: profiles and boards may be others. */
function still(findings: readonly Finding[], was: Finding): Finding[] {
  const place = (each: Finding) =>
    each.about.find(
      (id) =>
        /^(corner|o|k|w|n|b|r)\d*[ :\d]/.test(id) ||
        id.startsWith('corner') ||
        /^([a-z]+-)?\d+[A-Z]/i.test(id),
    ) ?? null;
  return findings.filter(
    (each) =>
      each.code === was.code &&
      each.level === was.level &&
      each.room === was.room &&
      (place(was) === null ? samePoint(each, was) : place(each) === place(was)),
  );
}

function samePoint(a: Finding, b: Finding): boolean {
  if (a.at === null || b.at === null) return a.at === b.at;
  return Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]) < 320;
}

/** Does every remedy of one finding on a plan of its own; gives the words of what was offered. */
function cured(plan: Plan, pick: (finding: Finding) => boolean, withSolver = false): string[] {
  const before = derived(plan);
  const all = withSolver ? solve(before, solver).findings : before.findings;
  const finding = all.find(pick);
  if (finding === undefined)
    throw new Error(`no such finding among ${all.map((each) => each.code).join(', ')}`);
  return remediesOf(finding, before).map((remedy) => {
    if (remedy.kind === 'go') return `(${remedy.words})`;
    const result = apply(before.plan, remedy.edit);
    if (!result.ok) throw new Error(`${remedy.words}: ${result.message}`);
    const after = derive(result.plan);
    const now = withSolver ? solve(after, solver).findings : after.findings;
    const left = still(now, finding);
    if (remedy.leaves === undefined) expect(left, `${finding.code}: ${remedy.words}`).toEqual([]);
    else expect(outcomeWords(remedy)).toContain(remedy.leaves);
    expect(outcomeWords(remedy)).not.toBe('');
    // Undo brings it back: the remedy is one edit with one inverse.
    const back = apply(result.plan, result.inverse);
    expect(back.ok).toBe(true);
    return remedy.words;
  });
}

const of = (code: FindingCode) => (finding: Finding) => finding.code === code;
const offered = (code: FindingCode, change: Change) => cured(planOf(change), of(code));

const more = (own: Record<string, object>) => profiles(own);
const PICK = '(See which profiles fit in this room)';

describe('mouldings', () => {
  const proud = (thickness: number): Change => ({
    openings: { o1: DOOR },
    plan: more({
      base: { thickness: inch(thickness) },
      thin: { kind: 'base', name: 'Thin base', thickness: inch(0.375) },
      stout: { kind: 'casing', name: 'Stout casing', thickness: inch(1.25), edgeThickness: inch(1.125) },
    }),
  });

  it('base proud of a casing: a thinner base, a plinth block, a casing with a thicker edge', () => {
    expect(offered('base-proud', proud(0.75))).toEqual([
      'Use “Thin base” in this room',
      'Set plinth blocks at o1: 2 7⁄8" wide, 6" high, 7⁄8" thick',
      'Case o1 with “Stout casing” on this side',
      PICK,
    ]);
  });

  it('base proud of a plinth block that is there: the block is made thicker', () => {
    const blocks = { width: inch(3), thickness: inch(0.5), height: inch(6) };
    const change = { ...proud(0.75), openings: { o1: { ...DOOR, plinth: blocks } } };
    expect(offered('base-proud', change)).toContain('Make the plinth blocks of o1 7⁄8" thick');
  });

  it('base flush with a casing', () => {
    expect(offered('base-flush', proud(0.5625))).toContain('Use “Thin base” in this room');
    expect(offered('base-flush', proud(0.5625))).toHaveLength(4);
  });

  it('a base that one face carries is changed on that face', () => {
    const change: Change = {
      ...proud(0.75),
      room: { trim: { base: 'thin' } },
      faces: { 'w1:right': { trim: { base: 'base' } } },
    };
    expect(offered('base-proud', change)).toContain('Use “Thin base” in this room');
  });

  const old: Change = {
    plan: more({ tall: { kind: 'base', name: 'Tall base', height: inch(7.25) } }),
    room: { old: { baseHeight: inch(5.875), floor: 0 }, new: { floor: 0 } },
  };
  it('an old line that shows: a taller base, or the same one held higher over shoe', () => {
    expect(offered('base-short', old)).toEqual([
      'Use “Tall base” in this room',
      'Hold the base 3⁄8" higher and cover the gap with “Shoe”',
      PICK,
    ]);
  });

  it('an old line that is barely covered', () => {
    const close = { ...old, room: { old: { baseHeight: inch(5.4375), floor: 0 }, new: { floor: 0 } } };
    expect(offered('base-close', close)).toEqual(['Use “Tall base” in this room', PICK]);
  });

  it('two profiles that meet: one of them on both walls, the room’s first', () => {
    const change: Change = {
      plan: more({ tall: { kind: 'base', name: 'Tall base', height: inch(7.25) } }),
      faces: { 'w1:right': { trim: { base: 'tall' } } },
    };
    const words = cured(
      planOf(change),
      (each) => each.code === 'height-change' && each.about[0] === 'corner 1',
    );
    expect(words[0]).toBe('As the room: “Eased base” on the wall before corner 1 too');
  });

  it('two profiles that meet in a mitre by choice: a block, with what remains', () => {
    const change: Change = {
      plan: more({ tall: { kind: 'base', name: 'Tall base', height: inch(7.25) } }),
      faces: { 'w1:right': { trim: { base: 'tall' } } },
      corners: { 'n2:w1>w2': { number: 1, lines: { base: { joint: 'mitre' } } } },
    };
    const words = cured(
      planOf(change),
      (each) => each.code === 'height-change' && each.about[0] === 'corner 1',
    );
    expect(words).toContain('Set a block in corner 1');
  });

  it('a casing in a corner: a narrower casing, or the opening moved', () => {
    const change: Change = {
      openings: { o1: { ...DOOR, at: 100 } },
      plan: more({ slim: { kind: 'casing', name: 'Slim casing', width: inch(1) } }),
    };
    const words = offered('casing-crowded', change);
    expect(words[0]).toBe('Case o1 with “Slim casing” on this side');
    expect(words[1]).toMatch(/^Move o1 away by .* while the wall is open$/);
  });

  it('two openings in one place: one is moved clear, or deleted', () => {
    const change: Change = {
      openings: { o1: { ...DOOR, at: 700 }, o2: { ...DOOR, at: 700 + 600 } },
    };
    const words = cured(planOf(change), (each) => each.code === 'opening-clash');
    expect(words).toContain('Delete o1');
    expect(words).toContain('Delete o2');
    expect(words.some((each) => /^Move o[12] by .* along its wall$/.test(each))).toBe(true);
  });

  it('two built-ins in one place: one is moved clear, or deleted', () => {
    const box = { wall: 'w1', side: 'right', width: 600, bottom: 0, top: 900, kind: 'cabinet' } as const;
    const words = offered('built-in-clash', {
      builtIns: { b1: { ...box, at: 1000 }, b2: { ...box, at: 1400 } },
    });
    expect(words.filter((each) => /^Delete b[12]$/.test(each))).toHaveLength(2);
    expect(words.some((each) => /^Move b[12] by .* along its wall$/.test(each))).toBe(true);
  });

  it('a built-in before an opening: either is moved clear, or deleted', () => {
    const box = { wall: 'w1', side: 'right', width: 600, bottom: 0, top: 900, kind: 'cabinet' } as const;
    const change: Change = {
      openings: { o1: { ...DOOR, at: 1500 } },
      builtIns: { b1: { ...box, at: 1000 } },
    };
    const words = cured(planOf(change), (each) => each.code === 'built-in-clash');
    expect(words).toEqual(expect.arrayContaining(['Delete b1', 'Delete o1']));
    expect(words.some((each) => /^Move b1 by .* along its wall$/.test(each))).toBe(true);
  });

  it('an opening that reaches into the next wall is moved out of it', () => {
    const words = cured(
      planOf({ openings: { o1: { ...DOOR, at: 10 } } }),
      (each) => each.code === 'opening-clash',
    );
    expect(words[0]).toMatch(/^Move o1 by .* along its wall$/);
  });

  it('a plinth block in a corner is made narrower', () => {
    const change: Change = {
      openings: {
        o1: { ...DOOR, at: 50 + 80, plinth: { width: inch(4), thickness: inch(1), height: inch(6) } },
      },
    };
    const words = cured(
      planOf(change),
      (each) => each.code === 'casing-crowded' && each.message.includes('plinth'),
    );
    expect(words[0]).toMatch(/^Make the plinth blocks of o1 .* wide$/);
  });

  it('an outlet in the way: a shorter base, or the outlet put higher', () => {
    const change: Change = {
      marks: { k1: { wall: 'w1', side: 'right', at: 900, kind: 'outlet', bottom: 130, top: 240, width: 70 } },
      plan: more({ low: { kind: 'base', name: 'Low base', height: inch(4) } }),
    };
    expect(offered('outlet-hit', change)).toEqual([
      'Use “Low base” in this room',
      'Put outlet k1 7⁄16" higher on the plan, once the electrician has moved the box',
      PICK,
    ]);
  });

  it('a sill in the way', () => {
    const change: Change = {
      openings: { o1: { ...DOOR, kind: 'window', sill: 205, height: 1200 } },
      plan: more({
        low: { kind: 'base', name: 'Low base', height: inch(4) },
        slim: { kind: 'casing', name: 'Slim casing', width: inch(1.5) },
      }),
    };
    expect(offered('sill-hit', change)).toEqual([
      'Use “Low base” in this room',
      'Case o1 with “Slim casing” on this side',
      PICK,
    ]);
  });
});

describe('joints', () => {
  const wall = (from: string, to: string) => ({ from, to, thickness: 100 });
  it('a cut beyond the saw: a block; no joint that the saw cannot cut either', () => {
    const change: Change = {
      nodes: { n1: [0, 0], n2: [4000, 0], n3: [0, 3000] },
      walls: { w1: wall('n1', 'n2'), w2: wall('n2', 'n3'), w3: wall('n3', 'n1') },
      corners: { 'n2:w1>w2': { number: 1 }, 'n3:w2>w3': { number: 2 }, 'n1:w3>w1': { number: 3 } },
      room: { at: [800, 400] },
    };
    expect(offered('saw-limit', change)).toEqual(['Set a block in corner 1 and cut both boards square']);
    const flat = { ...change, plan: more({ base: { form: 'flat' } }) };
    const second = (each: Finding) => each.code === 'saw-limit' && each.about[0] === 'corner 2';
    expect(cured(planOf(flat), second)[0]).toBe('Butt the boards in corner 2');
  });

  it('a corner too short to cope', () => {
    const nodes = {
      n1: [0, 0],
      n2: [2000, 0],
      n3: [2000, 1500],
      n4: [1160, 1500],
      n5: [1160, 1640],
      n6: [1000, 1640],
      n7: [1000, 1500],
      n8: [0, 1500],
    } as Change['nodes'];
    const change: Change = {
      nodes: nodes!,
      walls: Object.fromEntries(
        [1, 2, 3, 4, 5, 6, 7, 8].map((i) => [
          `w${i}`,
          { from: `n${i}`, to: `n${(i % 8) + 1}`, thickness: 20 },
        ]),
      ),
      corners: {},
      room: { at: [500, 500] },
      plan: { counters: { corner: 8 } },
    };
    const words = offered('cope-short', change);
    expect(words[0]).toMatch(/^Mitre corner \d+ and leave it at that$/);
    expect(words[1]).toMatch(/^Set a block in corner \d+/);
  });

  it('joints that make a circle: each of the corners turned round, or back to the rule', () => {
    const line = { lines: { base: { joint: 'cope' as const, coped: 'after' as const } } };
    const change: Change = {
      corners: {
        'n2:w1>w2': { number: 1, ...line },
        'n3:w2>w3': { number: 2, ...line },
        'n4:w3>w4': { number: 3, ...line },
        'n1:w4>w1': { number: 4, ...line },
      },
    };
    const words = offered('order-circle', change);
    expect(words).toHaveLength(8);
    expect(words).toContain('Let corner 3 follow the rule');
    expect(words).toContain('Turn corner 2 round: work the other board');
  });

  it('an angle that cannot be', () => {
    const change: Change = { corners: { 'n2:w1>w2': { number: 1, measured: 100 } } };
    expect(offered('angle-odd', change)).toEqual([
      '(Measure it again)',
      'Forget the measured angle of corner 1',
    ]);
  });

  it('a joint chosen where no two boards meet', () => {
    const change: Change = {
      corners: { 'n2:w1>w2': { number: 1, lines: { base: { joint: 'mitre' } } } },
      faces: { 'w2:right': { trim: { base: null } } },
    };
    expect(offered('record-unused', change)).toEqual(['Let corner 1 follow the rule']);
  });
});

describe('boards and stock', () => {
  const stock = (length: number, scarf: boolean): Change => ({
    plan: more({ base: { scarf, stock: [{ length, price: null, onHand: null }] } }),
  });
  it('no board is long enough: scarfs, or a longer length', () => {
    expect(offered('stock-none', stock(3000, false))).toEqual([
      'Allow scarfs for “Eased base”',
      `List a stock length of 14' 0" for “Eased base”, where it can be had`,
      '(Look at stock on hand)',
    ]);
  });

  it('all boards are used up: more can be bought', () => {
    const change: Change = { plan: more({ base: { stock: [{ length: 4876.8, price: null, onHand: 0 }] } }) };
    expect(offered('stock-none', change)[0]).toBe(
      'More “Eased base” can be bought: leave the number of boards open',
    );
  });

  it('too few boards, found when they are laid out: more can be bought', () => {
    const change: Change = { plan: more({ base: { stock: [{ length: 4876.8, price: 9, onHand: 1 }] } }) };
    const words = cured(planOf(change), of('stock-none'), true);
    expect(words[0]).toBe('More “Eased base” can be bought: leave the number of boards open');
  });

  it('a scarf in sight: a length that spares it', () => {
    expect(offered('joint-in-sight', stock(600, true))[0]).toMatch(/^List a stock length of/);
  });

  it('a sliver beside a casing: a plinth block, or the door moved', () => {
    const change: Change = { openings: { o1: { ...DOOR, at: 50 + inch(1.5 + 2.75 + 3 / 16) } } };
    const words = offered('sliver', change);
    expect(words[0]).toBe('Fill it with a plinth block 4 1⁄4" wide at o1');
    expect(words[1]).toMatch(/^Move o1 by/);
  });

  it('a scribe that nothing covers: a taller base, or shoe', () => {
    const none = { trim: { base: null } };
    const change: Change = {
      plan: more({ tall: { kind: 'base', name: 'Tall base', height: inch(7.25) } }),
      faces: {
        'w1:right': {
          floor: [
            { at: 0, height: 0 },
            { at: 2000, height: -6 },
            { at: 4000, height: 0 },
          ],
        },
        'w2:right': none,
        'w3:right': none,
        'w4:right': none,
      },
      room: { floorDatum: 0, old: { baseHeight: inch(5.5), floor: 0 }, new: { floor: 0 } },
    };
    expect(cured(planOf(change), of('scribe-deep'), true)[0]).toBe('Use “Tall base” in this room');
  });
});

describe('walls and records', () => {
  it('a wall that stops short is carried on', () => {
    const change: Change = {
      nodes: {
        n1: [-50, -50],
        n2: [4050, -50],
        n3: [4050, 3050],
        n4: [-50, 3050],
        n5: [2000, -50],
        n6: [2000, 2850],
      },
      walls: {
        w1: { from: 'n1', to: 'n5', thickness: 100 },
        w6: { from: 'n5', to: 'n2', thickness: 100 },
        w2: { from: 'n2', to: 'n3', thickness: 100 },
        w3: { from: 'n3', to: 'n4', thickness: 100 },
        w4: { from: 'n4', to: 'n1', thickness: 100 },
        w5: { from: 'n5', to: 'n6', thickness: 100 },
      },
      corners: {},
      room: { at: [500, 500] },
    };
    expect(offered('not-closed', change)).toEqual(['Carry wall w5 on to wall w3']);
  });

  it('walls that go round nothing can be deleted', () => {
    const base = planOf();
    const [level] = base.levels;
    const plan = planOf({
      nodes: { ...mmNodes(level!), n8: [6000, 0], n9: [8000, 0] },
      walls: {
        w1: { from: 'n1', to: 'n2', thickness: 100 },
        w2: { from: 'n2', to: 'n3', thickness: 100 },
        w3: { from: 'n3', to: 'n4', thickness: 100 },
        w4: { from: 'n4', to: 'n1', thickness: 100 },
        w9: { from: 'n8', to: 'n9', thickness: 100 },
      },
    });
    expect(cured(plan, of('not-closed'))).toEqual(['Delete wall w9']);
  });

  it('a wall end that runs into the wall across is joined to it', () => {
    const wall = (from: string, to: string) => ({ from, to, thickness: 100 });
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
        w1: wall('n1', 'n2'),
        w2: wall('n2', 'n3'),
        w3: wall('n3', 'n4'),
        w4: wall('n4', 'n1'),
        f: wall('a', 'b'),
      },
    };
    expect(offered('too-narrow', change)[0]).toBe('Join the end of wall f to wall w1');
  });

  it('a length that cannot be: drawn as measured, or forgotten', () => {
    const words = offered('length-odd', { faces: { 'w1:right': { measured: 4050 } } });
    expect(words[0]).toBe('(Measure it again)');
    expect(words.at(-1)).toBe('Forget the measured length');
    expect(words.filter((each) => each.startsWith('Draw it as measured'))).toHaveLength(2);
    const stretch = offered('length-odd', {
      openings: { o1: DOOR },
      faces: { 'w1:right': { stretches: { 'corner..o1': 1800 } } },
    });
    expect(stretch).toEqual(['(Measure it again)', 'Forget the measured length']);
  });

  it('records that fit nothing are forgotten', () => {
    expect(
      offered('record-unused', { faces: { 'w1:left': { measured: 4000, trim: { base: 'base' } } } }),
    ).toEqual(['Forget what was written of that face']);
    expect(offered('record-unused', { faces: { 'w1:right': { stretches: { 'corner..o9': 900 } } } })).toEqual(
      ['Forget that measured stretch'],
    );
    expect(
      offered('record-unused', {
        faces: {
          'w1:right': {
            floor: [
              { at: 0, height: 0 },
              { at: 4100, height: 2 },
            ],
          },
        },
      }),
    ).toEqual(['Forget the readings beyond the end of the wall']);
    const plan = planOf();
    const level = plan.levels[0]!;
    const lost = { ...level.rooms, r2: { name: 'Shed', at: [9_000_000, 0] as [number, number] } };
    expect(cured({ ...plan, levels: [{ ...level, rooms: lost }] }, of('record-unused'))).toEqual([
      'Delete the room record Shed',
    ]);
    const corners = { ...level.corners, 'n1:w1>w4': { measured: 91 } };
    expect(cured({ ...plan, levels: [{ ...level, corners } as never] }, of('record-unused'))).toEqual([
      'Forget what was measured and chosen at that corner',
    ]);
  });

  it('a room named twice', () => {
    const plan = planOf();
    const level = plan.levels[0]!;
    const rooms = { ...level.rooms, r2: { ...level.rooms['r1' as never]!, name: 'Parlour' } };
    expect(cured({ ...plan, levels: [{ ...level, rooms } as never] }, of('room-twice'))).toEqual([
      'Keep Hall (r1) and delete Parlour (r2)',
    ]);
  });

  it('what only the user can say leads to the place where it is said', () => {
    expect(cured(planOf({ room: { old: null } }), of('unmeasured'))).toEqual([
      '(Go to Measure and type it in)',
    ]);
    expect(cured(planOf({ plan: { builtYear: null } }), of('old-paint'))).toEqual([
      '(Say when the house was built)',
    ]);
  });
});

function mmNodes(level: Plan['levels'][number]): Record<string, [number, number]> {
  return Object.fromEntries(
    Object.entries(level.nodes).map(([id, [x, y]]) => [id, [x / 320, y / 320] as [number, number]]),
  );
}

describe('the demo houses', () => {
  for (const house of ['larkspur-house', 'thimble-cottage']) {
    it(`every remedy offered in ${house} clears its finding`, () => {
      const read = readPlanBytes(readFileSync(`demo-data/${house}.copewright.json`));
      if (!read.ok) throw new Error(`${house} cannot be read`);
      const { findings, plan } = derived(read.plan);
      let done = 0;
      for (const finding of findings) {
        const same = (each: Finding) => each.code === finding.code && each.message === finding.message;
        done += cured(plan, same).filter((words) => !words.startsWith('(')).length;
      }
      expect(done).toBeGreaterThan(house === 'larkspur-house' ? 20 : 3);
    });
  }

  it('a plan without mouldings to choose from offers none of its own making', () => {
    const plan = planOf({
      plan: { profiles: { base: { ...PROFILES.base!, thickness: inch(0.75) }, casing: PROFILES.casing! } },
      openings: { o1: DOOR },
    });
    const words = cured(plan, of('base-proud'));
    expect(words.some((each) => each.startsWith('Use'))).toBe(false);
  });
});
