// How long a frame of the sheet takes on a house of 2,000 walls: `npx tsx tests/bench/sheet.ts`. Chromium without a frame
// limit, one event a frame. Beside each gesture a bare canvas draws the same walls at the same views, culled the same, in
// the same page, in turns of some frames, so that both have the same machine. Script and drawing is what the page's thread
// worked by its own clock; the ratio is what a slow machine keeps. Each figure is the median of several repetitions.
// Arguments: how many copies of the house; words that gestures' names must have.

import { readFileSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type CDPSession, chromium, type Page } from 'playwright';
import { mustLookup, type Plan, writePlan } from '../../core/plan/index.ts';
import { demoFile, openServer } from '../renderer/window.ts';
import { manyHouses } from './houses.ts';
import { bareFrames, type Kind, sheetFrames } from './sheet-page.ts';
import { type Frames, share, traced } from './trace.ts';

const COPIES = Number(process.argv[2] ?? 47);
const ONLY = process.argv.slice(3);
const REPETITIONS = 5;
/** Turns of a repetition, frames of a turn, and how many of those are not counted. */
const [TURNS, FRAMES, FIRST] = [4, 24, 4];

/** Wall bodies of the first level, eight figures each, ticks. */
function quads(plan: Plan): readonly (readonly number[])[] {
  const level = plan.levels[0]!;
  return Object.values(level.walls).map(({ from, to, thickness }) => {
    const [a, b] = [mustLookup(level.nodes, from), mustLookup(level.nodes, to)];
    const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const [x, y] = [(-(b[1] - a[1]) / long) * (thickness / 2), ((b[0] - a[0]) / long) * (thickness / 2)];
    return [a[0] + x, a[1] + y, b[0] + x, b[1] + y, b[0] - x, b[1] - y, a[0] - x, a[1] - y];
  });
}

const column = (ms: number): string => ms.toFixed(1).padStart(6);

interface Gesture {
  readonly name: string;
  readonly kind: Kind;
  readonly x: number;
  readonly y: number;
}

/** Sheet and bare canvas in turns, repeated; prints what the frames took. */
async function report(page: Page, session: CDPSession, { name, kind, x, y }: Gesture): Promise<void> {
  const rounds: ReadonlyMap<string, Frames>[] = [];
  let frame = 0;
  let walls = 0;
  for (let round = 0; round < REPETITIONS; round++)
    rounds.push(
      await traced(
        session,
        async () => {
          for (let turn = 0; turn < TURNS; turn++) {
            const tag = `turn${turn}`;
            const views = await page.evaluate(sheetFrames, { kind, x, y, from: frame, count: FRAMES, tag });
            walls = await page.evaluate(bareFrames, { views, tag });
            frame += FRAMES;
          }
        },
        FIRST,
      ),
    );
  const figures = (of: keyof Frames, at: number) => {
    const each = rounds.map((frames) => {
      const all = (who: string) =>
        share(
          [...frames].flatMap(([mark, times]) => (mark.endsWith(who) ? times[of] : [])),
          at,
        );
      return { sheet: all('sheet'), bare: all('bare') };
    });
    const middle = (value: (one: (typeof each)[number]) => number) => share(each.map(value), 0.5);
    return {
      sheet: middle(({ sheet }) => sheet),
      bare: middle(({ bare }) => bare),
      ratio: middle(({ sheet, bare }) => sheet / bare),
    };
  };
  const cells = (['worked', 'passed'] as const).flatMap((of) =>
    [0.5, 0.95].map((at) => {
      const { sheet, bare, ratio } = figures(of, at);
      return `${column(sheet)} ${column(bare)} ${ratio.toFixed(2).padStart(5)} ×`;
    }),
  );
  console.log(`${name.padEnd(27)} ${String(walls).padStart(5)} | ${cells.join(' | ')}`);
}

