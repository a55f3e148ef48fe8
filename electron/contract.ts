// The bridge between the window and what runs beside it: every call with the schema of what is sent and the type of what
// comes back, and every event. Two adapters carry it (the desktop runtime's channels, loopback HTTP); both check what is
// sent against these schemas. Plans and edits cross as they are in memory: ticks, plain JSON. The window holds opaque
// handles and ids, never a path.

import { z } from 'zod';
import type { Edit, EditFailureCode, MendNote, PatchEdit } from '../core/edit/index.ts';
import type { Plan } from '../core/plan/index.ts';
import { SHEET_SIZES, type SheetSize } from '../core/sheets/items.ts';
import { PLAN_SCALE_KEYS } from '../core/sheets/scale.ts';
import type { CallName, EventName } from './channels.ts';

export { BRIDGE_GLOBAL, CALL_NAMES, type CallName, type EventName } from './channels.ts';

/** What a window may know of an open plan. */
export interface DocumentView {
  readonly handle: string;
  /** The file's name; null for a plan that has no file. */
  readonly name: string | null;
  readonly title: string;
  /** Rises by one with each edit that changes something. */
  readonly revision: number;
  readonly unsaved: boolean;
  /** Why autosave does nothing until a save by hand; null where it works or is off. */
  readonly autosaveStopped: string | null;
  /** One sentence while edits cannot be kept for recovery; null while they are. */
  readonly journalProblem: string | null;
}

/** An open plan as it is now. */
export interface HeldPlan {
  readonly view: DocumentView;
  readonly plan: Plan;
  /** Edits with their inverses, oldest first, that can be undone: after recovery, and after the window was loaded again. */
  readonly history: readonly { readonly edit: Edit; readonly inverse: PatchEdit }[];
}

export interface OpenedPlan extends HeldPlan {
  readonly outcome: 'opened';
  readonly notes: readonly MendNote[];
}

export interface VersionNote {
  readonly id: string;
  /** When it was kept, by the clock of then, ms since 1970. */
  readonly at: number;
}

export type OpenAnswer =
  | OpenedPlan
  /** It is open here already. */
  | { readonly outcome: 'shown'; readonly handle: string }
  /** Another running copy holds it. `id` opens a copy of it as an untitled plan, by `openPlaceCopy`. */
  | { readonly outcome: 'held'; readonly message: string; readonly id: string | null }
  | { readonly outcome: 'refused'; readonly message: string; readonly lastGood: VersionNote | null }
  /** The user closed the dialog. */
  | { readonly outcome: 'cancelled' }
  /** This form has no file dialog of the system: the window shows its own, with `places`. */
  | { readonly outcome: 'choose' };

export type EditAnswer =
  | { readonly ok: true; readonly revision: number; readonly inverse: PatchEdit; readonly unsaved: boolean }
  | {
      readonly ok: false;
      readonly code: EditFailureCode | 'bad-edit' | 'out-of-step' | 'closed';
      readonly message: string;
    };

export type SaveAnswer =
  | { readonly outcome: 'saved'; readonly name: string }
  /** Another program changed the file; nothing was written. `theirs` says which change 'keep mine' is for. */
  | { readonly outcome: 'conflict'; readonly theirs: string; readonly message: string }
  | { readonly outcome: 'refused'; readonly message: string; readonly elsewhere: boolean }
  | { readonly outcome: 'cancelled' }
  | { readonly outcome: 'choose' };

export type TakeAnswer =
  | { readonly outcome: 'taken'; readonly plan: Plan; readonly view: DocumentView }
  | { readonly outcome: 'refused'; readonly message: string };

/**
 * `open`: another window has it. `changed`: it, or its file, is not as was shown. `gone`: it is not there any more.
 * `kept`: the disk does not let it be removed.
 */
export type DiscardAnswer = 'discarded' | 'open' | 'changed' | 'gone' | 'kept';

export type CloseAnswer =
  | { readonly outcome: 'closed'; readonly kept: boolean }
  | { readonly outcome: 'refused'; readonly message: string };

/** What became of the file that work belongs to: `none` where there was none, `unread` where that cannot be said now. */
const ORIGINALS = ['same', 'changed', 'gone', 'unread', 'none'] as const;

/** Work that a crash left. */
export interface RecoveryOffer {
  readonly id: string;
  readonly title: string;
  /** Name of the file it belongs to; null for a plan that was never saved. */
  readonly name: string | null;
  readonly at: number | null;
  readonly edits: number;
  readonly original: (typeof ORIGINALS)[number];
  readonly torn: boolean;
  readonly unreadable: boolean;
}

export interface RecentPlan {
  readonly id: string;
  readonly name: string;
  readonly folder: string;
}

