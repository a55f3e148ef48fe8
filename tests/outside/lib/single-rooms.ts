// Seeded random single rooms of up to 12 corners for the board checks: shapes, wall thickness, openings, built-ins,
// profiles, entry, measured angles and lengths, choices of the user. Drawn by centre lines, mm.

import { type RefCorner, type RefLoop, type RefSegment, refLevel } from './faces.ts';
import { emptyLevel, type FileLevel, type PlanJson, planOf, tick, type Vec } from './file.ts';
import { between, chance, isClear, pick, type Rng } from './houses.ts';
import { add, dist, dot, mul, shoelace, sub, turnDeg, unit } from './plane.ts';

export interface RoomOptions {
  /** Measured angles and lengths. */
  measured: boolean;
  /** Allowance of unmeasured drywall corners, degrees. */
  buildUpDeg: number;
}

function star(rng: Rng): Vec[] {
  const n = 3 + Math.floor(rng() * 8);
  const base = between(rng, 2200, 5000);
  const turns = Array.from({ length: n }, (_, i) => ((i + between(rng, -0.3, 0.3)) / n) * 2 * Math.PI);
  return turns.map((a): Vec => {
    const r = base * between(rng, 0.6, 1.3);
    return [r * Math.cos(a), r * Math.sin(a)];
  });
}

/** Columns of random width with a stepped top and, for few columns, a stepped bottom. */
function rectilinear(rng: Rng): Vec[] {
  const both = chance(rng, 0.4);
  const m = 1 + Math.floor(rng() * (both ? 3 : 5));
  const small = chance(rng, 0.25);
  const step = (): number => between(rng, small ? 420 : 900, 2600);
  const widths = Array.from({ length: m }, step);
  const steps = (): number[] => {
    const list = [0];
    for (let i = 1; i < m; i++) list.push(list[i - 1]! + step() * (chance(rng, 0.5) ? 1 : -1));
    return list;
  };
  const top = steps();
  const low = both ? steps() : top.map(() => 0);
  const room = Math.max(...top) + between(rng, 1500, 4500) - Math.min(...low);
  const ring: Vec[] = [];
  let x = 0;
  const upper: Vec[] = [];
  const lower: Vec[] = [];
  widths.forEach((width, i) => {
    upper.push([x, top[i]!], [x + width, top[i]!]);
    lower.push([x, low[i]! + room], [x + width, low[i]! + room]);
    x += width;
  });
  ring.push(...upper, ...lower.reverse());
  return ring.filter((p, i) => {
    const before = ring[(i + ring.length - 1) % ring.length]!;
    const after = ring[(i + 1) % ring.length]!;
    return dist(p, before) > 1e-6 && Math.abs(turnDeg(sub(p, before), sub(after, p))) > 1e-6;
  });
}

/** Some right corners cut off at 45°, as bays and chimney breasts have them. */
function clipped(rng: Rng, ring: readonly Vec[]): Vec[] {
  let left = 12 - ring.length;
  return ring.flatMap((p, i): Vec[] => {
    const before = sub(ring[(i + ring.length - 1) % ring.length]!, p);
    const after = sub(ring[(i + 1) % ring.length]!, p);
    const most = Math.min(Math.hypot(...before), Math.hypot(...after)) * 0.4;
    if (left === 0 || most < 500 || !chance(rng, 0.4)) return [p];
    left--;
    const cut = between(rng, 350, most);
    return [add(p, mul(unit(before), cut)), add(p, mul(unit(after), cut))];
  });
}

function shape(rng: Rng): Vec[] {
  const kind = rng();
  let ring = kind < 0.2 ? star(rng) : rectilinear(rng);
  if (kind > 0.7) ring = clipped(rng, ring);
  const jitter = chance(rng, 0.5) ? between(rng, 0, 90) : 0;
  ring = ring.map((p): Vec => [p[0] + between(rng, -jitter, jitter), p[1] + between(rng, -jitter, jitter)]);
  const angle = chance(rng, 0.3) ? 0 : between(rng, 0, 2 * Math.PI);
  const shift: Vec = [between(rng, -9000, 9000), between(rng, -9000, 9000)];
  return ring.map(
    ([x, y]): Vec => [
      tick(x * Math.cos(angle) - y * Math.sin(angle) + shift[0]),
      tick(x * Math.sin(angle) + y * Math.cos(angle) + shift[1]),
    ],
  );
}

