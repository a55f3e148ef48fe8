// Which board is worked, by trying everything: every assignment of every run is priced by the aims of the domain page in
// their order and the best one kept. No dynamic programming, nothing from core. Lengths mm.

import {
  buttEnd,
  copeEnd,
  mitreEnd,
  type Offsets,
  type RefBoards,
  type RefJoint,
  type RefStretch,
  type Settings,
  stopEnd,
  throughEnd,
} from './boards.ts';
import type { RefCorner, RefRoom } from './faces.ts';
import type { Vec } from './file.ts';
import { dot, sub } from './plane.ts';
import { buffer, line, overlay, polygon } from './solids.ts';

export type Worked = 'before' | 'after' | 'mitre';

export interface RefEnd extends Offsets {
  end: string;
}

/** What joins two neighbouring boards of a run. */
export type Link =
  | { kind: 'scarf'; laps: 'left' | 'right' }
  | { kind: 'mitre'; joint: RefJoint; corner: RefCorner }
  | {
      kind: 'decide';
      joint: RefJoint;
      corner: RefCorner;
      allowed: Worked[];
      /** |e · a| where the board before, or after, is worked (the other runs through); 0 out of sight. */
      cost: { before: number; after: number };
    };

export interface RefBoard {
  stretch: RefStretch;
  part: number;
  parts: number;
  L: number;
  t: number;
  flat: boolean;
  left: RefEnd | null;
  right: RefEnd | null;
}

export interface RefRun {
  closed: boolean;
  boards: RefBoard[];
  /** links[i] joins boards[i] and the next one; a closed run has as many links as boards. */
  links: Link[];
}

/** Floor with islands as a geometry, grown by 0.01 mm so that a line along a face counts as on it. */
function floorOf(room: RefRoom): ReturnType<typeof polygon> {
  const rings = room.loops.map((loop) => polygon(loop.corners.map((corner) => corner.at)));
  const bare = rings.slice(1).reduce((floor, island) => overlay(floor, island, 'difference'), rings[0]!);
  return buffer(bare, 0.01);
}

export function inSight(
  room: RefRoom,
  entry: { middle: Vec; inward: Vec } | null,
): (corner: RefCorner) => boolean {
  if (entry === null) return () => false;
  const floor = floorOf(room);
  return (corner) => {
    if (dot(entry.inward, sub(corner.at, entry.middle)) <= 1) return false;
    return overlay(line(entry.middle, corner.at), floor, 'difference').getLength() <= 0.001;
  };
}

/** Runs of a room in walking order; `partsOf` says into how many boards a stretch is scarfed. */
export function refRuns(
  room: RefRoom,
  boards: RefBoards,
  settings: Settings,
  entry: { middle: Vec; inward: Vec } | null,
  partsOf: (stretch: RefStretch) => number,
): RefRun[] {
  const seen = inSight(room, entry);
  const meets = (joint: RefJoint): boolean => joint.joint !== null && joint.joint !== 'block';
  const at = (loop: number, corner: number): RefJoint =>
    boards.joints.find((joint) => joint.loop === loop && joint.corner === corner)!;
  const leftJoint = (s: RefStretch): RefJoint | null => {
    const n = room.loops[s.loop]!.corners.length;
    return s.left.kind === 'corner' ? at(s.loop, (s.segment + n - 1) % n) : null;
  };
  const rightJoint = (s: RefStretch): RefJoint | null =>
    s.right.kind === 'corner' ? at(s.loop, s.segment) : null;
  const cornerOf = (joint: RefJoint): RefCorner => room.loops[joint.loop]!.corners[joint.corner]!;

  const endAt = (s: RefStretch, joint: RefJoint | null, which: 'left' | 'right'): RefEnd | null => {
    if (joint === null) return stopEnd(s[which], s.t, settings);
    if (meets(joint)) return null;
    if (joint.joint === 'block')
      return { back: -settings.blockSize, face: -settings.blockSize, end: 'block' };
    const side = which === 'right' ? 'before' : 'after';
    if (joint.noStub !== null && joint.noStub.side === side) {
      return { back: joint.noStub.offset, face: joint.noStub.offset, end: 'square' };
    }
    if (cornerOf(joint).kind === 'inside' && joint.faces[side] === 'masonry') {
      return { back: settings.scribeAllowance, face: settings.scribeAllowance, end: 'scribe' };
    }
    if (cornerOf(joint).kind === 'inside')
      return { ...throughEnd(s.t, s.flat, joint.plainDeg), end: 'square' };
    return { back: -(s.t + settings.returnHold), face: -settings.returnHold, end: 'return' };
  };

  const split = (s: RefStretch): { boards: RefBoard[]; links: Link[] } => {
    const parts = partsOf(s);
    const segment = room.loops[s.loop]!.segments[s.segment]!;
    const seenFrom = entry === null ? null : dot(sub(entry.middle, segment.start), segment.along);
    const list: RefBoard[] = [];
    const links: Link[] = [];
    for (let part = 0; part < parts; part++) {
      list.push({
        stretch: s,
        part,
        parts,
        L: s.L / parts,
        t: s.t,
        flat: s.flat,
        left: part === 0 ? endAt(s, leftJoint(s), 'left') : null,
        right: part === parts - 1 ? endAt(s, rightJoint(s), 'right') : null,
      });
      if (part === parts - 1) continue;
      const joint = s.from + (s.L * (part + 1)) / parts;
      links.push({ kind: 'scarf', laps: seenFrom !== null && seenFrom < joint ? 'left' : 'right' });
    }
    return { boards: list, links };
  };

  const link = (joint: RefJoint): Link => {
    const corner = cornerOf(joint);
    if (joint.joint === 'mitre') return { kind: 'mitre', joint, corner };
    const allowed: Worked[] = joint.coped !== null ? [joint.coped] : ['after', 'before'];
    const forced =
      joint.stub === null ? allowed : [joint.stub === 'before' ? ('after' as const) : ('before' as const)];
    if (joint.joint === 'cope' && joint.byRule) forced.push('mitre');
    const sight = entry !== null && seen(corner);
    const loop = room.loops[joint.loop]!;
    const price = (through: RefStretch): number =>
      sight ? Math.abs(dot(entry.inward, loop.segments[through.segment]!.along)) : 0;
    return {
      kind: 'decide',
      joint,
      corner,
      allowed: forced,
      cost: { before: price(joint.after!), after: price(joint.before!) },
    };
  };

  const runs: RefRun[] = [];
  const used = new Set<RefStretch>();
  const walk = (first: RefStretch): void => {
    const run: RefRun = { closed: false, boards: [], links: [] };
    let s = first;
    for (;;) {
      used.add(s);
      const { boards: more, links } = split(s);
      run.boards.push(...more);
      run.links.push(...links);
      const joint = rightJoint(s);
      if (joint === null || !meets(joint)) break;
      run.links.push(link(joint));
      if (joint.after === first) {
        run.closed = true;
        break;
      }
      s = joint.after!;
    }
    runs.push(run);
  };
  for (const s of boards.stretches) {
    const joint = leftJoint(s);
    if (joint === null || !meets(joint)) walk(s);
  }
  // What is left are rings; they start with the loop's first segment.
  for (const s of boards.stretches) if (!used.has(s)) walk(s);
  return runs;
}

