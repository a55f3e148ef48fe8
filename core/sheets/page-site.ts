// The site sheet of a room: the plan bare, and blanks for all that is measured in the house: angles, wall lengths, floor
// readings, casing thickness, the old line. Nothing drawn is printed where it would be copied instead of measured,
// but for the lengths and angles that the tape is held against [SH32]. Points.

import type { DerivedLevel } from '../report/types.ts';
import { type Block, block } from './flow.ts';
import type { Sheet } from './items.ts';
import { moved } from './kit.ts';
import { layPages, type PageKit } from './page-layout.ts';
import { placeNames, type RoomOnPaper } from './page-names.ts';
import { prose } from './page-prose.ts';
import { BARE, drawnBox, planDrawing } from './plan-drawing.ts';
import { planFormat } from './plan-sheets.ts';
import { wallsFromLowest } from './strip-spec.ts';
import { blank, type Cell, type Row, table, words } from './table.ts';

const READINGS = 6;

/** The site sheets of one room. */
export function siteSheets(kit: PageKit, derived: DerivedLevel, room: RoomOnPaper, parent: string): Sheet[] {
  return layPages(kit, {
    title: `Site sheet: ${room.name}`,
    subtitle: `${room.levelName}  ·  fill in on site; what is measured replaces what is drawn`,
    bookmark: `Site sheet: ${room.name}`,
    parent,
    blocks: [
      ...planBlocks(kit, derived, room),
      ...heights(kit),
      ...cornerBlanks(kit, room),
      ...wallBlanks(kit, room),
      ...floorBlanks(kit, room),
      ...casingBlanks(kit, room),
    ],
  });
}

function planBlocks(kit: PageKit, derived: DerivedLevel, room: RoomOnPaper): Block[] {
  const { measure, sizes, width } = kit;
  const drawing = planDrawing(measure, derived, [0, 0, width, Math.min(width * 0.55, kit.size[1] * 0.34)], {
    units: kit.plan.units,
    format: planFormat(kit.plan),
    room: room.trim.room.id,
    layers: BARE,
  });
  if (drawing === null) return [];
  const box = drawnBox(drawing.items);
  return [
    { ...block(box[3] - box[1], moved(drawing.items, [0, -box[1]])), keep: true },
    ...prose(measure, sizes, width, `Plan ${drawing.scale.name}.`, {
      size: sizes.small,
      font: 'italic',
      ink: 'graphite',
      before: 3,
      role: 'note',
    }),
  ];
}

function write(kit: PageKit): Cell {
  return [blank(15 * kit.sizes.by)];
}

function heights(kit: PageKit): Block[] {
  const { measure, sizes, width } = kit;
  const name = (content: string): Cell => words(content, { font: 'semibold', ink: 'graphite' });
  const rows: Row[] = [
    {
      kind: 'cells',
      cells: [name('old base, height'), write(kit), name('old floor above subfloor'), write(kit)],
    },
    {
      kind: 'cells',
      cells: [name('old line above old floor'), write(kit), name('new floor above subfloor'), write(kit)],
    },
    {
      kind: 'cells',
      cells: [name('gap under old base'), write(kit), name('gap under new base'), write(kit)],
    },
  ];
  return table(measure, sizes, width, {
    title: 'Heights and the old line',
    columns: [
      { title: '', grow: 1 },
      { title: '', width: width * 0.22 },
      { title: '', grow: 1 },
      { title: '', width: width * 0.22 },
    ],
    rows,
  });
}

function cornerBlanks(kit: PageKit, room: RoomOnPaper): Block[] {
  const { measure, sizes, width, figures } = kit;
  const corners = room.said.loops.flatMap((loop) => loop.corners).toSorted((a, b) => a.number - b.number);
  const half = Math.ceil(corners.length / 2);
  const cells = (corner: (typeof corners)[number] | undefined): Cell[] =>
    corner
      ? [
          words(`${corner.number}`, { font: 'bold', role: 'site-corner' }),
          words(`${corner.kind}, drawn ${figures.angle(corner.includedDeg.drawn)}`),
          write(kit),
        ]
      : [[], [], []];
  return table(measure, sizes, width, {
    title: 'Corner angles',
    note: 'As the angle finder reads, laid on the two walls.',
    columns: [
      { title: '' },
      { title: '', grow: 1 },
      { title: 'measured', width: width * 0.2 },
      { title: '' },
      { title: '', grow: 1 },
      { title: 'measured', width: width * 0.2 },
    ],
    rows: corners.slice(0, half).map((corner, index) => ({
      kind: 'cells',
      cells: [...cells(corner), ...cells(corners[half + index])],
    })),
  });
}

