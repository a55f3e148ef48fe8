// Labels to cut out and stick to the boards and to the parts of casings: a grid of as many columns and rows as the plan asks
// for, or as many as can be read. Each says the board, its room and wall, how it is cut, the stock it comes from, and
// whether its length is only drawn. Points; figures from the report [SH24, SH37]. Return pieces have none: they stay with
// their board, whose label says so.

import { lookup } from '../plan/maps.ts';
import { settingsOf } from '../plan/settings.ts';
import { casingPartId } from '../stock/index.ts';
import { type Box, moved } from './boxes.ts';
import { openingNameOf, roomNameOf } from './cut-names.ts';
import { type CutThing, cutOutline, cutThings } from './cut-things.ts';
import type { FontName, Item, Sheet, Stroke } from './items.ts';
import { boardPicture } from './page-board.ts';
import { SMALL_MM, wallOf } from './page-boards.ts';
import { frameHead, type PageKit } from './page-layout.ts';
import { levelName, placeNames, profileName, type ReportPiece, type RoomOnPaper } from './page-names.ts';
import { sheetFrame } from './plan-frame.ts';
import { rule, THIN } from './shapes.ts';
import { CAP_EM, lineHeight, text, wrapText } from './texts.ts';
import { CASING_PARTS } from './words.ts';

/** What a label needs to be read at all, and heights up to what holds all that one can have to say, points on a letter sheet. */
const LEAST = { width: 168, height: 60 };
const HIGHER = [67.5, 75];
const PAD = 5;
/** How high a part of a casing is drawn, and how long at least and at most, points on a letter sheet. */
const PART_PICTURE = { high: 8, least: 40, most: 84 };

interface LabelledBoard {
  readonly kind: 'board';
  readonly room: RoomOnPaper;
  readonly piece: ReportPiece;
  readonly closing: readonly ReportPiece[];
  /** `stock 3`; null where no stock is reckoned. */
  readonly stock: string | null;
}

interface LabelledPart {
  readonly kind: 'part';
  readonly thing: CutThing;
  readonly id: string;
  readonly room: string;
  readonly level: string;
  readonly where: string;
  readonly said: string;
  readonly stock: string | null;
}

type Labelled = LabelledBoard | LabelledPart;

/** The sheets of labels: boards room by room in the order of putting up, then casings; none where there is nothing. */
export function labelSheets(kit: PageKit, rooms: readonly RoomOnPaper[]): Sheet[] {
  const stock = stockWords(kit);
  const boards = rooms.flatMap((room) =>
    room.runs.flatMap(({ pieces }): Labelled[] =>
      pieces
        .filter((piece) => piece.returnOf === null)
        .toSorted((a, b) => a.order - b.order)
        .map((piece) => ({
          kind: 'board',
          room,
          piece,
          closing: pieces.filter((each) => each.returnOf === piece.id),
          stock: stock(piece.id, piece.profile),
        })),
    ),
  );
  const sheets: Sheet[] = [];
  let left: readonly Labelled[] = [...boards, ...casingLabels(kit, stock)];
  while (left.length > 0) {
    // Low rows, as many as are asked for; where one label of the sheet says more than they hold, higher ones for all of it.
    let made = sheetOf(kit, left, sheets.length, LEAST.height);
    for (const height of HIGHER) if (!made.fits) made = sheetOf(kit, left, sheets.length, height);
    sheets.push(made.sheet);
    left = left.slice(made.count);
  }
  return sheets;
}

/** Which stock board a thing is cut from, as the sheet of boards numbers them: each profile from 1. */
function stockWords(kit: PageKit): (id: string, profile: string) => string | null {
  const { stock } = kit.solved.report;
  const numbers = new Map<string, string>();
  for (const { profile, boards, unplaced } of stock) {
    const kind = lookup(kit.plan.profiles, profile)?.kind;
    const alone =
      stock.filter((other) => lookup(kit.plan.profiles, other.profile)?.kind === kind).length === 1;
    const of = alone ? '' : ` of ${profileName(kit.solved, profile)}`;
    boards.forEach((board, index) => {
      for (const id of board.pieces) numbers.set(`${profile} ${id}`, `stock ${index + 1}${of}`);
    });
    for (const id of unplaced) numbers.set(`${profile} ${id}`, 'no stock');
  }
  return (id, profile) => numbers.get(`${profile} ${id}`) ?? null;
}

