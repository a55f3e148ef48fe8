// How what is cut is named, on paper and in the window alike: a board by its id; a part of a casing by its opening and the
// room it looks into, for openings are counted level by level and cased on both sides. Knows no layout.

import type { Plan } from '../plan/schema.ts';
import type { Report } from '../report/schema.ts';
import type { CutThing } from './cut-things.ts';
import { placeNames } from './page-names.ts';
import { CASING_PARTS, nameOr } from './words.ts';

type Casing = Report['casings'][number];

/** A room's name by its level and id, or its place in the house; `outside` where there is no room. */
export function roomNameOf({ rooms }: Report, level: string, room: string | null): string {
  const index = rooms.findIndex((each) => each.level === level && each.id === room);
  return index < 0 ? 'outside' : nameOr(rooms[index]!.name, `Room ${index + 1}`);
}

/** `door o1`. Throws on a casing of a level that the plan has not. */
export function openingNameOf({ levels }: Plan, { id, level, opening }: Casing): string {
  const on = levels.find((each) => each.id === level);
  if (!on) throw new Error(`casing ${id} is on no level`);
  return placeNames(on).opening(opening);
}

/** `7A`, or `head of door o1, Hall`; and shorter, as it stands in its drawn board. */
export function cutName(
  plan: Plan,
  report: Report,
  { id, of }: CutThing,
): { readonly short: string; readonly full: string } {
  if (of.kind === 'piece') return { short: id, full: id };
  const short = CASING_PARTS[of.part];
  const room = roomNameOf(report, of.casing.level, of.casing.room);
  return { short, full: `${short} of ${openingNameOf(plan, of.casing)}, ${room}` };
}
