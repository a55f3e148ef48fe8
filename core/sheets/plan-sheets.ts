// The plan sheets of a set: one a level, lying or standing, whichever draws it larger; a level too large for the sheet is
// tiled. Ticks in, points out. Kept: every sheet has its scale, bar and legend, and what the drawing had no room for is
// printed beside it or on the sheet after it [SH12–SH14]. Page numbers are added when the set is whole.

import type { Plan } from '../plan/schema.ts';
import type { Derived, DerivedLevel } from '../report/types.ts';
import { formatArea } from '../units/index.ts';
import { TICKS_PER_MM } from '../units/ticks.ts';
import { type Block, block, flow } from './flow.ts';
import type { Item, Sheet, SheetSize, TextMeasure } from './items.ts';
import { type Box, scaled } from './kit.ts';
import {
  BARE,
  type FlaggedFinding,
  flagFindings,
  type PlanDrawing,
  type PlanFormat,
  type PlanOptions,
  planDrawing,
} from './plan-drawing.ts';
import { type SheetHead, sheetFrame } from './plan-frame.ts';
import {
  bestLayout,
  columnWidth,
  type Layout,
  type LayoutSpec,
  laterColumns,
  layoutOf,
  wordScale,
} from './plan-layout.ts';
import { findingsBlocks, scaleBlocks, unplacedBlocks } from './plan-legend.ts';
import { GUTTER, keyPlan, matchLines, type Tile, type Tiling, tilesOf } from './plan-tiles.ts';
import { extentOf, type TickBox } from './plan-view.ts';
import { type NamedScale, pointsPerTick, SCALES, SMALLEST_PLAN_RATIO, type Units } from './scale.ts';
import { figuresOf, nameOr } from './words.ts';

export interface PlanSheetOptions {
  readonly sheet: SheetSize;
  /** As printed; nothing here reads a clock. */
  readonly date: string;
  readonly revision?: string;
  /** The bookmark that the sheets hang under; null for the top. */
  readonly parent?: string | null;
  /** The plan bare, for the tape and the pencil: numbers and names only. */
  readonly bare?: boolean;
  /** Before the level's name in titles and bookmarks: 'Site sheet'. */
  readonly prefix?: string;
}

/** How a plan's lengths and areas are printed on its drawings. */
export function planFormat(plan: Plan): PlanFormat {
  const figures = figuresOf(plan);
  return {
    length: (ticks) => figures.length(ticks / TICKS_PER_MM),
    area: (squareTicks) => formatArea(squareTicks, plan.units),
  };
}

/** One or more sheets for every level of the plan, in its order. A level without walls has none. */
export function planSheets(measure: TextMeasure, derived: Derived, options: PlanSheetOptions): Sheet[] {
  return derived.levels.flatMap((level) => new LevelSheets(measure, derived, level, options).sheets());
}

/** More sheets than this for one level help nobody: then the scale goes below the smallest legible one [SH13]. */
const MOST_TILES = 60;
/** What a corner's tag takes of a plan, square points, with the clear space round it. */
const TAG_AREA = 800;

interface WayOfTiling {
  readonly layout: Layout;
  readonly tiling: Tiling;
  readonly scale: NamedScale;
}

/** `crowded`: a corner number found no place. */
interface Drawn {
  readonly sheets: Sheet[];
  readonly crowded: boolean;
}

class LevelSheets {
  private readonly measure: TextMeasure;
  private readonly derived: Derived;
  private readonly level: DerivedLevel;
  private readonly options: PlanSheetOptions;
  private readonly units: Units;
  private readonly flagged: readonly FlaggedFinding[];
  private readonly title: string;
  /** How much larger words and marks are on this sheet. */
  private readonly by: number;

  constructor(measure: TextMeasure, derived: Derived, level: DerivedLevel, options: PlanSheetOptions) {
    this.measure = measure;
    this.derived = derived;
    this.level = level;
    this.options = options;
    this.units = derived.plan.units;
    this.by = wordScale(options.sheet);
    this.flagged = options.bare ? [] : flagFindings(derived.findings, level.walk.levelId);
    const name = nameOr(level.walk.level.name, `Level ${level.walk.levelId}`);
    this.title = options.prefix ? `${options.prefix}: ${name}` : name;
  }