function casingLabels(kit: PageKit, stock: (id: string, profile: string) => string | null): LabelledPart[] {
  const { plan, figures } = kit;
  const { report } = kit.solved;
  const things = cutThings(report, plan.levels.length);
  return report.casings.flatMap((casing) => {
    const level = plan.levels.find((each) => each.id === casing.level);
    if (!level) throw new Error(`casing ${casing.id} is on no level`);
    const allRound = casing.parts.some((part) => part.part === 'sill');
    return casing.parts.map(({ part, shortMm, longMm }): LabelledPart => {
      const once = part.startsWith('leg') && !allRound;
      const cutId = casingPartId(casing.level, plan.levels.length, casing.id, part);
      return {
        kind: 'part',
        thing: things.get(cutId)!,
        id: CASING_PARTS[part],
        room: roomNameOf(report, casing.level, casing.room),
        level: levelName(kit.solved, level),
        where: openingNameOf(plan, casing),
        said: [
          `long ${figures.cut(longMm)}`,
          `short ${figures.cut(shortMm)}`,
          `saw ${figures.saw(45)} ${once ? 'at its head' : 'both ends'}`,
        ].join('  ·  '),
        stock: stock(cutId, casing.profile),
      };
    });
  });
}

/** A room's name and, where there are several, its level's, on one line: a name too long for it ends in a sign that says so. */
function roomWords(kit: PageKit, name: string, level: string, wide: number): string {
  const { measure, sizes, plan } = kit;
  const after = plan.levels.length > 1 ? `, ${level}` : '';
  const fits = (text: string): boolean => measure.width(text, 'semibold', sizes.small) <= wide;
  if (fits(`${name}${after}`)) return `${name}${after}`;
  const [start] = wrapText(
    measure,
    name,
    'semibold',
    sizes.small,
    wide - measure.width(`…${after}`, 'semibold', sizes.small),
  );
  const cut = `${start}…${after}`;
  // The level's own name may be the longer one.
  return fits(cut) ? cut : `${wrapText(measure, cut, 'semibold', sizes.small, wide - sizes.small)[0]}…`;
}

/** The sheet after so many others: as many of the labels as it takes, and whether each holds what it has to say. */
function sheetOf(
  kit: PageKit,
  labels: readonly Labelled[],
  before: number,
  least: number,
): { readonly sheet: Sheet; readonly count: number; readonly fits: boolean } {
  const title = before === 0 ? 'Labels' : 'Labels, continued';
  const what = 'one for each board and part of a casing, its outer edge on top: cut along the dashed lines';
  const framed = (fewer: readonly string[]) => {
    const subtitle = [...(before === 0 ? [what] : []), ...fewer].join('  ·  ');
    return sheetFrame(kit.measure, kit.size, { ...frameHead(kit), title, subtitle });
  };
  const fewerIn = ({ inner }: ReturnType<typeof framed>) => fewerWords(kit, gridSize(kit, inner, least));
  // Twice: what is said of it takes room itself.
  const frame = framed(fewerIn(framed(fewerIn(framed([])))));
  const here = placed(kit, labels, grid(kit, frame.inner, least));
  const made = here.map(({ label: each, box }) =>
    each.kind === 'board' ? label(kit, each, box) : partLabel(kit, each, box),
  );
  return {
    sheet: {
      width: kit.size[0],
      height: kit.size[1],
      bookmark: before === 0 ? title : `${title} ${before + 1}`,
      parent: before === 0 ? null : 'Labels',
      items: [
        ...frame.items,
        ...outerLines(here.map(({ box }) => box)),
        ...made.flatMap(({ items }) => items),
      ],
    },
    count: here.length,
    fits: made.every(({ fits }) => fits),
  };
}

