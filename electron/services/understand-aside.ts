// Understanding the bytes of a plan without holding up everything else: small files here, large ones in a thread of their
// own. The answer is the same. Knows no disk.

import type { MendNote } from '../../core/edit/index.ts';
import type { Plan } from '../../core/plan/schema.ts';
import { inThread } from './in-thread.ts';
import { PlanProblem, understand } from './plan-file.ts';

/** What is smaller is understood in less time than a person notices; a thread takes as long to start and hand over. */
const LARGE_BYTES = 512 * 1024;

interface ReadyPlan {
  readonly plan: Plan;
  readonly notes: readonly MendNote[];
}

/** Bytes to a plan that can be edited, `path` for the sentence only. Throws `PlanProblem`. */
export async function understandAside(path: string, bytes: Uint8Array): Promise<ReadyPlan> {
  if (bytes.byteLength < LARGE_BYTES) return understand(path, bytes);
  const answer = await inThread({ kind: 'understand', bytes }).done;
  if (!answer.ok) throw new PlanProblem(path, answer.what, answer.newer);
  return answer;
}
