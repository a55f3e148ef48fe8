// The sheet's own commands.

import type { CommandActions } from '../app/command-types.ts';
import type { AppState } from '../state/app-state.ts';
import { gridSpacing } from './grid.ts';
import { fitAll, fitSelection, zoomBy, zoomReal } from './view-moves.ts';

const noSheet = ({ open, stage }: AppState): string | null => {
  if (open === null) return 'No plan is open.';
  return stage === 'cut' ? 'The sheet is not shown at this stage.' : null;
};

export const sheetActions: CommandActions = {
  'view.fitAll': { run: fitAll, unavailable: noSheet },
  'view.fitSelection': {
    run: fitSelection,
    unavailable: (state) => noSheet(state) ?? (state.selection.length === 0 ? 'Nothing is selected.' : null),
  },
  'view.zoomIn': { run: (app) => zoomBy(app, 1), unavailable: noSheet },
  'view.zoomOut': { run: (app) => zoomBy(app, -1), unavailable: noSheet },
  'view.zoomReal': { run: zoomReal, unavailable: noSheet },
  'view.grid': {
    run: (app) =>
      app.change(({ snapping, open, start }) => ({
        snapping: {
          ...snapping,
          grid:
            snapping.grid === null
              ? gridSpacing(start?.preferences.gridMm ?? null, open?.plan.units ?? 'imperial')
              : null,
        },
      })),
    unavailable: noSheet,
    checked: ({ snapping }) => snapping.grid !== null,
  },
  'view.snapping': {
    run: (app) => {
      app.change(({ snapping }) => ({ snapping: { ...snapping, on: !snapping.on } }));
      app.say(app.store.get().snapping.on ? 'Snapping is on.' : 'Snapping is off.');
    },
    unavailable: noSheet,
    checked: ({ snapping }) => snapping.on,
  },
};
