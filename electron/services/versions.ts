// The last five versions of each plan file, kept in the program's own folder. A version's name holds its place in the
// order, the time for telling people, and the hash of its bytes, so that a damaged one is known. RULES: SK10.

import { join } from 'node:path';
import { MAX_PLAN_BYTES } from '../../core/plan/index.ts';
import { checkAside } from './aside.ts';
import type { Env } from './env.ts';
import { codeOf } from './file-calls.ts';
import { hashOf, readWhole } from './read-whole.ts';
import { writeWhole } from './write-whole.ts';

/** So many are kept of each file. */
export const VERSIONS_KEPT = 5;
/** And beside them so many that the user was told would be: saves that come by themselves must not push them out. */
export const PROMISED_KEPT = 3;

const NAME = /^(\d{9})-(\d{1,16})-([0-9a-f]{64})(-promised)?\.copewright\.json$/;

export interface Version {
  /** Opaque; good for `readVersion`. */
  readonly id: string;
  /** What the clock said, in ms since 1970. */
  readonly at: number;
}

interface Kept extends Version {
  readonly order: number;
  readonly hash: string;
  readonly name: string;
  readonly promised: boolean;
}

const folderOf = (env: Env, key: string): string => join(env.userData, 'versions', key);
const keyOf = (realPath: string): string => hashOf(`version\n${realPath}`).slice(0, 32);

/** Newest first, by the order in which they were kept. */
async function kept(env: Env, key: string): Promise<Kept[]> {
  const names = await env.calls.readdir(folderOf(env, key)).catch((error: unknown): string[] => {
    if (codeOf(error) === 'ENOENT') return [];
    throw error;
  });
  const found = names.flatMap((name): Kept[] => {
    const [, order, at, hash, promised] = NAME.exec(name) ?? [];
    if (hash === undefined) return [];
    return [
      {
        id: `${key}/${name}`,
        at: Number(at),
        order: Number(order),
        hash,
        name,
        promised: promised !== undefined,
      },
    ];
  });
  return found.sort((a, b) => b.order - a.order);
}

/**
 * Keeps the bytes of a plan file as its newest version, unless they are that already. `promised`: the user was told so, of
 * work that would be nowhere else. Throws `FileProblem`. [SK10]
 */
export async function keepVersion(
  env: Env,
  realPath: string,
  bytes: Uint8Array,
  promised = false,
): Promise<void> {
  const key = keyOf(realPath);
  const folder = folderOf(env, key);
  const hash = hashOf(bytes);
  const before = await kept(env, key);
  const newest = before[0];
  if (newest?.hash === hash && (newest.promised || !promised)) return;
  await env.calls.mkdir(folder);
  const order = String((newest?.order ?? 0) + 1).padStart(9, '0');
  const at = Math.max(0, Math.round(env.clock.now()));
  const name = `${order}-${at}-${hash}${promised ? '-promised' : ''}.copewright.json`;
  await writeWhole(join(folder, name), bytes, { calls: env.calls });
  const most = promised ? PROMISED_KEPT : VERSIONS_KEPT;
  for (const old of before.filter((each) => each.promised === promised).slice(most - 1)) {
    await env.calls.unlink(join(folder, old.name)).catch(() => undefined);
  }
}

/** The versions of a plan file, newest first. */
export async function listVersions(env: Env, realPath: string): Promise<readonly Version[]> {
  return (await kept(env, keyOf(realPath))).map(({ id, at }) => ({ id, at }));
}

/** The bytes of a version; null where it is gone or damaged, or the id is none. */
export async function readVersion(env: Env, id: string): Promise<Uint8Array | null> {
  const [, key, name] = /^([0-9a-f]{32})\/([^/\\]+)$/.exec(id) ?? [];
  const hash = NAME.exec(name ?? '')?.[3];
  if (key === undefined || name === undefined || hash === undefined) return null;
  try {
    const path = join(folderOf(env, key), name);
    const file = await readWhole(path, MAX_PLAN_BYTES, 'a version', env.calls);
    return file.hash === hash ? file.bytes : null;
  } catch {
    return null;
  }
}

/** The newest version that can be opened; null where there is none. Never throws. */
export async function lastGoodVersion(env: Env, realPath: string): Promise<Version | null> {
  for (const { id, at } of await listVersions(env, realPath).catch((): Version[] => [])) {
    const bytes = await readVersion(env, id);
    if (bytes === null) continue;
    try {
      await checkAside(id, bytes);
      return { id, at };
    } catch {
      // A version was the file as it stood; it need not have been a good one.
    }
  }
  return null;
}
