export { type Cuts, cutsOf, cutsToText, plainCutsOf } from './cuts.ts';
export { derive, rejoined, solve } from './derive.ts';
export { reportJsonSchemaText, reportToJson } from './json.ts';
export { type Report, ReportSchema } from './schema.ts';
export { reportToText } from './text.ts';
export type { Derived, DerivedLevel, Solved } from './types.ts';
