// Where edits cannot be kept for recovery the window is told without asking, and told again when they can.

import { mkdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { DocumentView } from '../../../electron/contract.ts';
import { freshFolder, remove, titleEdit } from '../services/helpers.ts';
import { HOSTS, type Host } from './hosts.ts';

describe('edits that cannot be kept', () => {
  let folder: string;
  let host: Host;
  beforeEach(async () => {
    folder = await freshFolder();
  });
  afterEach(async () => {
    await host.end();
    await remove(folder);
  });

  it('[SK8] are told to the window unasked, and so is that they are kept again', async () => {
    const user = join(folder, 'user');
    await mkdir(user);
    // A file where the folder of journals should be.
    await writeFile(join(user, 'journals'), '');
    host = await HOSTS[0]!.open({ folder });
    const opened = await host.call('newPlan', { units: 'metric' });
    if (opened.outcome !== 'opened') throw new Error(opened.outcome);
    const { handle } = opened.view;
    await host.call('edit', { handle, revision: 0, edit: titleEdit('t1') });
    const last = () => host.heard.filter(({ event }) => event === 'changed').at(-1)?.data as DocumentView;
    await expect
      .poll(() => last()?.journalProblem, { timeout: 20_000 })
      .toMatch(/cannot be kept safe at present/);
    expect(await host.call('close', { handle, lose: false })).toMatchObject({ outcome: 'refused' });
    await rm(join(user, 'journals'));
    await expect.poll(() => last()?.journalProblem, { timeout: 20_000 }).toBeNull();
    expect(await host.call('close', { handle, lose: false })).toEqual({ outcome: 'closed', kept: true });
  });
});
