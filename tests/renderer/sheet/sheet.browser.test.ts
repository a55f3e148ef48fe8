// The sheet as it is used: the drawing is there, wheel, hand and fingers move it as they should, a click chooses what lies
// there, Escape puts a drag back. Seen from outside: pixels of the canvases, the ticket, the plan's own marks.

import type { Page } from 'playwright';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { Point } from '../../../core/graph/index.ts';
import { mustLookup } from '../../../core/plan/index.ts';
import { paletteOf } from '../../../renderer/sheet/palette.ts';
import { fittedTo, nextZoom } from '../../../renderer/sheet/view-moves.ts';
import { pannedBy, REAL_SIZE, toScreen, type Viewport, zoomedAt } from '../../../renderer/state/viewport.ts';
import { axeFaults } from '../app/axe.ts';
import { demoFile, type OpenWindow, openWindow } from '../window.ts';
import { groundFloor } from './house.ts';

const level = groundFloor();
const plan = level.walk.level;
let w: OpenWindow;
let page: Page;
let at: { readonly x: number; readonly y: number };
let view: Viewport;

const paper = () => page.locator('.sheet-paper');

/** The colour of a canvas at a place on the sheet (CSS pixels), as `r,g,b`; of the ground where no layer is named. */
const colour = (place: Point, layer = 0): Promise<string> =>
  page.evaluate(
    async ([x, y, which]) => {
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
      const canvas = document.querySelectorAll<HTMLCanvasElement>('.sheet-paper canvas')[which]!;
      const ratio = canvas.width / canvas.clientWidth;
      const { data } = canvas.getContext('2d')!.getImageData(x * ratio, y * ratio, 1, 1);
      return data[3] === 0 ? 'none' : [...data.slice(0, 3)].join();
    },
    [place[0], place[1], layer] as const,
  );
const hex = (text: string): string =>
  [1, 3, 5].map((from) => Number.parseInt(text.slice(from, from + 2), 16)).join();
const LIGHT = paletteOf('light');
const [FLOOR, GROUND] = [hex(LIGHT.floor), hex(LIGHT.ground)];

/** Whether a colour is that of a wall's cut: its tone, the strokes of its shading, or between the two. */
function isWall(seen: string, { wall, wallStroke } = LIGHT): boolean {
  const [tone, stroke] = [hex(wall), hex(wallStroke)].map((text) => text.split(',').map(Number));
  return seen.split(',').every((channel, i) => {
    const [a, b] = [tone![i]!, stroke![i]!];
    return Number(channel) >= Math.min(a, b) - 3 && Number(channel) <= Math.max(a, b) + 3;
  });
}
/** What a place on the sheet shows. */
const shows = async (place: Point): Promise<'wall' | 'floor' | 'ground' | 'other'> => {
  const seen = await colour(place);
  return isWall(seen) ? 'wall' : seen === FLOOR ? 'floor' : seen === GROUND ? 'ground' : 'other';
};

/** A long, thick wall with nothing in it; its middle has nothing on it either. */
const bareWall = Object.entries(plan.walls).find(
  ([id, wall]) =>
    !Object.values(plan.openings).some((opening) => opening.wall === id) &&
    wall.height === undefined &&
    wall.thickness > 4 * 8128 &&
    lengthOf(id) > 8 * 12 * 8128,
)![0];
function nodesOf(id: string): readonly [Point, Point] {
  const { from, to } = mustLookup(plan.walls, id);
  return [mustLookup(plan.nodes, from), mustLookup(plan.nodes, to)];
}
function lengthOf(id: string): number {
  const [a, b] = nodesOf(id);
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}
const onWall = (share = 0.5): Point => {
  const [a, b] = nodesOf(bareWall);
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
};
const study = level.walk.rooms.find(({ name }) => name === 'Study')!;
const floorAt: Point = (() => {
  const corners = study.loops[0]!.corners.map((corner) => corner.at);
  // Off the middle, where the name stands.
  return [
    corners.reduce((sum, [x]) => sum + x, 0) / corners.length + 6 * 8128,
    corners.reduce((sum, [, y]) => sum + y, 0) / corners.length + 20 * 8128,
  ];
})();

const go = async (place: Point): Promise<Point> => {
  await page.mouse.move(at.x + place[0], at.y + place[1]);
  return place;
};

