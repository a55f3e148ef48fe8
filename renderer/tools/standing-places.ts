// Where a thing stands on a wall: the face that is chosen, the wall of a long face that a place falls on, and the picture
// of the thing with its gaps to both corners. Ticks along the wall.

import type { Point } from '../../core/graph/index.ts';
import { along, midpoint } from '../../core/graph/index.ts';
import { lookup } from '../../core/plan/index.ts';
import type { Ref } from '../state/refs.ts';
import { lengthLabel } from './chain-picture.ts';
import { type Face, faceOf, gapsOf, onFace, placeByGap, segmentsOf } from './faces.ts';
import { NO_PICTURE } from './snapping.ts';
import type { ToolContext, ToolPicture } from './types.ts';

export interface Place {
  readonly face: Face;
  readonly at: number;
  readonly width: number;
}

/** The face that the selection means: a segment's, that of something on a wall, a wall's own side towards a room. */
export function chosenFace(context: ToolContext): Face | null {
  for (const ref of context.selection) {
    const face = faceOfRef(ref, context);
    if (face !== null) return face;
  }
  return null;
}

export function faceOfRef(ref: Ref, { level, walk }: Pick<ToolContext, 'level' | 'walk'>): Face | null {
  if (ref.level !== level.id) return null;
  switch (ref.kind) {
    case 'segment': {
      const part = segmentsOf(walk).find(({ key }) => key === ref.id)?.parts[0];
      return part === undefined ? null : faceOf(level, walk, part.wall, part.side);
    }
    case 'wall': {
      const right = faceOf(level, walk, ref.id, 'right');
      return right?.segment == null ? (faceOf(level, walk, ref.id, 'left') ?? right) : right;
    }
    case 'opening': {
      const opening = lookup(level.openings, ref.id);
      return opening === undefined
        ? null
        : faceOfRef({ kind: 'wall', level: level.id, id: opening.wall }, { level, walk });
    }
    case 'builtIn':
    case 'mark': {
      const thing = ref.kind === 'builtIn' ? lookup(level.builtIns, ref.id) : lookup(level.marks, ref.id);
      return thing === undefined ? null : faceOf(level, walk, thing.wall, thing.side);
    }
    default:
      return null;
  }
}

/** The same place on the face, on the wall that its middle falls on: a face may run on over several walls. */
export function rehomed(
  face: Face,
  at: number,
  width: number,
  { level, walk }: Pick<ToolContext, 'level' | 'walk'>,
): Place {
  const middle = at + width / 2;
  const { segment } = face;
  if (segment === null || (middle >= 0 && middle <= face.length)) return { face, at, width };
  const on = face.side === 'right' ? middle - face.low : face.high - middle;
  const part = segment.parts.find(({ from, to }) => on >= from && on <= to);
  const other = part === undefined ? null : faceOf(level, walk, part.wall, part.side);
  if (other === null) return { face, at, width };
  return { face: other, at: placeByGap(other, gapsOf(face, at, width).left, 'left', width), width };
}

/** A thing to come, with both gaps measured. `depth`: how far it stands into the room; null for a hole or a mark. */
export function standingPicture(
  { face, at, width }: Place,
  depth: number | null,
  kind: 'opening' | 'builtIn' | 'mark',
  words: string,
  context: ToolContext,
): ToolPicture {
  const reach = kind === 'builtIn' ? (depth ?? 0) : kind === 'mark' ? 8 / context.pixelsPerTick : 0;
  const [near, far] = kind === 'opening' ? [-2 * face.half, 0] : [0, reach];
  const points: Point[] = [
    onFace(face, at, near),
    onFace(face, at + width, near),
    onFace(face, at + width, far),
    onFace(face, at, far),
  ];
  return {
    ...NO_PICTURE,
    cursor: 'crosshair',
    shapes: [{ points, kind: kind === 'opening' ? 'hole' : 'thing' }],
    ...gapMarks({ face, at, width }, context),
    points: words === '' ? [] : [{ at: onFace(face, at + width / 2), kind: 'on', words }],
  };
}

/** Lines from a thing's edges to the corners of its face, each with its length. */
export function gapMarks(
  { face, at, width }: Place,
  context: ToolContext,
): Pick<ToolPicture, 'lines' | 'labels'> {
  const off = 10 / context.pixelsPerTick;
  const gaps = [
    [face.low, at],
    [at + width, face.high],
  ] as const;
  const drawn = gaps.filter(([from, to]) => to - from >= 1);
  return {
    lines: drawn.map(([from, to]) => ({
      from: onFace(face, from, off),
      to: onFace(face, to, off),
      kind: 'measure',
    })),
    labels: drawn.map(([from, to]) => {
      const [a, b] = [onFace(face, from, off), onFace(face, to, off)];
      const label = lengthLabel(a, b, context);
      return { ...label, at: along(midpoint(a, b), face.out, off) };
    }),
  };
}
