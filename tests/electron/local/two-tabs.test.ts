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

  it('what is done in the one after the other closed the plan is kept as a plan without a file, with its undo', async () => {
    const one = window.page;
    const two = await window.context.newPage();
    await two.goto(`${window.local.origin}/`);
    const title = two.getByLabel('Title of the plan');
    const rename = async (words: string) => {
      await title.fill(words);
      await title.press('Enter');
    };
    await title.waitFor();
    await one.bringToFront();
    await one.keyboard.press('Control+w');
    await one.getByRole('button', { name: /^Keep for later/ }).click();
    await one
      .getByRole('button', { name: /^New plan in/ })
      .first()
      .waitFor();
    await two.bringToFront();
    await rename('After');
    await two.getByText(/was closed in another window\. What is shown here is kept/).waitFor();
    await rename('Still later');
    const now = async () => {
      const { view, plan } = await held();
      return { title: plan.title, name: view.name, unsaved: view.unsaved };
    };
    await expect.poll(now).toEqual({ title: 'Still later', name: null, unsaved: true });
    expect(await two.title()).toMatch(/^● |•|\*/);
    for (const words of ['After', 'Thimble Cottage']) {
      await two.keyboard.press('Control+z');
      await expect.poll(async () => (await held()).plan.title).toBe(words);
    }
    expect(window.errors).toEqual([]);
    await two.close();
  });
});
