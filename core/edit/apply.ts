// One edit to a plan: the next plan, the way back as patches, the ids it touched and what was mended along the way. The
// old plan is not touched. Every edit ends with mending and numbering. RULES: ED8 to ED12.

import type { FaceLoop } from '../graph/index.ts';
import { levelFaces } from '../graph/index.ts';
import type { Level, LevelId, Plan } from '../plan/schema.ts';
import { type Settings, settingsOf } from '../plan/settings.ts';
import { refitCorners } from './carry-corners.ts';
import { planFault } from './check.ts';
import { type Edit, openEdited, type PatchEdit, type SeveralEdits, type WallEdit } from './edits.ts';
import { finishLevel } from './finish.ts';
import { frozen } from './frozen.ts';
import { mend } from './mend.ts';
import { numberLevels } from './number.ts';
import { difference, patched } from './patches.ts';
import { editPlan, noLevel } from './plan-edits.ts';
import { makePlanar } from './planar.ts';
import { failure, isFailure } from './refuse.ts';
import { editRoom } from './room-edits.ts';
import { editStanding, type LevelChange } from './standing-edits.ts';
import type { EditFailure, MendNote, PlanPatch } from './types.ts';

export interface EditDone {
  readonly ok: true;
  readonly plan: Plan;
  /** Applied to `plan` gives the plan before the edit, but for the counter of corner numbers. */
  readonly inverse: { readonly type: 'patch'; readonly patches: readonly PlanPatch[] };
  /** Ids of records that differ, corner and segment keys among them, in code-unit order. */
  readonly touched: readonly string[];
  readonly notes: readonly MendNote[];
}

export type EditResult = EditDone | EditFailure;

/**
 * Applies an edit. Requires a plan as `prepare` or an earlier edit gave it: then the inverse restores it exactly but
 * for `counters.corner`, which only rises. An edit that changes nothing gives the same plan object. Undo is `apply` with
 * the inverse; redo is `apply` with the inverse of the undo. RULES: ED8 to ED12.
 */
export function apply(plan: Plan, edit: Edit): EditResult {
  const settled = next(plan, edit);
  if (!settled.ok) return settled;
  const { plan: after, patches, inverse, touched } = difference(plan, settled.plan);
  return {
    ok: true,
    plan: patches.length === 0 ? plan : after,
    inverse: { type: 'patch', patches: inverse },
    touched,
    notes: settled.notes,
  };
}

type Settled = { readonly ok: true; readonly plan: Plan; readonly notes: readonly MendNote[] } | EditFailure;

/** The plan after an edit, mended, numbered and checked. */
function next(plan: Plan, edit: Edit): Settled {
  if (edit.type === 'several') return several(plan, edit);
  const changed = change(plan, edit);
  if (!changed.ok) return changed;
  const settled = settle(plan, changed);
  const fault = settled === changed.checked ? null : planFault(plan, settled);
  if (fault !== null) return failure('bad-plan', `This cannot be kept. ${fault}`);
  return { ok: true, plan: settled, notes: changed.notes };
}

/** One edit after the other; where one cannot be done, none is. RULES: ED22. */
function several(plan: Plan, { edits }: SeveralEdits): Settled {
  let [now, notes]: [Plan, readonly MendNote[]] = [plan, []];
  for (const edit of edits) {
    const done = next(now, edit);
    if (!done.ok) return done;
    [now, notes] = [done.plan, [...notes, ...done.notes]];
  }
  return { ok: true, plan: now, notes };
}

function change(plan: Plan, edit: Exclude<Edit, SeveralEdits>): Changed {
  switch (edit.type) {
    case 'patch':
      return patchPlan(plan, edit);
    case 'addWall':
    case 'moveNode':
    case 'moveWall':
    case 'splitWall':
    case 'joinWalls':
    case 'deleteWall':
    case 'changeWalls':
    case 'moveNodes':
    case 'setClearDistance':
    case 'pasteWalls':
    case 'placeWalls':
    case 'addChain':
    case 'addRoomByCorners':
      return editLevel(plan, edit);
    case 'addOpening':
    case 'changeOpening':
    case 'deleteOpening':
    case 'addBuiltIn':
    case 'changeBuiltIn':
    case 'deleteBuiltIn':
    case 'addMark':
    case 'changeMark':
    case 'deleteMark':
      return editRecords(plan, edit.level, (level, settings) => editStanding(level, edit, settings));
    case 'addRoom':
    case 'changeRoom':
    case 'deleteRoom':
    case 'setTrim':
    case 'setCorner':
    case 'setFace':
      return editRecords(plan, edit.level, (level, settings) => editRoom(plan, level, edit, settings));
    case 'addLevel':
    case 'changeLevel':
    case 'moveLevel':
    case 'deleteLevel':
    case 'addProfile':
    case 'changeProfile':
    case 'renameProfile':
    case 'deleteProfile':
    case 'setSettings':
    case 'setPlan':
    case 'setStockOnHand':
    case 'holdBoard':
    case 'letGoBoard':
    case 'letGoBoards': {
      const after = editPlan(plan, edit);
      return isFailure(after) ? after : { ok: true, plan: after, loops: new Map(), notes: [] };
    }
    default:
      throw new Error(`there is no edit ${JSON.stringify(edit satisfies never)}`);
  }
}

