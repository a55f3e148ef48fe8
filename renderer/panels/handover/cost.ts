// What a profile's boards cost, the least they can cost, and whether that is proved, in words.

import { leastKnown, leastWords, type Report } from '../../../core/report/index.ts';
import type { Figures } from '../kit/figures.ts';
import { money, ticks } from './names.ts';

/** 'least possible 214.60, this 214.60, proved', or the gap; a first layout has no bound. */
export function stockCostWords(stock: Report['stock'][number], figures: Figures): string {
  const say = (amount: number): string =>
    stock.by === 'money' ? money(amount) : figures.length(ticks(amount));
  if (!leastKnown(stock)) return `this ${say(stock.cost)}, ${leastWords(stock)} not known`;
  const gap = stock.cost - stock.bound;
  const sure = stock.proved
    ? 'proved'
    : `at most ${say(gap)} could be saved (${((100 * gap) / Math.max(stock.cost, 1e-9)).toFixed(1)} %)`;
  return `${leastWords(stock)} ${say(stock.bound)}, this ${say(stock.cost)}, ${sure}`;
}