  sheets(): Sheet[] {
    const extent = extentOf(this.level.walk);
    if (extent === null) return [];
    const size = [extent[2] - extent[0], extent[3] - extent[1]] as const;
    const known = (width: number) => this.beside(width, SCALES[this.units][0]!, this.flagged);
    const best = bestLayout(this.measure, this.spec(this.title, ''), size, known);
    if (best && !this.isHopeless(best.scale)) {
      const drawn = this.whole(best.layout, best.scale);
      if (!drawn.crowded) return drawn.sheets;
    }
    // Corner numbers are never left off: a level with more than its sheet can name is drawn larger, in tiles [SH11].
    const fits = best === null ? this.tilingThatFits(extent) : null;
    const ratio = best?.scale.ratio ?? fits!.scale.ratio;
    const larger = SCALES[this.units].filter((each) => each.ratio < ratio).toReversed();
    for (const way of [fits, ...larger.map((scale) => this.tiling(extent, scale))]) {
      if (way === null || this.isHopeless(way.scale)) continue;
      if (way.tiling.tiles.length > MOST_TILES) break;
      const sheets = this.tiled(way, true);
      if (sheets !== null) return sheets;
    }
    // No scale shows them all on a bearable number of sheets: the rest is listed beside the plan.
    return best ? this.whole(best.layout, best.scale).sheets : this.tiled(fits!, false)!;
  }

  /** Whether the corners' tags would cover more than all the floor there is at a scale: then drawing it is not tried. */
  private isHopeless(scale: NamedScale): boolean {
    const perTick = pointsPerTick(scale.ratio) / this.by;
    const { rooms } = this.level.walk;
    const floor = rooms.reduce((sum, room) => sum + room.area, 0) * perTick * perTick;
    const count = rooms.reduce(
      (sum, room) => sum + room.loops.reduce((n, loop) => n + loop.corners.length, 0),
      0,
    );
    return count > 40 && count * TAG_AREA > floor;
  }

  private head(title: string, subtitle: string): SheetHead {
    return {
      title,
      subtitle,
      job: nameOr(this.derived.plan.title, 'Untitled job'),
      date: this.options.date,
      revision: this.options.revision ?? '',
    };
  }

  private spec(title: string, subtitle: string): LayoutSpec {
    const { sheet, bare = false } = this.options;
    return { sheet, head: this.head(title, subtitle), bare, units: this.units };
  }

  /** Scale and findings for a column of a width on the sheet. */
  private beside(width: number, scale: NamedScale, flagged: readonly FlaggedFinding[]): Block[] {
    const small = width / this.by;
    // The bar is made small and enlarged with the other words: its scale is as much smaller.
    const drawnScale = { name: scale.name, ratio: scale.ratio * this.by };
    return enlarged(
      [
        ...scaleBlocks(this.measure, small, drawnScale, this.units, scaleNote(scale, this.units)),
        ...findingsBlocks(this.measure, small, flagged),
      ],
      this.by,
    );
  }

  private leftOver(width: number, drawing: PlanDrawing): Block[] {
    return enlarged(unplacedBlocks(this.measure, width / this.by, drawing.unplaced), this.by);
  }

  private planOptions(more: Partial<PlanOptions>): PlanOptions {
    return {
      units: this.units,
      format: planFormat(this.derived.plan),
      layers: this.options.bare ? BARE : {},
      findings: this.flagged,
      labelScale: this.by,
      ...more,
    };
  }

  private whole(layout: Layout, scale: NamedScale): Drawn {
    const drawing = planDrawing(this.measure, this.level, layout.frame, this.planOptions({ scale }));
    if (drawing === null) return { sheets: [], crowded: false };
    const width = columnWidth(layout);
    const blocks = [...this.beside(width, scale, this.flagged), ...this.leftOver(width, drawing)];
    const sheets = this.assemble(layout, this.title, '', drawing, drawing.items, blocks);
    return { sheets, crowded: isCrowded(drawing) };
  }

