// The levels of the house: added, named, their ceilings set, put in order, and deleted once it is confirmed.

import { useState } from 'react';
import { idGiver } from '../../../core/edit/index.ts';
import type { Level, LevelId, Plan } from '../../../core/plan/index.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { deleteLevel } from '../../tools/leaving.ts';
import { DialogBox } from '../kit/DialogBox.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { figuresOf } from '../kit/figures.ts';
import { Problem } from '../kit/Problem.tsx';
import { ABOVE_ZERO } from '../kit/range.ts';
import { TextField } from '../kit/TextField.tsx';
import { takeOutAt } from './focus.ts';
import './profiles.css';

export function LevelsDialog() {
  const app = useApp();
  const plan = usePicked(({ open }) => open?.plan ?? null);
  const here = usePicked((state) => state.level);
  const [asked, setAsked] = useState<LevelId | null>(null);
  if (plan === null) return null;
  const { levels } = plan;
  return (
    <DialogBox
      title="Levels"
      foot={
        <>
          <button
            type="button"
            data-add
            title="A new level after the last"
            onClick={() => addLevel(app.commit, plan)}
          >
            Add a level
          </button>
          <button type="button" className="main" title="Close (Esc)" onClick={() => app.show(null)}>
            Done
          </button>
        </>
      }
    >
      <ol className="levels">
        {levels.map((level, at) => (
          <li key={level.id} className={level.id === here ? 'here' : ''}>
            <LevelFields plan={plan} level={level} />
            <p className="soft levels-holds">{holds(level)}</p>
            <div className="row">
              <button
                type="button"
                aria-disabled={level.id === here || undefined}
                title="Show this level on the sheet"
                onClick={() => app.setLevel(level.id)}
              >
                {level.id === here ? 'Shown' : 'Show'}
                <span className="unseen"> {level.name}</span>
              </button>
              <Move level={level} to={at - 1} last={levels.length - 1} words="Earlier" />
              <Move level={level} to={at + 1} last={levels.length - 1} words="Later" />
              {asked === level.id ? (
                <span className="row">
                  <Problem
                    words={`Delete ${level.name || level.id} with all that is on it?`}
                    className="levels-ask"
                  />
                  <button
                    type="button"
                    className="loses"
                    onClick={(event) =>
                      takeOutAt(event.currentTarget, () => {
                        setAsked(null);
                        return deleteLevel(app, level.id);
                      })
                    }
                  >
                    Delete it
                  </button>
                  <button type="button" onClick={() => setAsked(null)}>
                    Keep it
                  </button>
                </span>
              ) : (
                <button
                  type="button"
                  aria-disabled={levels.length === 1 || undefined}
                  title={levels.length === 1 ? 'A plan has at least one level' : 'Asks first'}
                  onClick={() => {
                    if (levels.length > 1) setAsked(level.id);
                  }}
                >
                  Delete<span className="unseen"> {level.name}</span>…
                </button>
              )}
            </div>
          </li>
        ))}
      </ol>
    </DialogBox>
  );
}

function LevelFields({ plan, level }: { readonly plan: Plan; readonly level: Level }) {
  const app = useApp();
  return (
    <>
      <TextField
        label="Name"
        value={level.name}
        onSet={(name) => app.commit({ type: 'changeLevel', level: level.id, set: { name } })}
      />
      <FigureField
        label="Ceiling height"
        figures={figuresOf(plan)}
        takes="length"
        range={ABOVE_ZERO}
        value={level.ceilingHeight}
        onSet={(ceilingHeight) =>
          ceilingHeight !== null &&
          app.commit({ type: 'changeLevel', level: level.id, set: { ceilingHeight } })
        }
      />
    </>
  );
}

interface MoveProps {
  readonly level: Level;
  readonly to: number;
  readonly last: number;
  readonly words: 'Earlier' | 'Later';
}

function Move({ level, to, last, words }: MoveProps) {
  const app = useApp();
  const no = to < 0 || to > last;
  return (
    <button
      type="button"
      aria-disabled={no || undefined}
      title={no ? `It is the ${to < 0 ? 'first' : 'last'} level` : `${words} in the list and on paper`}
      onClick={() => {
        if (!no) app.commit({ type: 'moveLevel', level: level.id, position: to });
      }}
    >
      {words}
      <span className="unseen"> {level.name}</span>
    </button>
  );
}

function holds({ walls, rooms, openings }: Level): string {
  const say = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;
  return `${say(Object.keys(walls).length, 'wall')}, ${say(Object.keys(openings).length, 'opening')}, ${say(Object.keys(rooms).length, 'named room')}`;
}

function addLevel(commit: ReturnType<typeof useApp>['commit'], plan: Plan): void {
  const level = idGiver<LevelId>(
    'L',
    plan.levels.map(({ id }) => id),
  )();
  const { ceilingHeight } = plan.levels.at(-1)!;
  commit({ type: 'addLevel', level, record: { name: `Level ${plan.levels.length + 1}`, ceilingHeight } });
}
