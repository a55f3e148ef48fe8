// Patches to a plan and back: applying them without touching the old plan, and reckoning them from two plans. Patches
// have immer's form, `{ op, path, value }`, one for each record that changed. Both are done here: immer refuses a path
// through `constructor`, which is a legal id, and looks at every record to find the one that changed. RULES: ED11.

import { byCodeUnit, changedKeys, lookup } from '../plan/maps.ts';
import type { Level, Plan } from '../plan/schema.ts';
import { frozen } from './frozen.ts';
import type { PlanPatch } from './types.ts';

const MAPS = ['nodes', 'walls', 'openings', 'builtIns', 'marks', 'rooms', 'corners', 'faces'] as const;
const PLAN_MAPS = ['profiles', 'stockOnHand', 'heldBoards'] as const;

/** A plan with patches applied in their order; null where one of them does not fit. What is untouched stays the same object. */
export function patched(plan: Plan, patches: readonly PlanPatch[]): Plan | null {
  const own = new Set<unknown>();
  let now: unknown = plan;
  for (const patch of patches) {
    const next = patchedValue(now, patch, 0, own);
    if (next === MISFIT) return null;
    now = next;
  }
  return now as Plan;
}

/** Never a value of a plan. */
const MISFIT: unique symbol = Symbol('misfit');

/** `own`: copies made for these patches, which nobody else has yet: a map is copied once, however many patches it takes. */
function patchedValue(value: unknown, patch: PlanPatch, depth: number, own: Set<unknown>): unknown {
  const { op, path } = patch;
  if (depth === path.length) return op === 'remove' ? MISFIT : patch.value;
  if (typeof value !== 'object' || value === null) return MISFIT;
  const key = path[depth]!;
  const last = depth === path.length - 1;
  if (Array.isArray(value)) {
    const index = typeof key === 'number' || /^\d+$/.test(key) ? Number(key) : -1;
    return patchedArray(value, index, last, patch, depth, own);
  }
  const name = String(key);
  if (name === '__proto__') return MISFIT;
  const record = value as Record<string, unknown>;
  if (!(last && op !== 'remove') && !Object.hasOwn(record, name)) return MISFIT;
  const inner = last ? patch.value : patchedValue(record[name], patch, depth + 1, own);
  if (inner === MISFIT) return MISFIT;
  const copy = own.has(value) ? record : { ...record };
  own.add(copy);
  if (last && op === 'remove') delete copy[name];
  else copy[name] = inner;
  return copy;
}

function patchedArray(
  list: unknown[],
  index: number,
  last: boolean,
  patch: PlanPatch,
  depth: number,
  own: Set<unknown>,
): unknown {
  const fits = Number.isInteger(index) && index >= 0;
  if (!fits || index > list.length) return MISFIT;
  if (last && patch.op === 'add') return list.toSpliced(index, 0, patch.value);
  if (index === list.length) return MISFIT;
  if (last) return patch.op === 'remove' ? list.toSpliced(index, 1) : list.with(index, patch.value);
  const inner = patchedValue(list[index], patch, depth + 1, own);
  return inner === MISFIT ? MISFIT : list.with(index, inner);
}

/** A plan told from another: patches there and back, and the later plan with what did not change as the earlier's objects. */
export interface Difference {
  readonly plan: Plan;
  readonly patches: readonly PlanPatch[];
  readonly inverse: readonly PlanPatch[];
  readonly touched: readonly string[];
}

/**
 * The patches from one plan to another and back, one a record, and the ids of the records that differ, in code-unit
 * order. The way back leaves `counters` alone: numbers are never given twice. The plan that comes back is frozen, all
 * that it holds too: nobody can change it in place. RULES: ED11.
 */
