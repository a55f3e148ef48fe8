// One budget for several steps of work: once whoever gave it says stop, each of them stops.

import type { StockBudget, StockProgress } from './types.ts';

export interface Stoppable {
  readonly budget: StockBudget;
  readonly stopped: () => boolean;
}

/** A budget that stays stopped once it was, and does not ask again. */
export function stoppable(asked: StockBudget): Stoppable {
  let stopped = false;
  const tell = (progress: StockProgress): 'go' | 'stop' => {
    if (!stopped && asked.tell?.(progress) === 'stop') stopped = true;
    return stopped ? 'stop' : 'go';
  };
  return { budget: { ...asked, tell }, stopped: () => stopped };
}
