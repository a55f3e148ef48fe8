// Walks JSON text without recursion and without building anything: says whether it is strict JSON within our limits,
// and where (offset and path) it is not; and finds the place of a path for messages about a document that parsed.
// The built-in parser takes duplicate keys, 1e999 and any depth without a word, and a parser that keeps places needs
// some hundred bytes for each one of the file; so the values come from JSON.parse and the places from here.
// Knows nothing of plans. RULES: PL2, PL3.

/** Keys and positions from the document's root to a value. */
export type JsonPath = readonly (string | number)[];

/** Deeper nesting is refused. A plan needs 8. */
export const MAX_DEPTH = 40;
/** More values than this in one file are refused: far above a plan of 100,000 walls. */
export const MAX_VALUES = 2_000_000;
/** More entries in one record, or in one list, are refused. */
export const MAX_ENTRIES = { record: 250_000, list: 10_000 } as const;

/** What is wrong with the text. `what` is a clause without a full stop. */
export interface ScanProblem {
  readonly offset: number;
  readonly path: JsonPath;
  readonly what: string;
}

/** The first thing that is wrong with the text as JSON, or null. Never throws, never recurses. */
export function scanJson(text: string): ScanProblem | null {
  const end = walk(text, () => false);
  return typeof end === 'number' ? null : end;
}

/**
 * Where the value (or the key) at `path` begins in a text that scanJson passed. Where the path leads nowhere, the
 * deepest value on the way.
 */
export function offsetOf(text: string, path: JsonPath, which: 'value' | 'key' = 'value'): number {
  let best = 0;
  let depth = -1;
  const end = walk(text, (at, offset, isKey) => {
    if (at.length > path.length || at.length <= depth || at.some((step, index) => step !== path[index]))
      return false;
    if (isKey && !(which === 'key' && at.length === path.length)) return false;
    best = offset;
    depth = at.length;
    return depth === path.length;
  });
  return typeof end === 'number' ? best : 0;
}

/** Line and column of an offset, both from 1; columns count UTF-16 code units, as editors do. */
export function lineAndColumn(text: string, offset: number): { line: number; column: number } {
  let line = 1;
  let start = 0;
  for (let at = 0; at < offset; at++) {
    const code = text.charCodeAt(at);
    const ends = code === 10 || (code === 13 && (at + 1 >= offset || text.charCodeAt(at + 1) !== 10));
    if (ends) {
      line++;
      start = at + 1;
    }
  }
  return { line, column: offset - start + 1 };
}

/** A path as people read it: `levels[0].walls.w3`, `faces["w1:right"]`. Empty for the document itself. Plans need 8 steps. */
export function pathText(path: JsonPath): string {
  let text = '';
  for (const step of path.slice(0, 12)) {
    if (typeof step === 'number') text += `[${step}]`;
    else if (/^[A-Za-z][\w-]{0,39}$/.test(step)) text += text === '' ? step : `.${step}`;
    else text += `[${quoted(step)}]`;
  }
  return path.length > 12 ? `${text}…` : text;
}

/** A string of the file for a message: quoted, on one line, nothing invisible, not longer than needed. */
export function quoted(text: string): string {
  const characters = Array.from(text.slice(0, 50));
  const shown = characters.length > 40 ? `${characters.slice(0, 40).join('')}…` : characters.join('');
  return JSON.stringify(shown).replace(
    /[\p{C}\p{Zl}\p{Zp}]/gu,
    (character) => `\\u{${character.codePointAt(0)!.toString(16)}}`,
  );
}

interface Frame {
  /** Keys seen so far; null for a list. */
  readonly keys: Set<string> | null;
  entries: number;
}

/**
 * Visits every value (and every key) in order with its live path and offset. Gives the offset where it stopped: the
 * visitor's choice, or the text's end; or the problem that it met.
 */
