// Boards of seeded random rooms against a second reading that imports nothing from core: which joint, which board is worked
// (by trying every choice), the order of putting up, lengths, settings and long points from the printed table of offsets.

import { describe, expect, it } from 'vitest';
import { cases, LONG, random } from '../seeds.ts';
import {
  entryOf,
  mitreTan,
  type RefBoards,
  type RefJoint,
  type RefStretch,
  refBoards,
  type Settings,
  settingsOf,
} from './lib/boards.ts';
import {
  bestChoice,
  type Chosen,
  endsOf,
  type Link,
  precedence,
  type RefRun,
  refRuns,
  type Worked,
} from './lib/choice.ts';
import { type RefRoom, refLevel } from './lib/faces.ts';
import type { PlanJson } from './lib/file.ts';
import { randomRoom } from './lib/single-rooms.ts';
import { type ReportPiece, reportOf } from './product.ts';

const FIRST_SEED = 20_000;
const ROOMS = cases(500);
const DEG = 180 / Math.PI;

interface Case {
  seed: number;
  plan: PlanJson;
  ref: RefRoom;
  boards: RefBoards;
  settings: Settings;
  runs: RefRun[];
  chosen: Chosen[];
  report: ReturnType<typeof reportOf>;
  /** The product's boards by `segment|stretch|part`, parts counted from the left. */
  pieces: Map<string, ReportPiece>;
}

let silent = 0;

function build(seed: number): Case | null {
  const rng = random(seed);
  const measured = rng() < 0.6;
  const plan = randomRoom(rng, { measured, buildUpDeg: rng() < 0.7 ? 1.5 : 0 });
  const level = plan.levels[0]!;
  const record = level.rooms.r1!;
  const ref = refLevel(level).rooms[0]!;
  const boards = refBoards(plan, level, record, ref);
  const settings = settingsOf(plan);
  if (boards.open.length > 0) {
    silent++;
    return null;
  }
  const report = reportOf(plan);
  const pieces = new Map<string, ReportPiece>();
  for (const piece of report.pieces) {
    if (piece.line !== 'base' || piece.returnOf !== null) continue;
    for (let part = 0; ; part++) {
      const key = `${piece.segment}|${piece.stretch}|${part}`;
      if (pieces.has(key)) continue;
      pieces.set(key, piece);
      break;
    }
  }
  const partsOf = (stretch: RefStretch): number => {
    const key = keyOf(ref, stretch);
    let parts = 0;
    while (pieces.has(`${key}|${parts}`)) parts++;
    return Math.max(1, parts);
  };
  const runs = refRuns(ref, boards, settings, entryOf(level, record, ref), partsOf);
  const chosen = runs.map((run) => {
    const best = bestChoice(run, settings);
    if (best === null) throw new Error(`seed ${seed}: no choice is possible for a run`);
    return best;
  });
  return { seed, plan, ref, boards, settings, runs, chosen, report, pieces };
}

const keyOf = (ref: RefRoom, s: RefStretch): string =>
  `${ref.loops[s.loop]!.segments[s.segment]!.key}|${s.key}`;

const all: Case[] = [];
for (let seed = FIRST_SEED; all.length < ROOMS; seed++) {
  const made = build(seed);
  if (made !== null) all.push(made);
}

const boardKey = (c: Case, run: RefRun, i: number): string => {
  const board = run.boards[i]!;
  return `${keyOf(c.ref, board.stretch)}|${board.part}`;
};

function pieceOf(c: Case, run: RefRun, i: number): ReportPiece {
  const piece = c.pieces.get(boardKey(c, run, i));
  if (piece === undefined) throw new Error(`seed ${c.seed}: no board at ${boardKey(c, run, i)}`);
  return piece;
}

const cornerOf = (c: Case, joint: RefJoint) =>
  c.report.rooms[0]!.loops[joint.loop]!.corners.find(
    (x) => x.key === c.ref.loops[joint.loop]!.corners[joint.corner]!.key,
  )!;

