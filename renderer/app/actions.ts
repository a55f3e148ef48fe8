// What the frame's own commands do: taking back, stages, going from part to part, the light, help.

import { COMMAND_ROWS } from '../../electron/menu.ts';
import { setPreferences } from '../panels/files/preferences.ts';
import type { AppState, Stage } from '../state/app-state.ts';
import {
  gestureGoesForward,
  gestureTakesBack,
  isDrawing,
  takeGestureBack,
  takeGestureForward,
} from '../tools/run.ts';
import type { CommandAction, CommandActions } from './command-types.ts';
import { darkNow } from './theme.ts';
import { goToZone, uncoverSheet, type Zone } from './zones.ts';

export const noPlan = ({ open }: AppState): string | null => (open === null ? 'No plan is open.' : null);

const stage = (id: Stage): CommandAction => ({
  run: (app) => app.setStage(id),
  unavailable: noPlan,
  checked: (state) => state.stage === id,
});

const zone = (id: Zone): CommandAction => ({ run: (app) => goToZone(app, id), unavailable: noPlan });

const help = (id: 'finder' | 'keys' | 'licences' | 'about'): CommandAction => ({
  run: (app) => app.show({ id }),
});

export const frameActions: CommandActions = {
  'edit.undo': {
    run: (app) => {
      if (!takeGestureBack(app)) app.undo();
    },
    unavailable: (state) =>
      (state.open?.done.length ?? 0) === 0 && !gestureTakesBack(state) ? 'There is nothing to undo.' : null,
    words: (state) => {
      const last = state.open?.done.at(-1);
      if (gestureTakesBack(state)) return 'Undo in what is being drawn';
      return last === undefined ? COMMAND_ROWS['edit.undo'].words : `Undo ${last.words}`;
    },
  },
  'edit.redo': {
    run: (app) => {
      if (!takeGestureForward(app)) app.redo();
    },
    unavailable: (state) => {
      if (gestureGoesForward(state)) return null;
      if ((state.open?.undone.length ?? 0) === 0) return 'There is nothing to redo.';
      return isDrawing(state) ? 'End what is being drawn first: Enter ends it, Escape leaves it.' : null;
    },
    words: (state) => {
      const last = state.open?.undone.at(-1);
      if (gestureGoesForward(state)) return 'Redo in what is being drawn';
      return last === undefined ? COMMAND_ROWS['edit.redo'].words : `Redo ${last.words}`;
    },
  },
  'view.measure': stage('measure'),
  'view.draw': stage('draw'),
  'view.trim': stage('trim'),
  'view.cut': stage('cut'),
  'view.walk': zone('walk'),
  'view.sheet': {
    run: (app) => {
      uncoverSheet(app);
      goToZone(app, 'sheet');
    },
    unavailable: noPlan,
  },
  'view.ticket': zone('ticket'),
  'view.tape': zone('tape'),
  'view.pencil': zone('pencil'),
  'view.strip': {
    run: (app) => app.change(({ strip }) => ({ strip: !strip })),
    unavailable: (state) =>
      noPlan(state) ??
      (state.stage === 'cut' ? 'The strip stands beside the sheet: choose another stage.' : null),
    checked: ({ strip }) => strip,
  },
  'view.theme': {
    run: (app) => void setPreferences(app, { theme: darkNow(app.store.get().theme) ? 'light' : 'dark' }),
  },
  'help.finder': help('finder'),
  'help.keys': help('keys'),
  'help.licences': help('licences'),
  'help.about': help('about'),
};
