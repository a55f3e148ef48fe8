// What to buy and how each stock length is cut: the order list with prices, then every board drawn to scale with its pieces
// in the order of cutting, what is left of it, and the off-cuts worth keeping. Points; figures from the report [SH24, SH36].

import type { Point } from '../graph/types.ts';
import { lookup } from '../plan/maps.ts';
import type { ProfileId } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import type { Report } from '../report/schema.ts';
import { casingPartId, HUNDREDTHS } from '../stock/index.ts';
import type { Block } from './flow.ts';
import type { Item, Sheet } from './items.ts';
import { CAP_EM, corners, lineHeight, middleBaseline, patch, rule, THIN, text, wrapText } from './kit.ts';
import { layPages, type PageKit } from './page-layout.ts';
import { placeNames, profileName, profileSize, type RoomOnPaper } from './page-names.ts';
import { prose } from './page-prose.ts';
import { type CellPart, type Row, table, words } from './table.ts';
import { CASING_PARTS, counted, printable, unbroken } from './words.ts';

type Stock = Report['stock'][number];
type StockBoard = Stock['boards'][number];

/** Height of a drawn board on a letter sheet, and the most that a slant takes of it along the board, points. */
const BOARD_HIGH = 13;
const MOST_SLANT = 9;
/** A slant takes at most this share of its piece, so that both ends of a short one can be told. */
const SLANT_OF_PIECE = 0.35;

/** How a thing that is cut from stock is drawn and named. Slants are degrees, leaning in from the edge that is drawn on top. */
interface Cut {
  readonly id: string;
  /** In the board, where it fits. */
  readonly short: string;
  readonly name: string;
  readonly needMm: number;
  readonly left: Slant;
  readonly right: Slant;
}
interface Slant {
  readonly deg: number;
  readonly longPoint: 'back' | 'face' | null;
}
const SQUARE: Slant = { deg: 0, longPoint: null };
const MITRED: Slant = { deg: 45, longPoint: 'back' };

/** The sheets of order and boards; none where the report has no stock. */
export function stockSheets(kit: PageKit, rooms: readonly RoomOnPaper[]): Sheet[] {
  const { stock } = kit.solved.report;
  if (stock.length === 0) return [];
  const boards = stock.reduce((sum, each) => sum + each.boards.length, 0);
  const cuts = cutsById(kit, rooms);
  return layPages(kit, {
    title: 'Order and boards',
    subtitle: `${counted(boards, 'board')} of stock  ·  what to buy, and how each board is cut`,
    bookmark: 'Order and boards',
    parent: null,
    blocks: [...orderTable(kit), ...stock.flatMap((each) => boardsOf(kit, each, cuts))],
  });
}

/** Money as the plan gives it: no currency, two decimals. */
function money(amount: number): string {
  return (Math.round(amount * HUNDREDTHS) / HUNDREDTHS).toFixed(2);
}

function orderTable(kit: PageKit): Block[] {
  const { measure, sizes, width, figures } = kit;
  const { purchase, stock } = kit.solved.report;
  const percent = settingsOf(kit.plan).sparePercent;
  const price = (amount: number | null) => words(amount === null ? '–' : money(amount));
  const rows: Row[] = purchase.map((line) => ({
    kind: 'cells',
    cells: [
      words(profileName(kit.solved, line.profile), { font: 'semibold' }),
      words(unbroken(figures.length(line.lengthMm))),
      words(`${line.count}`, { font: 'bold', role: 'order-count' }),
      price(line.price),
      price(line.sum),
      words(line.spare === 0 ? '–' : `${line.spare}`),
      line.spare === 0 ? words('–') : price(line.spareSum),
    ],
  }));
  const sums = purchase.map((line) => line.sum);
  const spares = purchase.map((line) => (line.spare === 0 ? 0 : line.spareSum));
  const total = (all: readonly (number | null)[]) =>
    all.some((each) => each === null)
      ? 'not all prices known'
      : money(all.reduce<number>((sum, each) => sum + each!, 0));
  if (rows.length > 0)
    rows.push({
      kind: 'cells',
      cells: [
        words('Total', { font: 'bold' }),
        [],
        words(`${purchase.reduce((sum, line) => sum + line.count, 0)}`, { font: 'bold' }),
        [],
        words(total(sums), { font: 'bold', role: 'order-total' }),
        words(`${purchase.reduce((sum, line) => sum + line.spare, 0)}`),
        words(total(spares)),
      ],
    });
  const onHand = stock.reduce((sum, each) => sum + each.boards.filter((board) => board.onHand).length, 0);
  const blocks = table(measure, sizes, width, {
    title: 'To order',
    note: `Prices as the plan gives them. Spare: ${percent} % on top, apart from count and sum.`,
    columns: [
      { title: 'moulding', grow: 1 },
      { title: 'length', align: 'right' },
      { title: 'count', align: 'right' },
      { title: 'each', align: 'right' },
      { title: 'sum', align: 'right' },
      { title: 'spare', align: 'right' },
      { title: 'for spare', align: 'right' },
    ],
    rows,
  });
  const without = noStock(kit);
  const said = [
    ...(onHand > 0
      ? [`${counted(onHand, 'board')} on hand ${onHand === 1 ? 'is' : 'are'} used as well and not ordered.`]
      : []),
    ...(without.length > 0
      ? [`Not reckoned, because the plan gives no stock lengths for it: ${without.join(', ')}.`]
      : []),
  ];
  said.push(
    'Below: each board as it is cut, from left to right, after its trimmed end; to scale along its length. Backs, and outer edges of casings, are on top; ends lean the way they are cut, but not to scale. Hatched: what is left. Lengths are what the blank must hold, spring with it.',
  );
  return [
    ...blocks,
    ...said.flatMap((each) => prose(measure, sizes, width, each, { before: 5, ink: 'graphite' })),
  ];
}

