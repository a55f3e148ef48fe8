// What moves over the still sheet: what is chosen, what is under the pointer, what the tool would do. Painted anew on every
// move, so it holds little. Places in ticks; sizes in pixels. Knows no tool's state.

import type { Point } from '../../core/graph/index.ts';
import { type Level, mustLookup, sortedEntries } from '../../core/plan/index.ts';
import type { DerivedLevel } from '../../core/report/index.ts';
import type { Box } from '../../core/sheets/boxes.ts';
import type { Stage } from '../state/app-state.ts';
import type { Ref } from '../state/refs.ts';
import { toScreen, type Viewport } from '../state/viewport.ts';
import type { ToolPicture } from '../tools/types.ts';
import { nodesNear } from './near-nodes.ts';
import type { Palette } from './palette.ts';
import { openingHole, type Thing, wallBody } from './shapes.ts';
import { thingsFor } from './show.ts';
import { paintSnapMark, SNAP_WORDS } from './snap-marks.ts';
import { HALF, PAD, tagBeside } from './tag-place.ts';
import { fontOf } from './type.ts';

interface OverlayAsked {
  readonly level: DerivedLevel;
  readonly stage: Stage;
  readonly selection: readonly Ref[];
  readonly hover: Ref | null;
  readonly picture: ToolPicture | null;
  /** Where the pointer is, ticks; null where it is not over the sheet. */
  readonly pointer: Point | null;
}

type Context = CanvasRenderingContext2D;

/** Whether there is anything that would be painted, or may be. */
export function overlayShows({ stage, selection, hover, picture, pointer }: OverlayAsked): boolean {
  if (selection.length > 0 || hover !== null || (stage === 'draw' && pointer !== null)) return true;
  if (picture === null) return false;
  const { preview, marquee, shapes, lines, points, labels } = picture;
  return (
    preview !== null || marquee !== null || [shapes, lines, points, labels].some(({ length }) => length > 0)
  );
}

export function paintOverlay(
  context: Context,
  asked: OverlayAsked,
  viewport: Viewport,
  palette: Palette,
): void {
  const { level, selection, hover, picture } = asked;
  const { levelId } = level.walk;
  context.save();
  context.lineJoin = 'round';
  context.lineCap = 'butt';
  if (asked.stage === 'draw' && asked.pointer !== null)
    nodeDots(context, level.walk.level, asked.pointer, viewport, palette);
  if (hover !== null && hover.level === levelId && picture?.preview == null)
    for (const thing of thingsFor(level, hover)) outline(context, thing, viewport, palette, false);
  // While something moves, what is chosen is drawn as it would be, not as it was.
  for (const ref of picture?.preview == null ? selection : []) {
    if (ref.level !== levelId) continue;
    for (const thing of thingsFor(level, ref)) outline(context, thing, viewport, palette, true);
  }
  if (picture !== null) paintPicture(context, level.walk.level, picture, viewport, palette);
  context.restore();
}

const NEAR_PX = 90;

/** Nodes about the pointer: where walls can be taken hold of. */
function nodeDots(
  context: Context,
  level: Level,
  pointer: Point,
  viewport: Viewport,
  palette: Palette,
): void {
  const far = NEAR_PX / viewport.pixelsPerTick;
  const near = nodesNear(level, pointer, far);
  // So many that they would only be a blot.
  if (near.length > 60) return;
  for (const at of near) dot(context, toScreen(viewport, at), 2.6, palette.floor, palette.inks.ink, 1.2);
}

function dot(
  context: Context,
  [x, y]: Point,
  radius: number,
  fill: string,
  ink: string,
  width: number,
): void {
  context.setLineDash([]);
  context.beginPath();
  context.arc(x, y, radius, 0, 2 * Math.PI);
  context.fillStyle = fill;
  context.fill();
  context.strokeStyle = ink;
  context.lineWidth = width;
  context.stroke();
}

