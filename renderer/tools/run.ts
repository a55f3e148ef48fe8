// Runs the tool of the moment: events in, its next state into the store, its edit done as one step, its picture out. The
// only file here that knows the program; tools themselves are pure. Places in ticks.

import type { Point } from '../../core/graph/index.ts';
import { lookup } from '../../core/plan/index.ts';
import type { App } from '../state/app.ts';
import type { AppState } from '../state/app-state.ts';
import { contextOf } from './context.ts';
import { arrowOf, cursorStart, cursorStep, withCursor } from './cursor.ts';
import { toolOf } from './registry.ts';
import type {
  KeyInput,
  PointerInput,
  RunningTool,
  TapeFigures,
  Tool,
  ToolContext,
  ToolId,
  ToolPicture,
  ToolStep,
} from './types.ts';

export { contextOf } from './context.ts';

/** Takes a tool in hand; a gesture under way is given up, but for one of several steps of that very tool, which goes on. */
export function startTool(app: App, id: ToolId): void {
  const running = runningOf(app.store.get());
  if (running?.tool.id === id && running.tool.steps !== undefined && running.tool.busy(running.state)) return;
  const context = running?.context ?? null;
  app.change(({ tool }) => ({
    tool: { id, state: context === null ? null : toolOf(id).start(context), ...keptOf(tool) },
  }));
}

/** A press, move or release on the sheet. */
export function runPointer(app: App, input: PointerInput): void {
  const running = runningOf(app.store.get());
  if (running === null) return;
  const { tool, state, context } = running;
  if (input.exact !== true && app.store.get().tool.cursor !== undefined)
    app.change(({ tool: { cursor: _, ...rest } }) => ({ tool: rest }));
  // What was typed in a drag is where it ends, also when the button is let go before Enter.
  const typed = Object.values(app.store.get().tool.texts ?? {}).some((text) => text !== '');
  if (input.kind === 'up' && typed && tool.drags?.(state) === true && giveTyped(app)) return;
  take(app, tool, tool.pointer(state, input, context));
}

/** A key on the sheet. False where no tool wants it: it may then be a command's. */
export function runKey(app: App, input: KeyInput): boolean {
  const running = runningOf(app.store.get());
  if (running === null) return false;
  const { tool, state, context } = running;
  const { cursor } = app.store.get().tool;
  const bare = !input.mod && !input.alt;
  if (input.key === 'Enter' && bare && cursor?.moved === true && tool.id !== 'select') {
    clickAt(app, cursor.at);
    return true;
  }
  const step = tool.key(state, input, context);
  if (step !== null) {
    take(app, tool, step);
    return true;
  }
  if (input.key === 'Escape') return backOut(app);
  if (bare && STARTS_FIGURE.test(input.key)) return startTyping(app, input.key);
  const way = arrowOf(input.key);
  if (way === null || !bare || tool.id === 'select') return false;
  moveCursor(app, context, way, input.shift);
  return true;
}

/** Takes out what was typed; else gives up a gesture; with none under way, goes back to choosing; then chooses nothing. False where that is so already. */
export function backOut(app: App): boolean {
  const state = app.store.get();
  const running = runningOf(state);
  if (running === null) return false;
  const { tool, state: own, context } = running;
  const typed = Object.values(state.tool.texts ?? {}).some((text) => text !== '');
  if (typed)
    app.change(({ tool: now }) => ({ tool: { ...now, texts: {}, state: tool.typing(own, {}, context) } }));
  else if (tool.busy(own)) {
    const { id: level } = context.level;
    const givenUp =
      tool.steps?.end(own, context) == null ? {} : { givenUp: { id: tool.id, state: own, level } };
    app.change(({ tool: now }) => ({
      tool: { id: now.id, state: tool.start(context), ...keptOf(now), ...givenUp },
    }));
    if ('givenUp' in givenUp) app.say('What was being drawn is put aside. Undo takes it up again.');
  } else if (tool.id !== 'select') startTool(app, 'select');
  else if (state.selection.length > 0) app.select([]);
  else return false;
  return true;
}

/**
 * What undo means to the gesture under way: one step of several is taken back, any other gesture is given up; one that was
 * given up before its end is taken up again. False where there is none: undo is then the plan's.
 */