/** One blank for each stretch that the first line of trim has on a wall; one where it has none. */
function stretchBlanks(kit: PageKit, count: number): Cell {
  const height = 15 * kit.sizes.by;
  const gap = 8 * kit.sizes.by;
  return [
    {
      kind: 'filling',
      height,
      draw: (width) => {
        const each = (width - gap * (count - 1)) / count;
        const one = blank(height);
        if (one.kind !== 'filling') throw new Error('a blank fills its cell');
        return Array.from({ length: count }, (_, index) =>
          moved(one.draw(each), [index * (each + gap), 0]),
        ).flat();
      },
    },
  ];
}

/** Most blanks for stretches that a cell holds at a width that can be written in. */
const MOST_STRETCHES = 5;

function wallBlanks(kit: PageKit, room: RoomOnPaper): Block[] {
  const { measure, sizes, width, figures } = kit;
  const rows = walls(room).map(
    ({ name, drawnMm, stretches }): Row => ({
      kind: 'cells',
      cells: [
        words(name, { font: 'bold' }),
        words(figures.length(drawnMm)),
        write(kit),
        stretchBlanks(kit, Math.max(1, Math.min(MOST_STRETCHES, stretches))),
      ],
    }),
  );
  return table(measure, sizes, width, {
    title: 'Walls',
    note: 'Corner to corner at the height of the base; then each stretch of it between casings, left to right facing the wall.',
    columns: [
      { title: 'corners' },
      { title: 'drawn', grow: 1 },
      { title: 'corner to corner', width: width * 0.19 },
      { title: 'stretches, left to right', width: width * 0.5 },
    ],
    rows,
  });
}

interface WallOnPaper {
  /** `3 to 4`: its corners. */
  readonly name: string;
  readonly drawnMm: number;
  readonly stretches: number;
  /** A wall's end or a jog: nobody reads a floor along it. */
  readonly narrow: boolean;
}

/** The walls of a room in walking order. */
function walls(room: RoomOnPaper): WallOnPaper[] {
  return room.said.loops.flatMap((loop, loopIndex) =>
    wallsFromLowest(loop.corners).map((index): WallOnPaper => {
      const segment = loop.segments[index]!;
      const count = loop.corners.length;
      const from = loop.corners[(index + count - 1) % count]!.number;
      const to = loop.corners[index]!.number;
      const stretches = room.trim.lines[0]?.stretches.filter(
        (stretch) => stretch.segment.loop === loopIndex && stretch.segment.index === index,
      );
      return {
        name: `${from} to ${to}`,
        drawnMm: segment.drawnMm,
        stretches: stretches?.length ?? 0,
        narrow: room.trim.room.loops[loopIndex]!.segments[index]!.parts.length === 0,
      };
    }),
  );
}

function floorBlanks(kit: PageKit, room: RoomOnPaper): Block[] {
  const { measure, sizes, width } = kit;
  const rows = walls(room)
    .filter((each) => !each.narrow)
    .flatMap(({ name }): Row[] => {
      const line = (said: string, first: boolean): Row => ({
        kind: 'cells',
        keep: first,
        open: first,
        cells: [
          words(first ? name : '', { font: 'bold' }),
          words(said, { size: sizes.small, ink: 'graphite' }),
          ...Array.from({ length: READINGS }, () => write(kit)),
        ],
      });
      return [line('from left corner', true), line('down from laser', false)];
    });
  return table(measure, sizes, width, {
    title: 'Floor readings',
    note: 'Set one laser line for the whole room and leave it. Read down from the laser to the surface the base will stand on.',
    columns: [
      { title: 'wall' },
      { title: '', grow: 1 },
      ...Array.from({ length: READINGS }, (_, index) => ({ title: `${index + 1}`, width: width * 0.105 })),
    ],
    rows,
  });
}

function casingBlanks(kit: PageKit, room: RoomOnPaper): Block[] {
  const { measure, sizes, width } = kit;
  const names = placeNames(room.level);
  const seen = new Set<string>();
  const openings = room.trim.room.loops
    .flatMap((loop) => loop.segments.flatMap((segment) => segment.openings))
    .filter((opening) => !seen.has(opening.id) && seen.add(opening.id));
  return table(measure, sizes, width, {
    title: 'Casings',
    note: 'Thickness at the outer edge is what the base meets.',
    columns: [
      { title: 'opening', grow: 1 },
      { title: 'width of casing', width: width * 0.18 },
      { title: 'thickness, outer edge', width: width * 0.18 },
      { title: 'reveal', width: width * 0.14 },
    ],
    rows: openings.map((opening) => ({
      kind: 'cells',
      cells: [words(names.opening(opening.id), { font: 'semibold' }), write(kit), write(kit), write(kit)],
    })),
  });
}