/** Mouldings that are cut but have no stock lengths. */
function noStock(kit: PageKit): string[] {
  const { report } = kit.solved;
  const used = new Set([...report.pieces, ...report.casings].map((each) => each.profile));
  const reckoned = new Set(report.stock.map((each) => each.profile));
  return [...used].filter((id) => !reckoned.has(id)).map((id) => profileName(kit.solved, id));
}

/** Everything that is cut from stock, by the id it has there. */
function cutsById(kit: PageKit, rooms: readonly RoomOnPaper[]): ReadonlyMap<string, Cut> {
  const { report } = kit.solved;
  const cuts = new Map<string, Cut>();
  for (const piece of report.pieces)
    cuts.set(piece.id, {
      id: piece.id,
      short: piece.id,
      name: piece.id,
      needMm: piece.overallMm + piece.springMm,
      left: { deg: piece.left.sawDeg, longPoint: piece.left.longPoint },
      right: { deg: piece.right.sawDeg, longPoint: piece.right.longPoint },
    });
  const levels = kit.plan.levels;
  for (const casing of report.casings) {
    const level = levels.find((each) => each.id === casing.level);
    if (!level) throw new Error(`casing ${casing.id} is on no level`);
    const room = rooms.find((each) => each.level === level && each.trim.room.id === casing.room);
    const where = `${placeNames(level).opening(casing.opening)}, ${room?.name ?? 'outside'}`;
    const foot = casing.parts.some((part) => part.part === 'sill') ? MITRED : SQUARE;
    for (const { part, longMm } of casing.parts) {
      const id = casingPartId(casing.level, levels.length, casing.id, part);
      // Its outer edge is drawn on top: a left leg then has its head end on the right, a right leg on the left.
      const left = part === 'legLeft' ? foot : MITRED;
      const right = part === 'legRight' ? foot : MITRED;
      const short = CASING_PARTS[part];
      cuts.set(id, { id, short, name: `${short} of ${where}`, needMm: longMm, left, right });
    }
  }
  return cuts;
}

function boardsOf(kit: PageKit, stock: Stock, cuts: ReadonlyMap<string, Cut>): Block[] {
  const { measure, sizes, width, figures } = kit;
  const profile = lookup(kit.plan.profiles, stock.profile as ProfileId);
  const longest = Math.max(0, ...stock.boards.map((board) => board.lengthMm));
  const picture = width * 0.78;
  const rows = stock.boards.map((board, index): Row => {
    const offcut = figures.cut(board.offcutMm);
    const drawing = boardDrawing(kit, picture, picture / longest, board, cuts);
    return {
      kind: 'cells',
      cells: [
        [
          { kind: 'text', text: `${index + 1}`, size: sizes.body * 1.2, font: 'bold', role: 'stock-board' },
          { kind: 'text', text: unbroken(figures.length(board.lengthMm)), size: sizes.small },
          ...(board.onHand
            ? [{ kind: 'text', text: 'on hand', size: sizes.small, font: 'italic', ink: 'graphite' } as const]
            : []),
        ],
        [drawing],
        words(offcut === figures.cut(0) ? 'none' : unbroken(offcut)),
      ],
    };
  });
  const size = profile ? `${profileSize(figures, profile)}. ` : '';
  const blocks = table(measure, sizes, width, {
    title: profileName(kit.solved, stock.profile),
    note: `${size}${sumWords(kit, stock)}. ${provedWords(kit, stock)}`,
    columns: [
      { title: 'board', grow: 1 },
      { title: 'cut from it', width: picture },
      { title: 'off-cut', align: 'right' },
    ],
    rows,
  });
  const kept = stock.keep.map(({ lengthMm, count }) => `${count} × ${unbroken(figures.cut(lengthMm))}`);
  return [
    ...blocks,
    ...(kept.length === 0
      ? []
      : prose(measure, sizes, width, `Off-cuts worth keeping: ${kept.join(', ')}.`, {
          before: 5,
          font: 'semibold',
          role: 'keep',
        })),
    ...(stock.unplaced.length === 0
      ? []
      : prose(
          measure,
          sizes,
          width,
          `No stock board holds: ${stock.unplaced.map((id) => cuts.get(id)?.name ?? printable(id)).join(', ')}.`,
          { before: 5, font: 'semibold', ink: 'pencil', role: 'unplaced' },
        )),
  ];
}