beforeAll(async () => {
  w = await openWindow({ file: demoFile('larkspur-house'), width: 1400, height: 900 });
  page = w.page;
  await page.locator('.sheet-paper canvas').first().waitFor();
});
afterAll(async () => {
  const { errors } = w;
  await w.close();
  expect(errors).toEqual([]);
});
beforeEach(async () => {
  await page.keyboard.press('Alt+2');
  await paper().focus();
  for (let k = 0; k < 3; k++) await page.keyboard.press('Escape');
  await page.keyboard.press('f');
  const box = (await paper().boundingBox())!;
  at = { x: box.x, y: box.y };
  view = fittedTo(
    {
      centre: [0, 0],
      pixelsPerTick: REAL_SIZE,
      width: Math.round(box.width),
      height: Math.round(box.height),
    },
    level,
  );
});

describe('the drawing', () => {
  test('walls, floors and the ground have their colours where the plan has them', async () => {
    expect(await shows(toScreen(view, onWall()))).toBe('wall');
    expect(await colour(toScreen(view, floorAt))).toBe(FLOOR);
    expect(await colour([view.width - 4, 4])).toBe(GROUND);
  });

  test('there are other labels at each stage', async () => {
    /** How many pixels are of another tone than at the stage looked at before. */
    const changed = (): Promise<number> =>
      page.evaluate(async () => {
        await new Promise((done) => setTimeout(done, 600));
        const canvas = document.querySelector<HTMLCanvasElement>('.sheet-paper canvas')!;
        const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
        const kept = globalThis as { seenBefore?: Uint8ClampedArray };
        const before = kept.seenBefore ?? new Uint8ClampedArray(data.length);
        kept.seenBefore = data;
        let count = 0;
        for (let i = 1; i < data.length; i += 4) if (Math.abs(data[i]! - before[i]!) > 40) count += 1;
        return count;
      });
    for (const key of ['Alt+1', 'Alt+2', 'Alt+3', 'Alt+1']) {
      await page.keyboard.press(key);
      expect(await changed(), key).toBeGreaterThan(2000);
    }
    await expect.poll(changed).toBe(0);
    await page.keyboard.press('Alt+3');
  });

  test('by night the paper is dark and the walls are still there', async () => {
    const dark = paletteOf('dark');
    await page.emulateMedia({ colorScheme: 'dark' });
    await expect.poll(() => colour([view.width - 4, 4])).toBe(hex(dark.ground));
    expect(isWall(await colour(toScreen(view, onWall())), dark)).toBe(true);
    await page.emulateMedia({ colorScheme: 'light' });
    await expect.poll(() => colour([view.width - 4, 4])).toBe(GROUND);
  });

  test('on a screen of finer pixels it is drawn as fine', async () => {
    const cdp = await w.context.newCDPSession(page);
    await cdp.send('Emulation.setDeviceMetricsOverride', {
      width: 1400,
      height: 900,
      deviceScaleFactor: 2,
      mobile: false,
    });
    // Emulation changes the pixels without telling the page.
    await page.evaluate(() => window.dispatchEvent(new Event('resize')));
    await page.waitForFunction(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('.sheet-paper canvas')!;
      return canvas.width === canvas.clientWidth * 2;
    });
    expect(await shows(toScreen(view, onWall()))).toBe('wall');
    await cdp.send('Emulation.clearDeviceMetricsOverride');
    await page.setViewportSize({ width: 1400, height: 900 });
    await page.evaluate(() => window.dispatchEvent(new Event('resize')));
    await page.waitForFunction(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('.sheet-paper canvas')!;
      return canvas.width === canvas.clientWidth;
    });
  });

  test('with text twice as large it is drawn twice as large, and a click chooses what lies there', async () => {
    const size = () =>
      page
        .locator('.sheet-paper canvas')
        .first()
        .evaluate((canvas) => {
          return canvas.getBoundingClientRect().width / canvas.clientWidth;
        });
    const textSize = (size: string) =>
      page.evaluate((to) => document.documentElement.style.setProperty('font-size', to), size);
    await textSize('200%');
    try {
      // The bars have grown and the panels given way: the sheet has another size.
      await expect.poll(size).toBeCloseTo(2, 2);
      await paper().focus();
      await page.keyboard.press('f');
      const box = (await paper().boundingBox())!;
      const [width, height] = [box.width / 2, box.height / 2];
      const large = fittedTo({ centre: [0, 0], pixelsPerTick: REAL_SIZE, width, height }, level);
      const place = toScreen(large, onWall(0.3));
      expect(await colour(place, 1)).toBe('none');
      await page.mouse.click(box.x + 2 * place[0], box.y + 2 * place[1]);
      await page.mouse.move(box.x + 12, box.y + box.height - 12);
      await expect.poll(() => colour(place, 1)).not.toBe('none');
    } finally {
      await textSize('');
      await expect.poll(size).toBeCloseTo(1, 2);
    }
  });

  test('axe finds nothing wrong with it', async () => {
    expect(await axeFaults(page)).toEqual([]);
  });
});

