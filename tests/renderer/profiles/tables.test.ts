// The tables behind the dialogs: every setting once, numbers as people type them, new mouldings, and what goes where.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { apply, type Edit, prepare } from '../../../core/edit/index.ts';
import {
  DEFAULT_SETTINGS,
  emptyPlan,
  type Plan,
  type ProfileId,
  readPlanBytes,
  settingsOf,
} from '../../../core/plan/index.ts';
import { type Derived, derive } from '../../../core/report/index.ts';
import { type Range, rangeFault } from '../../../renderer/panels/kit/range.ts';
import { readNumber } from '../../../renderer/panels/profiles/numbers.ts';
import {
  copyOf,
  idProblem,
  KINDS,
  newProfile,
  sizesOf,
} from '../../../renderer/panels/profiles/profile-kinds.ts';
import {
  asRoom,
  COLUMNS,
  exceptionsOf,
  likeRow,
  matrixOf,
  setCell,
  setSeveral,
} from '../../../renderer/panels/profiles/rooms-matrix.ts';
import { areaField, SETTING_GROUPS, shownNumber } from '../../../renderer/panels/profiles/settings-table.ts';

function house(): Derived {
  const read = readPlanBytes(readFileSync('demo-data/larkspur-house.copewright.json'));
  if (!read.ok) throw new Error('the house cannot be read');
  const ready = prepare(read.plan);
  if (!ready.ok) throw new Error(ready.message);
  return derive(ready.plan);
}

function done(plan: Plan, edit: Edit | null): Plan {
  if (edit === null) throw new Error('no edit');
  const result = apply(plan, edit);
  if (!result.ok) throw new Error(result.message);
  return result.plan;
}

describe('job settings', () => {
  const rows = SETTING_GROUPS.flatMap((group) => group.rows);

  it('every setting of a plan stands in the table once, with a sentence', () => {
    expect(rows.map(({ key }) => key).sort()).toEqual(Object.keys(DEFAULT_SETTINGS).sort());
    for (const { says, words } of rows) {
      expect(says).toMatch(/^[A-Z].*\.$/);
      expect(words).toMatch(/^[A-Z]/);
    }
  });

  it('every default lies in its range, both ends of it can be set, and it can be taken back', () => {
    const plan = emptyPlan('imperial');
    for (const { key, takes } of rows) {
      const values =
        takes.as === 'number'
          ? [takes.least, takes.most]
          : takes.as === 'choice'
            ? takes.of.map(({ value }) => value)
            : [40];
      expect(shownNumber(DEFAULT_SETTINGS[key], takes, plan.units)).not.toBe('');
      if (takes.as === 'choice') expect(values).toContain(DEFAULT_SETTINGS[key]);
      if (takes.as === 'number') {
        expect(DEFAULT_SETTINGS[key]).toBeGreaterThanOrEqual(takes.least);
        expect(DEFAULT_SETTINGS[key]).toBeLessThanOrEqual(takes.most);
      }
      for (const value of values) {
        const set = done(plan, { type: 'setSettings', set: { [key]: value } });
        expect(settingsOf(set)[key], key).toBe(value);
        const back = done(set, { type: 'setSettings', set: { [key]: null } });
        expect(settingsOf(back)[key]).toBe(DEFAULT_SETTINGS[key]);
      }
    }
  });
});

describe('the limits of a setting’s field', () => {
  const rows = SETTING_GROUPS.flatMap((group) => group.rows);
  it.each(rows)('are those of the plan: $words', ({ key, words, takes }) => {
    if (takes.as === 'choice' || takes.as === 'area') return;
    const range: Range = takes.as === 'number' ? takes : takes.range;
    const step = takes.as === 'number' ? 0.001 : 1;
    const [least, most] = [range.least ?? (range.over ?? 0) + step, range.most ?? 320_000_000];
    const refused = (value: number): boolean =>
      !apply(emptyPlan('imperial'), { type: 'setSettings', set: { [key]: value } }).ok;
    for (const [value, outside] of [
      [least, false],
      [most, false],
      [least - 1, true],
      [most + 1, true],
    ] as const) {
      expect(refused(value), `${key} at ${value}`).toBe(outside);
      if (range.most !== undefined || value < most)
        expect(rangeFault(words, value, range, String) !== null).toBe(outside);
    }
  });
});

