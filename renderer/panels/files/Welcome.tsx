// What stands in the window while no plan is open: how to begin, what was open lately, what was kept, the demo houses.

import { useApp, usePicked } from '../../state/react.ts';
import { CommandButton, useTip } from '../kit/CommandButton.tsx';
import { CornerDrawing } from './CornerDrawing.tsx';
import { DemoList, RecentList } from './Lists.tsx';
import { Offers } from './Offers.tsx';
import { newPlan } from './opening.ts';

export function Welcome() {
  const app = useApp();
  const tip = useTip();
  const ready = usePicked(({ start }) => start !== null);
  const units = usePicked(({ start }) => start?.preferences.units ?? 'imperial');
  const offered = usePicked(({ start }) => start?.offers.length ?? 0);
  if (!ready) return <div className="welcome" aria-busy="true" />;
  const [first, second] =
    units === 'imperial' ? (['imperial', 'metric'] as const) : (['metric', 'imperial'] as const);
  const words = { imperial: 'feet and inches', metric: 'millimetres' } as const;
  return (
    <div className="welcome" data-zone="sheet">
      <div className="welcome-page">
        <header className="welcome-head">
          <CornerDrawing />
          <div>
            <h1>Draw the rooms, see what the trim will do.</h1>
            <p>Begin with a new plan, or look round a demo house first.</p>
          </div>
        </header>
        <div className="welcome-start row">
          <button
            type="button"
            className="main"
            title={tip('file.new')}
            data-focus
            onClick={() => void newPlan(app, first)}
          >
            New plan in {words[first]}
          </button>
          <button
            type="button"
            onClick={() => void newPlan(app, second)}
            title={`New plan in ${words[second]}`}
          >
            … in {words[second]}
          </button>
          <CommandButton id="file.open">Open a plan…</CommandButton>
        </div>
        {offered > 0 ? (
          <section className="welcome-kept" aria-labelledby="welcome-kept">
            <h2 id="welcome-kept">Work that was not saved</h2>
            <Offers />
          </section>
        ) : null}
        <div className="welcome-lists">
          <section className="welcome-demos" aria-labelledby="welcome-demo">
            <h2 id="welcome-demo">Demo houses</h2>
            <DemoList />
          </section>
          <section aria-labelledby="welcome-recent">
            <h2 id="welcome-recent">Lately open</h2>
            <RecentList />
          </section>
        </div>
      </div>
    </div>
  );
}
