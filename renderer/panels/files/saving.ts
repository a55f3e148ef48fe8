// Saving from the window's side: all edits are with the host first; then one call, and what its answer asks of the user:
// another place, a name, or whose changes count. The host writes; nothing is written here. RULES: SK2, SK3.

import type { Answer, SaveAnswer } from '../../../electron/contract.ts';
import { takeTyped } from '../../app/typed.ts';
import type { App } from '../../state/app.ts';
import { NOT_TAKEN } from '../../state/host-queue.ts';
import { ask, dialogFor } from './ask.ts';
import { ENDING, nameFor } from './names.ts';
import type { PlaceWish } from './places.ts';
import { wayOut } from './rescue.ts';

export const LOST = 'The program that keeps the file does not answer. The plan is still here in the window.';

/** Said where a save is long in coming. */
const NOT_YET =
  'The program that keeps the file has not answered yet. Whether the plan is saved is not known.';
const LATE_MS = 5000;

/** Whether every edit is with the host, what was typed last too. */
export function allTaken(app: App): Promise<boolean> {
  takeTyped();
  return app.settled();
}

/** The same; where that cannot be it says so, and offers what the page itself can do. */
export async function settled(app: App): Promise<boolean> {
  if (await allTaken(app)) return true;
  const { open } = app.store.get();
  if (open === null) return false;
  const { words, button, take } = wayOut(app);
  const wish = await ask(app, {
    title: 'The program does not answer',
    words: ['The last edits have not reached the program that keeps the file. Nothing was written.', words],
    answers: [
      { id: 'no', words: 'Not now' },
      { id: 'out', words: button, main: true },
    ],
  });
  if (wish === 'out') take(open);
  return false;
}

/** What was said while the host did not answer is not true any more. */
function answersAgain(app: App): void {
  for (const { id, words } of app.store.get().notices)
    if (words === LOST || words === NOT_TAKEN || words === NOT_YET) app.dismiss(id);
}

/** A call whose failure is said; null then. */
export async function called<T>(app: App, call: () => Promise<T>): Promise<T | null> {
  try {
    const answer = await call();
    answersAgain(app);
    return answer;
  } catch {
    app.say(LOST, 'problem');
    return null;
  }
}

const handleOf = (app: App): string | null => app.store.get().open?.view.handle ?? null;

/** Saves to the plan's own file. True where the plan is in a file afterwards. */
export async function save(app: App): Promise<boolean> {
  const handle = handleOf(app);
  if (handle === null || !(await settled(app))) return false;
  // Without a file the system may be asking the user for a name.
  const named = app.store.get().open?.view.name != null;
  const late = named ? setTimeout(() => app.say(NOT_YET, 'problem'), LATE_MS) : undefined;
  const answer = await called(app, () => app.bridge.save({ handle }));
  clearTimeout(late);
  return answered(app, answer);
}

export async function saveAs(app: App): Promise<boolean> {
  const handle = handleOf(app);
  if (handle === null || !(await settled(app))) return false;
  return answered(app, await called(app, () => app.bridge.saveAs({ handle })));
}

async function answered(app: App, answer: SaveAnswer | null): Promise<boolean> {
  if (answer === null || answer.outcome === 'cancelled') return false;
  switch (answer.outcome) {
    case 'saved':
      app.say(`Saved as ${answer.name}.`);
      return true;
    case 'choose':
      return saveToPlace(app);
    case 'conflict':
      return settleConflict(app, answer.message, answer.theirs);
    case 'refused':
      return elsewhere(app, answer.message, answer.elsewhere);
  }
}

async function elsewhere(app: App, message: string, offered: boolean): Promise<boolean> {
  if (!offered) {
    app.say(message, 'problem');
    return false;
  }
  const wish = await ask(app, {
    title: 'Not saved',
    words: [
      message,
      app.store.get().open?.view.journalProblem === null
        ? 'The plan is still here, and its edits are kept for recovery.'
        : 'The plan is still here. Its edits are not kept for recovery now.',
    ],
    answers: [
      { id: 'no', words: 'Not now' },
      { id: 'as', words: 'Save in another place…', main: true },
    ],
  });
  return wish === 'as' ? saveAs(app) : false;
}

/** The window's own dialog for a place and a name, where the system gives none. */
async function saveToPlace(app: App): Promise<boolean> {
  const { open } = app.store.get();
  if (open === null) return false;
  const { handle } = open.view;
  type Last = Exclude<Answer<'savePlace'>, { outcome: 'exists' }>;
  const last = await dialogFor<Last>(app, (answer) => ({
    id: 'places',
    of: {
      kind: 'save',
      title: 'Save as',
      name: nameFor(open),
      ending: ENDING,
      put: async (place, name, over) => {
        const result = await called(app, () => app.bridge.savePlace({ handle, place, name, over }));
        if (result === null) return { message: LOST };
        if (result.outcome === 'exists') return { exists: result.message };
        if (result.outcome === 'refused') return { message: result.message };
        answer(result);
        return { done: true };
      },
    } satisfies PlaceWish,
  }));
  return last === null ? false : answered(app, last);
}

/**
 * Asks whose changes count, and does it. `theirs` is the change the user is told of; null where the file was only looked
 * at, not compared: then 'keep mine' saves first, and is asked again where that is refused.
 */
export async function settleConflict(app: App, message: string, theirs: string | null): Promise<boolean> {
  const handle = handleOf(app);
  if (handle === null) return false;
  const choice = await dialogFor<'mine' | 'theirs' | 'beside'>(app, (answer) => ({
    id: 'conflict',
    of: { message, answer },
  }));
  if (choice === null || !(await settled(app))) return false;
  const { bridge } = app;
  if (choice === 'mine') {
    const seen = theirs ?? (await theirsNow(app, handle));
    if (typeof seen !== 'string') return seen;
    return answered(app, await called(app, () => bridge.keepMine({ handle, theirs: seen })));
  }
  if (choice === 'beside') return answered(app, await called(app, () => bridge.saveBeside({ handle })));
  const taken = await called(app, () => bridge.takeTheirs({ handle }));
  if (taken === null) return false;
  if (taken.outcome === 'refused') {
    app.say(taken.message, 'problem');
    return false;
  }
  app.replaced(taken.plan, taken.view);
  app.say('This is the plan as the file has it. Yours is among the earlier versions.');
  return true;
}

/** Which change the file holds now; or whether a plain save has done it, since there is none any more. */
async function theirsNow(app: App, handle: string): Promise<string | boolean> {
  const answer = await called(app, () => app.bridge.save({ handle }));
  return answer?.outcome === 'conflict' ? answer.theirs : answered(app, answer);
}
