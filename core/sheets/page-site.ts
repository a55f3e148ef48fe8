// The site sheet of a room: the plan bare, and blanks for all that is measured in the house: angles, wall lengths, floor
// readings, casing thickness, the old line. Nothing drawn is printed where it would be copied instead of measured,
// but for the lengths and angles that the tape is held against [SH32]. Points.

import type { DerivedLevel } from '../report/types.ts';
import { type Box, moved } from './boxes.ts';
import type { Block } from './flow.ts';
import type { Sheet } from './items.ts';
import { type Article, layArticles } from './page-articles.ts';
import type { PageKit } from './page-layout.ts';
import { placeNames, type ReportRoom, type RoomOnPaper } from './page-names.ts';
import { besidePlan } from './page-room.ts';
import { BARE, planDrawing } from './plan-drawing.ts';
import { wordScale } from './plan-layout.ts';
import { planFormat } from './plan-sheets.ts';
import { wallsFromLowest } from './strip-spec.ts';
import { blank, type Cell, type Row, table, words } from './table.ts';
import { unbroken } from './words.ts';

const READINGS = 6;
/** Height of a blank, points on a letter sheet: with the row's own clear space what a hand needs. */
const WRITE_HIGH = 13;

/** From roomy to tight: the plan's height as a share of the sheet's. */
const PLAN_OF_SHEET = [0.28, 0.22, 0.17] as const;

/** The site sheets of all rooms; small rooms share one. */
export function siteSheets(
  kit: PageKit,
  rooms: readonly (readonly [DerivedLevel, RoomOnPaper])[],
  parent: string,
): readonly Sheet[] {
  return layArticles(kit, {
    parent,
    anyOrder: true,
    articles: rooms.map(([derived, room]) => siteArticle(kit, derived, room)),
    shared: (articles) => ({
      title: `Site sheets: ${articles.map((article) => article.name).join('  ·  ')}`,
      subtitle: FILL_IN,
    }),
  }).sheets;
}

const FILL_IN = 'fill in on site; what is measured replaces what is drawn';

/** A room's site sheet as pages know it. */
export function siteArticle(kit: PageKit, derived: DerivedLevel, room: RoomOnPaper): Article {
  return {
    title: `Site sheet: ${room.name}`,
    name: room.name,
    subtitle: `${room.levelName}  ·  ${FILL_IN}`,
    ways: PLAN_OF_SHEET.length,
    make: (tight) => ({
      body: [
        ...planBlocks(kit, derived, room, PLAN_OF_SHEET[tight]!),
        ...wallBlanks(kit, room),
        ...floorBlanks(kit, room),
        ...casingBlanks(kit, room),
      ],
      tail: [],
    }),
  };
}

function planBlocks(kit: PageKit, derived: DerivedLevel, room: RoomOnPaper, ofSheet: number): Block[] {
  const { measure, width } = kit;
  const frame: Box = [0, 0, width, Math.min(width * 0.55, kit.size[1] * ofSheet)];
  const drawing = planDrawing(measure, derived, frame, {
    units: kit.plan.units,
    format: planFormat(kit.plan),
    room: room.trim.room.id,
    layers: BARE,
    labelScale: wordScale(kit.sheet),
  });
  if (drawing === null) return heights(kit, width);
  const { blocks, used } = besidePlan(kit, drawing, (wide) => [heights(kit, wide)]);
  return used === 0 ? [...blocks, ...heights(kit, width)] : blocks;
}

function write(kit: PageKit): Cell {
  return [blank(WRITE_HIGH * kit.sizes.by)];
}

const HEIGHTS = [
  'old base, height',
  'old line above old floor',
  'gap under old base',
  'old floor above subfloor',
  'new floor above subfloor',
  'gap under new base',
] as const;

/** Blanks for heights: in two columns, or in one where it stands beside the plan. */
function heights(kit: PageKit, width: number): Block[] {
  const { measure, sizes } = kit;
  const name = (content: string): Cell => words(content, { font: 'semibold', ink: 'graphite' });
  const pairs = width < kit.width ? 1 : 2;
  const high = HEIGHTS.length / pairs;
  const rows = Array.from(
    { length: high },
    (_, index): Row => ({
      kind: 'cells',
      cells: Array.from({ length: pairs }, (_pair, pair) => [
        name(HEIGHTS[index + pair * high]!),
        write(kit),
      ]).flat(),
    }),
  );
  return table(measure, sizes, width, {
    title: 'Heights and the old line',
    columns: Array.from({ length: pairs }, () => [
      { title: '', grow: 1 },
      { title: '', width: pairs === 1 ? width * 0.36 : width * 0.22 },
    ]).flat(),
    rows,
  });
}

/** One blank for each stretch that the first line of trim has on a wall; one where it has none. */
function stretchBlanks(kit: PageKit, count: number): Cell {
  const height = WRITE_HIGH * kit.sizes.by;
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

/** Each corner with its angle, and the wall to the right of it. */
function wallBlanks(kit: PageKit, room: RoomOnPaper): Block[] {
  const { measure, sizes, width, figures } = kit;
  const rows = walls(room).map(
    ({ name, corner, drawnMm, stretches }): Row => ({
      kind: 'cells',
      cells: [
        words(`${corner.number}`, { font: 'bold', role: 'site-corner' }),
        words(`${corner.kind} ${figures.angle(corner.includedDeg.drawn)}`),
        write(kit),
        words(unbroken(name), { font: 'bold' }),
        words(unbroken(figures.length(drawnMm))),
        write(kit),
        stretchBlanks(kit, Math.max(1, Math.min(MOST_STRETCHES, stretches))),
      ],
    }),
  );
  return table(measure, sizes, width, {
    title: 'Corners and walls',
    note: 'Angles: as the angle finder reads. Walls: at the height of the base; then each stretch between casings, left to right facing the wall.',
    columns: [
      { title: 'corner', align: 'right' },
      { title: 'drawn' },
      { title: 'angle', width: width * 0.095 },
      { title: 'wall' },
      { title: 'drawn' },
      { title: 'corner to corner', width: width * 0.14 },
      { title: 'stretches, left to right', width: width * 0.33 },
    ],
    rows,
  });
}

interface WallOnPaper {
  /** `3 to 4`: its corners. */
  readonly name: string;
  /** At its left. */
  readonly corner: ReportRoom['loops'][number]['corners'][number];
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
      const corner = loop.corners[(index + count - 1) % count]!;
      const to = loop.corners[index]!.number;
      const stretches = room.trim.lines[0]?.stretches.filter(
        (stretch) => stretch.segment.loop === loopIndex && stretch.segment.index === index,
      );
      return {
        name: `${corner.number} to ${to}`,
        corner,
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
    note: 'One laser line for the whole room: leave it. Read down from it to the surface the base will stand on.',
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
