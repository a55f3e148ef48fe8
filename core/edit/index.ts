// Mending, numbering and edits as data: the public side of this folder.
export { apply, type EditDone, type EditResult } from './apply.ts';
export type {
  AddWall,
  DeleteWall,
  Edit,
  JoinWalls,
  MoveNode,
  MoveWall,
  NodeChoice,
  PatchEdit,
  SplitWall,
  WallEdit,
} from './edits.ts';
export { mend, prepare } from './mend.ts';
export { number } from './number.ts';
export { sameButCounter } from './same.ts';
export type { EditFailure, EditFailureCode, MendNote, MendResult, PlanPatch } from './types.ts';
