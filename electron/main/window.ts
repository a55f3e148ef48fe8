// The one window: made here only, with nothing of Node in it. Where it stood is remembered, and not believed where no
// screen shows it any more.

import type { BrowserWindow, BrowserWindowConstructorOptions, Display } from 'electron';
import type { DocumentView } from '../contract.ts';
import type { Preferences } from '../services/index.ts';

export type WindowPlace = NonNullable<Preferences['window']>;

/** What the window is made with. `place` as last time, where some screen still shows it. */
export function windowOptions(
  preload: string,
  developing: boolean,
  place: WindowPlace | null,
  displays: readonly Display[],
): BrowserWindowConstructorOptions {
  const kept = place !== null && displays.some((display) => showsTitle(display, place)) ? place : null;
  return {
    width: kept?.width ?? 1280,
    height: kept?.height ?? 800,
    ...(kept === null ? {} : { x: kept.x, y: kept.y }),
    minWidth: 720,
    minHeight: 480,
    show: false,
    title: 'Copewright',
    backgroundColor: '#e9e2d3',
    webPreferences: {
      preload,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      navigateOnDragDrop: false,
      spellcheck: false,
      devTools: developing,
    },
  };
}

/** Whether a good part of the window's upper edge lies on a screen: enough to take hold of it. */
function showsTitle({ workArea }: Display, { x, y, width }: WindowPlace): boolean {
  const across = Math.min(x + width, workArea.x + workArea.width) - Math.max(x, workArea.x);
  return across >= 100 && y >= workArea.y - 10 && y <= workArea.y + workArea.height - 60;
}

export function placeOf(window: BrowserWindow): WindowPlace {
  return { ...window.getNormalBounds(), maximised: window.isMaximized() };
}

/** `• Title – file`: the dot where something is not saved. */
export function windowTitle(view: DocumentView | null): string {
  if (view === null) return 'Copewright';
  const file = view.name === null ? 'not saved yet' : view.name;
  return `${view.unsaved ? '• ' : ''}${view.title} – ${file} – Copewright`;
}