function walk(
  text: string,
  visit: (path: (string | number)[], offset: number, isKey: boolean) => boolean,
): number | ScanProblem {
  const path: (string | number)[] = [];
  const frames: Frame[] = [];
  const number = /-?(?:0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?/y;
  let at = spaces(text, 0);
  let values = 0;

  const wrong = (offset: number, what: string): ScanProblem => ({ offset, path: [...path], what });
  const unexpected = (offset: number, wanted: string): ScanProblem =>
    offset >= text.length
      ? wrong(text.length, `the file ends where ${wanted} was expected, as if it had been cut short`)
      : wrong(offset, `found ${shownAt(text, offset)} where ${wanted} was expected`);

  /** Reads `"key":` at `at`; puts the key on the path. True when the visitor wants to stop there. */
  const readKey = (frame: Frame): ScanProblem | boolean => {
    if (text[at] !== '"') return unexpected(at, 'a name in double quotes');
    const end = stringEnd(text, at);
    if (typeof end !== 'number') return wrong(end.offset, end.what);
    const raw = text.slice(at + 1, end - 1);
    const key = raw.includes('\\') ? (JSON.parse(`"${raw}"`) as string) : raw;
    if (key === '__proto__') return wrong(at, 'found the key "__proto__", which no file may hold; remove it');
    if (frame.keys!.has(key))
      return wrong(at, `the key ${quoted(key)} stands here for the second time; keep one of the two`);
    frame.keys!.add(key);
    path.push(key);
    if (visit(path, at, true)) return true;
    at = spaces(text, end);
    if (text[at] !== ':') return unexpected(at, 'a colon');
    at = spaces(text, at + 1);
    return false;
  };

  for (;;) {
    if (visit(path, at, false)) return at;
    if (++values > MAX_VALUES)
      return wrong(at, `the file holds more than ${MAX_VALUES} values; a plan needs far fewer`);
    const first = text[at];
    if (first === '{' || first === '[') {
      if (frames.length === MAX_DEPTH) {
        return wrong(at, `the nesting goes deeper than ${MAX_DEPTH} levels; a plan needs 8`);
      }
      const frame: Frame = { keys: first === '{' ? new Set() : null, entries: 1 };
      const close = first === '{' ? '}' : ']';
      at = spaces(text, at + 1);
      if (text[at] === close) {
        at++;
      } else {
        frames.push(frame);
        if (frame.keys === null) {
          path.push(0);
        } else {
          const read = readKey(frame);
          if (read === true) return at;
          if (read !== false) return read;
        }
        continue;
      }
    } else if (first === '"') {
      const end = stringEnd(text, at);
      if (typeof end !== 'number') return wrong(end.offset, end.what);
      at = end;
    } else if (first === '-' || (first !== undefined && first >= '0' && first <= '9')) {
      number.lastIndex = at;
      const digits = number.exec(text);
      if (digits === null) return unexpected(at + 1, 'a digit');
      const end = at + digits[0].length;
      if ((digits[2] !== undefined || digits[0].length > 300) && !Number.isFinite(Number(digits[0]))) {
        return wrong(at, `found ${digits[0].slice(0, 20)}, which is too large to be a number here`);
      }
      at = end;
    } else {
      const literal = ['true', 'false', 'null'].find((word) => text.startsWith(word, at));
      if (literal === undefined) return unexpected(at, 'a value');
      at += literal.length;
    }

    // After a value: what follows it, through as many closing brackets as stand here.
    for (;;) {
      at = spaces(text, at);
      const frame = frames[frames.length - 1];
      if (frame === undefined) return at === text.length ? at : unexpected(at, 'the end of the file');
      if (text[at] === ',') {
        const kind = frame.keys === null ? 'list' : 'record';
        if (++frame.entries > MAX_ENTRIES[kind]) {
          return wrong(
            at,
            `this ${kind} holds more than ${MAX_ENTRIES[kind]} entries; a plan needs far fewer`,
          );
        }
        at = spaces(text, at + 1);
        const step = path.pop()!;
        if (frame.keys === null) {
          path.push((step as number) + 1);
        } else {
          const read = readKey(frame);
          if (read === true) return at;
          if (read !== false) return read;
        }
        break;
      }
      const close = frame.keys === null ? ']' : '}';
      if (text[at] !== close) return unexpected(at, `a comma or the closing "${close}"`);
      at++;
      frames.pop();
      path.pop();
    }
  }
}

/** JSON's own white space only. */
function spaces(text: string, from: number): number {
  let at = from;
  for (;;) {
    const code = text.charCodeAt(at);
    if (code !== 32 && code !== 10 && code !== 13 && code !== 9) return at;
    at++;
  }
}

/** The offset just after the string that opens at `from`, or what is wrong with it. */
function stringEnd(text: string, from: number): number | { offset: number; what: string } {
  for (let at = from + 1; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 34) return at + 1;
    if (code < 32) {
      return {
        offset: at,
        what: `found ${shownAt(text, at)} inside a quoted text, where it must be written with a backslash`,
      };
    }
    if (code === 92) {
      const escaped = text[at + 1];
      if (escaped === undefined) break;
      if (escaped === 'u') {
        if (!/^[0-9A-Fa-f]{4}$/.test(text.slice(at + 2, at + 6))) {
          if (at + 6 > text.length) break;
          return { offset: at, what: 'found \\u without four hexadecimal digits' };
        }
        at += 5;
      } else if ('"\\/bfnrt'.includes(escaped)) {
        at++;
      } else {
        return { offset: at, what: `found a backslash before ${shownAt(text, at + 1)}, which means nothing` };
      }
    }
  }
  return {
    offset: text.length,
    what: 'the file ends inside a quoted text, as if it had been cut short',
  };
}

/** The character at `at` for a message; by its number where it cannot be seen. */
function shownAt(text: string, at: number): string {
  const character = String.fromCodePoint(text.codePointAt(at)!);
  if (/[\p{C}\p{Z}]/u.test(character)) {
    return `the character U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`;
  }
  return `“${character}”`;
}
