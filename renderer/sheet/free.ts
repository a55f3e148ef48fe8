// What of the sheet lies free: the tools, the scale, the view's buttons and, where the window is narrow, a side panel lie
// over its edges. A plan is fitted into the part between them that shows it largest. Sheet pixels. Pure.

import { type Box, boxesOverlap } from '../../core/sheets/boxes.ts';
import type { AppState } from '../state/app-state.ts';
import { type Bounds, fitted, pannedBy, type Viewport } from '../state/viewport.ts';

/** What lies over the sheet's sides beside the tools. */
export interface Sides {
  readonly left: number;
  readonly right: number;
}

export const NO_SIDES: Sides = { left: 0, right: 0 };

/** Below this height the tools lie along the top, as tape.css has it; so wide are they in one row, so high is each. Pixels. */
const LOW = 352;
const RACK = { width: 290, row: 34, edge: 14, margins: 20, column: 44 };
/** Below this height only the view's buttons lie at the bottom, in its corner, as sheet.css has it. */
const WITHOUT_SCALE = 384;
const BUTTONS = { width: 110, height: 40 };
const SCALE_HEIGHT = 48;
/** Less than this is not worth keeping clear. */
const LEAST_FREE = { width: 200, height: 90 };
/** Parts that show the plan as large as this to the largest are as good: of these the middlemost is taken. */
const AS_LARGE = 0.95;

/** The side panels that lie over the sheet; none where what they leave is not worth keeping clear. */
export function panelsOver({ covered, textScale, viewport }: AppState): Sides {
  const sides = { left: covered.left / textScale, right: covered.right / textScale };
  return viewport.width - sides.left - sides.right < LEAST_FREE.width ? NO_SIDES : sides;
}

/** Fits bounds into what of the sheet lies free. */
export function fittedClear(viewport: Viewport, bounds: Bounds, margin: number, panels = NO_SIDES): Viewport {
  const { width, height } = viewport;
  const ways = freeParts(viewport, panels).map((part) => {
    const by = [(part[0] + part[2] - width) / 2, (part[1] + part[3] - height) / 2] as const;
    return { view: fittedInto(part, viewport, bounds, margin, by), off: Math.hypot(...by) };
  });
  const largest = Math.max(...ways.map(({ view }) => view.pixelsPerTick));
  const good = ways.filter(({ view }) => view.pixelsPerTick >= largest * AS_LARGE);
  return good.toSorted((a, b) => a.off - b.off)[0]?.view ?? fitted(viewport, bounds, margin);
}

/** Fits bounds into a part of the sheet whose middle lies so far from the sheet's. The lower the sheet, the less is left round it. */
function fittedInto(
  [left, top, right, bottom]: Box,
  viewport: Viewport,
  bounds: Bounds,
  margin: number,
  by: readonly [number, number],
): Viewport {
  const { width, height } = viewport;
  const part = { ...viewport, width: right - left, height: bottom - top };
  const most = part.height / (height < LOW ? 14 : 8);
  return pannedBy({ ...fitted(part, bounds, Math.min(margin, most)), width, height }, by);
}

/** Parts of the sheet that nothing lies over and that are worth it: every one that cannot be made larger is among them. */
function freeParts(viewport: Viewport, panels: Sides): readonly Box[] {
  const { width, height } = viewport;
  const over = thingsOver(viewport, panels);
  const lefts = [0, ...over.map((box) => box[2])];
  const tops = [0, ...over.map((box) => box[3])];
  const rights = [width, ...over.map((box) => box[0])];
  const bottoms = [height, ...over.map((box) => box[1])];
  return lefts
    .flatMap((left) => tops.map((top) => [left, top] as const))
    .flatMap(([left, top]) =>
      rights.flatMap((right) => bottoms.map((bottom): Box => [left, top, right, bottom])),
    )
    .filter(
      (part) =>
        part[2] - part[0] >= LEAST_FREE.width &&
        part[3] - part[1] >= LEAST_FREE.height &&
        !over.some((box) => boxesOverlap(box, part)),
    );
}

/** What lies over the sheet: panels, the tools on the left or along the top, the scale and the buttons at the bottom. */
function thingsOver({ width, height }: Viewport, { left, right }: Sides): readonly Box[] {
  const rows = Math.ceil(RACK.width / Math.max(1, width - RACK.margins));
  const rack: Box =
    height < LOW
      ? [0, 0, rows === 1 ? RACK.width : width, RACK.edge + rows * RACK.row]
      : [0, 0, RACK.column, height];
  const bottom: Box =
    height < WITHOUT_SCALE
      ? [width - BUTTONS.width, height - BUTTONS.height, width, height]
      : [0, height - SCALE_HEIGHT, width, height];
  const sides: Box[] = [
    [0, 0, left, height],
    [width - right, 0, width, height],
  ];
  return [rack, bottom, ...sides.filter(([x0, , x1]) => x1 > x0)];
}
