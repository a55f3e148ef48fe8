// Which polygons hold a point.

import { describe, expect, it } from 'vitest';
import { type Point, polygonIndex } from '../../../core/graph/index.ts';
import { random } from '../../seeds.ts';

const square = (x: number, y: number, size: number): Point[] => [
  [x, y],
  [x + size, y],
  [x + size, y + size],
  [x, y + size],
];
const ids = (index: ReturnType<typeof polygonIndex>, at: Point) =>
  index.holding(at).map(({ polygon }) => polygon);

describe('[WK10] polygon index', () => {
  it('nothing holds a point where there is no polygon, or only empty ones', () => {
    expect(polygonIndex([]).holding([0, 0])).toEqual([]);
    expect(polygonIndex([[], []]).holding([0, 0])).toEqual([]);
  });

  it('nested squares: all that hold the point, empty polygons left out of the count', () => {
    const index = polygonIndex([square(0, 0, 100), [], square(20, 20, 60), square(40, 40, 10)]);
    expect(ids(index, [45, 45])).toEqual([0, 2, 3]);
    expect(ids(index, [30, 30])).toEqual([0, 2]);
    expect(ids(index, [10, 50])).toEqual([0]);
    expect(ids(index, [101, 50])).toEqual([]);
  });

  it('a ray through vertices and along edges counts once', () => {
    const diamond: Point[] = [
      [0, -10],
      [10, 0],
      [0, 10],
      [-10, 0],
    ];
    const step: Point[] = [
      [-20, 0],
      [20, 0],
      [20, 20],
      [-20, 20],
    ];
    const index = polygonIndex([diamond, step]);
    expect(index.holding([0, 0])).toEqual([
      { polygon: 0, winding: 1, onEdge: false },
      { polygon: 1, winding: 0, onEdge: true },
    ]);
    expect(ids(index, [-15, -0.5])).toEqual([]);
    expect(ids(index, [-30, 0])).toEqual([]);
  });

  it('on an edge, on a vertex, and one step off', () => {
    const index = polygonIndex([square(0, 0, 10)]);
    expect(index.holding([10, 5])[0]).toMatchObject({ onEdge: true });
    expect(index.holding([0, 0])[0]).toMatchObject({ onEdge: true });
    expect(ids(index, [10.000001, 5])).toEqual([]);
    expect(index.holding([9.999999, 5])[0]).toEqual({ polygon: 0, winding: 1, onEdge: false });
  });

  it('an anticlockwise polygon winds the other way; an edge walked twice cancels', () => {
    const back = [...square(0, 0, 10)].reverse();
    const spur: Point[] = [
      [0, 0],
      [10, 0],
      [10, 5],
      [20, 5],
      [10, 5],
      [10, 10],
      [0, 10],
    ];
    const index = polygonIndex([back, spur]);
    expect(index.holding([5, 4])).toEqual([
      { polygon: 0, winding: -1, onEdge: false },
      { polygon: 1, winding: 1, onEdge: false },
    ]);
    expect(ids(index, [15, 4])).toEqual([]);
  });

  it('agrees with counting crossings one by one on random triangles and points, half of them on a coarse grid', () => {
    const seed = 411;
    const next = random(seed);
    const pick = () => Math.floor(next() * 12);
    const triangles: Point[][] = [];
    for (let i = 0; i < 200; i++) {
      triangles.push([
        [pick(), pick()],
        [pick(), pick()],
        [pick(), pick()],
      ]);
    }
    const index = polygonIndex(triangles);
    let inside = 0;
    for (let i = 0; i < 300; i++) {
      const at: Point = i % 2 === 0 ? [pick(), pick()] : [next() * 12, next() * 12];
      const strict = index.holding(at).filter(({ onEdge }) => !onEdge);
      const expected = triangles.flatMap((triangle, polygon) => (strictlyIn(triangle, at) ? [polygon] : []));
      expect(
        strict.map(({ polygon }) => polygon),
        `seed ${seed}, point ${at}`,
      ).toEqual(expected);
      inside += expected.length;
    }
    expect(inside).toBeGreaterThan(1000);
  });

  it('a polygon of many edges, with its own index, answers as its halves of few do', () => {
    const seed = 412;
    const next = random(seed);
    const spiky: Point[] = [];
    for (let i = 0; i < 60; i++) {
      const radius = i % 2 === 0 ? 100 : 20 + Math.floor(next() * 60);
      spiky.push([
        Math.round(radius * Math.cos(i * (Math.PI / 30))),
        Math.round(radius * Math.sin(i * (Math.PI / 30))),
      ]);
    }
    const triangles = spiky.map((a, i): Point[] => [[0, 0], a, spiky[(i + 1) % 60]!]);
    const whole = polygonIndex([spiky]);
    const fan = polygonIndex(triangles);
    let inside = 0;
    for (let i = 0; i < 2000; i++) {
      const at: Point = [next() * 200 - 100, next() * 200 - 100];
      const expected = fan.holding(at).some(({ onEdge }) => !onEdge);
      expect(whole.holding(at).length === 1, `seed ${seed}, point ${at}`).toBe(expected);
      if (expected) inside += 1;
    }
    expect(inside).toBeGreaterThan(300);
  });
});

/** By the three half planes; small whole numbers and their products are exact enough in doubles here. */
function strictlyIn(triangle: readonly Point[], p: Point): boolean {
  const sides = triangle.map((a, i) => {
    const b = triangle[(i + 1) % 3]!;
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
  });
  return sides.every((side) => side > 0) || sides.every((side) => side < 0);
}
