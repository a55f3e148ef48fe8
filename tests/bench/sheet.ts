// How long a frame of the sheet takes on a house of 2,000 walls: `npx tsx tests/bench/sheet.ts`. Chromium without a frame
// limit, one event a frame, from one frame to the next: script, drawing and putting it on the screen. Beside it a bare
// canvas with the same walls, culled the same, in the same page: the ratio is what a slow machine keeps.

import { readFileSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type CDPSession, chromium, type Page } from 'playwright';
import { mustLookup, type Plan, writePlan } from '../../core/plan/index.ts';
import { demoFile, openServer } from '../renderer/window.ts';
import { manyHouses } from './houses.ts';

const COPIES = Number(process.argv[2] ?? 47);
const FRAMES = 90;
type Quad = readonly number[];

/** Wall bodies of the first level, eight figures each, ticks. */
function quads(plan: Plan): Quad[] {
  const level = plan.levels[0]!;
  return Object.values(level.walls).map(({ from, to, thickness }) => {
    const [a, b] = [mustLookup(level.nodes, from), mustLookup(level.nodes, to)];
    const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const [x, y] = [(-(b[1] - a[1]) / long) * (thickness / 2), ((b[0] - a[0]) / long) * (thickness / 2)];
    return [a[0] + x, a[1] + y, b[0] + x, b[1] + y, b[0] - x, b[1] - y, a[0] - x, a[1] - y];
  });
}

/** Milliseconds a frame: what passed from one to the next, and what the page's own thread worked on it. */
interface Times {
  readonly passed: readonly number[];
  readonly worked: number;
}

function share(times: readonly number[], of: number): number {
  const sorted = times.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * of))]!;
}
const p50 = ({ passed }: Times): number => share(passed, 0.5);
const p95 = ({ passed }: Times): number => share(passed, 0.95);
const said = (times: Times): string =>
  `p50 ${p50(times).toFixed(1)}  p95 ${p95(times).toFixed(1)}  worked ${times.worked.toFixed(1)} ms`;

/** Runs frames and measures the page's thread by its own clock, which does not run while others have the processor. */
async function measured(session: CDPSession, run: () => Promise<readonly number[]>): Promise<Times> {
  const worked = async (): Promise<number> => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'TaskDuration')!.value * 1000;
  };
  const before = await worked();
  const passed = await run();
  const after = await worked();
  return { passed: passed.slice(5), worked: (after - before) / passed.length };
}

/** Sends one event a frame, as `kind` says, and gives back the time from each frame to the next. */
async function frames(
  page: Page,
  gesture: { readonly kind: 'pan' | 'zoom' | 'move'; readonly x: number; readonly y: number },
): Promise<readonly number[]> {
  return page.evaluate(
    async ({ kind, x, y, count }) => {
      const paper = document.querySelector('.sheet-paper')!;
      const next = () => new Promise<number>((done) => requestAnimationFrame(done));
      const times: number[] = [];
      const common = { bubbles: true, cancelable: true };
      let last = await next();
      for (let i = 0; i < count; i++) {
        const swing = Math.sin((i / count) * 4 * Math.PI);
        const at = { clientX: x + swing * 60, clientY: y + swing * 25 };
        if (kind === 'move')
          paper.dispatchEvent(
            new PointerEvent('pointermove', { ...common, ...at, pointerId: 1, buttons: 1 }),
          );
        else if (kind === 'pan')
          paper.dispatchEvent(
            new WheelEvent('wheel', { ...common, clientX: x, clientY: y, deltaX: swing > 0 ? 9 : -9 }),
          );
        else
          paper.dispatchEvent(
            new WheelEvent('wheel', { ...common, clientX: x, clientY: y, deltaY: i % 60 < 30 ? -20 : 20 }),
          );
        const now = await next();
        times.push(now - last);
        last = now;
      }
      return times;
    },
    { ...gesture, count: FRAMES },
  );
}

