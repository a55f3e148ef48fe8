// The worker: the solver and the sheets, off the window's thread. The one place in the window that loads the solver. It
// reads its own files (solver, fonts) by address and nothing else. One request, then progress and, for boards, stages, then
// one answer.

import './no-eval.ts';
import regularFont from '@expo-google-fonts/inter/400Regular/Inter_400Regular.ttf?url';
import italicFont from '@expo-google-fonts/inter/400Regular_Italic/Inter_400Regular_Italic.ttf?url';
import semiboldFont from '@expo-google-fonts/inter/600SemiBold/Inter_600SemiBold.ttf?url';
import boldFont from '@expo-google-fonts/inter/700Bold/Inter_700Bold.ttf?url';
import loadHighs from 'highs';
import highsBinary from 'highs/runtime?url';
import { type SparseEngine, solverOn } from '../../core/fit/index.ts';
import type { Solver } from '../../core/fit/types.ts';
import { atOnce, derive } from '../../core/report/index.ts';
import { fontMetrics, scaleFault, sheetSet, unprinted } from '../../core/sheets/index.ts';
import { solvedInSteps, type WorkAnswer, type WorkRequest } from './protocol.ts';
import { solveInStages } from './stages.ts';

type SheetsRequest = Extract<WorkRequest, { kind: 'sheets' }>;

const answer = (message: WorkAnswer): void => postMessage(message);

async function solver(): Promise<Solver> {
  const engine: SparseEngine = await loadHighs({ locateFile: () => highsBinary });
  return solverOn(engine);
}

async function bytesOf(address: string): Promise<Uint8Array> {
  const reply = await fetch(address);
  if (!reply.ok) throw new Error('a file of the program could not be read');
  return new Uint8Array(await reply.arrayBuffer());
}

async function drawSheets({ plan, parts, sheet, scale, date }: SheetsRequest): Promise<WorkAnswer> {
  const solved = atOnce(solvedInSteps(derive(plan), parts));
  const [regular, semibold, bold, italic] = await Promise.all(
    [regularFont, semiboldFont, boldFont, italicFont].map(bytesOf),
  );
  const measure = fontMetrics({ regular: regular!, semibold: semibold!, bold: bold!, italic: italic! });
  const options = { sheet, scale, date };
  const fault = scaleFault(solved, measure, options);
  if (fault !== null) return { kind: 'failed', message: fault };
  const set = sheetSet(solved, measure, options);
  return { kind: 'sheets', set, note: unprinted(set) };
}

async function work(request: WorkRequest): Promise<WorkAnswer> {
  return request.kind === 'solve' ? solveInStages(request.plan, await solver(), answer) : drawSheets(request);
}

addEventListener('message', ({ data }: MessageEvent<WorkRequest>) => {
  work(data).then(answer, (error: unknown) =>
    answer({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }),
  );
});
