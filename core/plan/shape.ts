// Reads a document by the schema piece by piece, and stops at the first issue. The schema library gathers every issue and
// overflows its stack on about a hundred thousand of them (an import gone wrong has as many), and takes seconds to get
// there; one issue is all that the reader tells. What passes is put together from its pieces, so that nothing is read
// twice. Knows the inside of schemas; what an issue means in words is issues.ts. RULES: PL4.

import type { z } from 'zod';
import type { JsonPath } from './scan.ts';

/** Pieces with up to this many values are given to the schema library whole: it finds some six issues a value at most. */
const PIECE = 2_000;

/** What the schema makes of a document, or the first issue that some piece of it gives. */
export type PieceRead =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly issue: z.core.$ZodIssue };

/** What we look at inside a schema. */
export interface Definition {
  readonly type: string;
  readonly shape?: Readonly<Record<string, z.core.$ZodType>>;
  readonly valueType?: z.core.$ZodType;
  readonly element?: z.core.$ZodType;
}

/** A schema without wrappers: optional, default, nullable, and the file's side of a codec. */
function unwrapped(schema: z.core.$ZodType): z.core.$ZodType {
  const { innerType, in: file } = schema._zod.def as { innerType?: z.core.$ZodType; in?: z.core.$ZodType };
  const inner = innerType ?? file;
  return inner === undefined ? schema : unwrapped(inner);
}

/** The definition of a schema without wrappers. */
export function definitionOf(schema: z.core.$ZodType): Definition {
  return unwrapped(schema)._zod.def as Definition;
}

/** The schema at a path of a document, wrappers and all; null where it knows none there. */
export function schemaAt(root: z.core.$ZodType, path: JsonPath): z.core.$ZodType | null {
  let schema: z.core.$ZodType | undefined = root;
  for (const step of path) {
    const def: Definition = definitionOf(schema);
    schema = def.shape && Object.hasOwn(def.shape, step) ? def.shape[step] : (def.valueType ?? def.element);
    if (schema === undefined) return null;
  }
  return schema;
}

/** Reads a document of any size. The value is what `schema.parse` gives; an issue need not be the one it gives first. */
export function readInPieces(schema: z.ZodType, document: unknown): PieceRead {
  if (sizeOf(document) <= PIECE || typeof document !== 'object' || document === null) {
    return readWhole(schema, document);
  }
  const def = definitionOf(schema);
  if (def.type === 'object' && !Array.isArray(document)) return readRecord(schema, def, document);
  if (def.type === 'record' && !Array.isArray(document)) return readMap(schema, def, document);
  if (def.type === 'array' && Array.isArray(document)) return readList(schema, def, document);
  // Large, and of another kind than the schema has here: one issue.
  return readWhole(schema, Array.isArray(document) ? [] : {});
}

function readWhole(schema: z.ZodType, document: unknown): PieceRead {
  const read = schema.safeParse(document);
  return read.success ? { ok: true, value: read.data } : { ok: false, issue: read.error.issues[0]! };
}

/** Fields that are large on their own first, then the record with those left empty but for a list's first entry. */
function readRecord(schema: z.ZodType, def: Definition, document: object): PieceRead {
  const hollow: Record<string, unknown> = { ...document };
  const large: Record<string, unknown> = {};
  for (const [key, value] of Object.entries(document)) {
    if (sizeOf(value) <= PIECE) continue;
    hollow[key] = Array.isArray(value) ? value.slice(0, 1).filter((each) => sizeOf(each) <= PIECE) : {};
    const inner = def.shape && Object.hasOwn(def.shape, key) ? def.shape[key] : undefined;
    if (inner === undefined) continue;
    const read = readInPieces(inner as z.ZodType, value);
    if (!read.ok) return { ok: false, issue: below(key, read.issue) };
    large[key] = read.value;
  }
  const read = readWhole(schema, hollow);
  return read.ok ? { ok: true, value: Object.assign(read.value as object, large) } : read;
}

