// The plan sheets of a set: one a level, lying or standing, whichever draws it larger; a level too large for the sheet is
// tiled. Ticks in, points out. Kept: every sheet has its scale, bar and legend, and what the drawing had no room for is
// printed beside it or on the sheet after it [SH12–SH14]. Page numbers are added when the set is whole.

import type { Plan } from '../plan/schema.ts';
import type { Derived, DerivedLevel } from '../report/types.ts';
import { formatArea } from '../units/index.ts';
import { TICKS_PER_MM } from '../units/ticks.ts';
import { type Box, scaled } from './boxes.ts';
import { type Block, block, flow, flowWithRest } from './flow.ts';
import type { Item, Sheet, SheetSize, TextMeasure } from './items.ts';
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
import { findingsBlocks, heading, scaleBlocks, unplacedBlocks } from './plan-legend.ts';
import type { Unplaced } from './plan-options.ts';
import { GUTTER, keyPlan, matchLines, type Tile, type Tiling, tilesOf } from './plan-tiles.ts';
import { extentOf, type TickBox } from './plan-view.ts';
import {
  type ListedScale,
  type NamedScale,
  PLAN_SCALES,
  pointsPerTick,
  SCALES,
  SMALLEST_PLAN_RATIO,
  type Units,
} from './scale.ts';
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
  /** What every level is drawn at; absent: at the largest that fits its sheet. */
  readonly scale?: ListedScale;
}

/** How a plan's lengths and areas are printed on its drawings. */
export function planFormat(plan: Plan): PlanFormat {
  const figures = figuresOf(plan);
  return {
    length: (ticks) => figures.length(ticks / TICKS_PER_MM),
    area: (squareTicks) => formatArea(squareTicks, plan.units),
  };
}

/**
 * One or more sheets for every level of the plan, in its order. A level without walls has none. Throws on a scale that
 * `tilesFault` refuses.
 */
export function planSheets(measure: TextMeasure, derived: Derived, options: PlanSheetOptions): Sheet[] {
  return derived.levels.flatMap((level) => new LevelSheets(measure, derived, level, options).sheets());
}

/** Why the levels cannot be drawn at the scale asked for, in one sentence; null where they can, or where none is asked for. */
export function tilesFault(measure: TextMeasure, derived: Derived, options: PlanSheetOptions): string | null {
  const faults = derived.levels.map((level) => new LevelSheets(measure, derived, level, options).fault());
  return faults.find((fault) => fault !== null) ?? null;
}

