// Names for files from titles of plans. Pure.

import type { OpenPlan } from '../../state/app-state.ts';

/** Ending of a plan file's name. */
export const ENDING = '.copewright.json';

/** A title without the signs that file systems do not take, and not longer than they take. */
export function stemFor(title: string): string {
  const plain = title
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Cf}<>:"/\\|?*]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .slice(0, 80)
    .replace(/^[. ]+|[. ]+$/g, '');
  return plain === '' ? 'plan' : plain;
}

/** The file's own name, or one that says what is in it. */
export function nameFor({ view, plan }: Pick<OpenPlan, 'view' | 'plan'>): string {
  return view.name ?? stemFor(plan.title) + ENDING;
}
