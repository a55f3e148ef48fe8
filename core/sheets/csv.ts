// The report as tables: RFC 4180 text with a byte order mark and CRLF, numbers plain, units in the heading.
// Text that a spreadsheet would take for a formula gets an apostrophe in front; numbers, negative ones too, stay numbers.

import type { Report } from '../report/schema.ts';

type Cell = string | number | boolean | null;

const FORMULA_START = /^[=+\-@\t\r\n|%＝＋－＠]/;

function cell(value: Cell): string {
  if (value === null) return '';
  if (typeof value !== 'string') return String(value);
  const harmless = FORMULA_START.test(value.trimStart()) || FORMULA_START.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(harmless) || harmless !== harmless.trim()
    ? `"${harmless.replaceAll('"', '""')}"`
    : harmless;
}

/** One table as CSV text. */
export function csvTable(heading: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const lines = [heading, ...rows].map((row) => row.map(cell).join(','));
  return `\uFEFF${lines.join('\r\n')}\r\n`;
}

function place(at: Report['pieces'][number]['left']['at']): string {
  if ('corner' in at) return `corner ${at.corner}`;
  if ('opening' in at) return `opening ${at.opening}`;
  if ('builtIn' in at) return `built-in ${at.builtIn}`;
  return `piece ${at.piece}`;
}

/** File name to text: boards, casings, corners, findings, cuts (a row for each piece on its board), order. */
export function csvFiles(report: Report): Readonly<Record<string, string>> {
  const ends = (side: string) => [`${side} end`, `${side} at`, `${side} saw (deg)`, `${side} long point`];
  return {
    'boards.csv': csvTable(
      [
        'board',
        'level',
        'room',
        'line',
        'profile',
        'overall (mm)',
        'back (mm)',
        'face (mm)',
        'spring (mm)',
        'length from',
        'order',
        ...ends('left'),
        ...ends('right'),
      ],
      report.pieces.map((piece) => [
        piece.id,
        piece.level,
        piece.room,
        piece.line,
        piece.profile,
        piece.overallMm,
        piece.backMm,
        piece.faceMm,
        piece.springMm,
        piece.lengthFrom,
        piece.order,
        ...[piece.left, piece.right].flatMap((end): Cell[] => [
          end.end,
          place(end.at),
          end.sawDeg,
          end.longPoint,
        ]),
      ]),
    ),
    'casings.csv': csvTable(
      ['casing', 'level', 'room', 'profile', 'part', 'short point (mm)', 'long point (mm)'],
      report.casings.flatMap((casing) =>
        casing.parts.map((part) => [
          casing.id,
          casing.level,
          casing.room,
          casing.profile,
          part.part,
          part.shortMm,
          part.longMm,
        ]),
      ),
    ),
    'corners.csv': csvTable(
      [
        'corner',
        'level',
        'room',
        'kind',
        'drawn (deg)',
        'measured (deg)',
        'allowance (deg)',
        'used (deg)',
        'base joint',
        'worked board',
        'saw (deg)',
        'why',
      ],
      report.rooms.flatMap((room) =>
        room.loops.flatMap((loop) =>
          loop.corners.map((corner) => [
            corner.number,
            room.level,
            room.name,
            corner.kind,
            corner.includedDeg.drawn,
            corner.includedDeg.measured,
            corner.includedDeg.allowance,
            corner.includedDeg.used,
            corner.base?.joint ?? null,
            corner.base?.coped ?? null,
            corner.base?.sawDeg ?? null,
            corner.base?.why ?? null,
          ]),
        ),
      ),
    ),
    'findings.csv': csvTable(
      ['severity', 'code', 'level', 'room', 'message', 'remedies'],
      report.findings.map((finding) => [
        finding.severity,
        finding.code,
        finding.level,
        finding.room,
        finding.message,
        finding.remedies.join(' / '),
      ]),
    ),
    'cuts.csv': csvTable(
      [
        'profile',
        'stock board',
        'stock length (mm)',
        'on hand',
        'place on board',
        'piece',
        'pieces (mm)',
        'kerf (mm)',
        'end trim (mm)',
        'off-cut (mm)',
        'held',
      ],
      report.stock.flatMap((stock) => [
        ...stock.boards.flatMap((board, number) =>
          board.pieces.map((piece, place): Cell[] => [
            stock.profile,
            number + 1,
            board.lengthMm,
            board.onHand ? 'yes' : 'no',
            place + 1,
            piece,
            board.piecesMm,
            board.kerfMm,
            board.trimMm,
            board.offcutMm,
            board.held ? 'yes' : 'no',
          ]),
        ),
        ...stock.unplaced.map((piece): Cell[] => [
          stock.profile,
          'not placed',
          null,
          null,
          null,
          piece,
          null,
          null,
          null,
          null,
          null,
        ]),
      ]),
    ),
    'order.csv': csvTable(
      ['profile', 'stock length (mm)', 'count', 'price each', 'sum', 'spare count', 'spare sum'],
      report.purchase.map((line) => [
        line.profile,
        line.lengthMm,
        line.count,
        line.price,
        line.sum,
        line.spare,
        line.spareSum,
      ]),
    ),
  };
}
