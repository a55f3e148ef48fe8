// Splitting, joining and closing walls, by command: one edit each, or a sentence on what is missing. Ticks.

import { type Edit, idGiver } from '../../core/edit/index.ts';
import { cross, distance, dot, minus, type Point, unit } from '../../core/graph/index.ts';
import {
  type Level,
  lookup,
  mustLookup,
  type NodeId,
  type Opening,
  type WallId,
} from '../../core/plan/index.ts';
import { type MeetOffer, nearlyMeeting } from '../../core/snap/index.ts';
import { roundHalfAway } from '../../core/units/index.ts';
import type { Copied } from './copies.ts';
import { wallsAt, wallsOf } from './drag.ts';
import type { ToolContext } from './types.ts';

/** So near to a wall's body a click is one on it, pixels. */
const ON_WALL_PX = 8;

/** Splits the chosen wall where it was clicked, or where most of it is free; the new node is chosen, to be moved. */
export function splitting(context: ToolContext, place: Point | null): Copied {
  const { level, selection, pixelsPerTick } = context;
  // A face that runs over several walls names none of them.
  const [id, ...more] = selection
    .filter((each) => each.level === level.id)
    .flatMap((each) => wallsOf(each, context));
  const wall = id === undefined ? undefined : lookup(level.walls, id);
  if (id === undefined || wall === undefined || (more.length > 0 && selection.length === 1))
    return { why: 'Choose the wall to split first.' };
  const [from, to] = [mustLookup(level.nodes, wall.from), mustLookup(level.nodes, wall.to)];
  const length = distance(from, to);
  const way = unit(minus(to, from));
  const on = place === null ? -1 : dot(minus(place, from), way);
  const off = place === null ? 0 : Math.abs(cross(way, minus(place, from)));
  const clicked = on > 1 && on < length - 1 && off <= wall.thickness / 2 + ON_WALL_PX / pixelsPerTick;
  const at = roundHalfAway(clicked ? on : middleOfFree(level, id, length));
  const node = idGiver<NodeId>('n', Object.keys(level.nodes))();
  const newWall = idGiver<WallId>('w', Object.keys(level.walls))();
  return {
    edit: { type: 'splitWall', level: level.id, wall: id, at, node, newWall },
    select: [{ kind: 'node', level: level.id, id: node }],
  };
}

/** The middle of the longest part of a wall without an opening; of the whole wall where openings leave none. */
function middleOfFree(level: Level, wall: WallId, length: number): number {
  const openings = Object.values<Opening>(level.openings).filter((each) => each.wall === wall);
  let [from, best] = [0, { at: length / 2, long: 0 }];
  for (const { at, width } of [...openings, { at: length, width: 0 }].sort((a, b) => a.at - b.at)) {
    if (at - from > best.long) best = { at: (from + at) / 2, long: at - from };
    from = Math.max(from, at + width);
  }
  return best.at;
}

/** Makes one wall of the two at the chosen node, or of the two chosen walls. */
export function joining(context: ToolContext): Copied {
  const { level, selection } = context;
  const here = selection.filter((ref) => ref.level === level.id);
  const node = here.find((ref) => ref.kind === 'node');
  if (node?.kind === 'node') {
    const [kept] = [...wallsAt(level, [node.id])].sort();
    const select =
      kept === undefined ? {} : { select: [{ kind: 'wall', level: level.id, id: kept } as const] };
    return { edit: { type: 'joinWalls', level: level.id, node: node.id }, ...select };
  }
  const walls = here.flatMap((ref) => (ref.kind === 'wall' ? wallsOf(ref, context) : []));
  const [one, other] = walls.map((id) => mustLookup(level.walls, id));
  if (walls.length !== 2 || one === undefined || other === undefined)
    return { why: 'Choose two walls that go straight on, or the node between them.' };
  const shared = [one.from, one.to].find((id) => id === other.from || id === other.to);
  if (shared === undefined) return { why: 'The two walls do not meet at an end.' };
  const [kept] = [...walls].sort();
  return {
    edit: { type: 'joinWalls', level: level.id, node: shared },
    select: [{ kind: 'wall', level: level.id, id: kept! }],
  };
}

/** Gaps that may be closed, those about what is chosen or was touched lately first. */
function closeOffers({ level, settings, selection, recent, walk }: ToolContext): readonly MeetOffer[] {
  if (!hasGap(walk)) return [];
  const offers = nearlyMeeting(level, settings);
  const chosen = new Set<string>(
    selection.flatMap((ref) => (ref.kind === 'wall' || ref.kind === 'node' ? [ref.id] : [])),
  );
  const lately = new Set<string>(recent);
  const weight = ({ walls }: MeetOffer): number => {
    const names: string[] = walls.flatMap((id) => {
      const wall = lookup(level.walls, id);
      return wall === undefined ? [id] : [id, wall.from, wall.to];
    });
    return names.some((id) => chosen.has(id)) ? 2 : names.some((id) => lately.has(id)) ? 1 : 0;
  };
  return [...offers].sort((a, b) => weight(b) - weight(a));
}

/** Whether the walk has noted ends that nearly meet a wall. */
function hasGap(walk: ToolContext['walk']): boolean {
  return walk.notes.some((note) => note.kind === 'not-closed' && note.gap !== null);
}

export function closing(context: ToolContext): Copied {
  const [first, ...rest] = closeOffers(context);
  if (first === undefined) return { why: 'No wall end lies near another wall: there is no gap to close.' };
  const edit: Edit = first.edit;
  const left = rest.length === 0 ? '' : ` ${rest.length} more to close.`;
  return { edit, words: first.words, say: `Done: ${first.words}.${left}` };
}
