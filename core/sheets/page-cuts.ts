// The cut list: boards by profile and by saw setting, so that the saw is set once for a group; return pieces; casings.
// Points; figures come from the report [SH24, SH30].

import { lookup, sortedEntries } from '../plan/maps.ts';
import type { ProfileId } from '../plan/schema.ts';
import type { Report } from '../report/schema.ts';
import { openingNameOf, roomNameOf } from './cut-names.ts';
import type { Block } from './flow.ts';
import type { Sheet } from './items.ts';
import { boardPicture } from './page-board.ts';
import {
  boardCell,
  lengthsCell,
  measuredCell,
  measuredWidth,
  pictureWidth,
  SMALL_MM,
  wallOf,
} from './page-boards.ts';
import { layPages, type PageKit } from './page-layout.ts';
import { placeNames, profileName, profileSize, type ReportPiece, type RoomOnPaper } from './page-names.ts';
import { prose } from './page-prose.ts';
import { sawGroups } from './saw-groups.ts';
import { rectangle } from './shapes.ts';
import { type Cell, type CellPart, type Column, type Row, type TypeSizes, table, words } from './table.ts';
import { CASING_PARTS, counted, printable, unbroken } from './words.ts';

/** The cut list's sheets; none where the report has neither boards nor casings. */
export function cutSheets(kit: PageKit, rooms: readonly RoomOnPaper[]): Sheet[] {
  const { report } = kit.solved;
  if (report.pieces.length === 0 && report.casings.length === 0) return [];
  const returns = report.pieces.filter((piece) => piece.returnOf !== null);
  const boards = report.pieces.filter((piece) => piece.returnOf === null);
  return layPages(kit, {
    title: 'Cut list',
    subtitle: [
      counted(boards.length, 'board'),
      counted(returns.length, 'return piece'),
      counted(report.casings.length, 'casing set'),
      'by moulding, then by saw setting: set the saw once for each group',
    ].join('  ·  '),
    bookmark: 'Cut list',
    parent: null,
    blocks: [
      ...preface(kit),
      ...boardTables(kit, rooms),
      ...returnTable(kit, rooms, returns),
      ...casingTable(kit),
    ],
  });
}

function preface(kit: PageKit): Block[] {
  const { measure, sizes, width } = kit;
  const { pieces } = kit.solved.report;
  const drawn = pieces.some((piece) => piece.lengthFrom === 'drawn' && piece.returnOf === null);
  const small = pieces.some((piece) => piece.overallMm < SMALL_MM);
  const said = [
    'Saw settings are degrees off square: 0 is a square cut. Within a group the longest board comes first.',
    ...(drawn ? ['Drawn: measure before cutting, write the length in the blank and cut to that.'] : []),
    ...(small
      ? [
          '▲ small: under 6 in (152 mm). Cut it from long stock, clamped, never held by hand; the blade stops before it is lifted.',
        ]
      : []),
  ];
  return said.flatMap((each, index) =>
    prose(measure, sizes, width, each, {
      before: index === 0 ? 0 : 2,
      ink: each.startsWith('▲') ? 'pencil' : 'graphite',
      font: each.startsWith('▲') ? 'semibold' : 'regular',
    }),
  );
}

function boardTables(kit: PageKit, rooms: readonly RoomOnPaper[]): Block[] {
  const { measure, sizes, width, figures } = kit;
  const owner = ownerOf(rooms);
  return profilesUsed(kit).flatMap((id) => {
    const pieces = kit.solved.report.pieces.filter(
      (piece) => piece.profile === id && piece.returnOf === null,
    );
    if (pieces.length === 0) return [];
    const rows = sawGroups(pieces).flatMap((group): Row[] => [
      { kind: 'band', text: `${group.words}: ${counted(group.pieces.length, 'board')}` },
      ...group.pieces.map((piece) => cutRow(kit, owner(piece), piece)),
    ]);
    const profile = lookup(kit.plan.profiles, id);
    const material = printable(profile?.material ?? '');
    return table(measure, sizes, width, {
      title: profileName(kit.solved, id),
      note: [
        ...(profile ? [profileSize(figures, profile)] : []),
        ...(material === '' ? [] : [material]),
        counted(pieces.length, 'board'),
      ].join(', '),
      columns: cutColumns(kit),
      rows,
    });
  });
}

function cutColumns(kit: PageKit): Column[] {
  const { sizes } = kit;
  return [
    { title: 'cut', align: 'middle', width: 18 * sizes.by },
    { title: 'board', grow: 1 },
    { title: 'left end, overall length, right end', width: pictureWidth(kit) },
    { title: 'back and face' },
    { title: 'measured', width: measuredWidth(kit) },
  ];
}

function tick(sizes: TypeSizes): CellPart {
  const side = 9 * sizes.by;
  return {
    kind: 'drawing',
    width: side,
    height: side,
    items: [rectangle([0.5, 0.5, side - 0.5, side - 0.5], { ink: 'ink', width: 0.7 }, undefined, 'tick')],
  };
}

