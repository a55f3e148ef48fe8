// The one door through which the outside checks reach the product: a plan file's text in, its report out.
// The references in lib/ never import this, nor anything of core.

import { readPlan } from '../../core/plan/index.ts';
import { type Derived, derive, type Report } from '../../core/report/index.ts';
import type { PlanJson } from './lib/file.ts';

/** What core derives from a plan file. Throws with the reader's message when the file is refused. */
export function derivedFrom(plan: PlanJson | string): Derived {
  const read = readPlan(typeof plan === 'string' ? plan : JSON.stringify(plan));
  if (!read.ok) throw new Error(`the plan was refused: ${read.error.message}`);
  return derive(read.plan);
}

export function reportOf(plan: PlanJson): Report {
  return derivedFrom(plan).report;
}

export type ReportRoom = Report['rooms'][number];
export type ReportPiece = Report['pieces'][number];
