// Everything about one moulding, each field set as it is left. What names it is listed; a moulding in use is deleted only
// with another in its place, or none.

import { useState } from 'react';
import type { Changes } from '../../../core/edit/index.ts';
import { usesOf } from '../../../core/edit/index.ts';
import { type Plan, type Profile, type ProfileId, sortedEntries } from '../../../core/plan/index.ts';
import { useApp } from '../../state/react.ts';
import { Choice } from '../kit/Choice.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { figuresOf } from '../kit/figures.ts';
import { ABOVE_ZERO, type Range } from '../kit/range.ts';
import { TextField } from '../kit/TextField.tsx';
import { isOnlyNamed, onlyNamedWords } from '../ticket/laid-out.ts';
import { takeOutAt } from './focus.ts';
import { ProfileDrawing } from './ProfileDrawing.tsx';
import { copyOf, idProblem, KINDS, type Kind, sizesOf } from './profile-kinds.ts';
import { StockLengths } from './StockLengths.tsx';

const SPRING_ANGLE: Range = { over: 0, under: 90 };

export interface ProfileFormProps {
  readonly plan: Plan;
  readonly id: ProfileId;
  readonly profile: Profile;
  readonly onChoose: (id: ProfileId | null) => void;
}

export function ProfileForm({ plan, id, profile, onChoose }: ProfileFormProps) {
  const app = useApp();
  const figures = figuresOf(plan);
  const uses = usesOf(plan, id);
  const set = (changes: Changes<Profile>): boolean =>
    app.commit({ type: 'changeProfile', profile: id, set: changes });

  return (
    <section className="profile-form" aria-label={`Profile ${profile.name || id}`}>
      <div className="profile-fields">
        <TextField label="Name" value={profile.name} onSet={(name) => set({ name })} />
        <TextField
          label="Id"
          value={id}
          title="What edits and lists name it by"
          fault={(to) => idProblem(plan, to)}
          onSet={(to) => {
            const done = app.commit({ type: 'renameProfile', profile: id, to: to as ProfileId });
            if (done) onChoose(to as ProfileId);
            return done;
          }}
        />
        <Choice
          label="Kind"
          value={profile.kind}
          of={KINDS.map(({ kind, words }) => ({ value: kind, words }))}
          disabled={uses.length > 0}
          onSet={(kind: Kind) => set({ kind })}
        />
        {isOnlyNamed(profile.kind) ? (
          <p className="soft profile-hint">{onlyNamedWords([profile.kind])}</p>
        ) : null}
        {uses.length > 0 ? <p className="soft profile-hint">Its kind stays while it is in use.</p> : null}
        {sizesOf(profile.kind).map(({ field, words, says, needed }) => (
          <FigureField
            key={field}
            label={words}
            title={says}
            figures={figures}
            takes="length"
            range={ABOVE_ZERO}
            value={profile[field] ?? null}
            placeholder={
              field === 'edgeThickness' ? `as thick: ${figures.length(profile.thickness)}` : 'not known'
            }
            mayBeEmpty={!needed}
            onSet={(value) => set({ [field]: value })}
          />
        ))}
        {profile.kind === 'crown' ? (
          <FigureField
            label="Spring angle"
            title="Between the moulding’s back and the wall."
            figures={figures}
            takes="angle"
            range={SPRING_ANGLE}
            value={profile.springAngle ?? null}
            placeholder="not known"
            mayBeEmpty
            onSet={(springAngle) => set({ springAngle })}
          />
        ) : null}
        <Choice
          label="Form"
          value={profile.form}
          of={[
            { value: 'shaped', words: 'Shaped: coped in corners' },
            { value: 'flat', words: 'Flat: butted in corners' },
          ]}
          onSet={(form) => set({ form })}
        />
        <TextField label="Material" value={profile.material} onSet={(material) => set({ material })} />
        {profile.kind === 'casing' ? null : (
          <Choice
            label="Scarfs"
            value={profile.scarf === false ? 'no' : 'yes'}
            of={[
              { value: 'yes', words: 'Where no board is long enough' },
              { value: 'no', words: 'Not allowed' },
            ]}
            onSet={(value) => set({ scarf: value === 'no' ? false : null })}
          />
        )}
        <StockLengths
          stock={profile.stock}
          figures={figures}
          onSet={(stock) => set({ stock: stock.map(({ length, ...rest }) => ({ length, ...known(rest) })) })}
        />
      </div>
      <div className="profile-beside">
        <ProfileDrawing plan={plan} profile={profile} />
        <h3>Used by</h3>
        {uses.length === 0 ? (
          <p className="soft">Nothing yet.</p>
        ) : (
          <ul className="profile-uses">
            {uses.map((use, at) => (
              <li key={`${at} ${use}`}>{use}</li>
            ))}
          </ul>
        )}
        <div className="profile-acts">
          <button
            type="button"
            title="A copy under a new id, to change"
            onClick={() => {
              const edit = copyOf(plan, profile);
              if (app.commit(edit)) onChoose(edit.profile);
            }}
          >
            Duplicate
          </button>
          <Delete plan={plan} id={id} profile={profile} uses={uses} onGone={() => onChoose(null)} />
        </div>
      </div>
    </section>
  );
}

/** Fields that have a value: an absent price is no `undefined` in the plan. */
function known<T extends object>(fields: T): T {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as T;
}

/** No id is written so. */
const NONE = '/';

interface DeleteProps {
  readonly plan: Plan;
  readonly id: ProfileId;
  readonly profile: Profile;
  readonly uses: readonly string[];
  readonly onGone: () => void;
}

function Delete({ plan, id, profile, uses, onGone }: DeleteProps) {
  const app = useApp();
  const [instead, setInstead] = useState('');
  const others = sortedEntries(plan.profiles).filter(
    ([other, each]) => other !== id && each.kind === profile.kind,
  );
  const inUse = uses.length > 0;
  const refused = inUse && instead === '';
  return (
    <>
      {inUse ? (
        <Choice
          label="Put in its place"
          value={instead}
          of={[
            { value: '', words: 'choose first…' },
            ...others.map(([other, each]) => ({ value: other as string, words: each.name || other })),
            { value: NONE, words: 'None at all' },
          ]}
          onSet={setInstead}
        />
      ) : null}
      <button
        type="button"
        className="loses"
        aria-disabled={refused || undefined}
        title={refused ? `In use: say first what takes its place` : `Delete ${profile.name || id}`}
        onClick={(event) => {
          if (refused) {
            app.say(
              `“${profile.name || id}” is used by ${uses.slice(0, 3).join(', ')}: say first what takes its place.`,
            );
            return;
          }
          const place = !inUse ? {} : { instead: instead === NONE ? null : (instead as ProfileId) };
          takeOutAt(event.currentTarget, () => {
            const done = app.commit({ type: 'deleteProfile', profile: id, ...place });
            if (done) onGone();
            return done;
          });
        }}
      >
        Delete
      </button>
    </>
  );
}
