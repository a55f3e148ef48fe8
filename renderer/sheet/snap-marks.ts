// The marks of what the pointer caught, one for each kind: a ring, and in it what tells the kind by its shape. Pixels.

import type { Point } from '../../core/graph/index.ts';
import type { ToolPicture } from '../tools/types.ts';

type Kind = ToolPicture['points'][number]['kind'];

const RADIUS = 6;

/** Names under the mark, where the tool gives no words of its own. */
export const SNAP_WORDS: Readonly<Record<Kind, string>> = {
  end: 'end',
  crossing: 'crossing',
  middle: 'middle',
  perpendicular: 'square to it',
  on: 'on the line',
  guide: 'in line',
  grid: 'grid',
  handle: '',
  start: '',
  cursor: '',
};

/** Paints one mark about a place. `ground` shows through the ring, `ink` is its line. */
export function paintSnapMark(
  context: CanvasRenderingContext2D,
  kind: Kind,
  [x, y]: Point,
  ink: string,
  ground: string,
): void {
  context.save();
  if (kind === 'cursor') {
    paintCross(context, [x, y], ink, ground);
    context.restore();
    return;
  }
  context.setLineDash(kind === 'guide' ? [2.5, 2] : []);
  context.strokeStyle = ink;
  context.lineWidth = 1.6;
  context.fillStyle = ground;
  context.beginPath();
  const radius = kind === 'handle' || kind === 'start' ? 4.5 : kind === 'grid' ? 3.5 : RADIUS;
  context.arc(x, y, radius, 0, 2 * Math.PI);
  context.fill();
  context.stroke();
  context.setLineDash([]);
  context.fillStyle = ink;
  context.beginPath();
  switch (kind) {
    case 'end':
    case 'start':
      context.arc(x, y, radius - 2.6, 0, 2 * Math.PI);
      context.fill();
      break;
    case 'middle':
      context.arc(x, y, radius - 0.5, Math.PI / 2, (3 * Math.PI) / 2);
      context.fill();
      break;
    case 'crossing':
      context.moveTo(x - RADIUS, y);
      context.lineTo(x + RADIUS, y);
      context.moveTo(x, y - RADIUS);
      context.lineTo(x, y + RADIUS);
      context.stroke();
      break;
    case 'perpendicular':
      context.moveTo(x - 2, y - RADIUS + 1);
      context.lineTo(x - 2, y + 2.5);
      context.lineTo(x + RADIUS - 1, y + 2.5);
      context.stroke();
      break;
    case 'on':
      context.moveTo(x - RADIUS, y);
      context.lineTo(x + RADIUS, y);
      context.stroke();
      break;
    case 'guide':
    case 'grid':
    case 'handle':
      context.arc(x, y, 1.3, 0, 2 * Math.PI);
      context.fill();
      break;
  }
  context.restore();
}

/** The cross that the arrow keys move: open in the middle, with a ground of its own, so that it is seen on everything. */
function paintCross(context: CanvasRenderingContext2D, [x, y]: Point, ink: string, ground: string): void {
  context.setLineDash([]);
  for (const [style, width] of [
    [ground, 4.5],
    [ink, 1.8],
  ] as const) {
    context.beginPath();
    for (const [dx, dy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      context.moveTo(x + dx * 4, y + dy * 4);
      context.lineTo(x + dx * 14, y + dy * 14);
    }
    context.strokeStyle = style;
    context.lineWidth = width;
    context.stroke();
  }
}
