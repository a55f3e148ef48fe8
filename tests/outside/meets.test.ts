// Where boards meet in space. Every board of seeded random rooms is laid on its wall by crossing lines in the plane, written
// apart from core: the lengths and settings of the report must be those of the boards so laid, and nothing may overlap.
// Build-up is set to 0 and nothing is measured, so that the walls stand as the settings take them to.

import { describe, expect, it } from 'vitest';
import { cases, random } from '../seeds.ts';
import { entryOf, type RefStretch, refBoards, settingsOf } from './lib/boards.ts';
import { type Link, type RefBoard, type RefRun, refRuns } from './lib/choice.ts';
import { type RefLoop, type RefRoom, refLevel } from './lib/faces.ts';
import type { Vec } from './lib/file.ts';
import { cross, dist, dot, len, sub, unit } from './lib/plane.ts';
import { randomRoom } from './lib/single-rooms.ts';
import { buffer, overlay, polygon } from './lib/solids.ts';
import { type EndPoints, endInCorner, faceLine, moved, squareAt } from './lib/space.ts';
import { type ReportPiece, reportOf } from './product.ts';

const FIRST_SEED = 40_000;
const ROOMS = cases(500);
const RAD = Math.PI / 180;

interface Laid {
  piece: ReportPiece;
  board: RefBoard;
  loop: RefLoop;
  left: EndPoints;
  right: EndPoints;
}

interface LaidRun {
  run: RefRun;
  boards: Laid[];
  worked: ('before' | 'after' | 'mitre' | null)[];
}

interface LaidRoom {
  seed: number;
  ref: RefRoom;
  runs: LaidRun[];
}

const along = (loop: RefLoop, s: RefStretch, from: Vec, to: Vec): number =>
  dot(sub(to, from), loop.segments[s.segment]!.along);

function lay(seed: number): LaidRoom | null {
  const rng = random(seed);
  const plan = randomRoom(rng, { measured: false, buildUpDeg: 0 });
  const level = plan.levels[0]!;
  const record = level.rooms.r1!;
  const ref = refLevel(level).rooms[0]!;
  const boards = refBoards(plan, level, record, ref);
  const settings = settingsOf(plan);
  if (boards.open.length > 0) return null;
  const report = reportOf(plan);
  const found = (s: RefStretch): ReportPiece[] =>
    report.pieces.filter(
      (piece) =>
        piece.line === 'base' &&
        piece.returnOf === null &&
        piece.segment === ref.loops[s.loop]!.segments[s.segment]!.key &&
        piece.stretch === s.key,
    );
  const runs = refRuns(ref, boards, settings, entryOf(level, record, ref), (s) =>
    Math.max(1, found(s).length),
  );
  const corners = report.rooms[0]!.loops.flatMap((loop) => loop.corners);

  return {
    seed,
    ref,
    runs: runs.map((run): LaidRun => {
      const worked = run.links.map((link) => {
        if (link.kind === 'scarf') return null;
        const { joint, coped } = corners.find((corner) => corner.key === link.corner.key)!.base!;
        return joint === 'mitre' ? 'mitre' : coped;
      });
      const n = run.boards.length;
      const end = (i: number, side: 'left' | 'right'): EndPoints => {
        const board = run.boards[i]!;
        const { stretch } = board;
        const loop = ref.loops[stretch.loop]!;
        const index = side === 'right' ? i : (i + n - 1) % n;
        const fixed = board[side];
        const edge = side === 'left' ? stretch.from : stretch.to;
        if (fixed !== null) {
          const stop = squareAt(loop, stretch, edge);
          if (
            stretch[side].kind !== 'corner' ||
            fixed.end === 'block' ||
            fixed.end === 'return' ||
            fixed.end === 'scribe'
          ) {
            const sign = side === 'right' ? 1 : -1;
            return moved(loop, stretch, stop, sign * fixed.back, sign * fixed.face);
          }
          const n2 = loop.corners.length;
          const corner = side === 'right' ? stretch.segment : (stretch.segment + n2 - 1) % n2;
          const joint = boards.joints.find((j) => j.loop === stretch.loop && j.corner === corner)!;
          if (joint.noStub !== null) {
            const casing = level.openings[joint.noStub.opening]!;
            expect(casing).toBeDefined();
            return endInCorner(loop, stretch, side, 'casing', plan.profiles['case-a']!.thickness, false);
          }
          const toWall = board.flat && joint.plainDeg > 95;
          return endInCorner(loop, stretch, side, 'alone', 0, toWall);
        }
        const link = run.links[index]!;
        if (link.kind === 'scarf') {
          const at =
            stretch.from + (stretch.L * (side === 'right' ? board.part + 1 : board.part)) / board.parts;
          const reach = board.t * Math.tan(settings.scarfDeg * RAD);
          // The lapping piece's back is cut back from the joint, the lower one's runs as far past it: both backs meet.
          return moved(loop, stretch, squareAt(loop, stretch, at), link.laps === 'left' ? -reach : reach, 0);
        }
        const other = run.boards[side === 'right' ? (i + 1) % n : index]!;
        const choice = worked[index]!;
        if (choice === 'mitre') return endInCorner(loop, stretch, side, 'mitre', other.t, false);
        if (choice === (side === 'right' ? 'before' : 'after')) {
          const kind = link.joint.joint === 'butt' ? 'butt' : 'cope';
          return endInCorner(loop, stretch, side, kind, other.t, false);
        }
        return endInCorner(loop, stretch, side, 'through', 0, board.flat && link.joint.plainDeg > 95);
      };
      const laid = run.boards.map((board, i): Laid => {
        const piece = found(board.stretch)[board.part]!;
        const loop = ref.loops[board.stretch.loop]!;
        return { piece, board, loop, left: end(i, 'left'), right: end(i, 'right') };
      });
      return { run, boards: laid, worked };
    }),
  };
}

