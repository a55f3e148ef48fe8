// Whether what an edit made of a plan can be written to a file and read again. Only records that differ are held
// against the schema; references and limits only where what is named, or who names it, differs. RULES: ED11.

import { z } from 'zod';
import { changedKeys } from '../plan/maps.ts';
import { referenceProblem } from '../plan/references.ts';
import { type Level, type Plan, PlanSchema } from '../plan/schema.ts';
import { fieldWords, issueWords, placeWords, printLength } from './fault-words.ts';

/** One sentence on what is wrong with `after`, given that `before` was right; null when nothing is. */
export function planFault(before: Plan, after: Plan): string | null {
  const checked = z.safeEncode(PlanSchema, onlyChanged(before, after));
  if (!checked.success) return issueWords(before, checked.error.issues[0]!);
  const problem = referenceProblem(after, before, {
    length: (ticks) => printLength(after, ticks),
    field: fieldWords,
    unit: '',
  });
  return problem === null ? null : `${placeWords(after, problem.path)}: ${problem.what}.`;
}

const MAPS = ['nodes', 'walls', 'openings', 'builtIns', 'marks', 'rooms', 'corners', 'faces'] as const;

/** The plan `after` without the records that `before` has as the same objects. What is no plan at all comes back as it is. */
function onlyChanged(before: Plan, after: Plan): Plan {
  if (!isRecord(after) || !Array.isArray(after.levels)) return after;
  const levels = after.levels.map((level, i): Level => {
    const was = before.levels[i];
    if (was === undefined || !isRecord(level)) return level;
    const thin = { ...level } as Record<string, unknown>;
    for (const map of MAPS) thin[map] = thinned(was[map], level[map]);
    return thin as unknown as Level;
  });
  return { ...after, levels, profiles: thinned(before.profiles, after.profiles) as Plan['profiles'] };
}

function thinned(before: Readonly<Record<string, unknown>>, after: unknown): unknown {
  if (!isRecord(after)) return after;
  const changed = changedKeys(before, after).filter((id) => Object.hasOwn(after, id));
  return Object.fromEntries(changed.map((id) => [id, after[id]]));
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
