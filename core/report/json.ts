// The report as JSON text, and the JSON Schema it keeps to.

import { z } from 'zod';
import { type Report, ReportSchema } from './schema.ts';

/** The report's JSON, two-space indentation, ending with a line break. Same report, same text. */
export function reportToJson(report: Report): string {
  return `${JSON.stringify(report, null, 2)}\n`;
}

/** JSON Schema (draft 2020-12) of the report. */
function reportJsonSchema(): object {
  return {
    ...z.toJSONSchema(ReportSchema),
    title: 'Copewright report, version 1',
    description:
      'What a plan gives: rooms, corners, boards, casings, findings, scribes. Millimetres and degrees.',
  };
}

/** The text of `assets/schemas/report.schema.json`. */
export function reportJsonSchemaText(): string {
  return `${JSON.stringify(reportJsonSchema(), null, 2)}\n`;
}
