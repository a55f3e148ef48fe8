// The job's settings: what the house is, and every rule the user may change, each with its default and one sentence on what
// it does. What is typed holds at once.

import { DEFAULT_SETTINGS, type Plan, settingsOf } from '../../../core/plan/index.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { Choice } from '../kit/Choice.tsx';
import { DialogBox } from '../kit/DialogBox.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { type Figures, figuresOf } from '../kit/figures.ts';
import { STUD_SPACING } from '../kit/range.ts';
import { TextField } from '../kit/TextField.tsx';
import { YearField } from '../kit/YearField.tsx';
import { NumberField } from './NumberField.tsx';
import { areaField, SETTING_GROUPS, type SettingRow, shownNumber } from './settings-table.ts';
import './profiles.css';

export function SettingsDialog() {
  const app = useApp();
  const plan = usePicked(({ open }) => open?.plan ?? null);
  if (plan === null) return null;
  const figures = fine(plan);
  const count = Object.values(plan.settings).filter((value) => value !== undefined).length;
  return (
    <DialogBox
      title="Job settings"
      wide
      foot={
        <>
          <button
            type="button"
            aria-disabled={count === 0 || undefined}
            title={count === 0 ? 'Nothing is set: all is as it comes' : 'Undo takes it back'}
            onClick={() => {
              if (count === 0) return;
              const set = Object.fromEntries(Object.keys(plan.settings).map((key) => [key, null]));
              app.commit({ type: 'setSettings', set }, { words: 'put all settings back to their defaults' });
            }}
          >
            All back to default
          </button>
          <button type="button" className="main" title="Close (Esc)" onClick={() => app.show(null)}>
            Done
          </button>
        </>
      }
    >
      <div className="settings">
        <section className="settings-group" aria-labelledby="settings-house">
          <h3 id="settings-house">The house</h3>
          <House plan={plan} figures={figures} />
        </section>
        {SETTING_GROUPS.map((group) => (
          <section key={group.title} className="settings-group" aria-label={group.title}>
            <h3>{group.title}</h3>
            {group.rows
              .filter(({ units }) => units === undefined || units === plan.units)
              .map((row) => (
                <Setting key={row.key} plan={plan} row={row} figures={figures} />
              ))}
          </section>
        ))}
      </div>
    </DialogBox>
  );
}

/** Settings are small: printed to 1/64 in or 0.1 mm, so that none is rounded away. */
function fine(plan: Plan): Figures {
  return figuresOf({ ...plan, settings: { ...plan.settings, roundIn: 64, roundMm: 0.1 } });
}

function House({ plan, figures }: { readonly plan: Plan; readonly figures: Figures }) {
  const app = useApp();
  return (
    <>
      <div className="setting">
        <TextField
          label="Title"
          value={plan.title}
          onSet={(title) => app.commit({ type: 'setPlan', set: { title } })}
        />
        <p className="soft">Stands on every sheet.</p>
      </div>
      <div className="setting">
        <Choice
          label="Units"
          value={plan.units}
          of={[
            { value: 'imperial', words: 'Feet, inches and fractions' },
            { value: 'metric', words: 'Millimetres' },
          ]}
          onSet={(units) => app.commit({ type: 'setPlan', set: { units } })}
        />
        <p className="soft">How lengths are shown and typed. Nothing is rounded by changing it.</p>
      </div>
      <div className="setting">
        <YearField
          value={plan.builtYear ?? null}
          onSet={(builtYear) => app.commit({ type: 'setPlan', set: { builtYear } })}
        />
        <p className="soft">
          Before 1978 the old paint may hold lead, before 1981 the old floor asbestos; not known counts as
          old.
        </p>
      </div>
      <div className="setting">
        <FigureField
          label="Stud spacing"
          figures={figures}
          takes="length"
          range={STUD_SPACING}
          value={plan.studs?.spacing ?? null}
          placeholder="not known"
          mayBeEmpty
          onSet={(spacing) =>
            app.commit({ type: 'setPlan', set: { studs: spacing === null ? null : { spacing } } })
          }
        />
        <p className="soft">From each wall’s left corner; scarfs are put over studs where it is known.</p>
      </div>
    </>
  );
}

interface SettingProps {
  readonly plan: Plan;
  readonly row: SettingRow;
  readonly figures: Figures;
}

function Setting({ plan, row, figures }: SettingProps) {
  const app = useApp();
  const { key, words, says, takes } = row;
  const own = plan.settings[key];
  const standard = DEFAULT_SETTINGS[key];
  const isSet = own !== undefined && own !== standard;
  const put = (value: number | null): boolean =>
    app.commit({ type: 'setSettings', set: { [key]: value } }, { words: `set ${words.toLowerCase()}` });
  const asText = takes.as === 'length' ? figures.length(standard) : shownNumber(standard, takes, plan.units);
  return (
    <div className={isSet ? 'setting set' : 'setting'}>
      {takes.as === 'length' || takes.as === 'angle' ? (
        <FigureField
          label={words}
          figures={figures}
          takes={takes.as}
          range={takes.range}
          title={says}
          value={own ?? null}
          placeholder={asText}
          mayBeEmpty
          onSet={put}
        />
      ) : takes.as === 'area' ? (
        <AreaSetting
          label={words}
          title={says}
          field={areaField(takes, plan.units)}
          own={own}
          placeholder={asText}
          onSet={put}
        />
      ) : takes.as === 'number' ? (
        <NumberField
          label={words}
          range={takes}
          title={says}
          unit={takes.unit}
          value={own ?? null}
          placeholder={asText}
          mayBeEmpty
          onSet={put}
        />
      ) : (
        <Choice
          label={words}
          value={`${settingsOf(plan)[key]}`}
          of={takes.of.map(({ value, words: said }) => ({ value: `${value}`, words: said }))}
          onSet={(value) => put(Number(value))}
        />
      )}
      <p className="soft">
        {says}{' '}
        {isSet ? (
          <button
            type="button"
            className="plain setting-back"
            title={`${words}: back to ${asText}`}
            onClick={() => put(null)}
          >
            Back to {asText}
            <span className="unseen">, {words}</span>
          </button>
        ) : (
          <span className="setting-default">Default {asText}.</span>
        )}
      </p>
    </div>
  );
}

interface AreaProps {
  readonly label: string;
  readonly title: string;
  readonly field: ReturnType<typeof areaField>;
  /** Square metres. */
  readonly own: number | undefined;
  readonly placeholder: string;
  readonly onSet: (m2: number | null) => unknown;
}

function AreaSetting({ label, title, field, own, placeholder, onSet }: AreaProps) {
  return (
    <NumberField
      label={label}
      title={title}
      range={field.range}
      unit={field.unit}
      value={own === undefined ? null : field.shown(own)}
      placeholder={placeholder}
      mayBeEmpty
      onSet={(typed) => onSet(typed === null ? null : field.m2(typed))}
    />
  );
}