  /** The sheets of a tiling; null where `whole` is asked for and a corner number finds no place. */
  private tiled({ layout, tiling, scale }: WayOfTiling, whole: boolean): Sheet[] | null {
    const width = columnWidth(layout);
    const columnHigh = layout.columns[0]![3] - layout.columns[0]![1];
    const keyHigh = Math.min(130, columnHigh / this.by - 20);
    const sheets: Sheet[] = [];
    for (const tile of tiling.tiles) {
      const drawing = this.tile(layout.frame, tile, scale);
      if (drawing === null) continue;
      if (whole && isCrowded(drawing)) return null;
      const key = keyPlan(this.measure, this.level.walk, tiling, tile, width / this.by, keyHigh);
      const blocks = [
        ...enlarged([block(key.height + 14, key.items)], this.by),
        ...this.beside(width, scale, this.onTile(tile)),
        ...this.leftOver(width, drawing),
      ];
      const match = matchLines(this.measure, tiling, tile, layout.frame, scale.ratio, this.by);
      const title = `${this.title}, ${tile.name}`;
      const subtitle = tileSubtitle(tile.name, tiling.tiles.length);
      sheets.push(...this.assemble(layout, title, subtitle, drawing, [...drawing.items, ...match], blocks));
    }
    return sheets;
  }

  /** At the smallest legible scale or, for a vast level, below it. */
  private tilingThatFits(extent: TickBox): WayOfTiling {
    const smallest = SCALES[this.units].find(({ ratio }) => ratio === SMALLEST_PLAN_RATIO[this.units])!;
    for (let scale = smallest; ; scale = { name: `1:${scale.ratio * 2}`, ratio: scale.ratio * 2 }) {
      const way = this.tiling(extent, scale);
      if (way.tiling.tiles.length <= MOST_TILES) return way;
    }
  }

  /** The way of lying that needs fewer tiles. */
  private tiling(extent: TickBox, scale: NamedScale): WayOfTiling {
    // No tile's title is longer than this one, so none takes more lines.
    const spec = this.spec(`${this.title}, WW99`, tileSubtitle('WW99', 1000));
    const ways = [true, false].map((lies) => {
      const layout = layoutOf(this.measure, spec, lies, lies ? { columns: 1 } : { band: 190 * this.by });
      return { layout, scale, tiling: tilesOf(this.level.walk, extent, layout.frame, scale.ratio, this.by) };
    });
    return ways.reduce((a, b) => (b.tiling.tiles.length < a.tiling.tiles.length ? b : a));
  }

  private tile(frame: Box, tile: Tile, scale: NamedScale): PlanDrawing | null {
    const [x0, y0, x1, y1] = frame;
    const gutter = GUTTER * this.by;
    return planDrawing(
      this.measure,
      this.level,
      [x0 + gutter, y0 + gutter, x1 - gutter, y1 - gutter],
      this.planOptions({ scale, shown: tile.shown, field: tile.field }),
    );
  }

  private onTile(tile: Tile): FlaggedFinding[] {
    const [x0, y0, x1, y1] = tile.field;
    return this.flagged.filter(
      ({ finding: { at } }) => at && at[0] >= x0 && at[0] <= x1 && at[1] >= y0 && at[1] <= y1,
    );
  }

  /** The sheet, and as many after it as the words beside it need. */
  private assemble(
    layout: Layout,
    title: string,
    subtitle: string,
    drawing: PlanDrawing,
    items: readonly Item[],
    blocks: readonly Block[],
  ): Sheet[] {
    const { size } = layout;
    const parent = this.options.parent ?? null;
    const first = sheetFrame(this.measure, size, this.head(title, subtitle));
    const more = sheetFrame(this.measure, size, this.head(`${title}, continued`, ''));
    const later = laterColumns(more.inner, layout, this.options.sheet);
    const pages = flow(blocks, (page) => (page === 0 ? layout.columns : later));
    return pages.map((words, page): Sheet => {
      const base = { width: size[0], height: size[1], parent };
      if (page === 0)
        return {
          ...base,
          bookmark: title,
          items: [...first.items, ...items, ...words, ...layout.legend],
          scale: drawing.scale,
        };
      const bookmark = `${title}, continued${page > 1 ? ` ${page}` : ''}`;
      return { ...base, bookmark, items: [...more.items, ...words] };
    });
  }
}

function isCrowded(drawing: PlanDrawing): boolean {
  return drawing.unplaced.some(({ kind }) => kind === 'corner');
}

function tileSubtitle(name: string, count: number): string {
  return `Tile ${name} of ${count}. Tiles overlap; each ends at its match lines.`;
}

function scaleNote(scale: NamedScale, units: Units): string {
  return scale.ratio > SMALLEST_PLAN_RATIO[units] ? 'The level is so large that this is no named scale.' : '';
}

function enlarged(blocks: readonly Block[], by: number): Block[] {
  return blocks.map((each) => ({
    ...each,
    height: each.height * by,
    before: each.before * by,
    items: scaled(each.items, by),
  }));
}