describe('boards of random rooms against a second reading', () => {
  it('stretches and runs are the same', () => {
    for (const c of all) {
      const say = `seed ${c.seed}`;
      expect(c.report.rooms.length, say).toBe(1);
      const stretches = new Set([...c.pieces.values()].map((piece) => `${piece.segment}|${piece.stretch}`));
      expect([...stretches].sort(), say).toEqual(c.boards.stretches.map((s) => keyOf(c.ref, s)).sort());
      const ids = new Map([...c.pieces].map(([key, piece]) => [piece.id, key]));
      const ours = c.report.rooms[0]!.runs.filter((run) => run.line === 'base').map((run) => ({
        closed: run.closed,
        boards: run.pieces.flatMap((id) => (ids.has(id) ? [ids.get(id)!] : [])),
      }));
      const theirs = c.runs.map((run) => ({
        closed: run.closed,
        boards: run.boards.map((_, i) => boardKey(c, run, i)),
      }));
      // A ring starts at the loop's first corner, with the segment that leaves it.
      for (const run of ours.filter((run) => run.closed)) {
        const segments = c.ref.loops[0]!.segments;
        expect(run.boards[0], say).toMatch(new RegExp(`^${segments[1 % segments.length]!.key}\\|`));
      }
      // Here rings are turned to one start, so that only their order counts.
      const rolled = (list: string[]): string[] => {
        const first = list.indexOf([...list].sort()[0]!);
        return [...list.slice(first), ...list.slice(0, first)];
      };
      const names = (runs: typeof ours): string[] =>
        runs.map((run) => `${run.closed} ${(run.closed ? rolled(run.boards) : run.boards).join(' ')}`).sort();
      expect(names(ours), say).toEqual(names(theirs));
    }
  });

  it('a stretch longer than the stock is in the fewest equal parts, no other stretch is parted', () => {
    let parted = 0;
    for (const c of all) {
      for (const run of c.runs) {
        for (const board of run.boards) {
          if (board.part > 0) continue;
          const { L, profile, t } = board.stretch;
          const longest = Math.max(...c.plan.profiles[profile]!.stock.map((s) => s.length));
          // What the ends add and what the saw and the board's ends take is known to within 8 thicknesses and 20 mm.
          const fewest = Math.ceil(L / longest);
          const most = Math.ceil((L + 8 * t) / (longest - 8 * t - 20));
          expect(board.parts, `seed ${c.seed} ${keyOf(c.ref, board.stretch)}`).toBeGreaterThanOrEqual(
            fewest - (L - longest < 8 * t ? 1 : 0),
          );
          expect(board.parts, `seed ${c.seed} ${keyOf(c.ref, board.stretch)}`).toBeLessThanOrEqual(most);
          if (board.parts > 1) parted++;
        }
      }
    }
    expect(parted).toBeGreaterThan(0);
  });

  it('the worked board of every corner is the best of all choices, and the order of putting up is possible', () => {
    const seen = {
      runs: 0,
      tried: 0,
      closed: 0,
      closedWithEntry: 0,
      mitres: 0,
      noEntry: 0,
      user: 0,
      scarfs: 0,
      mixed: 0,
      stubs: 0,
      circles: 0,
      copeShort: 0,
      copes: 0,
      butts: 0,
      inSight: 0,
    };
    for (const c of all) {
      const entry = c.plan.levels[0]!.rooms.r1!.entry ?? null;
      seen.stubs += c.boards.joints.filter((j) => j.stub !== null || j.noStub !== null).length;
      c.runs.forEach((run, r) => {
        const chosen = c.chosen[r]!;
        seen.runs++;
        seen.tried += chosen.tried;
        const decided = run.links.filter((link) => link.kind === 'decide');
        if (run.closed) seen.closed++;
        if (run.closed && entry !== null) seen.closedWithEntry++;
        if (decided.length > 0 && run.links.some((link) => link.kind === 'mitre')) seen.mitres++;
        if (decided.length > 0 && entry === null) seen.noEntry++;
        if (run.links.some((link) => link.kind !== 'scarf' && !link.joint.byRule)) seen.user++;
        if (run.links.some((link) => link.kind === 'scarf')) seen.scarfs++;
        if (run.links.some((link) => link.kind !== 'scarf' && link.joint.before!.t !== link.joint.after!.t))
          seen.mixed++;
        if (decided.some((link) => link.cost.before !== link.cost.after)) seen.inSight++;
        if (chosen.circle) seen.circles++;
        const wanted = run.links.map((link, i) => describeLink(c, link, chosen.worked[i] ?? null));
        const got = run.links.map((link, i) => describeProduct(c, run, link, i));
        expect(got, `seed ${c.seed}, run ${r}`).toEqual(wanted);
        for (const worked of chosen.worked) if (worked === 'mitre') seen.copeShort++;
        for (const link of decided) seen[link.joint.joint === 'butt' ? 'butts' : 'copes']++;
        for (const [first, later] of precedence(run, chosen.worked)) {
          if (chosen.circle) continue;
          const say = `seed ${c.seed}: ${boardKey(c, run, first)} before ${boardKey(c, run, later)}`;
          expect(pieceOf(c, run, first).order, say).toBeLessThan(pieceOf(c, run, later).order);
        }
      });
      const circles = c.report.findings.filter((finding) => finding.code === 'order-circle').length;
      expect(circles > 0, `seed ${c.seed}: order-circle`).toBe(c.chosen.some((chosen) => chosen.circle));
    }
    console.log(
      `worked boards: ${all.length} rooms from seed ${FIRST_SEED}, ${silent} left out where the rules are silent;`,
      seen,
    );
    const least = LONG ? 50 : 3;
    for (const key of ['closed', 'mitres', 'noEntry', 'user', 'scarfs', 'mixed'] as const) {
      expect(seen[key], key).toBeGreaterThanOrEqual(least);
    }
  });

  it('back, face and overall lengths, ends, settings and long points are those of the table', () => {
    let boards = 0;
    for (const c of all) {
      c.runs.forEach((run, r) => {
        const ends = endsOf(run, c.chosen[r]!.worked, c.settings);
        run.boards.forEach((board, i) => {
          const piece = pieceOf(c, run, i);
          const { left, right } = ends[i]!;
          const say = `seed ${c.seed}, ${boardKey(c, run, i)}, ${left.end}..${right.end}`;
          expect(`${piece.left.end}..${piece.right.end}`, say).toBe(`${left.end}..${right.end}`);
          // Equal parts may fall on whole ticks.
          const near = board.parts > 1 ? 1 / 160 : 2e-3;
          expect(Math.abs(piece.backMm - (board.L + left.back + right.back)), `${say} back`).toBeLessThan(
            near,
          );
          expect(Math.abs(piece.faceMm - (board.L + left.face + right.face)), `${say} face`).toBeLessThan(
            near,
          );
          const overall = board.L + Math.max(left.back, left.face) + Math.max(right.back, right.face);
          expect(Math.abs(piece.overallMm - overall), `${say} overall`).toBeLessThan(near);
          expect(piece.lengthFrom, say).toBe(board.stretch.measured ? 'measured' : 'drawn');
          for (const side of ['left', 'right'] as const) {
            const end = side === 'left' ? left : right;
            const gap = end.back - end.face;
            const long = Math.abs(gap) < 1e-3 ? null : gap > 0 ? 'back' : 'face';
            if (long !== null) expect(piece[side].longPoint, `${say} ${side}`).toBe(long);
            const saw = settingAt(c, run, i, side, c.chosen[r]!.worked);
            if (saw !== null) expect(piece[side].sawDeg, `${say} ${side}`).toBeCloseTo(saw, 3);
          }
          boards++;
        });
      });
    }
    console.log(`lengths: ${boards} boards`);
  });

  it('a board over 4 ft with a cope or butt whose other end is square or coped is cut 1/32 in long, no other', () => {
    let sprung = 0;
    for (const c of all) {
      for (const piece of c.pieces.values()) {
        const kinds = [piece.left.end, piece.right.end];
        const fits = kinds.some((kind, i) => {
          const other = kinds[1 - i]!;
          return (kind === 'cope' || kind === 'butt') && (other === 'square' || other === 'cope');
        });
        // 'Over 4 ft' leaves open which of its lengths: between the shortest and the longest nothing is claimed.
        const lengths = [piece.backMm, piece.faceMm, piece.overallMm];
        if (Math.min(...lengths) <= 1219.2 && Math.max(...lengths) >= 1219.2) continue;
        const long = Math.min(...lengths) > 1219.2;
        expect(piece.springMm, `seed ${c.seed} ${piece.id}`).toBe(fits && long ? 0.79375 : 0);
        if (piece.springMm > 0) sprung++;
      }
    }
    expect(sprung).toBeGreaterThan(0);
  });
});

