import { type AnyNode, parse } from '@humanwhocodes/momoa';
import { describe, expect, it } from 'vitest';
import {
  type JsonPath,
  lineAndColumn,
  MAX_DEPTH,
  MAX_ENTRIES,
  offsetOf,
  pathText,
  scanJson,
} from '../../../core/plan/scan.ts';
import { cases, random } from '../../seeds.ts';
import { exampleText } from './example.ts';

/** Strict JSON or not, by the built-in parser. */
function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

const AWKWARD = [
  '',
  ' ',
  '{}',
  '[]',
  'null',
  'tru',
  'nul',
  'truex',
  '"',
  '"\\',
  '"\\u12',
  '"\\u12g4"',
  '"\\ud800"',
  '"\\x"',
  '"\u0001"',
  '"\u007f\u2028"',
  '0',
  '-0',
  '-',
  '01',
  '1.',
  '.5',
  '1e',
  '1e+5',
  '+1',
  '1 2',
  '[1,]',
  '[,1]',
  '[1 2]',
  '{,}',
  '{"a"}',
  '{"a":}',
  '{"a":1,}',
  '{a:1}',
  "{'a':1}",
  '{"a":1}}',
  '[1]]',
  '[}',
  '{]',
  '[[[]',
  '// x\n1',
  '\u00a01',
  '\ufeff1',
  '\v1',
  'NaN',
  'Infinity',
  '-Infinity',
  '[{"a":[{},[],"",0,true,false,null]}]',
];