export interface Chosen {
  worked: (Worked | null)[];
  circle: boolean;
  /** Assignments tried. */
  tried: number;
}

interface Price {
  mitres: number;
  circle: number;
  bothEnds: number;
  seams: number;
  through: number;
}

/** Back and face of both ends of every board under one assignment. */
export function endsOf(
  run: RefRun,
  worked: readonly (Worked | null)[],
  settings: Settings,
): { left: RefEnd; right: RefEnd }[] {
  const n = run.boards.length;
  const ends = run.boards.map(({ left, right }) => ({ left, right }));
  run.links.forEach((link, i) => {
    const before = run.boards[i]!;
    const after = run.boards[(i + 1) % n]!;
    const pair = linkEnds(link, worked[i] ?? null, before, after, settings);
    ends[i]!.right = pair[0];
    ends[(i + 1) % n]!.left = pair[1];
  });
  return ends.map(({ left, right }) => ({ left: left!, right: right! }));
}

function linkEnds(
  link: Link,
  worked: Worked | null,
  before: RefBoard,
  after: RefBoard,
  settings: Settings,
): [RefEnd, RefEnd] {
  if (link.kind === 'scarf') {
    const run = before.t * Math.tan((settings.scarfDeg * Math.PI) / 180);
    const laps: RefEnd = { back: -run, face: 0, end: 'scarf' };
    const under: RefEnd = { back: run, face: 0, end: 'scarf' };
    return link.laps === 'left' ? [laps, under] : [under, laps];
  }
  const { joint, corner } = link;
  if (link.kind === 'mitre' || worked === 'mitre') {
    return [
      { ...mitreEnd(before.t, after.t, joint.usedDeg, corner.kind), end: 'mitre' },
      { ...mitreEnd(after.t, before.t, joint.usedDeg, corner.kind), end: 'mitre' },
    ];
  }
  const [piece, other] = worked === 'before' ? [before, after] : [after, before];
  const cut: RefEnd =
    joint.joint === 'cope'
      ? { ...copeEnd(piece.t, other.t, joint.usedDeg), end: 'cope' }
      : { ...buttEnd(piece.t, other.t, joint.plainDeg), end: 'butt' };
  const through: RefEnd = { ...throughEnd(other.t, other.flat, joint.plainDeg), end: 'square' };
  return worked === 'before' ? [cut, through] : [through, cut];
}

