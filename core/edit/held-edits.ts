// Edits of the stock boards that the user holds as they are, and how these follow when profiles and levels change. Ticks.
// Whether a board can still be held is stock's to say, not the plan's: its record stays until it is let go. RULES: ED28.

import { lookup, sortedEntries } from '../plan/maps.ts';
import type { HeldBoard, Level, Plan, ProfileId } from '../plan/schema.ts';
import { wholeTicks, withRecord } from './fields.ts';
import type { HoldBoard, LetGoBoard, LetGoBoards } from './record-edits.ts';
import { failure } from './refuse.ts';
import { sameValue } from './same.ts';
import type { EditFailure } from './types.ts';

export type HeldEdit = HoldBoard | LetGoBoard | LetGoBoards;

/** Requires a profile that the plan has. */
export function editHeld(plan: Plan, edit: HeldEdit): Plan | EditFailure {
  const held = lookup(plan.heldBoards, edit.profile) ?? [];
  switch (edit.type) {
    case 'holdBoard': {
      const board = wholeBoard(edit.board);
      if (held.some((each) => sameValue(each, board))) return plan;
      // A piece is cut from one board: what held it before is held no more.
      const others = held.filter((each) => !each.pieces.some((piece) => board.pieces.includes(piece)));
      return withHeld(plan, edit.profile, [...others, board]);
    }
    case 'letGoBoard': {
      const others = held.filter((each) => !each.pieces.includes(edit.piece));
      if (others.length < held.length) return withHeld(plan, edit.profile, others);
      return failure('not-held', `No board of ${edit.profile} is held for ${edit.piece}.`);
    }
    case 'letGoBoards':
      return withHeld(plan, edit.profile, []);
  }
}

function withHeld(plan: Plan, profile: ProfileId, boards: HeldBoard[]): Plan {
  const heldBoards = withRecord(plan.heldBoards, profile, boards.length === 0 ? undefined : boards);
  return heldBoards === plan.heldBoards ? plan : { ...plan, heldBoards };
}

/** Corner numbers and counts of parts are no lengths. */
const NO_LENGTHS: ReadonlySet<string> = new Set(['corner', 'part', 'parts']);

function wholeBoard({ length, onHand, pieces, was = [], joints = [] }: HeldBoard): HeldBoard {
  return {
    length: wholeTicks(length),
    onHand,
    pieces: [...pieces],
    ...(was.length === 0 ? {} : { was: wholeTicks(was, NO_LENGTHS) }),
    ...(joints.length === 0 ? {} : { joints: wholeTicks(joints, NO_LENGTHS) }),
  };
}

/** The held boards once a profile has another id; null: the profile is gone, and what was held of it. */
export function heldOfProfile(plan: Plan, id: ProfileId, to: ProfileId | null): Plan['heldBoards'] {
  const boards = lookup(plan.heldBoards, id);
  if (boards === undefined) return plan.heldBoards;
  const rest = withRecord(plan.heldBoards, id, undefined);
  return to === null ? rest : withRecord(rest, to, boards);
}

/** Parts of casings are named with their level where a plan has several: held ones follow when there are two, or one again. */
export function heldOnLevels(plan: Plan, levels: readonly Level[]): Plan['heldBoards'] {
  const [before, after] = [plan.levels.length > 1, levels.length > 1];
  const only = before ? levels[0] : plan.levels[0];
  if (before === after || only === undefined) return plan.heldBoards;
  const start = `${only.id}:`;
  const renamed = (piece: string): string => {
    if (before) return piece.startsWith(start) ? piece.slice(start.length) : piece;
    return piece.includes('.') ? start + piece : piece;
  };
  let held = plan.heldBoards;
  for (const [id, boards] of sortedEntries(plan.heldBoards)) {
    const now = boards.map(
      ({ pieces, was, ...board }): HeldBoard => ({
        ...board,
        pieces: pieces.map(renamed),
        ...(was && { was: was.map((each) => ({ ...each, piece: renamed(each.piece) })) }),
      }),
    );
    if (!sameValue(now, boards)) held = withRecord(held, id, now);
  }
  return held;
}
