// Like product.ts, with the solver's part: scribes in ticks beside the report.

import type { Scribe } from '../../core/fit/types.ts';
import { type Solved, solve as solveDerived } from '../../core/report/index.ts';
import { loadHighs } from '../../electron/services/solver.ts';
import type { PlanJson } from './lib/file.ts';
import { derivedFrom } from './product.ts';

export type { Scribe };

const solver = loadHighs();

export async function solve(plan: PlanJson | string): Promise<Solved> {
  return solveDerived(derivedFrom(plan), await solver);
}
