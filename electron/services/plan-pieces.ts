// A plan as messages between threads, each quick to send and to take, so that a large plan holds up neither side: first the
// plan with its large maps empty, then what is in them, in portions. What comes together again is frozen. Knows no thread.
// RULES: SK19.

import { frozen } from '../../core/edit/frozen.ts';
import type { Plan } from '../../core/plan/schema.ts';

/** So many values are sent and taken in a few milliseconds. */
const MOST_VALUES = 10_000;

type Entry = readonly [key: string, value: unknown];
type Holder = Readonly<Record<string, unknown>>;

interface Portion {
  readonly entries: readonly Entry[];
  /** The map is whole with these. */
  readonly last: boolean;
}

export type PlanPiece =
  | { readonly kind: 'frame'; readonly plan: Plan }
  /** `level` is its place in the list; null for a map of the plan itself. */
  | ({ readonly kind: 'portion'; readonly level: number | null; readonly map: string } & Portion);

/** A value and all that it holds, counted up to `most`. */
export function valuesIn(value: unknown, most: number): number {
  if (typeof value !== 'object' || value === null) return 1;
  let count = 1;
  for (const inner of Object.values(value)) {
    if (count >= most) return count;
    count += valuesIn(inner, most - count);
  }
  return count;
}

function isLargeMap(value: unknown): value is Holder {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
  return valuesIn(value, MOST_VALUES) >= MOST_VALUES;
}

/** A map's entries in order, each portion of about as many values; the last one may be empty. */
function* portionsOf(map: Holder): Generator<Portion> {
  let entries: Entry[] = [];
  let values = 0;
  for (const entry of Object.entries(map)) {
    entries.push(entry);
    values += valuesIn(entry, MOST_VALUES);
    if (values < MOST_VALUES) continue;
    yield { entries, last: false };
    [entries, values] = [[], 0];
  }
  yield { entries, last: true };
}

/** The plan and its levels, each with its place. */
function holdersOf(plan: Plan): (readonly [level: number | null, holder: Holder])[] {
  return [[null, plan], ...plan.levels.map((level, at) => [at, level] as const)];
}

function mapped(holder: Holder, how: (value: unknown, map: string) => unknown): Holder {
  return Object.fromEntries(Object.entries(holder).map(([map, value]) => [map, how(value, map)]));
}

/** The pieces, one at a time, in the order in which they are to be taken. */
export function* piecesOf(plan: Plan): Generator<PlanPiece> {
  const emptied = (holder: Holder): Holder => mapped(holder, (value) => (isLargeMap(value) ? {} : value));
  yield { kind: 'frame', plan: { ...emptied(plan), levels: plan.levels.map(emptied) } as unknown as Plan };
  for (const [level, holder] of holdersOf(plan))
    for (const [map, value] of Object.entries(holder)) {
      if (!isLargeMap(value)) continue;
      for (const portion of portionsOf(value)) yield { kind: 'portion', level, map, ...portion };
    }
}

export interface PlanGatherer {
  take(piece: PlanPiece): void;
  /** The plan, once all pieces are taken. Throws where the first is missing. */
  plan(): Plan;
}

export function gatherPlan(): PlanGatherer {
  let frame: Plan | null = null;
  let entries: Entry[] = [];
  const maps = new Map<string, Holder>();
  const keyOf = (level: number | null, map: string): string => `${level} ${map}`;
  return {
    take: (piece) => {
      if (piece.kind === 'frame') {
        frame = frozen(piece.plan);
        return;
      }
      for (const entry of piece.entries) entries.push(frozen(entry));
      if (!piece.last) return;
      maps.set(keyOf(piece.level, piece.map), frozen(Object.fromEntries(entries)));
      entries = [];
    },
    plan: () => {
      if (frame === null) throw new Error('the frame of a plan was not sent');
      const filled = (level: number | null, holder: Holder): Holder =>
        mapped(holder, (value, map) => maps.get(keyOf(level, map)) ?? value);
      const levels = frame.levels.map((level, at) => filled(at, level));
      return frozen({ ...filled(null, frame), levels } as unknown as Plan);
    },
  };
}
