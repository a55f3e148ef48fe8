// Opening a plan file: size first, then bytes, then the reader of core. Never writes. RULES: SK14.

import { type MendNote, prepare } from '../../core/edit/index.ts';
import {
  MAX_PLAN_BYTES,
  PLAN_VERSION,
  type PlanError,
  readPlanBytes,
  writePlan,
} from '../../core/plan/index.ts';
import type { Plan } from '../../core/plan/schema.ts';
import { type FileCalls, REAL_CALLS } from './file-calls.ts';
import { hashOf, readIfThere, readWhole, type WholeFile } from './read-whole.ts';
import type { ThreadAnswers } from './thread-jobs.ts';

const KIND = 'a plan file (.copewright.json)';

/** A plan file that could not be understood. `message` is one sentence with the file and the place in it. */
export class PlanProblem extends Error {
  override readonly name = 'PlanProblem';
  /** The sentence without the file. */
  readonly what: string;
  /** Made by a newer version of the program: never to be written over. */
  readonly newer: boolean;

  constructor(path: string, what: string, newer: boolean) {
    super(`${path}: ${what}`);
    this.what = what;
    this.newer = newer;
  }
}

/** The bytes of a file that may be a plan. Throws `FileProblem`. [SK14] */
export function readPlanFile(path: string, calls: FileCalls = REAL_CALLS): Promise<WholeFile> {
  return readWhole(path, MAX_PLAN_BYTES, KIND, calls);
}

/** The same, or null where there is no such file. */
export function readPlanFileIfThere(path: string, calls: FileCalls): Promise<WholeFile | null> {
  return readIfThere(path, MAX_PLAN_BYTES, KIND, calls);
}

export interface Understood {
  /** As it stands in the file. */
  readonly asWritten: Plan;
  /** Mended and numbered, ready to be edited. */
  readonly plan: Plan;
  readonly notes: readonly MendNote[];
}

/** Bytes to a plan, `path` for the sentence only. Throws `PlanProblem`. */
export function understand(path: string, bytes: Uint8Array): Understood {
  const read = readPlanBytes(bytes);
  if (!read.ok) throw new PlanProblem(path, read.error.message, isNewer(read.error, bytes));
  const prepared = prepare(read.plan);
  if (!prepared.ok) throw new PlanProblem(path, `${prepared.path}: ${prepared.message}`, false);
  return { asWritten: read.plan, plan: prepared.plan, notes: prepared.notes };
}

/** How the program begins every plan file. */
const HEAD = /^\ufeff?\s*\{\s*"format"\s*:\s*"copewright-plan"\s*,\s*"version"\s*:\s*(\d{1,9})\s*[,}]/;
const HEAD_BYTES = 1024;

/**
 * Whether the bytes begin as a plan of a newer version than this program reads does, be the rest as it may; null where the
 * head does not tell.
 */
export function newerByHead(bytes: Uint8Array): boolean | null {
  const head = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes.subarray(0, HEAD_BYTES));
  const version = HEAD.exec(head)?.[1];
  return version === undefined ? null : Number(version) > PLAN_VERSION;
}

/** The bytes of a plan's file; why there are none where it holds what no file can hold, or more than one may. [PL7] */
export function planText(plan: Plan): ThreadAnswers['write'] {
  try {
    const bytes = new TextEncoder().encode(writePlan(plan));
    if (bytes.byteLength > MAX_PLAN_BYTES)
      return {
        ok: false,
        why: `it takes more than ${MAX_PLAN_BYTES / 1024 / 1024} MiB, the most that is read`,
      };
    return { ok: true, bytes, hash: hashOf(bytes) };
  } catch (error) {
    return { ok: false, why: error instanceof Error ? error.message : String(error) };
  }
}

function isNewer(error: PlanError, bytes: Uint8Array): boolean {
  if (error.path !== 'version') return false;
  // The reader came as far as the version, so this is sound JSON, and not deep.
  const text = new TextDecoder().decode(bytes);
  const { version } = JSON.parse(text) as { version: unknown };
  return typeof version === 'number' && version > PLAN_VERSION;
}

/**
 * Reads a plan file as it stands (not mended, not numbered), and makes sure that it can be mended.
 * Throws `FileProblem` or `PlanProblem`, each with one sentence.
 */
export async function openPlanFile(path: string): Promise<Plan> {
  const { bytes } = await readPlanFile(path);
  return understand(path, bytes).asWritten;
}
