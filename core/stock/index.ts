// Pieces to boards and boards to the order list: least money or length, with the bound beside it.

export { type Alternative, alternatives, placesNothing } from './alternatives.ts';
export { cutStock } from './cut.ts';
export { heldFindings, stockPlanFindings } from './findings.ts';
export { holdsBoard } from './held.ts';
export { heldBoardOf } from './held-joints.ts';
export type { PlannedBoards } from './lay-boards.ts';
export { joinedForLength } from './only-length.ts';
export { casingPartId, HUNDREDTHS, kerfCharge, needOf, orderOf, type TrimmedLevel } from './order.ts';
export { planBoards } from './plan-boards.ts';
export { keptOffcuts, moneyOf, type PurchaseLine, purchaseOf } from './purchase.ts';
export type {
  CutBoard,
  Loosened,
  StockBudget,
  StockItem,
  StockLength,
  StockOrder,
  StockPlan,
  StockProgress,
} from './types.ts';
