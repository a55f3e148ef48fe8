// The compass rule against two published traverses: J. Mahun's open-access surveying text, 'Traverse computations',
// chapters E, F and I (four sides, feet), and the six-sided example of lecture notes on traverse adjustment.
// On the sheet x is the departure and y the latitude turned round: x right is east, y down is south.

import { describe, expect, test } from 'vitest';
import { compassRule, misclosureOf, walkTape } from '../../core/survey/index.ts';

type Place = readonly [number, number];

/** Points of a traverse from latitudes and departures. */
function pointsOf(latitudes: readonly number[], departures: readonly number[]): Place[] {
  const points: Place[] = [[0, 0]];
  latitudes.forEach((latitude, i) => {
    const [x, y] = points[i]!;
    points.push([x + departures[i]!, y - latitude]);
  });
  return points;
}

/** Latitudes and departures of a closed ring. */
function legsOf(points: readonly Place[]): { latitudes: number[]; departures: number[]; lengths: number[] } {
  const legs = points.map((at, i) => {
    const to = points[(i + 1) % points.length]!;
    return [to[0] - at[0], at[1] - to[1]] as const;
  });
  return {
    departures: legs.map(([east]) => east),
    latitudes: legs.map(([, north]) => north),
    lengths: legs.map(([east, north]) => Math.hypot(east, north)),
  };
}

function expectClose(found: readonly number[], published: readonly number[], digits: number): void {
  expect(found).toHaveLength(published.length);
  // Half a unit in the last printed digit, and as much again for the printed figures it is reckoned from.
  for (const [i, value] of found.entries()) {
    expect(Math.abs(value - published[i]!), `${i}: ${value}`).toBeLessThanOrEqual(10 ** -digits);
  }
}

describe('four sides, from bearings', () => {
  const deg = (d: number, m: number, s: number) => d + m / 60 + s / 3600;
  // As azimuths clockwise from north.
  const azimuths = [
    180 + deg(68, 5, 35), // S 68°05'35" W
    360 - deg(19, 46, 0), // N 19°46'00" W
    deg(45, 55, 20), // N 45°55'20" E
    180 - deg(54, 59, 15), // S 54°59'15" E
  ];
  const lengths = [472.68, 216.13, 276.52, 382.24];
  // On the sheet 0 is to the right (east), so a heading is the azimuth less 90; turns run the same way.
  const entries = lengths.map((length, i) => ({ length, turnDeg: azimuths[(i + 1) % 4]! - azimuths[i]! }));
  const walk = walkTape(entries, azimuths[0]! - 90);

  test('[SV1] latitudes and departures of the typed walk', () => {
    const steps = walk.points
      .slice(1)
      .map((at, i) => [at[0] - walk.points[i]![0], walk.points[i]![1] - at[1]] as const);
    expectClose(
      steps.map(([, latitude]) => latitude),
      [-176.357, 203.395, 192.357, -219.312],
      3,
    );
    expectClose(
      steps.map(([departure]) => departure),
      [-438.548, -73.093, 198.651, 313.065],
      3,
    );
  });

  test('[SV2] misclosure +0.083 in latitude and +0.075 in departure', () => {
    const { by, distance, fraction } = walk.misclosure;
    expectClose([0 - by[1], by[0]], [0.083, 0.075], 3);
    expect(walk.perimeter).toBeCloseTo(1347.57, 9);
    expect(fraction).toBe(distance / walk.perimeter);
    expect(distance).toBeCloseTo(Math.hypot(0.083, 0.075), 2);
  });

  test('[SV3] adjusted latitudes, departures and lengths', () => {
    const adjusted = legsOf(compassRule(walk.points));
    expectClose(adjusted.latitudes, [-176.386, 203.382, 192.34, -219.336], 3);
    expectClose(adjusted.departures, [-438.574, -73.105, 198.635, 313.044], 3);
    // The third length as noted from the text is 276.479; its own adjusted latitude and departure give 276.497, so two
    // digits changed places, in print or in the note. The other three are as noted.
    expectClose(adjusted.lengths, [472.715, 216.122, Math.hypot(192.34, 198.635), 382.237], 3);
    expect(Math.hypot(192.34, 198.635)).toBeCloseTo(276.497, 3);
  });
});

describe('six sides, from latitudes and departures', () => {
  const latitudes = [493.5672, 590.5342, -325.5265, -996.9916, -121.9557, 377.1895];
  const departures = [47.5251, 612.2285, 791.0924, 219.5069, -1110.584, -541.6952];
  const points = pointsOf(latitudes, departures);

  test('[SV1] the lengths of the sides', () => {
    const steps = latitudes.map((latitude, i) => Math.hypot(latitude, departures[i]!));
    expectClose(steps, [495.85, 850.62, 855.45, 1020.87, 1117.26, 660.08], 2);
    expect(misclosureOf(points).by[0]).toBeCloseTo(18.0737, 4);
  });

  test('[SV3] adjusted latitudes and departures, and the area they enclose', () => {
    const ring = compassRule(points);
    const adjusted = legsOf(ring);
    // The printed lengths have two digits: a length off by 0.005 shifts a correction by 0.00002.
    expectClose(adjusted.latitudes, [491.8995, 587.6733, -328.4036, -1000.4252, -125.7134, 374.9694], 4);
    expectClose(adjusted.departures, [45.7328, 609.1538, 788.0003, 215.8168, -1114.6225, -544.0812], 4);
    const twice = ring.reduce((sum, at, i) => {
      const to = ring[(i + 1) % ring.length]!;
      return sum + at[0] * to[1] - to[0] * at[1];
    }, 0);
    expect(Math.abs(Math.abs(twice) / 2 - 1_715_250.0494)).toBeLessThan(0.2);
  });
});

// The same text, solution of problem (2) on traverse adjustment: feet, directions as azimuths.
describe('four sides, a second problem of the same text', () => {
  const deg = (d: number, m: number, s: number) => d + m / 60 + s / 3600;
  const azimuths = [deg(226, 54, 23), 0, deg(235, 2, 29), deg(79, 35, 2)];
  const lengths = [639.15, 523.69, 409.54, 815.93];
  const entries = lengths.map((length, i) => ({ length, turnDeg: azimuths[(i + 1) % 4]! - azimuths[i]! }));
  const walk = walkTape(entries, azimuths[0]! - 90);

  test('[SV2] linear closure 0.157 ft, 1 in 15,200', () => {
    expectClose([walk.misclosure.distance], [0.157], 3);
    // Printed from the closure rounded to 0.157: two thirds of a percent of it are in the rounding.
    expect(Math.abs(1 / walk.misclosure.fraction - 15_200)).toBeLessThan(150);
  });

  test('[SV3] adjusted latitudes, departures and lengths', () => {
    const adjusted = legsOf(compassRule(walk.points));
    expectClose(adjusted.latitudes, [-436.631, 523.715, -234.64, 147.556], 3);
    expectClose(adjusted.departures, [-466.761, -0.023, -335.663, 802.447], 3);
    expectClose(adjusted.lengths, [639.15, 523.715, 409.544, 815.901], 3);
  });
});
