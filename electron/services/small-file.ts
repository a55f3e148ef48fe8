// A small JSON file of the program's own, such as the preferences: read against a schema, written whole. One that cannot
// be used is put aside, never deleted, and the defaults are taken. RULES: SK12.

import { dirname, join } from 'node:path';
import type { z } from 'zod';
import type { Env } from './env.ts';
import { FileProblem } from './file-problem.ts';
import { readIfThere } from './read-whole.ts';
import { writeWhole } from './write-whole.ts';

const MAX_BYTES = 1024 * 1024;

export interface SmallFile<T> {
  /** What the file says, or the defaults. Never throws: a program must start. */
  read(): Promise<T>;
  /** Reads, changes, writes; one after another. Throws `FileProblem`. */
  change(how: (now: T) => T): Promise<T>;
}

/** The small file `name` in the program's own folder. `schema` turns what is in it into a T or fails. */
export function smallFile<T>(env: Env, name: string, schema: z.ZodType<T>, defaults: T): SmallFile<T> {
  const path = join(env.userData, name);
  let last: Promise<unknown> = Promise.resolve();

  async function putAside(): Promise<void> {
    for (let n = 1; n < 1000; n += 1) {
      const aside = `${path}.unreadable-${n}`;
      if (await env.calls.lstat(aside).catch(() => null)) continue;
      await env.calls.rename(path, aside).catch(() => undefined);
      return;
    }
  }

  /** Throws where the disk cannot say what the file holds: then nothing may be written over it. */
  async function load(): Promise<T> {
    try {
      const file = await readIfThere(path, MAX_BYTES, 'a file of the program', env.calls);
      if (file === null) return defaults;
      const parsed = schema.safeParse(jsonOf(file.bytes));
      if (parsed.success) return parsed.data;
      await putAside();
    } catch (error) {
      // Too large, or no file at all, is put aside as well.
      if (!(error instanceof FileProblem) || error.code !== null) throw error;
      await putAside();
    }
    return defaults;
  }

  async function changed(how: (now: T) => T): Promise<T> {
    const next = how(await load());
    await env.calls.mkdir(dirname(path));
    await writeWhole(path, new TextEncoder().encode(`${JSON.stringify(next, null, 2)}\n`), {
      calls: env.calls,
    });
    return next;
  }

  return {
    read: () => load().catch(() => defaults),
    change: (how) => {
      const done = last.then(() => changed(how));
      last = done.catch(() => undefined);
      return done;
    },
  };
}

function jsonOf(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return undefined;
  }
}