/** The line round a thing that is chosen, or under the pointer. */
function outline(
  context: Context,
  thing: Thing,
  viewport: Viewport,
  palette: Palette,
  chosen: boolean,
): void {
  const { points, ref } = thing;
  context.setLineDash(chosen ? [] : [4, 3]);
  context.strokeStyle = palette.chosen;
  context.lineWidth = chosen ? 2 : 1.4;
  if (points.length === 1) {
    const at = toScreen(viewport, points[0]!);
    if (ref.kind === 'node') {
      const half = 5;
      context.beginPath();
      context.rect(at[0] - half, at[1] - half, 2 * half, 2 * half);
      if (chosen) {
        context.fillStyle = palette.floor;
        context.fill();
      }
      context.stroke();
      return;
    }
    context.beginPath();
    context.arc(at[0], at[1], 10, 0, 2 * Math.PI);
    if (chosen) {
      context.fillStyle = palette.chosenWash;
      context.fill();
    }
    context.stroke();
    return;
  }
  context.beginPath();
  trace(context, points, viewport, points.length >= 3);
  for (const hole of thing.holes ?? []) trace(context, hole, viewport, true);
  if (points.length === 2) {
    context.lineWidth = chosen ? 5 : 3;
    context.stroke();
    return;
  }
  if (chosen) {
    context.fillStyle = ref.kind === 'room' ? palette.roomWash : palette.chosenWash;
    context.fill('evenodd');
  }
  context.stroke();
}

function trace(context: Context, points: readonly Point[], viewport: Viewport, closed: boolean): void {
  for (const [i, point] of points.entries()) {
    const [x, y] = toScreen(viewport, point);
    if (i === 0) context.moveTo(x, y);
    else context.lineTo(x, y);
  }
  if (closed) context.closePath();
}

function paintPicture(
  context: Context,
  level: Level,
  picture: ToolPicture,
  viewport: Viewport,
  palette: Palette,
): void {
  if (picture.preview !== null) paintPreview(context, level, picture.preview, viewport, palette);
  for (const { points, kind } of picture.shapes) {
    context.beginPath();
    trace(context, points, viewport, true);
    context.setLineDash(kind === 'hole' ? [5, 3] : []);
    context.fillStyle = kind === 'hole' ? palette.floor : palette.chosenWash;
    context.fill();
    context.strokeStyle = palette.chosen;
    context.lineWidth = 1.5;
    context.stroke();
  }
  for (const { from, to, kind } of picture.lines) {
    const [style, width, dash] = LINES[kind];
    context.beginPath();
    trace(context, [from, to], viewport, false);
    context.setLineDash([...dash]);
    context.strokeStyle =
      style === 'guide' ? palette.guide : style === 'set' ? palette.set : palette.inks.graphite;
    context.lineWidth = width;
    context.stroke();
  }
  if (picture.marquee !== null) {
    const { from, to, touching } = picture.marquee;
    const [x0, y0] = toScreen(viewport, from);
    const [x1, y1] = toScreen(viewport, to);
    context.setLineDash(touching ? [6, 4] : []);
    context.fillStyle = palette.chosenWash;
    context.strokeStyle = palette.chosen;
    context.lineWidth = 1.2;
    context.fillRect(x0, y0, x1 - x0, y1 - y0);
    context.strokeRect(x0, y0, x1 - x0, y1 - y0);
  }
  const taken = picture.labels.map((label) => boxOfLabel(context, label, viewport));
  for (const { at, kind, words } of picture.points) {
    const place = toScreen(viewport, at);
    const handle = kind === 'handle' || kind === 'start';
    paintSnapMark(context, kind, place, handle ? palette.chosen : palette.guide, palette.floor);
    const said = words ?? SNAP_WORDS[kind];
    if (said === '') continue;
    const begins = tagBeside(place, wideOf(context, said), taken, viewport);
    tag(context, said, begins, palette, 0, 'left');
  }
  for (const { at, words, turnDeg } of picture.labels)
    tag(context, words, toScreen(viewport, at), palette, turnDeg ?? 0, 'center');
}

