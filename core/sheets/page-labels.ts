// Labels to cut out and stick to the boards: a grid of as many columns and rows as the plan asks for, or as many as can be
// read. Each says the board, its room and wall, how it is cut, and whether its length is only drawn. Points; figures from
// the report [SH24, SH37]. Return pieces have none: they stay with their board, whose label says so.

import { settingsOf } from '../plan/settings.ts';
import type { FontName, Item, Sheet } from './items.ts';
import { type Box, CAP_EM, corners, lineHeight, moved, text, wrapText } from './kit.ts';
import { boardPicture } from './page-board.ts';
import { SMALL_MM, wallOf } from './page-boards.ts';
import { frameHead, type PageKit } from './page-layout.ts';
import { placeNames, type ReportPiece, type RoomOnPaper } from './page-names.ts';
import { sheetFrame } from './plan-frame.ts';

/** What a label needs to be read at all, points on a letter sheet. */
const LEAST = { width: 168, height: 60 };
const PAD = 5;

interface Labelled {
  readonly room: RoomOnPaper;
  readonly piece: ReportPiece;
  readonly closing: readonly ReportPiece[];
}

/** The sheets of labels, room by room in the order of putting up; none where there are no boards. */
export function labelSheets(kit: PageKit, rooms: readonly RoomOnPaper[]): Sheet[] {
  const boards = rooms.flatMap((room) =>
    room.runs.flatMap(({ pieces }): Labelled[] =>
      pieces
        .filter((piece) => piece.returnOf === null)
        .toSorted((a, b) => a.order - b.order)
        .map((piece) => ({
          room,
          piece,
          closing: pieces.filter((each) => each.returnOf === piece.id),
        })),
    ),
  );
  // Low rows first, as many as are asked for; where one label says more than they hold, higher ones for all.
  return pages(kit, boards, LEAST.height) ?? pages(kit, boards, LEAST.height * 1.25)!;
}

/** Null where a label does not hold what it has to say, which the highest hold. */
function pages(kit: PageKit, boards: readonly Labelled[], least: number): Sheet[] | null {
  const sheets: Sheet[] = [];
  for (let done = 0; done < boards.length; ) {
    const title = done === 0 ? 'Labels' : 'Labels, continued';
    const subtitle = done === 0 ? 'one for each board: cut along the dashed lines' : '';
    const frame = sheetFrame(kit.measure, kit.size, { ...frameHead(kit), title, subtitle });
    const cells = grid(kit, frame.inner, least);
    const items: Item[] = [];
    for (const [index, each] of boards.slice(done, done + cells.length).entries()) {
      const made = label(kit, each, cells[index]!);
      if (!made.fits && least === LEAST.height) return null;
      items.push(...made.items);
    }
    sheets.push({
      width: kit.size[0],
      height: kit.size[1],
      bookmark: done === 0 ? title : `${title} ${sheets.length + 1}`,
      parent: done === 0 ? null : 'Labels',
      items: [...frame.items, ...items],
    });
    done += cells.length;
  }
  return sheets;
}

/** The cells of the grid, row by row: what the settings ask for, fewer where they could not be read. */
function grid(kit: PageKit, inner: Box, least: number): Box[] {
  const { labelColumns, labelRows } = settingsOf(kit.plan);
  const { by } = kit.sizes;
  const [x0, y0, x1, y1] = inner;
  const columns = Math.max(1, Math.min(labelColumns, Math.floor((x1 - x0) / (LEAST.width * by))));
  const rows = Math.max(1, Math.min(labelRows, Math.floor((y1 - y0) / (least * by))));
  const [wide, high] = [(x1 - x0) / columns, (y1 - y0) / rows];
  return Array.from({ length: columns * rows }, (_, index): Box => {
    const [column, row] = [index % columns, Math.floor(index / columns)];
    return [x0 + column * wide, y0 + row * high, x0 + (column + 1) * wide, y0 + (row + 1) * high];
  });
}

function label(
  kit: PageKit,
  { room, piece, closing }: Labelled,
  cell: Box,
): { readonly items: Item[]; readonly fits: boolean } {
  const { measure, sizes, figures } = kit;
  const { by, small } = sizes;
  const [x0, y0, x1, y1] = cell;
  const wide = x1 - x0 - 2 * PAD * by;
  const items: Item[] = [];
  const put = (content: string, at: readonly [number, number], size: number, font: FontName, role: string) =>
    items.push(text(measure, { text: content, at, size, font, align: at[0] === 0 ? 'left' : 'right', role }));
  const idSize = sizes.body * 1.5;
  put(piece.id, [0, idSize * CAP_EM], idSize, 'bold', 'label-id');
  const rest = wide - measure.width(piece.id, 'bold', idSize) - 8 * by;
  const name = [room.name, ...(kit.plan.levels.length > 1 ? [room.levelName] : [])].join(', ');
  put(
    wrapText(measure, name, 'semibold', small, rest)[0]!,
    [wide, small * CAP_EM],
    small,
    'semibold',
    'label-room',
  );
  // Beside its wall as much as that line holds, below the picture what is left.
  const extras = [
    ...(piece.springMm > 0 ? [`spring + ${figures.fine(piece.springMm)}`] : []),
    ...(closing.length > 0 ? [`+ ${closing.length === 1 ? 'return' : `${closing.length} returns`}`] : []),
  ];
  let where = wallOf(room, piece);
  while (extras.length > 0 && measure.width(`${where} · ${extras[0]}`, 'regular', small) <= rest)
    where = `${where} · ${extras.shift()}`;
  const second = small * CAP_EM + lineHeight(small);
  put(where, [wide, second], small, 'regular', 'label-place');
  const top = Math.max(second + 5 * by, idSize + 2 * by);
  const picture = boardPicture(measure, sizes, figures, placeNames(room.level), piece, wide, 'alone');
  items.push(...moved(picture.items, [0, top]));
  const notes = [
    piece.lengthFrom === 'drawn' ? 'drawn: measure before cutting' : 'measured',
    ...(piece.overallMm < SMALL_MM ? ['▲ small'] : []),
    ...extras,
  ].join(' · ');
  const first = top + picture.height + 2 * by + small * CAP_EM;
  const lines = wrapText(measure, notes, 'italic', small, wide);
  lines.forEach((row, index) => {
    put(row, [0, first + index * lineHeight(small)], small, 'italic', 'label-note');
  });
  const lowest = first + (lines.length - 1) * lineHeight(small) + small * 0.24;
  const frame: Item = {
    kind: 'line',
    points: corners(cell),
    stroke: { ink: 'graphite', width: 0.4, dash: [3, 2] },
    closed: true,
    role: 'label',
  };
  return {
    items: [frame, ...moved(items, [x0 + PAD * by, y0 + PAD * by])],
    fits: lowest <= y1 - y0 - 2 * PAD * by,
  };
}
