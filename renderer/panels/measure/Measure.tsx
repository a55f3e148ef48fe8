// The survey typed in: one room at a time, in walking order, drawn beside measured with the difference, what is missing
// counted. Enter goes to the next field and at the end of a room to the next room.

import { useEffect, useMemo, useRef, useState } from 'react';
import type { Derived, DerivedLevel } from '../../../core/report/index.ts';
import type { Room } from '../../../core/walk/index.ts';
import { runCommand } from '../../app/commands.ts';
import { useApp, usePicked } from '../../state/react.ts';
import type { Ref } from '../../state/refs.ts';
import { refKey } from '../../state/refs.ts';
import { levelOf, shownOf } from '../../state/selectors.ts';
import { Choice } from '../kit/Choice.tsx';
import { figuresOf } from '../kit/figures.ts';
import { levelFound, roomsHolding } from '../ticket/find.ts';
import { Tick, type TicketContext } from '../ticket/parts.tsx';
import { RoomHeight } from '../ticket/RoomHeight.tsx';
import { counted } from '../ticket/say.ts';
import { showOnSheet } from '../walk/show.ts';
import { fieldsOf, goOn } from './next-field.ts';
import { Casings, Round } from './Round.tsx';
import { missingCount, missingWords, surveyOf } from './survey.ts';
import './measure.css';

export function Measure() {
  const app = useApp();
  const shown = usePicked(shownOf);
  const level = usePicked(levelOf);
  const derived = shown === null || level === null ? null : levelFound(shown, level.id);
  if (shown === null || derived === null) return null;
  if (derived.walk.rooms.length === 0)
    return (
      <section className="measure" aria-labelledby="measure-title">
        <h2 id="measure-title">Survey</h2>
        <p className="soft">There is no room on this level yet. Draw one, or type one in by tape walk.</p>
        <button
          type="button"
          title="Tape walk: a room from its measurements"
          onClick={() => runCommand(app, 'draw.tapeWalk')}
        >
          Tape walk…
        </button>
      </section>
    );
  return <SurveyPanel key={derived.walk.levelId} shown={shown} level={derived} />;
}

