// The bytes of a journal and back. One header line, the bytes of the plan that the edits start from, then a line for each
// edit and its inverse. Every line carries the checksum of its own JSON and its number: what a crash tore off the end, or
// a disk spoiled, is known, and all before it still holds. Knows no disk. RULES: SK8.

import { z } from 'zod';
import type { Edit, PatchEdit } from '../../core/edit/index.ts';
import { readEdit, readPatch } from './edit-schema.ts';
import { hashOf } from './read-whole.ts';

const CHECK = 16;
const hash = z.string().regex(/^[0-9a-f]{64}$/);

const HeaderSchema = z.object({
  journal: z.literal('copewright-journal'),
  version: z.literal(1),
  /** The file that was opened or saved last, as it was then; null for a plan that has no file. */
  original: z
    .object({ path: z.string().min(1), hash, size: z.number().min(0), mtimeMs: z.number() })
    .nullable(),
  /** Hashes of what we ourselves wrote, or tried to write, to that file. */
  ours: z.array(hash).max(1000),
  /** The plan that the edits start from is in no file of its own: dropped on the window, a copy, an earlier version. */
  savedNowhere: z.boolean().default(false),
  title: z.string(),
  /** What the clock said when the journal began, ms since 1970. */
  at: z.number(),
  /** Edits before the first line of this file. */
  before: z.number().int().min(0),
  /** So many of those are in the saved file. Journals of earlier versions do not say it. */
  savedTo: z.number().int().min(0).default(0),
  base: z.object({ size: z.number().int().min(0), hash }),
});
export type JournalHeader = z.output<typeof HeaderSchema>;
/** As it may stand in a file: journals of earlier versions do not say where their plan was saved. */
type HeaderWritten = z.input<typeof HeaderSchema>;

/** An edit that was done, with the way back. */
export interface JournalEdit {
  readonly n: number;
  readonly at: number;
  readonly edit: Edit;
  readonly inverse: PatchEdit;
}
/** A save is about to put the plan after edit `n` into the file, with this hash. */
interface JournalSaving {
  readonly n: number;
  readonly saving: string;
}
export type JournalLine = JournalEdit | JournalSaving;

/** A line and the number of the edit that it is, or that it follows. */
export interface Line {
  readonly n: number;
  readonly bytes: Buffer;
}

export interface ParsedJournal {
  readonly header: JournalHeader;
  readonly base: Uint8Array;
  readonly edits: readonly JournalEdit[];
  /** The edits' lines as they stand there, one for each. */
  readonly lines: readonly Line[];
  readonly savings: readonly JournalSaving[];
  /** Where the last sound line ends. */
  readonly soundBytes: number;
  /** All that stands after this many of the edits: other edits, and what is not sound. */
  after(edits: number): Buffer;
  /** Something after the sound part was dropped. */
  readonly torn: boolean;
  /** What was dropped is more than a line that was cut off in its writing: edits that are spoiled, or of another version. */
  readonly strange: boolean;
}

function line(json: string): Buffer {
  return Buffer.from(`${hashOf(json).slice(0, CHECK)} ${json}\n`, 'utf8');
}

/** A line as bytes. JSON has no raw line ends, so a line is a line. */
export function encodeLine(content: JournalLine): Buffer {
  return line(JSON.stringify(content));
}

/** The start of a journal: header and plan. */
export function encodeStart(header: Omit<HeaderWritten, 'base'>, base: Uint8Array): Buffer {
  const whole: HeaderWritten = { ...header, base: { size: base.byteLength, hash: hashOf(base) } };
  return Buffer.concat([line(JSON.stringify(whole)), base, Buffer.from('\n')]);
}

/** Reads a journal; null where its start is not whole. Stops at the first line that is not sound. [SK8] */
export function parseJournal(bytes: Uint8Array): ParsedJournal | null {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const first = lineAt(buffer, 0);
  const header = first && HeaderSchema.safeParse(first.json);
  if (!first || !header?.success) return null;
  const end = first.end + header.data.base.size;
  const base = buffer.subarray(first.end, end);
  if (base.length !== header.data.base.size || buffer[end] !== 0x0a) return null;
  if (hashOf(base) !== header.data.base.hash) return null;

  const edits: JournalEdit[] = [];
  const lines: Line[] = [];
  const ends = [end + 1];
  const savings: JournalSaving[] = [];
  let at = end + 1;
  let n = header.data.before;
  while (at < buffer.length) {
    const next = lineAt(buffer, at);
    const content = next && contentOf(next.json, n);
    if (!next || !content) break;
    if ('saving' in content) savings.push(content);
    else {
      edits.push(content);
      n = content.n;
      lines.push({ n, bytes: buffer.subarray(at, next.end) });
      ends.push(next.end);
    }
    at = next.end;
  }
  const strange = buffer.indexOf(0x0a, at) >= 0;
  return {
    header: header.data,
    base,
    edits,
    lines,
    savings,
    soundBytes: at,
    after: (count) => buffer.subarray(count === edits.length ? at : ends[count]),
    torn: at < buffer.length,
    strange,
  };
}

function lineAt(buffer: Buffer, from: number): { json: unknown; end: number } | null {
  const newline = buffer.indexOf(0x0a, from);
  if (newline < from + CHECK + 1) return null;
  const check = buffer.toString('latin1', from, from + CHECK + 1);
  const json = buffer.toString('utf8', from + CHECK + 1, newline);
  if (check !== `${hashOf(json).slice(0, CHECK)} `) return null;
  try {
    return { json: JSON.parse(json), end: newline + 1 };
  } catch {
    return null;
  }
}

/** A line's content where it is the one that should follow edit `last`. */
function contentOf(json: unknown, last: number): JournalLine | null {
  if (typeof json !== 'object' || json === null) return null;
  const { n, at, edit, inverse, saving } = json as Record<string, unknown>;
  if (typeof n !== 'number') return null;
  if (typeof saving === 'string') return n <= last ? { n, saving } : null;
  const [forth, back] = [readEdit(edit), readPatch(inverse)];
  if (n !== last + 1 || typeof at !== 'number' || forth === null || back === null) return null;
  return { n, at, edit: forth, inverse: back };
}
