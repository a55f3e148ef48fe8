// The end of a run in the window: nothing was complained of, neither by the page nor by the server.

import { expect } from 'vitest';
import type { OpenWindow } from '../renderer/window.ts';

export async function closedClean({ errors, log, close }: OpenWindow): Promise<void> {
  await close();
  expect(errors).toEqual([]);
  expect(log).toEqual([]);
}
