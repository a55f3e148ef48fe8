// What an edit did not touch is lent from the derivation before it, room by room. Every edit of a random chain is applied,
// and what it gives derived, twice: with all that may be lent or remembered, and on a copy that shares no object with any
// earlier plan. Compared are what the edit gives, the report's bytes, and all that is derived, down to which object stands
// where.

import { readFileSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import { expect, test } from 'vitest';
import { apply, type Edit, prepare } from '../../../core/edit/index.ts';
import type { Plan } from '../../../core/plan/schema.ts';
import { type Derived, derive, reportToJson } from '../../../core/report/index.ts';
import { manyHouses } from '../../bench/houses.ts';
import { cases, random } from '../../seeds.ts';
import { ALL_TYPES, anyEdit } from '../edit/all-edits.ts';

const FOLDER = new URL('../../../demo-data/', import.meta.url);
const STEPS = 12;
const CHAINS = 60;
/** Edits that may change what every room hangs on. */
const OF_THE_HOUSE: ReadonlySet<string> = new Set([
  'changeLevel',
  'addLevel',
  'addProfile',
  'changeProfile',
  'renameProfile',
  'deleteProfile',
  'setSettings',
  'setPlan',
  'setStockOnHand',
  'several',
  'undo',
]);

function houseOf(name: string, copies: number): Plan {
  const text = readFileSync(new URL(`${name}.copewright.json`, FOLDER), 'utf8');
  const prepared = prepare(manyHouses(text, copies));
  if (!prepared.ok) throw new Error(prepared.message);
  return prepared.plan;
}

/** What seldom comes about by chance: two walls that a split left are joined, a room that lost its name has it again, a board just held is let go. */
function followUp(edit: Edit, before: Plan): Edit | undefined {
  if (edit.type === 'splitWall') return { type: 'joinWalls', level: edit.level, node: edit.node };
  if (edit.type === 'holdBoard')
    return { type: 'letGoBoard', profile: edit.profile, piece: edit.board.pieces[0]! };
  if (edit.type !== 'deleteRoom') return undefined;
  const record = before.levels.find(({ id }) => id === edit.level)?.rooms[edit.room];
  return record && { type: 'addRoom', level: edit.level, room: edit.room, record };
}

/**
 * The first place where two values differ, null where none does. Where one has the same object twice, the other must
 * have one object twice as well: boards and corners are told apart by being the same object.
 */
function differenceOf(a: unknown, b: unknown, twins: Map<object, object>, path = ''): string | null {
  if (Object.is(a, b)) return null;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) {
    return `${path}: ${String(a)} and ${String(b)}`;
  }
  const twin = twins.get(a);
  if (twin !== undefined) return twin === b ? null : `${path}: not the same object as elsewhere`;
  twins.set(a, b);
  if (Array.isArray(a) !== Array.isArray(b)) return `${path}: a list and a record`;
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length) return `${path}: ${keys} and ${Object.keys(b)}`;
  for (const key of keys) {
    if (!Object.hasOwn(b, key)) return `${path}.${key}: only in one`;
    const [one, other] = [(a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]];
    const found = differenceOf(one, other, twins, `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}

/** Everything derived but the report, which is compared as text: rooms, boards, findings. */
function derivedDifference(lent: Derived, whole: Derived): string | null {
  const { report: _one, ...a } = lent;
  const { report: _other, ...b } = whole;
  return differenceOf(a, b, new Map());
}

test.each([
  ['larkspur-house', 2, 1],
  ['thimble-cottage', 3, 5001],
] as const)(
  '[RP3] after any chain of edits of %s, %i times over, all is as if nothing were lent or remembered',
  (...of) => {
    const [name, copies, start] = of;
    const done: Record<string, number> = {};
    const first = houseOf(name, copies);
    const whole = derive(first);
    let [rooms, lentRooms] = [0, 0];
    const last = start + cases(CHAINS) - 1;
    for (let seed = start; seed <= last; seed++) {
      const next = random(seed);
      let [plan, before] = [first, whole];
      const undo: Edit[] = [];
      let follows: Edit | undefined;
      for (let step = 0; step < STEPS; step++) {
        const back = next() < 0.2 ? undo.pop() : undefined;
        const edit = back ?? follows ?? anyEdit(plan, next, step);
        if (back === undefined) follows = undefined;
        const kind = back === undefined ? edit.type : 'undo';
        const label = `${name}, seed ${seed}, step ${step}: ${JSON.stringify(edit)}`;
        const result = apply(plan, edit);
        expect(isDeepStrictEqual(result, apply(structuredClone(plan), edit)), label).toBe(true);
        if (!result.ok) continue;
        if (back === undefined) follows = followUp(edit, plan);
        plan = result.plan;
        if (back === undefined) undo.push(result.inverse);
        const afresh = derive(structuredClone(plan));
        const lent = derive(plan, before);
        expect(lent.plan, label).toBe(plan);
        expect(reportToJson(lent.report), label).toBe(reportToJson(afresh.report));
        expect(derivedDifference(lent, afresh), label).toBe(null);
        if (!OF_THE_HOUSE.has(kind)) {
          const known = new Set(before.levels.flatMap((level) => level.trims));
          const trims = lent.levels.flatMap((level) => level.trims);
          rooms += trims.length;
          lentRooms += trims.filter((trim) => known.has(trim)).length;
        }
        before = lent;
        done[kind] = (done[kind] ?? 0) + 1;
      }
    }
    const drawn = `seeds ${start} to ${last}`;
    console.log(`lending, ${name}: ${drawn}, ${lentRooms} of ${rooms} rooms lent by edits of a level`, done);
    expect(lentRooms / rooms).toBeGreaterThan(0.5);
    if (cases(CHAINS) === CHAINS)
      for (const type of ALL_TYPES) expect(Object.keys(done), type).toContain(type);
  },
);
