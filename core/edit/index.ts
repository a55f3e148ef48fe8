// Mending, numbering and edits as data: the public side of this folder.
export { apply, type EditDone, type EditResult } from './apply.ts';
export type { AddChain, AddRoomByCorners } from './chain.ts';
export { type CentreLine, centreLine, type DrawnAlong, type Hand, roomHand } from './chain-lines.ts';
export { describe } from './describe.ts';
export type {
  AddWall,
  DeleteWall,
  Edit,
  JoinWalls,
  MoveNode,
  MoveWall,
  NodeChoice,
  PatchEdit,
  SeveralEdits,
  SplitWall,
  WallEdit,
} from './edits.ts';
export type { Changes } from './fields.ts';
export { idGiver } from './ids.ts';
export { mend, prepare } from './mend.ts';
export { number } from './number.ts';
export { copiedPart, type PasteWalls, type Placing } from './paste.ts';
export type { PlaceWalls } from './place.ts';
export { preview } from './preview.ts';
export { usesOf } from './profile-edits.ts';
export type * from './record-edits.ts';
export { sameButCounter } from './same.ts';
export { turnedRound } from './standing.ts';
export type { EditFailure, EditFailureCode, MendNote, MendResult, PlanPatch } from './types.ts';
export type { ChangeWalls, MoveNodes, SetClearDistance } from './wall-sizes.ts';
