// What to buy and how each stock length is cut: the order list with prices, then every board drawn to scale with its pieces
// in the order of cutting, what is left of it, and the off-cuts worth keeping. Points; figures from the report [SH24, SH36].

import { capital } from '../fit/say.ts';
import { lookup } from '../plan/maps.ts';
import type { ProfileId } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import type { Report } from '../report/schema.ts';
import { costWords, knownSum, orderSums, sumWords, withoutWords } from '../report/stock.ts';
import { HUNDREDTHS } from '../stock/index.ts';
import { corners } from './boxes.ts';
import { cutName } from './cut-names.ts';
import { type CutThing, cutOutline, cutThings, laidThings } from './cut-things.ts';
import type { Block } from './flow.ts';
import type { FontName, Item, Sheet } from './items.ts';
import { layPages, type PageKit } from './page-layout.ts';
import { profileName, profileSize } from './page-names.ts';
import { prose } from './page-prose.ts';
import { patch, rule, THIN } from './shapes.ts';
import { type CellPart, type Row, table, words } from './table.ts';
import { CAP_EM, lineHeight, middleBaseline, text, wrapText } from './texts.ts';
import { counted, printable, unbroken } from './words.ts';

type Stock = Report['stock'][number];
type StockBoard = Stock['boards'][number];

/** Height of a drawn board on a letter sheet, and the most that a slant takes of it along the board, points. */
const BOARD_HIGH = 13;
const MOST_SLANT = 9;
/** How far the bars at a held board's ends stand out over its edges. */
const HELD_OVER = 2;
/** A thing that is cut from stock, with its name below the board and, where it fits, in it. */
interface Cut extends CutThing {
  readonly short: string;
  readonly name: string;
}

type Cuts = ReadonlyMap<string, Cut>;

/** The sheets of order and boards; none where the report has no stock. */
export function stockSheets(kit: PageKit): Sheet[] {
  const { stock } = kit.solved.report;
  if (stock.length === 0) return [];
  const boards = stock.reduce((sum, each) => sum + each.boards.length, 0);
  const cuts = cutsById(kit);
  return layPages(kit, {
    title: 'Order and boards',
    subtitle: `${counted(boards, 'board')} of stock  ·  what to buy, and how each board is cut`,
    bookmark: 'Order and boards',
    parent: null,
    blocks: [...orderTable(kit, cuts), ...stock.flatMap((each) => boardsOf(kit, each, cuts))],
  });
}

/** Money as the plan gives it: no currency, two decimals. */
function money(amount: number): string {
  return (Math.round(amount * HUNDREDTHS) / HUNDREDTHS).toFixed(2);
}

function orderTable(kit: PageKit, cuts: Cuts): Block[] {
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
  const sums = orderSums(purchase);
  const isKnown = (all: readonly (number | null)[]): boolean => !all.includes(null);
  const total = (all: readonly (number | null)[], font: FontName, role: string): CellPart[] => {
    const known = knownSum(all);
    if (known === null) return [...words('–', { role })];
    return [
      ...words(money(known), { font, role }),
      ...(isKnown(all) ? [] : words('known so far', { size: sizes.small, ink: 'graphite' })),
    ];
  };
  if (rows.length > 0)
    rows.push({
      kind: 'cells',
      cells: [
        words('Total', { font: 'bold' }),
        [],
        words(`${purchase.reduce((sum, line) => sum + line.count, 0)}`, { font: 'bold' }),
        [],
        total(sums.boards, 'bold', 'order-total'),
        words(`${purchase.reduce((sum, line) => sum + line.spare, 0)}`),
        total(sums.spare, 'regular', 'spare-total'),
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
  const uncut = withoutWords(stock, nameIn(cuts));
  const said = [
    ...(isKnown(sums.boards) ? [] : [`Total: ${sumWords(sums.boards)}.`]),
    ...(isKnown(sums.spare) ? [] : [`For spare: ${sumWords(sums.spare)}.`]),
    ...(onHand > 0
      ? [`${counted(onHand, 'board')} on hand ${onHand === 1 ? 'is' : 'are'} used as well and not ordered.`]
      : []),
    ...(without.length > 0
      ? [`Not reckoned, because the plan gives no stock lengths for it: ${without.join(', ')}.`]
      : []),
  ];
  said.push(
    'Below: each board as it is cut, from left to right, after its trimmed end; to scale along its length. Backs, and outer edges of casings, are on top; ends lean the way they are cut, but not to scale. Hatched: what is left. Lengths are overall, as in the cut list; where a board is to spring in, what it is cut longer stands beside it.',
  );
  return [
    ...blocks,
    ...(uncut === null
      ? []
      : prose(measure, sizes, width, uncut, { before: 5, font: 'semibold', ink: 'pencil', role: 'uncut' })),
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
function cutsById({ plan, solved: { report } }: PageKit): Cuts {
  const named = (thing: CutThing): Cut => {
    const { short, full } = cutName(plan, report, thing);
    return { ...thing, short, name: full };
  };
  return new Map([...cutThings(report, plan.levels.length)].map(([id, thing]) => [id, named(thing)]));
}

const nameIn =
  (cuts: Cuts) =>
  (id: string): string =>
    cuts.get(id)?.name ?? printable(id);

function boardsOf(kit: PageKit, stock: Stock, cuts: Cuts): Block[] {
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
          ...(board.held
            ? [{ kind: 'text', text: 'held', size: sizes.small, font: 'bold', role: 'held' } as const]
            : []),
        ],
        [drawing],
        words(offcut === figures.cut(0) ? 'none' : unbroken(offcut)),
      ],
    };
  });
  const size = profile ? `${profileSize(figures, profile)}. ` : '';
  const least = costWords(stock, (amount) =>
    stock.by === 'money' ? money(amount) : unbroken(figures.length(amount)),
  );
  const blocks = table(measure, sizes, width, {
    title: profileName(kit.solved, stock.profile),
    note: `${size}${boardsWords(kit, stock)}. ${capital(least)}.`,
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
          `No stock board holds: ${stock.unplaced.map(nameIn(cuts)).join(', ')}.`,
          { before: 5, font: 'semibold', ink: 'pencil', role: 'unplaced' },
        )),
  ];
}