function walls(rng: Rng, level: FileLevel, ring: readonly Vec[], name: string): void {
  const clockwise = shoelace(ring) > 0 ? ring : [...ring].reverse();
  const same = chance(rng, 0.5);
  const one = pick(rng, [90, 114.3, 139.7]);
  clockwise.forEach((p, i) => {
    level.nodes[`${name}n${i}`] = p;
    const ends = [`${name}n${i}`, `${name}n${(i + 1) % clockwise.length}`] as const;
    const [from, to] = chance(rng, 0.5) ? ends : [ends[1], ends[0]];
    level.walls[`${name}w${i}`] = { from, to, thickness: same ? one : pick(rng, [90, 114.3, 139.7, 200]) };
    if (chance(rng, 0.1)) level.walls[`${name}w${i}`]!.faces = { left: 'masonry', right: 'plaster' };
  });
}

const CASING_WIDTH = 69.85;
const CASING_THICKNESS = 17.4625;
const REVEAL = 4.7625;

interface Span {
  from: number;
  to: number;
}

/** Where on its centre line something from s to s + width on a face begins, counted from the wall's first node. */
function onCentreLine(level: FileLevel, segment: RefSegment, s: number, width: number): number {
  const part = segment.parts[0]!;
  const wall = level.walls[part.wall]!;
  const a = level.nodes[wall.from]!;
  const dir = unit(sub(level.nodes[wall.to]!, a));
  const left = dot(sub(add(segment.start, mul(segment.along, s)), a), dir);
  return tick(part.side === 'right' ? left : left - width);
}

function wallLength(level: FileLevel, id: string): number {
  const wall = level.walls[id]!;
  return dist(level.nodes[wall.from]!, level.nodes[wall.to]!);
}

/** Fills a face with openings and built-ins; one corner at most gets a casing close by. Returns what it made. */
function fill(
  rng: Rng,
  level: FileLevel,
  segment: RefSegment,
  crowded: Set<string>,
  ends: [string, string],
): void {
  const spans: Span[] = [];
  const part = segment.parts[0]!;
  const wide = CASING_WIDTH + REVEAL;
  const count = segment.length > 5000 ? 2 : 1;
  for (let i = 0; i < count; i++) {
    if (!chance(rng, 0.45)) continue;
    const width = tick(pick(rng, [610, 762, 812.8, 914.4]));
    if (chance(rng, 0.15)) {
      const from = between(rng, 250, segment.length - width - 250);
      if (from < 250 || clash(spans, from - 60, from + width + 60)) continue;
      spans.push({ from, to: from + width });
      const id = `b${Object.keys(level.builtIns).length}${part.wall}`;
      level.builtIns[id] = {
        wall: part.wall,
        side: part.side,
        at: onCentreLine(level, segment, from, width),
        width,
        bottom: 0,
        top: 900,
        kind: 'cabinet',
        ends: pick(rng, ['square', 'scribe', 'return'] as const),
      };
      continue;
    }
    const cased = chance(rng, 0.75);
    const margin = cased ? wide : 0;
    if (segment.length < width + 2 * margin + 400) continue;
    let from = between(rng, 200 + margin, segment.length - width - margin - 200);
    const near = rng();
    const gap = chance(rng, 0.35) ? between(rng, 2, 30) : between(rng, 30, 200);
    const [leftKey, rightKey] = ends;
    let crowd = '';
    if (cased && near < 0.25 && !crowded.has(leftKey)) {
      from = gap + wide;
      crowd = leftKey;
    } else if (cased && near > 0.75 && !crowded.has(rightKey)) {
      from = segment.length - gap - wide - width;
      crowd = rightKey;
    }
    const at = onCentreLine(level, segment, from, width);
    if (from < margin || from + width + margin > segment.length) continue;
    if (at < 0 || at + width > wallLength(level, part.wall)) continue;
    if (clash(spans, from - margin - 60, from + width + margin + 60)) continue;
    if (crowd !== '') crowded.add(crowd);
    spans.push({ from: from - margin, to: from + width + margin });
    const id = `o${Object.keys(level.openings).length}${part.wall}`;
    level.openings[id] = {
      wall: part.wall,
      at,
      width,
      height: 2032,
      sill: 0,
      kind: cased ? pick(rng, ['door', 'cased', 'window']) : 'passage',
      reveal: REVEAL,
      casing: cased ? { left: 'case-a', right: 'case-a' } : { left: null, right: null },
    };
  }
}

