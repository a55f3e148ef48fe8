// A plan file's bytes or text to a plan in memory, or one sentence that says what is wrong, where, and what would be
// right. Never throws on input. Order: size, encoding, JSON with depth and keys, format and version, schema,
// references. Knows no disk: the caller names the file. RULES: PL1–PL6.

import { problemOf, shown } from './issues.ts';
import { referenceProblem } from './references.ts';
import { type JsonPath, lineAndColumn, offsetOf, pathText, scanJson } from './scan.ts';
import { type Plan, PlanSchema } from './schema.ts';
import { readInPieces } from './shape.ts';
import { decodeUtf8 } from './utf8.ts';

/** Larger files are refused unread: 64 MiB. */
export const MAX_PLAN_BYTES = 64 * 1024 * 1024;
/** More walls on one level are refused. */
export const MAX_WALLS = 100_000;
/** The version that this program reads and writes. */
export const PLAN_VERSION = 1;

/** Why a plan could not be read. `message` is one sentence and holds the place as well. */
export interface PlanError {
  readonly message: string;
  /** JSON path such as `levels[0].walls.w3`; null where the place is only a line and column, or none. */
  readonly path: string | null;
  /** From 1; null where there is no place. */
  readonly line: number | null;
  readonly column: number | null;
}

export type PlanRead =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly error: PlanError };

/** Reads a plan from the bytes of a file: UTF-8, with or without a byte order mark. Never throws. [PL1] */
export function readPlanBytes(bytes: Uint8Array): PlanRead {
  if (bytes.length > MAX_PLAN_BYTES) return tooLarge();
  const decoded = decodeUtf8(bytes);
  if (decoded.ok) return readPlan(decoded.text);
  if (decoded.why === 'utf-16') {
    return refused('', 0, [], 'the file is written in UTF-16 or UTF-32; save it as UTF-8');
  }
  const before = decodeUtf8(bytes.subarray(0, decoded.offset));
  const text = before.ok ? before.text : '';
  const byte = bytes[decoded.offset]!.toString(16).toUpperCase().padStart(2, '0');
  return refused(text, text.length, [], `found the byte ${byte}, which is not UTF-8; save the file as UTF-8`);
}

/** Reads a plan from text. Never throws. [PL2–PL6] */
export function readPlan(file: string): PlanRead {
  if (file.length > MAX_PLAN_BYTES) return tooLarge();
  const text = file.startsWith('\ufeff') ? file.slice(1) : file;
  if (text.trim() === '') return refused(text, 0, [], 'the file is empty; it should hold a plan');
  const broken = scanJson(text);
  if (broken) return refused(text, broken.offset, broken.path, broken.what);
  const document: unknown = JSON.parse(text);

  const unfit = envelopeProblem(document) ?? sizeProblem(document);
  if (unfit) return refused(text, offsetOf(text, unfit.path), unfit.path, unfit.what);

  const parsed = readInPieces(PlanSchema, document);
  if (!parsed.ok) {
    const problem = problemOf(parsed.issue, document);
    return refused(text, offsetOf(text, problem.path, problem.on), problem.path, problem.what);
  }
  const plan = withoutAbsent(parsed.value) as Plan;
  const dangling = referenceProblem(plan);
  if (dangling)
    return refused(text, offsetOf(text, dangling.path, dangling.on), dangling.path, dangling.what);
  return { ok: true, plan: withCounterRaised(plan) };
}

interface Unfit {
  readonly path: JsonPath;
  readonly what: string;
}

/** Is this a plan, and of a version that we read? */
function envelopeProblem(document: unknown): Unfit | null {
  if (typeof document !== 'object' || document === null || Array.isArray(document)) {
    return { path: [], what: `found ${shown(document)} where a plan, a record in braces, should be` };
  }
  const { format, version } = document as { format?: unknown; version?: unknown };
  if (!Object.hasOwn(document, 'format') || format !== 'copewright-plan') {
    const found = format === undefined ? 'its "format" is missing' : `its "format" is ${shown(format)}`;
    return {
      path: format === undefined ? [] : ['format'],
      what: `this is not a plan: ${found} and should be "copewright-plan"`,
    };
  }
  if (version === undefined) return { path: [], what: `"version" is missing; it should be ${PLAN_VERSION}` };
  if (typeof version === 'number' && version > PLAN_VERSION) {
    return {
      path: ['version'],
      what: `this plan was made by a newer version of the program (file version ${version}, read here: ${PLAN_VERSION}) and is left as it is`,
    };
  }
  if (version !== PLAN_VERSION) {
    return {
      path: ['version'],
      what: `found ${shown(version)} where the file version, ${PLAN_VERSION}, should be`,
    };
  }
  return null;
}

function sizeProblem(document: unknown): Unfit | null {
  const { levels } = document as { levels?: unknown };
  if (!Array.isArray(levels)) return null;
  for (const [index, level] of levels.entries()) {
    const walls: unknown = level?.walls;
    if (typeof walls !== 'object' || walls === null) continue;
    const count = Object.keys(walls).length;
    if (count > MAX_WALLS) {
      return {
        path: ['levels', index, 'walls'],
        what: `${count} walls on one level are more than ${MAX_WALLS}`,
      };
    }
  }
  return null;
}

/** The same value without keys whose value is undefined, and without −0: absent is absent, so that plans compare. */
function withoutAbsent(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutAbsent);
  if (typeof value === 'object' && value !== null) {
    const copy: Record<string, unknown> = {};
    for (const [key, inner] of Object.entries(value)) {
      if (inner !== undefined) copy[key] = withoutAbsent(inner);
    }
    return copy;
  }
  return Object.is(value, -0) ? 0 : value;
}

/** The counter is never below a number that was given [PL6]. */
function withCounterRaised(plan: Plan): Plan {
  let corner = plan.counters.corner;
  for (const level of plan.levels) {
    for (const record of Object.values(level.corners)) corner = Math.max(corner, record.number ?? 0);
  }
  return corner === plan.counters.corner ? plan : { ...plan, counters: { corner } };
}

function tooLarge(): PlanRead {
  const limit = MAX_PLAN_BYTES / 1024 / 1024;
  return {
    ok: false,
    error: {
      message: `The file is larger than ${limit} MiB, the most that a plan may take.`,
      path: null,
      line: null,
      column: null,
    },
  };
}

function refused(text: string, offset: number, path: JsonPath, what: string): PlanRead {
  const { line, column } = lineAndColumn(text, offset);
  const where = pathText(path);
  const place = where === '' ? `${line}:${column}` : `${where} (${line}:${column})`;
  return {
    ok: false,
    error: { message: `${place}: ${what}.`, path: where === '' ? null : where, line, column },
  };
}