describe('the sentence for what lies outside a range', () => {
  const inches = (of: number): string => `${of / 8128}"`;
  it('names the field and what would be right, and where the limit comes from', () => {
    expect(rangeFault('Height', 0, { over: 0 }, inches)).toBe('Height must be more than 0.');
    expect(rangeFault('Sill', -1, { least: 0 }, inches)).toBe('Sill must be at least 0.');
    expect(rangeFault('Spring angle', 90, { over: 0, under: 90 }, (of) => `${of}°`)).toBe(
      'Spring angle must be more than 0 and less than 90°.',
    );
    expect(rangeFault('Top', 8128, { least: 16256, because: 'its bottom is there' }, inches)).toBe(
      'Top must be at least 2": its bottom is there.',
    );
  });
  it('is none at the limits that belong to the range', () => {
    expect(rangeFault('Sill', 0, { least: 0, most: 5 }, inches)).toBeNull();
    expect(rangeFault('Sill', 5, { least: 0, most: 5 }, inches)).toBeNull();
    expect(rangeFault('Sill', 5, {}, inches)).toBeNull();
  });
});

describe('the smallest room', () => {
  const { takes } = SETTING_GROUPS.flatMap((group) => group.rows).find(({ key }) => key === 'voidAreaM2')!;
  if (takes.as !== 'area') throw new Error(`the smallest room is no area but ${takes.as}`);
  it('stands in square feet in an imperial plan and in square metres in a metric one', () => {
    expect(shownNumber(0.25, takes, 'imperial')).toBe('2.7 sq ft');
    expect(shownNumber(0.25, takes, 'metric')).toBe('0.25 m²');
    expect(areaField(takes, 'imperial')).toMatchObject({ unit: 'sq ft', range: { least: 0, most: 1076 } });
    expect(areaField(takes, 'metric')).toMatchObject({ unit: 'm²', range: { least: 0, most: 100 } });
  });
  it('comes back as it was typed, in either unit, and both ends of the range can be set', () => {
    for (const units of ['imperial', 'metric'] as const) {
      const { range, shown, m2 } = areaField(takes, units);
      for (const typed of [range.least, 2.7, 3.33, 10.5, range.most]) {
        expect(shown(m2(typed))).toBe(typed);
        const set = done(emptyPlan(units), { type: 'setSettings', set: { voidAreaM2: m2(typed) } });
        expect(settingsOf(set).voidAreaM2).toBe(m2(typed));
      }
    }
    expect(areaField(takes, 'imperial').m2(100)).toBeCloseTo(9.290304, 9);
  });
});

describe('plain numbers', () => {
  const price = { least: 0, most: 1e9 };
  it('are read with a comma or a point, and with their unit', () => {
    expect(readNumber('21.40', price)).toEqual({ ok: true, value: 21.4 });
    expect(readNumber(' 21,4 ', price)).toEqual({ ok: true, value: 21.4 });
    expect(readNumber('10 %', { least: 0, most: 1000 }, '%')).toEqual({ ok: true, value: 10 });
    expect(readNumber('0.25m²', { least: 0, most: 100 }, 'm²')).toEqual({ ok: true, value: 0.25 });
  });
  it('are refused in one sentence', () => {
    for (const [text, range] of [
      ['x', price],
      ['-1', price],
      ['', price],
      ['1.5', { least: 0, most: 9, whole: true }],
      ['10', { least: 0, most: 9 }],
      ['1e3', price],
    ] as const) {
      const read = readNumber(text, range);
      expect(read.ok, text).toBe(false);
      if (!read.ok) expect(read.message).toMatch(/\.$/);
    }
  });
});

describe('mouldings', () => {
  it('a new one of each kind is taken by the plan, under an id of its own, in either unit', () => {
    for (const units of ['imperial', 'metric'] as const) {
      let plan = emptyPlan(units);
      for (const { kind } of KINDS) {
        for (let twice = 0; twice < 2; twice += 1) {
          const edit = newProfile(plan, kind);
          expect(idProblem(plan, edit.profile)).toBeNull();
          plan = done(plan, edit);
          const record = plan.profiles[edit.profile]!;
          for (const { field, needed } of sizesOf(kind)) if (needed) expect(record[field]).toBeGreaterThan(0);
        }
      }
      expect(Object.keys(plan.profiles)).toHaveLength(2 * KINDS.length);
    }
  });

  it('a copy has every field but the name', () => {
    const { plan } = house();
    for (const [id, profile] of Object.entries(plan.profiles)) {
      const edit = copyOf(plan, profile);
      expect(edit.profile).not.toBe(id);
      expect(done(plan, edit).profiles[edit.profile]).toEqual({ ...profile, name: `${profile.name} copy` });
    }
  });

  it('an id that cannot be is told why', () => {
    const { plan } = house();
    expect(idProblem(plan, 'base-tall')).toContain('already');
    expect(idProblem(plan, '7up')).toContain('A letter');
    expect(idProblem(plan, 'constructor')).toBeNull();
  });
});

