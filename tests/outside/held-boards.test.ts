// Boards held in a plan file, as everything that leaves the program says them: `cuts` and `report` as JSON, `cuts` as text, the
// table of cuts, and the PDF read back with pdfjs-dist. The file goes in and the command line is run; nothing of core is asked.

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bundledCli } from '../electron/bundled-cli.ts';
import { type ReadPage, readPdf } from './lib/pdf-reader.ts';

interface Board {
  readonly lengthMm: number;
  readonly onHand: boolean;
  readonly held: boolean;
  readonly pieces: readonly string[];
}
interface Stock {
  readonly profile: string;
  readonly boards: readonly Board[];
}
interface Piece {
  readonly id: string;
  readonly overallMm: number;
  readonly springMm: number;
}

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const folder = mkdtempSync(join(tmpdir(), 'copewright-held-'));
const file = join(folder, 'house.copewright.json');
let bundled: string;
const run = (...words: string[]): string =>
  execFileSync(process.execPath, [bundled, ...words], { cwd: folder, encoding: 'utf8', maxBuffer: 1 << 28 });
const stockOf = (json: string): readonly Stock[] => (JSON.parse(json) as { stock: readonly Stock[] }).stock;

/** Held boards as `profile: pieces in code-unit order`. */
const heldIn = (stock: readonly Stock[]): string[] =>
  stock.flatMap(({ profile, boards }) =>
    boards.filter(({ held }) => held).map(({ pieces }) => `${profile}: ${[...pieces].sort().join(' ')}`),
  );

