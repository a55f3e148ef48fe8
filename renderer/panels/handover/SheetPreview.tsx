// The sheets as the crew will have them: the very items that the PDF writer prints, painted page by page. Made in the
// worker when asked for; a change of the plan asks for them anew.

import { useEffect, useRef, useState } from 'react';
import type { Plan } from '../../../core/plan/index.ts';
import {
  SHEET_SIZES,
  type Sheet,
  type SheetSet,
  type SheetSize,
  textItems,
} from '../../../core/sheets/index.ts';
import { paintItems } from '../../sheet/paint-items.ts';
import { useApp } from '../../state/react.ts';
import { Cancelled } from '../../work/jobs.ts';
import { Choice } from '../kit/Choice.tsx';

const SIZE_WORDS: Readonly<Record<SheetSize, string>> = {
  letter: 'Letter, 8.5 × 11 in',
  tabloid: 'Tabloid, 11 × 17 in',
  a4: 'A4, 210 × 297 mm',
  a3: 'A3, 297 × 420 mm',
  'arch-c': 'Arch C, 18 × 24 in',
  'arch-d': 'Arch D, 24 × 36 in',
};
const SIZES = Object.keys(SHEET_SIZES) as SheetSize[];
const ZOOMS = [1, 1.5, 2, 3] as const;

/** Today where the user is, as `2026-01-31`. */
function today(): string {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

export function SheetPreview({ plan }: { readonly plan: Plan }) {
  const app = useApp();
  const [size, setSize] = useState<SheetSize>(plan.units === 'imperial' ? 'letter' : 'a4');
  const [made, setMade] = useState<{ set: SheetSet; plan: Plan; size: SheetSize } | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [page, setPage] = useState(0);
  const [zoom, setZoom] = useState<(typeof ZOOMS)[number]>(1);

  useEffect(() => {
    setProblem(null);
    const job = app.jobs.start({ kind: 'sheets', plan, sheet: size, date: today() });
    job.done.then(
      ({ set }) => setMade({ set, plan, size }),
      (error: unknown) => {
        if (!(error instanceof Cancelled)) setProblem(error instanceof Error ? error.message : String(error));
      },
    );
    return () => job.cancel();
  }, [app, plan, size]);

  const current = made !== null && made.plan === plan && made.size === size;
  const sheets = made?.set.sheets ?? [];
  const shown = sheets[Math.min(page, sheets.length - 1)];
  const turn = (by: number): void => setPage(Math.max(0, Math.min(sheets.length - 1, page + by)));
  return (
    <>
      <div className="handover-sheet-bar row">
        <Choice
          label="Sheet"
          value={size}
          of={SIZES.map((value) => ({ value, words: SIZE_WORDS[value] }))}
          onSet={setSize}
        />
        <button type="button" disabled={page <= 0} onClick={() => turn(-1)}>
          Page before
        </button>
        <span>
          {sheets.length === 0 ? '' : `Page ${Math.min(page, sheets.length - 1) + 1} of ${sheets.length}`}
        </span>
        <button type="button" disabled={page >= sheets.length - 1} onClick={() => turn(1)}>
          Next page
        </button>
        <button
          type="button"
          onClick={() => setZoom(ZOOMS[(ZOOMS.indexOf(zoom) + 1) % ZOOMS.length] ?? 1)}
          title="Larger, then back to the whole page"
        >
          {zoom === 1 ? 'Whole page' : `${zoom} times as large`}
        </button>
        <button type="button" onClick={() => app.show({ id: 'export', of: { kind: 'pdf', sheet: size } })}>
          Hand over as PDF…
        </button>
        <span className={problem === null ? 'soft' : 'wrong'} role="status">
          {problem ?? (current ? '' : 'Drawing the sheets…')}
        </span>
      </div>
      <div className={current ? 'handover-sheet-body' : 'handover-sheet-body stale'}>
        <ol className="handover-page-list">
          {sheets.map((sheet, index) => (
            <li key={`${index + 1}`}>
              <button
                type="button"
                className={sheet.parent === null ? 'plain' : 'plain inner'}
                aria-current={index === page ? 'page' : undefined}
                onClick={() => setPage(index)}
              >
                <span className="soft">{index + 1}</span> {sheet.bookmark}
              </button>
            </li>
          ))}
        </ol>
        {shown === undefined ? null : <Page sheet={shown} zoom={zoom} />}
      </div>
    </>
  );
}

function Page({ sheet, zoom }: { readonly sheet: Sheet; readonly zoom: number }) {
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
    // Scrolled with the keyboard when it is larger than its place.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region must be reachable
    <section className="handover-page" ref={holder} tabIndex={0} aria-label={`Page: ${sheet.bookmark}`}>
      <canvas ref={canvas} style={{ width: sheet.width * perPoint, height: sheet.height * perPoint }} />
      <p className="unseen">{said}</p>
    </section>
  );
}
