// What lies still on a level: floors, walls, holes, built-ins, casings, marks on walls. Made once for each derived level in
// ticks and kept in a spatial index; a frame paints what the screen shows, one small path for each thing.
// Outlines are nested: the largest is painted first and the smaller ones over it, so that walls need no path of their own.
// Knows no labels and no boards.

import Flatbush from 'flatbush';
import { type Point, signedArea } from '../../core/graph/index.ts';
import { type Level, sortedEntries } from '../../core/plan/index.ts';
import type { DerivedLevel } from '../../core/report/index.ts';
import type { Ink, Item } from '../../core/sheets/items.ts';
import { builtInItems, casingItems, openingItems } from '../../core/sheets/plan-walls.ts';
import { TICKS_PER_MM } from '../../core/units/index.ts';
import type { LevelWalk, Room } from '../../core/walk/types.ts';
import { type Bounds, boundsOf, boundsOfPoints, type Viewport } from '../state/viewport.ts';
import type { Palette } from './palette.ts';
import { wallFill } from './shading.ts';
import { loopPoints, onFace, segmentsOf, wallBody } from './shapes.ts';
import { finePartsAt, POINT_PX, viewAt } from './steps.ts';

export interface Ground {
  /** Paints what meets `part`, ticks: all that the viewport shows where it is not said. */
  paint(context: CanvasRenderingContext2D, viewport: Viewport, palette: Palette, part?: Bounds): void;
}

type Tone = 'wall' | 'floor' | 'void' | 'halfWall' | 'gap' | Ink;

/** One path, ticks. */
interface Shape {
  readonly points: readonly Point[];
  readonly closed: boolean;
  readonly fill: Tone | null;
  readonly stroke: { readonly ink: Ink; readonly px: number; readonly dash: readonly number[] } | null;
  /** Left out where the whole is small. */
  readonly fine: boolean;
  readonly hatched: boolean;
}

/** Things that are painted and culled together. */
interface Group {
  readonly shapes: readonly Shape[];
  readonly box: Bounds;
  /** From corner to corner of the box: about the same whichever way a thing is turned. */
  readonly long: number;
  /** An outlet: as large at every zoom. */
  readonly dot: { readonly at: Point; readonly inward: Point } | null;
}

/** The ground of a level, made once. */
export function groundOf(level: DerivedLevel): Ground {
  let ground = made.get(level.walk);
  if (ground === undefined) {
    ground = makeGround(groupsOf(level.walk));
    made.set(level.walk, ground);
  }
  return ground;
}

/** A memory by the walked level itself: it goes when the level goes. */
const made = new WeakMap<LevelWalk, Ground>();

function makeGround(groups: readonly Group[]): Ground {
  if (groups.length === 0) return { paint: () => {} };
  const tree = new Flatbush(groups.length);
  for (const { box } of groups) tree.add(...box);
  tree.finish();
  return {
    paint: (context, viewport, palette, part = boundsOf(viewport)) => {
      const over = 6 / viewport.pixelsPerTick;
      const [left, top, right, bottom] = part;
      const seen = tree.search(left - over, top - over, right + over, bottom + over).sort((a, b) => a - b);
      context.save();
      context.lineJoin = 'miter';
      context.lineCap = 'butt';
      context.setLineDash(WHOLE);
      const wall = wallFill(context, viewport, palette);
      for (const index of seen) paintGroup(context, groups[index]!, viewport, palette, wall);
      context.restore();
    },
  };
}

function paintGroup(
  context: CanvasRenderingContext2D,
  { shapes, long, dot }: Group,
  viewport: Viewport,
  palette: Palette,
  wall: CanvasPattern | string,
): void {
  const { centre, pixelsPerTick: by, width, height } = viewport;
  const longPx = long * by;
  if (dot !== null) {
    if (by < 0.0011) return;
    const reach = 3.2;
    context.beginPath();
    context.arc(
      width / 2 + (dot.at[0] - centre[0]) * by + dot.inward[0] * reach,
      height / 2 + (dot.at[1] - centre[1]) * by + dot.inward[1] * reach,
      2.6,
      0,
      2 * Math.PI,
    );
    context.fillStyle = palette.inks.paper;
    context.fill();
    context.lineWidth = 1.1;
    context.strokeStyle = palette.inks.ink;
    context.stroke();
    return;
  }
  const fine = finePartsAt(longPx);
  for (const shape of shapes) {
    if (shape.fine && !fine) continue;
    context.beginPath();
    for (let i = 0; i < shape.points.length; i++) {
      const [px, py] = shape.points[i]!;
      const x = width / 2 + (px - centre[0]) * by;
      const y = height / 2 + (py - centre[1]) * by;
      if (i === 0) context.moveTo(x, y);
      else context.lineTo(x, y);
    }
    if (shape.closed) context.closePath();
    if (shape.fill !== null) {
      context.fillStyle = shape.fill === 'wall' ? wall : toneOf(shape.fill, palette);
      context.fill();
      if (shape.fill === 'gap') {
        // A hair over the faces, so that the walls' own outline is gone there.
        context.lineWidth = 2.4;
        context.strokeStyle = palette.floor;
        context.stroke();
      }
    }
    if (shape.stroke !== null) {
      const { dash } = shape.stroke;
      if (dash.length > 0) context.setLineDash(dash as number[]);
      context.lineWidth = shape.stroke.px;
      context.strokeStyle = palette.inks[shape.stroke.ink];
      context.stroke();
      if (dash.length > 0) context.setLineDash(WHOLE);
    }
    if (shape.hatched && fine) hatch(context, shape.points, viewport, palette);
  }
}

