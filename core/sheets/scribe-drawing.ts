// How a board is scribed to its floor: drawn with the floor's shape larger by a stated factor, the wood to take off
// hatched, then the figures station by station and the setting up in words. Points; figures from the report, in mm there.
// Heights in the drawing go up the sheet [SH27].

import type { Point } from '../graph/types.ts';
import type { Report } from '../report/schema.ts';
import { type Block, block, together } from './flow.ts';
import type { Item, TextMeasure } from './items.ts';
import { list, prose } from './page-prose.ts';
import { MEDIUM, rule, THIN } from './shapes.ts';
import { type Row, type TypeSizes, table, words } from './table.ts';
import { CAP_EM, lineHeight, text, wrapText } from './texts.ts';
import { type Figures, factorWords, sayableFactor } from './words.ts';

type ReportScribe = Report['scribes'][number];
type Station = ReportScribe['stations'][number];

/** Under this a cut is none at all, in mm: 1/64 in, as the rule has it. */
const UNTOUCHED_MM = 25.4 / 64;
/** Heights of the drawing on a letter sheet, points: the board above its bottom, the floor's shape, what is under it. */
const BOARD = 16;
const SHAPE = 20;
const GROUND = 7;
const STATIONS_IN_A_ROW = 8;

/** One board's scribe as blocks for a column of `width` points: `said` is what to do, a sentence an entry. */
export function scribeBlocks(
  measure: TextMeasure,
  sizes: TypeSizes,
  figures: Figures,
  width: number,
  scribe: ReportScribe,
  said: readonly string[],
): Block[] {
  const title = prose(measure, sizes, width, `Board ${scribe.piece}`, {
    font: 'semibold',
    before: 10 * sizes.by,
    keep: true,
    role: 'scribe-heading',
  });
  const told = list(measure, sizes, width, said, 'dash', { before: 2, role: 'scribe-words' });
  if (scribe.stations.length < 2) return [...title, ...told];
  const drawing = scribeDrawing(measure, sizes, width, scribe);
  return together([
    ...title,
    ...told,
    drawing,
    ...stationTables(measure, sizes, figures, width, scribe).slice(0, 3),
  ]).concat(stationTables(measure, sizes, figures, width, scribe).slice(3));
}

