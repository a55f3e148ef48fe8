// How long cutting orders take and how near they come to the bound: small ones, large ones (2,000 pieces of 150 lengths from
// 8 stock lengths), and ones that are hard to prove. Run it with `npx tsx tests/bench/stock.ts`; it prints the seed, CPU
// seconds, the gap and the boards, and asserts nothing.

import { cutStock } from '../../core/stock/index.ts';
import { loadHighs } from '../../electron/services/solver.ts';
import { largeOrder } from '../outside/lib/stock-orders.ts';

const SEED = 20;
const STOCKS = 8;

async function bench(): Promise<void> {
  const solver = await loadHighs();
  for (const [pieces, kinds] of [
    [20, 20],
    [60, 40],
    [100, 100],
    [200, 60],
    [500, 100],
    [2000, 150],
    [600, 600],
    [2000, 2000],
  ] as const) {
    const order = largeOrder(SEED, pieces, kinds, STOCKS);
    const start = process.cpuUsage();
    const plan = cutStock(order, solver);
    const used = process.cpuUsage(start);
    const gap = plan.cost === 0 ? 0 : (plan.cost - plan.bound) / plan.cost;
    console.log(
      [
        `seed ${SEED}: ${pieces} pieces of ${kinds} lengths from ${STOCKS}`,
        `${((used.user + used.system) / 1e6).toFixed(1)} s CPU`,
        `cost ${plan.cost}, bound ${plan.bound}, gap ${(100 * gap).toFixed(3)} %`,
        `${plan.boards.length} boards${plan.fewestProved ? ', proved the fewest' : ''}`,
      ].join('; '),
    );
  }
}

bench();
