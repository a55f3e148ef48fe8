// Debian's Chromium, driven by Playwright: one way to start it for every test.

import { type Browser, chromium } from 'playwright';

const EXECUTABLE = process.env.COPEWRIGHT_CHROMIUM ?? '/usr/bin/chromium';

/** A headless browser. The caller closes it. */
export function launchChromium(): Promise<Browser> {
  return chromium.launch({
    executablePath: EXECUTABLE,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}
