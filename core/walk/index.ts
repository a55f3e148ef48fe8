// The walked level: the public side of this folder.

export { type Facing, facingSegments } from './facing.ts';
export type {
  Corner,
  LevelWalk,
  Loop,
  Room,
  Segment,
  SegmentBuiltIn,
  SegmentMark,
  SegmentOpening,
  WalkNote,
} from './types.ts';
export { walkLevel } from './walk.ts';
