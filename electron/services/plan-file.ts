// Opening a plan file: size first, then bytes, then the reader of core. Never writes.

import { open } from 'node:fs/promises';
import { prepare } from '../../core/edit/index.ts';
import { MAX_PLAN_BYTES, readPlanBytes } from '../../core/plan/index.ts';
import type { Plan } from '../../core/plan/schema.ts';
import { FileProblem, fileProblem } from './file-problem.ts';

async function readBytes(path: string): Promise<Uint8Array> {
  const handle = await open(path, 'r');
  try {
    const about = await handle.stat();
    if (about.isDirectory()) throw new FileProblem(path, 'is a folder; name a plan file (.copewright.json)');
    if (!about.isFile())
      throw new FileProblem(path, 'is not an ordinary file; name a plan file (.copewright.json)');
    if (about.size > MAX_PLAN_BYTES) {
      const limit = Math.round(MAX_PLAN_BYTES / 1024 / 1024);
      throw new FileProblem(
        path,
        `is larger than ${limit} MiB, which no plan is; name a plan file (.copewright.json)`,
      );
    }
    return await handle.readFile();
  } finally {
    await handle.close();
  }
}

/** A plan file that could not be understood. `message` is one sentence with the file and the place in it. */
export class PlanProblem extends Error {
  override readonly name = 'PlanProblem';
}

/**
 * Reads a plan file as it stands (not mended, not numbered), and makes sure that it can be mended.
 * Throws `FileProblem` or `PlanProblem`, each with one sentence.
 */
export async function openPlanFile(path: string): Promise<Plan> {
  let bytes: Uint8Array;
  try {
    bytes = await readBytes(path);
  } catch (error) {
    throw fileProblem(path, error, 'read');
  }
  const read = readPlanBytes(bytes);
  if (!read.ok) throw new PlanProblem(`${path}: ${read.error.message}`);
  const prepared = prepare(read.plan);
  if (!prepared.ok) {
    throw new PlanProblem(`${path}: ${prepared.path}: ${prepared.message}`);
  }
  return read.plan;
}
