// What keeps a plan out of a file, in the words of whoever works on it: the thing and its field by name, limits in the plan's
// units. The reader says the same of a file's text, in millimetres with line and column (plan/issues.ts). RULES: ED11.

import type { z } from 'zod';
import type { JsonPath } from '../plan/scan.ts';
import { type Plan, PlanSchema } from '../plan/schema.ts';
import { schemaAt } from '../plan/shape.ts';
import { formatLength } from '../units/format.ts';
import { TICKS_PER_MM, type Ticks } from '../units/ticks.ts';

/** A length that a limit is at, or that stands in a plan: to 1/64 in or 0.1 mm. */
export function printLength({ units }: Plan, ticks: Ticks): string {
  return formatLength(ticks, { units, roundIn: 64, roundMm: 0.1, style: 'feet' });
}

/** `Opening o1, sill: it must be at least 0.` Of an issue of the schema, found while `plan` was encoded. */
export function issueWords(plan: Plan, issue: z.core.$ZodIssue): string {
  const path = issue.path.filter((step) => typeof step !== 'symbol');
  return `${placeWords(plan, path)}: ${demand(plan, path, issue)}.`;
}

const THINGS: Readonly<Record<string, string>> = {
  nodes: 'Wall end',
  walls: 'Wall',
  openings: 'Opening',
  builtIns: 'Built-in',
  marks: 'Mark',
  rooms: 'Room',
  corners: 'Corner',
  faces: 'Face',
  profiles: 'Profile',
  stockOnHand: 'Boards on hand of',
  heldBoards: 'Held boards of',
};

/** Where in a plan: `Opening o1, sill`, `Setting cope min`, `Level L1, ceiling height`. */
export function placeWords(plan: Plan, path: JsonPath): string {
  const [first, second, ...rest] = path;
  if (first === 'levels' && typeof second === 'number') {
    const [map, id, ...fields] = rest;
    if (typeof map === 'string' && id !== undefined && THINGS[map] !== undefined)
      return [`${THINGS[map]} ${id}`, ...fields.map(stepWords)].join(', ');
    return [`Level ${plan.levels[second]?.id ?? second + 1}`, ...rest.map(stepWords)].join(', ');
  }
  if (typeof first === 'string' && second !== undefined && THINGS[first] !== undefined)
    return [`${THINGS[first]} ${second}`, ...rest.map(stepWords)].join(', ');
  if (first === 'settings' && second !== undefined)
    return [`Setting ${stepWords(second)}`, ...rest.map(stepWords)].join(', ');
  const words = path.map(stepWords).join(', ');
  return words === '' ? 'The plan' : words.charAt(0).toUpperCase() + words.slice(1);
}

/** A step of a path: the first of a list is `1`. */
function stepWords(step: string | number): string {
  return typeof step === 'number' ? `${step + 1}` : fieldWords(step);
}

/** `ceilingHeight` as `ceiling height`. */
export function fieldWords(name: string): string {
  return name.replace(/[A-Z]/g, (each) => ` ${each.toLowerCase()}`);
}

/** What would be right. */
function demand(plan: Plan, path: JsonPath, issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'too_small':
      if (issue.origin !== 'number') return `it needs at least ${issue.minimum}`;
      return limit(plan, path, Number(issue.minimum), issue.inclusive === true ? 'at least' : 'more than');
    case 'too_big':
      if (issue.origin === 'string') return `it holds at most ${issue.maximum} characters`;
      if (issue.origin !== 'number') return `it holds at most ${issue.maximum}`;
      return limit(plan, path, Number(issue.maximum), issue.inclusive === true ? 'at most' : 'less than');
    case 'invalid_type':
      return `it must be ${issue.expected === 'int' ? 'a whole number' : `a ${issue.expected}`}`;
    case 'invalid_value':
      return `it must be one of ${issue.values.map(String).join(', ')}`;
    case 'unrecognized_keys':
      return `it has no ${issue.keys.map(stepWords).join(', ')}`;
    case 'invalid_format':
    case 'custom':
      return `it must be ${issue.message}`;
    default:
      return 'this does not belong there';
  }
}

type Way = 'at least' | 'more than' | 'at most' | 'less than';

/** A limit of the schema: of lengths in millimetres, and a length that must be a tick or more is one above 0. */
function limit(plan: Plan, path: JsonPath, at: number, way: Way): string {
  const ticks = isLength(path) ? Math.round(at * TICKS_PER_MM) : null;
  if (ticks === 1 && way === 'at least') return 'it must be more than 0';
  const words = at === 0 ? '0' : ticks === null ? `${at}` : printLength(plan, ticks);
  return `it must be ${way} ${words}`;
}

/** Whether millimetres stand there in a file: they come out of it as ticks. */
function isLength(path: JsonPath): boolean {
  const schema = schemaAt(PlanSchema, path) as z.ZodType | null;
  const read = schema?.safeDecode(PROBE_MM as never);
  return read?.success === true && read.data === PROBE_MM * TICKS_PER_MM;
}

/** Within the limits of every length of a plan. */
const PROBE_MM = 10;
