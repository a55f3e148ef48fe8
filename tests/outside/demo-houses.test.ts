// The demo houses against the outside references: rooms by a polygon library, and the worked board of every corner of every
// run by trying all choices. Board lengths come from core here; the choice among them does not.

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Derived } from '../../core/report/index.ts';
import type { Piece, RoomTrim, Run } from '../../core/trim/types.ts';
import { entryOf, type RefJoint, type RefStretch, settingsOf } from './lib/boards.ts';
import {
  bestChoice,
  inSight,
  type Link,
  precedence,
  type RefBoard,
  type RefEnd,
  type RefRun,
} from './lib/choice.ts';
import type { RefCorner, RefRoom } from './lib/faces.ts';
import type { FileLevel, LineName, PlanJson, Vec } from './lib/file.ts';
import { dot } from './lib/plane.ts';
import { cutWalls, floors } from './lib/solids.ts';
import { derivedFrom } from './product.ts';

const FOLDER = new URL('../../demo-data/', import.meta.url);
const houses = readdirSync(FOLDER)
  .filter((name) => name.endsWith('.copewright.json'))
  .sort()
  .map((name) => {
    const text = readFileSync(new URL(name, FOLDER), 'utf8');
    const plan = JSON.parse(text) as PlanJson;
    for (const level of plan.levels) {
      level.openings ??= {};
      level.builtIns ??= {};
      level.rooms ??= {};
      level.corners ??= {};
      level.faces ??= {};
    }
    return { name, plan, derived: derivedFrom(text) };
  });

const mm = (ticks: number): number => ticks / 320;
const point = (p: readonly [number, number]): Vec => [mm(p[0]), mm(p[1])];

/** Core's room in the shape that the references read: places of corners, directions and walls of segments. */
function roomOf(trim: RoomTrim): RefRoom {
  return {
    area: 0,
    perimeter: 0,
    loops: trim.room.loops.map((loop) => ({
      area: 0,
      dropped: false,
      crosses: false,
      links: 0,
      ends: 0,
      segments: loop.segments.map((s) => ({
        key: s.key,
        parts: s.parts.map(({ wall, side }) => ({ wall, side })),
        start: point(s.start),
        end: point(s.end),
        along: s.along,
        inward: s.inward,
        length: mm(s.drawn),
      })),
      corners: loop.corners.map((c) => ({
        key: c.key,
        node: c.node,
        nodeAt: point(c.nodeAt),
        at: point(c.at),
        wallIn: c.wallIn,
        wallOut: c.wallOut,
        kind: c.kind,
        roomAngleDeg: c.roomAngleDeg,
        includedDeg: c.kind === 'inside' ? c.roomAngleDeg : 360 - c.roomAngleDeg,
      })),
    })),
  };
}

interface Setting {
  plan: PlanJson;
  level: FileLevel;
  line: LineName;
  room: RefRoom;
  entry: { middle: Vec; inward: Vec } | null;
  seen: (corner: RefCorner) => boolean;
}

function stretchOf(piece: Piece): RefStretch {
  const { stretch } = piece;
  const stop = (side: 'left' | 'right'): RefStretch['left'] => {
    const at = stretch[side];
    if (at.kind === 'corner') return { kind: 'corner' };
    if (at.kind === 'builtIn') return { kind: 'builtIn', id: at.id, ends: at.ends };
    return {
      kind: 'opening',
      id: at.opening.id,
      cased: at.against === 'casing',
      thickness: mm(at.thickness ?? 0),
    };
  };
  return {
    loop: piece.segment.loop,
    segment: piece.segment.index,
    key: stretch.key,
    from: mm(stretch.from),
    to: mm(stretch.to),
    L: mm(stretch.L),
    measured: stretch.measured !== null,
    profile: piece.profileId,
    t: mm(piece.profile.thickness),
    flat: piece.profile.form === 'flat',
    left: stop('left'),
    right: stop('right'),
  };
}

