// Patches to a plan and back: applying them without touching the old plan, and reckoning them from two plans. Patches
// are immer's, `{ op, path, value }`. They are applied here because immer refuses a path through `constructor`, which
// is a legal id; it makes them, one for each record that changed. RULES: ED11.

import { enablePatches, produceWithPatches } from 'immer';
import { byCodeUnit } from '../plan/maps.ts';
import type { Level, Plan } from '../plan/schema.ts';
import type { PlanPatch } from './types.ts';

enablePatches();

const MAPS = ['nodes', 'walls', 'openings', 'builtIns', 'marks', 'rooms', 'corners', 'faces'] as const;
const PLAN_MAPS = ['profiles', 'stockOnHand'] as const;

/** A plan with patches applied in their order; null where one of them does not fit. What is untouched stays the same object. */
export function patched(plan: Plan, patches: readonly PlanPatch[]): Plan | null {
  let now: unknown = plan;
  for (const patch of patches) {
    const next = patchedValue(now, patch, 0);
    if (next === MISFIT) return null;
    now = next;
  }
  return now as Plan;
}

/** Never a value of a plan. */
const MISFIT: unique symbol = Symbol('misfit');

function patchedValue(value: unknown, patch: PlanPatch, depth: number): unknown {
  const { op, path } = patch;
  if (depth === path.length) return op === 'remove' ? MISFIT : patch.value;
  if (typeof value !== 'object' || value === null) return MISFIT;
  const key = path[depth]!;
  const last = depth === path.length - 1;
  if (Array.isArray(value)) {
    const index = typeof key === 'number' || /^\d+$/.test(key) ? Number(key) : -1;
    return patchedArray(value, index, last, patch, depth);
  }
  const name = String(key);
  if (name === '__proto__') return MISFIT;
  const record = value as Record<string, unknown>;
  const there = Object.hasOwn(record, name);
  if (last && op !== 'remove') return { ...record, [name]: patch.value };
  if (!there) return MISFIT;
  if (last) {
    const { [name]: _gone, ...rest } = record;
    return rest;
  }
  const inner = patchedValue(record[name], patch, depth + 1);
  return inner === MISFIT ? MISFIT : { ...record, [name]: inner };
}

function patchedArray(
  list: unknown[],
  index: number,
  last: boolean,
  patch: PlanPatch,
  depth: number,
): unknown {
  const fits = Number.isInteger(index) && index >= 0;
  if (!fits || index > list.length) return MISFIT;
  if (last && patch.op === 'add') return list.toSpliced(index, 0, patch.value);
  if (index === list.length) return MISFIT;
  if (last) return patch.op === 'remove' ? list.toSpliced(index, 1) : list.with(index, patch.value);
  const inner = patchedValue(list[index], patch, depth + 1);
  return inner === MISFIT ? MISFIT : list.with(index, inner);
}

/**
 * The patches from one plan to another and back, one a record, and the ids of the records that differ, in code-unit
 * order. The way back leaves `counters` alone: numbers are never given twice. RULES: ED11.
 */
export function difference(
  before: Plan,
  after: Plan,
): {
  readonly plan: Plan;
  readonly patches: PlanPatch[];
  readonly inverse: PlanPatch[];
  readonly touched: string[];
} {
  const [plan, patches, back] = produceWithPatches(before, (draft) => {
    const sheet = draft as unknown as Record<string, unknown>;
    for (const key of new Set([...Object.keys(before), ...Object.keys(after)]) as Set<keyof Plan>) {
      if (before[key] === after[key]) continue;
      if (key === 'levels') levelsInto(draft.levels as Plan['levels'], before.levels, after.levels);
      else if (key === 'counters') draft.counters.corner = after.counters.corner;
      else if (isOneOf(PLAN_MAPS, key)) recordInto(sheet[key] as Loose, before[key], after[key]);
      else setOrDelete(sheet, key, after[key]);
    }
  });
  const inverse = back.filter((patch) => patch.path[0] !== 'counters');
  return { plan, patches, inverse, touched: touchedBy(patches, before, after) };
}

type Loose = Record<string, unknown>;

function isOneOf<T extends string>(list: readonly T[], key: string): key is T {
  return (list as readonly string[]).includes(key);
}

function setOrDelete(into: Loose, key: string, value: unknown): void {
  if (value === undefined) delete into[key];
  else into[key] = value;
}

function recordInto(into: Loose, before: Readonly<Loose>, after: Readonly<Loose>): void {
  for (const key of Object.keys(before)) if (!Object.hasOwn(after, key)) delete into[key];
  for (const key of Object.keys(after)) {
    if (!Object.hasOwn(before, key) || before[key] !== after[key]) into[key] = after[key];
  }
}

function levelsInto(into: Level[], before: readonly Level[], after: readonly Level[]): void {
  for (const [i, level] of after.entries()) {
    const was = before[i];
    if (was === undefined) into.push(level);
    else if (was.id !== level.id) into[i] = level;
    else if (was !== level) levelInto(into[i] as unknown as Loose, was, level);
  }
  if (into.length > after.length) into.splice(after.length);
}

function levelInto(into: Loose, before: Level, after: Level): void {
  for (const key of Object.keys(after) as (keyof Level)[]) {
    if (before[key] === after[key]) continue;
    if (isOneOf(MAPS, key)) recordInto(into[key] as Loose, before[key], after[key]);
    else into[key] = after[key];
  }
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
