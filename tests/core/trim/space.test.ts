// Boards of random rooms laid out in space: where two meet, their faces must. The geometry here is written apart from
// core: each board is a strip between its wall line and a line t off it, cut where its back and face lengths end.

import { expect, test } from 'vitest';
import { trimRoom } from '../../../core/trim/index.ts';
import type { JointAt, Piece } from '../../../core/trim/types.ts';
import { walkLevel } from '../../../core/walk/index.ts';
import type { Room, Segment } from '../../../core/walk/types.ts';
import { cases, random } from '../../seeds.ts';
import { type Fields, housePlan, PROFILES } from './houses.ts';

type P = readonly [number, number];
const plus = (a: P, b: P, s: number): P => [a[0] + b[0] * s, a[1] + b[1] * s];
const dot = (a: P, b: P): number => a[0] * b[0] + a[1] * b[1];
const gap = (a: P, b: P): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
/** Right of the walk, on a sheet whose y runs down: the floor side. */
const right = (a: P): P => [-a[1], a[0]];

function cross(p: P, u: P, q: P, v: P): P {
  const det = u[0] * v[1] - u[1] * v[0];
  const s = ((q[0] - p[0]) * v[1] - (q[1] - p[1]) * v[0]) / det;
  return plus(p, u, s);
}

interface Strip {
  readonly along: P;
  readonly inward: P;
  /** Back and face points of the piece's left and right end. */
  readonly left: { readonly back: P; readonly face: P };
  readonly right: { readonly back: P; readonly face: P };
  /** A point of the line that its back lies on. */
  readonly on: P;
}

/** Lays a piece that fills its segment from corner to corner on a wall line that stands `off` (of each wall) out. */
function lay(piece: Piece, room: Room, off: (segment: Segment) => number): Strip {
  const loop = room.loops[piece.segment.loop]!;
  const count = loop.segments.length;
  const at = (k: number): { p: P; u: P } => {
    const { start, end } = loop.segments[(k + count) % count]!;
    const length = gap(start, end);
    const u: P = [(end[0] - start[0]) / length, (end[1] - start[1]) / length];
    return { p: plus(start, right(u), off(loop.segments[(k + count) % count]!)), u };
  };
  const here = at(piece.segment.index);
  const [before, after] = [at(piece.segment.index - 1), at(piece.segment.index + 1)];
  const start = cross(here.p, here.u, before.p, before.u);
  const end = cross(here.p, here.u, after.p, after.u);
  const inward = right(here.u);
  const t = piece.profile.thickness;
  expect(piece.L).toBeCloseTo(gap(start, end), 3);
  return {
    along: here.u,
    inward,
    on: here.p,
    left: {
      back: plus(start, here.u, -piece.left.backOffset),
      face: plus(plus(start, here.u, -piece.left.faceOffset), inward, t),
    },
    right: {
      back: plus(end, here.u, piece.right.backOffset),
      face: plus(plus(end, here.u, piece.right.faceOffset), inward, t),
    },
  };
}

function randomOutline(next: () => number): P[] {
  const count = 4 + Math.floor(next() * 7);
  const turns = Array.from({ length: count }, (_, i) => (i + 0.2 + next() * 0.6) / count);
  return turns.map((turn): P => {
    const r = 2500 + next() * 2500;
    return [Math.round(r * Math.cos(turn * 2 * Math.PI)), Math.round(r * Math.sin(turn * 2 * Math.PI))];
  });
}

const covered = { cope: 0, butt: 0, inside: 0, outside: 0, unequal: 0, shoe: 0 };

function checkJoint(
  joint: JointAt,
  before: Piece,
  after: Piece,
  room: Room,
  off: (s: Segment) => number,
): void {
  const [b, a] = [lay(before, room, off), lay(after, room, off)];
  const near = 0.01; // ticks
  if (joint.joint === 'mitre') {
    expect(gap(b.right.back, a.left.back)).toBeLessThan(near);
    expect(gap(b.right.face, a.left.face)).toBeLessThan(near);
    covered[joint.corner.kind]++;
    if (before.profileId !== after.profileId) covered.unequal++;
    return;
  }
  const [worked, workedEnd, through, throughEnd, t2] =
    joint.coped === 'after'
      ? [a, a.left, b, b.right, before.profile.thickness]
      : [b, b.right, a, a.left, after.profile.thickness];
  // The worked board's face ends on the other board's face.
  expect(Math.abs(dot(plus(workedEnd.face, through.on, -1), through.inward) - t2)).toBeLessThan(near);
  if (joint.joint === 'butt') {
    expect(Math.abs(dot(plus(workedEnd.back, through.on, -1), through.inward) - t2)).toBeLessThan(near);
    covered.butt++;
  } else covered.cope++;
  // The board that runs through touches the other wall with its nearer edge and does not enter it.
  const depths = [throughEnd.back, throughEnd.face].map((p) => dot(plus(p, worked.on, -1), worked.inward));
  expect(Math.abs(Math.min(...depths))).toBeLessThan(near);
}

test('[LN1–LN6, LN20] in random rooms the faces of boards that meet do meet', () => {
  const seed = 4242;
  const next = random(seed);
  const count = cases(600, 60);
  for (let i = 0; i < count; i++) {
    const outline = randomOutline(next);
    const square = next() < 0.5;
    const points: readonly P[] = square
      ? [
          [0, 0],
          [3000 + next() * 2000, next() * 300],
          [4000 + next() * 1000, 3000],
          [2000, 3000 - next() * 200],
          [2000 - next() * 200, 5000],
          [0, 5000],
        ]
      : outline;
    const form = next() < 0.5 ? 'flat' : 'shaped';
    const faces: Record<number, Fields> = {};
    const corners: Record<number, Fields> = {};
    // Now and then a thicker base on one wall, with forced mitres at both its ends.
    const thick = next() < 0.4 ? 1 + Math.floor(next() * points.length) : 0;
    if (thick > 0) {
      faces[thick] = { trim: { base: 'thick' } };
      for (const k of [thick, (thick % points.length) + 1])
        corners[k] = { lines: { base: { joint: 'mitre' } } };
    }
    const shoe = { ...(PROFILES.shoe as Fields), form };
    const plan = housePlan(points, {
      trim: { base: form, shoe: 'shoe' },
      profiles: { shoe },
      faces,
      corners,
    });
    const walk = walkLevel(plan, plan.levels[0]!);
    for (const room of walk.rooms) {
      const trim = trimRoom(plan, room, {});
      const thickness = (segment: Segment) => (segment.key === `w${thick}:right` ? 19.05 * 320 : 12.7 * 320);
      for (const line of trim.lines) {
        const off = line.line === 'shoe' ? thickness : () => 0;
        const pieces = line.runs.flatMap((run) => run.pieces);
        room.loops.forEach((loop, l) => {
          loop.corners.forEach((_, k) => {
            const joint = line.joints[l]![k];
            if (!joint || joint.joint === 'block') return;
            const on = (index: number) =>
              pieces.find(
                (piece) => piece.segment.loop === l && piece.segment.index === index % loop.segments.length,
              );
            if (line.line === 'shoe') covered.shoe++;
            checkJoint(joint, on(k)!, on(k + 1)!, room, off);
          });
        });
      }
    }
  }
  console.log(`boards in space: seed ${seed}, ${count} rooms, ${JSON.stringify(covered)}`);
  for (const [what, times] of Object.entries(covered)) expect(times, what).toBeGreaterThan(20);
});
