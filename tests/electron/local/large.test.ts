// Files that are very large or made to hurt, opened over loopback as the window opens them: a plan or a sentence, while
// other calls go on being answered.

import { mkdir, open, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type PlanFile, writePlan } from '../../../core/plan/index.ts';
import { HOSTS, type Host } from '../desk/hosts.ts';
import { bytesOf, freshFolder, preparedCottage, remove, row, textOf } from '../services/helpers.ts';

describe('large and hostile files over loopback', () => {
  let folder: string;
  let home: string;
  let host: Host;
  const ids = new Map<string, string>();

  /** 51 MB: rooms with the longest names that there may be, many bytes and few values. */
  function large(): Uint8Array {
    const file = JSON.parse(writePlan(preparedCottage())) as PlanFile;
    const name = '木'.repeat(200);
    const rooms = Object.fromEntries(
      Array.from({ length: 79_000 }, (_, i) => [`r${i + 10}`, { name, at: [i, -5000] as [number, number] }]),
    );
    const level = file.levels[0]!;
    const levels = [{ ...level, rooms: { ...level.rooms, ...rooms } }, ...file.levels.slice(1)];
    return bytesOf(JSON.stringify({ ...file, levels }));
  }

  beforeAll(async () => {
    folder = await freshFolder();
    home = join(folder, 'home');
    await mkdir(home);
    const bytes = large();
    expect(bytes.length).toBeGreaterThan(50e6);
    await writeFile(join(home, 'large.copewright.json'), bytes);
    const whole = textOf('t0');
    const hostile: Record<string, string> = {
      cut: whole.slice(0, whole.length / 2),
      deep: '['.repeat(200_000) + ']'.repeat(200_000),
      nulls: whole.replace('"title":', `"x": [${'null,'.repeat(3_000_000)}null], "title":`),
      letters: whole.replace('"t0"', `"${'a'.repeat(40_000_000)}"`),
      infinite: whole.replace(/"ceilingHeight": [\d.]+/, '"ceilingHeight": 1e999'),
      empty: '',
    };
    for (const [name, text] of Object.entries(hostile))
      await writeFile(join(home, `${name}.copewright.json`), text);
    const sparse = await open(join(home, 'sparse.copewright.json'), 'w');
    await sparse.truncate(2 * 1024 ** 3);
    await sparse.close();
    host = await HOSTS.find(({ name }) => name.startsWith('loopback'))!.open({ folder });
    const here = await host.call('places', { id: null });
    if (here.outcome !== 'place') throw new Error(here.message);
    for (const { name, id } of here.place.entries) ids.set(name.replace('.copewright.json', ''), id);
  });
  afterAll(async () => {
    await host.end();
    await remove(folder);
  });

  it('hostile ones are refused in one sentence', async () => {
    for (const name of ['cut', 'deep', 'nulls', 'letters', 'infinite', 'empty', 'sparse']) {
      const start = performance.now();
      const answer = await host.call('openPlace', { id: ids.get(name)! });
      const ms = performance.now() - start;
      expect(answer.outcome, name).toBe('refused');
      if (answer.outcome !== 'refused') continue;
      expect(answer.message).toMatch(new RegExp(`^${name}\\.copewright\\.json:? [^\\n]{3,600}\\.$`));
      row(`${name} over loopback`, `${ms.toFixed(0)} ms: ${answer.message.slice(0, 90)}`);
    }
  }, 120_000);

  it('a sound plan of 51 MB opens, and other calls are answered while it is read', async () => {
    let done = false;
    let waits: number[] = [];
    const start = performance.now();
    const opening = host.call('openPlace', { id: ids.get('large')! }).finally(() => {
      done = true;
    });
    while (!done) {
      const asked = performance.now();
      await host.call('recent', {});
      waits = [...waits, performance.now() - asked];
    }
    const answer = await opening;
    expect(answer.outcome).toBe('opened');
    expect(waits.length).toBeGreaterThan(10);
    const s = (ms: number): string => (ms / 1000).toFixed(2);
    row(
      '51 MB over loopback',
      `open ${s(performance.now() - start)} s; ${waits.length} other calls answered meanwhile, the slowest in ${s(Math.max(...waits))} s`,
    );
  }, 300_000);
});
