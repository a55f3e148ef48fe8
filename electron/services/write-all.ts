// Puts several files into one folder so that it has all of the new ones or all of the old ones, as far as a disk lets that
// be: every target is looked at, then every text lies beside its target, and only then do names change. Where that fails in
// the middle what was there is put back. Each single file is whole at every moment, as in write-whole.ts. RULES: SK18.

import type { Stats } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { listed } from '../../core/fit/say.ts';
import { codeOf, type FileCalls, REAL_CALLS, USERS_FOLDER } from './file-calls.ts';
import { FileProblem, fileProblem } from './file-problem.ts';
import { temporaryIn } from './temporary.ts';
import type { MadeFile } from './thread-jobs.ts';
import { mayReplace, realTarget, syncFolder, writeTemporary } from './write-whole.ts';

export interface WriteAllOptions {
  readonly calls?: FileCalls;
  /** Looks at a place where a file is to go, in a folder that is there; what it throws stops everything. */
  look(path: string): Promise<void>;
}

/** One file on its way. */
interface Step {
  readonly path: string;
  readonly bytes: Uint8Array;
  /** Where it ends up, links followed. */
  readonly target: string;
  readonly there: Stats | null;
  readonly temporary: string;
  /** A second name of the file that was there, to put it back by; null where there was none or the disk has no such names. */
  before: string | null;
}

/**
 * Writes `files` into `folder`, which is made where it is not there. Throws `FileProblem` with one sentence where it
 * cannot; then nothing is new and no folder is made, or the sentence says which files are new. [SK18]
 */
export async function writeAllInto(
  folder: string,
  files: readonly MadeFile[],
  { calls = REAL_CALLS, look }: WriteAllOptions,
): Promise<void> {
  const missing = await missingFrom(folder, calls);
  const paths = files.map(({ name, bytes }) => ({ path: join(folder, name), bytes }));
  if (missing.length === 0) for (const { path } of paths) await look(path);
  try {
    if (missing.length > 0) await make(folder, calls);
    await writeSteps(await stepsFor(paths, calls), calls);
  } catch (error) {
    for (const each of missing) await calls.rmdir(each).catch(() => undefined);
    throw error;
  }
}

/** The folder and those above it that are not there, innermost first. */
async function missingFrom(folder: string, calls: FileCalls): Promise<string[]> {
  const missing: string[] = [];
  try {
    for (let at = resolve(folder); ; at = dirname(at)) {
      const there = await calls.stat(at).catch((error: unknown) => {
        if (codeOf(error) !== 'ENOENT') throw error;
        return null;
      });
      if (there?.isDirectory() || at === dirname(at)) return missing;
      if (there !== null)
        throw Object.assign(new Error('no folder'), { code: at === resolve(folder) ? 'EEXIST' : 'ENOTDIR' });
      missing.push(at);
    }
  } catch (error) {
    throw fileProblem(folder, error, 'write');
  }
}

async function make(folder: string, calls: FileCalls): Promise<void> {
  try {
    await calls.mkdir(folder, USERS_FOLDER);
  } catch (error) {
    // All above it is there or was made; the system has a folder in which there can be no other.
    if (codeOf(error) === 'ENOENT')
      throw new FileProblem(folder, 'cannot be made there; choose another folder');
    throw fileProblem(folder, error, 'write');
  }
}

/** Every target, looked at; nothing is written yet. */
async function stepsFor(
  paths: readonly { readonly path: string; readonly bytes: Uint8Array }[],
  calls: FileCalls,
): Promise<Step[]> {
  const steps: Step[] = [];
  for (const { path, bytes } of paths) {
    try {
      const target = await realTarget(path, calls);
      const other = steps.find((step) => step.target === target);
      if (other !== undefined)
        throw new FileProblem(
          path,
          `leads to the same file as ${basename(other.path)}; choose another folder`,
        );
      const there = await mayReplace(target, calls);
      steps.push({ path, bytes, target, there, temporary: temporaryIn(dirname(target)), before: null });
    } catch (error) {
      throw fileProblem(path, error, 'write');
    }
  }
  return steps;
}

async function writeSteps(steps: readonly Step[], calls: FileCalls): Promise<void> {
  const placed: Step[] = [];
  let at = steps[0];
  try {
    for (const step of steps) {
      at = step;
      await writeTemporary(step.temporary, step.bytes, step.there, calls);
    }
    for (const step of steps) if (step.there !== null) step.before = await secondName(step.target, calls);
    for (const step of steps) {
      at = step;
      await calls.rename(step.temporary, step.target);
      placed.push(step);
    }
  } catch (error) {
    const problem = fileProblem(at!.path, error, 'write');
    const stay = await putBack(placed, calls);
    for (const { temporary } of steps) await calls.unlink(temporary).catch(() => undefined);
    throw stay.length === 0
      ? problem
      : new FileProblem(problem.path, problem.what + alreadyNew(stay), problem.code);
  } finally {
    for (const { before } of steps) if (before !== null) await calls.unlink(before).catch(() => undefined);
  }
  for (const folder of new Set(steps.map(({ target }) => dirname(target))))
    await syncFolder(folder, calls).catch((error: unknown) => {
      throw fileProblem(folder, error, 'write');
    });
}

async function secondName(target: string, calls: FileCalls): Promise<string | null> {
  const name = temporaryIn(dirname(target));
  try {
    await calls.link(target, name);
    return name;
  } catch {
    return null;
  }
}

/** Puts back what was there, last first; gives those that stay new all the same. */
async function putBack(placed: readonly Step[], calls: FileCalls): Promise<Step[]> {
  const stay: Step[] = [];
  for (const step of [...placed].reverse()) {
    const { there, before, target } = step;
    try {
      if (there === null) await calls.unlink(target);
      else if (before === null) throw new Error('no second name');
      else await calls.rename(before, target);
    } catch {
      stay.unshift(step);
    }
  }
  return stay;
}

function alreadyNew(steps: readonly Step[]): string {
  const names = steps.map(({ path }) => basename(path));
  return `; ${listed(names)} ${names.length === 1 ? 'is' : 'are'} new already, the others are as they were`;
}
