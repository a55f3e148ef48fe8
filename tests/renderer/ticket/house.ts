// The small invented house as walk and ticket see it.

import { apply, type Edit, prepare } from '../../../core/edit/index.ts';
import type { Plan, PlanFile } from '../../../core/plan/index.ts';
import { type Derived, type DerivedLevel, derive } from '../../../core/report/index.ts';
import { type Figures, figuresOf } from '../../../renderer/panels/kit/figures.ts';
import { cottage } from '../../fixtures/cottage.ts';

export const MM = 320;

export interface House {
  readonly plan: Plan;
  readonly shown: Derived;
  readonly level: DerivedLevel;
  readonly figures: Figures;
}

export function house(change?: (file: PlanFile) => PlanFile): House {
  const prepared = prepare(cottage(change));
  if (!prepared.ok) throw new Error(prepared.message);
  return of(derive(prepared.plan));
}

function of(shown: Derived): House {
  return { plan: shown.plan, shown, level: shown.levels[0]!, figures: figuresOf(shown.plan) };
}

/** The house after an edit that has to be possible. */
export function after({ plan }: House, edit: Edit | null): House {
  if (edit === null) throw new Error('there is no edit');
  const done = apply(plan, edit);
  if (!done.ok) throw new Error(done.message);
  return of(derive(done.plan));
}
