// The last stage: how each stock board is cut, what to order, what it would cost bought otherwise, and the sheets as the
// crew will have them. Everything shown is the solved report; while a new one is worked out, the last one says so.

import { Tab, TabList, TabPanel, TabProvider } from '@ariakit/react';
import { useRef } from 'react';
import { useApp, usePicked } from '../../state/react.ts';
import { useTip } from '../kit/CommandButton.tsx';
import { figuresOf } from '../kit/figures.ts';
import { Alternatives } from './Alternatives.tsx';
import { Boards } from './Boards.tsx';
import { Order } from './Order.tsx';
import { SawList } from './SawList.tsx';
import { SheetPreview } from './SheetPreview.tsx';
import { Standing } from './Standing.tsx';
import './handover.css';

const TABS = [
  { id: 'boards', words: 'Boards', title: 'How each stock board is cut' },
  { id: 'saw', words: 'Saw settings', title: 'What is cut at each setting of the saw' },
  { id: 'order', words: 'Order', title: 'What to buy, and what it costs' },
  { id: 'alternatives', words: 'Bought otherwise', title: 'What it would cost in other lengths' },
  { id: 'sheets', words: 'Sheets', title: 'The sheets as the crew will have them' },
] as const;

export function HandOver() {
  const app = useApp();
  const tip = useTip();
  const open = usePicked((state) => state.open);
  const solution = usePicked((state) => state.solution);
  const body = useRef<HTMLDivElement>(null);
  if (open === null) return null;
  const last = solution.state === 'none' ? null : solution.last;
  const current = last !== null && last.plan === open.plan;
  const shown = last && { last, figures: figuresOf(last.plan) };
  return (
    <section className="handover" aria-label="Cut and hand over">
      <TabProvider
        defaultSelectedId="handover-boards"
        // Each tab begins at its top.
        setSelectedId={() => body.current?.scrollTo(0, 0)}
      >
        <header className="handover-head">
          <TabList className="handover-tabs" aria-label="Cut and hand over">
            {TABS.map(({ id, words, title }) => (
              <Tab key={id} id={`handover-${id}`} className="handover-tab" title={title}>
                {words}
              </Tab>
            ))}
          </TabList>
          <Standing />
          <button
            type="button"
            className="main"
            title={tip('file.exportPdf')}
            onClick={() => app.show({ id: 'export', of: { kind: 'pdf' } })}
          >
            Hand over as PDF…
          </button>
        </header>
        {shown === null ? (
          <p className="handover-wait soft">
            {solution.state === 'failed' || solution.state === 'stopped'
              ? 'There are no boards to show.'
              : 'The boards are being laid out. This takes a moment.'}
          </p>
        ) : (
          <div ref={body} className={current ? 'handover-body' : 'handover-body stale'}>
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
              <Alternatives {...shown} stopped={solution.state === 'stopped'} />
            </TabPanel>
            <TabPanel tabId="handover-sheets" unmountOnHide className="handover-sheets">
              <SheetPreview plan={open.plan} />
            </TabPanel>
          </div>
        )}
      </TabProvider>
    </section>
  );
}
