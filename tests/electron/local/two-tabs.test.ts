// Two tabs of one browser on the same window: they show one plan, and neither undoes unseen what the other did.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { OpenedPlan } from '../../../electron/contract.ts';
import { demoFile, type OpenWindow, openWindow } from '../../renderer/window.ts';

describe('two tabs', () => {
  let window: OpenWindow;
  beforeAll(async () => {
    window = await openWindow({ file: demoFile('thimble-cottage') });
  });
  afterAll(() => window.close());

  const held = async (): Promise<OpenedPlan> => {
    const { opened } = (await window.local.desk.handle('start', {})) as { opened: OpenedPlan };
    return opened;
  };

  it('an edit in the one is not undone by the other, which is told and shows the plan as it is', async () => {
    const one = window.page;
    const two = await window.context.newPage();
    await two.goto(`${window.local.origin}/`);
    for (const page of [one, two]) await expect.poll(() => page.title()).toContain('Thimble Cottage');
    await one.bringToFront();
    await one.keyboard.press('F7');
    await one.keyboard.press('Control+A');
    await one.keyboard.press('Delete');
    await expect.poll(async () => (await held()).view.revision).toBe(1);
    expect(Object.keys((await held()).plan.levels[0]!.walls)).toEqual([]);

    await two.bringToFront();
    await two.keyboard.press('F7');
    await two.keyboard.press('Control+A');
    await two.keyboard.press('Control+R');
    await expect.poll(() => two.locator('body').textContent()).toContain('changed in another window');
    await expect.poll(() => two.locator('body').textContent()).toContain('0 walls');
    expect((await held()).view.revision).toBe(1);
    expect(window.errors).toEqual([]);
    await two.close();
    await expect.poll(() => one.locator('.frame').count()).toBe(1);
  });
});
