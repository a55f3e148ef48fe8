// A second reading of 'Which joint' and 'Lengths': stretches, joints and runs of base in a room, written apart from core.
// Lengths mm, along a segment from its left corner as seen facing the wall; angles degrees.

import type { RefCorner, RefLoop, RefRoom, RefSegment } from './faces.ts';
import type { FileLevel, FileRoom, PlanJson, Vec } from './file.ts';
import { add, dot, mul, sub, unit } from './plane.ts';

const RAD = Math.PI / 180;

export type Stop =
  | { kind: 'corner' }
  | { kind: 'opening'; id: string; cased: boolean; thickness: number }
  | { kind: 'builtIn'; id: string; ends: 'square' | 'scribe' | 'return' };

export interface RefStretch {
  loop: number;
  segment: number;
  key: string;
  from: number;
  to: number;
  L: number;
  measured: boolean;
  profile: string;
  t: number;
  flat: boolean;
  left: Stop;
  right: Stop;
}

/** What stands at a corner between two boards, or why they do not meet. */
export interface RefJoint {
  loop: number;
  corner: number;
  before: RefStretch | null;
  after: RefStretch | null;
  /** null: the boards do not meet (one of them is not there). */
  joint: 'cope' | 'butt' | 'mitre' | 'block' | null;
  byRule: boolean;
  /** The user's side. */
  coped: 'before' | 'after' | null;
  /** A stub that must run through, and the board on the other wall is worked into it. */
  stub: 'before' | 'after' | null;
  /** The board on the other wall ends square against the casing's face: no stub. */
  noStub: { side: 'before' | 'after'; opening: string; offset: number } | null;
  /** What the board before, or after, would end at where the other one is not there. */
  faces: { before: string; after: string };
  plainDeg: number;
  usedDeg: number;
}

export interface RefBoards {
  stretches: RefStretch[];
  joints: RefJoint[];
  /** Corners at which no rule of the page decides; the plans drawn here should have none. */
  open: string[];
}

export interface Settings {
  buildUpDeg: number;
  copeMin: number;
  blockSize: number;
  returnHold: number;
  scribeAllowance: number;
  scarfDeg: number;
}

export function settingsOf(plan: PlanJson): Settings {
  const of = (key: string, value: number): number => plan.settings[key] ?? value;
  return {
    buildUpDeg: of('buildUpDeg', 1.5),
    copeMin: of('copeMin', 152.4),
    blockSize: of('blockSize', 25.4),
    returnHold: of('returnHold', 0),
    scribeAllowance: of('scribeAllowance', 12.7),
    scarfDeg: of('scarfDeg', 30),
  };
}

interface Hole {
  from: number;
  to: number;
  stop: Stop;
}

/** What stops base on a segment, by its height band. */
function holes(
  plan: PlanJson,
  level: FileLevel,
  room: FileRoom,
  segment: RefSegment,
  height: number,
): Hole[] {
  const found: Hole[] = [];
  const low = (room.new?.floor ?? 0) + (room.new?.gap ?? 0);
  const high = low + height;
  const span = (wallId: string, at: number, width: number): [number, number] => {
    const wall = level.walls[wallId]!;
    const a = level.nodes[wall.from]!;
    const dir = unit(sub(level.nodes[wall.to]!, a));
    const ends = [at, at + width].map((d) => dot(sub(add(a, mul(dir, d)), segment.start), segment.along));
    return [Math.min(...ends), Math.max(...ends)];
  };
  for (const part of segment.parts) {
    for (const [id, opening] of Object.entries(level.openings)) {
      if (opening.wall !== part.wall || opening.sill >= high || opening.sill + opening.height <= low)
        continue;
      const [from, to] = span(part.wall, opening.at, opening.width);
      const casing = opening.casing?.[part.side] ?? null;
      const profile = casing === null ? null : plan.profiles[casing]!;
      const out = profile === null ? 0 : (opening.reveal ?? 0) + profile.width!;
      const stop: Stop = { kind: 'opening', id, cased: profile !== null, thickness: profile?.thickness ?? 0 };
      found.push({ from: from - out, to: to + out, stop });
    }
    for (const [id, builtIn] of Object.entries(level.builtIns)) {
      if (builtIn.wall !== part.wall || builtIn.side !== part.side) continue;
      if (builtIn.bottom >= high || builtIn.top <= low) continue;
      const [from, to] = span(part.wall, builtIn.at, builtIn.width);
      found.push({ from, to, stop: { kind: 'builtIn', id, ends: builtIn.ends } });
    }
  }
  return found.sort((p, q) => p.from - q.from);
}

