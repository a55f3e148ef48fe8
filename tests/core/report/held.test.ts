// Boards held in a plan, by its edits: what the report says of them, what loosens them, and that undo brings them back. The
// house is a demo house with short stock, so that long walls are joined.

import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { apply, type Edit, type SplitWall } from '../../../core/edit/index.ts';
import type { Finding, Solver } from '../../../core/fit/types.ts';
import {
  type HeldBoard,
  type HeldJoint,
  lookup,
  type Plan,
  type ProfileId,
  readPlan,
  writePlan,
} from '../../../core/plan/index.ts';
import { cutsOf, cutsToText, derive, plainCutsOf, type Solved, solve } from '../../../core/report/index.ts';
import { csvFiles } from '../../../core/sheets/index.ts';
import { heldBoardOf, type StockPlan } from '../../../core/stock/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';

const FOOT = 12 * 8128;
/** As little work as chooses joints for the boards. */
const LITTLE = 0.1;

let solver: Solver;
let free: Solved;
beforeAll(async () => {
  solver = await loadHighs();
  free = solvedOf(house(), LITTLE);
});

/** Quickly: what is held does not hang on how good the other boards are. */
const solvedOf = (plan: Plan, work = 0): Solved => solve(derive(plan), solver, { work });

function house(): Plan {
  const url = new URL('../../../demo-data/thimble-cottage.copewright.json', import.meta.url);
  const read = readPlan(readFileSync(url, 'utf8'));
  if (!read.ok) throw new Error(read.error.message);
  const profiles = Object.fromEntries(
    Object.entries(read.plan.profiles).map(([id, profile]) => [
      id,
      { ...profile, stock: [8, 10].map((feet) => ({ length: feet * FOOT, price: feet * 2 })) },
    ]),
  );
  return derive({ ...read.plan, profiles, stockOnHand: {} } as Plan).plan;
}

function done(plan: Plan, edit: Edit): { plan: Plan; undo: Edit } {
  const result = apply(plan, edit);
  if (!result.ok) throw new Error(result.message);
  return { plan: result.plan, undo: result.inverse };
}

type Board = StockPlan['boards'][number];
const ids = (board: Board): string[] => board.items.map(({ id }) => id);
const loose = ({ findings }: Solved): readonly Finding[] =>
  findings.filter(({ code }) => code === 'held-loose');

/** What the report says is held, by board. */
const heldPieces = ({ report }: Solved): readonly (readonly string[])[] =>
  report.stock.flatMap(({ boards }) => boards.filter(({ held }) => held).map(({ pieces }) => pieces));

/** The first board of a solved plan that `wanted` says, and the edit that holds it. */
function holdFirst(
  { stock, levels }: Solved,
  wanted: (board: Board) => boolean,
): { profile: ProfileId; board: Board; edit: Edit } {
  for (const { order, boards } of stock) {
    const board = boards.find(wanted);
    const profile = order.profileId;
    if (board !== undefined)
      return { profile, board, edit: { type: 'holdBoard', profile, board: heldBoardOf(levels, board) } };
  }
  throw new Error('no such board');
}

/** The joints of stretches that a piece of the board is a part of. */
function ownJoints({ levels }: Solved, board: Board): HeldJoint[] {
  const { joints = [], was = [] } = heldBoardOf(levels, board);
  const isPart = ({ corner, line, stretch }: HeldJoint): boolean =>
    was.some(({ of }) => of?.corner === corner && of.line === line && of.stretch === stretch);
  return joints.filter(isPart);
}

const isJoined =
  (solved: Solved) =>
  (board: Board): boolean =>
    ownJoints(solved, board).length > 0;

/** The pieces of a stretch that is joined, from the left. */
function partsOf({ levels }: Solved, { corner, line, stretch }: HeldJoint) {
  return levels
    .flatMap((level) => level.trims)
    .flatMap((trim) => trim.lines.flatMap((each) => each.runs.flatMap((run) => run.pieces)))
    .filter((piece) => piece.parts > 1 && piece.line === line && piece.stretch.key === stretch)
    .filter((piece) => piece.id.match(/\d+/)?.[0] === `${corner}`)
    .toSorted((a, b) => a.part - b.part);
}

const several = (board: Board): boolean =>
  board.items.length > 1 && board.items.every(({ id }) => /^\d/.test(id));

/** All pieces along the walls of base, none of them a part of a longer stretch, and all on boards. */
const wholePieces = ({ levels, report }: Solved) => {
  const cut = new Set(report.stock.flatMap(({ boards }) => boards.flatMap(({ pieces }) => pieces)));
  return levels
    .flatMap((level) => level.trims)
    .flatMap((trim) => trim.lines.flatMap((each) => each.runs.flatMap((run) => run.pieces)))
    .filter((piece) => piece.line === 'base' && piece.parts === 1 && cut.has(piece.id));
};

