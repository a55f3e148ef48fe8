// Puts a thing that stands on a wall where its figures were typed to, in the tape bar, in a drag and in its ticket alike: one
// edit, or a sentence on why there is no room. Ticks along the wall.

import type { EditOrWhy } from './delete.ts';
import { type StandingRef, setForFace, standingEdit, thingOf } from './drag.ts';
import { unfit, wasOn } from './room-on-face.ts';
import { type Place, rehomed } from './standing-places.ts';
import type { TapeFigures, ToolContext } from './types.ts';

/** Puts it at a place of a face, on the wall there that its middle comes to lie on. `typed`: what led to that place. */
export function putThing(
  ref: StandingRef,
  to: Place,
  typed: TapeFigures,
  context: Pick<ToolContext, 'level' | 'walk' | 'figures'>,
): EditOrWhy {
  const thing = thingOf(context.level, ref);
  if (thing === undefined) return { why: 'That is no longer there.' };
  const { face, at, width } = rehomed(to.face, to.at, to.width, context);
  const why = unfit(ref.kind, wasOn(face, thing), { face, at, width }, typed, context);
  if (why !== null) return { why };
  const set = {
    at,
    ...(width === thing.width ? {} : { width }),
    ...setForFace(thing, face, context),
  };
  return { edit: standingEdit(ref, set, context.level) };
}
