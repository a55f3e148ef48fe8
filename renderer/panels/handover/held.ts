// Boards held as they are, between the solved boards that are shown and the plan that holds them. What is held is asked of the
// plan, so that a board is marked at once, before the boards are laid out anew.

import type { Edit } from '../../../core/edit/index.ts';
import { lookup, type Plan, type ProfileId } from '../../../core/plan/index.ts';
import type { Report } from '../../../core/report/index.ts';
import { heldBoardOf, holdsBoard, type StockPlan } from '../../../core/stock/index.ts';
import type { SolvedPlan } from '../../state/app-state.ts';

export type Stock = Report['stock'][number];
export type Board = Stock['boards'][number];

/** The board as it was solved, by its place among those shown of its profile. */
function cutBoard({ solved }: SolvedPlan, profile: string, place: number): StockPlan['boards'][number] {
  return solved.stock.find(({ order }) => order.profileId === profile)!.boards[place]!;
}

/** Whether the plan holds the board at this place of its profile. */
export function isHeld(last: SolvedPlan, plan: Plan, profile: string, place: number): boolean {
  const own = lookup(plan.heldBoards, profile as ProfileId);
  return own?.some((held) => holdsBoard(held, cutBoard(last, profile, place))) ?? false;
}

/** How many boards of a profile the plan holds, those that can no longer be held too. */
export function heldCount(plan: Plan, profile: string): number {
  return lookup(plan.heldBoards, profile)?.length ?? 0;
}

/** Holds a board that is shown, or lets go of it. `place`: of the board in its profile. */
export function holdEdit(last: SolvedPlan, plan: Plan, stock: Stock, place: number): Edit {
  const profile = stock.profile as ProfileId;
  const board = cutBoard(last, profile, place);
  if (isHeld(last, plan, profile, place)) return { type: 'letGoBoard', profile, piece: board.items[0]!.id };
  return { type: 'holdBoard', profile, board: heldBoardOf(last.solved.levels, board) };
}