function clash(spans: readonly Span[], from: number, to: number): boolean {
  return spans.some((span) => from < span.to && to > span.from);
}

const stock = (length: number): { length: number; price: number }[] => [{ length, price: 10 }];

function profiles(plan: PlanJson, rng: Rng): string {
  const form = chance(rng, 0.7) ? 'shaped' : 'flat';
  const length = chance(rng, 0.45) ? pick(rng, [1830, 2438.4, 3048]) : 14000;
  const base = { kind: 'base', height: 139.7, form, material: 'pine', stock: stock(length) } as const;
  plan.profiles['base-a'] = { ...base, name: 'Base', thickness: pick(rng, [12.7, 14.2875, 19.05]) };
  plan.profiles['base-b'] = { ...base, name: 'Thin base', thickness: 9.525 };
  plan.profiles['base-c'] = { ...base, name: 'Tall base', height: 184.15, thickness: 15.875, form: 'shaped' };
  plan.profiles['case-a'] = {
    kind: 'casing',
    name: 'Casing',
    width: CASING_WIDTH,
    thickness: CASING_THICKNESS,
    form: 'flat',
    material: 'pine',
    stock: [],
  };
  return 'base-a';
}

/** An inside corner at which a cope or a butt can be cut. */
const moderate = (corner: RefCorner): boolean =>
  corner.kind === 'inside' && corner.includedDeg > 60 && corner.includedDeg < 130;

/** Choices of the user at corners; never where a casing stands close by. */
function choices(
  rng: Rng,
  level: FileLevel,
  loop: RefLoop,
  crowded: ReadonlySet<string>,
  often: number,
): void {
  for (const corner of loop.corners) {
    if (!chance(rng, often) || crowded.has(corner.key)) continue;
    const joint = moderate(corner)
      ? pick(rng, ['cope', 'cope', 'butt', 'mitre', 'block'])
      : pick(rng, ['mitre', 'mitre', 'block']);
    const line: { joint: string; coped?: 'before' | 'after' } = { joint };
    if ((joint === 'cope' || joint === 'butt') && chance(rng, 0.75)) {
      line.coped = chance(rng, 0.5) ? 'before' : 'after';
    }
    level.corners[corner.key] = { lines: { base: line } };
  }
}

/** One random room with base in it. */
export function randomRoom(rng: Rng, options: RoomOptions): PlanJson {
  for (;;) {
    const level = emptyLevel();
    const ring = shape(rng);
    if (ring.length > 12) continue;
    walls(rng, level, ring, '');
    const alone = refLevel(level);
    const room = alone.rooms[0];
    if (!isClear(level) || alone.rooms.length !== 1 || room === undefined) continue;
    const outer = room.loops[0]!;
    const tidy = (loop: RefLoop): boolean =>
      !loop.dropped &&
      !loop.crosses &&
      loop.segments.every((s) => s.length > 120) &&
      loop.corners.every((c) => c.includedDeg > 25);
    if (!tidy(outer) || room.loops.length !== 1) continue;
    return furnish(rng, options, level, outer);
  }
}