/** What should join two neighbouring boards, by the table; 'odd' where core has ended the run and the table would not. */
function linkOf(setting: Setting, before: Piece, after: Piece, stretches: [RefStretch, RefStretch]): Link {
  if (before.stretch === after.stretch) {
    const at = before.L * (before.part + 1) + before.stretch.from;
    const segment = setting.room.loops[before.segment.loop]!.segments[before.segment.index]!;
    const { entry } = setting;
    const from =
      entry === null
        ? null
        : dot([entry.middle[0] - segment.start[0], entry.middle[1] - segment.start[1]], segment.along);
    return { kind: 'scarf', laps: from !== null && from < mm(at) ? 'left' : 'right' };
  }
  const loop = setting.room.loops[before.segment.loop]!;
  const corner = loop.corners[before.segment.index]!;
  const record = setting.level.corners[corner.key];
  const plain = record?.measured ?? corner.includedDeg;
  const choice = record?.lines?.[setting.line];
  const square = corner.kind === 'inside' && plain >= 80 && plain <= 100;
  const ruled = !square ? 'mitre' : stretches[0].flat ? 'butt' : 'cope';
  const joint: RefJoint = {
    loop: before.segment.loop,
    corner: before.segment.index,
    before: stretches[0],
    after: stretches[1],
    joint: (choice?.joint as RefJoint['joint']) ?? ruled,
    byRule: choice?.joint === undefined,
    coped: choice?.joint === undefined ? null : (choice.coped ?? null),
    stub: null,
    noStub: null,
    faces: { before: 'drywall', after: 'drywall' },
    plainDeg: plain,
    usedDeg: plain,
  };
  if (joint.joint === 'mitre') return { kind: 'mitre', joint, corner };
  const { copeMin } = settingsOf(setting.plan);
  const short = (stop: RefStretch['left'], s: RefStretch): boolean =>
    joint.byRule && stop.kind === 'opening' && stop.cased && s.to - s.from < copeMin;
  const stubs = [short(stretches[0].left, stretches[0]), short(stretches[1].right, stretches[1])];
  let allowed: ('before' | 'after' | 'mitre')[] = joint.coped !== null ? [joint.coped] : ['after', 'before'];
  if (stubs[0] !== stubs[1]) allowed = [stubs[0] ? 'after' : 'before'];
  if (joint.joint === 'cope' && joint.byRule) allowed.push('mitre');
  const price = (through: RefStretch): number =>
    setting.entry !== null && setting.seen(corner)
      ? Math.abs(dot(setting.entry.inward, loop.segments[through.segment]!.along))
      : 0;
  return {
    kind: 'decide',
    joint,
    corner,
    allowed,
    cost: { before: price(stretches[1]), after: price(stretches[0]) },
  };
}

function runOf(setting: Setting, run: Run): RefRun {
  const n = run.pieces.length;
  const stretches = new Map(run.pieces.map((piece) => [piece.stretch, stretchOf(piece)]));
  const joined = (i: number): boolean => run.closed || i < n - 1;
  const boards = run.pieces.map((piece, i): RefBoard => {
    const fixed = (end: Piece['left']): RefEnd => ({
      end: end.end,
      back: mm(end.backOffset),
      face: mm(end.faceOffset),
    });
    const stretch = stretches.get(piece.stretch)!;
    return {
      stretch,
      part: piece.part,
      parts: piece.parts,
      L: mm(piece.L),
      t: stretch.t,
      flat: stretch.flat,
      left: run.closed || i > 0 ? null : fixed(piece.left),
      right: joined(i) ? null : fixed(piece.right),
    };
  });
  const links = run.pieces.flatMap((piece, i): Link[] => {
    if (!joined(i)) return [];
    const after = run.pieces[(i + 1) % n]!;
    return [linkOf(setting, piece, after, [stretches.get(piece.stretch)!, stretches.get(after.stretch)!])];
  });
  return { closed: run.closed, boards, links };
}

const named = (link: Link, worked: string | null): string =>
  link.kind === 'scarf'
    ? `scarf ${link.laps}`
    : `${link.corner.key} ${worked === null || worked === 'mitre' ? 'mitre' : `${link.joint.joint} ${worked}`}`;

