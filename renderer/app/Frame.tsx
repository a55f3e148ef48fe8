// The window: four stages across the top, the walk on the left, the sheet in the middle, ticket and red pencil on the right,
// the tape bar at the bottom. Where there is no room for the sides they lie over the sheet, opened by a button.

import { type CSSProperties, type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { OpenDialog } from '../panels/dialogs.tsx';
import { EmptyPlan } from '../panels/files/EmptyPlan.tsx';
import { Welcome } from '../panels/files/Welcome.tsx';
import { HandOver } from '../panels/handover/HandOver.tsx';
import { Measure } from '../panels/measure/Measure.tsx';
import { Pencil } from '../panels/pencil/Pencil.tsx';
import { Strip } from '../panels/strip/Strip.tsx';
import { TapeBar } from '../panels/tape/TapeBar.tsx';
import { ToolButtons } from '../panels/tape/ToolButtons.tsx';
import { Ticket } from '../panels/ticket/Ticket.tsx';
import { Walk } from '../panels/walk/Walk.tsx';
import { Sheet } from '../sheet/Sheet.tsx';
import { useApp, usePicked } from '../state/react.ts';
import { Banners } from './Banners.tsx';
import { Edge } from './Edge.tsx';
import { Guard } from './Guard.tsx';
import { Notices } from './Notices.tsx';
import { useCovered, useNarrow } from './room.ts';
import { TopBar } from './TopBar.tsx';
import { goToZone, openPanel } from './zones.ts';
import './frame.css';
import './menus.css';
import '../panels/kit/kit.css';
import '../panels/files/files.css';

type Panel = 'walk' | 'side';
const WORDS: Readonly<Record<Panel, string>> = { walk: 'The walk', side: 'Ticket & pencil' };

const AUTO = { walk: 'auto', side: 'auto' } as const;

export function Frame() {
  const open = usePicked((state) => state.open !== null);
  return (
    <>
      {open ? <OpenFrame /> : <ClosedFrame />}
      <Guard part="The dialog">
        <OpenDialog />
      </Guard>
    </>
  );
}

/** What had the focus is gone with what was shown before. */
const focusIsLost = (): boolean => document.activeElement === document.body;

function ClosedFrame() {
  const app = useApp();
  useEffect(() => {
    // After a plan was closed, not when the window starts.
    if (app.store.get().start !== null && focusIsLost()) goToZone(app, 'sheet');
  }, [app]);
  return (
    <div className="frame frame-closed">
      <TopBar />
      <main className="frame-sheet">
        <Welcome />
        <Notices />
      </main>
    </div>
  );
}

function OpenFrame() {
  const app = useApp();
  const frame = useRef<HTMLDivElement>(null);
  const narrow = useNarrow(frame);
  useCovered(app, frame, narrow);
  const stage = usePicked((state) => state.stage);
  const strip = usePicked((state) => state.strip);
  const panels = usePicked((state) => state.panels);
  const [widths, setWidths] = useState<Readonly<Record<Panel, number>>>({ walk: 17, side: 21 });
  const shown = (panel: Panel): boolean => (panels[panel] === 'auto' ? !narrow : panels[panel] === 'open');
  const handle = usePicked((state) => state.open?.view.handle);
  useEffect(() => {
    if (handle !== undefined && focusIsLost()) goToZone(app, 'sheet');
  }, [app, handle]);
  // What was opened or folded away was meant for the room there was.
  useEffect(() => {
    app.change(() => ({ panels: AUTO }));
  }, [app, narrow]);
  const close = (panel: Panel): void =>
    app.change(({ panels: all }) => ({ panels: { ...all, [panel]: 'closed' } }));
  const closeOnEscape = (panel: Panel) => (event: KeyboardEvent) => {
    if (!narrow || event.key !== 'Escape') return;
    // What the panel did itself is enough, unless it sent the focus to the sheet that lies under it.
    const within = event.currentTarget.contains(document.activeElement);
    if (event.defaultPrevented && within) return;
    event.preventDefault();
    close(panel);
    if (within) frame.current?.querySelector<HTMLElement>(`[aria-controls="frame-${panel}"]`)?.focus();
  };
  const fold = (panel: Panel) => (
    <button
      type="button"
      className={`fold fold-${panel}`}
      aria-expanded={shown(panel)}
      aria-controls={`frame-${panel}`}
      title={`${shown(panel) ? 'Fold away' : 'Show'}: ${WORDS[panel]}`}
      onClick={() => (shown(panel) ? close(panel) : openPanel(app, panel))}
    >
      <span>{WORDS[panel]}</span>
    </button>
  );
  const edge = (panel: Panel) => (
    <Edge
      label={`Width of ${WORDS[panel]}`}
      width={widths[panel]}
      least={13}
      most={36}
      grows={panel === 'walk' ? 1 : -1}
      onSet={(width) => setWidths((all) => ({ ...all, [panel]: width }))}
    />
  );
  const style = {
    '--walk-width': `${widths.walk}rem`,
    '--side-width': `${widths.side}rem`,
  } as CSSProperties;

  return (
    <div ref={frame} className={narrow ? 'frame narrow' : 'frame'} style={style}>
      <TopBar />
      <Banners />
      <nav
        id="frame-walk"
        className="frame-walk"
        aria-label="The walk"
        hidden={!shown('walk')}
        onKeyDown={closeOnEscape('walk')}
      >
        <div className="frame-scroll" data-zone="walk" data-keys="walk" tabIndex={-1}>
          <Guard part="The walk">
            <Walk />
          </Guard>
        </div>
        {narrow ? null : edge('walk')}
      </nav>
      <main className="frame-sheet">
        {stage === 'cut' ? (
          <div className="frame-hand-over" data-zone="sheet" tabIndex={-1}>
            <Guard part="The hand-over page">
              <HandOver />
            </Guard>
          </div>
        ) : (
          <div className="frame-draw" data-zone="sheet" data-keys="sheet" tabIndex={-1}>
            <Guard part="The sheet">
              <Sheet />
            </Guard>
            <ToolButtons />
            <EmptyPlan />
          </div>
        )}
        <Notices />
        {strip && stage !== 'cut' ? (
          <Guard part="The strip">
            <Strip />
          </Guard>
        ) : null}
      </main>
      <aside
        id="frame-side"
        className="frame-side"
        aria-label="Ticket and red pencil"
        hidden={!shown('side')}
        onKeyDown={closeOnEscape('side')}
      >
        {narrow ? null : edge('side')}
        <div className="frame-scroll frame-parts">
          {stage === 'measure' ? (
            <Guard part="The measurements">
              <Measure />
            </Guard>
          ) : null}
          <div className="frame-part" data-zone="ticket" tabIndex={-1}>
            <Guard part="The ticket">
              <Ticket />
            </Guard>
          </div>
          <div className="frame-part" data-zone="pencil" tabIndex={-1}>
            <Guard part="The red pencil">
              <Pencil />
            </Guard>
          </div>
        </div>
      </aside>
      <footer className="frame-tape">
        {fold('walk')}
        <div className="frame-tape-bar" data-zone="tape" tabIndex={-1}>
          <Guard part="The tape bar">
            <TapeBar />
          </Guard>
        </div>
        {fold('side')}
      </footer>
    </div>
  );
}