function SurveyPanel({ shown, level }: { readonly shown: Derived; readonly level: DerivedLevel }) {
  const app = useApp();
  const { rooms } = level.walk;
  const [asked, setAsked] = useState<string>(firstKey(rooms[0]!));
  const [floors, setFloors] = useState(false);
  const [lines, setLines] = useState(false);
  const [down, setDown] = useState(true);
  const panel = useRef<HTMLFieldSetElement>(null);
  const enter = useRef(false);
  const selection = usePicked((state) => state.selection);
  const figures = useMemo(() => figuresOf(shown.plan), [shown.plan]);
  const surveys = useMemo(
    () => level.trims.map((trim) => surveyOf(level, trim, shown.findings)),
    [level, shown.findings],
  );
  const at = Math.max(
    0,
    rooms.findIndex((each) => hasCorner(each, asked)),
  );
  const room = rooms[at]!;
  const key = firstKey(room);
  const survey = surveys[at]!;
  const trim = level.trims[at]!;
  const refs = new Map(
    survey.items.map((item) => {
      const on = level.walk.levelId;
      const ref: Ref =
        item.kind === 'corner'
          ? { kind: 'corner', level: on, id: item.corner.key }
          : { kind: 'segment', level: on, id: item.segment.key };
      return [refKey(ref), ref] as const;
    }),
  );
  const context: TicketContext = { app, shown, plan: shown.plan, level, figures };

  // The room of what is chosen elsewhere is the one that is typed.
  const first = selection[0];
  const chosen = first === undefined ? '' : refKey(first);
  useEffect(() => {
    if (first === undefined || chosen === '' || first.level !== level.walk.levelId) return;
    if (panel.current?.contains(document.activeElement) === true) return;
    const ids = roomsHolding(level, first);
    const holding = level.walk.rooms.filter(({ id }) => ids.includes(id));
    const [found] = holding;
    if (found === undefined) return;
    setAsked((now) => (holding.some((each) => hasCorner(each, now)) ? now : firstKey(found)));
  }, [chosen, first, level]);

  useEffect(() => {
    if (!enter.current || panel.current === null || key === '') return;
    enter.current = false;
    fieldsOf(panel.current)[0]?.focus();
  }, [key]);

  function turnTo(index: number, focus: boolean): void {
    const next = rooms[index];
    if (next === undefined) {
      app.say('That was the last room of this level.');
      return;
    }
    enter.current = focus;
    setAsked(firstKey(next));
    showOnSheet(app, { kind: 'room', level: level.walk.levelId, id: next.id });
  }

  const missing = missingWords(survey.missing);
  const all = surveys.reduce((sum, each) => sum + missingCount(each.missing), 0);
  return (
    <section className="measure" aria-labelledby="measure-title">
      <header className="measure-head">
        <div className="measure-title">
          <h2 id="measure-title">Survey</h2>
          <span className="soft">
            {all === 0 ? 'nothing missing on this level' : `${counted(all, 'figure')} missing on this level`}
          </span>
        </div>
        <div className="measure-rooms">
          <button
            type="button"
            title="The room before"
            aria-label="The room before"
            disabled={at === 0}
            onClick={() => turnTo(at - 1, false)}
          >
            ‹
          </button>
          <Choice<string>
            label="Room"
            title="The room that is measured now"
            value={room.id}
            of={rooms.map(({ id, name }, index) => {
              const count = missingCount(surveys[index]!.missing);
              return { value: id, words: count === 0 ? `${name}, complete` : `${name}, ${count} missing` };
            })}
            onSet={(id) =>
              turnTo(
                rooms.findIndex((each) => each.id === id),
                false,
              )
            }
          />
          <button
            type="button"
            title="The next room"
            aria-label="The next room"
            disabled={at === rooms.length - 1}
            onClick={() => turnTo(at + 1, false)}
          >
            ›
          </button>
        </div>
        <p className={missing === null ? 'measure-done' : 'soft'}>
          {missing === null ? 'All of this room is measured.' : `Missing here: ${missing}.`}
        </p>
        <div className="row measure-with">
          <Tick
            label="Floor"
            title="Fields for the floor’s height along each wall"
            on={floors}
            onSet={setFloors}
          />
          <Tick
            label="Old line"
            title="Fields for the old paint line along each wall"
            on={lines}
            onSet={setLines}
          />
          {floors ? <Tick label="Read down from the laser" on={down} onSet={setDown} /> : null}
          <button
            type="button"
            title="The site sheets, with blanks to fill in, are part of the PDF"
            onClick={() => app.show({ id: 'export', of: { kind: 'pdf' } })}
          >
            Print site sheets…
          </button>
        </div>
      </header>
      {/* Enter in a field goes on to the next. */}
      <fieldset
        className="measure-list"
        ref={panel}
        key={key}
        onFocus={({ target }) => {
          const of = target.closest<HTMLElement>('[data-of]')?.dataset.of;
          if (of !== undefined) app.change(() => ({ hover: refs.get(of) ?? null }));
        }}
        onKeyDown={(event) => {
          if (event.key !== 'Enter' || !(event.target instanceof HTMLElement)) return;
          if (!event.target.matches('input[type="text"], select') || panel.current === null) return;
          event.preventDefault();
          goOn(panel.current, event.target, () => turnTo(at + 1, true));
        }}
      >
        <legend className="unseen">{room.name}, round the room</legend>
        <h3>Corners and walls</h3>
        <div className="measure-columns soft" aria-hidden="true">
          <span />
          <span>drawn</span>
          <span>measured</span>
          <span>off</span>
        </div>
        <Round context={context} survey={survey} floors={floors} lines={lines} down={down} />
        <Casings context={context} survey={survey} />
        <h3>Heights and the old line</h3>
        <div className="measure-heights">
          <RoomHeight context={context} found={trim} which="old" field="baseHeight" label="Old base height" />
          <RoomHeight context={context} found={trim} which="old" field="floor" label="Old floor" />
          <RoomHeight context={context} found={trim} which="old" field="gap" label="Gap under old base" />
          <RoomHeight context={context} found={trim} which="new" field="floor" label="New floor" />
          <RoomHeight context={context} found={trim} which="new" field="gap" label="Gap under new base" />
        </div>
      </fieldset>
    </section>
  );
}

/** Names a room also while it has no record: by where its walk begins. */
const firstKey = (room: Room): string => room.loops[0]!.corners[0]?.key ?? room.id;

/** Whether a room is the one that was named so: another corner may be its first by now. */
const hasCorner = (room: Room, key: string): boolean =>
  firstKey(room) === key || room.loops.some(({ corners }) => corners.some((corner) => corner.key === key));
