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
import { followTitle } from './title.ts';

/** A plan of the native menu's recent list, behind it its id. */
const RECENT = 'recent:';

export async function startProgram(app: App): Promise<void> {
  const { bridge } = app;
  followTheme(app);
  followTitle(app);
  followLeaving(app);
  listenToKeys(app);
  watchFiles(app);
  bridge.on('changed', (view) => app.viewed(view));
  bridge.on('opened', (answer) => void openedUnasked(app, answer));
  bridge.on('command', ({ id }) => {
    if (id.startsWith(RECENT)) recentFromMenu(app, id.slice(RECENT.length));
    if (lookup(COMMAND_ROWS, id as CommandId) !== undefined) commandFromMenu(app, id as CommandId);
  });
  try {
    const start = await bridge.start({});
    app.change((state) => ({ start, ...following(state, start.preferences) }));
    if (start.opened?.outcome === 'opened') app.opened(start.opened);
    else if (start.opened !== null) void openedUnasked(app, start.opened);
    // Without a plan the page that stands in its place offers them.
    if (start.opened?.outcome === 'opened' && start.offers.length > 0) app.show({ id: 'recovery' });
  } catch {
    app.say(
      'The program that keeps the files does not answer. Start it again, then load this window again.',
      'problem',
    );
  }
}