/**
 * Labels into the cells of one sheet, one to a cell; on sheets larger than letter and A4 of parts of casings, whose words
 * are few, as many as the sheet has columns and the cell is wide for.
 */
function placed(
  kit: PageKit,
  labels: readonly Labelled[],
  cells: readonly Box[],
): { readonly label: Labelled; readonly box: Box }[] {
  const found: { label: Labelled; box: Box }[] = [];
  for (const [x0, y0, x1, y1] of cells) {
    const rest = labels.slice(found.length);
    const many = Math.max(1, Math.min(kit.columns, Math.floor((x1 - x0) / (LEAST.width * kit.sizes.by))));
    const boards = rest.findIndex(({ kind }) => kind === 'board');
    const here = rest.slice(0, boards === 0 ? 1 : Math.min(many, boards === -1 ? many : boards));
    const wide = (x1 - x0) / (boards === 0 ? 1 : many);
    here.forEach((label, index) => {
      found.push({ label, box: [x0 + index * wide, y0, x0 + (index + 1) * wide, y1] });
    });
  }
  return found;
}

interface GridSize {
  readonly columns: number;
  readonly rows: number;
}

/** What the settings ask for, fewer where labels could not be read. */
function gridSize(kit: PageKit, [x0, y0, x1, y1]: Box, least: number): GridSize {
  const { labelColumns, labelRows } = settingsOf(kit.plan);
  const { by } = kit.sizes;
  return {
    columns: Math.max(1, Math.min(labelColumns, Math.floor((x1 - x0) / (LEAST.width * by)))),
    rows: Math.max(1, Math.min(labelRows, Math.floor((y1 - y0) / (least * by)))),
  };
}

/** Where a sheet holds fewer than the settings ask for: how many, and why. */
function fewerWords(kit: PageKit, { columns, rows }: GridSize): string[] {
  const { labelColumns, labelRows } = settingsOf(kit.plan);
  const said = [
    ...(columns < labelColumns ? [`${columns} across, not ${labelColumns}`] : []),
    ...(rows < labelRows ? [`${rows} down, not ${labelRows}`] : []),
  ];
  return said.length === 0 ? [] : [`${said.join(', ')}, so that each label holds its words`];
}

/** The cells of the grid, row by row. */
function grid(kit: PageKit, inner: Box, least: number): Box[] {
  const { columns, rows } = gridSize(kit, inner, least);
  const [x0, y0, x1, y1] = inner;
  const [wide, high] = [(x1 - x0) / columns, (y1 - y0) / rows];
  return Array.from({ length: columns * rows }, (_, index): Box => {
    const [column, row] = [index % columns, Math.floor(index / columns)];
    return [x0 + column * wide, y0 + row * high, x0 + (column + 1) * wide, y0 + (row + 1) * high];
  });
}

interface Made {
  readonly items: Item[];
  readonly fits: boolean;
}

/** Writes into a cell's items: left at 0, else right. */
function putInto(kit: PageKit, items: Item[]) {
  return (content: string, at: readonly [number, number], size: number, font: FontName, role: string) =>
    items.push(
      text(kit.measure, { text: content, at, size, font, align: at[0] === 0 ? 'left' : 'right', role }),
    );
}

/** What every line to cut along is drawn with. */
const CUT_LINE: Stroke = { ink: 'graphite', width: 0.4, dash: [3, 2] };

/** The outer lines above and left of the labels: all others are right of or below one and drawn with it. */
function outerLines(boxes: readonly Box[]): Item[] {
  const [x0, y0] = boxes[0]!;
  const x1 = Math.max(...boxes.map((box) => box[2]));
  const y1 = Math.max(...boxes.map((box) => box[3]));
  const points = [
    [x0, y1],
    [x0, y0],
    [x1, y0],
  ] as const;
  return [{ kind: 'line', points, stroke: CUT_LINE, role: 'label-edge' }];
}