const rooms: LaidRoom[] = [];
for (let seed = FIRST_SEED; rooms.length < ROOMS; seed++) {
  const laid = lay(seed);
  if (laid !== null) rooms.push(laid);
}

function everyBoard(visit: (laid: Laid, say: string) => void): number {
  let count = 0;
  for (const room of rooms) {
    for (const run of room.runs) {
      for (const laid of run.boards) {
        visit(
          laid,
          `seed ${room.seed}, board ${laid.piece.id} (${laid.piece.left.end}..${laid.piece.right.end})`,
        );
        count++;
      }
    }
  }
  return count;
}

/** Every joint in a corner: the boards before and after it and what is done. */
function everyJoint(
  visit: (
    link: Exclude<Link, { kind: 'scarf' }>,
    before: Laid,
    after: Laid,
    choice: string,
    say: string,
  ) => void,
): void {
  for (const room of rooms) {
    for (const { run, boards, worked } of room.runs) {
      run.links.forEach((link, i) => {
        if (link.kind === 'scarf') return;
        const after = boards[(i + 1) % boards.length]!;
        visit(link, boards[i]!, after, worked[i]!, `seed ${room.seed}, corner ${link.corner.key}`);
      });
    }
  }
}

describe('boards laid in the plane', () => {
  it('back and face are as long as from one laid end to the other', () => {
    const boards = everyBoard(({ piece, board, loop, left, right }, say) => {
      // Parts of a stretch may fall on whole ticks.
      const near = board.parts > 1 ? 1 / 160 : 1e-3;
      expect(
        Math.abs(piece.backMm - along(loop, board.stretch, left.back, right.back)),
        `${say} back`,
      ).toBeLessThan(near);
      expect(
        Math.abs(piece.faceMm - along(loop, board.stretch, left.face, right.face)),
        `${say} face`,
      ).toBeLessThan(near);
    });
    console.log(`meets: ${rooms.length} rooms from seed ${FIRST_SEED}, ${boards} boards`);
  });

  it('the cut from back to face stands off square by the setting, its long point where the report says', () => {
    everyBoard(({ piece, board, loop, left, right }, say) => {
      for (const [side, end] of [
        ['left', left],
        ['right', right],
      ] as const) {
        const cut = along(loop, board.stretch, end.back, end.face) * (side === 'right' ? 1 : -1);
        expect(Math.abs(Math.atan(cut / board.t) / RAD), `${say} ${side}`).toBeCloseTo(piece[side].sawDeg, 3);
        if (Math.abs(cut) > 1e-3)
          expect(piece[side].longPoint, `${say} ${side}`).toBe(cut > 0 ? 'face' : 'back');
      }
    });
  });

  it('a mitre: both long points and both short points coincide; a cope or butt: the face end lies on the neighbour’s face', () => {
    const seen = { mitre: 0, unequal: 0, cope: 0, butt: 0, through: 0 };
    everyJoint((link, before, after, choice, say) => {
      if (choice === 'mitre') {
        expect(dist(before.right.face, after.left.face), say).toBeLessThan(1e-6);
        expect(dist(before.right.back, after.left.back), say).toBeLessThan(1e-6);
        // Placed by the report's lengths from their far ends the short points still coincide.
        const fromLeft = before.left.face;
        const u = before.loop.segments[before.board.stretch.segment]!.along;
        const reached: Vec = [
          fromLeft[0] + u[0] * before.piece.faceMm,
          fromLeft[1] + u[1] * before.piece.faceMm,
        ];
        const slack = before.board.parts > 1 ? 1 / 160 : 1e-3;
        expect(dist(reached, after.left.face), say).toBeLessThan(slack);
        seen[before.board.t === after.board.t ? 'mitre' : 'unequal']++;
        return;
      }
      const [cut, whole] = choice === 'before' ? [before, after] : [after, before];
      const end = choice === 'before' ? cut.right : cut.left;
      const { loop, board } = whole;
      const face = faceLine(loop, board.stretch.segment, board.t);
      expect(Math.abs(cross(face.dir, sub(end.face, face.at))), say).toBeLessThan(1e-6);
      seen[link.joint.joint === 'butt' ? 'butt' : 'cope']++;
      // And on that board itself, not beyond its end. (A cope forced into a wide corner may miss a board that ends square.)
      if (link.joint.plainDeg > 100) return;
      const reach = along(loop, board.stretch, whole.left.face, end.face);
      expect(reach, say).toBeGreaterThan(-1e-3);
      expect(reach, say).toBeLessThan(whole.piece.faceMm + 1e-2);
      seen.through++;
    });
    console.log('meets: joints', seen);
    for (const [kind, count] of Object.entries(seen)) expect(count, kind).toBeGreaterThan(0);
  });

  it('no board overlaps its neighbour or the walls (jsts 2.12.1 overlay); behind a cope’s face nothing is left to overlap', () => {
    const outline = (laid: Laid, worked: { left: boolean; right: boolean }, other: Laid | null): Vec[] => {
      const { left, right, loop, board } = laid;
      const backs = { left: left.back, right: right.back };
      for (const side of ['left', 'right'] as const) {
        if (!worked[side] || other === null) continue;
        // Undercut: the coped end's back goes no further than the neighbour's face.
        const face = faceLine(other.loop, other.board.stretch.segment, other.board.t);
        const wall = faceLine(loop, board.stretch.segment, 0);
        const t = cross(sub(face.at, wall.at), face.dir) / cross(wall.dir, face.dir);
        backs[side] = [wall.at[0] + wall.dir[0] * t, wall.at[1] + wall.dir[1] * t];
      }
      return [backs.left, backs.right, right.face, left.face];
    };
    // A hundredth of a millimetre off all round, so that edges that lie on each other do not confuse the library.
    const thin = (ring: Vec[]) => buffer(polygon(ring), -0.01);
    const none = { left: false, right: false };
    let pairs = 0;
    everyJoint((link, before, after, choice, say) => {
      const tight =
        Math.min(before.piece.backMm, before.piece.faceMm, after.piece.backMm, after.piece.faceMm) < 30;
      if (tight || before === after) return;
      const a = outline(
        before,
        { left: false, right: choice === 'before' && link.joint.joint === 'cope' },
        after,
      );
      const b = outline(
        after,
        { left: choice === 'after' && link.joint.joint === 'cope', right: false },
        before,
      );
      expect(overlay(thin(a), polygon(b), 'intersection').getArea(), say).toBeLessThan(1e-2);
      pairs++;
    });
    for (const room of rooms) {
      const floor = buffer(polygon(room.ref.loops[0]!.corners.map((corner) => corner.at)), 0.01);
      for (const run of room.runs) {
        for (const laid of run.boards) {
          const ends = [laid.piece.left.end, laid.piece.right.end];
          // A scribed end is left long on purpose; a board shorter than its cuts has no outline.
          if (ends.includes('scribe') || Math.min(laid.piece.backMm, laid.piece.faceMm) < 1) continue;
          const out = overlay(polygon(outline(laid, none, null)), floor, 'difference').getArea();
          expect(out, `seed ${room.seed}, board ${laid.piece.id}`).toBeLessThan(1e-2);
        }
      }
    }
    console.log(`meets: ${pairs} pairs of neighbours laid without overlap`);
  });

  it('the lines the boards are laid along are the faces: unit length, a quarter turn from into the room', () => {
    for (const room of rooms) {
      for (const segment of room.ref.loops.flatMap((loop) => loop.segments)) {
        expect(len(segment.along)).toBeCloseTo(1, 12);
        expect(dot(segment.along, segment.inward)).toBeCloseTo(0, 12);
        expect(cross(unit(segment.along), segment.inward)).toBeCloseTo(1, 12);
      }
    }
  });
});
