// What can be chosen, on the sheet, in the walk and from a finding: a reference by the plan's own keys, good as long as the
// thing is there. Two references are the same where their keys are.

import type {
  BuiltInId,
  CornerKey,
  LevelId,
  MarkId,
  NodeId,
  OpeningId,
  SegmentKey,
  Side,
  WallId,
} from '../../core/plan/index.ts';

export type Ref =
  | { readonly kind: 'wall'; readonly level: LevelId; readonly id: WallId }
  | { readonly kind: 'node'; readonly level: LevelId; readonly id: NodeId }
  | { readonly kind: 'opening'; readonly level: LevelId; readonly id: OpeningId }
  | { readonly kind: 'builtIn'; readonly level: LevelId; readonly id: BuiltInId }
  | { readonly kind: 'mark'; readonly level: LevelId; readonly id: MarkId }
  /** A walked room's id: a record's, or `@` and its first segment's key. */
  | { readonly kind: 'room'; readonly level: LevelId; readonly id: string }
  | { readonly kind: 'corner'; readonly level: LevelId; readonly id: CornerKey }
  /** One face of a room between two corners. */
  | { readonly kind: 'segment'; readonly level: LevelId; readonly id: SegmentKey }
  /** A board: the piece's id is unique within its level. */
  | { readonly kind: 'piece'; readonly level: LevelId; readonly id: string }
  | { readonly kind: 'casing'; readonly level: LevelId; readonly opening: OpeningId; readonly id: Side };

export function refKey(ref: Ref): string {
  const own = ref.kind === 'casing' ? `${ref.opening}.${ref.id}` : ref.id;
  return `${ref.kind}|${ref.level}|${own}`;
}

export function sameRef(a: Ref | null, b: Ref | null): boolean {
  return a === b || (a !== null && b !== null && refKey(a) === refKey(b));
}