/**
 * More sheets than this for one level help nobody: then the scale goes below the smallest legible one, and one that was
 * asked for is refused [SH13].
 */
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
    return this.options.scale ? this.asked(extent, this.options.scale) : this.asFits(extent);
  }

  /** In one sentence why the scale asked for will not do. */
  fault(): string | null {
    const { scale } = this.options;
    const extent = extentOf(this.level.walk);
    if (!scale || extent === null || this.onOneSheet(extent) !== null) return null;
    const count = this.tiling(extent, scale).tiling.tiles.length;
    if (count <= MOST_TILES) return null;
    return `At ${scale.name} the plan of ${this.title} would take ${count} sheets, more than ${MOST_TILES}; choose a smaller scale or a larger sheet.`;
  }

  private onOneSheet(extent: TickBox): { readonly layout: Layout; readonly scale: NamedScale } | null {
    const size = [extent[2] - extent[0], extent[3] - extent[1]] as const;
    const known = (width: number) => this.beside(width, SCALES[this.units][0]!, this.flagged);
    return bestLayout(this.measure, this.spec(this.title, ''), size, known);
  }

  /** At the scale asked for, and no other: what finds no place at it is listed beside the plan [SH12]. */
  private asked(extent: TickBox, scale: ListedScale): Sheet[] {
    const fault = this.fault();
    if (fault !== null) throw new RangeError(fault);
    const best = this.onOneSheet(extent);
    return best ? this.whole(best.layout, best.scale).sheets : this.tiled(this.tiling(extent, scale), false)!;
  }

  private asFits(extent: TickBox): Sheet[] {
    const best = this.onOneSheet(extent);
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
    const { sheet, bare = false, scale } = this.options;
    const scales = scale ? [scale] : PLAN_SCALES[this.units];
    return { sheet, head: this.head(title, subtitle), bare, scales };
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

  private leftOver(width: number, unplaced: readonly Unplaced[]): Block[] {
    return enlarged(unplacedBlocks(this.measure, width / this.by, unplaced), this.by);
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
    const blocks = [...this.beside(width, scale, this.flagged), ...this.leftOver(width, drawing.unplaced)];
    const { sheet, rest } = this.sheetOf(layout, this.title, '', drawing, drawing.items, blocks);
    return { sheets: [sheet, ...this.later(layout, rest)], crowded: isCrowded(drawing) };
  }

  /**
   * The sheets of a tiling, what found no room beside them on sheets after the last; null where `whole` is asked for and a
   * corner number finds no place.
   */
  private tiled({ layout, tiling, scale }: WayOfTiling, whole: boolean): Sheet[] | null {
    const drawn: { readonly tile: Tile; readonly drawing: PlanDrawing }[] = [];
    for (const tile of tiling.tiles) {
      const drawing = this.tile(layout.frame, tile, scale);
      if (drawing === null) continue;
      if (whole && isCrowded(drawing)) return null;
      drawn.push({ tile, drawing });
    }
    const width = columnWidth(layout);
    const columnHigh = layout.columns[0]![3] - layout.columns[0]![1];
    const keyHigh = Math.min(130, columnHigh / this.by - 20);
    const named = new Set(drawn.flatMap(({ drawing }) => drawing.named));
    const rests: Block[] = [];
    const sheets = drawn.map(({ tile, drawing }) => {
      const key = keyPlan(this.measure, this.level.walk, tiling, tile, width / this.by, keyHigh);
      // A room whose name stands on another tile needs it on none of its slivers.
      const unplaced = drawing.unplaced.filter(({ room }) => room === undefined || !named.has(room));
      const blocks = [
        ...enlarged([block(key.height + 14, key.items)], this.by),
        ...this.beside(width, scale, this.onTile(tile)),
        ...this.leftOver(width, unplaced),
      ];
      const match = matchLines(this.measure, tiling, tile, layout.frame, scale.ratio, this.by);
      const title = `${this.title}, ${tile.name}`;
      const subtitle = tileSubtitle(tile.name, tiling.tiles.length);
      const items = [...drawing.items, ...match];
      const { sheet, rest } = this.sheetOf(layout, title, subtitle, drawing, items, blocks);
      const head = heading(this.measure, `Tile ${tile.name}, continued`, width / this.by);
      if (rest.length > 0) rests.push(...enlarged([head], this.by), ...rest);
      return sheet;
    });
    return [...sheets, ...this.later(layout, rests)];
  }

  /** At the smallest legible scale or, for a vast level, below it. */
  private tilingThatFits(extent: TickBox): WayOfTiling {
    const smallest: NamedScale = PLAN_SCALES[this.units].at(-1)!;
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

  /** The sheet with as much of the words beside it as it holds, and the rest of them. */
  private sheetOf(
    { size, columns, legend }: Layout,
    title: string,
    subtitle: string,
    drawing: PlanDrawing,
    items: readonly Item[],
    blocks: readonly Block[],
  ): { readonly sheet: Sheet; readonly rest: readonly Block[] } {
    const frame = sheetFrame(this.measure, size, this.head(title, subtitle));
    const { pages, begins } = flowWithRest(blocks, () => columns);
    const sheet: Sheet = {
      width: size[0],
      height: size[1],
      bookmark: title,
      parent: this.options.parent ?? null,
      items: [...frame.items, ...items, ...pages[0]!, ...legend],
      scale: drawing.scale,
    };
    return { sheet, rest: blocks.slice(begins[1] ?? blocks.length) };
  }

  /** As many sheets as the words need for which there was no room beside the drawings. */
  private later(layout: Layout, blocks: readonly Block[]): Sheet[] {
    if (blocks.length === 0) return [];
    const { size } = layout;
    const title = `${this.title}, continued`;
    const frame = sheetFrame(this.measure, size, this.head(title, ''));
    const columns = laterColumns(frame.inner, layout, this.options.sheet);
    return flow(blocks, () => columns).map(
      (words, page): Sheet => ({
        width: size[0],
        height: size[1],
        bookmark: `${title}${page > 0 ? ` ${page + 1}` : ''}`,
        parent: this.options.parent ?? null,
        items: [...frame.items, ...words],
      }),
    );
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
