// Base against casing and base against the old line. Facts of the trade here: common practice, no published source.

import { describe, expect, it } from 'vitest';
import { pickProfiles } from '../../../core/fit/index.ts';
import { all, bundleOf, type Change, DOOR, found, inch, one, planOf, profiles } from './house.ts';

const withDoor = (thickness: number, change: Change = {}): Change => ({
  openings: { o1: DOOR },
  plan: profiles({ base: { thickness } }),
  ...change,
});

describe('base against casing', () => {
  it('[FD2] casing 9/16 in: base 1/2 in passes with a 1/16 in step; 5/8 and 3/4 in are stopped (common practice, no published source)', () => {
    expect(found(withDoor(inch(1 / 2)))).toEqual([]);
    for (const [base, step] of [
      [5 / 8, -1 / 16],
      [3 / 4, -3 / 16],
    ] as const) {
      const finding = one('base-proud', withDoor(inch(base)));
      expect(finding.severity).toBe('stop');
      expect(finding.figures.stepMm).toBe(inch(step));
      expect(finding.about).toEqual(['o1', 'base']);
      expect(finding.remedies).toHaveLength(4);
    }
    expect(one('base-proud', withDoor(inch(5 / 8))).message).toBe(
      'Base 5⁄8" thick stands 1⁄16" proud of the casing\'s outer edge at door o1, which is 9⁄16" thick.',
    );
  });

  it('[FD2] one finding for a side of an opening, not one for each end', () => {
    expect(all('base-proud', withDoor(inch(0.75)))).toHaveLength(1);
  });

  it('[FD2] a step of 0 is flush, of one tick under 1/16 in is flush, of exactly 1/16 in is neither', () => {
    const tick = 1 / 320;
    expect(one('base-flush', withDoor(inch(9 / 16))).figures.stepMm).toBe(0);
    expect(one('base-flush', withDoor(inch(9 / 16))).severity).toBe('look');
    expect(one('base-flush', withDoor(inch(1 / 2) + tick)).figures.stepMm).toBeCloseTo(
      inch(1 / 16) - tick,
      9,
    );
    expect(found(withDoor(inch(1 / 2)))).toEqual([]);
    expect(one('base-proud', withDoor(inch(9 / 16) + tick)).figures.stepMm).toBe(-tick);
  });

  it('[FD2] the outer edge is as thick as the casing where the plan does not say', () => {
    const plan = (thickness: number) => {
      const file = profiles({ base: { thickness }, casing: { edgeThickness: null } });
      return { openings: { o1: DOOR }, plan: file };
    };
    expect(found(plan(inch(0.625)))).toEqual([]);
    expect(one('base-proud', plan(inch(0.75))).figures.stepMm).toBe(inch(-0.0625));
  });

  it('[FD2] where a plinth block stands, the base is held against the block', () => {
    const plinth = (thickness: number): Change => ({
      openings: { o1: { ...DOOR, plinth: { width: inch(3), thickness: inch(thickness), height: inch(7) } } },
    });
    expect(found(plinth(1))).toEqual([]);
    const proud = one('base-proud', plinth(0.375));
    expect(proud.figures).toMatchObject({ stepMm: inch(-0.125), plinthMm: inch(0.375) });
    expect(proud.message).toContain('plinth block');
  });

  it('[FD2] a passage and a side without casing stop nothing', () => {
    expect(
      found({ ...withDoor(inch(2)), openings: { o1: { ...DOOR, kind: 'passage', casing: null } } }),
    ).toEqual([]);
    expect(
      found({ ...withDoor(inch(2)), openings: { o1: { ...DOOR, casing: { left: null, right: null } } } }),
    ).toEqual([]);
  });

  it('[FD17] a casing the plan does not name is unmeasured, not passed', () => {
    const finding = one('unmeasured', { openings: { o1: { ...DOOR, casing: null } } });
    expect(finding.message).toContain('the casing of o1');
    expect(finding.about).toEqual(['o1']);
    const window = one('unmeasured', {
      openings: { o1: { ...DOOR, kind: 'window', sill: 900, height: 900, casing: null } },
    });
    expect(window.message).toContain('the casing of o1');
    expect(found({ openings: { o1: { ...DOOR, casing: null } }, room: { trim: {} } })).toEqual([]);
  });
});

