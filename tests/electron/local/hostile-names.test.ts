// Names that are markup, script, or a spreadsheet's formula: in the plan's title, its rooms, levels and profiles, and in
// the file's own name. In the window (real Chromium), in the PDF and in the tables they are text and nothing else.

import { execFileSync } from 'node:child_process';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type OpenWindow, openWindow } from '../../renderer/window.ts';
import { freshFolder, remove } from '../services/helpers.ts';

const MARK = '__ran';
const TITLE = `<img src=x onerror="globalThis.${MARK}=1">)/JS (app.alert(1))`;
const ROOM = `<script>globalThis.${MARK}=2</script>`;
const PROFILE = `"><svg onload=globalThis.${MARK}=3>`;
const LEVEL = `\${globalThis.${MARK}=4}{{7*7}}&lt;b&gt;`;
const FILE = `<img src=x onerror=globalThis.${MARK}=5>.copewright.json`;
const FORMULAS = ['=HYPERLINK("http://192.0.2.1";"x")', '+1+cmd|x', '-2+3', '@SUM(1)', ' =1+1', '＝1+1'];

/** A house of square rooms side by side, with baseboard, all named as given. */
function house(title: string, level: string, profile: string, rooms: readonly string[]): string {
  const nodes: Record<string, [number, number]> = {};
  const walls: Record<string, object> = {};
  const wall = (id: string, from: string, to: string): void => {
    walls[id] = { from, to, thickness: 100 };
  };
  for (let i = 0; i <= rooms.length; i += 1) {
    nodes[`t${i}`] = [i * 3000, 0];
    nodes[`b${i}`] = [i * 3000, 2600];
    wall(`v${i}`, `t${i}`, `b${i}`);
    if (i > 0) {
      wall(`u${i}`, `t${i - 1}`, `t${i}`);
      wall(`d${i}`, `b${i - 1}`, `b${i}`);
    }
  }
  const records = rooms.map((name, i) => [
    `r${i}`,
    { name, at: [i * 3000 + 1500, 1300], trim: { base: 'p1' } },
  ]);
  return JSON.stringify({
    format: 'copewright-plan',
    version: 1,
    title,
    units: 'metric',
    profiles: {
      p1: {
        kind: 'base',
        name: profile,
        height: 95,
        thickness: 14,
        form: 'flat',
        material: profile,
        stock: [{ length: 4800, price: 21 }],
      },
    },
    levels: [
      { id: 'L1', name: level, ceilingHeight: 2400, nodes, walls, rooms: Object.fromEntries(records) },
    ],
  });
}

