// Turns the schema's first issue into what was found and what would be right, in plain words, with the path that it
// concerns. The reader adds the place. Knows the schema library's issues; nothing else in core does. RULES: PL4.

import type { z } from 'zod';
import { type JsonPath, quoted } from './scan.ts';
import { PlanSchema } from './schema.ts';
import { definitionOf, schemaAt } from './shape.ts';

/** What is wrong at a path. `what` is a clause without a full stop; `on` tells whether the key or the value is meant. */
export interface Problem {
  readonly path: JsonPath;
  readonly on: 'key' | 'value';
  readonly what: string;
}

type Issue = z.core.$ZodIssue;

/** The first thing that the schema found, as a problem. `document` is the parsed JSON that the schema was given. */
export function problemOf(issue: Issue, document: unknown): Problem {
  const path = issue.path.filter((step) => typeof step !== 'symbol');
  const value = valueAt(document, path);

  if (issue.code === 'unrecognized_keys') {
    const known = alike(issue.keys[0]!, keysAt(path));
    const which = known.length === 0 ? '' : `; known keys are ${known.join(', ')}`;
    return {
      path: [...path, issue.keys[0]!],
      on: 'key',
      what: `the key ${quoted(issue.keys[0]!)} is not known here${which}`,
    };
  }
  if (issue.code === 'invalid_key') {
    const wanted = issue.issues[0]?.message ?? 'another key';
    return { path, on: 'key', what: `the key ${quoted(String(path.at(-1)))} should be ${wanted}` };
  }
  const last = path.at(-1);
  if (value === undefined && typeof last === 'string') {
    return {
      path: path.slice(0, -1),
      on: 'value',
      what: `${quoted(last)} is missing; it should be ${wanted(issue)}`,
    };
  }
  return { path, on: 'value', what: `found ${shown(value)} where there should be ${wanted(issue)}` };
}

/** The value at a path of the parsed JSON; undefined where the path leads nowhere. */
export function valueAt(document: unknown, path: JsonPath): unknown {
  let value = document;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

/** A value of the file for a message, short. */
export function shown(value: unknown): string {
  if (typeof value === 'string') return quoted(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) return 'a record in braces';
  return value === undefined ? 'nothing' : String(value);
}

/** What would be right, as a noun. */
function wanted(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return typeName(issue.expected);
    case 'invalid_value':
      return oneOf(issue.values);
    case 'invalid_union':
      return oneOf(
        issue.errors.flat().flatMap((inner) => (inner.code === 'invalid_value' ? inner.values : [])),
      );
    case 'too_small':
      if (issue.origin === 'array') return `a list of at least ${issue.minimum}`;
      return `a number ${issue.inclusive ? 'not below' : 'above'} ${issue.minimum}`;
    case 'too_big':
      if (issue.origin === 'array') return `a list of at most ${issue.maximum}`;
      if (issue.origin === 'string') return `a text of at most ${issue.maximum} characters`;
      return `a number ${issue.inclusive ? 'not above' : 'below'} ${issue.maximum}`;
    default:
      return issue.message;
  }
}

function typeName(expected: string): string {
  switch (expected) {
    case 'string':
      return 'a text in quotes';
    case 'int':
      return 'a whole number';
    case 'boolean':
      return 'true or false';
    case 'array':
    case 'tuple':
      return 'a list in square brackets';
    case 'object':
    case 'record':
      return 'a record in braces';
    default:
      return `a ${expected}`;
  }
}

function oneOf(values: readonly unknown[]): string {
  const shownValues = values.map((value) => (typeof value === 'string' ? quoted(value) : String(value)));
  return shownValues.length === 1 ? shownValues[0]! : `one of ${shownValues.join(', ')}`;
}

/** All of a short list of known keys; of a long one those with the first letter of the key that was found. */
function alike(found: string, known: string[]): string[] {
  if (known.length <= 12) return known;
  return known.filter((key) => key[0]!.toLowerCase() === found[0]?.toLowerCase());
}

/** The keys that the schema knows in the record at a path; none where it is no record with fixed keys. */
function keysAt(path: JsonPath): string[] {
  const schema = schemaAt(PlanSchema, path);
  return schema === null ? [] : Object.keys(definitionOf(schema).shape ?? {});
}