/** The same walls on a canvas of their own, panned. `zoom` 1 shows them all. */
async function bare(page: Page, walls: readonly Quad[], zoom: number): Promise<readonly number[]> {
  return page.evaluate(
    async ({ walls, zoom, count }) => {
      const paper = document.querySelector('.sheet-paper')!.getBoundingClientRect();
      const canvas = document.createElement('canvas');
      canvas.width = paper.width;
      canvas.height = paper.height;
      canvas.style.cssText = `position:fixed;left:${paper.left}px;top:${paper.top}px;z-index:99`;
      document.body.append(canvas);
      const context = canvas.getContext('2d')!;
      const all = (i: number) =>
        walls.flatMap((quad) => [quad[i]!, quad[i + 2]!, quad[i + 4]!, quad[i + 6]!]);
      const [xs, ys] = [all(0), all(1)];
      const range = (of: readonly number[]) =>
        of.reduce(([a, b], each) => [Math.min(a, each), Math.max(b, each)] as const, [
          Number.POSITIVE_INFINITY,
          Number.NEGATIVE_INFINITY,
        ] as const);
      const [[left, right], [top, bottom]] = [range(xs), range(ys)];
      const by = zoom * Math.min(paper.width / (right - left), paper.height / (bottom - top));
      const next = () => new Promise<number>((done) => requestAnimationFrame(done));
      const times: number[] = [];
      let last = await next();
      for (let i = 0; i < count; i++) {
        const dx = paper.width / 2 - ((left + right) / 2) * by + (i % 40);
        const dy = paper.height / 2 - ((top + bottom) / 2) * by;
        context.fillStyle = '#fffdf7';
        context.fillRect(0, 0, canvas.width, canvas.height);
        context.fillStyle = '#8b8273';
        context.strokeStyle = '#26241f';
        context.lineWidth = 1.25;
        for (const q of walls) {
          const x = q[0]! * by + dx;
          const y = q[1]! * by + dy;
          if (x < -400 || y < -400 || x > paper.width + 400 || y > paper.height + 400) continue;
          context.beginPath();
          context.moveTo(x, y);
          for (let k = 2; k < 8; k += 2) context.lineTo(q[k]! * by + dx, q[k + 1]! * by + dy);
          context.closePath();
          context.fill();
          context.stroke();
        }
        const now = await next();
        times.push(now - last);
        last = now;
      }
      canvas.remove();
      return times;
    },
    { walls, zoom, count: FRAMES },
  );
}

const plan = manyHouses(readFileSync(demoFile('larkspur-house'), 'utf8'), COPIES);
const walls = quads(plan);
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
  await page.waitForTimeout(4000);
  const paper = page.locator('.sheet-paper');
  const box = (await paper.boundingBox())!;
  const middle = { x: Math.round(box.x + box.width / 2), y: Math.round(box.y + box.height / 2) };
  const key = async (keys: string) => {
    await paper.focus();
    await page.keyboard.press(keys);
    await page.waitForTimeout(400);
  };
  const zoomTo = async (turns: number) => {
    await page.mouse.move(middle.x, middle.y);
    await key('f');
    for (let i = 0; i < turns; i++) {
      await page.mouse.wheel(0, -100);
      await page.waitForTimeout(30);
    }
    await page.waitForTimeout(1200);
  };
  console.log(`${walls.length} walls, sheet ${Math.round(box.width)} × ${Math.round(box.height)}`);
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  /** A gesture and the bare canvas right after it, so that both have the same machine. */
  const report = async (name: string, zoom: number, kind: 'pan' | 'zoom' | 'move', x = middle.x) => {
    const sheet = await measured(session, () => frames(page, { kind, x, y: middle.y }));
    const canvas = await measured(session, () => bare(page, walls, zoom));
    const ratio = (of: (times: Times) => number): string => (of(sheet) / of(canvas)).toFixed(2);
    console.log(`${name.padEnd(24)} ${said(sheet)} | bare ${said(canvas)}`);
    console.log(
      `${''.padEnd(24)} ${ratio(p50)} × at p50, ${ratio(p95)} × at p95, ${ratio(({ worked }) => worked)} × worked`,
    );
  };
  for (const [stage, stageKey] of [
    ['draw', 'Alt+2'],
    ['trim', 'Alt+3'],
  ] as const) {
    await key(stageKey);
    await zoomTo(0);
    await report(`${stage}: pan, all walls`, 1, 'pan');
    await zoomTo(9);
    await report(`${stage}: pan, 16 screens`, 4, 'pan');
    await zoomTo(0);
    await report(`${stage}: zoom in and out`, 1, 'zoom');
  }
  await key('Alt+2');
  await zoomTo(0);
  await page.mouse.move(middle.x, middle.y);
  await page.mouse.down();
  await report('draw: box over all walls', 1, 'move');
  await page.mouse.up();
  await key('w');
  await page.mouse.click(middle.x, middle.y);
  await report('draw: a new wall', 1, 'move');
  await key('Escape');
  await key('v');
  await zoomTo(9);
  // Takes hold of a wall near the middle of the sheet.
  const held = await page.evaluate(async ({ x, y }) => {
    const paper = document.querySelector<HTMLElement>('.sheet-paper')!;
    const event = (kind: string, at: readonly [number, number]) =>
      paper.dispatchEvent(
        new PointerEvent(kind, { bubbles: true, pointerId: 1, clientX: at[0], clientY: at[1] }),
      );
    for (let away = 0; away < 200; away += 3) {
      event('pointermove', [x + away, y]);
      await new Promise(requestAnimationFrame);
      await new Promise(requestAnimationFrame);
      if (paper.dataset.over === 'wall' || paper.dataset.over === 'node') return x + away;
    }
    return null;
  }, middle);
  if (held === null) console.log('no wall found to drag');
  else {
    await page.mouse.move(held, middle.y);
    await page.mouse.down();
    await page.mouse.move(held + 12, middle.y + 3, { steps: 3 });
    await report('draw: drag a wall', 4, 'move', held);
    await page.keyboard.press('Escape');
    await page.mouse.up();
  }
} finally {
  await browser.close();
  await server.close();
  await rm(folder, { recursive: true, force: true });
}
