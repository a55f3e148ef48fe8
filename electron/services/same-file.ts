// Keeps an export from landing on the plan it came from.

import { stat } from 'node:fs/promises';
import { FileProblem } from './file-problem.ts';

/** Throws `FileProblem` when `output` is the plan itself, by whatever name, link or spelling of the path. */
export async function mustNotBe(plan: string, output: string): Promise<void> {
  const [a, b] = await Promise.all(
    [plan, output].map((path) => stat(path, { bigint: true }).catch(() => null)),
  );
  if (a && b && a.dev === b.dev && a.ino === b.ino) {
    throw new FileProblem(output, 'is the plan itself; name another file for the result');
  }
}
