// The user's settings: units of new plans, light or dark, autosave. What is chosen holds at once.

import type { WindowPreferences } from '../../../electron/contract.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { Choice } from '../kit/Choice.tsx';
import { DialogBox } from '../kit/DialogBox.tsx';
import { setPreferences } from './preferences.ts';

const AUTOSAVE = [30, 60, 120, 300, 600];

const secondsWords = (seconds: number): string =>
  seconds < 60
    ? `Every ${seconds} seconds`
    : `Every ${seconds === 60 ? 'minute' : `${seconds / 60} minutes`}`;

export function Preferences() {
  const app = useApp();
  const kept = usePicked(({ start }) => start?.preferences ?? null);
  const theme = usePicked((state) => state.theme);
  const set = (patch: Partial<WindowPreferences>): void => void setPreferences(app, patch);
  const seconds = kept?.autosaveSeconds ?? null;
  const offered =
    seconds === null || AUTOSAVE.includes(seconds) ? AUTOSAVE : [...AUTOSAVE, seconds].sort((a, b) => a - b);
  return (
    <DialogBox
      title="Preferences"
      foot={
        <button type="button" className="main" onClick={() => app.show(null)}>
          Done
        </button>
      }
    >
      <Choice
        label="Units of new plans"
        value={kept?.units ?? 'imperial'}
        of={[
          { value: 'imperial', words: 'Feet, inches and fractions' },
          { value: 'metric', words: 'Millimetres' },
        ]}
        onSet={(units) => set({ units })}
      />
      <Choice
        label="Light or dark"
        value={theme}
        of={[
          { value: 'system', words: 'As the system' },
          { value: 'light', words: 'Light' },
          { value: 'dark', words: 'Dark' },
        ]}
        onSet={(next) => set({ theme: next })}
      />
      <Choice
        label="Autosave"
        value={seconds === null ? 'off' : String(seconds)}
        of={[
          { value: 'off', words: 'Off' },
          ...offered.map((each) => ({ value: String(each), words: secondsWords(each) })),
        ]}
        onSet={(value) => set({ autosaveSeconds: value === 'off' ? null : Number(value) })}
      />
      <p className="soft files-note">
        Autosave writes plans that have a file. Every edit is kept for recovery either way. The units of the
        open plan are set in Job settings.
      </p>
    </DialogBox>
  );
}
