// Edits that were written down, done again one after another. Knows no disk.

import { apply, type Edit } from '../../core/edit/index.ts';
import type { Plan } from '../../core/plan/schema.ts';

/** Does them until one cannot be done: the plan so far, and how many were. */
export function replay(base: Plan, edits: readonly Edit[]): { plan: Plan; done: number } {
  let plan = base;
  for (const [done, edit] of edits.entries()) {
    try {
      const next = apply(plan, edit);
      if (!next.ok) return { plan, done };
      plan = next.plan;
    } catch {
      return { plan, done };
    }
  }
  return { plan, done: edits.length };
}
