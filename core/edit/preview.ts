// A wall edit as a gesture shows it while the pointer moves: walls and what stands on them in their places, nothing
// mended, carried or numbered. For drawing only: what is kept comes from `apply`. RULES: ED25.

import type { Level, Plan } from '../plan/schema.ts';
import { openEdited, type WallEdit } from './edits.ts';
import { noLevel } from './plan-edits.ts';
import { isFailure } from './refuse.ts';
import { settleStanding } from './settle.ts';
import type { EditFailure } from './types.ts';
import { closeLevel } from './working.ts';

/** The edited level, not mended: walls may cross, and nodes may share a place. The plan is not touched. RULES: ED25. */
export function preview(
  plan: Plan,
  edit: WallEdit,
): { readonly ok: true; readonly level: Level } | EditFailure {
  const level = plan.levels.find(({ id }) => id === edit.level);
  if (level === undefined) return noLevel(edit.level);
  const working = openEdited(level, edit, plan);
  if (isFailure(working)) return working;
  settleStanding(working);
  return { ok: true, level: closeLevel(working) };
}
