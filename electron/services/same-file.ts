// Keeps an export from landing on the plan it came from, or on any other.

import { stat } from 'node:fs/promises';
import { type FileCalls, REAL_CALLS } from './file-calls.ts';
import { endsAsPlan } from './file-names.ts';
import { FileProblem, fileProblem } from './file-problem.ts';
import { realTarget } from './write-whole.ts';

/** Throws `FileProblem` when `output` is the plan itself, by whatever name, link or spelling of the path. */
export async function mustNotBe(plan: string, output: string): Promise<void> {
  const [a, b] = await Promise.all(
    [plan, output].map((path) => stat(path, { bigint: true }).catch(() => null)),
  );
  if (a && b && a.dev === b.dev && a.ino === b.ino) {
    throw new FileProblem(output, 'is the plan itself; name another file for the result');
  }
}

/** Throws `FileProblem` when `output`, or what it leads to, has the name of a plan, or cannot be there. */
export async function mustLeadToNoPlan(output: string, calls: FileCalls = REAL_CALLS): Promise<void> {
  const target = await realTarget(output, calls).catch((error: unknown) => {
    throw fileProblem(output, error, 'write');
  });
  if (endsAsPlan(target)) throw new FileProblem(output, 'leads to a plan; choose another name');
}
