// Boards as tables: a room's boards in the order they go up, and the same rows in the cut list. One picture a board, its
// back and face lengths, what it springs by, and the blank for what the tape says. Points; figures from the report [SH25].

import { capital } from '../fit/say.ts';
import { LINE_NAMES } from '../plan/kinds.ts';
import type { Block } from './flow.ts';
import { boardPicture } from './page-board.ts';
import type { PageKit } from './page-layout.ts';
import { placeNames, profileName, type ReportPiece, type RoomOnPaper } from './page-names.ts';
import { blank, type Cell, type CellPart, type Row, table, words } from './table.ts';
import { unbroken } from './words.ts';

/** A piece shorter than this is marked: cut from long stock, clamped. 6 in, as the caution has it, in mm [SH30]. */
export const SMALL_MM = 152.4;

/** Width of a board's picture in a table as wide as a column. */
export function pictureWidth(kit: PageKit): number {
  return kit.width * 0.47;
}

/** Width of the blank for what the tape says, so that its words stand on one line. */
export function measuredWidth(kit: PageKit): number {
  return Math.max(kit.width * 0.17, kit.measure.width(DRAWN, 'italic', kit.sizes.small) + 0.1);
}

const DRAWN = 'drawn: measure before cutting';

/** Boards of a room by line and run, in the order of putting up; return pieces follow the board they close. */
export function roomBoards(kit: PageKit, room: RoomOnPaper): Block[] {
  const { measure, sizes, width } = kit;
  const names = placeNames(room.level);
  const rows: Row[] = [];
  const lines = [...new Set(room.runs.map((run) => run.line))];
  for (const line of lines) {
    const runs = room.runs.filter((run) => run.line === line && run.pieces.length > 0);
    runs.forEach((run, index) => {
      const of = runs.length === 1 ? '' : `, run ${index + 1} of ${runs.length}`;
      const profiles = [...new Set(run.pieces.map((piece) => profileName(kit.solved, piece.profile)))];
      rows.push({ kind: 'band', text: `${capital(LINE_NAMES[line])}${of}: ${profiles.join(', ')}` });
      for (const piece of byOrder(run.pieces)) {
        const closing = run.pieces.filter((each) => each.returnOf === piece.id);
        rows.push(boardRow(kit, room, piece, closing, names));
      }
    });
  }
  return table(measure, sizes, width, {
    title: 'Boards, in the order they go up',
    note: 'From above, wall at the top, left and right as you face it. Overall: long point to long point (dots). Saw: degrees off square.',
    columns: [
      { title: 'order', align: 'middle', width: 21 * sizes.by },
      { title: 'board', grow: 1 },
      { title: 'left end, overall length, right end', width: pictureWidth(kit) },
      { title: 'back and face' },
      { title: 'measured', width: measuredWidth(kit) },
    ],
    rows,
  });
}

/** By order of putting up, return pieces left out: they stand in the row of the board they close. */
function byOrder(pieces: readonly ReportPiece[]): ReportPiece[] {
  return pieces
    .filter((piece) => piece.returnOf === null)
    .map((piece, place) => ({ piece, place }))
    .toSorted((a, b) => a.piece.order - b.piece.order || a.place - b.place)
    .map(({ piece }) => piece);
}

function boardRow(
  kit: PageKit,
  room: RoomOnPaper,
  piece: ReportPiece,
  closing: readonly ReportPiece[],
  names: ReturnType<typeof placeNames>,
): Row {
  const { measure, sizes, figures } = kit;
  return {
    kind: 'cells',
    cells: [
      words(`${piece.order}`, { size: sizes.body * 1.2, font: 'semibold' }),
      boardCell(kit, piece, wallOf(room, piece)),
      [
        boardPicture(measure, sizes, figures, names, piece, pictureWidth(kit)),
        ...closing.map(
          (each): CellPart => ({
            kind: 'text',
            text: `closed by return piece ${each.id}, ${figures.cut(each.overallMm)} overall`,
            size: sizes.small,
            font: 'italic',
            role: 'board-id',
          }),
        ),
      ],
      lengthsCell(kit, piece),
      measuredCell(kit, piece),
    ],
  };
}

/** `wall 3 to 4`: the corners that a piece's wall runs between. */
export function wallOf(room: RoomOnPaper, piece: ReportPiece): string {
  for (const loop of room.said.loops) {
    const index = loop.segments.findIndex((segment) => segment.key === piece.segment);
    if (index === -1) continue;
    const count = loop.corners.length;
    return `wall ${loop.corners[(index + count - 1) % count]!.number} to ${loop.corners[index]!.number}`;
  }
  throw new Error(`room ${room.said.id} has no segment ${piece.segment}`);
}

/** Id, where it goes, and the mark of a small piece. */
export function boardCell(kit: PageKit, piece: ReportPiece, where: string): Cell {
  const { sizes } = kit;
  const parts: CellPart[] = [
    { kind: 'text', text: piece.id, size: sizes.body * 1.2, font: 'bold', role: 'board-id' },
    {
      kind: 'text',
      text: piece.returnOf === null ? where : `closes ${piece.returnOf}`,
      size: sizes.small,
      ink: 'graphite',
    },
  ];
  if (piece.overallMm < SMALL_MM)
    parts.push({
      kind: 'text',
      text: '▲ small',
      size: sizes.small,
      font: 'bold',
      ink: 'pencil',
      role: 'small',
    });
  return parts;
}

/** Back and face lengths, and the spring apart. */
export function lengthsCell(kit: PageKit, piece: ReportPiece): Cell {
  const { sizes, figures } = kit;
  const line = { size: sizes.body, kind: 'text' as const };
  return [
    { ...line, text: unbroken(`back ${figures.cut(piece.backMm)}`) },
    { ...line, text: unbroken(`face ${figures.cut(piece.faceMm)}`) },
    ...(piece.springMm > 0
      ? [{ ...line, text: `spring + ${figures.fine(piece.springMm)}`, font: 'semibold' as const }]
      : []),
  ];
}

/** A blank to write in, with what must be said of a length that nobody measured. */
export function measuredCell(kit: PageKit, piece: ReportPiece): Cell {
  const { sizes } = kit;
  if (piece.returnOf !== null) return [];
  if (piece.lengthFrom === 'measured')
    return [{ kind: 'text', text: 'measured', size: sizes.small, font: 'semibold', role: 'length-from' }];
  return [
    blank(15 * sizes.by),
    {
      kind: 'text',
      text: DRAWN,
      size: sizes.small,
      font: 'italic',
      ink: 'graphite',
      role: 'length-from',
    },
  ];
}