export const PreferencesPatchSchema = z.strictObject({
  units: z.enum(['imperial', 'metric']).optional(),
  theme: z.enum(['system', 'light', 'dark']).optional(),
  autosaveSeconds: z.number().int().min(5).max(3600).nullable().optional(),
  angleStepDeg: z.number().min(0).max(90).optional(),
  gridMm: z.number().min(1).max(10_000).nullable().optional(),
});
export interface WindowPreferences {
  readonly units: 'imperial' | 'metric';
  readonly theme: 'system' | 'light' | 'dark';
  readonly autosaveSeconds: number | null;
  /** Walls that are drawn snap to multiples of it; 0: to none. */
  readonly angleStepDeg: number;
  /** Spacing of the grid; null: what is usual in a plan's units. */
  readonly gridMm: number | null;
}

/** What a new window is told first. */
export interface StartAnswer {
  readonly version: string;
  readonly preferences: WindowPreferences;
  readonly recent: readonly RecentPlan[];
  readonly offers: readonly RecoveryOffer[];
  /** The plan that was named at the start, or that this window showed before it was loaded again. */
  readonly opened: OpenAnswer | null;
}

/** One folder as the window's own file dialog shows it. Ids are good until the program ends. */
export interface Place {
  readonly id: string;
  readonly name: string;
  /** From the outermost folder down to this one. */
  readonly trail: readonly { readonly id: string; readonly name: string }[];
  readonly entries: readonly {
    readonly id: string;
    readonly name: string;
    readonly kind: 'folder' | 'plan' | 'other';
  }[];
  /** True where nothing can be written here. */
  readonly readOnly: boolean;
}

export type PlaceAnswer =
  | { readonly outcome: 'place'; readonly place: Place }
  | { readonly outcome: 'refused'; readonly message: string };

export type ExportAnswer =
  /** `id` is for `showExport` and `openExport`, where the system can. */
  | {
      readonly outcome: 'written';
      readonly id: string;
      readonly names: readonly string[];
      /** One sentence: which characters could not be printed, and where. */
      readonly note: string | null;
    }
  | { readonly outcome: 'refused'; readonly message: string }
  /** A file of that name is there; send `over: true` to replace it. */
  | { readonly outcome: 'exists'; readonly message: string }
  | { readonly outcome: 'cancelled' }
  | { readonly outcome: 'choose' };

export const DEMO_HOUSES = ['thimble-cottage', 'larkspur-house'] as const;

/** Files that a plan can be handed over as. `csv` is a folder of tables. */
export const EXPORT_KINDS = ['pdf', 'csv', 'report'] as const;
export type ExportKind = (typeof EXPORT_KINDS)[number];

/** What the system can do in a text field. */
export const FIELD_EDITS = ['undo', 'redo', 'copy', 'paste', 'selectAll'] as const;
export type FieldEdit = (typeof FIELD_EDITS)[number];

const handle = z.string().regex(/^[0-9a-f]{32}$/);
const opaque = z.string().min(1).max(128);
const nothing = z.strictObject({});
const sheetSizes = Object.keys(SHEET_SIZES) as [SheetSize, ...SheetSize[]];
/** A file name typed by the user: no path in it. The services refuse what the file system does not take. */
const fileName = z
  .string()
  .min(1)
  .max(200)
  .regex(/^[^/\\\p{Cc}]+$/u);

const exportWish = {
  handle,
  /** The revision the window shows: another is refused, so that nothing stale is handed over. */
  revision: z.number().int().min(0),
  kind: z.enum(EXPORT_KINDS),
  sheet: z.enum(sheetSizes),
  /** Of the floor plans; absent: each as large as fits its sheet. */
  scale: z.enum(PLAN_SCALE_KEYS as [string, ...string[]]).optional(),
  /** `2026-01-31`, printed on every sheet. */
  date: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
};

