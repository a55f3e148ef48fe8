// The services as the window's side and the command line use them.

export { openDesk } from './desk.ts';
export { CallRefused, type Chooser, type Desk, type DeskOptions } from './desk-types.ts';
export { EXTENSION, type OpenDocument, type TakeOutcome } from './document-types.ts';
export {
  type Documents,
  type DocumentsOptions,
  type Opened,
  type OpenOutcome,
  openDocuments,
} from './documents.ts';
export { type Env, realEnv } from './env.ts';
export { nameOf } from './file-names.ts';
export { CONTENT_SECURITY_POLICY } from './page-policy.ts';
export { type Preferences, PreferencesSchema, preferencesFile } from './preferences.ts';
export { PROGRAM_FOLDER, programVersion, userDataFolder, WINDOW_FOLDER } from './program.ts';
export { type Recent, type RecentFile, recentFiles } from './recent.ts';
export type { Offer } from './recovery.ts';
export type { SaveOutcome } from './save.ts';
export type { SmallFile } from './small-file.ts';
export { goOnUnread } from './unread.ts';
export type { Version } from './versions.ts';
export { builtFiles, type WindowFile } from './window-files.ts';
