// The whole job over the real loopback server, once with the pointer and once by the keyboard alone. By the keyboard the
// page itself counts presses of a pointer: there must be none.

import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { type OpenWindow, openWindow } from '../renderer/window.ts';
import { browserHands } from './browser-hands.ts';
import { byKeyboard } from './by-keyboard.ts';
import { byPointer } from './by-pointer.ts';
import { closedClean } from './closed-clean.ts';
import { wholeJob } from './whole-job.ts';

let w: OpenWindow;
afterEach(() => closedClean(w));

const pointerPresses = (): Promise<number> =>
  w.page.evaluate(() => (globalThis as unknown as { pointerPresses: number }).pointerPresses);

async function open(): Promise<void> {
  w = await openWindow({ width: 1440, height: 900 });
  w.page.setDefaultTimeout(15_000);
  await w.page.evaluate(() => {
    const counted = globalThis as unknown as { pointerPresses: number };
    counted.pointerPresses = 0;
    const count = (): void => {
      counted.pointerPresses += 1;
    };
    for (const kind of ['pointerdown', 'mousedown', 'touchstart'])
      window.addEventListener(kind, count, { capture: true });
  });
}

describe('from a new plan to the crew’s PDF', () => {
  test('by the keyboard alone', { timeout: 300_000 }, async () => {
    await open();
    await wholeJob(byKeyboard(w.page), browserHands(w.page, join(w.folder, 'home')));
    expect(await pointerPresses()).toBe(0);
  });

  test('with the pointer', { timeout: 300_000 }, async () => {
    await open();
    const hands = browserHands(w.page, join(w.folder, 'home'));
    await wholeJob(byPointer(w.page, hands), hands);
    expect(await pointerPresses()).toBeGreaterThan(100);
  });
});