let wanted: string[];
/** The report of the plan with its boards held, as JSON. */
let reported: string;
beforeAll(() => {
  bundled = bundledCli('held');
  const demo = join(root, 'demo-data', 'thimble-cottage.copewright.json');
  const free = stockOf(run('cuts', demo, '--json'));
  expect(heldIn(free)).toEqual([]);
  // Of every profile a board that holds less than it did: no reckoning of boards would choose it.
  const heldBoards: Record<string, { length: number; onHand: boolean; pieces: string[] }[]> =
    Object.fromEntries(
      free.flatMap(({ profile, boards }) => {
        const board = boards.find(({ pieces }) => pieces.length > 1);
        if (board === undefined) return [];
        const { lengthMm, onHand, pieces } = board;
        return [[profile, [{ length: lengthMm, onHand, pieces: pieces.slice(1) }]]];
      }),
    );
  wanted = Object.entries(heldBoards).map(
    ([profile, boards]) => `${profile}: ${[...boards[0]!.pieces].sort().join(' ')}`,
  );
  expect(wanted.length).toBeGreaterThan(2);
  const plan = JSON.parse(readFileSync(demo, 'utf8')) as object;
  writeFileSync(file, JSON.stringify({ ...plan, heldBoards }));
  reported = run('report', file, '--json');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('boards held in a plan file', () => {
  it('[ST13] are the same in both kinds of JSON and in the text', () => {
    const cuts = stockOf(run('cuts', file, '--json'));
    expect(heldIn(cuts).sort()).toEqual([...wanted].sort());
    expect(heldIn(stockOf(reported))).toEqual(heldIn(cuts));
    const text = run('cuts', file);
    expect(text).not.toContain('NOT HELD');
    const lines = text.split('\n');
    const marked = lines.filter((line) => /^ {2}\S.*, held: /.test(line));
    const said = marked.map((line) => line.replace(/^.*, held: /, '').replace(/ {2}\(off-cut .*$/, ''));
    const boards = cuts.flatMap((each) => each.boards).filter(({ held }) => held);
    expect(said).toEqual(boards.map(({ pieces }) => pieces.join('  ')));
  });

  it('[PL10, ST13] that say what their pieces were are held while these are that, and else told of', () => {
    const report = JSON.parse(reported) as { pieces: readonly Piece[] };
    const known = new Map(report.pieces.map(({ id, overallMm, springMm }) => [id, overallMm + springMm]));
    const plan = JSON.parse(readFileSync(file, 'utf8')) as {
      heldBoards: Record<string, { length: number; onHand: boolean; pieces: string[] }[]>;
    };
    // The first board that has boards of walls alone.
    const [profile, [board]] = Object.entries(plan.heldBoards).find(([, [first]]) =>
      first!.pieces.every((piece) => known.has(piece)),
    )!;
    const [piece] = board!.pieces;
    const told = (more: number): Stock[] => {
      const was = [{ piece, length: known.get(piece!)! + more }];
      const other = join(folder, 'known.copewright.json');
      writeFileSync(other, JSON.stringify({ ...plan, heldBoards: { [profile]: [{ ...board, was }] } }));
      const cuts = run('cuts', other, '--json');
      const loose = (JSON.parse(cuts) as { notHeld: readonly string[] }).notHeld;
      expect(loose).toHaveLength(more === 0 ? 0 : 1);
      if (more !== 0) {
        expect(loose[0]).toMatch(new RegExp(`: ${piece} takes .* and took .* when it was held\\.$`));
        expect(run('cuts', other)).toContain(`NOT HELD: ${loose[0]}`);
      }
      return [...stockOf(cuts)];
    };
    expect(heldIn(told(0))).toEqual([`${profile}: ${[...board!.pieces].sort().join(' ')}`]);
    expect(heldIn(told(5))).toEqual([]);
  });

  it('[ST13] are marked in the table of cuts, one row a piece', () => {
    run('csv', file, '-o', folder);
    const [head = '', ...rows] = readFileSync(join(folder, 'cuts.csv'), 'utf8').trim().split('\r\n');
    const column = (name: string): number => head.replace('\uFEFF', '').split(',').indexOf(name);
    const cells = rows.map((row) => row.split(','));
    const held = new Map<string, string[]>();
    for (const row of cells.filter((each) => each[column('held')] === 'yes')) {
      const profile = row[column('profile')]!;
      held.set(profile, [...(held.get(profile) ?? []), row[column('piece')]!]);
    }
    const said = [...held].map(([profile, pieces]) => `${profile}: ${pieces.sort().join(' ')}`);
    expect(said.sort()).toEqual([...wanted].sort());
    expect(cells.every((row) => row.length === head.split(',').length)).toBe(true);
  });

  it('[SH36] are marked in the PDF by a word, each above its own pieces, with the lengths of the cut list', async () => {
    run('pdf', file, '-o', 'house.pdf', '--date', '2026-01-31');
    const { pages } = await readPdf(readFileSync(join(folder, 'house.pdf')));
    const on = (heading: string): ReadPage[] => pages.filter(({ all }) => all.includes(heading));
    const boards = on('Order and boards').filter(({ all }) => all.includes('cut from it'));
    const words = boards.flatMap(({ texts }) => texts.map(({ text }) => text.trim()));
    expect(words.filter((text) => text === 'held')).toHaveLength(wanted.length);
    const report = JSON.parse(reported) as { pieces: readonly Piece[] };
    const plain = (text: string): string => text.replace(/[\s\u00a0]+/g, ' ');
    const cutFrom = plain(boards.map(({ all }) => all).join(' '));
    const list = plain(
      on('Cut list')
        .map(({ all }) => all)
        .join(' '),
    );
    const springing = report.pieces.filter(({ springMm }) => springMm > 0);
    expect(springing.length).toBeGreaterThan(3);
    for (const { id, overallMm } of springing) {
      // 1/16 in, halves up: the rounding that the demo house prints with.
      const sixteenths = Math.floor((overallMm / 25.4) * 16 + 0.5 + 1e-9);
      const printed = new RegExp(`${id} (${Math.floor(sixteenths / 16)}(?: \\d+⁄\\d+)?″), spring \\+ 1⁄32″`);
      const length = printed.exec(cutFrom)?.[1];
      expect(length, id).toBeDefined();
      expect(list, id).toContain(length!);
    }
  });
});
