// How profiles, rooms and things that are cut are named in this stage's tables. Reads the solved report.

import { lookup, type OpeningId, type ProfileId } from '../../../core/plan/index.ts';
import {
  type CutThing,
  cutName,
  cutThings,
  nameOr,
  openingNameOf,
  roomNameOf,
} from '../../../core/sheets/index.ts';
import { ticksFromMm } from '../../../core/units/index.ts';
import type { SolvedPlan } from '../../state/app-state.ts';
import type { Ref } from '../../state/refs.ts';

type Piece = SolvedPlan['solved']['report']['pieces'][number];
type Casing = SolvedPlan['solved']['report']['casings'][number];

export function profileName({ plan }: SolvedPlan, id: string): string {
  return nameOr(lookup(plan.profiles, id as ProfileId)?.name ?? '', id);
}

export function roomName({ solved }: SolvedPlan, level: string, room: string | null): string {
  return roomNameOf(solved.report, level, room);
}

/** `7A`, `head of door o1, Hall`, as the sheets have it: short as it stands in a drawn board, and in full. */
export function thingNames({ plan, solved }: SolvedPlan, thing: CutThing): ReturnType<typeof cutName> {
  return cutName(plan, solved.report, thing);
}

/** The full name of what is cut, by the id it has on its board. */
export function cutNames(last: SolvedPlan): (id: string) => string {
  const things = cutThings(last.solved.report, last.plan.levels.length);
  return (id) => {
    const thing = things.get(id);
    return thing === undefined ? id : thingNames(last, thing).full;
  };
}

/** `door o1`. */
export function openingName({ plan }: SolvedPlan, casing: Casing): string {
  return openingNameOf(plan, casing);
}

export function refOf(thing: CutThing): Ref {
  return thing.of.kind === 'piece' ? pieceRef(thing.of.piece) : casingRef(thing.of.casing);
}

export function pieceRef({ level, id }: Piece): Ref {
  return { kind: 'piece', level: level as Ref['level'], id };
}

export function casingRef({ level, opening, side }: Casing): Ref {
  return { kind: 'casing', level: level as Ref['level'], opening: opening as OpeningId, id: side };
}

export const ticks = ticksFromMm;

/** As the plan gives it: no currency, two decimals; a dash where no price is known. */
export function money(amount: number | null): string {
  return amount === null ? '–' : amount.toFixed(2);
}
