// Every kind of edit that core knows goes through the desk as JSON, into the journal, and comes back by recovery.

import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { apply, type Edit } from '../../../core/edit/index.ts';
import { type Plan, writePlan } from '../../../core/plan/index.ts';
import { EDIT_TYPES, readEdit, readPatch } from '../../../electron/services/edit-schema.ts';
import { ALL_TYPES, anyEdit, furnished } from '../../core/edit/all-edits.ts';
import { random } from '../../seeds.ts';
import { freshFolder, remove } from '../services/helpers.ts';
import { HOSTS, type Host } from './hosts.ts';

const SEED = 4711;
const openHost = HOSTS[0]!.open;

const overWire = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

/** The generator puts a level on edits of the whole plan too, which core does not mind. */
function strict(edit: Edit): Edit {
  if (readEdit(edit) !== null) return edit;
  const { level: _unasked, ...rest } = edit as unknown as Record<string, unknown>;
  return readEdit(rest) === null ? edit : (rest as unknown as Edit);
}

/** Edits that each could be done, one after another, until every kind was there. */
function oneOfEach(): { start: Plan; edits: Edit[]; after: Plan[] } {
  let lacking = new Set<string>();
  for (let seed = SEED; seed < SEED + 40; seed += 1) {
    const next = random(seed);
    const start = furnished(next);
    const missing = new Set<string>(ALL_TYPES);
    const edits: Edit[] = [];
    const after: Plan[] = [];
    let plan = start;
    for (let step = 1; step < 3000 && missing.size > 0; step += 1) {
      const edit = overWire(strict(anyEdit(plan, next, step)));
      if (!missing.has(edit.type) || readEdit(edit) === null) continue;
      const done = apply(plan, edit);
      if (!done.ok || done.plan === plan) continue;
      plan = done.plan;
      missing.delete(edit.type);
      edits.push(edit);
      after.push(plan);
    }
    lacking = missing;
    if (missing.size === 0) return { start, edits, after };
  }
  throw new Error(`no seed from ${SEED} on gave one edit of each kind: ${[...lacking].join(', ')} lack`);
}

describe('every kind of edit', () => {
  let folder: string;
  const hosts: Host[] = [];
  beforeAll(async () => {
    folder = await freshFolder();
  });
  afterAll(async () => {
    for (const host of hosts) await host.end();
    await remove(folder);
  });

  it('[SK15] is known to the shapes, each kind once', () => {
    expect([...EDIT_TYPES].sort()).toEqual([...ALL_TYPES].sort());
  });

  it('[SK15] goes through the desk and the journal, and comes back by recovery the same', async () => {
    const { start, edits, after } = oneOfEach();
    const first = await openHost({ folder: join(folder, 'a') });
    hosts.push(first);
    const text = writePlan(start);
    const opened = await first.call('openText', { name: 'house.copewright.json', text });
    if (opened.outcome !== 'opened') throw new Error(JSON.stringify(opened));
    const { handle } = opened.view;
    expect(opened.plan).toEqual(overWire(start));
    for (const [n, edit] of edits.entries()) {
      const answer = await first.call('edit', { handle, revision: n, edit });
      expect(answer, `${edit.type} (seed ${SEED}, edit ${n})`).toMatchObject({ ok: true, revision: n + 1 });
      if (answer.ok) expect(readPatch(answer.inverse), edit.type).not.toBeNull();
      expect((await first.call('plan', { handle }))?.plan, edit.type).toEqual(overWire(after[n]));
    }
    await first.end();

    const second = await openHost({ folder: join(folder, 'a') });
    hosts.push(second);
    const [offer] = await second.call('offers', {});
    expect(offer).toMatchObject({ edits: edits.length, torn: false, unreadable: false });
    const recovered = await second.call('recover', { id: offer!.id });
    if (recovered.outcome !== 'opened') throw new Error(JSON.stringify(recovered));
    expect(recovered.plan).toEqual(overWire(after.at(-1)));
    expect(recovered.history.map(({ edit }) => edit)).toEqual(edits);
    console.log(`${edits.length} kinds of edit through desk, journal and recovery (seed ${SEED})`);
  });

  it('[SK15] is not taken with a field too many, too few, or of another kind', () => {
    const { edits } = oneOfEach();
    let tried = 0;
    for (const edit of edits) {
      expect(readEdit({ ...edit, more: 1 }), `${edit.type}: one more`).toBeNull();
      for (const key of Object.keys(edit)) {
        const bare = Object.fromEntries(Object.entries(edit).filter(([other]) => other !== key));
        const optional = readEdit(bare) !== null;
        if (key === 'type') expect(optional).toBe(false);
        const wrong = { ...edit, [key]: Object.assign(() => 0, {}) };
        expect(readEdit(wrong), `${edit.type}: ${key} of another kind`).toBeNull();
        tried += 1;
      }
    }
    expect(tried).toBeGreaterThan(150);
  });

  it('[SK15] is not taken deep enough to overflow anything, nor with a key of Object itself', () => {
    let deep: object = { type: 'setPlan', set: { title: 'x' } };
    for (let i = 0; i < 100_000; i += 1) deep = { type: 'several', edits: [deep] };
    expect(readEdit(deep)).toBeNull();
    let value: unknown = 1;
    for (let i = 0; i < 100_000; i += 1) value = [value];
    expect(readEdit({ type: 'patch', patches: [{ op: 'replace', path: ['title'], value }] })).toBeNull();
    expect(
      readEdit(JSON.parse('{"type":"setPlan","set":{"title":"x","__proto__":{"units":"metric"}}}')),
    ).toBeNull();
    // Where anything may stand, too.
    const patched =
      '{"type":"patch","patches":[{"op":"replace","path":["title"],"value":{"VALUE":{"a":1}}}]}';
    expect(readEdit(JSON.parse(patched))).not.toBeNull();
    expect(readEdit(JSON.parse(patched.replace('VALUE', '__proto__')))).toBeNull();
    expect(({} as { units?: string }).units).toBeUndefined();
  });
});
