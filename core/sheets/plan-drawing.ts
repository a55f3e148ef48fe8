// One level, or a part of it, drawn to scale in a frame: walls, openings, boards, marks, and every label that finds a
// free place. Ticks in, points out. Kept: nothing leaves the frame, no two labels overlap, every corner in the window has
// its number [SH4, SH11]; a label without a place is named in `unplaced` for the caller to print beside the drawing.
// Knows no page.

import type { Point } from '../graph/types.ts';
import type { DerivedLevel } from '../report/types.ts';
import type { RoomTrim } from '../trim/types.ts';
import type { Loop, Room, Segment } from '../walk/types.ts';
import { type Box, boxesOverlap, boxOf, grown, itemBox, scaled } from './boxes.ts';
import type { Item, Sheet, TextMeasure } from './items.ts';
import { boardItems, type DrawnPiece, drawnPieces, shownLine } from './plan-boards.ts';
import { jointWords, numberCandidates, type TaggedCorner, tagCandidates, tagged } from './plan-corners.ts';
import { dimensionCandidates } from './plan-dimensions.ts';
import {
  builtInCandidates,
  endMarkCandidates,
  flagCandidates,
  idCandidates,
  markedEnds,
  nameCandidates,
  openingCandidates,
} from './plan-labels.ts';
import { EVERY_LAYER, type PlanLayers, type PlanOptions, type Unplaced } from './plan-options.ts';
import { makePlacer, type Placer } from './plan-place.ts';
import { chooseView } from './plan-scale.ts';
import { inRings, type PlanView, type TickBox } from './plan-view.ts';
import {
  builtInItems,
  builtInLines,
  builtInOutlines,
  casingItems,
  casingLines,
  faceMarkItems,
  onSegment,
  openingItems,
  wallItems,
  wallLines,
} from './plan-walls.ts';
import { pointsPerTick } from './scale.ts';
import { printable } from './words.ts';

export {
  BARE,
  type FlaggedFinding,
  flagFindings,
  type PlanFormat,
  type PlanOptions,
  type Unplaced,
} from './plan-options.ts';

export interface PlanDrawing {
  readonly items: readonly Item[];
  readonly scale: NonNullable<Sheet['scale']>;
  readonly unplaced: readonly Unplaced[];
  /** Ids of the rooms whose names stand on it. */
  readonly named: readonly string[];
}

/** How far from its corner a tag may stand with its mark, and a number alone: further off no eye follows a leader. Points. */
const NEAREST_FIRST = 90;
const FARTHEST = 260;
/** How far labels keep from a tile's match lines, points. */
const MATCH_CLEAR = 3;

/**
 * Draws a level in `frame` (points) at the largest named scale that fits, or at the one given. Returns null where the
 * level (or the room asked for) has no walls to draw. Where no named scale fits, a whole-number ratio is taken and its
 * name says so. Throws on `shown` without `scale`.
 */
export function planDrawing(
  measure: TextMeasure,
  level: DerivedLevel,
  frame: Box,
  options: PlanOptions,
): PlanDrawing | null {
  // Larger labels are had by drawing on a smaller sheet at a smaller scale, and enlarging the whole.
  const by = options.labelScale ?? 1;
  const chosen = chooseView(level, shrunk(frame, by), options, by);
  if (chosen === null) return null;
  const { view, scale } = chosen;
  const layers: PlanLayers = { ...EVERY_LAYER, ...options.layers };
  const drawing = new Drawing(measure, level, options, layers, view);
  const ground = drawing.ground();
  const labels = drawing.labels();
  return {
    items: scaled([{ kind: 'clip', box: view.window, items: ground }, ...labels], by),
    scale: {
      name: scale.name,
      ratio: scale.ratio,
      origin: [view.origin[0] * by, view.origin[1] * by],
      pointsPerTick: pointsPerTick(scale.ratio),
    },
    unplaced: drawing.unplaced,
    named: drawing.named,
  };
}

function shrunk(box: Box, by: number): Box {
  return [box[0] / by, box[1] / by, box[2] / by, box[3] / by];
}

/** A room with what is drawn of it. */
interface DrawnRoom {
  readonly room: Room;
  readonly trim: RoomTrim | null;
  readonly rings: readonly (readonly Point[])[];
  readonly pieces: readonly DrawnPiece[];
}

class Drawing {
  readonly unplaced: Unplaced[] = [];
  readonly named: string[] = [];
  private readonly measure: TextMeasure;
  private readonly level: DerivedLevel;
  private readonly options: PlanOptions;
  private readonly layers: PlanLayers;
  private readonly view: PlanView;
  private readonly rooms: readonly DrawnRoom[];
  /** Where labels may stand, points. */
  private readonly field: Box;

