// The crew's PDF of both demo houses read back with readers other than the writer: pdfjs-dist 5.6.205, `qpdf --check` and
// poppler's `pdfinfo` and `pdffonts` (Debian). Page sizes: ANSI/ASME Y14.1 (letter, tabloid), ISO 216 (A4, A3), the
// architectural sheets C 18 × 24 in and D 24 × 36 in; 72 points to the inch (ISO 32000-1, 8.3.2.1).

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Report } from '../../core/report/index.ts';
import type { SheetSize } from '../../core/sheets/index.ts';
import { pdfOf } from '../../electron/services/export.ts';
import { LONG } from '../seeds.ts';
import type { PlanJson, Vec } from './lib/file.ts';
import { bestShift, type ReadPage, type ReadPdf, readPdf } from './lib/pdf-reader.ts';
import { solve } from './product-solved.ts';

const IN = 72;
const MM = 72 / 25.4;
const SIZES: Record<SheetSize, readonly [number, number]> = {
  letter: [8.5 * IN, 11 * IN],
  tabloid: [11 * IN, 17 * IN],
  a4: [210 * MM, 297 * MM],
  a3: [297 * MM, 420 * MM],
  'arch-c': [18 * IN, 24 * IN],
  'arch-d': [24 * IN, 36 * IN],
};

interface Printed {
  name: string;
  sheet: SheetSize;
  plan: PlanJson;
  report: Report;
  path: string;
  pdf: ReadPdf;
}

const folder = mkdtempSync(join(tmpdir(), 'copewright-pdf-'));
const printed: Printed[] = [];

beforeAll(async () => {
  const jobs: [string, SheetSize[]][] = [
    ['thimble-cottage', LONG ? ['letter', 'tabloid', 'a4', 'a3', 'arch-c', 'arch-d'] : ['a4']],
    ['larkspur-house', LONG ? ['tabloid', 'letter', 'arch-d'] : ['tabloid']],
  ];
  for (const [name, sheets] of jobs) {
    const text = readFileSync(new URL(`../../demo-data/${name}.copewright.json`, import.meta.url), 'utf8');
    const solved = await solve(text);
    for (const sheet of sheets) {
      const made = await pdfOf(solved, { sheet, date: '2026-11-24' });
      if (!made.ok) throw new Error(made.message);
      const { bytes } = made;
      const path = join(folder, `${name}-${sheet}.pdf`);
      writeFileSync(path, bytes);
      const plan = JSON.parse(text) as PlanJson;
      printed.push({ name, sheet, plan, report: solved.report, path, pdf: await readPdf(bytes) });
    }
  }
}, 300_000);

afterAll(() => rmSync(folder, { recursive: true }));

const say = (of: Printed): string => `${of.name} on ${of.sheet}`;
const run = (tool: string, ...args: string[]): string => execFileSync(tool, args, { encoding: 'utf8' });
/** Without spaces, as a line may break anywhere in a message; inch marks and apostrophes as they are set in print. */
const bare = (text: string): string => text.replace(/\s+/g, '').replaceAll('"', '″').replaceAll('’', "'");

