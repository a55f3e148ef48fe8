// What stock is asked and what it answers: the pieces of one profile, the boards they may be cut from, and the boards as
// they are to be cut. Lengths in ticks, money in hundredths, both whole. Knows neither report nor sheets.

import type { HeldBoard, Profile, ProfileId, StretchPart } from '../plan/schema.ts';
import type { Ticks } from '../units/ticks.ts';

/** One thing to be cut: a board of a run, a return piece or a part of a casing. */
export interface StockItem {
  /** The piece's id, or `o1.left.head` for a casing part (before it `L1:` where the plan has several levels). */
  readonly id: string;
  /** What the blank must hold: overall + spring, to the nearest tick [ST1]. */
  readonly need: Ticks;
  /** The kerf charged to it, whole [ST2]. */
  readonly kerf: Ticks;
  /** The saw's settings at its two ends, degrees; the larger first. */
  readonly sawDeg: readonly [number, number];
  /** What it is, whatever its id is; absent: a part of a casing, or an order that is of no plan. */
  readonly of?: StretchPart;
}

/** Boards of one length that can be had. */
export interface StockLength {
  readonly length: Ticks;
  /** Each, in hundredths; null where not known. Boards on hand cost 0. */
  readonly price: number | null;
  /** How many there are; null: no limit. */
  readonly limit: number | null;
  /** Already there: costs nothing and is not bought. */
  readonly onHand: boolean;
}

/** All pieces of one profile, and what they may be cut from. */
export interface StockOrder {
  readonly profileId: ProfileId;
  readonly kind: Profile['kind'];
  /** Levels by file, walking order, returns after their board; casings after boards. */
  readonly items: readonly StockItem[];
  readonly lengths: readonly StockLength[];
  readonly endTrim: Ticks;
  /** Off-cuts of at least this are worth keeping. */
  readonly keepFrom: Ticks;
  readonly sparePercent: number;
  /** Boards of this profile that stay as they are [ST13]; absent: none. */
  readonly held?: readonly HeldBoard[];
  /** What is made least, where boards that told it are taken out; absent: as the lengths tell [ST5]. */
  readonly by?: StockPlan['by'];
}

/** One board as it is cut, from its trimmed end on. `trim + Σ need + kerfs + offcut = length`, exactly. */
export interface CutBoard {
  readonly length: Ticks;
  readonly price: number | null;
  readonly onHand: boolean;
  /** In the order of cutting. */
  readonly items: readonly StockItem[];
  readonly trim: Ticks;
  /** Σ need. */
  readonly used: Ticks;
  /** All kerfs as far as they lie on the board. */
  readonly kerfs: Ticks;
  readonly offcut: Ticks;
  /** As the user holds it, not chosen here [ST13]. */
  readonly held: boolean;
}

/**
 * Why a board can no longer be held [ST13]: pieces of it are no longer cut from its profile, are other pieces now or take
 * another length than when it was held (ticks), a stretch is no longer joined as held, its profile has no stock, none of its
 * length, all of that length are used, or its pieces take more than it has room for, ticks.
 */
export type LooseWhy =
  | { readonly is: 'gone'; readonly pieces: readonly string[] }
  | { readonly is: 'other'; readonly pieces: readonly OtherPiece[] }
  | {
      readonly is: 'changed';
      readonly pieces: readonly { readonly piece: string; readonly was: Ticks; readonly now: Ticks }[];
    }
  | { readonly is: 'joint' | 'no-stock' | 'no-length' | 'used-up' }
  | { readonly is: 'too-long'; readonly takes: Ticks; readonly room: Ticks };

/** A piece of a held board whose name has gone over to another. */
export interface OtherPiece {
  readonly piece: string;
  /** What the piece that was held is called now; null where there is none like it. */
  readonly now: string | null;
  /** In how many parts its stretch is joined now and was then, where that is why; else null. */
  readonly parts: { readonly now: number; readonly was: number } | null;
}

/** A board that the plan holds and that can no longer be held. */
export interface Loosened {
  readonly profileId: ProfileId;
  readonly board: HeldBoard;
  readonly why: LooseWhy;
}

/** The boards of one order. */
export interface StockPlan {
  readonly order: StockOrder;
  /** What was made least: `money` where every length that can be bought has a price, else the `length` bought. */
  readonly by: 'money' | 'length';
  /** Hundredths, or ticks bought. */
  readonly cost: number;
  /** No plan can cost less; the same unit. */
  readonly bound: number;
  /** `cost` equals `bound` and nothing more could be placed. */
  readonly proved: boolean;
  /** Proved as well that no plan of this cost has fewer boards. */
  readonly fewestProved: boolean;
  readonly boards: readonly CutBoard[];
  /** Longer than every board, or no board left for them: the items' ids. */
  readonly unplaced: readonly string[];
  /** Held boards of the order that can no longer be held. */
  readonly loosened: readonly Loosened[];
}

/** How far to go. All limits are of work, none of time: same order and budget, same boards. */
export interface StockBudget {
  /** 1 is the usual work; 0 stops at the first good answer, 2 doubles. */
  readonly work?: number;
  /** Enough once nothing can cost less: boards may then be more than they need be, and off-cuts are not gathered. */
  readonly costAlone?: boolean;
  /** Told after each step; answering `stop` keeps the best so far. */
  readonly tell?: (progress: StockProgress) => 'go' | 'stop';
  /** Handed whole boards each time these or their bound got better: for whoever may be ended before the answer is there. */
  readonly found?: (stock: StockPlan) => void;
}

export interface StockProgress {
  readonly profileId: ProfileId;
  readonly step: 'start' | 'bound' | 'improve' | 'prove' | 'settle' | 'join';
  /** In the unit of `by`; null before the first bound. */
  readonly cost: number;
  readonly bound: number | null;
}