/** The board's lower edge over the floor: heights larger than lengths by a factor that is printed beside it. */
function scribeDrawing(measure: TextMeasure, sizes: TypeSizes, width: number, scribe: ReportScribe): Block {
  const by = sizes.by;
  const stations = scribe.stations;
  const lengthMm = stations.at(-1)!.atMm - stations[0]!.atMm;
  const size = sizes.small;
  const side = 2 * by;
  const along = (width - 2 * side) / Math.max(lengthMm, 1);
  const heights = stations.flatMap((station) => [station.floorMm, station.bottomMm]);
  const low = Math.min(...heights);
  const range = Math.max(...heights) - low;
  const factor = sayableFactor((SHAPE * by) / (Math.max(range, 0.5) * along));
  const up = factor * along;
  const top = 4 * by;
  const lowY = top + BOARD * by + range * up;
  const x = (station: Station) => side + (station.atMm - stations[0]!.atMm) * along;
  const y = (mm: number) => lowY - (mm - low) * up;
  const floor = stations.map((station): Point => [x(station), y(station.floorMm)]);
  const bottom = stations.map((station): Point => [x(station), y(station.bottomMm)]);
  const cut = stations.map((station): Point => [x(station), y(station.bottomMm + station.trimMm)]);
  const ground = lowY + GROUND * by;
  const [x0, x1] = [floor[0]![0], floor.at(-1)![0]];
  const items: Item[] = [
    {
      kind: 'area',
      rings: [[...floor, [x1, ground], [x0, ground]]],
      fill: 'wash',
      role: 'floor',
    },
    {
      kind: 'line',
      points: [...cut, [x1, top], [x0, top]],
      stroke: { ink: 'ink', width: MEDIUM },
      closed: true,
      fill: 'paper',
      role: 'board',
    },
    rule([x0, top], [x1, top], { ink: 'paper', width: 1.4 }),
    rule([x0, top], [x1, top], { ink: 'faint', width: THIN, dash: [3, 2] }),
  ];
  if (stations.some((station) => station.trimMm >= UNTOUCHED_MM))
    items.push({
      kind: 'area',
      rings: [[...bottom, ...cut.toReversed()]],
      fill: 'washPencil',
      hatch: { spacing: 2.2, angleDeg: 45, stroke: { ink: 'pencil', width: THIN } },
      role: 'take-off',
    });
  items.push(
    {
      kind: 'line',
      points: bottom,
      stroke: { ink: 'pencil', width: MEDIUM, dash: [2.5, 1.8] },
      role: 'untrimmed',
    },
    { kind: 'line', points: floor, stroke: { ink: 'ink', width: 1.1 }, role: 'floor-line' },
  );
  for (const station of stations)
    items.push(rule([x(station), ground], [x(station), ground + 3 * by], { ink: 'graphite', width: THIN }));
  const taken = stations.some((station) => station.trimMm >= UNTOUCHED_MM);
  const note = `Heights drawn ${factorWords(factor)} lengths. Heavy: the floor. Dashed: the board's bottom before cutting.${taken ? ' Hatched: take off.' : ''}`;
  const noteY = ground + 5 * by + size * CAP_EM;
  const lines = wrapText(measure, note, 'italic', size, width);
  lines.forEach((line, index) => {
    items.push(
      text(measure, {
        text: line,
        at: [0, noteY + index * lineHeight(size)],
        size,
        font: 'italic',
        ink: 'graphite',
        role: 'note',
      }),
    );
  });
  return block(noteY + (lines.length - 1) * lineHeight(size) + size * 0.3, items, { before: 3 });
}

/** Stations in columns, as many as can be read, with what is taken off and what gap is left. */
function stationTables(
  measure: TextMeasure,
  sizes: TypeSizes,
  figures: Figures,
  width: number,
  scribe: ReportScribe,
): Block[] {
  const chunks: Station[][] = [];
  for (let from = 0; from < scribe.stations.length; from += STATIONS_IN_A_ROW)
    chunks.push(scribe.stations.slice(from, from + STATIONS_IN_A_ROW));
  const small = { size: sizes.small };
  return chunks.flatMap((chunk, index) => {
    const rows: Row[] = [
      {
        kind: 'cells',
        cells: [
          words('from left end', { ...small, font: 'semibold', ink: 'graphite' }),
          ...chunk.map((station) => words(figures.cut(station.atMm), small)),
        ],
      },
      {
        kind: 'cells',
        cells: [
          words('take off', { ...small, font: 'semibold', ink: 'graphite' }),
          ...chunk.map((station) =>
            words(station.trimMm < UNTOUCHED_MM ? '–' : figures.fine(station.trimMm), {
              ...small,
              font: station.trimMm < UNTOUCHED_MM ? 'regular' : 'bold',
            }),
          ),
        ],
      },
      {
        kind: 'cells',
        cells: [
          words('gap left under', { ...small, font: 'semibold', ink: 'graphite' }),
          ...chunk.map((station) =>
            words(station.gapMm < UNTOUCHED_MM ? '–' : figures.fine(station.gapMm), small),
          ),
        ],
      },
    ];
    const columns = [
      { title: '' },
      ...chunk.map(() => ({
        title: '',
        align: 'right' as const,
        width: (width - 90 * sizes.by) / STATIONS_IN_A_ROW - 9,
      })),
    ];
    const blocks = table(measure, sizes, width, { title: '', columns, rows });
    return blocks.map((each, at) => ({
      ...each,
      before: at === 0 ? (index === 0 ? 2 : 5) : 0,
      keep: at < blocks.length - 1,
    }));
  });
}
