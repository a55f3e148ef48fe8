// A plan in memory to the text of a plan file, always the same text for the same plan: keys in the schema's order, maps
// in code-unit order, one entry of a map a line where it fits, so that two versions of a plan compare well by line.
// What cannot be read again (not finite, not whole ticks, out of range, too much) throws instead of being written. RULES: PL7.

import { z } from 'zod';
import { beyondReading } from './limits.ts';
import { byCodeUnit } from './maps.ts';
import { pathText } from './scan.ts';
import { type Plan, PlanSchema } from './schema.ts';

/** A value longer than this with its key is written on several lines. */
const LINE_LENGTH = 120;
type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json | undefined };

/**
 * The text of a plan file, with a line end at its end; millimetres are the shortest decimals that give the same ticks.
 * Throws an Error that names the place where the plan holds what no file may hold. [PL7]
 */
export function writePlan(plan: Plan): string {
  const encoded = z.safeEncode(PlanSchema, plan);
  if (!encoded.success) {
    const issue = encoded.error.issues[0]!;
    const path = issue.path.filter((step) => typeof step !== 'symbol');
    throw new Error(`${pathText(path)}: ${issue.message}`);
  }
  const { heldBoards = {} } = encoded.data;
  const file = {
    ...encoded.data,
    heldBoards: Object.keys(heldBoards).length === 0 ? undefined : heldBoards,
    levels: encoded.data.levels.map(withoutEmptyMaps),
  };
  const beyond = beyondReading(file);
  if (beyond !== null) throw new Error(beyond);
  return `${print(file as Json, 'plan', '', 0)}\n`;
}

function withoutEmptyMaps(level: Record<string, unknown>): Record<string, unknown> {
  const kept = Object.entries(level).filter(
    ([, value]) => !(typeof value === 'object' && value !== null && Object.keys(value).length === 0),
  );
  return Object.fromEntries(kept);
}

/** What a value is in the file, as far as its layout depends on it. */
type Place = 'plan' | 'settings' | 'levels' | 'level' | 'map' | 'faces' | 'face' | 'stretches' | 'other';

/** Always written one entry a line: the plan, its settings, its levels, and their maps. */
const ALWAYS_OPEN: readonly Place[] = ['plan', 'settings', 'levels', 'level', 'map', 'faces'];
/** Their keys are sorted. */
const MAPS: readonly Place[] = ['map', 'faces', 'stretches'];
const MAP_NAMES = 'profiles stockOnHand heldBoards nodes walls openings builtIns marks rooms corners'.split(
  ' ',
);

/** The place of the part `key` of a value. */
function placeIn(place: Place, key: string | number): Place {
  if (place === 'levels') return 'level';
  if (place === 'faces') return 'face';
  if (place === 'face' && key === 'stretches') return 'stretches';
  if (place !== 'plan' && place !== 'level') return 'other';
  if (key === 'levels' || key === 'settings' || key === 'faces') return key;
  return MAP_NAMES.includes(String(key)) ? 'map' : 'other';
}

/** The parts of a list or record, each with its key's text; maps sorted, absent fields left out. */
function partsOf(value: Json & object, place: Place): { key: string | number; label: string; inner: Json }[] {
  if (isList(value)) return value.map((inner, key) => ({ key, label: '', inner }));
  const entries = Object.entries(value).filter((entry): entry is [string, Json] => entry[1] !== undefined);
  if (MAPS.includes(place)) entries.sort(([a], [b]) => byCodeUnit(a, b));
  return entries.map(([key, inner]) => ({ key, label: `${JSON.stringify(key)}: `, inner }));
}

function isList(value: Json & object): value is readonly Json[] {
  return Array.isArray(value);
}

/** `value` as JSON on as many lines as it needs; `before` characters of its first line are taken already. */
function print(value: Json, place: Place, outer: string, before: number): string {
  if (!ALWAYS_OPEN.includes(place)) {
    const line = oneLine(value, place);
    if (before + line.length <= LINE_LENGTH) return line;
  }
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const parts = partsOf(value, place);
  const [open, close] = isList(value) ? '[]' : '{}';
  if (parts.length === 0) return `${open}${close}`;
  const lines = parts.map(({ key, label, inner }) => {
    const start = `${outer}  ${label}`;
    return start + print(inner, placeIn(place, key), `${outer}  `, start.length + 1);
  });
  return `${open}\n${lines.join(',\n')}\n${outer}${close}`;
}

function oneLine(value: Json, place: Place): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const parts = partsOf(value, place).map(
    ({ key, label, inner }) => label + oneLine(inner, placeIn(place, key)),
  );
  if (isList(value)) return `[${parts.join(', ')}]`;
  return parts.length === 0 ? '{}' : `{ ${parts.join(', ')} }`;
}
