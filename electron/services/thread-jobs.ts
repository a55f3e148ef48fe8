// The jobs that a thread of its own does, as data: what goes over and what comes back.

import type { MendNote } from '../../core/edit/index.ts';
import type { Plan } from '../../core/plan/schema.ts';
import type { SheetSize } from '../../core/sheets/items.ts';
import type { ExportKind } from '../contract.ts';

export type ThreadJob =
  | { readonly kind: 'understand'; readonly bytes: Uint8Array }
  | {
      readonly kind: 'export';
      readonly plan: Plan;
      readonly what: ExportKind;
      readonly sheet: SheetSize;
      /** `2026-01-31`. */
      readonly date: string;
      /** Of the floor plans; absent: each as large as fits. */
      readonly scale?: string | undefined;
    };

export type UnderstandAnswer =
  | { readonly ok: true; readonly plan: Plan; readonly notes: readonly MendNote[] }
  | { readonly ok: false; readonly what: string; readonly newer: boolean };

/** A file that an export makes. `name` is empty where there is but one. */
export interface MadeFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** `note`: what of it could not be printed. `message`: why nothing could be made. */
export type MadeExport =
  | { readonly ok: true; readonly files: readonly MadeFile[]; readonly note: string | null }
  | { readonly ok: false; readonly message: string };

export interface ThreadAnswers {
  readonly understand: UnderstandAnswer;
  readonly export: MadeExport;
}

export type ThreadMessage =
  | { readonly kind: 'progress'; readonly words: string; readonly done: number; readonly all: number }
  | { readonly kind: 'failed'; readonly message: string }
  | { readonly kind: 'done'; readonly answer: ThreadAnswers[keyof ThreadAnswers] };