  constructor(
    measure: TextMeasure,
    level: DerivedLevel,
    options: PlanOptions,
    layers: PlanLayers,
    view: PlanView,
  ) {
    this.measure = measure;
    this.level = level;
    this.options = options;
    this.layers = layers;
    this.view = view;
    this.field = options.field ? onPaper(options.field, view) : view.window;
    this.rooms = level.walk.rooms.flatMap((room, index) => {
      const rings = room.loops.map((loop) => loop.corners.map((corner) => view.on(corner.at)));
      if (!boxesOverlap(boxOf(rings[0]!), view.window)) return [];
      const trim = level.trims[index] ?? null;
      const line = trim && layers.boards ? shownLine(trim) : null;
      return [{ room, trim, rings, pieces: line ? drawnPieces(line, view) : [] }];
    });
  }

  /** Everything that is not a label, bottom first. */
  ground(): Item[] {
    const { walk } = this.level;
    const { view } = this;
    const segments = this.rooms.flatMap(({ room }) => segmentsOf(room));
    const items = [
      ...wallItems(walk, view),
      ...(this.layers.builtIns ? segments.flatMap((each) => builtInItems(each, walk.level, view)) : []),
      ...openingItems(walk.level, view),
      ...this.rooms.flatMap(({ pieces }) => boardItems(pieces)),
      ...segments.flatMap((each) => casingItems(each, view)),
      ...segments.flatMap((each) => faceMarkItems(each, view)),
    ];
    return items.filter((item) => boxesOverlap(itemBox(item), view.window));
  }

  /** All labels that found a place; corners first, because they may never be dropped. */
  labels(): Item[] {
    const { view, layers } = this;
    const labelled = this.rooms.filter(
      ({ room }) => this.options.room === undefined || room.id === this.options.room,
    );
    const lines = [
      ...wallLines(this.level.walk, view),
      ...this.rooms.flatMap(({ room }) =>
        segmentsOf(room).flatMap((each) => [
          ...casingLines(each, view),
          ...(layers.builtIns ? builtInLines(each, this.level.walk.level, view) : []),
        ]),
      ),
    ];
    const placer = makePlacer(
      // Clear of the match lines of a tile.
      this.options.field ? grown(this.field, -MATCH_CLEAR) : this.field,
      lines.filter((line) => boxesOverlap(grown(boxOf(line), 1), this.field)),
    );
    if (layers.findings) for (const { at } of this.flagged()) placer.block(grown([...at, ...at], 2));
    const items: Item[] = [];
    if (layers.corners) for (const each of labelled) items.push(...this.cornerTags(placer, each));
    if (layers.findings) items.push(...this.flags(placer));
    if (layers.names) for (const each of labelled) items.push(...this.roomName(placer, each));
    if (layers.builtIns) for (const each of labelled) items.push(...this.builtInNames(placer, each));
    if (layers.ids) for (const each of labelled) items.push(...this.pieceIds(placer, each));
    if (layers.joints) for (const each of labelled) items.push(...this.endMarks(placer, each));
    if (layers.openings) items.push(...this.openingIds(placer, labelled));
    const dimensions: Item[] = [];
    if (layers.dimensions) for (const each of labelled) dimensions.push(...this.dimensions(placer, each));
    // Dimension lines lie under the other labels.
    return [...dimensions, ...items];
  }

  private cornerTags(placer: Placer, { room, trim, rings }: DrawnRoom): Item[] {
    const line = trim && this.layers.joints ? shownLine(trim) : null;
    const inRoom = (p: Point) => inRings(rings, p);
    return room.loops.flatMap((loop, loopIndex) =>
      loop.corners.flatMap((corner, index) => {
        const at = this.view.on(corner.at);
        if (!this.inField(at)) return [];
        const tag = tagged(loop, index, at, line?.joints[loopIndex]?.[index] ?? null);
        const placed = placer.place(tagCandidates(this.measure, tag, inRoom, NEAREST_FIRST));
        if (placed) return placed;
        return this.numberAlone(placer, tag, inRoom, room);
      }),
    );
  }

  private numberAlone(
    placer: Placer,
    tag: TaggedCorner,
    inRoom: (p: Point) => boolean,
    room: Room,
  ): readonly Item[] {
    const alone = placer.place(numberCandidates(this.measure, tag, inRoom, FARTHEST));
    if (alone === null)
      this.unplaced.push({ kind: 'corner', words: `corner ${tag.number} (${printable(room.name)})` });
    else if (tag.joint)
      this.unplaced.push({ kind: 'joint', words: `corner ${tag.number}: ${jointWords(tag.joint)}` });
    return alone ?? [];
  }

  private roomName(placer: Placer, { room, rings }: DrawnRoom): readonly Item[] {
    const name = printable(room.name);
    const area = this.options.format.area(room.area);
    const placed = placer.place(nameCandidates(this.measure, { name, area, rings }, this.field));
    if (placed) {
      this.named.push(room.id);
      return placed;
    }
    const seen = room.loops.some((loop) =>
      loop.corners.some((corner) => this.inField(this.view.on(corner.at))),
    );
    if (seen)
      this.unplaced.push({
        kind: 'room-name',
        room: room.id,
        words: `${name}, ${area}: ${cornerRange(room)}`,
      });
    return [];
  }

  private flags(placer: Placer): Item[] {
    return this.flagged().flatMap(({ letter, at }) => {
      const placed = placer.place(flagCandidates(this.measure, letter, at, 160));
      if (placed === null) this.unplaced.push({ kind: 'finding', words: `finding ${letter}` });
      return placed ?? [];
    });
  }

