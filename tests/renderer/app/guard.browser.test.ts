// A part of the window that fails takes nothing else with it.

import { expect, test } from 'vitest';
import { openWindow } from '../window.ts';

test('where the sheet cannot be drawn it says so, the rest goes on, and it comes back when it can', async () => {
  const w = await openWindow({});
  try {
    const { page } = w;
    await page.getByRole('heading', { name: 'Demo houses' }).waitFor();
    await page.evaluate(`
      globalThis.kept = HTMLCanvasElement.prototype.getContext;
      HTMLCanvasElement.prototype.getContext = () => { throw new Error('no canvas to be had'); };
    `);
    await page.getByRole('button', { name: 'Thimble Cottage' }).click();
    const said = page.getByRole('alert').filter({ hasText: 'The sheet cannot be shown.' });
    await said.waitFor();
    expect(await said.textContent()).toContain('no canvas to be had');

    const title = page.getByLabel('Title of the plan');
    await title.fill('Still edited');
    await title.press('Enter');
    await expect.poll(() => page.title()).toContain('Still edited');
    expect(await page.getByRole('treeitem', { name: /Bedroom/ }).count()).toBeGreaterThan(0);

    await page.evaluate('HTMLCanvasElement.prototype.getContext = globalThis.kept;');
    await page.getByRole('button', { name: 'Show it again' }).click();
    await page.getByRole('application', { name: /^The sheet/ }).waitFor();
    expect(await page.getByRole('alert').filter({ hasText: 'cannot be shown' }).count()).toBe(0);
  } finally {
    await w.close();
  }
});