interface ChangedPlan {
  readonly ok: true;
  readonly plan: Plan;
  /** Face loops of levels by position, where they were needed. */
  readonly loops: ReadonlyMap<number, readonly FaceLoop[]>;
  readonly notes: readonly MendNote[];
  /** A plan already held against the schema: if it is this one still, it need not be again. */
  readonly checked?: Plan;
}
type Changed = ChangedPlan | EditFailure;

function editLevel(plan: Plan, edit: WallEdit): Changed {
  const index = plan.levels.findIndex((level) => level.id === edit.level);
  const level = plan.levels[index];
  if (level === undefined) return noLevel(edit.level);
  const working = openEdited(level, edit, plan);
  if (isFailure(working)) return working;
  if (!makePlanar(working)) {
    return failure('not-planar', `Level ${level.id} cannot be mended after this: its walls lie too close.`);
  }
  const { level: finished, loops, notes } = finishLevel(working, settingsOf(plan));
  const after = { ...plan, levels: plan.levels.with(index, finished) };
  return { ok: true, plan: after, loops: new Map(loops === null ? [] : [[index, loops]]), notes };
}

/** Changes records of one level; its walls stay. */
function editRecords(
  plan: Plan,
  id: LevelId,
  edit: (level: Level, settings: Settings) => LevelChange | EditFailure,
): Changed {
  const index = plan.levels.findIndex((level) => level.id === id);
  const level = plan.levels[index];
  if (level === undefined) return noLevel(id);
  const changed = edit(level, settingsOf(plan));
  if (isFailure(changed)) return changed;
  const after = changed.level === level ? plan : { ...plan, levels: plan.levels.with(index, changed.level) };
  return { ok: true, plan: after, loops: new Map(), notes: changed.notes };
}

function patchPlan(plan: Plan, { patches }: PatchEdit): Changed {
  const after = patched(plan, patches);
  if (after === null) return failure('bad-patch', 'A patch names a place that this plan does not have.');
  const fault = planFault(plan, after);
  if (fault !== null) return failure('bad-plan', `This cannot be kept. ${fault}`);
  // Only of what is frozen is remembered that it is planar, and its faces: deriving needs both again.
  const mended = mend(frozen(after), plan);
  if (!mended.ok) return failure('not-planar', mended.message);
  const settings = settingsOf(mended.plan);
  const loops = new Map<number, readonly FaceLoop[]>();
  const levels = mended.plan.levels.map((level, i) => {
    const was = plan.levels.find(({ id }) => id === level.id);
    if (level.walls === was?.walls) return level;
    const faces = levelFaces(level, settings, was);
    loops.set(i, faces.loops);
    const corners = refitCorners(level, faces);
    return corners === level.corners ? level : { ...level, corners };
  });
  const same = levels.every((level, i) => level === mended.plan.levels[i]);
  const now = same ? mended.plan : { ...mended.plan, levels };
  return { ok: true, plan: now, loops, notes: mended.notes, checked: after };
}

/** Numbers the levels that changed; the counter never falls. RULES: ED10, ED11. */
function settle(before: Plan, { plan: after, loops }: ChangedPlan): Plan {
  const corner = Math.max(before.counters.corner, after.counters.corner);
  const raised =
    corner === after.counters.corner ? after : { ...after, counters: { ...after.counters, corner } };
  const everywhere = before.settings !== after.settings;
  const which = new Map<number, readonly FaceLoop[] | null>();
  raised.levels.forEach((level, i) => {
    const was =
      before.levels[i]?.id === level.id ? before.levels[i] : before.levels.find(({ id }) => id === level.id);
    if (everywhere || wallsDiffer(was, level)) which.set(i, loops.get(i) ?? null);
  });
  return numberLevels(raised, which, before);
}

function wallsDiffer(before: Level | undefined, after: Level): boolean {
  if (before === undefined) return true;
  return before.nodes !== after.nodes || before.walls !== after.walls || before.corners !== after.corners;
}