describe('moving the sheet', () => {
  test('the wheel zooms at the pointer: the wall under it stays under it and grows', async () => {
    const place = await go(toScreen(view, onWall()));
    const [a, b] = nodesOf(bareWall);
    const long = lengthOf(bareWall);
    const half = (mustLookup(plan.walls, bareWall).thickness / 2) * view.pixelsPerTick;
    const aside = (off: number): Point => [
      place[0] - ((b[1] - a[1]) / long) * off,
      place[1] + ((b[0] - a[0]) / long) * off,
    ];
    expect(await shows(aside(half * 1.8))).not.toBe('wall');
    for (let k = 0; k < 8; k++) await page.mouse.wheel(0, -100);
    await expect.poll(() => shows(aside(half * 1.8))).toBe('wall');
    await expect.poll(() => shows(place)).toBe('wall');
  });

  test('the middle button and Space with the left one drag it', async () => {
    for (const hand of ['middle', 'space'] as const) {
      await page.keyboard.press('f');
      const from = toScreen(view, onWall());
      const to: Point = [from[0] + 37, from[1] - 23];
      await go(from);
      if (hand === 'space') await page.keyboard.down(' ');
      await page.mouse.down({ button: hand === 'middle' ? 'middle' : 'left' });
      await go([from[0] + 10, from[1] - 30]);
      await go(to);
      await page.mouse.up({ button: hand === 'middle' ? 'middle' : 'left' });
      if (hand === 'space') await page.keyboard.up(' ');
      const moved = pannedBy(view, [37, -23]);
      expect(await shows(to), hand).toBe('wall');
      expect(await colour(toScreen(moved, floorAt)), hand).toBe(FLOOR);
    }
    await expect.poll(() => page.getByText('Saved', { exact: true }).count()).toBe(1);
  });

  test('arrow keys move it while nothing is chosen, and + goes to the next named scale', async () => {
    await page.keyboard.press('ArrowRight');
    expect(await shows(toScreen(pannedBy(view, [-60, 0]), onWall()))).toBe('wall');
    await page.keyboard.press('f');
    await page.keyboard.press('+');
    const next = zoomedAt(
      view,
      [view.width / 2, view.height / 2],
      nextZoom(view.pixelsPerTick, 'imperial', 1) / view.pixelsPerTick,
    );
    expect(await colour(toScreen(next, floorAt))).toBe(FLOOR);
    await expect.poll(() => page.locator('.sheet-scale').textContent()).toContain('= 1′');
  });

  test('two fingers move and spread it', async () => {
    const cdp = await w.context.newCDPSession(page);
    const on = toScreen(view, floorAt);
    const fingers = (apart: number, dx: number) =>
      [-1, 1].map((side, id) => ({ x: at.x + on[0] + dx + side * apart, y: at.y + on[1], id }));
    const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', touchPoints: { x: number; y: number }[]) =>
      cdp.send('Input.dispatchTouchEvent', { type, touchPoints });
    await send('touchStart', fingers(30, 0));
    for (const k of [1, 2, 3, 4, 5]) await send('touchMove', fingers(30 + 6 * k, 4 * k));
    await send('touchEnd', []);
    const spread = pannedBy(zoomedAt(view, on, 2), [20, 0]);
    // The canvas is stretched until the fingers rest.
    await expect.poll(() => shows(toScreen(spread, onWall()))).toBe('wall');
    await expect.poll(() => page.getByText('Saved', { exact: true }).count()).toBe(1);
  });

  test('two fingers in the middle of drawing walls move the sheet and leave the walls alone', async () => {
    await page.keyboard.press('w');
    const cdp = await w.context.newCDPSession(page);
    const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', touchPoints: { x: number; y: number }[]) =>
      cdp.send('Input.dispatchTouchEvent', { type, touchPoints });
    const on = toScreen(view, floorAt);
    const finger = (dx: number, id = 0) => ({ x: at.x + on[0] + dx, y: at.y + on[1], id });
    await send('touchStart', [finger(0)]);
    await send('touchEnd', []);
    await expect.poll(() => colour(on, 1)).not.toBe('none');
    await send('touchStart', [finger(40)]);
    await send('touchStart', [finger(40), finger(100, 1)]);
    for (const k of [1, 2, 3, 4]) await send('touchMove', [finger(40 + 20 * k), finger(100 + 20 * k, 1)]);
    await send('touchEnd', []);
    await expect.poll(() => colour([on[0] + 80, on[1]], 1)).not.toBe('none');
    await page.keyboard.press('Escape');
    await expect.poll(() => colour([on[0] + 80, on[1]], 1)).toBe('none');
    expect(await page.getByText('Saved', { exact: true }).count()).toBe(1);
  });

  test('the sheet stays where it is when a bar or a panel beside it grows', async () => {
    const place = toScreen(view, floorAt);
    const left = async () => (await paper().boundingBox())!.x;
    await page.getByRole('button', { name: 'The walk', exact: true }).click();
    await expect.poll(left).toBeLessThan(at.x);
    const by = at.x - (await left());
    await expect.poll(() => colour([place[0] + by, place[1]])).toBe(FLOOR);
    const wallAt = toScreen(view, onWall());
    await expect.poll(() => shows([wallAt[0] + by, wallAt[1]])).toBe('wall');
    await page.getByRole('button', { name: 'The walk', exact: true }).click();
    await expect.poll(left).toBe(at.x);
    await expect.poll(() => shows(wallAt)).toBe('wall');
  });
});

