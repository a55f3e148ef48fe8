// Temporary files of ours: how they are named, and sweeping away those that a killed process left. A name tells its
// process, so what another window is just writing is left alone. RULES: SK5.

import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import type { Clock } from './env.ts';
import type { FileCalls } from './file-calls.ts';
import { ownMark, stateOf } from './process-mark.ts';

/** `.copewright-<host>-<pid>-<start>-<16 hex>.tmp`: short, so that it fits wherever the file's own name fits. */
export const TEMPORARY = /^\.copewright-([0-9a-f]{8})-(\d{1,10})-([0-9a-f]{1,8})-[0-9a-f]{16}\.tmp$/;

/** What another machine left in a shared folder is swept when it is older than a day. */
const ELSEWHERE_MS = 24 * 3600 * 1000;

/** A new name in `folder`, never given before. */
export function temporaryIn(folder: string): string {
  const { host, pid, start } = ownMark();
  return join(folder, `.copewright-${host}-${pid}-${start}-${randomBytes(8).toString('hex')}.tmp`);
}

/** Removes temporary files that nobody writes any more; gives how many. Never throws: a folder may be gone. [SK5] */
export async function sweep(folder: string, calls: FileCalls, clock: Clock): Promise<number> {
  let swept = 0;
  const names = await calls.readdir(folder).catch((): string[] => []);
  for (const name of names) {
    const [, host, pid, start] = TEMPORARY.exec(name) ?? [];
    if (host === undefined) continue;
    const path = join(folder, name);
    const state = stateOf({ host, pid: Number(pid), start: start! });
    if (state === 'alive') continue;
    try {
      if (state === 'elsewhere') {
        const { mtimeMs } = await calls.lstat(path);
        if (Math.abs(clock.now() - mtimeMs) < ELSEWHERE_MS) continue;
      }
      await calls.unlink(path);
      swept += 1;
    } catch {
      // Another window may have swept it; what may not be removed stays.
    }
  }
  return swept;
}
