// Broken plan files by kind, seeded: what the reader and the command line must refuse with one sentence.

import { exampleFile, exampleText } from './example.ts';

type Loose = Record<string, unknown>;
export type Chance = () => number;

const pick = <T>(next: Chance, from: readonly T[]): T => from[Math.floor(next() * from.length)]!;
export const utf8 = (text: string) => new TextEncoder().encode(text);

/** All records (not lists) of a document with their depth-first paths. */
function records(value: unknown): Loose[] {
  if (typeof value !== 'object' || value === null) return [];
  const inner = Object.values(value).flatMap(records);
  return Array.isArray(value) ? inner : [value as Loose, ...inner];
}

function changed(change: (file: ReturnType<typeof exampleFile>) => void): Uint8Array {
  const file = exampleFile();
  change(file);
  return utf8(JSON.stringify(file, null, 2));
}

/** Text put in place of one number of the example, seeded. */
function withNumber(next: Chance, text: string): Uint8Array {
  const numbers = [...exampleText().matchAll(/(?<=[:[,]\s+)-?\d[\d.]*(?=[,\n])/g)];
  const found = pick(next, numbers);
  const example = exampleText();
  return utf8(example.slice(0, found.index) + text + example.slice(found.index + found[0].length));
}

export const BROKEN_KINDS: Record<string, (next: Chance) => Uint8Array> = {
  'cut short': (next) => {
    const bytes = utf8(exampleText());
    return bytes.subarray(0, Math.floor(next() * (bytes.length - 1)));
  },
  'cut short inside a character': (next) => {
    const bytes = utf8(exampleText().replace('Hall', 'Hall ½ ′ \u{1f600}'));
    const inside = [...bytes.keys()].filter((at) => (bytes[at]! & 0xc0) === 0x80);
    return bytes.subarray(0, pick(next, inside));
  },
  'wrong type': (next) =>
    changed((file) => {
      const record = pick(next, [
        file.levels[0]!.walls.w1,
        file.levels[0]!.openings.o1,
        file.profiles['case-a'],
      ] as Loose[]);
      const key = pick(
        next,
        Object.keys(record).filter((name) => typeof record[name] === 'number'),
      );
      record[key] = pick(next, ['12 in', true, [], {}, [1], 'x']);
    }),
  'dangling id': (next) =>
    changed((file) => {
      const level = file.levels[0]!;
      const [record, key] = pick<[Loose, string]>(next, [
        [level.walls.w1, 'from'],
        [level.walls.w1, 'to'],
        [level.openings.o1, 'wall'],
        [level.openings.o1.casing, 'left'],
        [level.builtIns.b1, 'wall'],
        [level.marks.k1, 'wall'],
        [level.rooms.r1, 'entry'],
        [level.rooms.r1.trim, 'base'],
        [level.faces['w1:right'].trim, 'base'],
      ]);
      record[key] = pick(next, ['nowhere', 'constructor', 'toString', 'n99']);
    }),
  'wrong kind of id': (next) =>
    changed((file) => {
      const level = file.levels[0]!;
      if (next() < 0.5) level.openings.o1.casing.left = 'base-a';
      else (level.rooms.r1.trim as Loose)[pick(next, ['base', 'shoe', 'crown', 'chairRail'])] = 'case-a';
    }),
  NaN: (next) => withNumber(next, pick(next, ['NaN', 'Infinity', '-Infinity', 'undefined'])),
  '1e999': (next) => withNumber(next, pick(next, ['1e999', '-1e999', '9'.repeat(400)])),
  'out of range': (next) => withNumber(next, pick(next, ['1e300', '-1e300'])),
  'deeply nested': (next) => utf8(pick(next, ['[', '{"a":', '[{"a":']).repeat(200_000)),
  'deeply nested inside a plan': (next) => withNumber(next, '['.repeat(200_000)),
  'duplicate key': (next) => {
    const lines = exampleText().split('\n');
    const at = pick(
      next,
      [...lines.keys()].filter((k) => /^\s+"[\w.-]+": [^{[]*,$/.test(lines[k]!)),
    );
    lines.splice(at, 0, lines[at]!);
    return utf8(lines.join('\n'));
  },
  'a __proto__ key': (next) => {
    const file = exampleFile();
    const record = pick(next, records(file));
    Object.defineProperty(record, '__proto__', { value: { thickness: 1 }, enumerable: true });
    return utf8(JSON.stringify(file, null, 1));
  },
  'newer version': (next) =>
    changed((file) => Object.assign(file, { version: 2 + Math.floor(next() * 1000) })),
  'wrong version or format': (next) =>
    changed((file) => {
      if (next() < 0.5) Object.assign(file, { version: pick<unknown>(next, [0, -1, 0.5, '1', null, []]) });
      else
        Object.assign(file, {
          format: pick<unknown>(next, ['copewright-report', 1, null, '', ['copewright-plan']]),
        });
    }),
  'wrong encoding': (next) => {
    const text = exampleText().replace('Hall', 'Hall ½é');
    return pick(next, [
      () => Buffer.from(text, 'utf16le'),
      () => Buffer.from(`\ufeff${text}`, 'utf16le'),
      () => Buffer.from(text, 'utf16le').swap16(),
      () => Buffer.from(text, 'latin1'),
    ])();
  },
  'unknown key': (next) =>
    changed((file) => {
      const level = file.levels[0]!;
      const strict: Loose[] = [
        file,
        level,
        level.walls.w1,
        level.openings.o1.casing,
        level.rooms.r1.old,
        file.counters,
        file.profiles['base-a'].stock[0]!,
        file.settings,
      ];
      pick(next, strict)[pick(next, ['colour', 'note', 'constructor', 'a b', 'x\ny', 'k'.repeat(500)])] = 1;
    }),
  'missing key': (next) =>
    changed((file) => {
      const [record, key] = pick<[Loose, string]>(next, [
        [file, 'title'],
        [file, 'levels'],
        [file, 'units'],
        [file.levels[0]!, 'id'],
        [file.levels[0]!.walls.w1, 'thickness'],
        [file.levels[0]!.openings.o1, 'at'],
        [file.levels[0]!.rooms.r1, 'at'],
        [file.profiles['base-a'], 'height'],
      ]);
      delete record[key];
    }),
  'not a record': (next) =>
    utf8(
      pick(next, ['[]', '1', '"copewright-plan"', 'null', 'true', '', ' ', '\u0000'.repeat(64), '<plan/>']),
    ),
  'byte changed to a brace or quote': (next) => {
    const bytes = utf8(exampleText());
    const structural = [...bytes.keys()].filter((at) => '{}[]:'.includes(String.fromCharCode(bytes[at]!)));
    const at = pick(
      next,
      structural.filter((k) => bytes[k - 1] !== 0x22 || bytes[k] === 0x3a),
    );
    bytes[at] = '"'.charCodeAt(0);
    return bytes;
  },
};
