// Seeded random planar levels: a rectangle split again and again into rooms, with spurs, free-standing walls and
// columns, random thickness, walls drawn either way round, then turned and shifted. Planar by construction: every
// point where walls touch is a node. Returned with what is known beforehand about the outcome.

import type { Level } from '../../../core/plan/schema.ts';
import { levelOf, type WallRow } from './plans.ts';

export interface RandomOptions {
  /** Thicknesses to choose from, mm. */
  readonly thicknesses: readonly number[];
  /** Moves every node by up to this much either way, mm; under 50, for nodes may stand 100 apart. */
  readonly jitter: number;
  /** Turn about the origin, degrees. */
  readonly turnDeg: number;
  readonly shift: readonly [number, number];
  /** Chance of something standing in a room, and of a spur growing into it. */
  readonly furnished: number;
}

export interface RandomLevel {
  readonly level: Level;
  readonly rooms: number;
  readonly islands: number;
  readonly voids: number;
  readonly components: number;
}

interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** Room sides are at least this long, so that ordinary walls leave room for what stands in them. */
const LEAST = 1800;

export function randomLevel(next: () => number, options: RandomOptions): RandomLevel {
  // Nodes on one line stay in order when they are moved.
  const grid = options.jitter === 0 ? 10 : 100;
  const pick = (from: number, to: number) => Math.round((from + next() * (to - from)) / grid) * grid;
  const nodes = new Map<string, readonly [number, number]>();
  const rows: [string, string][] = [];
  const nodeAt = (x: number, y: number) => {
    const id = `n${x}_${y}`.replaceAll('-', 'm');
    nodes.set(id, [x, y]);
    return id;
  };

  const house: Rect = { x: 0, y: 0, w: pick(4000, 12000), h: pick(4000, 12000) };
  const leaves: Rect[] = [];
  const lines: [number, number, number, number][] = [
    [0, 0, house.w, 0],
    [0, house.h, house.w, house.h],
    [0, 0, 0, house.h],
    [house.w, 0, house.w, house.h],
  ];
  const split = (rect: Rect, depth: number) => {
    const across = rect.w > rect.h;
    const size = across ? rect.w : rect.h;
    if (depth === 0 || size < 2 * LEAST || next() < 0.15) {
      leaves.push(rect);
      return;
    }
    const at = pick(LEAST, size - LEAST);
    if (across) {
      lines.push([rect.x + at, rect.y, rect.x + at, rect.y + rect.h]);
      split({ ...rect, w: at }, depth - 1);
      split({ ...rect, x: rect.x + at, w: rect.w - at }, depth - 1);
    } else {
      lines.push([rect.x, rect.y + at, rect.x + rect.w, rect.y + at]);
      split({ ...rect, h: at }, depth - 1);
      split({ ...rect, y: rect.y + at, h: rect.h - at }, depth - 1);
    }
  };
  split(house, 4);

  // Cut every line at every end of another that lies on it.
  const ends = lines.flatMap(([x1, y1, x2, y2]) => [[x1, y1] as const, [x2, y2] as const]);
  for (const [x1, y1, x2, y2] of lines) {
    const on = ends.filter(([x, y]) => x >= x1 && x <= x2 && y >= y1 && y <= y2);
    const sorted = [...new Map(on.map((p) => [p.join(), p])).values()].sort(
      (a, b) => a[0] - b[0] || a[1] - b[1],
    );
    for (let i = 0; i + 1 < sorted.length; i++) {
      rows.push([nodeAt(...sorted[i]!), nodeAt(...sorted[i + 1]!)]);
    }
  }

  let islands = 0;
  let voids = 0;
  for (const { x, y, w, h } of leaves) {
    if (next() < options.furnished) {
      // A spur from the top left corner of the room, slantwise, and short enough to leave the middle free.
      rows.push([nodeAt(x, y), nodeAt(x + pick(400, w / 3), y + pick(400, h / 3))]);
    }
    if (next() >= options.furnished) continue;
    const [cx, cy] = [x + Math.round(w / 2), y + Math.round(h / 2)];
    islands += 1;
    if (next() < 0.5) {
      rows.push([nodeAt(cx, cy), nodeAt(cx + 200, cy + Math.round(next() * 200))]);
    } else {
      const ids = [nodeAt(cx, cy), nodeAt(cx + 250, cy), nodeAt(cx + 250, cy + 250), nodeAt(cx, cy + 250)];
      for (const [i, id] of ids.entries()) rows.push([id, ids[(i + 1) % 4]!]);
      voids += 1;
    }
  }

  const turn = (options.turnDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const placed = Object.fromEntries(
    [...nodes].map(([id, [x, y]]) => {
      const jx = x + (next() * 2 - 1) * options.jitter;
      const jy = y + (next() * 2 - 1) * options.jitter;
      return [id, [jx * cos - jy * sin + options.shift[0], jx * sin + jy * cos + options.shift[1]] as const];
    }),
  );
  const names = rows.map((_, i) => ({ name: `w${i}`, rank: next() })).sort((a, b) => a.rank - b.rank);
  const walls = Object.fromEntries(
    rows.map(([from, to], i): [string, WallRow] => {
      const thickness = options.thicknesses[Math.floor(next() * options.thicknesses.length)]!;
      return [names[i]!.name, next() < 0.5 ? [from, to, thickness] : [to, from, thickness]];
    }),
  );
  return { level: levelOf(placed, walls), rooms: leaves.length, islands, voids, components: 1 + islands };
}

/**
 * A tangle: random nodes on a coarse grid, joined at random wherever the new wall crosses and touches nothing. Acute
 * angles, spurs, islands in islands and walls far too thick for their rooms; planar all the same.
 */
export function randomTangle(next: () => number, nodeCount: number, thicknesses: readonly number[]): Level {
  const places = new Map<string, readonly [number, number]>();
  while (places.size < nodeCount) {
    const at = [Math.floor(next() * 40) * 150, Math.floor(next() * 40) * 150] as const;
    places.set(`n${at[0]}_${at[1]}`, at);
  }
  const nodes = [...places];
  const rows: (readonly [number, number])[] = [];
  const reach = 500 + next() * 2500;
  for (let tries = 0; tries < nodeCount * 12; tries++) {
    const [i, j] = [Math.floor(next() * nodeCount), Math.floor(next() * nodeCount)];
    if (i === j) continue;
    const [a, b] = [nodes[i]![1], nodes[j]![1]];
    if (Math.hypot(a[0] - b[0], a[1] - b[1]) > reach) continue;
    const throughNode = nodes.some(([, p], k) => k !== i && k !== j && onSegment(a, b, p));
    const meets = rows.some(([k, l]) => {
      const shared = [k, l].filter((end) => end === i || end === j).length;
      return shared === 2 || (shared === 0 && segmentsMeet(a, b, nodes[k]![1], nodes[l]![1]));
    });
    if (!throughNode && !meets) rows.push([i, j]);
  }
  const walls = Object.fromEntries(
    rows.map(([i, j], k): [string, WallRow] => [
      `w${k}`,
      [nodes[i]![0], nodes[j]![0], thicknesses[Math.floor(next() * thicknesses.length)]!],
    ]),
  );
  return levelOf(Object.fromEntries(nodes), walls);
}

type Mm = readonly [number, number];

/** Whole millimetres: plain products are exact. */
function side(a: Mm, b: Mm, p: Mm): number {
  return Math.sign((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]));
}

function onSegment(a: Mm, b: Mm, p: Mm): boolean {
  return side(a, b, p) === 0 && (p[0] - a[0]) * (p[0] - b[0]) + (p[1] - a[1]) * (p[1] - b[1]) <= 0;
}

function segmentsMeet(a: Mm, b: Mm, c: Mm, d: Mm): boolean {
  if (onSegment(a, b, c) || onSegment(a, b, d) || onSegment(c, d, a) || onSegment(c, d, b)) return true;
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}