describe('scanning JSON text', () => {
  it.each(AWKWARD)('[PL2] %j is JSON to us exactly when it is to the built-in parser', (text) => {
    expect(scanJson(text) === null).toBe(isJson(text));
  });

  it('[PL2] seeded mutations of a plan: the same texts are JSON to us and to the built-in parser', () => {
    const seed = 31;
    const next = random(seed);
    const original = exampleText();
    const counts = { json: 0, broken: 0, refusedKeys: 0 };
    const total = cases(20_000);
    for (let k = 0; k < total; k++) {
      let text = original;
      for (let n = 1 + Math.floor(next() * 2); n > 0; n--) {
        const at = Math.floor(next() * text.length);
        const put = [
          '',
          '"',
          '{',
          '}',
          '[',
          ']',
          ',',
          ':',
          '\\',
          '0',
          '.',
          'e',
          '-',
          ' ',
          '\n',
          '\u0000',
          'x',
        ];
        text =
          text.slice(0, at) + put[Math.floor(next() * put.length)] + text.slice(at + Math.floor(next() * 3));
      }
      const problem = scanJson(text);
      if (problem && /second time|too large/.test(problem.what)) {
        counts.refusedKeys++;
        continue;
      }
      expect(problem === null, text).toBe(isJson(text));
      if (problem) {
        counts.broken++;
        expect(problem.offset >= 0 && problem.offset <= text.length).toBe(true);
        expect(problem.what).toMatch(/^[^\n]+[^.]$/);
      } else counts.json++;
    }
    console.log(`scanJson mutations: seed ${seed}, ${total} texts`, counts);
    expect(counts.json).toBeGreaterThan(total / 20);
    expect(counts.broken).toBeGreaterThan(total / 20);
  });

  it('[PL2] every value and key of a plan has the place that another parser gives it (momoa)', () => {
    const text = exampleText();
    let compared = 0;
    const compare = (node: AnyNode, path: JsonPath): void => {
      compared++;
      expect(offsetOf(text, path), pathText(path)).toBe(node.loc.start.offset);
      expect(lineAndColumn(text, node.loc.start.offset)).toEqual({
        line: node.loc.start.line,
        column: node.loc.start.column,
      });
      if (node.type === 'Object') {
        for (const member of node.members) {
          if (member.name.type !== 'String') throw new Error('a JSON key is a string');
          const inner = [...path, member.name.value];
          expect(offsetOf(text, inner, 'key')).toBe(member.name.loc.start.offset);
          compare(member.value, inner);
        }
      } else if (node.type === 'Array') {
        for (const [index, element] of node.elements.entries()) compare(element.value, [...path, index]);
      }
    };
    compare(parse(text).body, []);
    console.log(`places compared with momoa: ${compared}`);
    expect(compared).toBeGreaterThan(100);
  });

  it('[PL2] where a path leads nowhere, the deepest value on the way is meant', () => {
    const text = '{ "a": { "b": [1, 2] } }';
    expect(offsetOf(text, ['a', 'b', 1])).toBe(text.indexOf('2'));
    expect(offsetOf(text, ['a', 'c'])).toBe(text.indexOf('{', 1));
    expect(offsetOf(text, ['x'])).toBe(0);
    expect(offsetOf(text, ['a', 'b'], 'key')).toBe(text.indexOf('"b"'));
  });

  it('[PL2] depth is counted without recursion, and the limit is exact', () => {
    const nested = (depth: number) => '['.repeat(depth) + ']'.repeat(depth);
    expect(scanJson(nested(MAX_DEPTH))).toBeNull();
    expect(scanJson(nested(MAX_DEPTH + 1))).toMatchObject({
      offset: MAX_DEPTH,
      what: expect.stringMatching(/deeper than 40/),
    });
    expect(scanJson('['.repeat(200_000))).toMatchObject({ offset: MAX_DEPTH });
    expect(scanJson('{"a":'.repeat(200_000))).toMatchObject({ what: expect.stringMatching(/deeper/) });
  });

  it('[PL2] more entries in one place than a plan could need are refused', () => {
    const list = (entries: number) => `[${'0,'.repeat(entries - 1)}0]`;
    const record = (entries: number) =>
      `{${Array.from({ length: entries }, (_, k) => `"k${k}":0`).join(',')}}`;
    expect(scanJson(list(MAX_ENTRIES.list))).toBeNull();
    expect(scanJson(list(MAX_ENTRIES.list + 1))?.what).toMatch(/list holds more than 10000/);
    expect(scanJson(record(MAX_ENTRIES.record))).toBeNull();
    expect(scanJson(record(MAX_ENTRIES.record + 1))?.what).toMatch(/record holds more than 250000/);
  });

  it('[PL3] keys that stand twice, however they are written, and __proto__ are refused at the key', () => {
    expect(scanJson('{"a":1,"b":{"a":1},"\\u0061":2}')).toMatchObject({ offset: 19, path: [] });
    expect(scanJson('[{"b":1},{"b":1}]')).toBeNull();
    expect(scanJson('{"x":{"__proto__":1}}')).toMatchObject({ offset: 6, path: ['x'] });
    expect(scanJson('{"x":{"\\u005f_proto__":1}}')).toMatchObject({ offset: 6 });
    expect(scanJson('{"constructor":1,"toString":2,"hasOwnProperty":3}')).toBeNull();
  });

  it('[PL3] numbers that are not finite are refused', () => {
    expect(scanJson('[1,1e999]')).toMatchObject({ offset: 3, path: [1] });
    expect(scanJson(`[-${'9'.repeat(400)}]`)).toMatchObject({ offset: 1 });
    expect(scanJson('[1e308,1e-999]')).toBeNull();
  });

  it('counts lines over \\n, \\r\\n and \\r', () => {
    expect(lineAndColumn('a\r\nb\rc\nd', 7)).toEqual({ line: 4, column: 1 });
    expect(lineAndColumn('', 0)).toEqual({ line: 1, column: 1 });
  });

  it('a path is one line whatever the keys are', () => {
    expect(pathText(['levels', 0, 'walls', 'w-1', 'from'])).toBe('levels[0].walls.w-1.from');
    expect(pathText(['faces', 'w1:right'])).toBe('faces["w1:right"]');
    expect(pathText(['a\n\u2028\u202e', 'x'.repeat(1000)])).toMatch(
      /^\["a\\n\\u\{2028\}\\u\{202e\}"\]\["x{40}…"\]$/,
    );
  });
});
