// The last stage: how each stock board is cut, what to order, what it would cost bought otherwise, and the sheets as the
// crew will have them. Everything shown is the solved report; while a new one is worked out, the last one says so.

import { Tab, TabList, TabPanel, TabProvider } from '@ariakit/react';
import { useState } from 'react';
import type { Plan } from '../../../core/plan/index.ts';
import type { SheetSize } from '../../../core/sheets/index.ts';
import type { SolvedPlan } from '../../state/app-state.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { useTip } from '../kit/CommandButton.tsx';
import { figuresOf } from '../kit/figures.ts';
import { AS_FITS, askedScale, type ScaleChoice, usualSheet } from '../kit/sheets.ts';
import { Alternatives } from './Alternatives.tsx';
import { Boards } from './Boards.tsx';
import { Order } from './Order.tsx';
import { SawList } from './SawList.tsx';
import { SheetPreview } from './SheetPreview.tsx';
import './handover.css';

const TABS = [
  { id: 'boards', words: 'Boards' },
  { id: 'saw', words: 'Saw settings' },
  { id: 'order', words: 'Order' },
  { id: 'alternatives', words: 'Bought otherwise' },
  { id: 'sheets', words: 'Sheets' },
] as const;

export function HandOver() {
  const app = useApp();
  const tip = useTip();
  const open = usePicked((state) => state.open);
  const solution = usePicked((state) => state.solution);
  // The user's own choice of sheet; null: what is usual.
  const [sheet, setSheet] = useState<SheetSize | null>(null);
  const [scaleChoice, setScaleChoice] = useState<ScaleChoice>(AS_FITS);
  if (open === null) return null;
  const last = solution.state === 'none' ? null : solution.last;
  const current = last !== null && last.plan === open.plan;
  const scale = askedScale(scaleChoice, open.plan.units);
  const shown = last && { last, figures: figuresOf(last.plan) };
  return (
    <section className="handover" aria-label="Cut and hand over">
      <TabProvider defaultSelectedId="handover-boards">
        <header className="handover-head">
          <TabList className="handover-tabs" aria-label="Cut and hand over">
            {TABS.map(({ id, words }) => (
              <Tab key={id} id={`handover-${id}`} className="handover-tab">
                {words}
              </Tab>
            ))}
          </TabList>
          <Standing />
          <button
            type="button"
            className="main"
            title={tip('file.exportPdf')}
            onClick={() =>
              app.show({ id: 'export', of: { kind: 'pdf', scale, ...(sheet === null ? {} : { sheet }) } })
            }
          >
            Hand over as PDF…
          </button>
        </header>
        {shown === null ? (
          <p className="handover-wait soft">
            {solution.state === 'failed'
              ? 'There are no boards to show.'
              : 'The boards are being laid out. This takes a moment.'}
          </p>
        ) : (
          <div className={current ? 'handover-body' : 'handover-body stale'}>
            <TabPanel tabId="handover-boards">
              <Boards {...shown} />
            </TabPanel>
            <TabPanel tabId="handover-saw">
              <SawList {...shown} />
            </TabPanel>
            <TabPanel tabId="handover-order">
              <Order {...shown} />
            </TabPanel>
            <TabPanel tabId="handover-alternatives">
              <Alternatives {...shown} />
            </TabPanel>
            <TabPanel tabId="handover-sheets" unmountOnHide className="handover-sheets">
              <SheetPreview
                plan={open.plan}
                size={sheet ?? usualSheet(open.plan.units)}
                scale={scale}
                onSize={setSheet}
                onScale={setScaleChoice}
              />
            </TabPanel>
          </div>
        )}
      </TabProvider>
    </section>
  );
}

function pendingWords(last: SolvedPlan | null, plan: Plan | undefined): string {
  if (last === null) return 'Laying out boards';
  if (last.plan !== plan) return 'Laying out boards anew; below are those from before';
  if (last.stage === 'first') return 'A first layout is shown; looking for better boards';
  return 'Working out what it costs bought otherwise';
}

/** How far the solver is, and that what is shown is older while it works. */
function Standing() {
  const app = useApp();
  const solution = usePicked((state) => state.solution);
  const plan = usePicked((state) => state.open?.plan);
  if (solution.state === 'pending')
    return (
      <p className="handover-standing row">
        <span>
          {pendingWords(solution.last, plan)}
          {solution.progress === null ? '…' : `: ${solution.progress.words}`}
        </span>
        <button type="button" onClick={() => app.solving.stop()}>
          Stop
        </button>
      </p>
    );
  if (solution.state === 'failed')
    return (
      <p className="handover-standing row wrong">
        <span>{solution.message}</span>
        <button type="button" onClick={() => app.solving.ask()}>
          Try again
        </button>
      </p>
    );
  return <p className="handover-standing" />;
}