const LINES: Readonly<
  Record<
    ToolPicture['lines'][number]['kind'],
    readonly ['set' | 'guide' | 'ghost', number, readonly number[]]
  >
> = {
  ghost: ['ghost', 1.2, [5, 4]],
  guide: ['guide', 1, [7, 4]],
  measure: ['set', 1.4, []],
  drawn: ['set', 2, []],
};

function wideOf(context: Context, words: string): number {
  context.font = fontOf('semibold', 12);
  return context.measureText(words).width;
}

/** Where a figure's tag lies, pixels. */
function boxOfLabel(
  context: Context,
  { at, words, turnDeg = 0 }: ToolPicture['labels'][number],
  viewport: Viewport,
): Box {
  const wide = wideOf(context, words) / 2 + PAD;
  const [cos, sin] = [
    Math.abs(Math.cos((turnDeg * Math.PI) / 180)),
    Math.abs(Math.sin((turnDeg * Math.PI) / 180)),
  ];
  const [x, y] = toScreen(viewport, at);
  const [dx, dy] = [wide * cos + HALF * sin, wide * sin + HALF * cos];
  return [x - dx, y - dy, x + dx, y + dy];
}

/** Words on a ground of their own. */
function tag(
  context: Context,
  words: string,
  [x, y]: Point,
  palette: Palette,
  turnDeg: number,
  align: 'left' | 'center',
): void {
  context.save();
  context.translate(x, y);
  context.rotate((turnDeg * Math.PI) / 180);
  context.font = fontOf('semibold', 12);
  context.textBaseline = 'middle';
  context.textAlign = align;
  const width = context.measureText(words).width;
  const left = align === 'left' ? 0 : -width / 2;
  context.setLineDash([]);
  context.fillStyle = palette.floor;
  context.strokeStyle = palette.inks.faint;
  context.lineWidth = 1;
  context.beginPath();
  context.roundRect(left - PAD, -HALF, width + 2 * PAD, 2 * HALF, 4);
  context.fill();
  context.stroke();
  context.fillStyle = palette.set;
  context.fillText(words, 0, 0.5);
  context.restore();
}

/** Walls as they would be over a veil that hides them as they are. */
function paintPreview(
  context: Context,
  level: Level,
  { level: next, changedWalls }: NonNullable<ToolPicture['preview']>,
  viewport: Viewport,
  palette: Palette,
): void {
  const before = [...changedWalls].flatMap((id) => bodyOf(level, id));
  const after = [...changedWalls].flatMap((id) => bodyOf(next, id));
  context.setLineDash([]);
  for (const points of before) {
    context.beginPath();
    trace(context, points, viewport, true);
    context.fillStyle = palette.veil;
    context.strokeStyle = palette.veil;
    context.lineWidth = 3;
    context.fill();
    context.stroke();
  }
  // All outlines first and all bodies over them: what is left is the line round the whole.
  context.strokeStyle = palette.chosen;
  context.lineWidth = 3;
  for (const points of after) {
    context.beginPath();
    trace(context, points, viewport, true);
    context.stroke();
  }
  context.fillStyle = palette.wall;
  for (const points of after) {
    context.beginPath();
    trace(context, points, viewport, true);
    context.fill();
  }
  context.strokeStyle = palette.chosen;
  context.lineWidth = 1.2;
  context.fillStyle = palette.floor;
  for (const [id, { wall }] of sortedEntries(next.openings)) {
    const hole = changedWalls.has(wall) ? openingHole(next, id) : null;
    if (hole === null) continue;
    context.beginPath();
    trace(context, hole, viewport, true);
    context.fill();
    context.stroke();
  }
}

/** A wall's body, as much longer at both ends as it is thick to one side: bodies that meet close their corner. */
function bodyOf(level: Level, id: string): (readonly Point[])[] {
  if (!Object.hasOwn(level.walls, id)) return [];
  const half = mustLookup(level.walls, id).thickness / 2;
  const body = wallBody(level, id, -half, -half);
  return body === null ? [] : [body];
}
