// The sheets as the crew will have them: the very items that the PDF writer prints, painted page by page. Made in the
// worker when asked for; a change of the plan asks for them anew.

import { useEffect, useRef, useState } from 'react';
import type { Plan } from '../../../core/plan/index.ts';
import type { Solved } from '../../../core/report/index.ts';
import { type Sheet, type SheetSet, type SheetSize, textItems } from '../../../core/sheets/index.ts';
import { paintItems } from '../../sheet/paint-items.ts';
import type { AppState } from '../../state/app-state.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { isPlacingJoints, solvedOf } from '../../state/selectors.ts';
import { Cancelled } from '../../work/jobs.ts';
import { partsOf } from '../../work/protocol.ts';
import { Choice } from '../kit/Choice.tsx';
import { Problem } from '../kit/Problem.tsx';
import { useSheetChoice } from '../kit/sheet-choice.ts';
import { SHEET_CHOICES, scaleChoices, today } from '../kit/sheets.ts';

const ZOOMS = ['1', '1.5', '2', '3'] as const;
type Zoom = (typeof ZOOMS)[number];

export interface SheetPreviewProps {
  readonly plan: Plan;
}

/** A set as it was asked for, of one plan's boards. */
interface Made {
  readonly size: SheetSize;
  readonly scale: string | undefined;
  readonly solved: Solved;
  readonly set: SheetSet;
  readonly note: string | null;
}

/** The boards that the sheets show: those that the window shows, unless better ones are still being looked for; null: none. */
function boardsOf(state: AppState): Solved | 'pending' | null {
  return isPlacingJoints(state) ? 'pending' : solvedOf(state);
}

function waitingFor(solved: ReturnType<typeof boardsOf>): string {
  if (solved === null) return 'The sheets follow once the boards of this plan are worked out.';
  if (solved === 'pending') return 'The sheets follow the boards…';
  return 'Drawing the sheets…';
}

export function SheetPreview({ plan }: SheetPreviewProps) {
  const app = useApp();
  const { sheet: size, scale: choice, askedScale: scale, setSheet, setScale } = useSheetChoice(plan.units);
  const solved = usePicked(boardsOf);
  const [made, setMade] = useState<Made | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [page, setPage] = useState(0);
  const [zoom, setZoom] = useState<Zoom>('1');

  useEffect(() => {
    setProblem(null);
    if (solved === 'pending' || solved === null) return;
    const parts = partsOf(solved);
    const job = app.jobs.start({ kind: 'sheets', plan, parts, sheet: size, scale, date: today() });
    job.done.then(
      ({ set, note }) => setMade({ set, note, solved, size, scale }),
      (error: unknown) => {
        if (!(error instanceof Cancelled)) setProblem(error instanceof Error ? error.message : String(error));
      },
    );
    return () => job.cancel();
  }, [app, plan, solved, size, scale]);

  const current = made !== null && made.solved === solved && made.size === size && made.scale === scale;
  const sheets = made?.set.sheets ?? [];
  // A smaller set has no such page any more: what is shown then is its last.
  const at = Math.max(0, Math.min(sheets.length - 1, page));
  const shown = sheets[at];
  const turn = (by: number): void => setPage(Math.max(0, Math.min(sheets.length - 1, at + by)));
  return (
    <>
      <div className="handover-sheet-bar row">
        <Choice label="Sheet" value={size} of={SHEET_CHOICES} onSet={setSheet} />
        <Choice label="Floor plans at" value={choice} of={scaleChoices(plan.units)} onSet={setScale} />
        <Choice
          label="Shown"
          value={zoom}
          of={ZOOMS.map((value) => ({
            value,
            words: value === '1' ? 'whole page' : `${value} times as large`,
          }))}
          onSet={setZoom}
        />
        <span className="handover-pages">
          <button
            type="button"
            aria-label="Page before"
            title="Page before (Page Up on the page)"
            aria-disabled={at <= 0 || undefined}
            onClick={() => turn(-1)}
          >
            ‹
          </button>
          <span className="handover-page-number">
            {sheets.length === 0 ? '' : `Page ${at + 1} of ${sheets.length}`}
          </span>
          <button
            type="button"
            aria-label="Next page"
            title="Next page (Page Down on the page)"
            aria-disabled={at >= sheets.length - 1 || undefined}
            onClick={() => turn(1)}
          >
            ›
          </button>
        </span>
        <span className="soft">{current || problem !== null ? '' : waitingFor(solved)}</span>
        {current && made.note !== null ? <p className="handover-sheet-note">{made.note}</p> : null}
        <Problem words={problem} />
      </div>
      <div className={current ? 'handover-sheet-body' : 'handover-sheet-body stale'}>
        <ol className="handover-page-list">
          {sheets.map((sheet, index) => (
            <li key={`${index + 1}`}>
              <button
                type="button"
                title={`Show sheet ${index + 1}`}
                className={sheet.parent === null ? 'plain' : 'plain inner'}
                aria-current={index === at ? 'page' : undefined}
                onClick={() => setPage(index)}
              >
                <span className="soft">{index + 1}</span> {sheet.bookmark}
              </button>
            </li>
          ))}
        </ol>
        {shown === undefined ? null : <Page sheet={shown} zoom={Number(zoom)} onTurn={turn} />}
      </div>
    </>
  );
}

interface PageProps {
  readonly sheet: Sheet;
  readonly zoom: number;
  readonly onTurn: (by: number) => void;
}

function Page({ sheet, zoom, onTurn }: PageProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const holder = useRef<HTMLElement>(null);
  const [room, setRoom] = useState<readonly [number, number]>([600, 600]);
  useEffect(() => {
    const box = holder.current;
    if (box === null) return;
    const watch = new ResizeObserver(() => setRoom([box.clientWidth - 24, box.clientHeight - 24]));
    watch.observe(box);
    return () => watch.disconnect();
  }, []);
  const fit = Math.max(0.1, Math.min(room[0] / sheet.width, room[1] / sheet.height));
  const perPoint = fit * zoom;
  useEffect(() => {
    const board = canvas.current;
    const context = board?.getContext('2d');
    if (!board || !context) return;
    const ratio = window.devicePixelRatio;
    board.width = Math.round(sheet.width * perPoint * ratio);
    board.height = Math.round(sheet.height * perPoint * ratio);
    context.setTransform(perPoint * ratio, 0, 0, perPoint * ratio, 0, 0);
    context.fillStyle = '#ffffff';
    context.fillRect(0, 0, sheet.width, sheet.height);
    paintItems(context, sheet.items, 'paper');
  }, [sheet, perPoint]);
  const said = textItems(sheet.items)
    .map(({ text }) => text)
    .join(' · ');
  return (
    // Scrolled with the arrow keys when it is larger than its place.
    <section
      className="handover-page"
      ref={holder}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region must be reachable
      tabIndex={0}
      aria-label={`Page: ${sheet.bookmark}`}
      onKeyDown={(event) => {
        if (event.key !== 'PageDown' && event.key !== 'PageUp') return;
        event.preventDefault();
        onTurn(event.key === 'PageDown' ? 1 : -1);
      }}
    >
      <canvas ref={canvas} style={{ width: sheet.width * perPoint, height: sheet.height * perPoint }} />
      <p className="unseen">{said}</p>
    </section>
  );
}