/** `9 boards, 209.40, waste 8' 4"`: what they cost where that is money, and all of them that no piece needs. */
function sumWords(kit: PageKit, stock: Stock): string {
  const waste = stock.boards.reduce((sum, board) => sum + board.lengthMm - board.piecesMm, 0);
  return [
    counted(stock.boards.length, 'board'),
    ...(stock.by === 'money' ? [money(stock.cost)] : []),
    `waste ${unbroken(kit.figures.length(waste))}`,
  ].join(', ');
}

function provedWords(kit: PageKit, stock: Stock): string {
  const what = stock.by === 'money' ? 'cheaper' : 'shorter';
  if (stock.proved) return `There is no ${what} way to cut them.`;
  const most = stock.cost - stock.bound;
  const by = stock.by === 'money' ? money(most) : kit.figures.length(most);
  return `If there is a ${what} way to cut them, it saves at most ${by}.`;
}

/** A board to scale along its length, its pieces in it, and their names with lengths below in the same order. */
function boardDrawing(
  kit: PageKit,
  width: number,
  perMm: number,
  board: StockBoard,
  cuts: ReadonlyMap<string, Cut>,
): Extract<CellPart, { kind: 'drawing' }> {
  const { measure, sizes, figures } = kit;
  const by = sizes.by;
  const high = BOARD_HIGH * by;
  const small = sizes.small;
  const items: Item[] = [];
  const pieces = board.pieces.map((id) => {
    const cut = cuts.get(id);
    if (!cut) throw new Error(`stock of ${id}, which nothing is cut to`);
    return cut;
  });
  const hatch = { spacing: 2.4, angleDeg: 45, stroke: { ink: 'graphite', width: 0.3 } } as const;
  const end = board.lengthMm * perMm;
  items.push(patch([0, 0, end, high], 'paper', hatch));
  // The report gives the board's kerfs in one sum: they are drawn alike.
  const kerf = (board.kerfMm / Math.max(1, pieces.length)) * perMm;
  let x = board.trimMm * perMm;
  for (const cut of pieces) {
    const wide = cut.needMm * perMm;
    items.push(...pieceItems(kit, cut, x, wide, high));
    x += wide + kerf;
  }
  items.push({
    kind: 'line',
    points: corners([0, 0, end, high]),
    stroke: { ink: 'ink', width: 0.8 },
    closed: true,
    role: 'stock',
  });
  const named = pieces.map((cut) => unbroken(`${cut.name} ${figures.cut(cut.needMm)}`)).join('  ·  ');
  let y = high + 3 * by + small * CAP_EM;
  for (const line of wrapText(measure, named, 'regular', small, width)) {
    items.push(text(measure, { text: line, at: [0, y], size: small, role: 'stock-pieces' }));
    y += lineHeight(small);
  }
  return { kind: 'drawing', width, height: y - lineHeight(small) + small * 0.24, items };
}

function pieceItems(kit: PageKit, cut: Cut, x: number, wide: number, high: number): Item[] {
  const { measure, sizes } = kit;
  const slant = ({ deg, longPoint }: Slant): readonly [top: number, foot: number] => {
    const lean = Math.min(
      high * Math.tan((Math.min(deg, 89) * Math.PI) / 180),
      MOST_SLANT * sizes.by,
      wide * SLANT_OF_PIECE,
    );
    return longPoint === 'back' ? [0, lean] : longPoint === 'face' ? [lean, 0] : [0, 0];
  };
  const [leftTop, leftFoot] = slant(cut.left);
  const [rightTop, rightFoot] = slant(cut.right);
  const outline: Point[] = [
    [x + leftTop, 0],
    [x + wide - rightTop, 0],
    [x + wide - rightFoot, high],
    [x + leftFoot, high],
  ];
  const items: Item[] = [
    {
      kind: 'line',
      points: outline,
      stroke: { ink: 'ink', width: 0.7 },
      closed: true,
      fill: 'wash',
      role: 'stock-piece',
    },
    rule([x + leftTop, 0], [x + wide - rightTop, 0], { ink: 'ink', width: THIN }),
  ];
  const size = sizes.small;
  const label = printable(cut.short);
  const clear = wide - Math.max(leftTop, leftFoot) - Math.max(rightTop, rightFoot) - 4;
  if (measure.width(label, 'semibold', size) <= clear)
    items.push(
      text(measure, {
        text: label,
        at: [
          x + (Math.max(leftTop, leftFoot) + wide - Math.max(rightTop, rightFoot)) / 2,
          middleBaseline(high / 2, size),
        ],
        size,
        font: 'semibold',
        align: 'middle',
        role: 'stock-id',
      }),
    );
  return items;
}
