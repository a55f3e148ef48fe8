// Pictures of the sheet and the strip against kept ones, drawn with the fonts that ship. A few pixels may differ and single
// tones a little: what is told apart is what a reader would see. `COPEWRIGHT_KEEP_PICTURES=1` keeps what is drawn now; look
// at it before it is committed.

import { existsSync } from 'node:fs';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { demoFile, type OpenWindow, openWindow } from '../window.ts';

const FOLDER = new URL('./pictures/', import.meta.url);
/** A tone that differs by so much of 255 is another tone; of so many pixels, one may be of another tone. */
const [TONE, ONE_IN] = [48, 2000];
/** The sheet and the strip in sizes of their own, whatever stands beside them. */
const SIZES = `
  .sheet-paper { inset: auto; left: 0; top: 0; width: 640px; height: 600px; }
  .sheet-corner { display: none; }
  .strip-scroll { width: 640px; }`;

/** The pixels of a canvas as a PNG, when they have stayed the same for a while. */
async function pictureOf(page: Page, canvas: string): Promise<string> {
  let [last, since] = ['', 0];
  await expect
    .poll(
      async () => {
        const now = await page
          .locator(canvas)
          .first()
          .evaluate((each: HTMLCanvasElement) => each.toDataURL('image/png'));
        since = now === last ? since + 1 : 0;
        last = now;
        return since;
      },
      { timeout: 30_000, interval: 250 },
    )
    .toBeGreaterThanOrEqual(4);
  return last;
}

/** How many pixels of two PNGs are of another tone, and of how many. */
function difference(page: Page, one: string, other: string): Promise<{ differ: number; of: number }> {
  return page.evaluate(
    async ({ urls, tone }) => {
      const [a, b] = await Promise.all(
        urls.map(async (url) => {
          const image = new Image();
          image.src = url;
          await image.decode();
          const canvas = new OffscreenCanvas(image.width, image.height);
          const context = canvas.getContext('2d')!;
          context.drawImage(image, 0, 0);
          return context.getImageData(0, 0, image.width, image.height);
        }),
      );
      const of = a!.width * a!.height;
      if (a!.width !== b!.width || a!.height !== b!.height) return { differ: of, of };
      let differ = 0;
      for (let i = 0; i < a!.data.length; i += 4)
        if ([0, 1, 2, 3].some((k) => Math.abs(a!.data[i + k]! - b!.data[i + k]!) > tone)) differ += 1;
      return { differ, of };
    },
    { urls: [one, other], tone: TONE },
  );
}

async function compared(page: Page, name: string, canvas = '.sheet-paper canvas'): Promise<void> {
  const now = await pictureOf(page, canvas);
  const kept = new URL(`${name}.png`, FOLDER);
  if (process.env.COPEWRIGHT_KEEP_PICTURES === '1') {
    await mkdir(FOLDER, { recursive: true });
    await writeFile(kept, Buffer.from(now.slice(now.indexOf(',') + 1), 'base64'));
    return;
  }
  expect(existsSync(kept), `${name}.png is kept`).toBe(true);
  const before = `data:image/png;base64,${(await readFile(kept)).toString('base64')}`;
  const { differ, of } = await difference(page, now, before);
  expect(differ, `pixels of ${name} that are of another tone`).toBeLessThanOrEqual(of / ONE_IN);
}

for (const dark of [false, true])
  describe(dark ? 'by night' : 'by day', () => {
    let w: OpenWindow;
    const stage = async (key: string): Promise<void> => {
      await w.page.locator('.sheet-paper').focus();
      await w.page.keyboard.press(key);
      await w.page.keyboard.press('f');
    };
    beforeAll(async () => {
      w = await openWindow({ file: demoFile('thimble-cottage'), dark });
      // What tsx puts round the names of functions is not there in the page.
      await w.page.evaluate('globalThis.__name = (made) => made');
      await w.page.evaluate((css) => {
        const sheet = new CSSStyleSheet();
        sheet.replaceSync(css);
        document.adoptedStyleSheets = [sheet];
      }, SIZES);
      await w.page.locator('.sheet-paper canvas').first().waitFor();
    }, 120_000);
    afterAll(() => w?.close());

    if (dark) {
      test('the sheet while measuring', async () => {
        await stage('Alt+1');
        await compared(w.page, 'measure-dark');
      }, 60_000);
    } else {
      test('the sheet while drawing', async () => {
        await stage('Alt+2');
        await compared(w.page, 'draw-light');
      }, 60_000);
      test('the sheet while trimming', async () => {
        await stage('Alt+3');
        await compared(w.page, 'trim-light');
      }, 60_000);
      test('the strip of a room', async () => {
        await w.page.keyboard.press('Alt+s');
        await compared(w.page, 'strip-light', '.strip-canvas');
      }, 60_000);
    }
  });
