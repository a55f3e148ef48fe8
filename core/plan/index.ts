// The plan document: types and schema, reading with places, writing, the published JSON Schema, settings, lookups.

export { emptyPlan } from './empty.ts';
export { planJsonSchema, planJsonSchemaText } from './json-schema.ts';
export * from './maps.ts';
export {
  MAX_PLAN_BYTES,
  MAX_WALLS,
  PLAN_VERSION,
  type PlanError,
  type PlanRead,
  readPlan,
  readPlanBytes,
} from './read.ts';
export * from './schema.ts';
export * from './settings.ts';
export { writePlan } from './write.ts';