export function takeGestureBack(app: App): boolean {
  const { tool: now, open } = app.store.get();
  const running = runningOf(app.store.get());
  if (running === null || open === null) return false;
  const { tool, state, context } = running;
  if (tool.busy(state)) {
    const back = tool.steps?.back(state) ?? tool.start(context);
    app.change(() => ({ tool: { id: now.id, state: back, ...keptOf(now) } }));
    return true;
  }
  if (now.givenUp === undefined) return false;
  const { givenUp, ask } = now;
  const { level, ...drawn } = givenUp;
  if (level !== app.store.get().level) app.setLevel(level);
  app.change(() => ({ tool: { ...drawn, ...(ask === undefined ? {} : { ask }) } }));
  return true;
}

/** What redo means to the gesture under way: the step of it that was taken back last is done again. False where there is none. */
export function takeGestureForward(app: App): boolean {
  const state = forwardOf(app.store.get());
  if (state === null) return false;
  app.change(({ tool }) => ({ tool: { id: tool.id, state, ...keptOf(tool) } }));
  return true;
}

function forwardOf(state: AppState): unknown {
  const running = runningOf(state);
  return running?.tool.steps?.forward(running.state) ?? null;
}

/** Whether a gesture is under way. */
export function isDrawing(state: AppState): boolean {
  const running = runningOf(state);
  return running?.tool.busy(running.state) === true;
}

/** Whether undo would be the gesture's, as `takeGestureBack` does it. */
export function gestureTakesBack(state: AppState): boolean {
  return state.tool.givenUp !== undefined || isDrawing(state);
}

/** Whether redo would be the gesture's, as `takeGestureForward` does it. */
export function gestureGoesForward(state: AppState): boolean {
  return forwardOf(state) !== null;
}

/** What the running tool would do; null where no plan is open. The same object for the same state. */
export function pictureOf(state: AppState): ToolPicture | null {
  const running = runningOf(state);
  if (running === null) return null;
  const known = pictures.get(state.tool);
  if (known?.context === running.context) return known.picture;
  const { tool, state: own, context } = running;
  const picture = withCursor(tool.picture(own, context), state.tool.cursor);
  pictures.set(state.tool, { context, picture });
  return picture;
}

/** A cache by the running tool: it holds nothing that could not be made again. */
const pictures = new WeakMap<RunningTool, { readonly context: ToolContext; readonly picture: ToolPicture }>();

/** The running tool with its state, for the tape bar; null where no plan is open. */
export function runningOf(
  state: AppState,
): { readonly tool: Tool<unknown>; readonly state: unknown; readonly context: ToolContext } | null {
  const context = contextOf(state);
  if (context === null) return null;
  const tool = toolOf(state.tool.id);
  return { tool, state: state.tool.state ?? tool.start(context), context };
}

const STARTS_FIGURE = /^[0-9½¼¾⅛⅜⅝⅞]$/u;

/** A digit on the sheet goes to the tape bar, which takes the focus. */
function startTyping(app: App, key: string): boolean {
  const running = runningOf(app.store.get());
  const first = running?.tool.fields(running.state, running.context)[0];
  if (first === undefined) return false;
  typeInto(app, first.id, key);
  app.change(({ tool }) => ({ tool: { ...tool, ask: (tool.ask ?? 0) + 1 } }));
  return true;
}

/** What stands in a field of the tape bar now. The picture follows what is understood. */
export function typeInto(app: App, field: string, text: string): void {
  const running = runningOf(app.store.get());
  if (running === null) return;
  const { tool, state, context } = running;
  const { tool: now } = app.store.get();
  const texts = { ...now.texts, [field]: text };
  const { figures } = readTexts(tool, state, context, texts);
  app.change(() => ({ tool: { ...now, texts, state: tool.typing(state, figures, context) } }));
}

export interface ReadTexts {
  readonly figures: TapeFigures;
  /** Sentences on what could not be read, by field. */
  readonly problems: Readonly<Record<string, string>>;
}

/** What is understood of the texts in the fields. Empty fields are absent. */
export function readTexts(
  tool: Tool<unknown>,
  state: unknown,
  context: ToolContext,
  texts: Readonly<Record<string, string>>,
): ReadTexts {
  const figures: Record<string, number> = {};
  const problems: Record<string, string> = {};
  for (const { id, takes } of tool.fields(state, context)) {
    const text = lookup(texts, id) ?? '';
    if (text.trim() === '') continue;
    const read = takes === 'length' ? context.figures.readLength(text) : context.figures.readAngle(text);
    if (read.ok) figures[id] = read.value;
    else problems[id] = read.message;
  }
  return { figures, problems };
}

