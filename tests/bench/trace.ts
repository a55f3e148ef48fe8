// Frames out of the browser's own trace: what the page's thread worked on each (its own clock, which stands while others
// have the processor) and the time from each to the next. Milliseconds. A frame begins at a mark of the page.

import type { CDPSession } from 'playwright';

interface TraceEvent {
  readonly name: string;
  readonly cat: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
}

export interface Frames {
  /** Script, layout and drawing in the page's thread. */
  readonly worked: readonly number[];
  readonly passed: readonly number[];
}

/** Runs with the trace on and gives back the frames by the name of their marks. `first` of each run of marks are left out. */
export async function traced(
  session: CDPSession,
  run: () => Promise<void>,
  first: number,
): Promise<ReadonlyMap<string, Frames>> {
  const events: TraceEvent[] = [];
  const take = ({ value }: { value: object[] }) => events.push(...(value as TraceEvent[]));
  session.on('Tracing.dataCollected', take);
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: {
      includedCategories: ['toplevel', 'blink.user_timing', 'disabled-by-default-devtools.timeline'],
      excludedCategories: ['*'],
    },
  });
  try {
    await run();
  } finally {
    const complete = new Promise<void>((done) => session.once('Tracing.tracingComplete', () => done()));
    await session.send('Tracing.end');
    await complete;
    session.off('Tracing.dataCollected', take);
  }
  return framesOf(events, first);
}

function framesOf(events: readonly TraceEvent[], first: number): ReadonlyMap<string, Frames> {
  const marks = events
    .filter(({ cat, name }) => cat.includes('blink.user_timing') && name.includes(':'))
    .sort((a, b) => a.ts - b.ts);
  const own = marks[0];
  if (own === undefined) throw new Error('no frame left a mark in the trace');
  const worked = new Array<number>(marks.length).fill(0);
  let index = 0;
  const tasks = events
    .filter(({ name, pid, tid }) => name === 'RunTask' && pid === own.pid && tid === own.tid)
    .sort((a, b) => a.ts - b.ts);
  if (tasks.length === 0) throw new Error('the trace tells no tasks of the page');
  for (const { ts, dur = 0, tdur = 0 } of tasks) {
    while (index + 1 < marks.length && marks[index + 1]!.ts <= ts + dur) index++;
    if (ts + dur >= own.ts) worked[index]! += tdur / 1000;
  }
  const found = new Map<string, { worked: number[]; passed: number[] }>();
  let since = 0;
  marks.forEach(({ name, ts }, i) => {
    since = marks[i - 1]?.name === name ? since + 1 : 0;
    const after = marks[i + 1];
    // The last of a run has what comes after it in its time.
    if (since < first || after?.name !== name) return;
    const frames = found.get(name) ?? { worked: [], passed: [] };
    found.set(name, frames);
    frames.worked.push(worked[i]!);
    frames.passed.push((after.ts - ts) / 1000);
  });
  return found;
}

/** The value below which a share of the times lies. */
export function share(times: readonly number[], of: number): number {
  const sorted = times.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * of))]!;
}