/** Slanting strokes across a half wall, 7 px apart. */
function hatch(
  context: CanvasRenderingContext2D,
  [a, b, , d]: readonly Point[],
  { centre, pixelsPerTick: by, width, height }: Viewport,
  palette: Palette,
): void {
  if (!a || !b || !d) return;
  const on = (p: Point): Point => [width / 2 + (p[0] - centre[0]) * by, height / 2 + (p[1] - centre[1]) * by];
  const [from, to, side] = [on(a), on(b), on(d)];
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const deep = Math.hypot(side[0] - from[0], side[1] - from[1]);
  if (long < 1 || long > 20_000) return;
  const [ux, uy] = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
  const [vx, vy] = [(side[0] - from[0]) / deep, (side[1] - from[1]) / deep];
  context.beginPath();
  for (let x = 7 - deep; x < long; x += 7) {
    // From (x, 0) to (x + deep, deep), as much of it as lies between the wall's ends.
    const [low, high] = [Math.max(0, -x), Math.min(deep, long - x)];
    if (high <= low) continue;
    context.moveTo(from[0] + ux * (x + low) + vx * low, from[1] + uy * (x + low) + vy * low);
    context.lineTo(from[0] + ux * (x + high) + vx * high, from[1] + uy * (x + high) + vy * high);
  }
  context.lineWidth = 0.7;
  context.strokeStyle = palette.inks.graphite;
  context.stroke();
}

function toneOf(tone: Exclude<Tone, 'wall'>, palette: Palette): string {
  switch (tone) {
    case 'floor':
    case 'gap':
      return palette.floor;
    case 'void':
      return palette.ground;
    case 'halfWall':
      return palette.halfWall;
    default:
      return palette.inks[tone];
  }
}

/** No dashes: what every path but a dashed one finds set. */
const WHOLE: number[] = [];
const EDGE = { ink: 'ink', px: 1.25, dash: [] } as const;
/** A built-in without a depth is drawn as a strip of three points in core/sheets: here so many ticks, 60 mm. */
const SHALLOWEST = 60 * TICKS_PER_MM;
const HALF_EDGE = { ink: 'graphite', px: 1, dash: [] } as const;

/** Largest outlines first, then what stands in and on the walls. */
function groupsOf(walk: LevelWalk): readonly Group[] {
  const outlines: { readonly points: readonly Point[]; readonly fill: Tone }[] = [
    ...walk.outside.map((points) => ({ points, fill: 'wall' as const })),
    ...walk.voids.map((points) => ({ points, fill: 'void' as const })),
    ...walk.rooms.flatMap(({ loops }) =>
      loops.map((loop) => ({
        points: loopPoints(loop),
        fill: loop.kind === 'outer' ? ('floor' as const) : ('wall' as const),
      })),
    ),
  ].filter(({ points }) => points.length >= 3);
  const sized = outlines.map((outline) => ({ outline, area: Math.abs(signedArea(outline.points)) }));
  sized.sort((a, b) => b.area - a.area);
  const rooms = walk.rooms.map((room) => roomGroups(room, walk.level));
  return [
    ...sized.map(({ outline: { points, fill } }) =>
      group([{ points, closed: true, fill, stroke: EDGE, fine: false, hatched: false }]),
    ),
    ...halfWalls(walk),
    ...rooms.flatMap(({ builtIns }) => builtIns),
    ...grouped(openingItems(walk.level, TICKS), 'opening'),
    ...rooms.flatMap(({ casings }) => casings),
    ...rooms.flatMap(({ marks }) => marks),
  ];
}

/** A view in which a tick is a tick. */
const TICKS = { ...viewAt(POINT_PX), on: (p: Point) => p, off: (p: Point) => p };
const FOR_BUILT_INS = { ...TICKS, pointsPerTick: 3 / SHALLOWEST };

interface RoomGroups {
  /** What the groups were made with beside the room. */
  readonly from: Level['builtIns'];
  readonly builtIns: readonly Group[];
  readonly casings: readonly Group[];
  readonly marks: readonly Group[];
}

