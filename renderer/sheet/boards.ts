// The boards along the walls as they are drawn at a zoom step: where they hang and ended as they are cut, thicker than
// true where they would be too thin to see. Core/sheets' own pieces, in ticks. Knows no labels.

import { type DrawnPiece, drawnPieces, shownLine } from '../../core/sheets/plan-boards.ts';
import type { RoomTrim } from '../../core/trim/types.ts';
import type { Bounds, Viewport } from '../state/viewport.ts';
import type { Palette } from './palette.ts';
import { meet, roomBox } from './sight.ts';
import { detailFor, stepAt, viewAt } from './steps.ts';

/** The pieces of the line a room shows, as drawn; outlines in points at the step. */
export function boardsOf(trim: RoomTrim, step: number): readonly DrawnPiece[] {
  let known = made.get(trim);
  if (known?.step !== step) {
    const line = shownLine(trim);
    known = { step, pieces: line === null ? [] : drawnPieces(line, viewAt(step)) };
    made.set(trim, known);
  }
  return known.pieces;
}

/** A memory by the room's trim itself: it goes when the trim goes. */
const made = new WeakMap<RoomTrim, { readonly step: number; readonly pieces: readonly DrawnPiece[] }>();

/** Paints the boards of the rooms that meet `part` (ticks) and are large enough to tell them. */
export function paintBoards(
  context: CanvasRenderingContext2D,
  trims: readonly RoomTrim[],
  viewport: Viewport,
  palette: Palette,
  part: Bounds,
): void {
  const step = stepAt(viewport.pixelsPerTick);
  const { off } = viewAt(step);
  const { centre, pixelsPerTick: by, width, height } = viewport;
  context.save();
  context.lineJoin = 'miter';
  context.lineWidth = 0.9;
  context.strokeStyle = palette.inks.ink;
  context.fillStyle = palette.inks.paper;
  for (const trim of trims) {
    const box = roomBox(trim.room);
    if (box === null || !meet(box, part)) continue;
    const sides = [(box[2] - box[0]) * by, (box[3] - box[1]) * by] as const;
    if (!detailFor(Math.min(...sides), Math.max(...sides)).boards) continue;
    for (const { outline } of boardsOf(trim, step)) {
      context.beginPath();
      for (let i = 0; i < outline.length; i++) {
        const [x, y] = off(outline[i]!);
        const px = width / 2 + (x - centre[0]) * by;
        const py = height / 2 + (y - centre[1]) * by;
        if (i === 0) context.moveTo(px, py);
        else context.lineTo(px, py);
      }
      context.closePath();
      context.fill();
      context.stroke();
    }
  }
  context.restore();
}
