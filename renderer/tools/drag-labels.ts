// The figures that stand beside a drag: gaps of a thing to its corners, clear distances of a wall across its rooms, lengths
// of the walls at a node, and how far it has gone. Ticks.

import type { Point } from '../../core/graph/index.ts';
import { along, distance, dot, lengthOf, midpoint, minus } from '../../core/graph/index.ts';
import { lookup, mustLookup } from '../../core/plan/index.ts';
import { lengthLabel } from './chain-picture.ts';
import { type Moved, type Moving, thingOf } from './drag.ts';
import { faceOf, facing } from './faces.ts';
import { gapMarks } from './standing-places.ts';
import type { ToolContext, ToolPicture } from './types.ts';

type Marks = Pick<ToolPicture, 'lines' | 'points' | 'labels'>;

/** More walls than this at what is dragged are not measured: the figures would hide the plan. */
const MOST_LENGTHS = 6;

export function dragLabels(
  moving: Moving,
  moved: Moved,
  preview: ToolPicture['preview'],
  context: ToolContext,
  caught: Pick<ToolPicture, 'lines' | 'points'>,
): Marks {
  if (moving.kind === 'things') {
    const thing = thingOf(context.level, moving.refs[0]!);
    if (thing === undefined || moved.to === null) return { ...caught, labels: [] };
    const marks = gapMarks({ ...moved.to, width: thing.width }, context);
    return { ...caught, ...marks };
  }
  const { anchor } = moving;
  const far: Point = along(anchor, moved.by, 1);
  const gone = lengthOf(moved.by);
  const way: Marks['lines'] = gone === 0 ? [] : [{ from: anchor, to: far, kind: 'ghost' }];
  const labels = gone === 0 ? [] : [lengthLabel(anchor, far, context)];
  const more = moving.axis === null ? lengths(moving, preview, context) : clears(moving, moved, context);
  return {
    points: caught.points,
    lines: [...caught.lines, ...way, ...more.lines],
    labels: moving.axis === null && moving.nodes.length === 1 ? more.labels : [...labels, ...more.labels],
  };
}

/** The walls at what moves, as long as they would be. */
function lengths(
  moving: Moving & { kind: 'nodes' },
  preview: ToolPicture['preview'],
  context: ToolContext,
): Omit<Marks, 'points'> {
  if (moving.walls.length > MOST_LENGTHS) return { lines: [], labels: [] };
  const level = preview?.level ?? context.level;
  const labels = moving.walls.flatMap((id) => {
    const wall = lookup(level.walls, id);
    if (wall === undefined) return [];
    const [from, to] = [mustLookup(level.nodes, wall.from), mustLookup(level.nodes, wall.to)];
    return distance(from, to) === 0 ? [] : [lengthLabel(from, to, context)];
  });
  return { lines: [], labels };
}

/** Clear distances from a moved wall to the faces across the rooms on either side. */
function clears(
  moving: Moving & { kind: 'nodes' },
  { by }: Moved,
  { level, walk, figures }: ToolContext,
): Omit<Marks, 'points'> {
  const inner = moving.walls.filter((id) => {
    const { from, to } = mustLookup(level.walls, id);
    return moving.nodes.includes(from) && moving.nodes.includes(to);
  });
  const found = (['left', 'right'] as const).flatMap((side) => {
    for (const wall of inner) {
      const face = faceOf(level, walk, wall, side);
      const across = face?.segment == null ? null : facing(walk, face.segment);
      if (face === null || across === null) continue;
      const start = along(midpoint(face.segment!.start, face.segment!.end), by, 1);
      const gap = across.gap - dot(by, face.out);
      return [{ from: start, to: along(start, face.out, gap), gap }];
    }
    return [];
  });
  const shown = found.filter(({ gap }) => gap > 0);
  return {
    lines: shown.map(({ from, to }) => ({ from, to, kind: 'measure' })),
    labels: shown.map(({ from, to, gap }) => ({
      at: midpoint(from, to),
      words: figures.length(gap),
      turnDeg: upright(minus(to, from)),
    })),
  };
}

/** A figure along an upright line is turned to be read from the right. */
function upright([x, y]: Point): number {
  const deg = (Math.atan2(y, x) * 180) / Math.PI;
  return deg >= 90 ? deg - 180 : deg < -90 ? deg + 180 : deg;
}