function productNames(derived: Derived, run: Run, refRun: RefRun, line: LineName): string[] {
  return refRun.links.map((link, i) => {
    if (link.kind === 'scarf') return `scarf ${run.pieces[i]!.right.lap === 'laps' ? 'left' : 'right'}`;
    for (const level of derived.levels) {
      for (const trim of level.trims) {
        const joints = trim.lines.find((l) => l.line === line)?.joints.flat() ?? [];
        const joint = joints.find(
          (j) => j !== null && j.corner.key === link.corner.key && trim.room.id === run.pieces[i]!.room,
        );
        if (joint)
          return `${link.corner.key} ${joint.coped === null ? joint.joint : `${joint.joint} ${joint.coped}`}`;
      }
    }
    return `${link.corner.key} nothing`;
  });
}

describe('the demo houses against outside references', () => {
  it('there are two of them, and no plan needed mending', () => {
    expect(houses.length).toBeGreaterThanOrEqual(2);
    for (const { name, derived } of houses) {
      expect(
        derived.findings.filter((finding) => finding.code === 'mended'),
        name,
      ).toEqual([]);
    }
  });

  it('rooms and areas are those that a polygon library leaves between the walls (jsts 2.12.1)', () => {
    let rooms = 0;
    for (const { name, plan, derived } of houses) {
      for (const level of plan.levels) {
        const theirs = floors(cutWalls(level))
          .filter((floor) => floor.outerArea >= 250_000)
          .sort((p, q) => p.area - q.area);
        const ours = derived.report.rooms
          .filter((room) => room.level === level.id)
          .sort((p, q) => p.areaMm2 - q.areaMm2);
        expect(ours.length, `${name} ${level.id}`).toBe(theirs.length);
        ours.forEach((room, i) => {
          expect(Math.abs(room.areaMm2 - theirs[i]!.area), `${name} ${room.name}`).toBeLessThan(
            theirs[i]!.perimeter / 320,
          );
          expect(Math.abs(room.perimeterMm - theirs[i]!.perimeter), `${name} ${room.name}`).toBeLessThan(
            0.02,
          );
          rooms++;
        });
      }
    }
    console.log(`demo houses: ${rooms} rooms`);
  });

  it('the worked board of every corner is the best of all choices, and the order of putting up is possible', () => {
    const count = { runs: 0, boards: 0, decided: 0, tried: 0, scarfs: 0, closed: 0 };
    for (const { name, plan, derived } of houses) {
      const settings = settingsOf(plan);
      derived.levels.forEach((walked, l) => {
        const level = plan.levels[l]!;
        for (const trim of walked.trims) {
          const room = roomOf(trim);
          const record = level.rooms[trim.room.id];
          const entry = record === undefined ? null : entryOf(level, record, room);
          for (const line of trim.lines) {
            if (line.line !== 'base' && line.line !== 'shoe') continue;
            const setting: Setting = {
              plan,
              level,
              line: line.line,
              room,
              entry,
              seen: inSight(room, entry),
            };
            for (const run of line.runs) {
              const say = `${name}, ${trim.room.name}, ${line.line}, run of ${run.pieces.map((piece) => piece.id).join(' ')}`;
              const ref = runOf(setting, run);
              const best = bestChoice(ref, settings);
              expect(best, say).not.toBeNull();
              const wanted = ref.links.map((link, i) => named(link, best!.worked[i] ?? null));
              expect(productNames(derived, run, ref, line.line), say).toEqual(wanted);
              expect(run.circle, say).toBe(best!.circle);
              for (const [first, later] of precedence(ref, best!.worked)) {
                if (!best!.circle)
                  expect(run.pieces[first]!.order, say).toBeLessThan(run.pieces[later]!.order);
              }
              count.runs++;
              count.boards += run.pieces.length;
              count.tried += best!.tried;
              count.decided += ref.links.filter((link) => link.kind === 'decide').length;
              count.scarfs += ref.links.filter((link) => link.kind === 'scarf').length;
              if (run.closed) count.closed++;
            }
          }
        }
      });
    }
    console.log('demo houses: worked boards', count);
    expect(count.decided).toBeGreaterThan(0);
  });
});
