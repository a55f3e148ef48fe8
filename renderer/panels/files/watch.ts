// What is watched while the window is open: whether the file was changed by others, whether every edit is with the host,
// files dropped on the window, and the wish to close it.

import type { App } from '../../state/app.ts';
import { endGesture } from '../../tools/leaving.ts';
import { ask } from './ask.ts';
import { openDropped } from './opening.ts';
import { wayOut } from './rescue.ts';
import { allTaken, called, settleConflict } from './saving.ts';

/** The file is looked at whenever the window gets the focus. What was said once is not said again. */
function watchFile(app: App): () => void {
  let looking = false;
  let said = '';

  async function look(): Promise<void> {
    const { open, dialog } = app.store.get();
    if (looking || open === null || open.view.name === null || dialog !== null) return;
    looking = true;
    try {
      const { handle, name } = open.view;
      const there = await app.bridge.look({ handle }).catch(() => 'same' as const);
      const news = `${handle} ${name} ${there}`;
      if (news === said || app.store.get().open?.view.handle !== handle) return;
      said = news;
      if (there === 'changed')
        await settleConflict(app, `${name} was changed by another program since it was opened here.`, null);
      if (there === 'gone')
        app.say(
          `${name} is no longer where it was. The plan is still here: save it to put it there again.`,
          'problem',
        );
      if (there === 'unread')
        app.say(`${name} cannot be read now. The plan is still here: save it in another place.`, 'problem');
    } finally {
      looking = false;
    }
  }

  const hear = (): void => void look();
  window.addEventListener('focus', hear);
  return () => window.removeEventListener('focus', hear);
}

/** The browser asks before it leaves the page only where edits are not with the host: all else is kept there. */
function watchLeaving(app: App): () => void {
  const now = app.store.get().open;
  let [last, revision] = [now?.plan ?? null, now?.view.revision];
  let waits = false;
  const stop = app.store.listen(() => {
    const { open } = app.store.get();
    const plan = open?.plan ?? null;
    // Edits that had to wait for an answer are counted by the host one by one.
    const counted = open?.view.revision !== revision;
    revision = open?.view.revision;
    if (plan === last && !(waits && counted)) return;
    last = plan;
    waits = plan !== null;
    if (plan === null) return;
    void app.settled().then((all) => {
      if (all && app.store.get().open?.plan === plan) waits = false;
    });
  });
  const hear = (event: BeforeUnloadEvent): void => {
    endGesture(app);
    if (waits) event.preventDefault();
  };
  window.addEventListener('beforeunload', hear);
  return () => {
    stop();
    window.removeEventListener('beforeunload', hear);
  };
}

/** The user wants the window closed: edits go to the host first, then it may go. Unsaved work is kept by the host. */
async function leave(app: App): Promise<void> {
  endGesture(app);
  if (!(await allTaken(app))) {
    await app.bridge.stay({}).catch(() => undefined);
    const { open } = app.store.get();
    const { words, button, take } = wayOut(app);
    const wish = await ask(app, {
      title: 'Close all the same?',
      words: [
        'The last edits have not reached the program that keeps the file. Closing now loses them.',
        words,
      ],
      answers: [
        { id: 'stay', words: 'Stay', main: true },
        { id: 'out', words: button },
        { id: 'lose', words: 'Close and lose them', loses: true },
      ],
    });
    if (wish === 'out' && open !== null) take(open);
    if (wish !== 'lose') return;
  }
  await called(app, () => app.bridge.quit({}));
}

function watchDrops(app: App): () => void {
  const root = document.documentElement;
  const bringsFile = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;
  const over = (event: DragEvent): void => {
    if (!bringsFile(event)) return;
    event.preventDefault();
    root.dataset.drop = 'over';
  };
  const away = (event: DragEvent): void => {
    if (event.relatedTarget === null) delete root.dataset.drop;
  };
  const drop = (event: DragEvent): void => {
    delete root.dataset.drop;
    if (!bringsFile(event)) return;
    event.preventDefault();
    const files = [...(event.dataTransfer?.files ?? [])];
    const [file] = files;
    if (file === undefined) return;
    if (app.store.get().dialog !== null) app.say('Close the dialog first, then drop the file.', 'problem');
    else if (files.length > 1) app.say('Drop one plan at a time.', 'problem');
    else void openDropped(app, file);
  };
  window.addEventListener('dragover', over);
  window.addEventListener('dragleave', away);
  window.addEventListener('drop', drop);
  return () => {
    window.removeEventListener('dragover', over);
    window.removeEventListener('dragleave', away);
    window.removeEventListener('drop', drop);
  };
}

/** Gives back what ends it all. */
export function watchFiles(app: App): () => void {
  const ends = [
    watchFile(app),
    watchLeaving(app),
    watchDrops(app),
    app.bridge.on('closing', () => void leave(app)),
  ];
  return () => {
    for (const end of ends) end();
  };
}
