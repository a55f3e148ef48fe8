// The services as the window's side and the command line use them.

export {
  type CloseOutcome,
  type DocumentView,
  type EditAnswer,
  EXTENSION,
  type OpenDocument,
  type TakeOutcome,
} from './document-types.ts';
export {
  type Documents,
  type DocumentsOptions,
  type Opened,
  type OpenOutcome,
  openDocuments,
} from './documents.ts';
export { type Env, realEnv } from './env.ts';
export { type Preferences, PreferencesSchema, preferencesFile } from './preferences.ts';
export { type Recent, type RecentFile, recentFiles } from './recent.ts';
export type { Offer } from './recovery.ts';
export type { SaveOutcome } from './save.ts';
export type { SmallFile } from './small-file.ts';
export type { Version } from './versions.ts';
