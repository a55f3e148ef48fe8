export {
  alternativeRemarks,
  type Cuts,
  cutsOf,
  cutsToText,
  plainCutsOf,
  tableRemarks,
} from './cuts.ts';
export { derive, solve, solvedOn } from './derive.ts';
export { reportJsonSchemaText, reportToJson } from './json.ts';
export { rejoined, rejoining } from './rejoin.ts';
export { type Report, ReportSchema } from './schema.ts';
export { atOnce } from './steps.ts';
export { costWords, knownSum, orderSums, sumWords, withoutWords } from './stock.ts';
export { reportToText } from './text.ts';
export type { Derived, DerivedLevel, Solved, SolvedParts, SolverFound } from './types.ts';
