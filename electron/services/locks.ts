// One holder of a thing among all running copies of the program. A lock is an empty file whose name tells what is held
// and which process holds it: there is no content that could be half written, and a dead process's lock can be removed
// by anyone at any time, because no name is ever used twice. Who wants a lock announces itself, then looks: of two at
// once, each sees the other, so never do both hold. RULES: SK7.

import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import type { Env } from './env.ts';
import { codeOf } from './file-calls.ts';
import { ownMark, stateOf } from './process-mark.ts';
import { hashOf } from './read-whole.ts';

const NAME = /^([0-9a-f]{32})\.([0-9a-f]{8})-(\d{1,10})-([0-9a-f]{1,8})\.[0-9a-f]{16}\.lock$/;
const TRIES = 5;

export interface Lock {
  /** Lets go. Never throws: a lock that cannot be removed is stale as soon as this process ends. */
  release(): Promise<void>;
}

/** The key for a thing, such as a file by its real path. */
export function lockKey(kind: 'file' | 'journal', name: string): string {
  return hashOf(`${kind}\n${name}`).slice(0, 32);
}

function folderOf(env: Env): string {
  return join(env.userData, 'locks');
}

/** Names of the locks on `key` that living processes hold, null for any; those of dead ones are removed on the way. */
async function living(env: Env, key: string | null): Promise<string[]> {
  const folder = folderOf(env);
  const names = await env.calls.readdir(folder).catch((error: unknown): string[] => {
    if (codeOf(error) === 'ENOENT') return [];
    throw error;
  });
  const held: string[] = [];
  for (const name of names) {
    const [, of, host, pid, start] = NAME.exec(name) ?? [];
    if (of === undefined || (key !== null && of !== key)) continue;
    const path = join(folder, name);
    const state = env.leftLocks.has(path)
      ? 'dead'
      : stateOf({ host: host!, pid: Number(pid), start: start! });
    if (state === 'alive') held.push(name);
    else if (state === 'dead') await env.calls.unlink(path).catch(() => undefined);
  }
  return held;
}

/** Whether a living process on this machine, this one too, holds `key`. */
export async function isHeld(env: Env, key: string): Promise<boolean> {
  return (await living(env, key)).length > 0;
}

/** Removes what ended processes held. Never throws: what may not be removed holds nothing. */
export async function sweepLocks(env: Env): Promise<void> {
  await living(env, null).catch(() => undefined);
}

/** Takes the lock on `key`; null when another holds it, this process too. Throws what the disk throws. [SK7] */
export async function takeLock(env: Env, key: string): Promise<Lock | null> {
  const folder = folderOf(env);
  await env.calls.mkdir(folder);
  for (let attempt = 0; attempt < TRIES; attempt += 1) {
    if ((await living(env, key)).length > 0) return null;
    const { host, pid, start } = ownMark();
    const name = `${key}.${host}-${pid}-${start}.${randomBytes(8).toString('hex')}.lock`;
    const path = join(folder, name);
    const release = async (): Promise<void> => {
      await env.calls.unlink(path).catch(() => env.leftLocks.add(path));
    };
    await (await env.calls.open(path, 'wx')).close();
    const others = await living(env, key).catch(async (error: unknown) => {
      await release();
      throw error;
    });
    if (others.every((other) => other === name)) return { release };
    await release();
    await sleep(5 + randomBytes(1)[0]! / 8);
  }
  return null;
}
