// Folders and plans of this machine, for a window that has no file dialog of the system: the way down to a folder, what is
// in it, and, for writing, a name. It knows ids and names, never a path.

import { useCallback, useEffect, useRef, useState } from 'react';
import type { Place } from '../../../electron/contract.ts';
import { useApp } from '../../state/react.ts';
import { Problem } from '../kit/Problem.tsx';
import type { PlaceWish } from './places.ts';

export interface PlacePickerProps {
  readonly wish: PlaceWish;
  readonly onCancel: () => void;
}

export function PlacePicker({ wish, onCancel }: PlacePickerProps) {
  const app = useApp();
  const [place, setPlace] = useState<Place | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [exists, setExists] = useState<string | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const [name, setName] = useState(wish.kind === 'save' ? wish.name : '');
  const [busy, setBusy] = useState(false);
  const [early, setEarly] = useState(false);
  const nameField = useRef<HTMLInputElement>(null);

  // A dialog that opens gives it the focus; in one that is open already the button that led here is gone, and the focus with it.
  useEffect(() => nameField.current?.focus(), []);

  const go = useCallback(
    async (id: string | null): Promise<void> => {
      try {
        const answer = await app.bridge.places({ id });
        if (answer.outcome === 'refused') {
          setProblem(answer.message);
          return;
        }
        setPlace(answer.place);
        setChosen(null);
        setProblem(null);
        setExists(null);
      } catch {
        setProblem('The folders cannot be read now.');
      }
    },
    [app],
  );
  useEffect(() => {
    void go(null);
  }, [go]);

  async function open(id: string): Promise<void> {
    if (wish.kind !== 'open' || busy) return;
    setBusy(true);
    setProblem(await wish.open(id));
    setBusy(false);
  }

  async function put(over: boolean): Promise<void> {
    if (wish.kind !== 'save' || place === null || busy) return;
    const wanted = name.trim();
    const fault = nameFault(wanted, wish.ending);
    if (fault !== null) {
      setProblem(fault);
      return;
    }
    const whole = wanted.toLowerCase().endsWith(wish.ending) ? wanted : wanted + wish.ending;
    setBusy(true);
    const answer = await wish.put(place.id, whole, over);
    setBusy(false);
    setExists('exists' in answer ? answer.exists : null);
    setProblem('message' in answer ? answer.message : null);
  }

  // Enter given before the folder was read is done once it is.
  useEffect(() => {
    if (!early || place === null) return;
    setEarly(false);
    if (!place.readOnly) void put(false);
  });

  const saving = wish.kind === 'save';
  const shown = place?.entries.filter(({ kind }) => kind !== 'other') ?? [];
  const others = (place?.entries.length ?? 0) - shown.length;

  return (
    <form
      className="places"
      onSubmit={(event) => {
        event.preventDefault();
        if (saving) void put(false);
        else if (chosen !== null) void open(chosen);
      }}
    >
      {saving ? (
        <label className="places-name">
          <span>{wish.ending === '' ? 'Folder name' : 'Name'}</span>
          <input
            type="text"
            data-first
            ref={nameField}
            value={name}
            maxLength={200}
            spellCheck={false}
            autoComplete="off"
            onChange={({ target }) => {
              setName(target.value);
              setEarly(false);
              setExists(null);
              setProblem(null);
            }}
            onKeyDown={({ key }) => {
              if (key === 'Enter' && place === null) setEarly(true);
            }}
          />
        </label>
      ) : null}
      <nav className="places-trail" aria-label="Folder">
        <ol>
          {place?.trail.map(({ id, name: folder }, at, all) => (
            <li key={id}>
              <button
                type="button"
                className="plain"
                aria-current={at === all.length - 1 ? 'location' : undefined}
                onClick={() => void go(id)}
              >
                {folder}
              </button>
            </li>
          ))}
        </ol>
      </nav>
      <ul className="places-list" aria-label={place === null ? 'Folders and plans' : `In ${place.name}`}>
        {shown.map(({ id, name: own, kind }) => (
          <li key={id}>
            <button
              type="button"
              className="plain"
              aria-pressed={kind === 'plan' && !saving ? chosen === id : undefined}
              onClick={({ detail }) => {
                if (kind === 'folder') void go(id);
                else if (saving) setName(own);
                // Enter on what is chosen already; a pointer opens by a double click.
                else if (chosen === id && detail === 0) void open(id);
                else setChosen(id);
              }}
              onDoubleClick={() => {
                if (kind === 'plan') void open(id);
              }}
            >
              <span className={`places-${kind}`} aria-hidden="true" />
              <span className="unseen">{kind === 'folder' ? 'Folder' : 'Plan'} </span>
              {own}
            </button>
          </li>
        ))}
        {place !== null && shown.length === 0 ? (
          <li className="soft places-none">No folders or plans here.</li>
        ) : null}
      </ul>
      {others > 0 ? (
        <p className="soft">{others === 1 ? 'One other file is' : `${others} other files are`} not shown.</p>
      ) : null}
      {saving && place?.readOnly ? <p className="wrong">Nothing can be written in this folder.</p> : null}
      <Problem words={problem} />
      <Problem words={exists} className="places-exists">
        <button type="button" className="loses" onClick={() => void put(true)}>
          Replace it
        </button>
      </Problem>
      <div className="row places-foot">
        <button type="button" onClick={onCancel}>
          Cancel
        </button>
        <button
          type="submit"
          className="main"
          disabled={busy || place === null || (saving ? place.readOnly : chosen === null)}
        >
          {saving ? 'Save here' : 'Open'}
        </button>
      </div>
    </form>
  );
}

/** As many signs as a call takes in a name; what the disk takes, the host says. */
const MOST_SIGNS = 200;

function nameFault(name: string, ending: string): string | null {
  if (name === '') return 'Give a name.';
  if (name.length + ending.length > MOST_SIGNS) return 'The name is too long; choose a shorter one.';
  if (/[/\\]/.test(name)) return 'A name holds no / and no \\; choose the folder above.';
  return /\p{Cc}/u.test(name) ? 'A name holds no invisible signs.' : null;
}
