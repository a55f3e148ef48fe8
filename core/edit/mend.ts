// A plan whose levels need not be planar to one whose levels are, with a note for every change; and what opening a plan
// does: mending, then numbering. RULES: ED1 to ED7, ED10.

import type { Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { finishLevel } from './finish.ts';
import { MEND_PASSES, mostEffort } from './limits.ts';
import { Tangled } from './meets.ts';
import { number } from './number.ts';
import { isPlanar, makePlanar } from './planar.ts';
import type { MendNote, MendResult } from './types.ts';
import { openLevel } from './working.ts';

/**
 * Makes every level exactly planar. A plan that is planar comes back as the same object, without notes. Refused when a
 * level is not planar after twenty passes, or its walls meet in more places than can be mended in a moment. Throws on a
 * wall whose node does not exist. `since`: an earlier state of the plan; of levels that were planar there only what
 * changed is looked at. RULES: ED1 to ED7.
 */
export function mend(plan: Plan, since?: Plan): MendResult {
  const settings = settingsOf(plan);
  const notes: MendNote[] = [];
  const levels: Plan['levels'] = [];
  const effort = mostEffort(plan.levels.reduce((sum, { walls }) => sum + Object.keys(walls).length, 0));
  for (const [i, level] of plan.levels.entries()) {
    const before = since?.levels.find(({ id }) => id === level.id);
    const refused = (message: string): MendResult => {
      return { ok: false, message, level: level.id, path: `levels[${i}]` };
    };
    try {
      if (isPlanar(level, before, effort)) {
        levels.push(level);
        continue;
      }
      const working = openLevel(level);
      if (!makePlanar(working, effort))
        return refused(
          `Level ${level.id} cannot be mended: after ${MEND_PASSES} passes its walls still cross or touch ` +
            'elsewhere than at their nodes. Draw its walls farther apart.',
        );
      const finished = finishLevel(working, settings);
      levels.push(finished.level);
      for (const note of finished.notes) notes.push(note);
    } catch (error) {
      if (!(error instanceof Tangled)) throw error;
      return refused(
        `Level ${level.id} is too tangled to be mended: its walls cross, touch or lie over each other in more ` +
          'places than a house has. Take away what is not of the house.',
      );
    }
  }
  const same = levels.every((level, i) => level === plan.levels[i]);
  return { ok: true, plan: same ? plan : { ...plan, levels }, notes };
}

/**
 * What opening a plan does: mends it, then numbers its corners. Refuses and throws as `mend` does. What did not change
 * since an earlier state is not looked at again; the answer is the same. RULES: ED1, ED10.
 */
export function prepare(plan: Plan, since?: Plan): MendResult {
  const mended = mend(plan, since);
  return mended.ok ? { ...mended, plan: number(mended.plan, since) } : mended;
}
