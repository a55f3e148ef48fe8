// The program is killed while a plan is edited: the next one offers the work, and the file was not touched.

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { launchChromium } from '../../chromium.ts';
import { demoFile, openServer, openWindow } from '../window.ts';
import { dropOn } from './use.ts';

const helper = fileURLToPath(new URL('../window.ts', import.meta.url));

/** The server in a process of its own, which can be killed. Its address is the first line it prints. */
async function ownProcess(folder: string, file: string): Promise<{ child: ChildProcess; address: string }> {
  const code = `
    import { openServer } from ${JSON.stringify(helper)};
    const { local } = await openServer(${JSON.stringify({ folder, file })});
    console.log(local.address);
  `;
  const child = spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', code], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const [line] = (await once(child.stdout!, 'data')) as [Buffer];
  return { child, address: line.toString('utf8').trim() };
}

test('[SK11] after a kill the edits are offered, come back as unsaved, and can be undone', async () => {
  const first = await openServer({ file: demoFile('thimble-cottage') });
  const { folder, file } = first;
  await first.close(true);
  const before = await readFile(file!, 'utf8');

  const { child, address } = await ownProcess(folder, file!);
  const browser = await launchChromium();
  try {
    const page = await browser.newPage();
    await page.goto(address);
    const title = page.getByLabel('Title of the plan');
    for (const name of ['One', 'Two', 'Three']) {
      await title.fill(name);
      await title.press('Enter');
    }
    await page.getByText('Unsaved changes').waitFor();
    // Edits reach the disk within a second; what is younger may be lost.
    await page.waitForTimeout(1500);
  } finally {
    child.kill('SIGKILL');
    await once(child, 'exit');
    await browser.close();
  }
  expect(await readFile(file!, 'utf8')).toBe(before);

  const w = await openWindow({ folder });
  try {
    const { page } = w;
    await page.getByText(/3 edits in no file, the last .*\. The file is as it was then\./).waitFor();
    await page.getByRole('button', { name: 'Recover Three' }).click();
    const title = page.getByLabel('Title of the plan');
    await expect.poll(() => title.inputValue()).toBe('Three');
    await page.getByText('Unsaved changes').waitFor();
    expect(await readFile(file!, 'utf8')).toBe(before);
    await page.getByRole('button', { name: 'Undo rename plan' }).click();
    await expect.poll(() => title.inputValue()).toBe('Two');
    await page.keyboard.press('Control+s');
    await page.getByText('Saved as thimble-cottage.copewright.json.').waitFor();
    expect(JSON.parse(await readFile(file!, 'utf8'))).toMatchObject({ title: 'Two' });
    expect(w.errors).toEqual([]);
  } finally {
    await w.close();
  }
});

test('[SK11] a dropped plan that was closed without saving is offered at the next start, and comes back', async () => {
  const dropped = await readFile(demoFile('thimble-cottage'), 'utf8');
  const first = await openWindow();
  await dropOn(first.page, 'dropped.copewright.json', dropped);
  await first.page.getByLabel('Title of the plan').waitFor();
  await first.close(true);

  const w = await openWindow({ folder: first.folder });
  try {
    const { page } = w;
    await page.getByText(/^From .*\. It was never saved to a file\.$/).waitFor();
    await page.getByRole('button', { name: 'Recover Thimble Cottage' }).click();
    const title = page.getByLabel('Title of the plan');
    await expect.poll(() => title.inputValue()).toBe('Thimble Cottage');
    await page.getByText('In no file yet').waitFor();
    expect(w.errors).toEqual([]);
  } finally {
    await w.close();
  }
});
