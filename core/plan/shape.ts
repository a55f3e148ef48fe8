// Holds a document against the schema piece by piece. The schema library gathers every issue and overflows its stack on
// about a hundred thousand of them (an import gone wrong has as many), and takes seconds to get there; one issue is
// all that the reader tells. Knows the inside of schemas; what an issue means in words is issues.ts. RULES: PL4.

import type { z } from 'zod';

/** Pieces with up to this many values are given to the schema library whole: it finds some six issues a value at most. */
const PIECE = 2_000;

/** What we look at inside a schema. */
export interface Definition {
  readonly type: string;
  readonly shape?: Readonly<Record<string, z.core.$ZodType>>;
  readonly valueType?: z.core.$ZodType;
  readonly element?: z.core.$ZodType;
}

/** A schema's definition without wrappers: optional, default, nullable, and the file's side of a codec. */
export function definitionOf(schema: z.core.$ZodType): Definition {
  let def = schema._zod.def as Definition & { innerType?: z.core.$ZodType; in?: z.core.$ZodType };
  for (let inner = def.innerType ?? def.in; inner !== undefined; inner = def.innerType ?? def.in) {
    def = inner._zod.def as typeof def;
  }
  return def;
}

/**
 * The first issue that some piece of the document gives, or null where every piece passes. A list that is too long is
 * not seen here but by the schema itself. `parse` is the schema library's check of one piece.
 */
export function firstIssue(schema: z.ZodType, document: unknown): z.core.$ZodIssue | null {
  if (sizeOf(document) <= PIECE || typeof document !== 'object' || document === null) {
    return schema.safeParse(document).error?.issues[0] ?? null;
  }
  const def = definitionOf(schema);
  if (def.type === 'object' && !Array.isArray(document)) return firstInRecord(schema, def, document);
  if (def.type === 'record' && !Array.isArray(document)) {
    return firstInPieces(Object.entries(document), def.valueType as z.ZodType, (piece) =>
      schema.safeParse(Object.fromEntries(piece)),
    );
  }
  if (def.type === 'array' && Array.isArray(document)) {
    return firstInPieces([...document.entries()], def.element as z.ZodType, (piece) =>
      schema.safeParse(piece.map(([, value]) => value)),
    );
  }
  // Large, and of another kind than the schema has here: one issue.
  return schema.safeParse(Array.isArray(document) ? [] : {}).error?.issues[0] ?? null;
}

/** Fields that are large on their own first, then the record with those left empty. */
function firstInRecord(schema: z.ZodType, def: Definition, document: object): z.core.$ZodIssue | null {
  const hollow: Record<string, unknown> = { ...document };
  for (const [key, value] of Object.entries(document)) {
    if (sizeOf(value) <= PIECE) continue;
    hollow[key] = Array.isArray(value) ? [] : {};
    const inner = def.shape && Object.hasOwn(def.shape, key) ? def.shape[key] : undefined;
    const issue = inner && firstIssue(inner as z.ZodType, value);
    if (issue) return below(key, issue);
  }
  return schema.safeParse(hollow).error?.issues[0] ?? null;
}

/** Entries that are large on their own one by one, the others in pieces that are not too large together. */
function firstInPieces<K extends string | number>(
  entries: readonly [K, unknown][],
  inner: z.ZodType,
  parse: (piece: [K, unknown][]) => z.ZodSafeParseResult<unknown>,
): z.core.$ZodIssue | null {
  let piece: [K, unknown][] = [];
  let size = 0;
  const flush = (): z.core.$ZodIssue | null => {
    const issue = parse(piece).error?.issues[0] ?? null;
    const [step, ...rest] = issue?.path ?? [];
    // In a list the piece has positions of its own.
    const key = typeof step === 'number' ? piece[step]?.[0] : step;
    piece = [];
    size = 0;
    return issue && key !== undefined ? { ...issue, path: [key, ...rest] } : issue;
  };
  for (const [key, value] of entries) {
    const taken = sizeOf(value);
    if (taken > PIECE) {
      const issue = firstIssue(inner, value);
      if (issue) return below(key, issue);
    } else {
      piece.push([key, value]);
      size += taken;
      if (size > PIECE) {
        const issue = flush();
        if (issue) return issue;
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