/** Every call: what is sent. `edit` is checked in depth by the services, which know every edit's shape. */
export const CALLS = {
  start: nothing,
  newPlan: z.strictObject({ units: z.enum(['imperial', 'metric']) }),
  openDemo: z.strictObject({ house: z.enum(DEMO_HOUSES) }),
  /** Asks the user for a file. */
  open: nothing,
  openRecent: z.strictObject({ id: opaque }),
  openPlace: z.strictObject({ id: opaque }),
  /** The same file's contents as an untitled plan. */
  openPlaceCopy: z.strictObject({ id: opaque }),
  /** A file that was dropped on the window, as text: an untitled plan. The desktop form opens the file itself. */
  openText: z.strictObject({ name: z.string().max(255), text: z.string() }),
  openVersion: z.strictObject({ id: opaque }),
  recover: z.strictObject({ id: opaque }),
  /** With what was shown of it: what is more by now, or the only copy, is not thrown away. */
  discardRecovery: z.strictObject({
    id: opaque,
    edits: z.number().int().min(0),
    at: z.number().nullable(),
    original: z.enum(ORIGINALS),
    torn: z.boolean(),
    unreadable: z.boolean(),
  }),
  offers: nothing,
  versions: z.strictObject({ handle }),
  plan: z.strictObject({ handle }),
  edit: z.strictObject({ handle, revision: z.number().int().min(0), edit: z.unknown() }),
  save: z.strictObject({ handle }),
  saveAs: z.strictObject({ handle }),
  savePlace: z.strictObject({ handle, place: opaque, name: fileName, over: z.boolean() }),
  saveBeside: z.strictObject({ handle }),
  keepMine: z.strictObject({ handle, theirs: z.string().max(128) }),
  takeTheirs: z.strictObject({ handle }),
  look: z.strictObject({ handle }),
  close: z.strictObject({ handle, lose: z.boolean() }),
  places: z.strictObject({ id: opaque.nullable() }),
  export: z.strictObject(exportWish),
  exportPlace: z.strictObject({ ...exportWish, place: opaque, name: fileName, over: z.boolean() }),
  cancelExport: nothing,
  /** Shows the folder of a finished export, by the id of its answer. */
  showExport: z.strictObject({ id: opaque }),
  /** Opens an exported PDF in the system's viewer, to be read or printed. */
  openExport: z.strictObject({ id: opaque }),
  /** The system's own editing in the focused field, for a menu that took the key from it. */
  editField: z.strictObject({ how: z.enum(FIELD_EDITS) }),
  /** Answers a `closing` event: the window asks its user first, and is not to be closed meanwhile. */
  stay: nothing,
  setPreferences: PreferencesPatchSchema,
  recent: nothing,
  clearRecent: nothing,
  /** Opens one of the program's own outside links, by its id in a table of the host. */
  openLink: z.strictObject({ id: opaque }),
  /** The window is ready to go; answers a `closing` event. */
  quit: nothing,
} as const satisfies Record<CallName, z.ZodType>;

/** What each call answers. */
export interface Answers {
  start: StartAnswer;
  newPlan: OpenAnswer;
  openDemo: OpenAnswer;
  open: OpenAnswer;
  openRecent: OpenAnswer;
  openPlace: OpenAnswer;
  openPlaceCopy: OpenAnswer;
  openText: OpenAnswer;
  openVersion: OpenAnswer;
  recover: OpenAnswer;
  discardRecovery: DiscardAnswer;
  offers: readonly RecoveryOffer[];
  versions: readonly VersionNote[];
  plan: HeldPlan | null;
  edit: EditAnswer;
  save: SaveAnswer;
  saveAs: SaveAnswer;
  savePlace: SaveAnswer | { readonly outcome: 'exists'; readonly message: string };
  saveBeside: SaveAnswer;
  keepMine: SaveAnswer;
  takeTheirs: TakeAnswer;
  look: 'same' | 'changed' | 'gone' | 'unread' | 'none';
  close: CloseAnswer;
  places: PlaceAnswer;
  export: ExportAnswer;
  exportPlace: ExportAnswer;
  cancelExport: null;
  showExport: null;
  /** One sentence where it cannot be opened. */
  openExport: string | null;
  editField: null;
  stay: null;
  setPreferences: WindowPreferences;
  recent: readonly RecentPlan[];
  clearRecent: null;
  openLink: null;
  quit: null;
}
export type Sent<C extends CallName> = z.input<(typeof CALLS)[C]>;
export type Answer<C extends CallName> = Answers[C];

/** What comes to the window unasked. */
export interface Events extends Record<EventName, unknown> {
  /** An open plan's state changed: unsaved, name, journal. */
  changed: DocumentView;
  /** A menu item or system shortcut: the id of a command of the window's own table. */
  command: { readonly id: string };
  /** A file the system or a second start asked for was opened. */
  opened: OpenAnswer;
  /** How far an export is; `done` and `all` count steps. */
  progress: { readonly words: string; readonly done: number; readonly all: number };
  /** The user wants the window closed: keep what is open, then call `quit`. */
  closing: Record<string, never>;
}
/** What the window has: one function per call, and events. Set by the preload, or by the window's loopback adapter. */
export type Bridge = {
  readonly [C in CallName]: (sent: Sent<C>) => Promise<Answer<C>>;
} & {
  readonly form: 'desktop' | 'browser';
  readonly platform: 'linux' | 'mac' | 'windows';
  /** Opens a dropped file. */
  openFile(file: File): Promise<OpenAnswer>;
  /** Gives back what ends the listening. */
  on<E extends EventName>(event: E, listener: (data: Events[E]) => void): () => void;
};

/** Payloads larger than this are refused by both adapters, bytes of JSON. */
export const MAX_PAYLOAD_BYTES = 64 * 1024 * 1024;
