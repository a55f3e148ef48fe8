// What becomes of a gesture that is left: the user goes to another tool, level or stage with walls half drawn. A gesture of
// several steps ends as it is, on the level it was drawn on; any other is given up. Knows no tool.

import type { LevelId } from '../../core/plan/index.ts';
import type { App } from '../state/app.ts';
import type { AppState } from '../state/app-state.ts';
import { contextOf } from './context.ts';
import { toolOf } from './registry.ts';

/** Ends gestures that are left, and takes what is typed for one thing away when another is chosen. Gives back what ends it. */
export function followLeaving(app: App): () => void {
  let seen = app.store.get();
  return app.store.listen(() => {
    const [was, now] = [seen, app.store.get()];
    seen = now;
    if (was.open === null || now.open?.view.handle !== was.open.view.handle) return;
    const noSheet = now.stage === 'cut' && was.stage !== 'cut';
    if (now.level !== was.level || now.tool.id !== was.tool.id || noSheet) endLeft(app, was);
    if (now.tool.id !== was.tool.id) sayNotTaken(app, was);
    // What was put aside or taken back is of the plan as it was.
    if (now.open.plan !== was.open.plan) forgetTakenBack(app);
    if (now.selection !== was.selection && now.tool.id === was.tool.id) emptyTexts(app, was);
  });
}

/** Ends the gesture under way, before the plan itself is left. */
export function endGesture(app: App): void {
  endLeft(app, app.store.get());
}

/** Takes a level away. What is half drawn on it ends first, so that undo brings that back with it. */
export function deleteLevel(app: App, level: LevelId): boolean {
  if (app.store.get().level === level) endGesture(app);
  return app.commit({ type: 'deleteLevel', level }, { level });
}

function endLeft(app: App, was: AppState): void {
  const context = contextOf(was);
  const tool = toolOf(was.tool.id);
  const { state } = was.tool;
  if (context === null || state === null || !tool.busy(state)) return;
  if (app.store.get().tool.id === tool.id)
    app.change(({ tool: { texts: _, ...rest } }) => ({ tool: { ...rest, state: null } }));
  const commit = tool.steps?.end(state, context)?.commit;
  if (commit === undefined) return;
  const { edit, words } = commit;
  const { id: level } = context.level;
  if (app.commit(edit, { level, ...(words === undefined ? {} : { words }) }))
    app.say('The walls drawn so far are kept.');
}

function forgetTakenBack(app: App): void {
  const { givenUp, ...rest } = app.store.get().tool;
  const { steps, busy } = toolOf(rest.id);
  const forward = rest.state !== null && !busy(rest.state) && steps?.forward(rest.state) != null;
  if (givenUp !== undefined || forward)
    app.change(() => ({ tool: forward ? { ...rest, state: null } : rest }));
}

/** Of the tool that moves what is chosen: figures typed for what was chosen before mean nothing for the next. */
function emptyTexts(app: App, was: AppState): void {
  const { tool } = app.store.get();
  if (tool.id !== 'select' || tool.texts === undefined || tool.texts !== was.tool.texts) return;
  const { texts: _, ...rest } = tool;
  app.change(() => ({ tool: rest }));
  sayNotTaken(app, was);
}

/** What stood in the tape bar and was not given. */
function sayNotTaken(app: App, { tool: { texts = {} } }: AppState): void {
  const text = Object.values(texts).find((each) => each.trim() !== '');
  if (text !== undefined) app.say(`“${text}” was typed and not taken: Enter gives it.`);
}
