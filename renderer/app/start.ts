// The first thing the window does: asks the host what there is, shows it, and listens for what comes unasked.

import { lookup } from '../../core/plan/index.ts';
import { COMMAND_ROWS, type CommandId } from '../../electron/menu.ts';
import { openedUnasked } from '../panels/files/opening.ts';
import { following } from '../panels/files/preferences.ts';
import { watchFiles } from '../panels/files/watch.ts';
import type { App } from '../state/app.ts';
import { followLeaving } from '../tools/leaving.ts';
import { commandFromMenu, listenToKeys, recentFromMenu } from './keyboard.ts';
import { followTheme } from './theme.ts';
import { followShown, shownHere } from './this-tab.ts';
import { followTitle } from './title.ts';

/** A plan of the native menu's recent list, behind it its id. */
const RECENT = 'recent:';

export async function startProgram(app: App): Promise<void> {
  const { bridge } = app;
  followTheme(app);
  followTitle(app);
  followShown(app);
  followLeaving(app);
  listenToKeys(app);
  watchFiles(app);
  const began = begin(app);
  bridge.on('changed', (view) => app.viewed(view));
  // Shown in place of what the program begins with, never the other way round.
  bridge.on('opened', (answer) => void began.then(() => openedUnasked(app, answer)));
  bridge.on('command', ({ id }) => {
    if (id.startsWith(RECENT)) recentFromMenu(app, id.slice(RECENT.length));
    if (lookup(COMMAND_ROWS, id as CommandId) !== undefined) commandFromMenu(app, id as CommandId);
  });
  await began;
}

/** Shows what the host has already: a plan that was named at the start, or what this window showed before. */
async function begin(app: App): Promise<void> {
  try {
    const start = await app.bridge.start({});
    app.change((state) => ({ start, ...following(state, start.preferences) }));
    const opened = await shownHere(app, start.opened);
    if (opened?.outcome === 'opened') app.opened(opened);
    else if (opened !== null) void openedUnasked(app, opened);
    // Without a plan the page that stands in its place offers them.
    if (opened?.outcome === 'opened' && start.offers.length > 0) app.show({ id: 'recovery' });
  } catch {
    app.say(
      'The program that keeps the files does not answer. Start it again, then load this window again.',
      'problem',
    );
  }
}
