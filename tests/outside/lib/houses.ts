// Seeded random levels for the room checks: planar by construction. Buildings by recursive cutting of convex cells
// (T-joints), spurs, free-standing walls, islands and islands in islands, several buildings, any rotation, equal or
// mixed thickness. Lengths mm.

import { emptyLevel, type FileLevel, type PlanJson, planOf, tick, type Vec } from './file.ts';
import { add, centroid, cross, dist, dot, lerp, mul, shoelace, sub, turnDeg, unit } from './plane.ts';

export type Rng = () => number;

export const between = (rng: Rng, low: number, high: number): number => low + (high - low) * rng();
export const pick = <T>(rng: Rng, list: readonly T[]): T => list[Math.floor(rng() * list.length)]!;
export const chance = (rng: Rng, p: number): boolean => rng() < p;

const THICKNESSES = [90, 101.6, 114.3, 139.7, 165.1, 200, 254];

export interface HouseTraits {
  equal: boolean;
  spurs: number;
  freeWalls: number;
  islands: number;
  nested: number;
  buildings: number;
  cuts: number;
}

class Sketch {
  readonly nodes: Vec[] = [];
  readonly walls: { a: number; b: number; thickness: number }[] = [];
  readonly traits: HouseTraits;
  private cells: number[][] = [];
  private readonly rng: Rng;
  private readonly perEdge: boolean;
  private readonly one: number;

  constructor(rng: Rng, equal: boolean) {
    this.rng = rng;
    this.perEdge = chance(rng, 0.5);
    this.one = pick(rng, THICKNESSES);
    this.traits = { equal, spurs: 0, freeWalls: 0, islands: 0, nested: 0, buildings: 0, cuts: 0 };
  }

  private thickness(): number {
    return this.traits.equal ? this.one : pick(this.rng, THICKNESSES);
  }

  private node(at: Vec): number {
    return this.nodes.push(at) - 1;
  }

  private wall(a: number, b: number, thickness = this.thickness()): void {
    this.walls.push(chance(this.rng, 0.5) ? { a, b, thickness } : { a: b, b: a, thickness });
  }

  private ring(cell: readonly number[]): Vec[] {
    return cell.map((i) => this.nodes[i]!);
  }

  /** A node on the wall between two neighbouring nodes, part of the way along. */
  private split(a: number, b: number, t: number): number {
    const index = this.walls.findIndex((w) => (w.a === a && w.b === b) || (w.a === b && w.b === a));
    const wall = this.walls[index]!;
    const mid = this.node(lerp(this.nodes[a]!, this.nodes[b]!, t));
    this.walls.splice(index, 1);
    this.wall(a, mid, wall.thickness);
    this.wall(mid, b, this.perEdge ? this.thickness() : wall.thickness);
    for (const cell of this.cells) {
      for (let i = 0; i < cell.length; i++) {
        const here = cell[i]!;
        const next = cell[(i + 1) % cell.length]!;
        if ((here === a && next === b) || (here === b && next === a)) {
          cell.splice(i + 1, 0, mid);
          break;
        }
      }
    }
    return mid;
  }

  building(ring: readonly Vec[], depth: number): void {
    const cell = ring.map((at) => this.node(at));
    for (const [i, a] of cell.entries()) this.wall(a, cell[(i + 1) % cell.length]!);
    const mine = [cell];
    this.cells.push(cell);
    if (depth === 0) this.traits.buildings++;
    const cuts = Math.floor(between(this.rng, 0, depth === 0 ? 5 : 2.5));
    for (let i = 0; i < cuts; i++) {
      mine.sort((p, q) => shoelace(this.ring(q)) - shoelace(this.ring(p)));
      const fresh = this.cut(mine[0]!);
      if (fresh === null) continue;
      this.traits.cuts++;
      mine.splice(0, 1, ...fresh);
    }
    for (const inner of mine) this.furnish(inner, depth);
  }