/** Enter in the tape bar: gives what was typed. With nothing typed it is Enter on the sheet. False where it is refused. */
export function giveTyped(app: App): boolean {
  const running = runningOf(app.store.get());
  if (running === null) return false;
  const { tool, state, context } = running;
  const { figures, problems } = readTexts(tool, state, context, app.store.get().tool.texts ?? {});
  const problem = Object.values(problems)[0];
  if (problem !== undefined) {
    app.say(problem, 'problem');
    return false;
  }
  if (Object.keys(figures).length === 0)
    return runKey(app, { key: 'Enter', shift: false, alt: false, mod: false });
  const step = tool.typed(state, figures, context);
  if (!take(app, tool, step)) return false;
  if (step.say !== undefined && step.commit === undefined) return false;
  app.change(({ tool: now }) => ({ tool: { ...now, texts: {} } }));
  return true;
}

/** A deed of the tool, by its key; before one that ends the gesture, what stands in the tape bar is given. */
export function doDeed(app: App, key: string, ends: boolean): void {
  const typed = Object.values(app.store.get().tool.texts ?? {}).some((text) => text.trim() !== '');
  if (ends && typed && !giveTyped(app)) return;
  runKey(app, { key, shift: false, alt: false, mod: false });
}

/** Does what a step says. False where its edit was refused. */
function take(app: App, tool: Tool<unknown>, step: ToolStep<unknown>): boolean {
  const { commit, select, say, drawing, used } = step;
  let [done, state] = [true, step.state];
  if (drawing !== undefined) app.change((now) => ({ drawing: { ...now.drawing, ...drawing } }));
  if (commit !== undefined) {
    const { edit, words, runs } = commit;
    done = app.commit(edit, {
      ...(words === undefined ? {} : { words }),
      ...(runs === undefined ? {} : { runs }),
      ...(select === undefined ? {} : { select }),
    });
    if (!done) state = step.refused ?? step.state;
    if (done && step.selectRoomAt !== undefined) selectRoom(app, step.selectRoomAt);
  } else if (select !== undefined) app.select(select);
  if (app.store.get().tool.id === tool.id) {
    const usedUp = used === true || (commit !== undefined && done);
    const begun = usedUp || (tool.steps !== undefined && tool.busy(state));
    app.change(({ tool: now }) => {
      const next = inState(now, state, usedUp, begun);
      return next === now ? {} : { tool: next };
    });
  }
  if (say !== undefined) app.say(say);
  if (step.ask === true) app.change(({ tool: now }) => ({ tool: { ...now, ask: (now.ask ?? 0) + 1 } }));
  if (step.done === true && done) startTool(app, 'select');
  return done;
}

/** The running tool in its next state. What was typed goes when it is used up, what was given up when something is begun. */
function inState(now: RunningTool, state: unknown, usedUp: boolean, begun: boolean): RunningTool {
  const { texts, givenUp, ...rest } = now;
  if (!(usedUp && texts !== undefined) && !(begun && givenUp !== undefined))
    return now.state === state ? now : { ...now, state };
  return {
    ...rest,
    state,
    ...(usedUp || texts === undefined ? {} : { texts }),
    ...(begun || givenUp === undefined ? {} : { givenUp }),
  };
}

function selectRoom(app: App, at: Point): void {
  const room = contextOf(app.store.get())
    ?.hit(at)
    .find(({ kind }) => kind === 'room');
  if (room !== undefined) app.select([room]);
}

/** A press and release of the keyboard's cross. */
function clickAt(app: App, at: Point): void {
  const input = { at, touch: false, shift: false, alt: false, mod: false, exact: true };
  app.change(({ tool }) => ({ tool: { ...tool, cursor: { at, moved: false } } }));
  runPointer(app, { ...input, kind: 'down' });
  runPointer(app, { ...input, kind: 'up' });
}

function moveCursor(app: App, context: ToolContext, way: Point, fine: boolean): void {
  const was = app.store.get().tool.cursor?.at ?? cursorStart(context);
  const step = cursorStep(context, fine);
  const at: Point = [was[0] + way[0] * step, was[1] + way[1] * step];
  app.change(({ tool }) => ({ tool: { ...tool, cursor: { at, moved: true } } }));
  runPointer(app, { kind: 'move', at, touch: false, shift: false, alt: false, mod: false, exact: true });
}

/** What outlives a tool's gesture, and the tool. */
function keptOf({ ask, givenUp }: RunningTool): Pick<RunningTool, 'ask' | 'givenUp'> {
  return { ...(ask === undefined ? {} : { ask }), ...(givenUp === undefined ? {} : { givenUp }) };
}
