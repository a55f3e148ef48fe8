// The window's program without a window: the real store, edits and tools, a host that takes every edit, and a hand that
// presses, moves and types. Places in millimetres; one pixel is ten of them.

import { readFileSync } from 'node:fs';
import { expect } from 'vitest';
import { prepare } from '../../../core/edit/index.ts';
import { emptyPlan, type Level, type Plan, readPlanBytes } from '../../../core/plan/index.ts';
import type { Bridge } from '../../../electron/contract.ts';
import { type App, createApp } from '../../../renderer/state/app.ts';
import type { Ref } from '../../../renderer/state/refs.ts';
import { followLeaving } from '../../../renderer/tools/leaving.ts';
import {
  giveTyped,
  isDrawing,
  pictureOf,
  runKey,
  runningOf,
  runPointer,
  startTool,
  takeGestureBack,
  takeGestureForward,
  typeInto,
} from '../../../renderer/tools/run.ts';
import type { KeyInput, PointerInput, ToolId } from '../../../renderer/tools/types.ts';
import type { Jobs } from '../../../renderer/work/jobs.ts';

export const MM = 320;
export const mm = (ticks: number): number => ticks / MM;

const bridge = {
  form: 'browser',
  platform: 'linux',
  edit: async ({ revision }: { revision: number }) => ({
    ok: true,
    revision: revision + 1,
    inverse: { type: 'patch', patches: [] },
    unsaved: true,
  }),
  on: () => () => undefined,
} as unknown as Bridge;
const idle: Jobs = {
  start: () => ({ done: new Promise(() => undefined), cancel: () => undefined }),
} as unknown as Jobs;

export type Mods = Partial<Pick<PointerInput, 'shift' | 'alt' | 'mod'>>;
type Place = readonly [number, number];

export interface Program {
  readonly app: App;
  plan(): Plan;
  level(): Level;
  tool(id: ToolId): void;
  pointer(kind: PointerInput['kind'], at: Place, mods?: Mods): void;
  click(at: Place, mods?: Mods): void;
  drag(from: Place, to: Place, mods?: Mods): void;
  key(key: string, mods?: Partial<KeyInput>): boolean;
  /** Texts into the tape bar's fields in their order, then Enter. False where they were refused. */
  give(...texts: readonly string[]): boolean;
  /** A text into one field, as it is while it is typed. */
  type(field: string, text: string): void;
  choose(...refs: readonly Ref[]): void;
  /** As the command does it: what is being drawn comes first. */
  undo(): void;
  /** As the command does it, which cannot be had while something is drawn of which nothing was taken back. */
  redo(): void;
  steps(): number;
  said(): string;
  hint(): string;
  state(): unknown;
}

/** `jobs`: who works boards out; nobody, where none is given. */
export function program(plan: Plan = emptyPlan('metric'), jobs: Jobs = idle): Program {
  const app = createApp(bridge, jobs);
  followLeaving(app);
  const prepared = prepare(plan);
  if (!prepared.ok) throw new Error(prepared.message);
  app.opened({
    outcome: 'opened',
    view: {
      handle: '0'.repeat(32),
      name: null,
      title: '',
      revision: 0,
      unsaved: false,
      autosaveStopped: null,
      journalProblem: null,
    },
    plan: prepared.plan,
    notes: [],
    history: [],
  });
  app.change(() => ({
    viewport: { centre: [0, 0], pixelsPerTick: 1 / (10 * MM), width: 2000, height: 1600 },
    stage: 'draw',
  }));
  const open = () => app.store.get().open!;
  const pointer: Program['pointer'] = (kind, [x, y], mods = {}) =>
    runPointer(app, {
      kind,
      at: [x * MM, y * MM],
      touch: false,
      shift: false,
      alt: false,
      mod: false,
      ...mods,
    });
  const running = () => runningOf(app.store.get())!;
  return {
    app,
    plan: () => open().plan,
    level: () => open().plan.levels[0]!,
    tool: (id) => startTool(app, id),
    pointer,
    click: (at, mods) => {
      for (const kind of ['move', 'down', 'up'] as const) pointer(kind, at, mods);
    },
    drag: (from, to, mods) => {
      pointer('move', from, mods);
      pointer('down', from, mods);
      for (const share of [0.25, 0.5, 0.75, 1])
        pointer('move', [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share], mods);
      pointer('up', to, mods);
    },
    key: (key, mods = {}) => runKey(app, { key, shift: false, alt: false, mod: false, ...mods }),
    give: (...texts) => {
      const { tool, state, context } = running();
      const fields = tool.fields(state, context);
      for (const [i, text] of texts.entries()) {
        expect(fields[i], `field ${i}`).toBeDefined();
        typeInto(app, fields[i]!.id, text);
        pictureOf(app.store.get());
      }
      return giveTyped(app);
    },
    type: (field, text) => typeInto(app, field, text),
    choose: (...refs) => app.select(refs),
    undo: () => {
      if (!takeGestureBack(app)) app.undo();
    },
    redo: () => {
      if (!takeGestureForward(app) && !isDrawing(app.store.get())) app.redo();
    },
    steps: () => open().done.length,
    said: () => app.store.get().notices.at(-1)?.words ?? '',
    hint: () => {
      const { tool, state, context } = running();
      return tool.hint(state, context);
    },
    state: () => app.store.get().tool.state,
  };
}

export function demo(name: 'larkspur-house' | 'thimble-cottage'): Plan {
  const path = new URL(`../../../demo-data/${name}.copewright.json`, import.meta.url);
  const read = readPlanBytes(readFileSync(path));
  if (!read.ok) throw new Error('the demo house cannot be read');
  return read.plan;
}

/** Node places of a level in mm, sorted, as text. */
export function places(level: Level): readonly string[] {
  return Object.values<readonly [number, number]>(level.nodes)
    .map(([x, y]) => `${mm(x)},${mm(y)}`)
    .sort();
}