describe('what goes where', () => {
  it('has a row for each room and says what the plan says', () => {
    const derived = house();
    const rows = matrixOf(derived);
    expect(rows.map(({ room }) => room.id)).toEqual(
      derived.levels.flatMap(({ walk }) => walk.rooms.map(({ id }) => id)),
    );
    for (const { room, cells } of rows)
      for (const column of COLUMNS) {
        if (column === 'casing') continue;
        const chosen = room.record?.trim?.[column];
        const said = cells[column];
        expect(said.is === 'profile' ? said.id : said.is === 'none' ? null : undefined).toBe(chosen);
      }
  });

  it('one cell is set, to a profile, to none, and to nothing said', () => {
    const derived = house();
    const row = matrixOf(derived)[0]!;
    for (const profile of ['base-heavy' as ProfileId, null, undefined]) {
      const plan = done(derived.plan, setCell(derived.plan, row, 'base', profile));
      const cell = matrixOf(derive(plan))[0]!.cells.base;
      expect(cell).toEqual(
        profile === undefined
          ? { is: 'unset' }
          : profile === null
            ? { is: 'none' }
            : { is: 'profile', id: profile },
      );
    }
  });

  it('casings of a room are set on its own side only', () => {
    const derived = house();
    const { plan } = derived;
    const row = matrixOf(derived).find(({ cells }) => cells.casing.is === 'several')!;
    const next = derive(done(plan, setCell(plan, row, 'casing', 'case-b' as ProfileId)));
    const now = matrixOf(next).find(({ room }) => room.id === row.room.id)!;
    expect(now.cells.casing).toEqual({ is: 'profile', id: 'case-b' });
    for (const { id, side } of row.openings) {
      const level = plan.levels.find((each) => each.id === row.level)!;
      const [was, is] = [level, next.plan.levels.find((each) => each.id === row.level)!].map(
        (each) => each.openings[id]!.casing,
      );
      const other = side === 'left' ? 'right' : 'left';
      if (!row.openings.some((each) => each.id === id && each.side === other))
        expect(is?.[other]).toBe(was?.[other]);
    }
  });

  it('a whole column is one step, and gives rooms without a record one', () => {
    const derived = house();
    const bare: Plan = {
      ...derived.plan,
      levels: derived.plan.levels.map((level) => ({ ...level, rooms: {} })),
    };
    const unnamed = derive(bare);
    const rows = matrixOf(unnamed);
    const wanted = rows.flatMap((row) => [
      { row, column: 'base' as const, profile: 'base-tall' as ProfileId },
      { row, column: 'shoe' as const, profile: null },
    ]);
    const edit = setSeveral(bare, wanted, 'set everywhere');
    const plan = done(unnamed.plan, edit);
    const now = matrixOf(derive(plan));
    expect(now).toHaveLength(rows.length);
    for (const { cells } of now) {
      expect(cells.base).toEqual({ is: 'profile', id: 'base-tall' });
      expect(cells.shoe).toEqual({ is: 'none' });
    }
    const back = apply(unnamed.plan, edit!);
    if (!back.ok) throw new Error(back.message);
    expect(Object.keys(done(back.plan, back.inverse).levels[0]!.rooms)).toEqual([]);
  });

  it('a row is made like another', () => {
    const derived = house();
    const rows = matrixOf(derived);
    const [kitchen, study] = ['kitchen', 'study'].map((id) => rows.find(({ room }) => room.id === id)!);
    const wanted = likeRow(kitchen!).map((each) => ({ row: study!, ...each }));
    const plan = done(derived.plan, setSeveral(derived.plan, wanted, 'as kitchen'));
    const now = matrixOf(derive(plan)).find(({ room }) => room.id === 'study')!;
    expect(now.cells).toEqual(kitchen!.cells);
  });

  it('faces that do otherwise are listed, and do as the room again', () => {
    const derived = house();
    const face = derived.levels[0]!.walk.rooms[0]!.loops[0]!.segments[0]!.key;
    const level = derived.plan.levels[0]!.id;
    const odd = done(derived.plan, {
      type: 'setTrim',
      level,
      of: { face },
      lines: { base: { profile: null } },
    });
    const before = exceptionsOf(derived).length;
    const listed = exceptionsOf(derive(odd));
    expect(listed).toHaveLength(before + 1);
    const mine = listed.find((each) => each.face === face && each.line === 'base')!;
    expect(mine.profile).toBeNull();
    expect(exceptionsOf(derive(done(odd, asRoom(mine))))).toHaveLength(before);
  });
});
