// Preparation, order of work and cautions: each only as it applies. Sources beside the cautions are those of RULES: CA.

import { describe, expect, it } from 'vitest';
import { findingsOf, jobCautions, roomNotes } from '../../../core/fit/index.ts';
import { bundleOf, type Change, DOOR, inch, planOf, profiles } from './house.ts';

function notesOf(change: Change = {}) {
  const plan = planOf(change);
  const bundle = bundleOf(plan);
  const trim = bundle.trims[0]!;
  const findings = findingsOf(plan, bundle);
  return { ...roomNotes(plan, trim.room, trim, findings), job: jobCautions(plan, bundle.trims, findings) };
}
const texts = (cautions: readonly { text: string }[]): string => cautions.map((each) => each.text).join('\n');

describe('preparation', () => {
  it('[CA8] scores before prying, and gives the least new height, floor and gap', () => {
    const { preparation } = notesOf({ room: { new: { floor: inch(0.5), gap: inch(0.25) } } });
    const said = preparation.join('\n');
    expect(preparation[0]).toContain('Score the paint or caulk line');
    expect(said).toContain('short blade');
    expect(said).toContain('Pry at the studs');
    expect(said).toContain('at least 2 3⁄4" tall');
    expect(said).toContain('1⁄2" above the subfloor');
    expect(said).toContain('gap of 1⁄4"');
  });

  it('[CA8] leaves out what does not apply: no old base, plaster, no base at all', () => {
    const none = notesOf({ room: { old: { baseHeight: 0, floor: 0 } } }).preparation.join('\n');
    expect(none).not.toContain('prying');
    const plaster = { faces: { left: 'plaster', right: 'plaster' } } as const;
    const walls = Object.fromEntries(
      Object.entries(planFileWalls()).map(([id, wall]) => [id, { ...wall, ...plaster }]),
    );
    const said = notesOf({ walls }).preparation.join('\n');
    expect(said).toContain('prying');
    expect(said).not.toContain('paper');
    expect(notesOf({ room: { trim: {} } }).preparation).toEqual([]);
  });

  it('[CA8] says what is not known instead of guessing', () => {
    const said = notesOf({ room: { new: null, old: null } }).preparation.join('\n');
    expect(said).toContain('not known');
    expect(said).not.toContain('at least');
  });

  it('[CA8] carpet', () => {
    const said = notesOf({ room: { new: { floor: 0, gap: inch(0.5), carpet: true } } }).preparation.join(
      '\n',
    );
    expect(said).toContain('gap of 1⁄2" under the base for the carpet');
  });
});

describe('order of work', () => {
  it('[CA9] casings before base before shoe, and the boards in their order', () => {
    const { order } = notesOf({ openings: { o1: DOOR }, room: { trim: { base: 'base', shoe: 'shoe' } } });
    expect(order[0]).toBe('First casings, then base, then shoe.');
    const base = order.find((each) => each.startsWith('Base: '))!;
    expect(base.match(/\d[A-Z]/g)).toHaveLength(5);
    expect(order.some((each) => each.startsWith('Shoe: '))).toBe(true);
  });

  it('[CA9] says nothing where there is one line and one board', () => {
    const bare = { trim: { base: null } };
    expect(notesOf({ faces: { 'w2:right': bare, 'w3:right': bare, 'w4:right': bare } }).order).toEqual([]);
  });
});

describe('cautions', () => {
  it('[CA1] local codes and licensed trades come first; eyes, ears, dust, blades and cables follow', () => {
    const { cautions, job } = notesOf();
    for (const list of [cautions, job]) {
      expect(list[0]!.text).toContain('Local codes and licensed trades come first');
      const said = texts(list);
      for (const word of ['eye', 'ear protection', 'dust', 'guards', 'Cables']) expect(said).toContain(word);
    }
    expect(cautions.find((each) => each.text.includes('Cables'))!.source).toBe('in the USA NEC 300.4(A)(1)');
  });

  it('[CA2, CA3] lead before 1978, asbestos to 1980, both where the year is not known, with their rules', () => {
    const at = (builtYear: number | null) => notesOf({ plan: { builtYear } });
    for (const year of [1977, null]) {
      const { cautions, job } = at(year);
      for (const list of [cautions, job]) {
        expect(list.find((each) => each.text.includes('lead'))!.source).toContain('40 CFR 745 subpart E');
        expect(list.find((each) => each.text.includes('asbestos'))!.source).toContain('29 CFR 1926.1101');
      }
    }
    expect(texts(at(1978).cautions)).not.toContain('lead');
    expect(texts(at(1980).cautions)).toContain('asbestos');
    expect(texts(at(1981).cautions)).not.toContain('asbestos');
  });

  it('[CA5] pieces under 6 in: the caution, and which they are', () => {
    const out = inch(3 / 16 + 2.75);
    const stub = (width: number) => notesOf({ openings: { o1: { ...DOOR, at: 50 + out + width } } });
    const { cautions, job } = stub(152.3);
    expect(texts(cautions)).toContain('never held by hand. The blade stops before it is lifted. Here: 4A.');
    expect(texts(job)).toContain('never held by hand');
    expect(texts(stub(152.4).cautions)).not.toContain('under 6 in');
  });

  it('[CA6] pockets of sliding doors', () => {
    const { cautions, job } = notesOf({ openings: { o1: { ...DOOR, kind: 'pocket', pocket: 'end' } } });
    expect(texts(cautions)).toContain('beside o1 a door slides');
    expect(texts(job)).toContain('pocket door');
    expect(texts(notesOf({ openings: { o1: DOOR } }).cautions)).not.toContain('a door slides');
  });

  it('[CA1] a room without trim has none', () => {
    expect(notesOf({ room: { trim: {} } }).cautions).toEqual([]);
  });

  it('a metric plan says millimetres', () => {
    const { preparation } = notesOf({
      plan: { units: 'metric', ...profiles({}) },
      room: { new: { floor: 12.7, gap: 0 } },
    });
    expect(preparation.join('\n')).toContain('12.7 mm');
  });
});

function planFileWalls() {
  return {
    w1: { from: 'n1', to: 'n2', thickness: 100 },
    w2: { from: 'n2', to: 'n3', thickness: 100 },
    w3: { from: 'n3', to: 'n4', thickness: 100 },
    w4: { from: 'n4', to: 'n1', thickness: 100 },
  };
}