/** The cell's dashed lines right and below, so that each line is drawn once; what stands in it; and whether it stays inside. */
function inCell(kit: PageKit, cell: Box, items: readonly Item[], lowest: number): Made {
  const pad = PAD * kit.sizes.by;
  const frame: Item = {
    kind: 'line',
    points: [
      [cell[2], cell[1]],
      [cell[2], cell[3]],
      [cell[0], cell[3]],
    ],
    stroke: CUT_LINE,
    role: 'label',
  };
  return {
    items: [frame, ...moved(items, [cell[0] + pad, cell[1] + pad])],
    fits: lowest <= cell[3] - cell[1] - 2 * pad,
  };
}

/** A part of a casing: what it is, where, its ends drawn, its long and short points, its cuts. */
function partLabel(kit: PageKit, part: LabelledPart, cell: Box): Made {
  const { measure, sizes } = kit;
  const { by, small } = sizes;
  const wide = cell[2] - cell[0] - 2 * PAD * by;
  const items: Item[] = [];
  const put = putInto(kit, items);
  const idSize = sizes.body * 1.2;
  put(part.id, [0, idSize * CAP_EM], idSize, 'bold', 'label-casing');
  const rest = wide - measure.width(part.id, 'bold', idSize) - 8 * by;
  put(roomWords(kit, part.room, part.level, rest), [wide, small * CAP_EM], small, 'semibold', 'label-room');
  // Beside the part's name where that leaves room, else on lines of its own.
  const room = Math.min(rest, wide - (PART_PICTURE.least + 8) * by);
  const whereWide = measure.width(part.where, 'regular', small);
  const beside = whereWide <= room;
  if (beside) put(part.where, [wide, small * CAP_EM + lineHeight(small)], small, 'regular', 'label-place');
  const long = Math.min(PART_PICTURE.most * by, wide - (beside ? whereWide + 8 * by : 0));
  items.push(...moved(partPicture(part.thing, long, PART_PICTURE.high * by), [0, idSize * CAP_EM + 3 * by]));
  let y = Math.max(small * CAP_EM + 2 * lineHeight(small), idSize * CAP_EM + lineHeight(small)) + 4 * by;
  let lowest = y;
  const said = [...(beside ? [] : [part.where]), part.said, ...(part.stock === null ? [] : [part.stock])];
  for (const each of said) {
    for (const row of wrapText(measure, each, 'regular', small, wide)) {
      put(row, [0, y], small, 'regular', 'label-note');
      lowest = y + small * 0.24;
      y += lineHeight(small);
    }
  }
  return inCell(kit, cell, items, lowest);
}

/** A part lying as on the sheet of boards: outer edge on top, its ends as they are cut, not to scale along its length. */
function partPicture(thing: CutThing, long: number, high: number): Item[] {
  const points = cutOutline(thing, 0, long, high, high);
  const [backLeft, backRight] = points;
  return [
    { kind: 'line', points, stroke: { ink: 'graphite', width: THIN }, closed: true, role: 'label-part' },
    rule(backLeft, backRight, { ink: 'ink', width: 3 * THIN }),
  ];
}

function label(kit: PageKit, { room, piece, closing, stock }: LabelledBoard, cell: Box): Made {
  const { measure, sizes, figures } = kit;
  const { by, small } = sizes;
  const wide = cell[2] - cell[0] - 2 * PAD * by;
  const items: Item[] = [];
  const put = putInto(kit, items);
  const idSize = sizes.body * 1.5;
  put(piece.id, [0, idSize * CAP_EM], idSize, 'bold', 'label-id');
  const rest = wide - measure.width(piece.id, 'bold', idSize) - 8 * by;
  put(
    roomWords(kit, room.name, room.levelName, rest),
    [wide, small * CAP_EM],
    small,
    'semibold',
    'label-room',
  );
  // Beside its wall as much as that line holds, below the picture what is left.
  const extras = [
    ...(stock === null ? [] : [stock]),
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
  return inCell(kit, cell, items, lowest);
}