/** The window on a large house: what a user would do to bring it where a gesture begins. */
function handsOn(page: Page, middle: { readonly x: number; readonly y: number }) {
  const paper = page.locator('.sheet-paper');
  const key = async (keys: string): Promise<void> => {
    await paper.focus();
    await page.keyboard.press(keys);
    await page.waitForTimeout(500);
  };
  return {
    key,
    /** Fits the house, then turns the wheel so often; waits until labels are there. */
    zoomTo: async (turns: number): Promise<void> => {
      await page.mouse.move(middle.x, middle.y);
      await key('f');
      for (let i = 0; i < turns; i++) {
        await page.mouse.wheel(0, -100);
        await page.waitForTimeout(30);
      }
      await page.waitForTimeout(1500);
    },
    /** The nearest place right of the middle where the pointer is over a thing of the kind. */
    find: (kind: string) =>
      page.evaluate(
        async ({ x, y, kind }) => {
          const paper = document.querySelector<HTMLElement>('.sheet-paper')!;
          const frame = () => new Promise(requestAnimationFrame);
          for (let row = 0; row < 40; row++)
            for (let away = 0; away < 160; away += kind === 'node' ? 9 : 4) {
              const at = { clientX: x + away, clientY: y + (row % 2 === 0 ? row : -row) * 4 };
              paper.dispatchEvent(new PointerEvent('pointermove', { bubbles: true, pointerId: 1, ...at }));
              await frame();
              await frame();
              if (paper.dataset.over === kind) return { x: at.clientX, y: at.clientY };
            }
          return null;
        },
        { ...middle, kind },
      ),
  };
}

async function gestures(page: Page, session: CDPSession): Promise<void> {
  const box = (await page.locator('.sheet-paper').boundingBox())!;
  const middle = { x: Math.round(box.x + box.width / 2), y: Math.round(box.y + box.height / 2) };
  const { key, zoomTo, find } = handsOn(page, middle);
  const wanted = (name: string): boolean => ONLY.every((word) => name.includes(word));
  const run = (name: string, kind: Kind, at = middle) => report(page, session, { name, kind, ...at });
  console.log(`sheet ${Math.round(box.width)} × ${Math.round(box.height)}; ms; sheet, bare canvas, ratio`);
  const heads = ['worked p50', 'worked p95', 'frame p50', 'frame p95'].map((head) => head.padEnd(21));
  console.log(`${''.padEnd(27)} walls | ${heads.join(' | ')}`);
  for (const [stage, stageKey] of [
    ['draw', 'Alt+2'],
    ['trim', 'Alt+3'],
  ] as const) {
    await key(stageKey);
    for (const [where, turns] of [
      ['whole house', 0],
      ['some rooms', 9],
    ] as const) {
      const named = (what: string) => `${stage}: ${what}, ${where}`;
      if (wanted(named('pan'))) {
        await zoomTo(turns);
        await page.mouse.down({ button: 'middle' });
        await run(named('pan'), 'pan');
        await page.mouse.up({ button: 'middle' });
      }
      if (wanted(named('zoom'))) {
        await zoomTo(turns);
        await run(named('zoom'), 'zoom');
      }
      if (wanted(named('new wall'))) {
        await zoomTo(turns);
        await key('w');
        await page.mouse.click(middle.x, middle.y);
        await run(named('new wall'), 'move');
        await key('Escape');
        await key('v');
      }
      for (const kind of ['node', 'wall']) {
        if (!wanted(named(`drag ${kind}`))) continue;
        await zoomTo(turns);
        // Nodes are taken hold of where walls are drawn; elsewhere a corner stands over them.
        const held = await find(kind);
        if (held === null) {
          console.log(`${named(`drag ${kind}`).padEnd(27)} none to take hold of here`);
          continue;
        }
        await page.mouse.move(held.x, held.y);
        await page.mouse.down();
        await page.mouse.move(held.x + 12, held.y + 3, { steps: 3 });
        await run(named(`drag ${kind}`), 'move', held);
        await page.keyboard.press('Escape');
        await page.mouse.up();
        await key('Escape');
      }
    }
  }
}

const plan = manyHouses(readFileSync(demoFile('larkspur-house'), 'utf8'), COPIES);
const bareWalls = quads(plan);
const folder = await mkdtemp(join(tmpdir(), 'copewright-bench-'));
const file = join(folder, 'many.copewright.json');
await writeFile(file, writePlan(plan));
const server = await openServer({ file });
const browser = await chromium.launch({
  executablePath: process.env.COPEWRIGHT_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-frame-rate-limit', '--disable-gpu-vsync'],
});
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  // What tsx puts round the names of functions is not there in the page.
  await page.addInitScript('globalThis.__name = (made) => made');
  await page.goto(server.local.address);
  await page.locator('.sheet-paper canvas').first().waitFor({ timeout: 120_000 });
  await page.evaluate((walls) => Object.assign(globalThis, { bareWalls: walls }), bareWalls);
  await page.waitForTimeout(8000);
  console.log(`${bareWalls.length} walls`);
  await gestures(page, await page.context().newCDPSession(page));
} finally {
  await browser.close();
  await server.close();
  await rm(folder, { recursive: true, force: true });
}
