// Opening from the window's side. One plan is open at a time. Whatever opens another asks first where there is unsaved
// work, opens the other, and only then lets go of the one before: a file that cannot be opened costs nothing.

import type { DEMO_HOUSES, OpenAnswer } from '../../../electron/contract.ts';
import type { App } from '../../state/app.ts';
import { when } from '../../state/when.ts';
import { endGesture } from '../../tools/leaving.ts';
import { ask, dialogFor } from './ask.ts';
import type { PlaceWish } from './places.ts';
import { called, save, settled } from './saving.ts';

type Opener = () => Promise<OpenAnswer>;

/** Asks what becomes of unsaved work. False where the user would rather stay. */
async function mayLeave(app: App, verb: string): Promise<boolean> {
  const { open } = app.store.get();
  if (open === null) return true;
  endGesture(app);
  if (!(await settled(app))) return false;
  const now = app.store.get().open;
  if (now === null || !now.view.unsaved) return true;
  const answer = await ask(app, {
    title: `Save ${now.plan.title}?`,
    words: [
      `${now.plan.title} has changes that are in no file.`,
      `Without saving, they are kept for recovery, and offered when no plan is open. ${verb}`,
    ],
    answers: [
      { id: 'stay', words: 'Cancel' },
      { id: 'keep', words: 'Keep for later' },
      { id: 'save', words: 'Save', main: true },
    ],
  });
  if (answer === 'save') return save(app);
  return answer === 'keep';
}

/** Lets go of an open plan in the host; the user decides where its unsaved work cannot be kept. Null: it stays open. */
async function letGo(app: App, handle: string): Promise<{ readonly kept: boolean } | null> {
  const answer = await called(app, () => app.bridge.close({ handle, lose: false }));
  if (answer === null) return null;
  if (answer.outcome === 'closed') return answer;
  const wish = await ask(app, {
    title: 'The unsaved work cannot be kept',
    words: [answer.message, 'Save the plan in another place, or close it and lose what is unsaved.'],
    answers: [
      { id: 'stay', words: 'Leave it open', main: true },
      { id: 'lose', words: 'Close and lose it', loses: true },
    ],
  });
  if (wish !== 'lose') return null;
  const lost = await called(app, () => app.bridge.close({ handle, lose: true }));
  return lost?.outcome === 'closed' ? lost : null;
}

/** Recent plans and kept work as they are now, for the page that shows when no plan is open. */
export async function refreshStart(app: App): Promise<void> {
  try {
    const [recent, offers] = await Promise.all([app.bridge.recent({}), app.bridge.offers({})]);
    app.change(({ start }) => (start === null ? {} : { start: { ...start, recent, offers } }));
  } catch {
    // The lists stay as they were; the next call that matters says what is wrong.
  }
}

/** Puts a fresh answer of the host on the sheet in place of what is open. */
async function replace(app: App, answer: OpenAnswer): Promise<boolean> {
  const before = app.store.get().open?.view.handle ?? null;
  if (answer.outcome === 'shown' && answer.handle === before) {
    app.say('This plan is open here already.');
    return true;
  }
  if (answer.outcome === 'held' && answer.id !== null) return copyOfHeld(app, answer.message, answer.id);
  if (answer.outcome === 'refused' && answer.lastGood !== null)
    return lastGood(app, answer.message, answer.lastGood);
  if (answer.outcome !== 'opened') return app.opened(answer);
  if (before !== null && (await letGo(app, before)) === null) {
    await called(app, () => app.bridge.close({ handle: answer.view.handle, lose: false }));
    return false;
  }
  const shown = app.opened(answer);
  // Nobody waits for the lists: the plan that is shown has the keys at once.
  void refreshStart(app);
  return shown;
}

async function copyOfHeld(app: App, message: string, id: string): Promise<boolean> {
  const wish = await ask(app, {
    title: 'Open elsewhere',
    words: [message, 'You can look at a copy of it, as a plan without a file.'],
    answers: [
      { id: 'no', words: 'Cancel' },
      { id: 'copy', words: 'Open a copy', main: true },
    ],
  });
  if (wish !== 'copy') return false;
  const answer = await called(app, () => app.bridge.openPlaceCopy({ id }));
  return answer !== null && replace(app, answer);
}

