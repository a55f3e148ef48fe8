// The user's settings: units of new plans, light or dark, autosave, what drawn walls snap to. What is chosen holds at once.

import { emptyPlan } from '../../../core/plan/index.ts';
import { mmFromTicks, ticksFromMm } from '../../../core/units/index.ts';
import type { WindowPreferences } from '../../../electron/contract.ts';
import { gridSpacing } from '../../sheet/grid.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { Choice } from '../kit/Choice.tsx';
import { DialogBox } from '../kit/DialogBox.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { figuresOf } from '../kit/figures.ts';
import type { Range } from '../kit/range.ts';
import { setPreferences } from './preferences.ts';

const AUTOSAVE = [30, 60, 120, 300, 600];

/** A millimetre to ten metres, as the preferences keep it. */
const GRID: Range = { least: ticksFromMm(1), most: ticksFromMm(10_000) };

const secondsWords = (seconds: number): string =>
  seconds < 60
    ? `Every ${seconds} seconds`
    : `Every ${seconds === 60 ? 'minute' : `${seconds / 60} minutes`}`;

export function Preferences() {
  const app = useApp();
  const kept = usePicked(({ start }) => start?.preferences ?? null);
  const theme = usePicked((state) => state.theme);
  const set = (patch: Partial<WindowPreferences>): void => void setPreferences(app, patch);
  const plan = usePicked(({ open }) => open?.plan ?? null);
  const units = plan?.units ?? kept?.units ?? 'imperial';
  const figures = figuresOf(plan ?? emptyPlan(units));
  const { angleStepDeg = 15, gridMm = null } = kept ?? {};
  const seconds = kept?.autosaveSeconds ?? null;
  const offered =
    seconds === null || AUTOSAVE.includes(seconds) ? AUTOSAVE : [...AUTOSAVE, seconds].sort((a, b) => a - b);
  return (
    <DialogBox
      title="Preferences"
      foot={
        <button type="button" className="main" title="Close (Esc)" onClick={() => app.show(null)}>
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
      <h3>Drawing</h3>
      <FigureField
        label="Angles in steps of"
        title="Walls that are drawn snap to these; 0: to none"
        figures={figures}
        takes="angle"
        range={{ least: 0, most: 90 }}
        value={angleStepDeg}
        onSet={(value) => set({ angleStepDeg: value! })}
      />
      <FigureField
        label="Grid spacing"
        title="What the grid on the sheet is drawn at and snaps to"
        figures={figures}
        takes="length"
        range={GRID}
        value={gridMm === null ? null : ticksFromMm(gridMm)}
        placeholder={figures.length(gridSpacing(null, units))}
        mayBeEmpty
        onSet={(value) => set({ gridMm: value === null ? null : mmFromTicks(value) })}
      />
      <p className="soft files-note">
        Autosave writes plans that have a file. Every edit is kept for recovery either way. The units of the
        open plan are set in Job settings.
      </p>
    </DialogBox>
  );
}
