// The report is the same, byte for byte, in Node and in a real Chromium, solver included.

import { readdir, readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPlan } from '../../core/plan/index.ts';
import { reportToJson } from '../../core/report/index.ts';
import { solvePlan } from '../../electron/services/export.ts';
import { launchChromium } from '../chromium.ts';

const here = dirname(fileURLToPath(import.meta.url));
const demo = join(here, '..', '..', 'demo-data');

/** A page's script: `reportOf(planText, wasmBase64)` gives the solved report's JSON text. */
async function bundle(): Promise<string> {
  const built = await build({
    entryPoints: [join(here, 'report-in-page.ts')],
    bundle: true,
    write: false,
    format: 'iife',
    globalName: 'page',
    platform: 'browser',
    logLevel: 'silent',
    external: ['node:*'], // the solver package's Node branch, never taken in a page
  });
  return built.outputFiles[0]!.text;
}

describe('the same report everywhere', () => {
  let browser: Browser;
  let page: Page;
  let wasm: string;

  beforeAll(async () => {
    browser = await launchChromium();
    page = await browser.newPage();
    await page.addScriptTag({ content: await bundle() });
    wasm = (await readFile(createRequire(import.meta.url).resolve('highs/runtime'))).toString('base64');
  });
  afterAll(() => browser?.close());

  it('[RP1] the demo houses give the same bytes in Node, twice, and in Chromium', async () => {
    const plans = (await readdir(demo)).filter((name) => name.endsWith('.copewright.json')).sort();
    expect(plans).toEqual(['larkspur-house.copewright.json', 'thimble-cottage.copewright.json']);
    for (const name of plans) {
      const text = await readFile(join(demo, name), 'utf8');
      const read = readPlan(text);
      if (!read.ok) throw new Error(read.error.message);
      const inNode = reportToJson((await solvePlan(read.plan)).report);
      const again = reportToJson((await solvePlan(read.plan)).report);
      const inPage = await page.evaluate(
        ([plan, binary]) =>
          (
            globalThis as unknown as { page: { reportOf(plan: string, wasm: string): Promise<string> } }
          ).page.reportOf(plan!, binary!),
        [text, wasm],
      );
      expect(again === inNode, `${name}: twice in Node`).toBe(true);
      expect(inPage === inNode, `${name}: Chromium and Node differ`).toBe(true);
      expect(inNode.length).toBeGreaterThan(1000);
    }
  });
});
