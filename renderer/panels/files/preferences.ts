// The user's settings, kept by the host: what is set holds at once and stays set where the host cannot keep it.

import type { WindowPreferences } from '../../../electron/contract.ts';
import { gridSpacing } from '../../sheet/grid.ts';
import type { App } from '../../state/app.ts';
import type { AppState } from '../../state/app-state.ts';

/** Before the host has said what is kept. */
const STANDARD: WindowPreferences = {
  units: 'imperial',
  theme: 'system',
  autosaveSeconds: null,
  angleStepDeg: 15,
  gridMm: null,
};

/** What the window is after some settings: light or dark, and how what is drawn snaps. */
export function following(
  { snapping, open }: AppState,
  { theme, angleStepDeg, gridMm }: WindowPreferences,
): Pick<AppState, 'theme' | 'snapping'> {
  const grid = snapping.grid === null ? null : gridSpacing(gridMm, open?.plan.units ?? 'imperial');
  return { theme, snapping: { ...snapping, angleStepDeg, grid } };
}

export async function setPreferences(app: App, patch: Partial<WindowPreferences>): Promise<void> {
  const put = (preferences: WindowPreferences): void =>
    app.change((state) => ({
      ...following(state, preferences),
      ...(state.start === null ? {} : { start: { ...state.start, preferences } }),
    }));
  const { start, theme } = app.store.get();
  put({ ...STANDARD, ...start?.preferences, theme, ...patch });
  try {
    put(await app.bridge.setPreferences(patch));
  } catch {
    app.say('This setting holds until the window is closed; it could not be kept.', 'problem');
  }
}
