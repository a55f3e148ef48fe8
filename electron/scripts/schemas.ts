// `npm run schemas`: writes the published JSON Schemas to assets/schemas/.

import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { planJsonSchemaText } from '../../core/plan/index.ts';
import { reportJsonSchemaText } from '../../core/report/index.ts';
import { writeWhole } from '../services/write-whole.ts';

const folder = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'assets', 'schemas');
const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
await writeWhole(join(folder, 'plan.schema.json'), encode(planJsonSchemaText()));
await writeWhole(join(folder, 'report.schema.json'), encode(reportJsonSchemaText()));
