// What no page may do, whatever it is: ask for a permission, go elsewhere, open a window, fetch from another host, embed,
// download. Set on the session and on every web contents that ever comes to be. Source: the desktop runtime's security
// pages (permission handlers, navigation, new windows, web views).

import type { App, Session, WebContents } from 'electron';
import { ORIGIN, SCHEME } from './scheme.ts';

/** Whether an address is one the window may load: its own files, and what it makes itself. */
export function mayLoad(address: string): boolean {
  let url: URL;
  try {
    url = new URL(address);
  } catch {
    return false;
  }
  if (url.protocol === 'data:') return true;
  if (url.protocol === 'blob:') return address.startsWith(`blob:${ORIGIN}/`);
  return url.protocol === `${SCHEME}:` && `${url.protocol}//${url.host}` === ORIGIN;
}

export function guardSession(session: Session, developing: boolean): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.setDisplayMediaRequestHandler((_request, answer) => answer({}));
  session.webRequest.onBeforeRequest((details, answer) => {
    const tools = developing && details.url.startsWith('devtools:');
    answer({ cancel: !tools && !mayLoad(details.url) });
  });
  session.on('will-download', (event) => event.preventDefault());
}

export function guardContents(app: App): void {
  app.on('web-contents-created', (_event, contents: WebContents) => {
    // The one page there is never goes anywhere: loading it again is the program's own doing and asks nobody.
    contents.on('will-navigate', (event) => event.preventDefault());
    contents.on('will-redirect', (event) => event.preventDefault());
    contents.on('will-frame-navigate', (event) => event.preventDefault());
    contents.on('will-attach-webview', (event) => event.preventDefault());
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  });
}
