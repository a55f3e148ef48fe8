// Which dialog is which: the one that is open is drawn over the window.

import type { ComponentType } from 'react';
import { About } from '../app/About.tsx';
import { Finder } from '../app/Finder.tsx';
import { Guard } from '../app/Guard.tsx';
import { KeyList } from '../app/KeyList.tsx';
import { Licences } from '../app/Licences.tsx';
import type { Dialog } from '../state/app-state.ts';
import { usePicked } from '../state/react.ts';
import { Ask } from './files/Ask.tsx';
import { Conflict } from './files/Conflict.tsx';
import { ExportDialog } from './files/ExportDialog.tsx';
import { DemoDialog, RecentDialog, VersionsDialog } from './files/Lists.tsx';
import { RecoveryDialog } from './files/Offers.tsx';
import { PlacesDialog } from './files/PlacesDialog.tsx';
import { Preferences } from './files/Preferences.tsx';
import { LevelsDialog } from './profiles/LevelsDialog.tsx';
import { PickerDialog } from './profiles/PickerDialog.tsx';
import { ProfilesDialog } from './profiles/ProfilesDialog.tsx';
import { RoomsDialog } from './profiles/RoomsDialog.tsx';
import { SettingsDialog } from './profiles/SettingsDialog.tsx';
import { StockDialog } from './profiles/StockDialog.tsx';
import { TapeWalk } from './tapewalk/TapeWalk.tsx';

const DIALOGS: Partial<Readonly<Record<Dialog['id'], ComponentType<{ readonly of: unknown }>>>> = {
  about: About,
  ask: Ask,
  conflict: Conflict,
  demo: DemoDialog,
  export: ExportDialog,
  finder: Finder,
  keys: KeyList,
  licences: Licences,
  places: PlacesDialog,
  preferences: Preferences,
  recent: RecentDialog,
  recovery: RecoveryDialog,
  tapeWalk: TapeWalk,
  versions: VersionsDialog,
  levels: LevelsDialog,
  picker: PickerDialog,
  profiles: ProfilesDialog,
  rooms: RoomsDialog,
  settings: SettingsDialog,
  stock: StockDialog,
};

export function OpenDialog() {
  const dialog = usePicked((state) => state.dialog);
  const Shown = dialog === null ? undefined : DIALOGS[dialog.id];
  return Shown === undefined || dialog === null ? null : (
    <Guard key={dialog.id} part="What was asked for">
      <Shown of={dialog.of} />
    </Guard>
  );
}
