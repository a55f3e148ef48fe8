// What axe-core finds wrong in a page, in one line each. It runs in the page by the debugger, so the page's own policy
// against foreign scripts stays on.

import axe from 'axe-core';
import type { Page } from 'playwright';

/** `within`: only in the part that a selector names. */
export async function axeFaults(page: Page, within?: string): Promise<string[]> {
  await page.evaluate(axe.source);
  return page.evaluate(async (part) => {
    const { axe: own } = globalThis as unknown as { axe: typeof import('axe-core') };
    const { violations } = await own.run(part ?? document);
    return violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`,
    );
  }, within);
}
