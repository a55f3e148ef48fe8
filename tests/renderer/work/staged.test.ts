// Boards as the window gets them: at once a first layout, then the best on the way, which are kept for whoever stops, then the
// boards, then what they would cost bought otherwise. The
// answers are those of the worker's own code with the real solver, told as data like between threads; the worker that
// carries them stands still until the test lets one through, so that every moment can be looked at.

import { readFileSync } from 'node:fs';
import { afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Solver } from '../../../core/fit/types.ts';
import { type Plan, readPlan } from '../../../core/plan/index.ts';
import { atOnce, cutsOf, derive, type Report, solve } from '../../../core/report/index.ts';
import { heldBoardOf } from '../../../core/stock/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { solvedOf } from '../../../renderer/state/selectors.ts';
import { startJobs } from '../../../renderer/work/jobs.ts';
import {
  isNoWorse,
  solvedInSteps,
  type WorkAnswer,
  type WorkRequest,
} from '../../../renderer/work/protocol.ts';
import { solveInStages } from '../../../renderer/work/stages.ts';
import { type Program, program } from '../tools/program.ts';

/** Quiet after an edit before boards are worked out, ms. */
const QUIET = 250;
/** By then an answer is put on the plan, ms: less than the quiet. */
const WORKED = 100;

let solver: Solver;
let house: Plan;
let answers: WorkAnswer[];

/** All that the worker answers for a plan, as it arrives: copied, not shared. */
function answersFor(plan: Plan): WorkAnswer[] {
  const told: WorkAnswer[] = [];
  const last = solveInStages(plan, solver, (answer) => told.push(structuredClone(answer)));
  return [...told, structuredClone(last)];
}

beforeAll(async () => {
  solver = await loadHighs();
  const url = new URL('../../../demo-data/thimble-cottage.copewright.json', import.meta.url);
  const read = readPlan(readFileSync(url, 'utf8'));
  if (!read.ok) throw new Error(read.error.message);
  house = derive(read.plan).plan;
  answers = answersFor(house);
}, 60_000);

type Stages = Extract<WorkAnswer, { kind: 'staged' }>;
const stagesIn = (told: readonly WorkAnswer[]): Stages[] =>
  told.filter((each): each is Stages => each.kind === 'staged');

/** The report that a stage comes to, put on what is derived of the plan it is of. */
const reportOf = (plan: Plan, { parts }: Stages): Report => atOnce(solvedInSteps(derive(plan), parts)).report;

/** The reports of the stages that are shown. */
function reportsOf(plan: Plan, told: readonly WorkAnswer[]): Report[] {
  return stagesIn(told)
    .filter(({ stage }) => stage !== 'better')
    .map((each) => reportOf(plan, each));
}

/** A worker that answers when it is told to. */
class Still {
  onmessage: ((event: { data: WorkAnswer }) => void) | null = null;
  onerror: ((event: { message: string }) => void) | null = null;
  readonly asked: WorkRequest[] = [];
  ended = false;
  postMessage(request: WorkRequest): void {
    this.asked.push(request);
  }
  terminate(): void {
    this.ended = true;
  }
  /** Answers, and does not wait until the window has made something of it. */
  tell(...told: readonly WorkAnswer[]): void {
    for (const data of told) this.onmessage?.({ data });
  }
  say(...told: readonly WorkAnswer[]): void {
    this.tell(...told);
    vi.advanceTimersByTime(WORKED);
  }
}

let workers: Still[];
let ours: Program;
const worker = (): Still => workers.at(-1)!;
const asked = (): readonly WorkRequest[] => workers.flatMap((each) => each.asked);
const solution = () => ours.app.store.get().solution;
const stage = () => {
  const now = solution();
  return now.state === 'none' || now.last === null ? null : now.last.stage;
};
/** Lets promises that are settled be heard. */
const heard = async (): Promise<void> => {
  for (let i = 0; i < 5; i++) await Promise.resolve();
};

const upTo = (last: 'first' | 'boards'): WorkAnswer[] =>
  answers.slice(0, answers.findIndex((each) => each.kind === 'staged' && each.stage === last) + 1);
const from = (first: 'first' | 'boards'): WorkAnswer[] => answers.slice(upTo(first).length);

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  workers = [];
  const jobs = startJobs(() => {
    workers.push(new Still());
    return worker() as unknown as Worker;
  });
  ours = program(house, jobs);
  vi.advanceTimersByTime(QUIET);
});
afterEach(() => vi.useRealTimers());

