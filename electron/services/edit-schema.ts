// Edits as they come from outside (the window, a journal): their shape, before core is asked to do them. Lengths in
// ticks, places [x, y]. What an edit means and whether it can be done is core's to say.

import { z } from 'zod';
import type { Edit, PatchEdit } from '../../core/edit/index.ts';

const id = z.string().max(64);
const ticks = z.number();
const place = z.tuple([ticks, ticks]);
const surface = z.enum(['drywall', 'plaster', 'masonry', 'wood']);
const node = z.union([id, z.strictObject({ id, at: place })]);

const patch = z.strictObject({
  type: z.literal('patch'),
  patches: z.array(
    z.strictObject({
      op: z.enum(['add', 'remove', 'replace']),
      path: z.array(z.union([z.string().max(200), z.number().int().min(0)])).max(20),
      value: z.unknown().optional(),
    }),
  ),
});

const edit = z.discriminatedUnion('type', [
  patch,
  z.strictObject({
    type: z.literal('addWall'),
    level: id,
    wall: id,
    from: node,
    to: node,
    thickness: ticks,
    height: ticks.optional(),
    faces: z.strictObject({ left: surface.optional(), right: surface.optional() }).optional(),
  }),
  z.strictObject({ type: z.literal('moveNode'), level: id, node: id, to: place }),
  z.strictObject({ type: z.literal('moveWall'), level: id, wall: id, by: place }),
  z.strictObject({
    type: z.literal('splitWall'),
    level: id,
    wall: id,
    at: ticks,
    node: id,
    newWall: id,
  }),
  z.strictObject({ type: z.literal('joinWalls'), level: id, node: id }),
  z.strictObject({ type: z.literal('deleteWall'), level: id, wall: id }),
]);

/** Ids carry no brand in JSON, and an absent key reads as absent: the cast says no more than the schema checked. */
export function readEdit(value: unknown): Edit | null {
  const read = edit.safeParse(value);
  return read.success ? (read.data as unknown as Edit) : null;
}

/** The same for an inverse, which is always patches. */
export function readPatch(value: unknown): PatchEdit | null {
  const read = patch.safeParse(value);
  return read.success ? (read.data as unknown as PatchEdit) : null;
}
