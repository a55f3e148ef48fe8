// The window's own files under a scheme of their own. Only what is on the list made from the built folder is ever read.

import { readFileSync } from 'node:fs';
import { CONTENT_SECURITY_POLICY, type WindowFile } from '../services/index.ts';

export const SCHEME = 'copewright';
/** The one host under the scheme. */
const HOST = 'window';
export const ORIGIN = `${SCHEME}://${HOST}`;
export const START_ADDRESS = `${ORIGIN}/index.html`;

/** Answers one request. Anything but a GET of a listed file of the one host is refused. */
export function answerRequest(
  files: ReadonlyMap<string, WindowFile>,
  method: string,
  address: string,
): Response {
  const refuse = (status: number): Response => new Response(null, { status });
  if (method !== 'GET') return refuse(405);
  let url: URL;
  try {
    url = new URL(address);
  } catch {
    return refuse(400);
  }
  if (url.protocol !== `${SCHEME}:` || url.host !== HOST || url.username !== '' || url.password !== '')
    return refuse(403);
  const file = files.get(url.pathname);
  if (file === undefined) return refuse(404);
  return new Response(readFileSync(file.path), {
    headers: {
      'content-type': file.type,
      'content-security-policy': CONTENT_SECURITY_POLICY,
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cross-origin-opener-policy': 'same-origin',
      'cross-origin-resource-policy': 'same-origin',
    },
  });
}