describe('a held board and the letters of its pieces', () => {
  /** A wall with two stretches of one piece each: the board of the second held, the first then measured so long that it is joined. */
  function lettersMoved(record: (board: HeldBoard) => HeldBoard) {
    const pieces = wholePieces(free);
    const second = pieces.find(
      (piece) =>
        piece.id.endsWith('B') &&
        pieces.some((each) => each.segment === piece.segment && each.id.endsWith('A')),
    )!;
    const first = pieces.find((each) => each.segment === second.segment && each.id.endsWith('A'))!;
    const { board: cut, profile } = holdFirst(free, (each) => ids(each).includes(second.id));
    const board = { ...cut, items: cut.items.filter(({ id }) => id === second.id) };
    const held = record(heldBoardOf(free.levels, board));
    const { plan } = done(free.plan, { type: 'holdBoard', profile, board: held });
    expect(heldPieces(solvedOf(plan))).toEqual([[second.id]]);
    const level = plan.levels[0]!.id;
    const set = { stretches: { [first.stretch.key]: 14 * FOOT } };
    const longer = done(plan, { type: 'setFace', level, face: first.segment.key, set });
    const now = solvedOf(longer.plan);
    const moved = wholePieces(now).find((piece) => piece.stretch.key === second.stretch.key)!;
    expect(now.report.pieces.find(({ id }) => id === second.id)!.segment).toBe(second.segment.key);
    expect(moved.id).not.toBe(second.id);
    return { board, profile, second, moved, now, longer };
  }

  it('[ST13] where a stretch beside it is joined and the letters move, the board is loosened and says what is called how now', () => {
    const { board, profile, second, moved, now, longer } = lettersMoved((each) => each);
    expect(heldPieces(now)).toEqual([]);
    expect(loose(now)).toHaveLength(1);
    expect(loose(now)[0]!.message).toContain(
      `can no longer be held: ${second.id} is another piece now, and what was ${second.id} is ${moved.id}`,
    );
    expect(loose(now)[0]!.about).toEqual([...ids(board), profile]);
    // Its record stays: undone, the same board is held again; let go of, nothing is said.
    const back = solvedOf(done(longer.plan, longer.undo).plan);
    expect([loose(back), heldPieces(back)]).toEqual([[], [ids(board)]]);
    const letGo = done(longer.plan, { type: 'letGoBoard', profile, piece: second.id }).plan;
    expect(loose(solvedOf(letGo))).toEqual([]);
  });

  it('[ST13] a record from a file that does not say what its pieces were goes by their names, as it did', () => {
    const { second, now } = lettersMoved(({ was: _, ...old }) => old);
    expect([loose(now), heldPieces(now)]).toEqual([[], [[second.id]]]);
  });

  it('[ST13] a piece that is measured anew is not the piece that was held, by more than 1/64 in', () => {
    const piece = wholePieces(free).find(({ id }) => /^\d+A$/.test(id))!;
    const { board, edit } = holdFirst(free, (each) => ids(each).includes(piece.id));
    const { plan } = done(free.plan, edit);
    const measured = (more: number): Solved => {
      const set = { stretches: { [piece.stretch.key]: Math.round(piece.stretch.L) + more } };
      const level = plan.levels[0]!.id;
      return solvedOf(done(plan, { type: 'setFace', level, face: piece.segment.key, set }).plan);
    };
    expect(heldPieces(measured(-100))).toEqual([ids(board)]);
    const now = measured(-8128 / 4);
    expect(heldPieces(now)).toEqual([]);
    expect(loose(now).map(({ message }) => message)).toEqual([
      expect.stringMatching(
        new RegExp(`no longer be held: ${piece.id} takes .+" and took .+" when it was held\\.$`),
      ),
    ]);
  });

  it('[ST13] a part of a longer wall whose record says no joints stays what equal parts make it', () => {
    const { board, profile } = holdFirst(free, isJoined(free));
    const { joints, was: _, ...record } = heldBoardOf(free.levels, board);
    const parts = (solved: Solved) => partsOf(solved, joints![0]!).map(({ id, L }) => [id, Math.round(L)]);
    const { plan } = done(free.plan, { type: 'holdBoard', profile, board: { ...record, length: 10 * FOOT } });
    const now = solvedOf(plan, LITTLE);
    const equal = derive(plan);
    expect(parts(now)).toEqual(parts({ ...now, levels: equal.levels }));
    expect(parts(now)).not.toEqual(parts(free));
    expect([loose(now), heldPieces(now)]).toEqual([[], [ids(board)]]);
  });

  it('[ST13] of one piece that takes too much the reason is in the singular', () => {
    const piece = wholePieces(free).find(({ id }) => /^\d+A$/.test(id))!;
    const { profileId: profile, overall, spring } = piece;
    const board = { length: Math.ceil(overall + spring) + 20, onHand: false, pieces: [piece.id] };
    const stock = [...lookup(free.plan.profiles, profile)!.stock, { length: board.length, price: 1 }];
    const { plan } = done(free.plan, { type: 'changeProfile', profile, set: { stock } });
    const now = solvedOf(done(plan, { type: 'holdBoard', profile, board }).plan);
    expect(loose(now).map(({ message }) => message)).toEqual([
      expect.stringMatching(/: it takes .* now, and the board has .*\.$/),
    ]);
  });
});

