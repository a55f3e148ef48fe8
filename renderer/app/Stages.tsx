// The four stages of the job, drawn as the legs of a folding rule: the plan stays, the stage changes what lies over it and
// what the side shows.

import { Fragment } from 'react';
import type { CommandId } from '../../electron/menu.ts';
import { useTip } from '../panels/kit/CommandButton.tsx';
import type { Stage } from '../state/app-state.ts';
import { useApp, usePicked } from '../state/react.ts';

const WORDS: readonly { readonly id: Stage; readonly words: string; readonly command: CommandId }[] = [
  { id: 'measure', words: 'Measure', command: 'view.measure' },
  { id: 'draw', words: 'Draw', command: 'view.draw' },
  { id: 'trim', words: 'Trim', command: 'view.trim' },
  { id: 'cut', words: 'Cut & hand over', command: 'view.cut' },
];

export function Stages() {
  const app = useApp();
  const tip = useTip();
  const stage = usePicked((state) => state.stage);
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