const rename = (title: string): void => {
  expect(ours.app.commit({ type: 'setPlan', set: { title } })).toBe(true);
};

describe('what the worker answers', () => {
  test('a first layout, then better boards with progress before them, then what they cost bought otherwise', () => {
    const kinds = answers.map((each) => (each.kind === 'staged' ? each.stage : each.kind));
    const seen = kinds.filter((kind) => kind !== 'progress' && kind !== 'better');
    expect(seen).toEqual(['first', 'boards', 'solved']);
    expect(kinds.filter((kind) => kind === 'better').length).toBeGreaterThan(1);
    expect(kinds.lastIndexOf('better')).toBeLessThan(kinds.indexOf('boards'));
    expect(kinds[0]).toBe('first');
    expect(kinds.lastIndexOf('progress')).toBeLessThan(kinds.indexOf('boards'));
    expect(kinds).toContain('progress');
  });

  test('the boards are those of the command line, never dearer than the first layout, and each stage is whole', () => {
    const staged = answers.flatMap((each) => (each.kind === 'staged' ? [each] : []));
    const [first, boards] = reportsOf(house, answers);
    expect(boards).toEqual(solve(derive(house), solver).report);
    boards!.stock.forEach((each, i) => {
      expect(each.cost).toBeLessThanOrEqual(first!.stock[i]!.cost);
    });
    for (const { parts } of staged) {
      const cut = parts.stock.flatMap((each) => each.boards.flatMap((board) => board.items)).length;
      const wanted = parts.stock.flatMap((each) => each.order.items).length;
      expect(cut + parts.stock.flatMap((each) => each.unplaced).length).toBe(wanted);
    }
    const last = answers.at(-1)!;
    expect(last.kind === 'solved' && last.alternatives.length).toBe(boards!.stock.length);
  });
});

describe('what is there when the worker is ended', () => {
  test('[ST7, ST12] the best on the way is whole, never worse than before, and comes to the boards', () => {
    const stages = stagesIn(answers);
    const last = stages.at(-1)!;
    for (const [at, each] of stages.entries()) {
      if (at > 0) expect(isNoWorse(each.parts, stages[at - 1]!.parts), `answer ${at}`).toBe(true);
      const report = reportOf(house, each);
      const cut = report.stock.flatMap(({ boards }) => boards.flatMap(({ pieces }) => pieces));
      const left = report.stock.flatMap(({ unplaced }) => unplaced);
      const wanted = each.parts.stock.flatMap(({ order }) => order.items.map(({ id }) => id));
      expect([...cut, ...left].sort(), `answer ${at}`).toEqual([...wanted].sort());
      for (const [i, { cost, bound, proved }] of report.stock.entries()) {
        expect(bound, `answer ${at}`).toBeLessThanOrEqual(cost);
        expect(cost, `answer ${at}`).toBeGreaterThanOrEqual(last.parts.stock[i]!.cost / 100 - 1e-9);
        if (proved) expect(cost, `answer ${at}`).toBeCloseTo(last.parts.stock[i]!.cost / 100, 9);
      }
    }
    const costs = stages.map(({ parts }) => parts.stock.reduce((sum, { cost }) => sum + cost, 0));
    expect(new Set(costs).size, 'some are better than those before').toBeGreaterThan(2);
  });
});