describe('base against the old line', () => {
  const old = (baseHeight: number, floor: number, gap = 0) => ({
    baseHeight: inch(baseHeight),
    floor: inch(floor),
    gap: inch(gap),
  });

  it('[FD3] a floor that ends 1/4 in lower with base of the old height leaves 1/4 in of the old line bare and is stopped (common practice, no published source)', () => {
    const finding = one('base-short', { room: { old: old(5.5, 0.75), new: { floor: inch(0.5), gap: 0 } } });
    expect(finding.severity).toBe('stop');
    expect(finding.figures.coversMm).toBe(inch(-0.25));
    expect(finding.figures.leastHeightMm).toBe(inch(5.75));
    expect(finding.message).toContain('1⁄4" under the line');
    expect(finding.message).toContain('at least 5 3⁄4"');
  });

  it('[FD3] a top exactly on the old line passes base-short; it is close', () => {
    const change: Change = { room: { old: old(5.75, 0.25), new: { floor: inch(0.5), gap: 0 } } };
    expect(all('base-short', change)).toEqual([]);
    expect(one('base-close', change).figures.coversMm).toBe(0);
    const tick = 1 / 320;
    const short: Change = {
      room: { old: { ...old(5.75, 0.25), gap: tick }, new: { floor: inch(0.5), gap: 0 } },
    };
    expect(one('base-short', short).figures.coversMm).toBe(-tick);
  });

  it('[FD4] covering by less than 1/8 in is close, by exactly 1/8 in it is not', () => {
    const by = (cover: number): Change => ({
      room: { old: { baseHeight: inch(5.5) - cover, floor: 0, gap: 0 } },
    });
    expect(one('base-close', by(inch(1 / 16))).severity).toBe('look');
    expect(one('base-close', by(inch(1 / 8) - 1 / 320)).figures.coversMm).toBeCloseTo(
      inch(1 / 8) - 1 / 320,
      9,
    );
    expect(found(by(inch(1 / 8)))).toEqual([]);
  });

  it('[FD3] gaps count, and one that is not given is 0', () => {
    expect(
      all('base-short', { room: { old: { baseHeight: inch(5.5), floor: 0 }, new: { floor: 0 } } }),
    ).toEqual([]);
    expect(one('base-short', { room: { old: old(5.5, 0, 0.5), new: { floor: 0 } } }).figures.coversMm).toBe(
      inch(-0.5),
    );
    expect(found({ room: { old: old(5.5, 0, 0.5), new: { floor: 0, gap: inch(0.75) } } })).toEqual([]);
  });

  it('[FD3] the remedy names a profile that covers', () => {
    const finding = one('base-short', {
      plan: profiles({ tall: { name: 'Tall base', kind: 'base', height: inch(7.25) } }),
      room: { old: old(6, 0) },
    });
    expect(finding.remedies[0]).toContain('such as Tall base.');
  });

  it('[FD17] without old or new there is one unmeasured finding that lists all, and no base-short', () => {
    const findings = found({ room: { old: null, new: null } });
    expect(findings.map((each) => each.code)).toEqual(['unmeasured']);
    expect(findings[0]!.figures.missing).toBe(3);
    expect(found({ room: { old: { floor: 0 }, new: { floor: 0 } } })[0]!.figures.missing).toBe(1);
    expect(found({ room: { old: null, new: null, trim: {} } })).toEqual([]);
  });
});

describe('the profile picker', () => {
  it('[FD20] says which bases pass and why each other fails', () => {
    const plan = planOf({
      openings: { o1: DOOR },
      plan: profiles({
        base: {},
        fat: { kind: 'base', thickness: inch(0.625) },
        low: { kind: 'base', height: inch(3.25) },
        level: { kind: 'base', thickness: inch(0.5625) },
        tall: { kind: 'base', height: inch(13) },
        short: { kind: 'base', scarf: false, stock: [{ length: 2000, price: null, onHand: null }] },
      }),
      room: { trim: { base: 'low' } },
      marks: { k1: { wall: 'w3', side: 'right', at: 500, kind: 'outlet', bottom: 300, top: 415, width: 70 } },
    });
    const picks = pickProfiles(plan, bundleOf(plan), 'r1', 'base');
    expect(picks.map((pick) => [pick.profile, pick.passes])).toEqual([
      ['base', true],
      ['fat', false],
      ['level', true],
      ['low', false],
      ['short', false],
      ['tall', false],
    ]);
    const why = Object.fromEntries(picks.map((pick) => [pick.profile, pick.why.join(' ')]));
    expect(why.base).toBe('');
    expect(why.fat).toContain('proud');
    expect(why.level).toContain('flush');
    expect(why.low).toContain('at least 3 1⁄2"');
    expect(why.tall).toContain('outlet k1');
    expect(why.short).toContain('Scarfs are not allowed');
  });

  it('[FD20] works in a room without a record and says what could not be checked', () => {
    const plan = planOf();
    const bare = { ...plan, levels: plan.levels.map((level) => ({ ...level, rooms: {} })) };
    const bundle = bundleOf(bare);
    const picks = pickProfiles(bare, bundle, bundle.walk.rooms[0]!.id, 'base');
    expect(picks).toHaveLength(1);
    expect(picks[0]!.passes).toBe(true);
    expect(picks[0]!.why.join(' ')).toContain('could not be made');
    expect(() => pickProfiles(bare, bundle, 'nowhere', 'base')).toThrow('nowhere');
  });
});