function describeLink(c: Case, link: Link, worked: Worked | null): string {
  if (link.kind === 'scarf') return `scarf ${link.laps}`;
  const key = c.ref.loops[link.joint.loop]!.corners[link.joint.corner]!.key;
  if (link.kind === 'mitre' || worked === 'mitre') return `${key} mitre null`;
  return `${key} ${link.joint.joint} ${worked}`;
}

function describeProduct(c: Case, run: RefRun, link: Link, i: number): string {
  if (link.kind === 'scarf') {
    const left = pieceOf(c, run, i);
    const right = pieceOf(c, run, (i + 1) % run.boards.length);
    expect([left.right.lap, right.left.lap].sort(), `seed ${c.seed}`).toEqual(['laps', 'under']);
    return `scarf ${left.right.lap === 'laps' ? 'left' : 'right'}`;
  }
  const corner = cornerOf(c, link.joint);
  expect(corner.base, `seed ${c.seed} ${corner.key}`).not.toBeNull();
  expect(corner.base!.chosenBy, `seed ${c.seed} ${corner.key}`).toBe(link.joint.byRule ? 'rule' : 'user');
  return `${corner.key} ${corner.base!.joint} ${corner.base!.coped}`;
}

/** The setting of one end, degrees off square; null where the table leaves it to the stop. */
function settingAt(
  c: Case,
  run: RefRun,
  i: number,
  side: 'left' | 'right',
  worked: readonly (Worked | null)[],
): number | null {
  const n = run.boards.length;
  const board = run.boards[i]!;
  const index = side === 'right' ? i : (i + n - 1) % n;
  const fixed = side === 'left' ? board.left : board.right;
  if (fixed !== null) return fixed.end === 'return' ? 45 : fixed.face === fixed.back ? 0 : null;
  const link = run.links[index]!;
  if (link.kind === 'scarf') return c.settings.scarfDeg;
  const other = run.boards[side === 'right' ? (i + 1) % n : index]!;
  const { joint } = link;
  const mitre = Math.abs(Math.atan(mitreTan(board.t, other.t, joint.usedDeg))) * DEG;
  if (link.kind === 'mitre' || worked[index] === 'mitre') return mitre;
  const mine = side === 'right' ? 'before' : 'after';
  if (worked[index] === mine) return joint.joint === 'cope' ? mitre : Math.abs(90 - joint.plainDeg);
  return board.flat && joint.plainDeg > 95 ? joint.plainDeg - 90 : 0;
}
