// Which of several candidates wins, given what was held: caught at 8 pixels, kept to 12, and another takes over only if
// it is of a better kind, or of the same kind and nearer by 3. So a hand that shakes at any of these distances does not
// make the answer flicker. RULES: SN1 to SN3.

import { byCodeUnit } from '../plan/maps.ts';
import { BEAT_PX, CAUGHT_PX, LET_GO_PX } from './limits.ts';
import { SNAP_KINDS, type SnapKind } from './types.ts';

/** What choosing needs to know of a candidate. */
export interface Rated {
  readonly kind: SnapKind;
  readonly key: string;
  readonly offPx: number;
  readonly catchable: boolean;
}

function rank({ kind }: Rated): number {
  return SNAP_KINDS.indexOf(kind);
}

/** Best first: by kind, then the nearest, then by key. */
function inOrder<T extends Rated>(candidates: readonly T[]): T[] {
  return [...candidates].sort((a, b) => rank(a) - rank(b) || a.offPx - b.offPx || byCodeUnit(a.key, b.key));
}

/** Those that may be caught now, best first. */
export function caughtOf<T extends Rated>(candidates: readonly T[]): T[] {
  return inOrder(candidates.filter(({ catchable, offPx }) => catchable && offPx <= CAUGHT_PX));
}

/** The winner among candidates, or null. `held`: keys of what was caught before. */
export function choose<T extends Rated>(candidates: readonly T[], held: readonly string[]): T | null {
  const kept = inOrder(candidates.filter(({ key, offPx }) => held.includes(key) && offPx <= LET_GO_PX))[0];
  const caught = caughtOf(candidates);
  if (kept === undefined) return caught[0] ?? null;
  const beats = (other: T) =>
    rank(other) < rank(kept) || (rank(other) === rank(kept) && other.offPx + BEAT_PX <= kept.offPx);
  return caught.find((other) => other !== kept && beats(other)) ?? kept;
}
