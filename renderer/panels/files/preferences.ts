// The user's settings, kept by the host: what is set holds at once and stays set where the host cannot keep it.

import type { WindowPreferences } from '../../../electron/contract.ts';
import type { App } from '../../state/app.ts';

export async function setPreferences(app: App, patch: Partial<WindowPreferences>): Promise<void> {
  const put = (preferences: WindowPreferences): void =>
    app.change(({ start }) => ({
      theme: preferences.theme,
      ...(start === null ? {} : { start: { ...start, preferences } }),
    }));
  const { start, theme } = app.store.get();
  put({ units: 'imperial', autosaveSeconds: null, ...start?.preferences, theme, ...patch });
  try {
    put(await app.bridge.setPreferences(patch));
  } catch {
    app.say('This setting holds until the window is closed; it could not be kept.', 'problem');
  }
}
