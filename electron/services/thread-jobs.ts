// The jobs that a thread of its own does, as data: what goes over and what comes back. A plan is never in a message whole:
// it goes and comes in pieces (plan-pieces.ts).

import type { MessagePort } from 'node:worker_threads';
import type { Edit, MendNote } from '../../core/edit/index.ts';
import type { SheetSize } from '../../core/sheets/items.ts';
import type { ExportKind } from '../contract.ts';

export type ThreadJob =
  /** Bytes to a plan that can be edited. Makes a plan, where the answer is good. */
  | { readonly kind: 'understand'; readonly bytes: Uint8Array }
  /** Whether bytes are such a plan. */
  | { readonly kind: 'check'; readonly bytes: Uint8Array }
  /** Does edits again on the plan that `bytes` hold, until one cannot be done. Makes a plan, where the answer is good. */
  | { readonly kind: 'replay'; readonly bytes: Uint8Array; readonly edits: readonly Edit[] }
  /** A plan, sent in pieces, to the bytes of its file. */
  | { readonly kind: 'write' }
  /** A plan, sent in pieces, to what it is handed over as. */
  | {
      readonly kind: 'export';
      readonly what: ExportKind;
      readonly sheet: SheetSize;
      /** `2026-01-31`. */
      readonly date: string;
      /** Of the floor plans; absent: each as large as fits. */
      readonly scale?: string | undefined;
    };

/** What a thread is started with. Pieces of a plan go over `pieces` both ways; null after the last one to the thread. */
export interface ThreadStart {
  readonly job: ThreadJob;
  readonly pieces: MessagePort;
}

export interface NoPlan {
  readonly ok: false;
  /** Why, in one sentence without the file. */
  readonly what: string;
  readonly newer: boolean;
}

export interface PlanText {
  readonly bytes: Uint8Array;
  /** SHA-256, hex. */
  readonly hash: string;
}

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
  readonly understand: { readonly ok: true; readonly notes: readonly MendNote[] } | NoPlan;
  readonly check: { readonly ok: true } | NoPlan;
  /** `done`: how many of the edits were done. */
  readonly replay: { readonly ok: true; readonly done: number } | NoPlan;
  /** `why`: the plan holds what no file can hold. */
  readonly write: ({ readonly ok: true } & PlanText) | { readonly ok: false; readonly why: string };
  readonly export: MadeExport;
}

export type ThreadMessage =
  | { readonly kind: 'progress'; readonly words: string; readonly done: number; readonly all: number }
  | { readonly kind: 'failed'; readonly message: string }
  | { readonly kind: 'done'; readonly answer: ThreadAnswers[keyof ThreadAnswers] };