describe('hostile names', () => {
  let folder: string;
  let window: OpenWindow;

  beforeAll(async () => {
    folder = await freshFolder('disk');
    await mkdir(join(folder, 'home', '<b>folder<b>'), { recursive: true });
    await writeFile(join(folder, FILE), house(TITLE, LEVEL, PROFILE, [ROOM, ...FORMULAS]));
    window = await openWindow({ folder, file: join(folder, FILE) });
  });
  afterAll(async () => {
    await window.close();
    await remove(folder);
  });

  const call = (name: string, sent: unknown): Promise<unknown> => window.local.desk.handle(name, sent);
  const ran = () => window.page.evaluate((mark) => (globalThis as Record<string, unknown>)[mark], MARK);
  /** All that is shown, and what fields hold. */
  const shown = () =>
    window.page.evaluate(() => {
      const fields = [...document.querySelectorAll('input, textarea')] as HTMLInputElement[];
      return [document.title, document.body.textContent, ...fields.map(({ value }) => value)].join('\n');
    });
  const noMarkup = async (where: string): Promise<void> => {
    expect(await ran(), where).toBeUndefined();
    expect(await window.page.locator('img[src="x"], body script, svg[onload]').count(), where).toBe(0);
    expect(window.errors, where).toEqual([]);
  };

  it('are shown as text in every stage, and no script of theirs runs', async () => {
    const { page } = window;
    await expect.poll(shown).toContain(ROOM);
    for (const key of ['Alt+1', 'Alt+2', 'Alt+3', 'Alt+4']) {
      await page.keyboard.press(key);
      await page.waitForTimeout(500);
      await noMarkup(key);
    }
    const text = await shown();
    for (const name of [TITLE, PROFILE]) expect(text, name).toContain(name);
    await page.keyboard.press('Alt+2');
  });

  it('are shown as text in the dialogs', async () => {
    const { page } = window;
    let dialogs = 0;
    for (const key of [
      'p',
      'Shift+P',
      'Control+K',
      'Control+O',
      'Control+Shift+O',
      'Control+P',
      'Control+Shift+S',
    ]) {
      await page.keyboard.press('F7');
      await page.keyboard.press(key);
      await page.waitForTimeout(400);
      dialogs += await page.locator('dialog[open], [role=dialog]').count();
      await noMarkup(key);
      await page.keyboard.press('Escape');
      await page.waitForTimeout(100);
    }
    expect(dialogs).toBeGreaterThan(3);
  });

  it('are text in the PDF: no script, no action, no link, and the file is sound', async () => {
    const { handle, revision } = await opened();
    const place = ((await call('places', { id: null })) as { place: { id: string } }).place.id;
    const wish = { handle, revision, sheet: 'letter', date: '2026-01-31', place, over: true };
    expect(await call('exportPlace', { ...wish, kind: 'pdf', name: 'out' })).toMatchObject({
      outcome: 'written',
    });
    const path = join(folder, 'home', 'out.pdf');
    execFileSync('qpdf', ['--check', path], { stdio: 'ignore' });
    const objects = JSON.parse(
      execFileSync('qpdf', ['--json', path], { encoding: 'utf8', maxBuffer: 1 << 29 }),
    ) as unknown;
    const keys = new Set<string>();
    const walk = (value: unknown): void => {
      if (typeof value !== 'object' || value === null) return;
      for (const [key, inner] of Object.entries(value)) {
        keys.add(key);
        walk(inner);
      }
    };
    walk(objects);
    expect(keys.has('/Type')).toBe(true);
    for (const bad of [
      '/JS',
      '/JavaScript',
      '/AA',
      '/OpenAction',
      '/URI',
      '/Launch',
      '/A',
      '/EmbeddedFiles',
    ]) {
      expect(keys.has(bad), bad).toBe(false);
    }
    const text = execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
    expect(text.replace(/\s+/g, '')).toContain(TITLE.replace(/\s+/g, ''));
    expect(text.replace(/\s+/g, '')).toContain(ROOM);

    expect(await call('exportPlace', { ...wish, kind: 'csv', name: 'tables' })).toMatchObject({
      outcome: 'written',
    });
    for (const table of [
      'boards.csv',
      'corners.csv',
      'cuts.csv',
      'findings.csv',
      'order.csv',
      'casings.csv',
    ]) {
      const csv = await readFile(join(folder, 'home', 'tables', table), 'utf8');
      // RFC 4180: cells of a row, quotes doubled.
      const cells = [...csv.slice(1).matchAll(/(?:^|,|\r\n)(?:"((?:[^"]|"")*)"|([^",\r\n]*))/g)].map(
        ([, quoted, plain]) => (quoted ?? plain ?? '').replaceAll('""', '"'),
      );
      expect(cells.length).toBeGreaterThan(5);
      for (const each of cells) {
        const formula = /^\s*[=+\-@＝]/.test(each) && !/^-?\d+(\.\d+)?$/.test(each);
        expect(formula, `${table}: ${each}`).toBe(false);
      }
      if (table === 'corners.csv')
        expect(cells).toEqual(expect.arrayContaining(FORMULAS.map((each) => `'${each}`)));
    }
  });

  it('are text in the list of recent plans and in the folders shown', async () => {
    const { handle } = await opened();
    await call('close', { handle, lose: true });
    await window.page.reload();
    await expect.poll(shown).toContain('onerror=globalThis');
    await noMarkup('recent');
    await window.page.keyboard.press('Control+O');
    await expect.poll(shown).toContain('<b>folder<b>');
    await noMarkup('places');
  });

  async function opened(): Promise<{ handle: string; revision: number }> {
    const { opened: now } = (await call('start', {})) as {
      opened: { view: { handle: string; revision: number } };
    };
    return now.view;
  }
});
