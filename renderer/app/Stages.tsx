// The four stages of the job, drawn as the legs of a folding rule: the plan stays, the stage changes what lies over it and
// what the side shows.

import { Fragment, useEffect, useRef } from 'react';
import type { CommandId } from '../../electron/menu.ts';
import { useTip } from '../panels/kit/CommandButton.tsx';
import type { Stage } from '../state/app-state.ts';
import { useApp, usePicked } from '../state/react.ts';

interface StageWords {
  readonly id: Stage;
  readonly words: string;
  readonly command: CommandId;
  /** What is there now, for those who do not see it change. */
  readonly said: string;
}

const WORDS: readonly StageWords[] = [
  { id: 'measure', words: 'Measure', command: 'view.measure', said: 'The survey stands beside the sheet.' },
  { id: 'draw', words: 'Draw', command: 'view.draw', said: 'Walls and openings are drawn on the sheet.' },
  { id: 'trim', words: 'Trim', command: 'view.trim', said: 'Joints and boards lie over the sheet.' },
  { id: 'cut', words: 'Cut & hand over', command: 'view.cut', said: 'Boards, the order and the sheets.' },
];
/** As long a change of stage stands in the live region, ms: later news is read without it. */
const SAID_MS = 3000;

export function Stages() {
  const app = useApp();
  const tip = useTip();
  const stage = usePicked((state) => state.stage);
  const told = useRef(stage);
  useEffect(() => {
    if (told.current === stage) return undefined;
    told.current = stage;
    const { words, said } = WORDS.find(({ id }) => id === stage)!;
    const spoken = `Stage: ${words}. ${said}`;
    app.change(() => ({ spoken }));
    const clear = (): void => app.change((now) => (now.spoken === spoken ? { spoken: '' } : {}));
    const timer = setTimeout(clear, SAID_MS);
    return () => {
      clearTimeout(timer);
      clear();
    };
  }, [app, stage]);
  return (
    <nav className="stages" aria-label="Stages of the job">
      {WORDS.map(({ id, words, command }, at) => (
        <Fragment key={id}>
          {at === 0 ? null : <span className="stage-hinge" aria-hidden="true" />}
          <button
            type="button"
            className="stage"
            aria-current={stage === id ? 'step' : undefined}
            title={tip(command)}
            onClick={() => app.setStage(id)}
          >
            {words}
          </button>
        </Fragment>
      ))}
    </nav>
  );
}
