// Reads a PDF back with pdfjs-dist 5.6.205 (the writer is another library): page boxes, text with its place and size, the
// points of every drawn path in page space (points, origin bottom left, y up), title, language and bookmarks.

import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Vec } from './file.ts';

export interface ReadText {
  text: string;
  at: Vec;
  size: number;
  width: number;
}

export interface ReadPage {
  box: [number, number, number, number];
  texts: ReadText[];
  /** Text runs in reading order, as one line. */
  all: string;
  points: Vec[];
  /** The same points, path by path as they were drawn. */
  paths: Vec[][];
}

export interface ReadPdf {
  title: string;
  language: string;
  bookmarks: string[];
  pages: ReadPage[];
}

type Matrix = readonly [number, number, number, number, number, number];

const times = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[2] * n[1],
  m[1] * n[0] + m[3] * n[1],
  m[0] * n[2] + m[2] * n[3],
  m[1] * n[2] + m[3] * n[3],
  m[0] * n[4] + m[2] * n[5] + m[4],
  m[1] * n[4] + m[3] * n[5] + m[5],
];
const through = (m: Matrix, x: number, y: number): Vec => [
  m[0] * x + m[2] * y + m[4],
  m[1] * x + m[3] * y + m[5],
];

/** Numbers that follow each path command of the reader: move, line, cubic, quadratic, close. */
const TAKES = [2, 2, 6, 4, 0] as const;

function pathPoints(path: ArrayLike<number>, m: Matrix): Vec[] {
  const found: Vec[] = [];
  for (let i = 0; i < path.length; ) {
    const takes = TAKES[path[i] as 0 | 1 | 2 | 3 | 4];
    if (takes === undefined) throw new Error(`path command ${path[i]} is not known`);
    // The last pair is where the pen comes to.
    if (takes > 0) found.push(through(m, path[i + takes - 1]!, path[i + takes]!));
    i += takes + 1;
  }
  return found;
}

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0, useSystemFonts: false });
  const file = await task.promise;
  const info = (await file.getMetadata()).info as { Title?: string; Language?: string };
  const bookmarks: string[] = [];
  const walk = (items: readonly { title: string; items: unknown[] }[]): void => {
    for (const item of items) {
      bookmarks.push(item.title);
      walk(item.items as { title: string; items: unknown[] }[]);
    }
  };
  walk((await file.getOutline()) ?? []);
  const pages: ReadPage[] = [];
  for (let number = 1; number <= file.numPages; number++) {
    const page = await file.getPage(number);
    const content = await page.getTextContent();
    const texts = content.items.flatMap((item): ReadText[] => {
      if (!('str' in item) || item.str.trim() === '') return [];
      const [a, b, , , x, y] = item.transform as number[];
      return [{ text: item.str, at: [x!, y!], size: Math.hypot(a!, b!), width: item.width }];
    });
    const operators = await page.getOperatorList();
    const paths: Vec[][] = [];
    const kept: Matrix[] = [];
    let m: Matrix = [1, 0, 0, 1, 0, 0];
    operators.fnArray.forEach((operator, i) => {
      const args = operators.argsArray[i];
      if (operator === OPS.save) kept.push(m);
      else if (operator === OPS.restore) m = kept.pop() ?? m;
      else if (operator === OPS.transform) m = times(m, args as Matrix);
      else if (operator === OPS.constructPath) {
        for (const path of args[1] as (ArrayLike<number> | null)[])
          if (path !== null) paths.push(pathPoints(path, m));
      }
    });
    pages.push({
      box: page.view as [number, number, number, number],
      texts,
      all: texts.map((t) => t.text).join(' '),
      points: paths.flat(),
      paths,
    });
  }
  await task.destroy();
  return { title: info.Title ?? '', language: info.Language ?? '', bookmarks, pages };
}

/**
 * How many of `wanted` (points, y up) a page has among its drawn points once moved by the best single shift; within `near`
 * points; 0 where it has fewer than `least`. A shift is the only freedom: scale and direction must be right as they are.
 */
export function bestShift(wanted: readonly Vec[], drawn: readonly Vec[], near: number, least = 1): number {
  const cell = near * 2;
  const grid = new Map<string, Vec[]>();
  for (const p of drawn) {
    const key = `${Math.floor(p[0] / cell)},${Math.floor(p[1] / cell)}`;
    grid.set(key, [...(grid.get(key) ?? []), p]);
  }
  const has = (x: number, y: number): boolean => {
    const [i, j] = [Math.floor(x / cell), Math.floor(y / cell)];
    for (let di = -1; di <= 1; di++) {
      for (let dj = -1; dj <= 1; dj++) {
        for (const p of grid.get(`${i + di},${j + dj}`) ?? []) {
          if (Math.hypot(p[0] - x, p[1] - y) < near) return true;
        }
      }
    }
    return false;
  };
  let best = 0;
  const tried = new Set<string>();
  for (const anchor of wanted.slice(0, 3)) {
    for (const p of drawn) {
      const shift: Vec = [p[0] - anchor[0], p[1] - anchor[1]];
      const key = `${shift[0].toFixed(3)},${shift[1].toFixed(3)}`;
      if (tried.has(key)) continue;
      tried.add(key);
      let count = 0;
      for (let i = 0; i < wanted.length; i++) {
        if (count + wanted.length - i < Math.max(least, best + 1)) break;
        const w = wanted[i]!;
        if (has(w[0] + shift[0], w[1] + shift[1])) count++;
      }
      if (count >= least) best = Math.max(best, count);
      if (best === wanted.length) return best;
    }
  }
  return best;
}