/** `9 boards, 209.40, waste 8' 4"`: what they cost where that is money, and all of them that no piece needs. */
function boardsWords(kit: PageKit, stock: Stock): string {
  const waste = stock.boards.reduce((sum, board) => sum + board.lengthMm - board.piecesMm, 0);
  return [
    counted(stock.boards.length, 'board'),
    ...(stock.by === 'money' ? [money(stock.cost)] : []),
    `waste ${unbroken(kit.figures.length(waste))}`,
  ].join(', ');
}

/** A board to scale along its length, its pieces in it, and their names with lengths below in the same order. */
function boardDrawing(
  kit: PageKit,
  width: number,
  perMm: number,
  board: StockBoard,
  cuts: Cuts,
): Extract<CellPart, { kind: 'drawing' }> {
  const { measure, sizes, figures } = kit;
  const by = sizes.by;
  const high = BOARD_HIGH * by;
  const small = sizes.small;
  const items: Item[] = [];
  const pieces = laidThings(board, cuts);
  const hatch = { spacing: 2.4, angleDeg: 45, stroke: { ink: 'graphite', width: 0.3 } } as const;
  const end = board.lengthMm * perMm;
  items.push(patch([0, 0, end, high], 'paper', hatch));
  for (const { thing, fromMm } of pieces)
    items.push(...pieceItems(kit, thing, fromMm * perMm, thing.needMm * perMm, high));
  items.push({
    kind: 'line',
    points: corners([0, 0, end, high]),
    stroke: { ink: 'ink', width: 0.8 },
    closed: true,
    role: 'stock',
  });
  // What is held is shut in at both ends.
  if (board.held)
    for (const x of [0, end])
      items.push(
        rule([x, -HELD_OVER * by], [x, high + HELD_OVER * by], { ink: 'ink', width: 2.2 }, 'held-end'),
      );
  const named = pieces
    .map(({ thing }) => unbroken(`${thing.name} ${cutWords(figures, thing)}`))
    .join('  ·  ');
  let y = high + 3 * by + small * CAP_EM;
  for (const line of wrapText(measure, named, 'regular', small, width)) {
    items.push(text(measure, { text: line, at: [0, y], size: small, role: 'stock-pieces' }));
    y += lineHeight(small);
  }
  return { kind: 'drawing', width, height: y - lineHeight(small) + small * 0.24, items };
}

/** Its length in the cut list, and the spring apart, as there. */
function cutWords(figures: PageKit['figures'], { lengthMm, springMm }: CutThing): string {
  const length = figures.cut(lengthMm);
  return springMm > 0 ? `${length}, spring + ${figures.fine(springMm)}` : length;
}

function pieceItems(kit: PageKit, cut: Cut, x: number, wide: number, high: number): Item[] {
  const { measure, sizes } = kit;
  const outline = cutOutline(cut, x, wide, high, MOST_SLANT * sizes.by);
  const [backLeft, backRight, faceRight, faceLeft] = outline;
  const items: Item[] = [
    {
      kind: 'line',
      points: outline,
      stroke: { ink: 'ink', width: 0.7 },
      closed: true,
      fill: 'wash',
      role: 'stock-piece',
    },
    rule(backLeft, backRight, { ink: 'ink', width: THIN }),
  ];
  const size = sizes.small;
  const label = printable(cut.short);
  const from = Math.max(backLeft[0], faceLeft[0]);
  const to = Math.min(backRight[0], faceRight[0]);
  if (measure.width(label, 'semibold', size) <= to - from - 4)
    items.push(
      text(measure, {
        text: label,
        at: [(from + to) / 2, middleBaseline(high / 2, size)],
        size,
        font: 'semibold',
        align: 'middle',
        role: 'stock-id',
      }),
    );
  return items;
}
