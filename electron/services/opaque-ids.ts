// Ids for things that a window may name and must not know, such as paths: random, the same for the same thing, good until
// the program ends. An id that was not given here leads nowhere. RULES: SK6.

import { randomBytes } from 'node:crypto';

export interface OpaqueIds {
  /** The id of `thing`. */
  give(thing: string): string;
  /** What an id stands for; null where it was never given. */
  thingOf(id: string): string | null;
}

export function opaqueIds(): OpaqueIds {
  const byId = new Map<string, string>();
  const byThing = new Map<string, string>();
  return {
    give: (thing) => {
      const known = byThing.get(thing);
      if (known !== undefined) return known;
      const id = randomBytes(16).toString('hex');
      byId.set(id, thing);
      byThing.set(thing, id);
      return id;
    },
    thingOf: (id) => byId.get(id) ?? null,
  };
}
