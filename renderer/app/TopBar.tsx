// The two lines at the top: menus, the plan's title and whether it is saved; then the stages, taking back, the level.

import { useId } from 'react';
import { CommandButton } from '../panels/kit/CommandButton.tsx';
import { refusalOf, useTyped } from '../panels/kit/use-typed.ts';
import { useApp, usePicked } from '../state/react.ts';
import { actionOf } from './commands.ts';
import { Menus } from './Menus.tsx';
import { Stages } from './Stages.tsx';

export function TopBar() {
  const app = useApp();
  const open = usePicked((state) => state.open !== null);
  return (
    <header className="frame-top">
      <div className="top-line">
        {app.bridge.form === 'browser' ? <Menus /> : null}
        {open ? <PlanTitle /> : <span className="top-program">Copewright</span>}
        <span className="top-end">
          <CommandButton id="help.finder" className="plain top-find" label="Find a command">
            <svg viewBox="0 0 16 16" aria-hidden="true">
              <path d="M10.5 10.5 14 14M2.5 6.75a4.25 4.25 0 1 0 8.5 0 4.25 4.25 0 0 0-8.5 0z" />
            </svg>
            <span>Find a command</span>
          </CommandButton>
          <CommandButton id="view.theme" className="plain" label="Light or dark">
            <HalfDisc />
          </CommandButton>
        </span>
      </div>
      {open ? (
        <div className="top-line top-work">
          <Stages />
          <span className="row top-back">
            <BackButton id="edit.undo" words="Undo" />
            <BackButton id="edit.redo" words="Redo" />
          </span>
          <LevelSwitch />
        </div>
      ) : null}
    </header>
  );
}

/** The title as it stands in the plan; edited in place. */
function PlanTitle() {
  const app = useApp();
  const title = usePicked((state) => state.open?.plan.title ?? '');
  const { typed, problem, input } = useTyped('Title of the plan', (text) => {
    const wanted = text.trim();
    if (wanted !== '')
      return wanted === title
        ? null
        : refusalOf(app, () => app.commit({ type: 'setPlan', set: { title: wanted } }));
    const why = 'The title of the plan needs some words: it stands on every sheet.';
    app.say(why, 'problem');
    return why;
  });
  return (
    <div className="plan-title">
      <h1 className="unseen">{title}</h1>
      <span className="plan-title-sizer">
        <span aria-hidden="true">{(typed ?? title) || ' '}</span>
        <input
          type="text"
          aria-label="Title of the plan"
          title="Title of the plan, printed on every sheet"
          maxLength={200}
          size={1}
          autoComplete="off"
          value={typed ?? title}
          aria-invalid={problem !== null}
          {...input}
        />
      </span>
      <SavedState />
    </div>
  );
}

function SavedState() {
  const name = usePicked((state) => state.open?.view.name ?? null);
  const unsaved = usePicked((state) => state.open?.view.unsaved ?? false);
  const words =
    name === null
      ? unsaved
        ? 'In no file yet'
        : 'Nothing to save yet'
      : unsaved
        ? 'Unsaved changes'
        : 'Saved';
  return (
    <span
      className={unsaved ? 'saved-state unsaved' : 'saved-state'}
      title={name ?? 'This plan has no file yet'}
    >
      <span className="saved-dot" aria-hidden="true" />
      <span className="saved-words">{words}</span>
    </span>
  );
}

function BackButton({ id, words }: { readonly id: 'edit.undo' | 'edit.redo'; readonly words: string }) {
  const whole = usePicked((state) => actionOf(id)?.words?.(state) ?? words);
  return (
    <CommandButton id={id} label={whole} className="back-button">
      <svg viewBox="0 0 16 16" aria-hidden="true" className={id === 'edit.redo' ? 'mirrored' : undefined}>
        <path d="M6 3 2.5 6.5 6 10M3 6.5h6.5a4 4 0 0 1 0 8H6" />
      </svg>
      <span>{words}</span>
    </CommandButton>
  );
}

function LevelSwitch() {
  const app = useApp();
  const id = useId();
  const levels = usePicked((state) => state.open?.plan.levels ?? null);
  const level = usePicked((state) => state.level);
  if (levels === null) return null;
  return (
    <span className="row top-level">
      <label htmlFor={id}>Level</label>
      <select
        id={id}
        title="The level on the sheet"
        value={level ?? ''}
        onChange={({ target }) => {
          const next = levels.find((each) => each.id === target.value);
          if (next !== undefined) app.setLevel(next.id);
        }}
      >
        {levels.map((each) => (
          <option key={each.id} value={each.id}>
            {each.name}
          </option>
        ))}
      </select>
      <CommandButton id="draw.level" className="plain">
        Levels…
      </CommandButton>
    </span>
  );
}

function HalfDisc() {
  return (
    <svg viewBox="0 0 16 16" aria-hidden="true" className="half-disc">
      <circle cx="8" cy="8" r="6" />
      <path d="M8 2a6 6 0 0 1 0 12z" />
    </svg>
  );
}