export function difference(before: Plan, after: Plan): Difference {
  const said: Said = { patches: [], inverse: [] };
  const fields = new Map<string, unknown>();
  for (const key of new Set([...Object.keys(before), ...Object.keys(after)]) as Set<keyof Plan>) {
    const [was, is] = [before[key], after[key]];
    let now: unknown = is;
    if (was === is) now = was;
    else if (key === 'levels') now = levelsFrom(before.levels, after.levels, said);
    else if (key === 'counters') tell(said, [key, 'corner'], before.counters.corner, after.counters.corner);
    else if (isOneOf(PLAN_MAPS, key)) now = recordsFrom(was as Loose, is as Loose, [key], said);
    else tell(said, [key], was, is);
    if (now !== undefined) fields.set(key, now);
  }
  const { patches } = said;
  const inverse = said.inverse.filter((patch) => patch.path[0] !== 'counters');
  const plan = patches.length === 0 ? before : (Object.fromEntries(fields) as Plan);
  return { plan: frozen(plan), patches, inverse, touched: touchedBy(patches, before, after) };
}

type Loose = Record<string, unknown>;
type Path = PlanPatch['path'];

interface Said {
  readonly patches: PlanPatch[];
  readonly inverse: PlanPatch[];
}

function isOneOf<T extends string>(list: readonly T[], key: string): key is T {
  return (list as readonly string[]).includes(key);
}

/** Patches for one place; undefined is what is not there. */
function tell({ patches, inverse }: Said, path: Path, was: unknown, is: unknown): void {
  if (was === is) return;
  if (is === undefined) patches.push({ op: 'remove', path });
  else patches.push({ op: was === undefined ? 'add' : 'replace', path, value: is });
  if (was === undefined) inverse.push({ op: 'remove', path });
  else inverse.push({ op: is === undefined ? 'add' : 'replace', path, value: was });
}

/** A map of records: the later one, or the earlier where they hold the same records. */
function recordsFrom(was: Readonly<Loose>, is: Readonly<Loose>, path: Path, said: Said): Readonly<Loose> {
  const changed = changedKeys(was, is);
  for (const key of changed) tell(said, [...path, key], lookup(was, key), lookup(is, key));
  return changed.length === 0 ? was : is;
}

function levelsFrom(before: readonly Level[], after: readonly Level[], said: Said): readonly Level[] {
  const levels = after.map((level, i) => {
    const was = before[i];
    if (was !== undefined && was.id === level.id) return levelFrom(was, level, i, said);
    if (was === undefined) said.patches.push({ op: 'add', path: ['levels', i], value: level });
    else tell(said, ['levels', i], was, level);
    return level;
  });
  // What was put on is taken off from the end; what was taken off is put on in its order.
  const removal = (i: number): PlanPatch => ({ op: 'remove', path: ['levels', i] });
  for (let i = after.length - 1; i >= before.length; i--) said.inverse.push(removal(i));
  for (let i = before.length - 1; i >= after.length; i--) said.patches.push(removal(i));
  for (let i = after.length; i < before.length; i++) {
    said.inverse.push({ op: 'add', path: ['levels', i], value: before[i] });
  }
  return levels.length === before.length && levels.every((level, i) => level === before[i]) ? before : levels;
}

function levelFrom(was: Level, is: Level, place: number, said: Said): Level {
  if (was === is) return was;
  let same = true;
  const fields = Object.entries(is).map(([key, value]) => {
    const before = was[key as keyof Level];
    if (before === value) return [key, value];
    const path = ['levels', place, key];
    let now = value;
    if (isOneOf(MAPS, key))
      now = recordsFrom(before as Loose, value as unknown as Loose, path, said) as never;
    else tell(said, path, before, value);
    if (now !== before) same = false;
    return [key, now];
  });
  return same ? was : (Object.fromEntries(fields) as Level);
}

function touchedBy(patches: readonly PlanPatch[], before: Plan, after: Plan): string[] {
  const touched = new Set<string>();
  for (const { path } of patches) {
    const [top, key, map, id] = path.map(String);
    if (top === 'counters') continue;
    if (top !== 'levels') touched.add(isOneOf(PLAN_MAPS, top!) ? (key ?? top) : top!);
    else if (id !== undefined && isOneOf(MAPS, map!)) touched.add(id);
    else touched.add((after.levels[Number(key)] ?? before.levels[Number(key)])?.id ?? top);
  }
  return [...touched].sort(byCodeUnit);
}
