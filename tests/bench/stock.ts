// How long large cutting orders take: 2,000 pieces of 150 lengths from 8 stock lengths, and smaller ones. Run it with
// `npx tsx tests/bench/stock.ts`; it prints CPU seconds, the gap and the boards, and asserts nothing.

import { cutStock } from '../../core/stock/index.ts';
import { loadHighs } from '../../electron/services/solver.ts';
import { largeOrder } from '../outside/lib/stock-orders.ts';

async function bench(): Promise<void> {
  const solver = await loadHighs();
  for (const [pieces, kinds] of [
    [100, 100],
    [200, 60],
    [500, 100],
    [2000, 150],
    [600, 600],
    [2000, 2000],
  ] as const) {
    const order = largeOrder(20, pieces, kinds, 8);
    const start = process.cpuUsage();
    const plan = cutStock(order, solver);
    const used = process.cpuUsage(start);
    const gap = plan.cost === 0 ? 0 : (plan.cost - plan.bound) / plan.cost;
    console.log(
      `${pieces} pieces, ${kinds} lengths: ${((used.user + used.system) / 1e6).toFixed(1)} s CPU, gap ${(100 * gap).toFixed(3)} %, ${plan.boards.length} boards`,
    );
  }
}

bench();
