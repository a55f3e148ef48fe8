// One sentence over the sheet while nothing is drawn on it, with the ways to begin. It lets the pointer through and goes
// with the first wall, or as soon as a tool is in hand.

import { goToZone } from '../../app/zones.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { levelOf } from '../../state/selectors.ts';
import { CommandButton } from '../kit/CommandButton.tsx';
import { DEMOS } from './demos.ts';
import { openDemo } from './opening.ts';

/** The smaller of the demo houses. */
const DEMO = 'thimble-cottage';

export function EmptyPlan() {
  const app = useApp();
  const empty = usePicked((state) => {
    const level = levelOf(state);
    if (level === null || state.tool.id !== 'select') return false;
    for (const _ in level.walls) return false;
    return true;
  });
  if (!empty) return null;
  // What was pressed goes with the sentence; the sheet is where the keys belong then.
  const toSheet = (): void => goToZone(app, 'sheet');
  const demo = DEMOS[DEMO];
  return (
    <div className="empty-plan">
      <p>
        Draw the first room by two corners, or its walls one by one; lengths can be typed in the tape bar.
      </p>
      <div className="row">
        <CommandButton id="draw.room" className="main" before={toSheet} />
        <CommandButton id="draw.wall" before={toSheet} />
        <CommandButton id="draw.tapeWalk" before={toSheet}>
          Tape walk…
        </CommandButton>
      </div>
      <p className="empty-plan-demo">
        Or look round{' '}
        <button type="button" title={demo.about} onClick={() => void openDemo(app, DEMO)}>
          {demo.name}
        </button>
        , a demo house.
      </p>
    </div>
  );
}
