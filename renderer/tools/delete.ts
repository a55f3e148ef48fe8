// What deleting the selection does: one edit, or a sentence on what is chosen that cannot be deleted by itself.

import type { Edit } from '../../core/edit/index.ts';
import { type Level, lookup, mustLookup, type WallId } from '../../core/plan/index.ts';
import type { Ref } from '../state/refs.ts';
import { wallsAt, wallsOf } from './drag.ts';
import type { ToolContext } from './types.ts';

export type EditOrWhy = { readonly edit: Edit; readonly words?: string } | { readonly why: string };

/** Things on walls that go anyway are deleted with them. A node where a wall only goes on is taken out of it. */
export function deletion(context: Pick<ToolContext, 'level' | 'walk' | 'selection'>): EditOrWhy {
  const { level } = context;
  const here = context.selection.filter((ref) => ref.level === level.id);
  if (here.length === 0) return { why: 'Choose something first.' };
  const walls = new Set<WallId>();
  const edits: Edit[] = [];
  let why = '';
  for (const ref of here) {
    const done = deletionOf(ref, context);
    if ('why' in done) why = done.why;
    else {
      for (const id of done.walls) walls.add(id);
      edits.push(...done.edits);
    }
  }
  const standing = edits.filter((edit) => !goesWithWall(edit, level, walls));
  const all = [...standing, ...wallsGone([...walls], level)];
  if (all.length === 0) return { why: why === '' ? 'Nothing of that can be deleted.' : why };
  if (all.length === 1) return { edit: all[0]! };
  return { edit: { type: 'several', edits: all, words: 'delete what is chosen' } };
}

/** The edit that takes walls away together; none for none. */
function wallsGone(walls: readonly WallId[], level: Level): readonly Edit[] {
  const [wall, ...also] = walls;
  if (wall === undefined) return [];
  const more = also.length === 0 ? {} : { also };
  return [{ type: 'deleteWall', level: level.id, wall, ...more, joins: true }];
}

interface Going {
  readonly walls: readonly WallId[];
  readonly edits: readonly Edit[];
}

function deletionOf(
  ref: Ref,
  { level, walk }: Pick<ToolContext, 'level' | 'walk'>,
): Going | { readonly why: string } {
  const on = { level: level.id };
  switch (ref.kind) {
    case 'wall':
    case 'segment':
      return { walls: wallsOf(ref, { level, walk }), edits: [] };
    case 'node': {
      const walls = wallsAt(level, [ref.id]);
      const join = walls.length === 2 && goesOn(level, walls[0]!, walls[1]!);
      return join ? { walls: [], edits: [{ type: 'joinWalls', ...on, node: ref.id }] } : { walls, edits: [] };
    }
    case 'opening':
      return { walls: [], edits: [{ type: 'deleteOpening', ...on, opening: ref.id }] };
    case 'builtIn':
      return { walls: [], edits: [{ type: 'deleteBuiltIn', ...on, builtIn: ref.id }] };
    case 'mark':
      return { walls: [], edits: [{ type: 'deleteMark', ...on, mark: ref.id }] };
    case 'room': {
      const own = wallsOf(ref, { level, walk });
      const others = new Set(
        walk.rooms
          .filter(({ id }) => id !== ref.id)
          .flatMap(({ id }) => wallsOf({ ...ref, id }, { level, walk })),
      );
      const walls = own.filter((id) => !others.has(id));
      if (walls.length === 0)
        return {
          why: 'Every wall of this room belongs to another room too. Choose the walls that are to go.',
        };
      const record = Object.keys(level.rooms).find((id) => id === ref.id);
      const room = record as keyof Level['rooms'] | undefined;
      return { walls, edits: room === undefined ? [] : [{ type: 'deleteRoom', ...on, room }] };
    }
    case 'casing': {
      const opening = lookup(level.openings, ref.opening);
      if (opening === undefined) return { why: 'That is no longer there.' };
      const casing = { ...opening.casing, [ref.id]: null };
      return { walls: [], edits: [{ type: 'changeOpening', ...on, opening: ref.opening, set: { casing } }] };
    }
    case 'corner':
      return { why: 'A corner goes with its walls. Choose one of them, or set its joint in the ticket.' };
    case 'piece':
      return { why: 'A board follows from the room’s trim. Set that line to none in the ticket.' };
  }
}

/** Whether two walls that meet are one wall with a node in it, as joining asks. */
function goesOn(level: Level, a: WallId, b: WallId): boolean {
  const [one, other] = [mustLookup(level.walls, a), mustLookup(level.walls, b)];
  if (one.thickness !== other.thickness || one.height !== other.height) return false;
  const shared = [one.from, one.to].find((node) => node === other.from || node === other.to);
  if (shared === undefined) return false;
  const at = mustLookup(level.nodes, shared);
  const ends = [one, other].map(({ from, to }) => mustLookup(level.nodes, from === shared ? to : from));
  const [ax, ay] = [ends[0]![0] - at[0], ends[0]![1] - at[1]];
  const [bx, by] = [ends[1]![0] - at[0], ends[1]![1] - at[1]];
  const far = Math.hypot(ax - bx, ay - by);
  return ax * bx + ay * by < 0 && far > 0 && Math.abs(ax * by - ay * bx) / far <= 1;
}

/** Things on a wall that is deleted go with it. */
function goesWithWall(edit: Edit, level: Level, walls: ReadonlySet<WallId>): boolean {
  const thing =
    edit.type === 'deleteOpening' || edit.type === 'changeOpening'
      ? lookup(level.openings, edit.opening)
      : edit.type === 'deleteBuiltIn'
        ? lookup(level.builtIns, edit.builtIn)
        : edit.type === 'deleteMark'
          ? lookup(level.marks, edit.mark)
          : undefined;
  return thing !== undefined && walls.has(thing.wall);
}
