// The mouldings of the job: a list on the left, the one chosen on the right. Arrow keys go through the list.

import { type KeyboardEvent, useState } from 'react';
import { usesOf } from '../../../core/edit/index.ts';
import { lookup, type Plan, type Profile, type ProfileId, sortedEntries } from '../../../core/plan/index.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { DialogBox } from '../kit/DialogBox.tsx';
import { figuresOf } from '../kit/figures.ts';
import { focusName } from './focus.ts';
import { ProfileForm } from './ProfileForm.tsx';
import { KINDS, type Kind, newProfile } from './profile-kinds.ts';
import './profiles.css';

export function ProfilesDialog({ of }: { readonly of: unknown }) {
  const app = useApp();
  const plan = usePicked(({ open }) => open?.plan ?? null);
  const [chosen, setChosen] = useState<ProfileId | null>((of as ProfileId | undefined) ?? null);
  const [kind, setKind] = useState<Kind>('base');
  if (plan === null) return null;
  const all = byKind(plan);
  const id = chosen !== null && lookup(plan.profiles, chosen) !== undefined ? chosen : (all[0]?.[0] ?? null);
  const profile = id === null ? undefined : lookup(plan.profiles, id);
  return (
    <DialogBox
      title="Profiles"
      wide
      foot={
        <button type="button" className="main" title="Close (Esc)" onClick={() => app.show(null)}>
          Done
        </button>
      }
    >
      <div className="profiles">
        <div className="profiles-list">
          <div className="profiles-add">
            <label>
              <span className="unseen">Kind of the new profile</span>
              <select
                value={kind}
                title="Kind of the new profile"
                onChange={({ target }) => setKind(target.value as Kind)}
              >
                {KINDS.map((each) => (
                  <option key={each.kind} value={each.kind}>
                    {each.words}
                  </option>
                ))}
              </select>
            </label>
            <button
              type="button"
              data-add
              title="Add a profile of this kind"
              onClick={({ currentTarget }) => {
                const edit = newProfile(plan, kind);
                if (!app.commit(edit)) return;
                setChosen(edit.profile);
                focusName(currentTarget);
              }}
            >
              Add
            </button>
          </div>
          {all.length === 0 ? <p className="soft">No profile yet: add the mouldings of this job.</p> : null}
          <List plan={plan} all={all} chosen={id} onChoose={setChosen} />
        </div>
        {profile === undefined || id === null ? null : (
          <ProfileForm key={id} plan={plan} id={id} profile={profile} onChoose={setChosen} />
        )}
      </div>
    </DialogBox>
  );
}

function byKind(plan: Plan): [ProfileId, Profile][] {
  const place = (kind: Kind): number => KINDS.findIndex((each) => each.kind === kind);
  return sortedEntries(plan.profiles).sort(([, a], [, b]) => place(a.kind) - place(b.kind));
}

interface ListProps {
  readonly plan: Plan;
  readonly all: readonly (readonly [ProfileId, Profile])[];
  readonly chosen: ProfileId | null;
  readonly onChoose: (id: ProfileId) => void;
}

function List({ plan, all, chosen, onChoose }: ListProps) {
  const figures = figuresOf(plan);
  const step = (event: KeyboardEvent<HTMLElement>): void => {
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    const buttons = [...event.currentTarget.querySelectorAll<HTMLElement>('button')];
    const at = buttons.indexOf(document.activeElement as HTMLElement);
    if (by === undefined || at < 0) return;
    event.preventDefault();
    const next = buttons[at + by];
    next?.focus();
    next?.click();
  };
  return (
    <table className="profiles-table">
      <thead>
        <tr>
          <th scope="col">Profile</th>
          <th scope="col" className="figure">
            Size
          </th>
          <th scope="col" className="figure">
            Uses
          </th>
        </tr>
      </thead>
      <tbody onKeyDown={step}>
        {all.map(([id, profile]) => (
          <tr key={id} className={id === chosen ? 'chosen' : ''}>
            <th scope="row">
              <button
                type="button"
                className="plain profiles-name"
                aria-current={id === chosen || undefined}
                title={`${id}: arrow keys go through the list`}
                onClick={() => onChoose(id)}
              >
                {profile.name || id}
                <small className="soft">{KINDS.find(({ kind }) => kind === profile.kind)!.words}</small>
              </button>
            </th>
            <td className="figure">
              {[profile.height ?? profile.width ?? profile.drop, profile.thickness]
                .map((each) => (each === undefined ? '?' : figures.inches(each)))
                .join(' × ')}
            </td>
            <td className="figure">{usesOf(plan, id).length || ''}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
