// Labels to cut out and stick to the boards: a grid of as many columns and rows as the plan asks for, or as many as can be
// read. Each says the board, its room and wall, how it is cut, and whether its length is only drawn. Points; figures from
// the report [SH24, SH37]. Return pieces have none: they stay with their board, whose label names them.

import type { Item, Sheet } from './items.ts';
import { type Box, CAP_EM, corners, lineHeight, moved, text, wrapText } from './kit.ts';
import { settingsOf } from '../plan/settings.ts';
import { boardPicture } from './page-board.ts';
import { SMALL_MM, wallOf } from './page-boards.ts';
import { frameHead, type PageKit } from './page-layout.ts';
import { placeNames, profileName, type ReportPiece, type RoomOnPaper } from './page-names.ts';
import { sheetFrame } from './plan-frame.ts';
import { LINE_NAMES } from './words.ts';

/** What a label needs to be read at all, points on a letter sheet. */
const LEAST = { width: 168, height: 60 };
const PAD = 5;

interface Labelled {
  readonly room: RoomOnPaper;
  readonly line: RoomOnPaper['runs'][number]['line'];
  readonly piece: ReportPiece;
  readonly closing: readonly ReportPiece[];
}

/** The sheets of labels, room by room in the order of putting up; none where there are no boards. */
export function labelSheets(kit: PageKit, rooms: readonly RoomOnPaper[]): Sheet[] {
  const boards = rooms.flatMap((room) =>
    room.runs.flatMap(({ line, pieces }): Labelled[] =>
      pieces
        .filter((piece) => piece.returnOf === null)
        .toSorted((a, b) => a.order - b.order)
        .map((piece) => ({
          room,
          line,
          piece,
          closing: pieces.filter((each) => each.returnOf === piece.id),
        })),
    ),
  );
  const sheets: Sheet[] = [];
  for (let done = 0; done < boards.length; ) {
    const title = done === 0 ? 'Labels' : 'Labels, continued';
    const subtitle = done === 0 ? 'one for each board: cut along the dashed lines' : '';
    const frame = sheetFrame(kit.measure, kit.size, { ...frameHead(kit), title, subtitle });
    const cells = grid(kit, frame.inner);
    const items = boards.slice(done, done + cells.length).flatMap((each, index) => label(kit, each, cells[index]!));
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
function grid(kit: PageKit, inner: Box): Box[] {
  const { labelColumns, labelRows } = settingsOf(kit.plan);
  const { by } = kit.sizes;
  const [x0, y0, x1, y1] = inner;
  const columns = Math.max(1, Math.min(labelColumns, Math.floor((x1 - x0) / (LEAST.width * by))));
  const rows = Math.max(1, Math.min(labelRows, Math.floor((y1 - y0) / (LEAST.height * by))));
  const [wide, high] = [(x1 - x0) / columns, (y1 - y0) / rows];
  return Array.from({ length: columns * rows }, (_, index): Box => {
    const [column, row] = [index % columns, Math.floor(index / columns)];
    return [x0 + column * wide, y0 + row * high, x0 + (column + 1) * wide, y0 + (row + 1) * high];
  });
}

function label(kit: PageKit, { room, line, piece, closing }: Labelled, cell: Box): Item[] {
  const { measure, sizes, figures } = kit;
  const { by, small } = sizes;
  const [x0, y0, x1, y1] = cell;
  const wide = x1 - x0 - 2 * PAD * by;
  const items: Item[] = [];
  const idSize = sizes.body * 1.5;
  items.push(
    text(measure, { text: piece.id, at: [0, idSize * CAP_EM], size: idSize, font: 'bold', role: 'label-id' }),
  );
  const idWide = measure.width(piece.id, 'bold', idSize) + 8 * by;
  const names = [room.name, ...(kit.plan.levels.length > 1 ? [room.levelName] : [])].join(', ');
  const places = [names, `${wallOf(room, piece)}, ${LINE_NAMES[line]}: ${profileName(kit.solved, piece.profile)}`];
  let y = small * CAP_EM;
  const rest = wide - idWide;
  for (const [index, place] of places.entries()) {
    // What does not fit is on the board's row in the cut list: a label keeps its first line of each.
    const row = wrapText(measure, place, index === 0 ? 'semibold' : 'regular', small, rest)[0]!;
    items.push(
      text(measure, {
        text: row,
        at: [wide, y],
        size: small,
        font: index === 0 ? 'semibold' : 'regular',
        align: 'right',
        role: 'label-place',
      }),
    );
    y += lineHeight(small);
  }
  const top = Math.max(y - lineHeight(small) + 5 * by, idSize + 2 * by);
  const picture = boardPicture(measure, sizes, figures, placeNames(room.level), piece, wide, 'alone');
  items.push(...moved(picture.items, [0, top]));
  const notes = [
    ...(piece.lengthFrom === 'drawn' ? ['drawn: measure before cutting'] : ['measured']),
    ...(piece.overallMm < SMALL_MM ? ['▲ small'] : []),
    ...(piece.springMm > 0 ? [`spring + ${figures.fine(piece.springMm)}`] : []),
    ...(closing.length > 0 ? [`${closing.length === 1 ? 'a return' : `${closing.length} returns`} with it`] : []),
  ].join(' · ');
  let base = top + picture.height + 2 * by + small * CAP_EM;
  const foot = y1 - y0 - 2 * PAD * by;
  for (const row of wrapText(measure, notes, 'italic', small, wide)) {
    if (base + small * 0.24 > foot) break;
    items.push(text(measure, { text: row, at: [0, base], size: small, font: 'italic', role: 'label-note' }));
    base += lineHeight(small);
  }
  return [
    {
      kind: 'line',
      points: corners(cell),
      stroke: { ink: 'graphite', width: 0.4, dash: [3, 2] },
      closed: true,
      role: 'label',
    },
    ...moved(items, [x0 + PAD * by, y0 + PAD * by]),
  ];
}