  private cut(cell: number[]): [number[], number[]] | null {
    const { rng } = this;
    // Now and then a corner sharp enough that its faces cross beyond 4 half thicknesses (29°).
    const least = chance(rng, 0.2) ? 18 : 35;
    for (let attempt = 0; attempt < 12; attempt++) {
      const edges = cell
        .map((a, i) => ({ a, b: cell[(i + 1) % cell.length]! }))
        .filter(({ a, b }) => dist(this.nodes[a]!, this.nodes[b]!) > 2400);
      if (edges.length < 2) return null;
      const one = pick(rng, edges);
      const two = pick(rng, edges);
      if (one === two) continue;
      const t1 = between(rng, 0.3, 0.7);
      const t2 = between(rng, 0.3, 0.7);
      const p = lerp(this.nodes[one.a]!, this.nodes[one.b]!, t1);
      const q = lerp(this.nodes[two.a]!, this.nodes[two.b]!, t2);
      const dir = sub(q, p);
      const steep = (edge: { a: number; b: number }): boolean => {
        const angle = Math.abs(turnDeg(dir, sub(this.nodes[edge.b]!, this.nodes[edge.a]!)));
        return angle > least && angle < 180 - least;
      };
      if (!steep(one) || !steep(two) || dist(p, q) < 2000) continue;
      const m1 = this.split(one.a, one.b, t1);
      const m2 = this.split(two.a, two.b, t2);
      this.wall(m1, m2);
      const i1 = cell.indexOf(m1);
      const i2 = cell.indexOf(m2);
      const from = Math.min(i1, i2);
      const to = Math.max(i1, i2);
      const left = cell.slice(from, to + 1);
      const right = [...cell.slice(to), ...cell.slice(0, from + 1)];
      this.cells.splice(this.cells.indexOf(cell), 1, left, right);
      return [left, right];
    }
    return null;
  }

  /** Puts a spur, a free wall or an island into a convex cell, well clear of its walls. */
  private furnish(cell: number[], depth: number): void {
    const { rng } = this;
    const ring = this.ring(cell);
    const middle = centroid(ring);
    const reach = Math.min(
      ...ring.map((a, i) => {
        const along = unit(sub(ring[(i + 1) % ring.length]!, a));
        return Math.abs(dot(sub(middle, a), [-along[1], along[0]]));
      }),
    );
    if (reach < 900) return;
    if (chance(rng, 0.4)) {
      const i = Math.floor(rng() * cell.length);
      const a = cell[i]!;
      const b = cell[(i + 1) % cell.length]!;
      const far = between(rng, 0.22, 0.38);
      const fromNode = chance(rng, 0.3) || dist(ring[i]!, this.nodes[b]!) < 2000;
      const base = fromNode ? a : this.split(a, b, between(rng, 0.25, 0.45));
      const tip = this.node(lerp(this.nodes[base]!, middle, far));
      this.wall(base, tip);
      this.traits.spurs++;
      if (!fromNode && chance(rng, 0.5)) {
        const other = lerp(this.nodes[base]!, this.nodes[b]!, between(rng, 0.4, 0.7));
        const bend = lerp(other, middle, far);
        if (dist(bend, this.nodes[tip]!) > 500) this.wall(tip, this.node(bend));
      }
    }
    if (reach < 1500) return;
    const kind = rng();
    if (kind < 0.25) {
      const angle = between(rng, 0, 2 * Math.PI);
      const arm = mul([Math.cos(angle), Math.sin(angle)], reach * between(rng, 0.15, 0.35));
      this.wall(this.node(add(middle, arm)), this.node(sub(middle, arm)));
      this.traits.freeWalls++;
    } else if (kind < 0.75) {
      const scale = between(rng, 0.38, 0.48);
      const turned = between(rng, -0.1, 0.1);
      const inner = ring.map((p): Vec => {
        const d = mul(sub(p, middle), scale);
        return add(middle, [
          d[0] * Math.cos(turned) - d[1] * Math.sin(turned),
          d[0] * Math.sin(turned) + d[1] * Math.cos(turned),
        ]);
      });
      const simple = inner.filter((p, i) => {
        const before = inner[(i + inner.length - 1) % inner.length]!;
        const after = inner[(i + 1) % inner.length]!;
        return Math.abs(turnDeg(sub(p, before), sub(after, p))) > 5;
      });
      if (simple.length < 3) return;
      this.traits.islands++;
      if (depth > 0) this.traits.nested++;
      this.building(simple, depth + 1);
    }
  }
}