function furnish(rng: Rng, options: RoomOptions, level: FileLevel, outer: RefLoop): PlanJson {
  const plan = planOf('random room', [level]);
  plan.settings.buildUpDeg = options.buildUpDeg;
  // Large enough now and then that boards too short to be coped meet.
  if (chance(rng, 0.15)) plan.settings.copeMin = pick(rng, [600, 1200, 2000]);
  const base = profiles(plan, rng);
  const n = outer.segments.length;
  const crowded = new Set<string>();
  const shut = chance(rng, 0.4);
  if (!shut) {
    outer.segments.forEach((segment, i) => {
      fill(rng, level, segment, crowded, [outer.corners[(i + n - 1) % n]!.key, outer.corners[i]!.key]);
    });
  }
  // An entry that stops no base: its sill stands above it. So a ring can stay closed and still have an entry.
  const high = outer.segments.findIndex((segment) => segment.length > 1600);
  if (shut && high >= 0 && chance(rng, 0.5)) {
    const segment = outer.segments[high]!;
    const width = 762;
    const at = onCentreLine(level, segment, between(rng, 300, segment.length - width - 300), width);
    if (at >= 0 && at + width <= wallLength(level, segment.parts[0]!.wall)) {
      level.openings.high = {
        wall: segment.parts[0]!.wall,
        at,
        width,
        height: 1600,
        sill: 450,
        kind: 'cased',
        casing: { left: null, right: null },
      };
    }
  }
  const holes = Object.keys(level.openings);
  level.rooms.r1 = {
    name: 'Room',
    at: interiorPoint(outer),
    entry: holes.length > 0 && chance(rng, 0.7) ? pick(rng, holes) : null,
    trim: { base },
    new: { floor: 0, gap: 0 },
  };
  const mixed = chance(rng, 0.35);
  const bare = chance(rng, 0.12);
  for (const segment of outer.segments) {
    if (mixed && chance(rng, 0.35)) {
      level.faces[segment.key] = { trim: { base: chance(rng, 0.85) ? 'base-b' : 'base-c' } };
    } else if (bare && chance(rng, 0.25)) level.faces[segment.key] = { trim: { base: null } };
  }
  choices(rng, level, outer, crowded, mixed ? 0.5 : chance(rng, 0.4) ? 0.5 : 0);
  // A user who copes every corner the same way round makes a circle.
  if (shut && !mixed && outer.corners.every(moderate) && chance(rng, 0.4)) {
    const coped = pick(rng, ['before', 'after'] as const);
    for (const corner of outer.corners)
      level.corners[corner.key] = { lines: { base: { joint: 'cope', coped } } };
  }
  if (options.measured) measure(rng, level, outer);
  return plan;
}

function measure(rng: Rng, level: FileLevel, outer: RefLoop): void {
  for (const corner of outer.corners) {
    if (!chance(rng, 0.2)) continue;
    const measured = Math.round((corner.includedDeg + between(rng, -3, 3)) * 10) / 10;
    level.corners[corner.key] = { ...level.corners[corner.key], measured: Math.min(179, measured) };
  }
  const busy = new Set([
    ...Object.values(level.openings).map((o) => o.wall),
    ...Object.values(level.builtIns).map((b) => b.wall),
  ]);
  for (const segment of outer.segments) {
    if (busy.has(segment.parts[0]!.wall) || !chance(rng, 0.25)) continue;
    level.faces[segment.key] = {
      ...level.faces[segment.key],
      measured: tick(segment.length + between(rng, -9, 9)),
    };
  }
}

/** A point on the floor: off the middle of the longest face, towards the room. */
function interiorPoint(loop: RefLoop): Vec {
  const longest = loop.segments.reduce((a, b) => (b.length > a.length ? b : a));
  const p = add(add(longest.start, mul(longest.along, longest.length / 2)), mul(longest.inward, 100));
  return [tick(p[0]), tick(p[1])];
}