describe('what the window makes of it', () => {
  test('each stage is shown as soon as it is there', async () => {
    expect(solution()).toMatchObject({ state: 'pending', last: null });
    expect(solvedOf(ours.app.store.get())).toBeNull();
    worker().say(...upTo('first'));
    expect([solution().state, stage()]).toEqual(['pending', 'first']);
    const shown = solvedOf(ours.app.store.get())!;
    expect(solution()).toMatchObject({ last: { cuts: { stock: shown.report.stock, alternatives: [] } } });
    expect(shown.report.stock.length).toBeGreaterThan(1);
    worker().say(...from('first').slice(0, 1));
    expect(solution()).toMatchObject({ progress: { words: expect.stringMatching(/: .+/) } });
    worker().say(...from('first').filter((each) => each.kind === 'staged' && each.stage === 'better'));
    expect(stage(), 'what is better is kept unseen').toBe('first');
    worker().say(...upTo('boards').slice(-1));
    expect([solution().state, stage()]).toEqual(['pending', 'boards']);
    expect(solution()).toMatchObject({ progress: null });
    worker().say(...from('boards'));
    await heard();
    expect([solution().state, stage()]).toEqual(['done', 'whole']);
    const solved = solve(derive(house), solver);
    expect(solvedOf(ours.app.store.get())!.report).toEqual(solved.report);
    expect(solution()).toMatchObject({ last: { cuts: cutsOf(solved, solver) } });
  });

  describe('an answer is put on the plan a little at a time', () => {
    // So slow that each step takes longer than may be worked without a break.
    beforeEach(() => {
      let now = 0;
      vi.spyOn(performance, 'now').mockImplementation(() => {
        now += 1000;
        return now;
      });
    });
    afterEach(() => vi.restoreAllMocks());

    test('the last answer may come before the boards are there, and waits for them', async () => {
      worker().tell(...answers);
      await heard();
      expect([solution().state, stage()]).toEqual(['pending', null]);
      vi.advanceTimersByTime(WORKED);
      expect([solution().state, stage()]).toEqual(['done', 'whole']);
      expect(solvedOf(ours.app.store.get())!.report).toEqual(solve(derive(house), solver).report);
    });

    test('an edit meanwhile is done at once, and nothing comes of the answer', async () => {
      worker().tell(...upTo('first'));
      rename('Other');
      expect(ours.plan().title).toBe('Other');
      vi.advanceTimersByTime(WORKED);
      await heard();
      expect([solution().state, stage()]).toEqual(['pending', null]);
    });

    test('stopped meanwhile, the answer is what is shown', async () => {
      worker().tell(...upTo('first'));
      ours.app.solving.stop();
      expect([solution().state, stage()]).toEqual(['stopped', null]);
      vi.advanceTimersByTime(QUIET);
      await heard();
      expect([solution().state, stage()]).toEqual(['stopped', 'first']);
    });

    test('what was solved before an edit lends the rooms that it did not touch', async () => {
      worker().say(...answers);
      await heard();
      const before = solvedOf(ours.app.store.get())!;
      const [level] = ours.plan().levels;
      const corner = before.levels[0]!.walk.rooms[0]!.loops[0]!.corners[0]!.key;
      const set = { lines: { base: { joint: 'mitre' as const } } };
      expect(ours.app.commit({ type: 'setCorner', level: level!.id, corner, set })).toBe(true);
      vi.advanceTimersByTime(QUIET);
      worker().say(...answersFor(ours.plan()));
      await heard();
      const after = solvedOf(ours.app.store.get())!;
      expect(after.report).toEqual(solve(derive(ours.plan()), solver).report);
      const trims = new Set(before.levels.flatMap((each) => each.trims));
      const lent = after.levels.flatMap((each) => each.trims).filter((trim) => trims.has(trim));
      expect(lent.length).toBeGreaterThan(0);
    });
  });

  test.each([
    [null, []],
    ['first', ['first']],
    ['boards', ['first', 'boards']],
  ] as const)('stopped with %s shown, that stays, and what comes late is not taken', async (was, told) => {
    const own = worker();
    for (const each of told) own.say(...upTo(each).slice(-1));
    const before = solution();
    ours.app.solving.stop();
    await heard();
    expect([solution().state, stage()]).toEqual(['stopped', was]);
    if (before.state !== 'none' && was !== null) expect(solution()).toMatchObject({ last: before.last });
    expect(own.ended).toBe(true);
    // A message that was on its way when the worker was ended.
    for (const data of from('first')) own.onmessage?.({ data });
    expect([solution().state, stage()]).toEqual(['stopped', was]);
    ours.app.solving.ask();
    vi.advanceTimersByTime(QUIET);
    expect(workers).toHaveLength(2);
    worker().say(...answers);
    await heard();
    expect([solution().state, stage()]).toEqual(['done', 'whole']);
  });

  describe('stopped in the middle', () => {
    const betters = (): Stages[] => stagesIn(answers).filter(({ stage: each }) => each === 'better');
    const middle = (): number => Math.floor(betters().length / 2);
    const shown = () => solvedOf(ours.app.store.get())!.report;
    beforeEach(() => {
      worker().say(...upTo('first'), ...betters().slice(0, middle()));
      ours.app.solving.stop();
      vi.advanceTimersByTime(WORKED);
    });

    test('the best so far is shown, not the first layout', () => {
      expect([solution().state, stage()]).toEqual(['stopped', 'better']);
      const best = betters()[middle() - 1]!;
      expect(shown()).toEqual(reportOf(house, best));
      expect(shown().purchase).not.toEqual(reportsOf(house, answers)[0]!.purchase);
      expect(solution()).toMatchObject({ last: { cuts: { stock: shown().stock, alternatives: [] } } });
    });

    test('gone on with, it stays until there is better; stopped again before that, it is still there', async () => {
      const kept = shown();
      ours.app.solving.ask();
      vi.advanceTimersByTime(QUIET);
      worker().say(...upTo('first'), ...betters().slice(0, middle() - 1));
      expect([solution().state, stage()]).toEqual(['pending', 'better']);
      expect(shown()).toEqual(kept);
      ours.app.solving.stop();
      vi.advanceTimersByTime(WORKED);
      expect([solution().state, stage()]).toEqual(['stopped', 'better']);
      expect(shown()).toEqual(kept);
      ours.app.solving.ask();
      vi.advanceTimersByTime(QUIET);
      worker().say(...answers);
      await heard();
      expect([solution().state, stage()]).toEqual(['done', 'whole']);
      expect(shown()).toEqual(solve(derive(house), solver).report);
    });

    test('an edit begins anew: the best of another plan is none of this one', () => {
      rename('Other');
      ours.app.solving.stop();
      vi.advanceTimersByTime(WORKED);
      expect(solution()).toMatchObject({ state: 'stopped', last: { stage: 'better' } });
      expect(solvedOf(ours.app.store.get()), 'that of the plan before').toBeNull();
    });
  });

  test('an edit in the middle throws the work away; what was shown stays, as that of the plan before', async () => {
    const own = worker();
    own.say(...upTo('first'));
    const shown = solution();
    rename('Other');
    expect(solution()).toMatchObject({ state: 'pending', progress: null });
    expect(stage()).toBe('first');
    expect(shown.state === 'pending' && shown.last?.plan).not.toBe(ours.plan());
    expect(solvedOf(ours.app.store.get()), 'nothing is called solved of a plan it is not of').toBeNull();
    own.say(...from('first'));
    await heard();
    expect([own.ended, stage()]).toEqual([true, 'first']);
    vi.advanceTimersByTime(QUIET);
    expect(asked().map((each) => each.plan.title)).toEqual([house.title, 'Other']);
    worker().say(...answersFor(ours.plan()));
    await heard();
    expect(solution()).toMatchObject({ state: 'done', last: { plan: ours.plan(), stage: 'whole' } });
  });

  test('edits that follow at once are asked of once, when it is quiet', () => {
    for (const title of ['A', 'B', 'C']) {
      rename(title);
      vi.advanceTimersByTime(QUIET - 1);
    }
    expect(asked()).toHaveLength(1);
    vi.advanceTimersByTime(1);
    expect(asked().map((each) => each.plan.title)).toEqual([house.title, 'C']);
  });

  test('a worker that fails is told of, and what was shown stays', async () => {
    worker().say(...upTo('first'), { kind: 'failed', message: 'out of memory' });
    await heard();
    expect(solution()).toMatchObject({ state: 'failed', message: 'out of memory' });
    expect(stage()).toBe('first');
    expect(solvedOf(ours.app.store.get())).not.toBeNull();
  });

  test('[ST13] a board held from the first layout is held in every stage after it', async () => {
    worker().say(...upTo('first'));
    const solved = solvedOf(ours.app.store.get())!;
    const { order, boards } = solved.stock[0]!;
    const board = heldBoardOf(solved.levels, boards.at(-1)!);
    expect(ours.app.commit({ type: 'holdBoard', profile: order.profileId, board })).toBe(true);
    vi.advanceTimersByTime(QUIET);
    expect(worker().asked[0]!.plan).toBe(ours.plan());
    const again = answersFor(ours.plan());
    const staged = reportsOf(ours.plan(), again);
    expect(staged).toHaveLength(2);
    for (const report of staged) {
      const held = report.stock.flatMap((each) => each.boards.filter((one) => one.held));
      expect(held.map(({ pieces }) => [...pieces].sort())).toEqual([[...board.pieces].sort()]);
    }
    worker().say(...again);
    await heard();
    expect([solution().state, stage()]).toEqual(['done', 'whole']);
  });
});
