// `npm run demo`: the two invented houses to PDFs in demo-data/out/.

import { mkdir } from 'node:fs/promises';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { pdfOf, solvePlan } from '../services/export.ts';
import { openPlanFile } from '../services/plan-file.ts';
import { writeWhole } from '../services/write-whole.ts';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const HOUSES = [
  { name: 'thimble-cottage', sheet: 'letter' },
  { name: 'larkspur-house', sheet: 'tabloid' },
] as const;

const out = join(root, 'demo-data', 'out');
await mkdir(out, { recursive: true });
for (const house of HOUSES) {
  const solved = await solvePlan(
    await openPlanFile(join(root, 'demo-data', `${house.name}.copewright.json`)),
  );
  const path = join(out, `${house.name}.pdf`);
  const pdf = await pdfOf(solved, { sheet: house.sheet, date: '2026-11-24' });
  if (!pdf.ok) throw new Error(pdf.message);
  await writeWhole(path, pdf.bytes);
  const { rooms, pieces, findings } = solved.report;
  process.stdout.write(
    `wrote ${relative(process.cwd(), path)}: ${rooms.length} rooms, ${pieces.length} boards, ${findings.length} findings\n`,
  );
}