  private builtInNames(placer: Placer, { room }: DrawnRoom): Item[] {
    return segmentsOf(room).flatMap((segment) =>
      builtInOutlines(segment, this.level.walk.level, this.view).flatMap(
        ({ builtIn, box }) => placer.place(builtInCandidates(this.measure, builtIn.kind, box)) ?? [],
      ),
    );
  }

  private pieceIds(placer: Placer, { pieces, rings }: DrawnRoom): Item[] {
    const inRoom = (p: Point) => inRings(rings, p);
    return pieces.flatMap((drawn) => {
      if (!this.inField(centreOf(drawn.outline))) return [];
      const placed = placer.place(idCandidates(this.measure, drawn, this.view, inRoom));
      if (placed === null) this.unplaced.push({ kind: 'piece', words: `board ${drawn.piece.id}` });
      return placed ?? [];
    });
  }

  /** Each opening once, in the first of its rooms that has room for it. */
  private openingIds(placer: Placer, rooms: readonly DrawnRoom[]): Item[] {
    const placed = new Map<string, readonly Item[] | null>();
    for (const { room, rings } of rooms) {
      const inRoom = (p: Point) => inRings(rings, p);
      for (const segment of segmentsOf(room))
        for (const opening of segment.openings) {
          if (placed.get(opening.id)) continue;
          const at = onSegment(segment, this.view)((opening.from + opening.to) / 2, 0);
          if (!this.inField(at)) continue;
          const words = printable(opening.id);
          const candidates = openingCandidates(this.measure, words, segment, opening, this.view, inRoom);
          placed.set(opening.id, placer.place(candidates));
        }
    }
    return [...placed].flatMap(([id, items]) => {
      if (items === null) this.unplaced.push({ kind: 'opening', words: `opening ${printable(id)}` });
      return items ?? [];
    });
  }

  private dimensions(placer: Placer, { room, rings }: DrawnRoom): Item[] {
    const inRoom = (p: Point) => inRings(rings, p);
    return room.loops.flatMap((loop) =>
      loop.segments.flatMap((segment, index) => {
        // A wall's end or a jog is as wide as its wall: its corners say so, a figure would only crowd them.
        if (segment.parts.length === 0) return [];
        const measured = segment.record?.measured;
        const words = this.options.format.length(measured ?? segment.drawn);
        const figure = { words, measured: measured !== undefined };
        const placed = placer.place(
          dimensionCandidates(this.measure, segment, figure, this.view, this.field, inRoom),
        );
        if (placed) return placed;
        if (this.inField(centreOf([this.view.on(segment.start), this.view.on(segment.end)])))
          this.unplaced.push({ kind: 'dimension', words: `${between(loop, index)}: ${words}` });
        return [];
      }),
    );
  }

  private endMarks(placer: Placer, { pieces, rings }: DrawnRoom): Item[] {
    const inRoom = (p: Point) => inRings(rings, p);
    return pieces.flatMap((drawn) =>
      markedEnds(drawn, this.view).flatMap((end) => {
        if (!this.inField(end.foot)) return [];
        const placed = placer.place(endMarkCandidates(this.measure, end, inRoom));
        if (placed === null)
          this.unplaced.push({ kind: 'end-mark', words: `${end.kind} at board ${drawn.piece.id}` });
        return placed ?? [];
      }),
    );
  }

  /** The findings that stand on this drawing, with their places on it; of a room drawn alone, its own. */
  private flagged(): { readonly letter: string; readonly at: Point }[] {
    const { room } = this.options;
    return (this.options.findings ?? []).flatMap(({ letter, finding }) => {
      if (finding.at === null) return [];
      if (room !== undefined && finding.room !== null && finding.room !== room) return [];
      const at = this.view.on(finding.at);
      return this.inField(at) ? [{ letter, at }] : [];
    });
  }

  private inField([x, y]: Point): boolean {
    const [x0, y0, x1, y1] = grown(this.field, 0.01);
    return x >= x0 && x <= x1 && y >= y0 && y <= y1;
  }
}

function onPaper(box: TickBox, view: PlanView): Box {
  return [...view.on([box[0], box[1]]), ...view.on([box[2], box[3]])];
}

function segmentsOf(room: Room): Segment[] {
  return room.loops.flatMap((loop) => loop.segments);
}

function between(loop: Loop, index: number): string {
  const count = loop.corners.length;
  const left = loop.corners[(index + count - 1) % count]!.number;
  const right = loop.corners[index]!.number;
  return `corner ${left ?? '–'} to ${right ?? '–'}`;
}

function cornerRange(room: Room): string {
  const numbers = room.loops[0]!.corners.flatMap((corner) => (corner.number === null ? [] : [corner.number]));
  return numbers.length === 0 ? 'no corner numbers yet' : `corners ${numbers.join(', ')}`;
}

function centreOf(points: readonly Point[]): Point {
  const [x0, y0, x1, y1] = boxOf(points);
  return [(x0 + x1) / 2, (y0 + y1) / 2];
}
