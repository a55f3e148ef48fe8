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
import { lookup, type Plan } from '../../core/plan/index.ts';
import { cutsOf, derive, plainCutsOf, solve } from '../../core/report/index.ts';
import { fontMetrics, sheetSet } from '../../core/sheets/index.ts';
import type { StockProgress } from '../../core/stock/index.ts';
import { partsOf, solvedFrom, type WorkAnswer, type WorkRequest } from './protocol.ts';

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

const STEPS: Readonly<Record<StockProgress['step'], string>> = {
  start: 'first boards',
  bound: 'least possible',
  improve: 'better boards',
  prove: 'proof',
  settle: 'order of cutting',
  join: 'where boards are joined',
};

function teller(plan: Plan): (progress: StockProgress) => 'go' {
  return ({ profileId, step, cost, bound }) => {
    const name = lookup(plan.profiles, profileId)?.name ?? profileId;
    answer({ kind: 'progress', progress: { words: `${name}: ${STEPS[step]}`, cost, bound } });
    return 'go';
  };
}

/** Boards and scribes in stages: something at once, then what the usual work finds, then what it would cost bought otherwise. */
function solveInStages(plan: Plan, engine: Solver): WorkAnswer {
  const derived = derive(plan);
  const first = solve(derived, engine, { work: 0 });
  answer({ kind: 'staged', stage: 'first', parts: partsOf(first), cuts: plainCutsOf(first) });
  const solved = solve(derived, engine, { tell: teller(plan) });
  answer({ kind: 'staged', stage: 'boards', parts: partsOf(solved), cuts: plainCutsOf(solved) });
  return { kind: 'solved', cuts: cutsOf(solved, engine) };
}

async function drawSheets({ plan, parts, sheet, date }: SheetsRequest): Promise<WorkAnswer> {
  const derived = derive(plan);
  const solved =
    parts === null ? solve(derived, await solver(), { tell: teller(plan) }) : solvedFrom(derived, parts);
  const [regular, semibold, bold, italic] = await Promise.all(
    [regularFont, semiboldFont, boldFont, italicFont].map(bytesOf),
  );
  const measure = fontMetrics({ regular: regular!, semibold: semibold!, bold: bold!, italic: italic! });
  return { kind: 'sheets', set: sheetSet(solved, measure, { sheet, date }) };
}

async function work(request: WorkRequest): Promise<WorkAnswer> {
  return request.kind === 'solve' ? solveInStages(request.plan, await solver()) : drawSheets(request);
}

addEventListener('message', ({ data }: MessageEvent<WorkRequest>) => {
  work(data).then(answer, (error: unknown) =>
    answer({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }),
  );
});
