// A journal that grows over at the same time as its plan is saved or closed: whichever is done first, no edit is lost and
// nothing is left that holds none. The text of a new generation, and that of a save, come when the test says.

import { readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { planTextAside } from '../../../electron/services/aside.ts';
import type { OpenDocument } from '../../../electron/services/document-types.ts';
import { type Documents, openDocuments as openReal } from '../../../electron/services/documents.ts';
import { freshFolder, type HandEnv, handEnv, mustOpen, openAt, remove, retitle, textOf } from './helpers.ts';

/** Texts that are held back, each with what lets it go. */
const texts = vi.hoisted(() => ({ hold: false, held: [] as (() => void)[] }));

vi.mock('../../../electron/services/aside.ts', async (original) => {
  const real = await original<{ planTextAside: typeof planTextAside }>();
  const held: typeof planTextAside = async (plan) => {
    const text = real.planTextAside(plan);
    if (texts.hold) await new Promise<void>((go) => texts.held.push(go));
    return text;
  };
  return { ...real, planTextAside: held };
});

let folder: string;
let path: string;
let env: HandEnv;
let documents: Documents;
let document: OpenDocument;
const running: Documents[] = [];

function openDocuments(): Documents {
  const opened = openReal(env);
  running.push(opened);
  return opened;
}

beforeEach(async () => {
  folder = await freshFolder();
  path = join(folder, 'house.copewright.json');
  env = handEnv(join(folder, 'user'));
  texts.hold = false;
  await writeFile(path, textOf('t0'));
  documents = openDocuments();
  document = await openAt(documents, path);
});
afterEach(async () => {
  for (const each of running.splice(0)) for (const open of each.all()) await open.close(true);
  await remove(folder);
});

/** Edits the title to `t<from>` up to `t<to>`. */
function retitleTo(from: number, to: number): void {
  for (let k = from; k <= to; k += 1) retitle(document, `t${k}`);
}

/** An edit of its own field, so that it can be told whether a plan has it. */
function built(builtYear: number): void {
  const edit = { type: 'patch', patches: [{ op: 'add', path: ['builtYear'], value: builtYear }] };
  expect(document.edit(document.view().revision, edit)).toMatchObject({ ok: true });
}

async function flushed(): Promise<void> {
  env.fire(1000);
  await document.flush();
}

/** Lets the text go that was held back first, and waits for what is made of it. */
async function letGo(): Promise<void> {
  texts.held.shift()!();
  await new Promise((resolve) => setTimeout(resolve, 20));
  await document.flush();
}

async function journalFiles(): Promise<string[]> {
  const names = await readdir(join(env.userData, 'journals'), { recursive: true });
  return names.filter((name) => name.endsWith('.journal')).map((name) => name.slice(-14));
}

/** What is recovered after a crash now. */
async function afterCrash() {
  await rm(join(env.userData, 'locks'), { recursive: true, force: true });
  const later = openDocuments();
  const offers = await later.offers();
  expect(offers).toMatchObject([{ original: 'same', torn: false, unreadable: false }]);
  return mustOpen(await later.recover(offers[0]!.id)).plan;
}

describe('[SK9] a journal that grows over', () => {
  it('while an earlier state is saved goes on from its own start, for it holds edits that are in no line', async () => {
    retitleTo(1, 1999);
    await flushed();
    texts.hold = true;
    const saving = document.save('hand');
    await vi.waitUntil(() => texts.held.length === 1);
    texts.hold = false;
    built(1951);
    await flushed();
    await vi.waitUntil(async () => (await journalFiles()).includes('000002.journal'));
    retitle(document, 't2001');
    texts.held.shift()!();
    expect(await saving).toMatchObject({ outcome: 'saved' });
    expect(await readFile(path, 'utf8')).toBe(textOf('t1999'));
    expect(await afterCrash()).toMatchObject({ title: 't2001', builtYear: 1951 });
  });

  it('is not begun from a state that was saved meanwhile, with later ones', async () => {
    built(1951);
    retitleTo(2, 2000);
    texts.hold = true;
    await flushed();
    await vi.waitUntil(() => texts.held.length === 1);
    texts.hold = false;
    retitle(document, 't2001');
    expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
    await letGo();
    expect(await journalFiles()).toEqual([]);
    retitle(document, 't2002');
    await flushed();
    expect(await afterCrash()).toMatchObject({ title: 't2002', builtYear: 1951 });
  });

  it('is not begun once the plan is closed, and holds nothing', async () => {
    retitleTo(1, 2000);
    texts.hold = true;
    await flushed();
    await vi.waitUntil(() => texts.held.length === 1);
    expect(await document.close()).toEqual({ outcome: 'closed', kept: true });
    await letGo();
    expect(await journalFiles()).toEqual(['000001.journal']);
    expect(await readdir(join(env.userData, 'locks'))).toEqual([]);
    expect(await afterCrash()).toMatchObject({ title: 't2000' });
  });
});