const nameOf = (stop: Stop): string => (stop.kind === 'corner' ? 'corner' : stop.id);

function stretchesOf(
  plan: PlanJson,
  level: FileLevel,
  room: FileRoom,
  loop: RefLoop,
  loopIndex: number,
): RefStretch[] {
  return loop.segments.flatMap((segment, index) => {
    const face = level.faces[segment.key];
    const own = face?.trim?.base;
    const id = own === undefined ? room.trim?.base : own;
    if (id === null || id === undefined) return [];
    const profile = plan.profiles[id]!;
    const list: RefStretch[] = [];
    let from = 0;
    let left: Stop = { kind: 'corner' };
    const put = (to: number, right: Stop): void => {
      if (to - from < 1) return;
      const key = `${nameOf(left)}..${nameOf(right)}`;
      const whole = left.kind === 'corner' && right.kind === 'corner' ? face?.measured : undefined;
      const measured = face?.stretches?.[key] ?? whole;
      list.push({
        loop: loopIndex,
        segment: index,
        key,
        from,
        to,
        L: measured ?? to - from,
        measured: measured !== undefined,
        profile: id,
        t: profile.thickness,
        flat: profile.form === 'flat',
        left,
        right,
      });
    };
    for (const hole of holes(plan, level, room, segment, profile.height!)) {
      put(hole.from, hole.stop);
      from = hole.to;
      left = hole.stop;
    }
    put(segment.length, { kind: 'corner' });
    return list;
  });
}

function surface(level: FileLevel, segment: RefSegment, end: 'first' | 'last'): string {
  const part = end === 'first' ? segment.parts[0] : segment.parts[segment.parts.length - 1];
  if (part === undefined) return 'drywall';
  return level.walls[part.wall]!.faces?.[part.side] ?? 'drywall';
}

/** Included angle measured or drawn, and the one mitres and copes use. */
export function cornerAngles(
  level: FileLevel,
  loop: RefLoop,
  index: number,
  buildUpDeg: number,
): { plain: number; used: number } {
  const corner = loop.corners[index]!;
  const measured = level.corners[corner.key]?.measured;
  if (measured !== undefined) return { plain: measured, used: measured };
  const before = loop.segments[index]!;
  const after = loop.segments[(index + 1) % loop.segments.length]!;
  const plain = corner.includedDeg;
  const drywall =
    surface(level, before, 'last') === 'drywall' && surface(level, after, 'first') === 'drywall';
  if (!drywall) return { plain, used: plain };
  return { plain, used: Math.min(180, plain + (corner.kind === 'inside' ? buildUpDeg : -buildUpDeg)) };
}

const cot = (deg: number): number => Math.cos(deg * RAD) / Math.sin(deg * RAD);