async function lastGood(
  app: App,
  message: string,
  version: { readonly id: string; readonly at: number },
): Promise<boolean> {
  const wish = await ask(app, {
    title: 'This file cannot be read',
    words: [
      message,
      `An earlier version, kept ${whenWords(version.at)}, can be opened as a plan without a file. The file itself is left as it is.`,
    ],
    answers: [
      { id: 'no', words: 'Cancel' },
      { id: 'version', words: 'Open the earlier version', main: true },
    ],
  });
  if (wish !== 'version') return false;
  const answer = await called(app, () => app.bridge.openVersion({ id: version.id }));
  return answer !== null && replace(app, answer);
}

/** Asks about what is open, then opens another. */
export async function openBy(app: App, opener: Opener): Promise<boolean> {
  if (!(await mayLeave(app, 'Then the other plan is opened.'))) return false;
  let answer: OpenAnswer | null;
  app.change(() => ({ opening: true }));
  try {
    answer = await called(app, opener);
    if (answer?.outcome === 'opened') return await replace(app, answer);
  } finally {
    app.change(() => ({ opening: false }));
  }
  if (answer === null) return false;
  return answer.outcome === 'choose' ? chooseAndOpen(app) : replace(app, answer);
}

async function chooseAndOpen(app: App): Promise<boolean> {
  const chosen = await dialogFor<OpenAnswer>(app, (take) => ({
    id: 'places',
    of: {
      kind: 'open',
      title: 'Open a plan',
      open: async (id) => {
        const answer = await called(app, () => app.bridge.openPlace({ id }));
        if (answer === null) return 'The plan could not be opened.';
        if (answer.outcome === 'refused' && answer.lastGood === null) return answer.message;
        take(answer);
        return null;
      },
    } satisfies PlaceWish,
  }));
  return chosen !== null && replace(app, chosen);
}

export const newPlan = (app: App, units?: 'imperial' | 'metric'): Promise<boolean> =>
  openBy(app, () =>
    app.bridge.newPlan({ units: units ?? app.store.get().start?.preferences.units ?? 'imperial' }),
  );
export const openFile = (app: App): Promise<boolean> => openBy(app, () => app.bridge.open({}));
export const openRecent = (app: App, id: string): Promise<boolean> =>
  openBy(app, () => app.bridge.openRecent({ id }));
export const openDemo = (app: App, house: (typeof DEMO_HOUSES)[number]): Promise<boolean> =>
  openBy(app, () => app.bridge.openDemo({ house }));
export const openVersion = (app: App, id: string): Promise<boolean> =>
  openBy(app, () => app.bridge.openVersion({ id }));
export const recover = (app: App, id: string): Promise<boolean> =>
  openBy(app, () => app.bridge.recover({ id }));
export const openDropped = (app: App, file: File): Promise<boolean> =>
  openBy(app, () => app.bridge.openFile(file));

/** A plan that the system or a second start asked for, opened by the host already. A dialog that is open comes first. */
export async function openedUnasked(app: App, answer: OpenAnswer): Promise<void> {
  if (answer.outcome === 'refused' && answer.lastGood === null) {
    app.opened(answer);
    return;
  }
  if (app.store.get().dialog !== null) {
    const what = answer.outcome === 'opened' ? (answer.view.name ?? answer.view.title) : 'The other plan';
    app.say(`${what} is opened when this dialog is closed.`);
    await when(app.store, ({ dialog, opening }) => dialog === null && !opening);
  }
  const { open } = app.store.get();
  if (
    answer.outcome === 'opened' &&
    open !== null &&
    !(await mayLeave(app, 'Then the other plan is shown.'))
  ) {
    await called(app, () => app.bridge.close({ handle: answer.view.handle, lose: false }));
    return;
  }
  await replace(app, answer);
}

export async function closePlan(app: App): Promise<boolean> {
  const { open } = app.store.get();
  if (open === null || !(await mayLeave(app, 'Then the plan is closed.'))) return false;
  const closed = await letGo(app, open.view.handle);
  if (closed === null) return false;
  app.closed();
  app.show(null);
  if (closed.kept) app.say('Closed. The unsaved changes are kept, and offered here.');
  await refreshStart(app);
  return true;
}

/** A moment in words, by the clock of this machine. */
export function whenWords(at: number): string {
  return new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' }).format(new Date(at));
}