/** A memory by the walked room itself, which an edit elsewhere leaves as it is. */
const inRooms = new WeakMap<Room, RoomGroups>();

/** What stands on the walls of a room. */
function roomGroups(room: Room, level: Level): RoomGroups {
  const known = inRooms.get(room);
  if (known?.from === level.builtIns) return known;
  const segments = segmentsOf(room);
  const groups: RoomGroups = {
    from: level.builtIns,
    builtIns: segments.flatMap((segment) => grouped(builtInItems(segment, level, FOR_BUILT_INS), 'built-in')),
    casings: segments.flatMap((segment) => {
      const items = casingItems(segment, TICKS);
      return items.length === 0 ? [] : [group(items.flatMap((item) => shapesOf(item, true)))];
    }),
    marks: segments.flatMap(marksOn),
  };
  inRooms.set(room, groups);
  return groups;
}

/** Bodies of walls that stop short of the ceiling, from the face of the wall they meet on. */
function halfWalls({ level }: LevelWalk): Group[] {
  const walls = sortedEntries(level.walls);
  const low = walls.filter(([, { height }]) => height !== undefined && height < level.ceilingHeight);
  if (low.length === 0) return [];
  const metAt = new Map<string, { id: string; half: number }[]>();
  for (const [id, { from, to, thickness }] of walls)
    for (const node of [from, to]) {
      const met = metAt.get(node);
      if (met) met.push({ id, half: thickness / 2 });
      else metAt.set(node, [{ id, half: thickness / 2 }]);
    }
  const short = (node: string, own: string): number =>
    Math.max(0, ...(metAt.get(node) ?? []).filter(({ id }) => id !== own).map(({ half }) => half));
  return low.flatMap(([id, { from, to }]) => {
    const points = wallBody(level, id, short(from, id), short(to, id));
    if (points === null) return [];
    const shape: Shape = {
      points,
      closed: true,
      fill: 'halfWall',
      stroke: HALF_EDGE,
      fine: false,
      hatched: true,
    };
    return [group([shape])];
  });
}

function marksOn(segment: ReturnType<typeof segmentsOf>[number]): Group[] {
  return segment.marks.map((mark) => {
    const middle = (mark.from + mark.to) / 2;
    if (mark.kind === 'outlet') {
      const at = onFace(segment, middle, middle, 0)[0]!;
      return { shapes: [], box: [...at, ...at], long: 0, dot: { at, inward: segment.inward } };
    }
    const deep = Math.max(1, (mark.to - mark.from) * 0.16);
    const stroke = { ink: 'ink', px: 1, dash: [] } as const;
    const part = (points: readonly Point[], closed: boolean): Shape => ({
      points,
      closed,
      fill: closed ? 'paper' : null,
      stroke,
      fine: !closed,
      hatched: false,
    });
    const bars = [1 / 4, 1 / 2, 3 / 4].map((share) => {
      const x = mark.from + (mark.to - mark.from) * share;
      const [a, , , d] = onFace(segment, x, x, deep);
      return part([a!, d!], false);
    });
    return group([part(onFace(segment, mark.from, mark.to, deep), true), ...bars]);
  });
}

/** What stands in the hole of a door or a window: without it the hole would be that of a passage. */
const IN_HOLES: readonly string[] = ['leaf', 'sill'];

/** Items in ticks, put together from each item of a role to the next. */
function grouped(items: readonly Item[], role: string): Group[] {
  const groups: Item[][] = [];
  for (const item of items) {
    if ('role' in item && item.role === role) groups.push([item]);
    else groups.at(-1)?.push(item);
  }
  const inHole = (item: Item): boolean => item.kind === 'line' && IN_HOLES.includes(item.role ?? '');
  return groups.map((each) =>
    group(each.flatMap((item, index) => shapesOf(item, index > 0 && !inHole(item)))),
  );
}

function shapesOf(item: Item, fine: boolean): Shape[] {
  if (item.kind === 'area')
    return item.rings.map((points) => ({
      points,
      closed: true,
      fill: item.role === 'opening' ? 'gap' : item.fill,
      stroke: null,
      fine: false,
      hatched: false,
    }));
  if (item.kind !== 'line') return [];
  const { ink, width, dash = [] } = item.stroke;
  const stroke = { ink, px: width * POINT_PX, dash: dash.map((part) => part * POINT_PX) };
  const fill = item.fill ?? null;
  return [{ points: item.points, closed: item.closed ?? false, fill, stroke, fine, hatched: false }];
}

function group(shapes: readonly Shape[]): Group {
  const box = boundsOfPoints(shapes.flatMap(({ points }) => points)) ?? [0, 0, 0, 0];
  return { shapes, box, long: Math.hypot(box[2] - box[0], box[3] - box[1]), dot: null };
}