/** Base in one room: where boards stand and what joins them. */
export function refBoards(plan: PlanJson, level: FileLevel, room: FileRoom, ref: RefRoom): RefBoards {
  const settings = settingsOf(plan);
  const stretches: RefStretch[] = [];
  const joints: RefJoint[] = [];
  const open: string[] = [];
  ref.loops.forEach((loop, loopIndex) => {
    const list = stretchesOf(plan, level, room, loop, loopIndex);
    const gone = new Set<RefStretch>();
    const n = loop.corners.length;
    loop.corners.forEach((corner, index) => {
      const next = (index + 1) % n;
      const before = list.find((s) => s.segment === index && s.right.kind === 'corner') ?? null;
      const after = list.find((s) => s.segment === next && s.left.kind === 'corner') ?? null;
      const { plain, used } = cornerAngles(level, loop, index, settings.buildUpDeg);
      const faces = {
        before: surface(level, loop.segments[next]!, 'first'),
        after: surface(level, loop.segments[index]!, 'last'),
      };
      const joint = jointAt(plan, level, corner, {
        faces,
        before,
        after,
        plain,
        used,
        settings,
        loopIndex,
        index,
      });
      if (joint === 'open') open.push(corner.key);
      else {
        joints.push(joint);
        if (joint.noStub !== null) gone.add(joint.noStub.side === 'before' ? after! : before!);
      }
    });
    stretches.push(...list.filter((s) => !gone.has(s)));
  });
  // Nothing is left of a board shorter than its blocks.
  for (const { joint, before, after, loop, corner } of joints) {
    const shortest = Math.min(before?.L ?? Infinity, after?.L ?? Infinity);
    if (joint === 'block' && shortest < 2 * settings.blockSize + 2)
      open.push(ref.loops[loop]!.corners[corner]!.key);
  }
  return { stretches, joints, open };
}

interface Meeting {
  faces: RefJoint['faces'];
  before: RefStretch | null;
  after: RefStretch | null;
  plain: number;
  used: number;
  settings: Settings;
  loopIndex: number;
  index: number;
}

function jointAt(plan: PlanJson, level: FileLevel, corner: RefCorner, m: Meeting): RefJoint | 'open' {
  const { before, after, plain, used, settings } = m;
  const base: RefJoint = {
    loop: m.loopIndex,
    corner: m.index,
    before,
    after,
    joint: null,
    byRule: true,
    coped: null,
    stub: null,
    noStub: null,
    faces: m.faces,
    plainDeg: plain,
    usedDeg: used,
  };
  if (before === null || after === null) return base;
  const square = corner.kind === 'inside' && plain >= 80 && plain <= 100;
  const choice = level.corners[corner.key]?.lines?.base;
  const gapOf = (stub: RefStretch, far: Stop): number | null =>
    far.kind === 'opening' && far.cased ? stub.to - stub.from : null;
  const reach = (stub: RefStretch, far: Stop, other: RefStretch): number => {
    const c = far.kind === 'opening' ? far.thickness : 0;
    return other.t / Math.sin(plain * RAD) + Math.max(stub.t, c) * Math.max(0, cot(plain));
  };
  if (square) {
    const gapBefore = gapOf(before, before.left);
    const gapAfter = gapOf(after, after.right);
    const noBefore = gapBefore !== null && gapBefore < reach(before, before.left, after);
    const noAfter = gapAfter !== null && gapAfter < reach(after, after.right, before);
    if ((noBefore || noAfter) && choice?.joint !== undefined) return 'open';
    if (noBefore && noAfter) return 'open';
    if (noBefore || noAfter) {
      const stop = noBefore ? before.left : after.right;
      const other = noBefore ? after : before;
      if (stop.kind !== 'opening') return 'open';
      const offset = -(stop.thickness / Math.sin(plain * RAD) + other.t * Math.max(0, cot(plain)));
      base.noStub = { side: noBefore ? 'after' : 'before', opening: stop.id, offset };
      return base;
    }
    if (choice?.joint === undefined) {
      const shortBefore = gapBefore !== null && gapBefore < settings.copeMin;
      const shortAfter = gapAfter !== null && gapAfter < settings.copeMin;
      if (shortBefore !== shortAfter) base.stub = shortBefore ? 'before' : 'after';
    }
  }
  if (choice?.joint === 'mitre') {
    // A mitre that would have to be cut back under itself: the page has no such end.
    if (mitreTan(before.t, after.t, used) <= 0 || mitreTan(after.t, before.t, used) <= 0) return 'open';
  }
  if (choice?.joint !== undefined) {
    base.joint = choice.joint as 'cope' | 'butt' | 'mitre' | 'block';
    base.byRule = false;
    base.coped = choice.coped ?? null;
    if (choice.joint === 'cope' || choice.joint === 'butt') {
      // Of unlike heights the taller runs through; what a user's taller cope would be, the page does not say.
      const higher = plan.profiles[before.profile]!.height! - plan.profiles[after.profile]!.height!;
      const lower = higher > 0 ? 'after' : 'before';
      if (higher !== 0 && base.coped !== null && base.coped !== lower) return 'open';
      if (higher !== 0) base.coped = lower;
    }
    return base;
  }
  const p = plan.profiles[before.profile]!;
  if (before.profile !== after.profile) base.joint = 'block';
  else if (!square) base.joint = 'mitre';
  else base.joint = p.form === 'flat' ? 'butt' : 'cope';
  return base;
}