/** Inches to sixteenths, ties to the longer, reduced: as a tape reads and the sheets print. */
function inches(mm: number): string {
  const sixteenths = Math.floor((mm / 25.4) * 16 + 0.5 + 1e-9);
  const whole = Math.floor(sixteenths / 16);
  let top = sixteenths % 16;
  let bottom = 16;
  while (top > 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  if (top === 0) return `${whole}″`;
  return whole === 0 ? `${top}⁄${bottom}″` : `${whole} ${top}⁄${bottom}″`;
}

/** Every scale that a page names, as the denominator of 1:n. Several plans may stand on one page. */
function ratiosOf(page: ReadPage): number[] {
  const feet = [...page.all.matchAll(/(?:(\d+) )?(?:(\d+)⁄(\d+))?(\d+)?″ = 1′‐0″/g)].map(
    ([, whole, top, bottom, only]) =>
      12 / (Number(whole ?? 0) + Number(only ?? 0) + (top === undefined ? 0 : Number(top) / Number(bottom))),
  );
  const metric = [...page.all.matchAll(/\bPlan 1:(\d+)/g)].map((found) => Number(found[1]));
  return [...new Set([...feet, ...metric])];
}

describe('the PDF of the demo houses, read back', () => {
  it('[SH] qpdf finds nothing wrong; title, language, tags and bookmarks are there and every font is embedded', () => {
    for (const of of printed) {
      expect(run('qpdf', '--check', of.path), say(of)).toContain('No syntax or stream encoding errors found');
      const info = run('pdfinfo', of.path);
      expect(info, say(of)).toMatch(new RegExp(`^Title:\\s+${of.plan.title}$`, 'm'));
      expect(info, say(of)).toMatch(/^Tagged:\s+yes$/m);
      expect(Number(info.match(/^Pages:\s+(\d+)$/m)![1]), say(of)).toBe(of.pdf.pages.length);
      expect(of.pdf.title, say(of)).toBe(of.plan.title);
      expect(of.pdf.language, say(of)).toMatch(/^en/);
      const fonts = run('pdffonts', of.path).trim().split('\n').slice(2);
      expect(fonts.length, say(of)).toBeGreaterThan(0);
      for (const font of fonts) expect(font, say(of)).toMatch(/\syes\s+yes\s+yes\s+\d+\s+\d+$/);
      for (const level of of.plan.levels)
        expect(
          of.pdf.bookmarks.some((b) => b.startsWith(level.name)),
          say(of),
        ).toBe(true);
      for (const room of of.report.rooms)
        expect(
          of.pdf.bookmarks.some((b) => b.includes(room.name)),
          say(of),
        ).toBe(true);
    }
  });

  it('[SH] every page has the size of the sheet that was asked for, and its number', () => {
    for (const of of printed) {
      const [short, long] = SIZES[of.sheet];
      of.pdf.pages.forEach((page, i) => {
        const [x0, y0, x1, y1] = page.box;
        const size = [x1 - x0, y1 - y0].sort((p, q) => p - q);
        expect(size[0], `${say(of)} page ${i + 1}`).toBeCloseTo(short, 2);
        expect(size[1], `${say(of)} page ${i + 1}`).toBeCloseTo(long, 2);
        expect(page.all, say(of)).toContain(`page ${i + 1} of ${of.pdf.pages.length}`);
      });
    }
  });

  it('[SH] all text lies on its sheet and none is smaller than 7 points', () => {
    let count = 0;
    for (const of of printed) {
      for (const page of of.pdf.pages) {
        for (const { text, at, size } of page.texts) {
          expect(size, `${say(of)}: ${text}`).toBeGreaterThan(6.99);
          expect(at[0] >= page.box[0] && at[0] <= page.box[2], `${say(of)}: ${text}`).toBe(true);
          expect(at[1] >= page.box[1] && at[1] <= page.box[3], `${say(of)}: ${text}`).toBe(true);
          count++;
        }
      }
    }
    console.log(
      `pdf: ${printed.map((p) => `${say(p)} ${p.pdf.pages.length} pages`).join(', ')}; ${count} texts`,
    );
  });

  it('[SH] every board stands with its overall length to the sixteenth, every room and corner by name, every finding in its words', () => {
    for (const of of printed) {
      const pages = of.pdf.pages.map((page) => ` ${page.all} `);
      const everything = bare(pages.join(' '));
      for (const piece of of.report.pieces) {
        const length = inches(piece.overallMm);
        const id = ` ${piece.id} `;
        const stands = pages.some((text) => {
          for (let i = text.indexOf(id); i >= 0; i = text.indexOf(id, i + 1)) {
            if (text.slice(i, i + 260).includes(` ${length} `)) return true;
          }
          return false;
        });
        expect(stands, `${say(of)}: board ${piece.id}, ${piece.overallMm} mm, ${length}`).toBe(true);
      }
      for (const room of of.report.rooms) {
        expect(everything.includes(bare(room.name)), `${say(of)}: ${room.name}`).toBe(true);
        for (const loop of room.loops) {
          for (const { number } of loop.corners) {
            expect(
              pages.some((text) => text.includes(` ${number} `)),
              `${say(of)}: corner ${number}`,
            ).toBe(true);
          }
        }
      }
      for (const { severity, message } of of.report.findings) {
        if (severity === 'look') continue;
        expect(everything.includes(bare(message)), `${say(of)}: ${message}`).toBe(true);
      }
    }
  });

  it('[SH8] plans are true to the scale they name: every corner of the room or level stands where the plan has it', () => {
    let sheets = 0;
    for (const of of printed) {
      const seen = new Set<string>();
      for (const page of of.pdf.pages) {
        const ratios = ratiosOf(page);
        if (ratios.length === 0) continue;
        const title = page.texts[0]!.text;
        // A level that is tiled shows part of itself on each sheet; a page shared by rooms names each of them.
        const tile = /, [A-Z]\d+$/.test(title);
        const heads = title
          .replace(/^Site sheets?: /, '')
          .replace(/, [A-Z]\d+$/, '')
          .split(' · ')
          .filter((head, _, all) => all.length === 1 || !head.endsWith(', continued'))
          .map((head) => head.replace(/, continued.*$/, ''));
        for (const head of heads) {
          const room = of.report.rooms.filter((r) => r.name === head);
          const level = of.plan.levels.find((l) => l.name === head);
          const rooms = room.length > 0 ? room : of.report.rooms.filter((r) => r.level === level?.id);
          const all = rooms.flatMap((r) => r.loops.flatMap((loop) => loop.corners));
          // Those with their number on this sheet first: the plan is found by them. The figures of its scale bar stand in
          // one line with a nought.
          const bars = page.texts.filter(({ text }) => text === '0').map(({ at }) => at[1]);
          const numbers = page.texts.filter(({ at }) => !bars.some((y) => Math.abs(y - at[1]) < 0.5));
          const numbered = all.filter(({ number }) => numbers.some(({ text }) => text === `${number}`));
          const corners = [...numbered, ...all.filter((each) => !numbered.includes(each))].map(
            ({ at }) => at,
          );
          expect(corners.length, `${say(of)}: a plan headed ${head}`).toBeGreaterThan(0);
          const wanted = (ratio: number): Vec[] =>
            corners.map(([x, y]): Vec => [(x * MM) / ratio, (-y * MM) / ratio]);
          const fits = ratios.map((ratio) => ({ ratio, found: bestShift(wanted(ratio), page.points, 0.05) }));
          const { ratio, found } = fits.reduce((best, next) => (next.found > best.found ? next : best));
          const there = tile ? numbered.length : corners.length;
          expect(found, `${say(of)}: ${title} at 1:${ratios}`).toBeGreaterThanOrEqual(Math.max(3, there));
          // At a scale 1 % off the same corners are not to be found.
          const off = bestShift(wanted(ratio / 1.01), page.points, 0.05, found);
          expect(off, `${say(of)}: ${head}`).toBeLessThan(found);
          seen.add(head);
          sheets++;
        }
      }
      for (const level of of.plan.levels) expect([...seen], say(of)).toContain(level.name);
      for (const room of of.report.rooms) expect([...seen], say(of)).toContain(room.name);
    }
    console.log(`pdf: ${sheets} plans true to scale`);
  });
});
