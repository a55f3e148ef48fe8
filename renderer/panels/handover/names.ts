// How profiles, rooms and things that are cut are named in this stage's tables. Reads the solved report.

import { lookup, type OpeningId, type ProfileId } from '../../../core/plan/index.ts';
import { CASING_PARTS, type CutThing, cutThings, nameOr, OPENING_KINDS } from '../../../core/sheets/index.ts';
import { ticksFromMm } from '../../../core/units/index.ts';
import type { SolvedPlan } from '../../state/app-state.ts';
import type { Ref } from '../../state/refs.ts';

export function profileName({ plan }: SolvedPlan, id: string): string {
  return nameOr(lookup(plan.profiles, id as ProfileId)?.name ?? '', id);
}

export function roomName({ solved }: SolvedPlan, level: string, room: string | null): string {
  if (room === null) return 'outside';
  const levels = solved.report.rooms.filter((each) => each.level === level);
  return nameOr(levels.find((each) => each.id === room)?.name ?? '', 'room without a name');
}

export function thingsOf(last: SolvedPlan): ReadonlyMap<string, CutThing> {
  return cutThings(last.solved.report, last.plan.levels.length);
}

/** `7A`, `head of door o1`: short as it stands in a drawn board, and in full. */
export function thingNames(last: SolvedPlan, thing: CutThing): { short: string; full: string } {
  if (thing.of.kind === 'piece') return { short: thing.id, full: thing.id };
  const { casing, part } = thing.of;
  const level = last.plan.levels.find(({ id }) => id === casing.level);
  const opening = level && lookup(level.openings, casing.opening as OpeningId);
  const kind = opening === undefined ? 'opening' : OPENING_KINDS[opening.kind];
  return { short: CASING_PARTS[part], full: `${CASING_PARTS[part]} of ${kind} ${casing.opening}` };
}

export function refOf(thing: CutThing): Ref {
  if (thing.of.kind === 'piece') {
    const { level, id } = thing.of.piece;
    return { kind: 'piece', level: level as Ref['level'], id };
  }
  const { level, opening, side } = thing.of.casing;
  return { kind: 'casing', level: level as Ref['level'], opening: opening as OpeningId, id: side };
}

export const ticks = ticksFromMm;

/** As the plan gives it: no currency, two decimals; a dash where no price is known. */
export function money(amount: number | null): string {
  return amount === null ? '–' : amount.toFixed(2);
}