/** Back and face offset of an end, outward positive. */
export interface Offsets {
  back: number;
  face: number;
}

const both = (offset: number): Offsets => ({ back: offset, face: offset });

export function throughEnd(t: number, flat: boolean, plainDeg: number): Offsets {
  if (flat && plainDeg > 95) return { back: 0, face: -t * cot(plainDeg) };
  return both(-Math.max(0, t * cot(plainDeg)));
}

export function copeEnd(t: number, other: number, usedDeg: number): Offsets {
  return { back: 0, face: -(other / Math.sin(usedDeg * RAD) + t * cot(usedDeg)) };
}

export function buttEnd(t: number, other: number, plainDeg: number): Offsets {
  const back = -other / Math.sin(plainDeg * RAD);
  return { back, face: back - t * cot(plainDeg) };
}

/** Unsigned setting of a mitre as its tangent; equal thickness gives tan((180 − α) / 2). */
export function mitreTan(t: number, other: number, usedDeg: number): number {
  return (other / t + Math.cos(usedDeg * RAD)) / Math.sin(usedDeg * RAD);
}

export function mitreEnd(t: number, other: number, usedDeg: number, kind: 'inside' | 'outside'): Offsets {
  return { back: 0, face: (kind === 'inside' ? -1 : 1) * t * mitreTan(t, other, usedDeg) };
}

/** An end that stands at no joint with another board. */
export function stopEnd(stop: Stop, t: number, settings: Settings): Offsets & { end: string } {
  const returned = { back: -(t + settings.returnHold), face: -settings.returnHold, end: 'return' };
  if (stop.kind === 'opening') return stop.cased ? { ...both(0), end: 'square' } : returned;
  if (stop.kind === 'builtIn') {
    if (stop.ends === 'return') return returned;
    if (stop.ends === 'scribe') return { ...both(settings.scribeAllowance), end: 'scribe' };
  }
  return { ...both(0), end: 'square' };
}

/** Where the entry stands in this room: the middle of its hole on the face, and the face's inward normal. */
export function entryOf(level: FileLevel, room: FileRoom, ref: RefRoom): { middle: Vec; inward: Vec } | null {
  const opening = room.entry ? level.openings[room.entry] : undefined;
  if (opening === undefined) return null;
  const wall = level.walls[opening.wall]!;
  const a = level.nodes[wall.from]!;
  const dir = unit(sub(level.nodes[wall.to]!, a));
  const middle = add(a, mul(dir, opening.at + opening.width / 2));
  for (const loop of ref.loops) {
    for (const segment of loop.segments) {
      if (!segment.parts.some((part) => part.wall === opening.wall)) continue;
      const s = dot(sub(middle, segment.start), segment.along);
      return { middle: add(segment.start, mul(segment.along, s)), inward: segment.inward };
    }
  }
  return null;
}
