// One save of one plan: from the bytes to a file that holds them, or the reason why not, as data. What stands in the file
// is compared by hash with what was last known, at the start and again just before the old file goes.
// Knows no open documents and no window. RULES: SK1 to SK4, SK10, SK13.

import { dirname } from 'node:path';
import { isNewerAside } from './aside.ts';
import type { FileCalls } from './file-calls.ts';
import { FileProblem, fileProblem } from './file-problem.ts';
import { readPlanFileIfThere } from './plan-file.ts';
import type { Fingerprint, WholeFile } from './read-whole.ts';
import { realTarget, syncFolder, writeWhole } from './write-whole.ts';

export type SaveOutcome =
  | {
      readonly outcome: 'saved';
      readonly file: Fingerprint & { readonly realPath: string };
      /** False where the file held these very bytes already. */
      readonly written: boolean;
    }
  | {
      /** Another program changed the file. Nothing was written. */
      readonly outcome: 'conflict';
      /** What the file holds now: with this, the user's 'keep mine' is for what they were told of and nothing later. */
      readonly theirs: string;
      readonly message: string;
    }
  | {
      /** Nothing was written, or it is not certain that it will last. One sentence, without a path. */
      readonly outcome: 'refused';
      readonly message: string;
      /** Another place may do, and is to be offered. */
      readonly elsewhere: boolean;
    };

export interface SaveRequest {
  readonly path: string;
  /** The file's name, for sentences. */
  readonly name: string;
  readonly bytes: Uint8Array;
  /** SHA-256 of the bytes, hex. */
  readonly hash: string;
  /** Hashes that the file may have: what was read from it, and what we ourselves put there. `any`: the user said so. */
  readonly known: ReadonlySet<string> | 'any';
  /** Hash of what another program put there, which the user said may go; null: nothing of others may. */
  readonly theirs: string | null;
  /** `refuse`: a file of that name must not be there. `must`: it must be there. */
  readonly there: 'may' | 'must' | 'refuse';
  /** Keeps what stands in the file before it goes. */
  keepPrevious(file: WholeFile): Promise<void>;
}

/** A `FileProblem`, so that it comes through the writing as it is. */
class Conflict extends FileProblem {
  readonly theirs: string;

  constructor(path: string, theirs: string) {
    super(path, 'was changed by another program');
    this.theirs = theirs;
  }
}

const NEWER = 'was made by a newer version of the program and is never written over; choose another name';

/** Saves. Never throws: whatever goes wrong is an outcome, and the old file stands. [SK1] */
export async function save(request: SaveRequest, calls: FileCalls): Promise<SaveOutcome> {
  const { name } = request;
  try {
    return await saveOrThrow(request, calls);
  } catch (error) {
    if (error instanceof Conflict) {
      const message = `${name} was changed by another program since it was opened here.`;
      return { outcome: 'conflict', theirs: error.theirs, message };
    }
    const { what } = fileProblem(request.path, error, 'write');
    return { outcome: 'refused', message: `${name} ${what}.`, elsewhere: true };
  }
}

async function saveOrThrow(request: SaveRequest, calls: FileCalls): Promise<SaveOutcome> {
  const { path, bytes, hash, known, there } = request;
  const target = await realTarget(path, calls);
  const before = await readPlanFileIfThere(target, calls);
  if (before === null && there === 'must')
    throw new FileProblem(path, 'is no longer where it was; save it by hand to put it there again');
  if (before !== null) {
    if (there === 'refuse') throw new FileProblem(path, 'is there already; choose another name');
    if (before.hash === hash) {
      // An earlier try may have failed at this very last step.
      await syncFolder(dirname(target), calls);
      return saved(before, false);
    }
    if (known === 'any' || !known.has(before.hash)) {
      if (await isNewerAside(before.bytes)) throw new FileProblem(path, NEWER);
      if (known !== 'any' && before.hash !== request.theirs) throw new Conflict(path, before.hash);
    }
    await request.keepPrevious(before);
  }
  await writeWhole(target, bytes, {
    calls,
    fresh: there === 'refuse',
    beforeRename: async () => {
      const now = await readPlanFileIfThere(target, calls);
      if (now !== null && now.hash !== before?.hash) throw new Conflict(path, now.hash);
    },
  });
  const after = await readPlanFileIfThere(target, calls);
  if (after?.hash !== hash)
    throw new FileProblem(path, 'does not read back as it was written; save it under another name');
  return saved(after, true);
}

function saved(file: WholeFile, written: boolean): SaveOutcome {
  const { hash, size, mtimeMs, realPath } = file;
  return { outcome: 'saved', file: { hash, size, mtimeMs, realPath }, written };
}