describe('choosing', () => {
  test('a click on a wall chooses it: it is lit, and the ticket tells of it', async () => {
    const place = await go(toScreen(view, onWall()));
    await page.mouse.click(at.x + place[0], at.y + place[1]);
    await go([view.width - 6, 6]);
    await expect.poll(() => colour(place, 1)).not.toBe('none');
    await expect.poll(() => page.locator('[data-zone="ticket"]').textContent()).toMatch(/wall/i);
    await page.keyboard.press('Escape');
    await expect.poll(() => colour(place, 1)).toBe('none');
  });

  test('a click on a room’s name chooses the room', async () => {
    await page.keyboard.press('Alt+3');
    await page.waitForTimeout(400);
    const middle = study.loops[0]!.corners.map((corner) => corner.at);
    const [x, y] = [0, 1].map((axis) => middle.reduce((sum, p) => sum + p[axis as 0 | 1], 0) / middle.length);
    const place = await go(toScreen(view, [x!, y!]));
    await page.mouse.click(at.x + place[0], at.y + place[1]);
    await expect.poll(() => page.locator('[data-zone="ticket"]').textContent()).toContain('Study');
  });

  test('a finger held still on a wall chooses what lies beneath it', async () => {
    const place = toScreen(view, onWall());
    const cdp = await w.context.newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchEnd', touchPoints: { x: number; y: number }[]) =>
      cdp.send('Input.dispatchTouchEvent', { type, touchPoints });
    const point = { x: at.x + place[0], y: at.y + place[1] };
    const chosen = () => page.locator('[data-zone="ticket"]').textContent();
    const nothing = await chosen();
    await touch('touchStart', [point]);
    await touch('touchEnd', []);
    await expect.poll(chosen).not.toBe(nothing);
    const tapped = await chosen();
    await page.keyboard.press('Escape');
    await expect.poll(chosen).toBe(nothing);
    // Sooner it would be the second of a double tap.
    await page.waitForTimeout(400);
    await touch('touchStart', [point]);
    await expect.poll(chosen).not.toBe(nothing);
    const beneath = await chosen();
    expect(beneath).not.toBe(tapped);
    await touch('touchEnd', []);
    await page.waitForTimeout(300);
    expect(await chosen()).toBe(beneath);
    expect(await page.getByText('Saved', { exact: true }).count()).toBe(1);
  });

  test('Escape in a drag puts everything back, and letting go after it does nothing', async () => {
    const place = await go(toScreen(view, onWall()));
    await page.mouse.click(at.x + place[0], at.y + place[1]);
    await page.mouse.down();
    await go([place[0] + 14, place[1] + 14]);
    await go([place[0] + 30, place[1] + 30]);
    await page.keyboard.press('Escape');
    await go([place[0] + 50, place[1] + 40]);
    await page.mouse.up();
    await page.waitForTimeout(200);
    expect(await shows(toScreen(view, onWall()))).toBe('wall');
    expect(await page.getByText('Saved', { exact: true }).count()).toBe(1);
  });

  test('a drag moves the wall, and undoing puts it back on the sheet', async () => {
    const place = await go(toScreen(view, onWall()));
    await page.mouse.down();
    await go([place[0] + 20, place[1] + 20]);
    await go([place[0] + 40, place[1] + 40]);
    await page.mouse.up();
    await expect.poll(() => shows(place)).not.toBe('wall');
    await page.keyboard.press('Control+z');
    await expect.poll(() => shows(place)).toBe('wall');
  });
});