/** Least distance between two segments, 0 where they cross. */
function apart(a: Vec, b: Vec, c: Vec, d: Vec): number {
  const side = (p: Vec, q: Vec, r: Vec): number => Math.sign(cross(sub(q, p), sub(r, p)));
  if (side(a, b, c) !== side(a, b, d) && side(c, d, a) !== side(c, d, b)) return 0;
  const toSegment = (p: Vec, q: Vec, r: Vec): number => {
    const t = Math.max(0, Math.min(1, dot(sub(p, q), sub(r, q)) / dot(sub(r, q), sub(r, q))));
    return dist(p, lerp(q, r, t));
  };
  return Math.min(toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b));
}

/** True where walls that share no node keep 300 mm apart, so that faces are as drawn and nothing crosses. */
export function isClear(level: FileLevel): boolean {
  const walls = Object.values(level.walls);
  const at = (id: string): Vec => level.nodes[id]!;
  return walls.every((p, i) =>
    walls.slice(i + 1).every((q) => {
      if (p.from === q.from || p.from === q.to || p.to === q.from || p.to === q.to) return true;
      return apart(at(p.from), at(p.to), at(q.from), at(q.to)) > 300;
    }),
  );
}

/** One random level; the traits say what it holds. */
export function randomHouse(rng: Rng): { plan: PlanJson; traits: HouseTraits } {
  for (;;) {
    const house = drawHouse(rng);
    if (isClear(house.plan.levels[0]!)) return house;
  }
}

function drawHouse(rng: Rng): { plan: PlanJson; traits: HouseTraits } {
  const sketch = new Sketch(rng, chance(rng, 0.4));
  const buildings = chance(rng, 0.3) ? 2 + Math.floor(rng() * 2) : 1;
  for (let i = 0; i < buildings; i++) {
    const width = between(rng, 4000, 24000);
    const depth = between(rng, 4000, 18000);
    const skew = (): number => between(rng, 0, 0.15);
    const ring: Vec[] = [
      [width * skew(), depth * skew()],
      [width * (1 - skew()), depth * skew()],
      [width * (1 - skew()), depth * (1 - skew())],
      [width * skew(), depth * (1 - skew())],
    ];
    sketch.building(
      chance(rng, 0.5)
        ? ring.map((p): Vec => [p[0] + i * 30000, p[1]])
        : [
            [i * 30000, 0],
            [i * 30000 + width, 0],
            [i * 30000 + width, depth],
            [i * 30000, depth],
          ],
      0,
    );
  }
  const level: FileLevel = emptyLevel();
  const angle = chance(rng, 0.2) ? 0 : between(rng, 0, 2 * Math.PI);
  const shift: Vec = [between(rng, -50000, 50000), between(rng, -50000, 50000)];
  sketch.nodes.forEach(([x, y], i) => {
    level.nodes[`n${i + 1}`] = [
      tick(x * Math.cos(angle) - y * Math.sin(angle) + shift[0]),
      tick(x * Math.sin(angle) + y * Math.cos(angle) + shift[1]),
    ];
  });
  sketch.walls.forEach(({ a, b, thickness }, i) => {
    level.walls[`w${i + 1}`] = { from: `n${a + 1}`, to: `n${b + 1}`, thickness };
  });
  return { plan: planOf('random house', [level]), traits: sketch.traits };
}