function readMap(schema: z.ZodType, def: Definition, document: object): PieceRead {
  const value: Record<string, unknown> = {};
  const issue = readEntries(Object.entries(document), def.valueType as z.ZodType, {
    large: (key, inner) => {
      const issue = keyIssue(schema, key);
      if (issue === null) value[key] = inner;
      return issue;
    },
    piece: (entries) => {
      const read = readWhole(schema, Object.fromEntries(entries));
      if (!read.ok) return read.issue;
      Object.assign(value, read.value);
      return null;
    },
  });
  return issue === null ? { ok: true, value } : { ok: false, issue };
}

/** What a map says against a key, whatever stands under it. */
function keyIssue(schema: z.ZodType, key: string): z.core.$ZodIssue | null {
  const read = schema.safeParse({ [key]: null });
  return read.error?.issues.find(({ code }) => code === 'invalid_key') ?? null;
}

function readList(schema: z.ZodType, def: Definition, document: readonly unknown[]): PieceRead {
  const value: unknown[] = [];
  const issue = readEntries([...document.entries()], def.element as z.ZodType, {
    large: (_, inner) => {
      value.push(inner);
      return null;
    },
    piece: (entries) => {
      const read = readWhole(
        schema,
        entries.map(([, each]) => each),
      );
      if (read.ok) {
        value.push(...(read.value as unknown[]));
        return null;
      }
      // In the piece its values have positions of their own.
      const [step, ...rest] = read.issue.path;
      const at = typeof step === 'number' ? entries[step]?.[0] : undefined;
      return at === undefined ? read.issue : { ...read.issue, path: [at, ...rest] };
    },
  });
  if (issue !== null) return { ok: false, issue };
  const maximum = mostEntries(schema);
  if (document.length <= maximum) return { ok: true, value };
  const message = `more than ${maximum}`;
  return { ok: false, issue: { code: 'too_big', origin: 'array', maximum, path: [], message } };
}

/** How many entries a list may have. */
function mostEntries(schema: z.core.$ZodType): number {
  const checks = unwrapped(schema)._zod.def.checks ?? [];
  const lengths = checks.map(({ _zod }) => _zod.def as { check: string; maximum?: number });
  return lengths.find(({ check }) => check === 'max_length')?.maximum ?? Number.POSITIVE_INFINITY;
}

interface Taker<K> {
  large(key: K, value: unknown): z.core.$ZodIssue | null;
  piece(entries: readonly (readonly [K, unknown])[]): z.core.$ZodIssue | null;
}

/** Entries in their order: those that are large on their own one by one, the others in pieces not too large together. */
function readEntries<K extends string | number>(
  entries: readonly (readonly [K, unknown])[],
  inner: z.ZodType,
  take: Taker<K>,
): z.core.$ZodIssue | null {
  let piece: (readonly [K, unknown])[] = [];
  let size = 0;
  const flush = (): z.core.$ZodIssue | null => {
    const issue = piece.length === 0 ? null : take.piece(piece);
    piece = [];
    size = 0;
    return issue;
  };
  for (const entry of entries) {
    const [key, value] = entry;
    const taken = sizeOf(value);
    if (taken > PIECE) {
      const issue = flush();
      if (issue !== null) return issue;
      const read = readInPieces(inner, value);
      if (!read.ok) return below(key, read.issue);
      const refused = take.large(key, read.value);
      if (refused !== null) return refused;
    } else {
      piece.push(entry);
      size += taken;
      if (size > PIECE) {
        const issue = flush();
        if (issue !== null) return issue;
      }
    }
  }
  return flush();
}

function below(key: string | number, issue: z.core.$ZodIssue): z.core.$ZodIssue {
  return { ...issue, path: [key, ...issue.path] };
}

/** How many values a value holds, itself included; counting stops just above PIECE. */
function sizeOf(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 1;
  let size = 1;
  const inner = Array.isArray(value) ? value : Object.values(value);
  for (const part of inner) {
    size += sizeOf(part);
    if (size > PIECE) break;
  }
  return size;
}
