// What a profile's boards cost, the least they can cost, and whether that is proved, in the words of all that is printed.

import { costWords, type Report } from '../../../core/report/index.ts';
import type { Figures } from '../kit/figures.ts';
import { money, ticks } from './names.ts';

/** 'least possible 214.60, this 214.60, proved', or the gap; a first layout has no bound. */
export function stockCostWords(stock: Report['stock'][number], figures: Figures): string {
  return costWords(stock, (amount) => (stock.by === 'money' ? money(amount) : figures.length(ticks(amount))));
}