describe('boards that the plan holds', () => {
  it('[ST13] are in the report, the plain text and the table, after a file was written and read', () => {
    const { board, edit, profile } = holdFirst(free, isJoined(free));
    const read = readPlan(writePlan(done(free.plan, edit).plan));
    if (!read.ok) throw new Error(read.error.message);
    const solved = solvedOf(read.plan);
    const boards = solved.report.stock.find((each) => each.profile === profile)!.boards;
    expect(boards.filter(({ held }) => held).map(({ pieces }) => pieces)).toEqual([ids(board)]);
    expect(boards.length).toBeGreaterThan(1);
    const text = cutsToText(solved.plan, cutsOf(solved, solver, { work: 0 }));
    const marked = text.split('\n').filter((line) => line.includes(', held:'));
    expect(marked).toHaveLength(1);
    for (const id of ids(board)) expect(marked[0]).toContain(` ${id} `);
    const [head = '', ...rows] = csvFiles(solved.report)['cuts.csv']!.trim().split('\r\n');
    const [at, piece] = ['held', 'piece'].map((name) => head.split(',').indexOf(name));
    const cells = rows.map((row) => row.split(','));
    const said = cells.filter((row) => row[at!] === 'yes').map((row) => row[piece!]);
    expect(said).toEqual(ids(board));
  });

  it('[ST13] a joined piece stays as long as it was cut where its wall is measured longer; its other part grows', () => {
    for (const [from, place] of [
      ['left', 0],
      ['right', -1],
    ] as const) {
      const { board, edit } = holdFirst(
        free,
        (each) => isJoined(free)(each) && ownJoints(free, each).every((joint) => joint.from === from),
      );
      const { plan } = done(free.plan, edit);
      const [joint] = ownJoints(free, board);
      const was = partsOf(free, joint!);
      const own = was.at(place)!;
      expect(ids(board)).toContain(own.id);
      const more = 20 * 320;
      const set = { stretches: { [own.stretch.key]: own.stretch.L + more } };
      const face = own.segment.key;
      const measured = done(plan, { type: 'setFace', level: plan.levels[0]!.id, face, set });
      const now = solvedOf(measured.plan);
      expect(loose(now)).toEqual([]);
      const other = was.at(-1 - place)!;
      const lengths = new Map(partsOf(now, joint!).map((piece) => [piece.id, piece.L]));
      expect(lengths.get(own.id)).toBe(own.L);
      expect(lengths.get(other.id)).toBe(other.L + more);
    }
  });

  it('[ST13] where the wall needs no joint or another one, the board is loosened; its joint is free again', () => {
    const { board, edit, profile } = holdFirst(free, isJoined(free));
    const { plan } = done(free.plan, edit);
    const [joint] = ownJoints(free, board);
    const piece = partsOf(free, joint!)[0]!;
    const set = { stretches: { [piece.stretch.key]: joint!.at[0]! + 1 } };
    const level = plan.levels[0]!.id;
    const shorter = done(plan, { type: 'setFace', level, face: piece.segment.key, set });
    const now = solvedOf(shorter.plan);
    expect(loose(now)).toHaveLength(1);
    expect(loose(now)[0]!.about).toContain(profile);
    expect(heldPieces(now)).toEqual([]);
    // The record stays, so undo brings the board back.
    expect(lookup(shorter.plan.heldBoards, profile)).toHaveLength(1);
    const back = solvedOf(done(shorter.plan, shorter.undo).plan);
    expect(loose(back)).toEqual([]);
    expect(heldPieces(back)).toEqual([ids(board)]);
  });

  it('[ST13] two boards with one stretch joined differently: the first is held, the other is loosened', () => {
    const { board, edit, profile } = holdFirst(free, isJoined(free));
    const { plan } = done(free.plan, edit);
    const [joint] = ownJoints(free, board);
    const others = free.stock.find(({ order }) => order.profileId === profile)!.boards;
    const other = others.find(
      (each) =>
        each !== board &&
        ownJoints(free, each).some(({ corner, line }) => corner === joint!.corner && line === joint!.line),
    )!;
    const moved = heldBoardOf(free.levels, other);
    const joints = moved.joints!.map((each) => ({ ...each, at: each.at.map((at) => at + 320) }));
    const both = done(plan, { type: 'holdBoard', profile, board: { ...moved, joints } }).plan;
    const now = solvedOf(both);
    expect(loose(now).map(({ message }) => message)).toEqual([
      expect.stringMatching(
        /can no longer be held: a wall that was joined for it is no longer joined there\.$/,
      ),
    ]);
    expect(heldPieces(now)).toEqual([ids(board)]);
  });

  it('[ST13] a piece that is gone, a length that is gone and a piece that is too long now are each said once', () => {
    const { board, edit, profile } = holdFirst(free, several);
    const { plan } = done(free.plan, edit);
    const level = plan.levels[0]!;
    const [id] = ids(board);
    const said = free.report.pieces.find((piece) => piece.id === id)!;
    const face = said.segment as keyof typeof level.faces;
    const cases: readonly [Edit, RegExp][] = [
      [
        { type: 'setTrim', level: level.id, of: { face }, lines: { [said.line]: { profile: null } } },
        new RegExp(
          `held for ${ids(board).slice(0, -1).join(', ')} and ${ids(board).at(-1)} can no longer be held: .*${id}.* no longer cut from this moulding\\.$`,
        ),
      ],
      [
        { type: 'changeProfile', profile, set: { stock: [{ length: 16 * FOOT }] } },
        /can no longer be held: there is no stock length of .* any more\.$/,
      ],
      [
        {
          type: 'changeProfile',
          profile,
          set: { stock: [{ length: board.length, onHand: 0 }, { length: 16 * FOOT }] },
        },
        /can no longer be held: no stock length of .* is left for it\.$/,
      ],
      [
        { type: 'setSettings', set: { kerf: 40 * 320, endTrim: 200 * 320 } },
        /can no longer be held: they take .* now, and the board has .*\.$/,
      ],
      [
        { type: 'changeProfile', profile, set: { stock: [] } },
        /: no stock lengths are listed for this moulding any more, and none of it is on hand\.$/,
      ],
    ];
    for (const [change, words] of cases) {
      const { plan: changed, undo } = done(plan, change);
      const solved = solvedOf(changed);
      const found = loose(solved);
      expect(
        found.map(({ message }) => message),
        change.type,
      ).toEqual([expect.stringMatching(words)]);
      expect(found[0]).toMatchObject({
        severity: 'look',
        about: [...ids(board), profile],
        remedies: [/^Let it go/, /^Hold/].map((each) => expect.stringMatching(each)),
      });
      const cuts = plainCutsOf(solved);
      expect(cuts.notHeld).toEqual([found[0]!.message]);
      expect(cutsToText(solved.plan, cuts)).toContain(`\nNOT HELD: ${found[0]!.message}\n`);
      expect(loose(solvedOf(done(changed, undo).plan))).toEqual([]);
      const [piece = ''] = ids(board);
      const letGo = done(changed, { type: 'letGoBoard', profile, piece }).plan;
      expect(loose(solvedOf(letGo))).toEqual([]);
    }
  });

  it('[ST13] an edit of walls leaves a held board held, though the face it is on has another name', () => {
    let renamed = 0;
    const joined = free.stock.flatMap(({ boards }) => boards.filter(isJoined(free)));
    for (const own of joined) {
      const { board, edit } = holdFirst(free, (each) => each === own);
      const { plan } = done(free.plan, edit);
      const [joint] = ownJoints(free, board);
      const { key } = partsOf(free, joint!)[0]!.segment;
      const level = plan.levels[0]!;
      const wall = key.split(':')[0] as keyof typeof level.walls;
      const { from, to } = level.walls[wall]!;
      const [a, b] = [level.nodes[from]!, level.nodes[to]!];
      const at = Math.hypot(b[0] - a[0], b[1] - a[1]) / 2;
      const fresh = { node: 'zz1', newWall: 'zz2' } as Pick<SplitWall, 'node' | 'newWall'>;
      const split = done(plan, { type: 'splitWall', level: level.id, wall, at, ...fresh });
      const now = solvedOf(split.plan);
      expect(loose(now)).toEqual([]);
      expect(heldPieces(now)).toEqual([ids(board)]);
      if (partsOf(now, joint!)[0]!.segment.key !== key) renamed += 1;
    }
    expect(renamed).toBeGreaterThan(0);
  });
});
