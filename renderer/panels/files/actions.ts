// What the commands of the File menu do.

import type { CommandAction, CommandActions } from '../../app/command-types.ts';
import type { AppState, Dialog } from '../../state/app-state.ts';
import { closePlan, newPlan, openFile } from './opening.ts';
import { save, saveAs } from './saving.ts';

const noPlan = ({ open }: AppState): string | null => (open === null ? 'No plan is open.' : null);
const dialog = (shown: Dialog): CommandAction['run'] => {
  return (app) => app.show(shown);
};

export const fileActions: CommandActions = {
  'file.new': { run: (app) => void newPlan(app) },
  'file.open': { run: (app) => void openFile(app) },
  'file.recent': { run: dialog({ id: 'recent' }) },
  'file.demo': { run: dialog({ id: 'demo' }) },
  'file.save': { run: (app) => void save(app), unavailable: noPlan },
  'file.saveAs': { run: (app) => void saveAs(app), unavailable: noPlan },
  'file.versions': {
    run: dialog({ id: 'versions' }),
    unavailable: (state) =>
      noPlan(state) ??
      (state.open?.view.name === null ? 'A plan has earlier versions once it was saved to a file.' : null),
  },
  'file.exportPdf': { run: dialog({ id: 'export', of: { kind: 'pdf' } }), unavailable: noPlan },
  'file.exportCsv': { run: dialog({ id: 'export', of: { kind: 'csv' } }), unavailable: noPlan },
  'file.exportReport': { run: dialog({ id: 'export', of: { kind: 'report' } }), unavailable: noPlan },
  'file.preferences': { run: dialog({ id: 'preferences' }) },
  'file.close': { run: (app) => void closePlan(app), unavailable: noPlan },
};