/** Must one thing go up before another that must go up before it? Edges from first to later. */
function hasCircle(n: number, edges: readonly (readonly [number, number])[]): boolean {
  const waiting = new Array<number>(n).fill(0);
  for (const [, later] of edges) waiting[later]!++;
  const free = waiting.flatMap((count, i) => (count === 0 ? [i] : []));
  let up = 0;
  for (let piece = free.pop(); piece !== undefined; piece = free.pop()) {
    up++;
    for (const [first, later] of edges) {
      if (first === piece && --waiting[later]! === 0) free.push(later);
    }
  }
  return up < n;
}

/** Pairs of board indices: the first goes up before the second. */
export function precedence(run: RefRun, worked: readonly (Worked | null)[]): [number, number][] {
  const n = run.boards.length;
  return run.links.flatMap((link, i): [number, number][] => {
    const before = i;
    const after = (i + 1) % n;
    if (link.kind === 'scarf') return [link.laps === 'left' ? [after, before] : [before, after]];
    if (link.kind === 'mitre' || worked[i] === 'mitre') return [];
    return [worked[i] === 'before' ? [after, before] : [before, after]];
  });
}

/** The best of all assignments of a run; null where none is possible. */
export function bestChoice(run: RefRun, settings: Settings): Chosen | null {
  const n = run.boards.length;
  const decisions = run.links.flatMap((link, i) => (link.kind === 'decide' ? [i] : []));
  // A board longer than this can never come out too short to be coped.
  const short = (board: RefBoard): boolean => board.L < settings.copeMin + 20 * board.t + 60;
  const domains = decisions.map((i) => {
    const link = run.links[i]!;
    if (link.kind !== 'decide') return [];
    return link.allowed.filter(
      (w) => w !== 'mitre' || (short(run.boards[i]!) && short(run.boards[(i + 1) % n]!)),
    );
  });
  // Corners are ranked in the loop's order, from its corner [0].
  const ranked = decisions
    .map((_, d) => d)
    .sort((p, q) => {
      if (!run.closed) return p - q;
      const corner = (d: number): number => {
        const link = run.links[decisions[d]!]!;
        return link.kind === 'decide' ? link.joint.corner : 0;
      };
      return corner(p) - corner(q);
    });
  let best: { price: Price; worked: (Worked | null)[]; rank: string } | null = null;
  let tried = 0;
  const worked: (Worked | null)[] = run.links.map(() => null);
  const visit = (depth: number): void => {
    if (depth < decisions.length) {
      for (const choice of domains[depth]!) {
        worked[decisions[depth]!] = choice;
        visit(depth + 1);
      }
      return;
    }
    tried++;
    const price = priceOf(run, worked, settings, best?.price ?? null);
    if (price === null) return;
    const order = { after: 0, before: 1, mitre: 2 };
    const rank = ranked.map((d) => order[worked[decisions[d]!]!]).join('');
    const against = best === null ? -1 : compare(price, best.price);
    if (against < 0 || (against === 0 && rank < best!.rank)) best = { price, worked: [...worked], rank };
  };
  visit(0);
  const found = best as { price: Price; worked: (Worked | null)[] } | null;
  return found === null ? null : { worked: found.worked, circle: found.price.circle === 1, tried };
}

function compare(a: Price, b: Price): number {
  if (a.mitres !== b.mitres) return a.mitres - b.mitres;
  if (a.circle !== b.circle) return a.circle - b.circle;
  if (a.bothEnds !== b.bothEnds) return a.bothEnds - b.bothEnds;
  if (Math.abs(a.seams - b.seams) > 1e-9) return a.seams - b.seams;
  return b.through - a.through;
}

/** null where the assignment is not allowed, or plainly worse than the best so far. */
function priceOf(
  run: RefRun,
  worked: readonly (Worked | null)[],
  settings: Settings,
  best: Price | null,
): Price | null {
  const n = run.boards.length;
  const price: Price = { mitres: 0, circle: 0, bothEnds: 0, seams: 0, through: 0 };
  for (const choice of worked) if (choice === 'mitre') price.mitres++;
  if (best !== null && price.mitres > best.mitres) return null;
  const ends = endsOf(run, worked, settings);
  const back = (i: number): number => run.boards[i]!.L + ends[i]!.left.back + ends[i]!.right.back;
  for (let i = 0; i < run.links.length; i++) {
    const link = run.links[i]!;
    if (link.kind !== 'decide') continue;
    const after = (i + 1) % n;
    const choice = worked[i]!;
    if (link.joint.joint === 'cope' && link.joint.byRule) {
      // Neither a cope nor the mitre that stands in for it takes anything off a board's back.
      if (choice === 'mitre' && (back(i) >= settings.copeMin || back(after) >= settings.copeMin)) return null;
      if (choice !== 'mitre' && back(choice === 'before' ? i : after) < settings.copeMin) return null;
    }
    if (choice === 'mitre') continue;
    price.seams += link.cost[choice];
    price.through += Math.round(run.boards[choice === 'before' ? after : i]!.L * 320);
  }
  price.circle = hasCircle(n, precedence(run, worked)) ? 1 : 0;
  for (const { left, right } of ends) if (left.end !== 'square' && right.end !== 'square') price.bothEnds++;
  return price;
}