function cutRow(kit: PageKit, room: RoomOnPaper, piece: ReportPiece): Extract<Row, { kind: 'cells' }> {
  const { measure, sizes, figures } = kit;
  return {
    kind: 'cells',
    cells: [
      [tick(sizes)],
      boardCell(kit, piece, `${room.name}, ${wallOf(room, piece)}`),
      [boardPicture(measure, sizes, figures, placeNames(room.level), piece, pictureWidth(kit))],
      lengthsCell(kit, piece),
      measuredCell(kit, piece),
    ],
  };
}

/** Return pieces, two to a row: they are short, and all are cut alike. */
function returnTable(kit: PageKit, rooms: readonly RoomOnPaper[], returns: readonly ReportPiece[]): Block[] {
  const { measure, sizes, figures, width } = kit;
  const owner = ownerOf(rooms);
  const wide = width * 0.24;
  const cells = (piece: ReportPiece | undefined): Cell[] =>
    piece === undefined
      ? [[], [], []]
      : [
          [tick(sizes)],
          boardCell(kit, piece, ''),
          [boardPicture(measure, sizes, figures, placeNames(owner(piece).level), piece, wide, 'alone')],
        ];
  const half = Math.ceil(returns.length / 2);
  const columns: Column[] = [
    { title: 'cut', align: 'middle', width: 18 * sizes.by },
    { title: 'piece', grow: 1 },
    { title: 'left end, overall, right end', width: wide },
  ];
  return table(measure, sizes, width, {
    title: 'Return pieces',
    note: 'Each closes the end of a board back to the wall: one end mitred, one square. Overall is its face; its back has no length. Cut from long stock.',
    columns: [...columns, ...columns],
    rows: returns.slice(0, half).map((piece, index) => ({
      kind: 'cells',
      cells: [...cells(piece), ...cells(returns[half + index])],
    })),
  });
}

/** The room that a piece goes up in, by its id. */
function ownerOf(rooms: readonly RoomOnPaper[]): (piece: ReportPiece) => RoomOnPaper {
  const owners = new Map(
    rooms.flatMap((room) => room.runs.flatMap((run) => run.pieces.map((piece) => [piece.id, room] as const))),
  );
  return (piece) => {
    const room = owners.get(piece.id);
    if (!room) throw new Error(`piece ${piece.id} is in no room`);
    return room;
  };
}

/** Profiles in the order of their ids. */
function profilesUsed(kit: PageKit): ProfileId[] {
  return sortedEntries(kit.plan.profiles).map(([id]) => id);
}

function casingTable(kit: PageKit): Block[] {
  const { measure, sizes, width } = kit;
  const { casings } = kit.solved.report;
  const anyFoot = casings.some((casing) => casing.assumedFloor);
  return table(measure, sizes, width, {
    title: 'Casings',
    note: `Each piece: long point / short point. Mitres at 45° where head and leg meet; legs square at the foot, or mitred to a sill piece.${anyFoot ? ' Foot assumed: the new floor there is not known, the leg is reckoned from the subfloor; measure before cutting.' : ''}`,
    columns: [
      { title: 'cut', align: 'middle', width: 18 * sizes.by },
      { title: 'opening' },
      { title: 'room', grow: 1 },
      { title: 'moulding' },
      { title: CASING_PARTS.head },
      { title: 'legs' },
      { title: CASING_PARTS.sill },
    ],
    rows: casings.map((casing) => casingRow(kit, casing)),
  });
}

type CasingPart = Report['casings'][number]['parts'][number];

function casingRow(kit: PageKit, casing: Report['casings'][number]): Row {
  const { sizes, figures } = kit;
  const opening = unbroken(openingNameOf(kit.plan, casing));
  const of = (name: CasingPart['part']) => casing.parts.find((each) => each.part === name);
  const sizeOf = ({ longMm, shortMm }: CasingPart) =>
    unbroken(`${figures.cut(longMm)} / ${figures.cut(shortMm)}`);
  const one = (part: CasingPart | undefined): Cell => words(part ? sizeOf(part) : '–');
  const [left, right] = [of('legLeft'), of('legRight')];
  const legs: Cell =
    left && right && sizeOf(left) === sizeOf(right)
      ? words(`2 ×\u00a0${sizeOf(left)}`)
      : [
          ...(left ? [{ kind: 'text', text: `left\u00a0${sizeOf(left)}` } as const] : []),
          ...(right ? [{ kind: 'text', text: `right\u00a0${sizeOf(right)}` } as const] : []),
        ];
  return {
    kind: 'cells',
    cells: [
      [tick(sizes)],
      [
        { kind: 'text', text: opening, font: 'semibold' },
        ...(casing.assumedFloor
          ? [
              {
                kind: 'text',
                text: 'foot assumed',
                size: sizes.small,
                font: 'italic',
                ink: 'pencil',
              } as const,
            ]
          : []),
      ],
      words(roomNameOf(kit.solved.report, casing.level, casing.room)),
      words(profileName(kit.solved, casing.profile)),
      one(of('head')),
      legs,
      one(of('sill')),
    ],
  };
}
