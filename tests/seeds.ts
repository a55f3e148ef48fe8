// How long the long tests are, and a seeded random source whose seed is printed with every failure.
// `npm test` runs a tenth of the random and fault tests, `npm run test:long` all of them.

export const LONG = process.env.COPEWRIGHT_LONG === '1';

/** `full` cases in the long run, a tenth of that (at least `least`) otherwise. */
export function cases(full: number, least = 1): number {
  return LONG ? full : Math.max(least, Math.ceil(full / 10));
}

/** A small seeded generator (mulberry32, public domain): numbers in [0, 1). */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
