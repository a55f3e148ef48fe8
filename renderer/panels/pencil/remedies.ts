// A finding to what can be done about it with one click: edits of the plan, and places to go where no edit can do it.
// Every edit is tried on the plan in memory first, so that what is offered does what it says; what it does not clear,
// and what it brings about, is said beside it. Draws nothing and keeps nothing.

import { apply, type Edit } from '../../../core/edit/index.ts';
import { type Finding, type FindingCode, SEVERITIES } from '../../../core/fit/index.ts';
import { type Derived, derive } from '../../../core/report/index.ts';
import { findingKey } from './findings.ts';
import { cornerRemedies } from './remedies-corners.ts';
import { profileRemedies } from './remedies-profiles.ts';
import { recordRemedies } from './remedies-records.ts';
import type { EditRemedy, GoRemedy, Outcome, Remedy } from './remedy.ts';

/** Findings that `derive` does not make: scribes and boards are worked out later. */
const OF_THE_SOLVER: ReadonlySet<FindingCode> = new Set(['scribe-deep', 'end-tilt']);

/** What could be done about a finding, in order of preference, not tried yet. `derived` is of the plan shown. */
export function candidatesOf(finding: Finding, derived: Derived): Remedy[] {
  return [
    ...profileRemedies(finding, derived),
    ...cornerRemedies(finding, derived),
    ...recordRemedies(finding, derived),
  ];
}

/** Does an edit in memory and compares the findings. `derived` must be unsolved: `derive` of the plan shown. */
export function outcomeOf(edit: Edit, finding: Finding, derived: Derived): Outcome {
  const result = apply(derived.plan, edit);
  if (!result.ok) return { refused: result.message, gone: false, alsoGone: 0, brings: [] };
  const after = derive(result.plan, derived);
  const key = findingKey(finding, derived);
  const before = new Set(derived.findings.map((each) => findingKey(each, derived)));
  const now = new Set(after.findings.map((each) => findingKey(each, after)));
  const ofSolver = OF_THE_SOLVER.has(finding.code) || !before.has(key);
  return {
    refused: null,
    gone: ofSolver ? null : !now.has(key),
    alsoGone: [...before].filter((each) => each !== key && !now.has(each)).length,
    brings: after.findings.filter((each) => !before.has(findingKey(each, after))),
  };
}

export type TriedRemedy = GoRemedy | (EditRemedy & { readonly outcome: Outcome });

/** A remedy with its outcome; null where it is not worth offering: it cannot be done, or it leaves all as it is. */
export function tried(remedy: Remedy, finding: Finding, derived: Derived): TriedRemedy | null {
  if (remedy.kind === 'go') return remedy;
  const outcome = outcomeOf(remedy.edit, finding, derived);
  if (outcome.refused !== null) return null;
  if (outcome.gone === false && remedy.leaves === undefined) return null;
  // To trade a finding for one as bad or worse is no remedy.
  const bad = SEVERITIES.indexOf(finding.severity);
  if (outcome.brings.some((each) => SEVERITIES.indexOf(each.severity) <= bad)) return null;
  return { ...remedy, outcome };
}

/** All that is worth offering, in order. Derives the plan once for each edit. */
export function remediesOf(finding: Finding, derived: Derived): TriedRemedy[] {
  const offered = candidatesOf(finding, derived).flatMap((remedy) => tried(remedy, finding, derived) ?? []);
  return offered.filter((each, at) => offered.findIndex(({ words }) => words === each.words) === at);
}

/** What an outcome means, in one plain sentence: what goes, what stays, what comes. */
export function outcomeWords({ outcome, leaves }: EditRemedy & { readonly outcome: Outcome }): string {
  const parts: string[] = [];
  if (outcome.gone === null)
    parts.push('What it does to the scribe or the boards shows once they are worked out.');
  else if (outcome.gone) {
    const also = outcome.alsoGone;
    parts.push(also === 0 ? 'Clears this.' : `Clears this and ${also} ${also === 1 ? 'other' : 'others'}.`);
  } else if (leaves !== undefined) parts.push(leaves);
  const worst = outcome.brings[0];
  if (worst !== undefined) {
    const more = outcome.brings.length - 1;
    parts.push(`Brings ${worst.severity}: ${worst.message}${more > 0 ? ` And ${more} more.` : ''}`);
  }
  return parts.join(' ');
}
