// Reading, writing and doing again of plans without holding up everything else: small ones here, large ones in a thread of
// their own. The answer is the same. Knows no disk. RULES: SK13, SK19.

import type { Edit, MendNote } from '../../core/edit/index.ts';
import type { Plan } from '../../core/plan/schema.ts';
import { inThread } from './in-thread.ts';
import { newerByHead, PlanProblem, planText, understand } from './plan-file.ts';
import { valuesIn } from './plan-pieces.ts';
import { replay } from './replay.ts';
import type { NoPlan, ThreadAnswers } from './thread-jobs.ts';

/** What is smaller is understood in less time than a person notices; a thread takes as long to start and hand over. */
const LARGE_BYTES = 512 * 1024;
/** Values of a plan whose text has about so many bytes. */
const LARGE_VALUES = 40_000;
/** More edits than these take longer to be done again, even on a small plan. */
const MANY_EDITS = 100;

interface ReadyPlan {
  readonly plan: Plan;
  readonly notes: readonly MendNote[];
}

function mustBePlan<A extends { readonly ok: true }>(path: string, answer: A | NoPlan): A {
  if (!answer.ok) throw new PlanProblem(path, answer.what, answer.newer);
  return answer;
}

/** Bytes to a plan that can be edited, `path` for the sentence only. Throws `PlanProblem`. */
export async function understandAside(path: string, bytes: Uint8Array): Promise<ReadyPlan> {
  if (bytes.byteLength < LARGE_BYTES) return understand(path, bytes);
  const { answer, plan } = await inThread({ kind: 'understand', bytes }).done;
  return { plan: plan!, notes: mustBePlan(path, answer).notes };
}

/** The same without the plan: throws `PlanProblem` where there is none in the bytes. */
export async function checkAside(path: string, bytes: Uint8Array): Promise<void> {
  if (bytes.byteLength < LARGE_BYTES) understand(path, bytes);
  else mustBePlan(path, (await inThread({ kind: 'check', bytes }).done).answer);
}

/** Whether the bytes are a plan of a newer version than this program reads. */
export async function isNewerAside(bytes: Uint8Array): Promise<boolean> {
  const told = newerByHead(bytes);
  if (told !== null) return told;
  try {
    await checkAside('', bytes);
    return false;
  } catch (error) {
    if (error instanceof PlanProblem) return error.newer;
    throw error;
  }
}

/**
 * The plan of `bytes` with edits done again on it, until one cannot be done; `done` says how many were. `path` for the
 * sentence only. Throws `PlanProblem` where the bytes hold no plan.
 */
export async function replayAside(
  path: string,
  bytes: Uint8Array,
  edits: readonly Edit[],
): Promise<{ plan: Plan; done: number }> {
  if (bytes.byteLength < LARGE_BYTES && edits.length < MANY_EDITS)
    return replay(understand(path, bytes).plan, edits);
  const { answer, plan } = await inThread({ kind: 'replay', bytes, edits }).done;
  return { plan: plan!, done: mustBePlan(path, answer).done };
}

/** A plan to the bytes of its file. Where no thread can do it, it is done here: saving goes before everything else. */
export async function planTextAside(plan: Plan): Promise<ThreadAnswers['write']> {
  if (valuesIn(plan, LARGE_VALUES) < LARGE_VALUES) return planText(plan);
  try {
    return (await inThread({ kind: 'write' }, { plan }).done).answer;
  } catch {
    return planText(plan);
  }
}
