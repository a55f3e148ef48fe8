// The published JSON Schema of plan files, made from the one schema that the reader uses. It knows shapes and ranges;
// references between records are the reader's. RULES: PL8.

import { z } from 'zod';
import { PlanSchema } from './schema.ts';

/** The JSON Schema (2020-12) of a plan file as it stands on disk: millimetres, degrees, `null` for absent. [PL8] */
export function planJsonSchema(): Record<string, unknown> {
  const { $schema, ...schema } = z.toJSONSchema(PlanSchema, { io: 'input', target: 'draft-2020-12' });
  return {
    $schema,
    title: 'Copewright plan file, version 1',
    description:
      'Lengths are millimetres, angles degrees, positions [x, y] with x to the right and y down the sheet. null means the same as a field left out, except in trim and casing, where it means none.',
    ...schema,
  };
}

/** The text of `assets/schemas/plan.schema.json`. */
export function planJsonSchemaText(): string {
  return `${JSON.stringify(planJsonSchema(), null, 2)}\n`;
}
