// What the ticket's fields change, seen by what is derived afterwards.

import { describe, expect, test } from 'vitest';
import { type Edit, describe as inWords } from '../../../core/edit/index.ts';
import { lookup, type RoomId, type Side } from '../../../core/plan/index.ts';
import { reportToJson, solve } from '../../../core/report/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { figuresOf } from '../../../renderer/panels/kit/figures.ts';
import { cornerLines } from '../../../renderer/panels/ticket/corner-lines.ts';
import {
  backToRule,
  cornersMeant,
  setCasing,
  setFaceLine,
  setJoint,
  setReadings,
  setStretch,
  swapCope,
} from '../../../renderer/panels/ticket/edits.ts';
import { cornerFound, pieceFound, segmentFound } from '../../../renderer/panels/ticket/find.ts';
import { lineVerdict } from '../../../renderer/panels/ticket/line-verdict.ts';
import { pieceFacts } from '../../../renderer/panels/ticket/piece-facts.ts';
import { clearDistances, clearEdit, placesOf, putOn } from '../../../renderer/panels/ticket/places.ts';
import { nameRoom, roomHeight, roomLine } from '../../../renderer/panels/ticket/room-edits.ts';
import { commonOfWalls, severalWords } from '../../../renderer/panels/ticket/several.ts';
import { corner } from '../../../renderer/panels/ticket/steps.ts';
import { stretchesOf } from '../../../renderer/panels/ticket/stretches.ts';
import type { App } from '../../../renderer/state/app.ts';
import type { Ref } from '../../../renderer/state/refs.ts';
import { faceOf, placeByGap } from '../../../renderer/tools/faces.ts';
import { after, type House, house, MM } from './house.ts';

const L1 = 'L1' as never;
function numbered({ level }: House, number: number): Ref & { kind: 'corner' } {
  const corners = level.walk.rooms.flatMap(({ loops }) => loops.flatMap((loop) => loop.corners));
  return { kind: 'corner', level: L1, id: corners.find((each) => each.number === number)!.key };
}
const linesAt = (it: House, number: number) =>
  cornerLines(it.level, cornerFound(it.level, numbered(it, number).id)!);

describe('a corner', () => {
  test('tells joint, boards and reason of each line', () => {
    const [base, shoe] = linesAt(house(), 1);
    expect([base!.line, base!.joint?.joint, base!.before, base!.after]).toEqual(['base', 'cope', '8B', '1A']);
    expect(base!.why).toMatch(
      /^Cope: inside 90° drawn and set for 91\.5° with build-up.*board 8B runs through.*\.$/,
    );
    expect([shoe!.line, shoe!.joint?.joint, shoe!.after]).toEqual(['shoe', 'butt', 'shoe-1A']);
  });

  test('where two boards do not meet it says how they end', () => {
    const noShoe = after(house(), setFaceLine(L1, 'w16:right' as never, 'shoe', 'none'));
    const shoe = linesAt(noShoe, 5)
      .concat(linesAt(noShoe, 2))
      .filter(({ line }) => line === 'shoe');
    const alone = shoe.find(({ joint }) => joint === null)!;
    expect(alone.ends).toMatch(/^No two boards meet here: board shoe-\w+ ends .+\.$/);
  });

  test('copes the other board, in every line, and back again', () => {
    const before = house();
    const swapped = after(before, swapCope(before.shown, [numbered(before, 1)]));
    expect(linesAt(swapped, 1).map(({ joint }) => joint?.coped)).toEqual(['before', 'before']);
    expect(linesAt(swapped, 1).every(({ joint }) => joint?.chosenBy === 'user')).toBe(true);
    const back = after(swapped, swapCope(swapped.shown, [numbered(swapped, 1)]));
    expect(linesAt(back, 1).map(({ joint }) => joint?.coped)).toEqual(['after', 'after']);
    expect(swapCope(before.shown, [numbered(before, 3)])).toBeNull();
  });

  test('goes back to the rule as if nothing had been chosen', () => {
    const before = house();
    expect(backToRule(before.shown, [numbered(before, 10)])).toBeNull();
    const chosen = after(before, setJoint(L1, numbered(before, 10).id, 'base', 'mitre'));
    expect(linesAt(chosen, 10)[0]!.joint?.joint).toBe('mitre');
    expect(linesAt(chosen, 10)[0]!.chosen).toEqual({ joint: 'mitre' });
    const again = after(chosen, backToRule(chosen.shown, [numbered(chosen, 10)]));
    expect(reportToJson(again.shown.report)).toBe(reportToJson(before.shown.report));
  });

  test('a board takes both its corners back to the rule', () => {
    let it = house();
    it = after(it, setJoint(L1, numbered(it, 9).id, 'base', 'mitre'));
    it = after(it, setJoint(L1, numbered(it, 10).id, 'base', 'mitre'));
    const edit = backToRule(it.shown, [
      { kind: 'piece', level: L1, id: '9A' },
      { kind: 'piece', level: L1, id: '9B' },
    ]);
    expect(reportToJson(after(it, edit).shown.report)).toBe(reportToJson(house().shown.report));
  });

  test('the corner that is meant is the chosen one, else the one under the pointer, never a hidden one', () => {
    const it = house();
    const [one, two] = [numbered(it, 1), numbered(it, 2)];
    expect(cornersMeant([one], two)).toEqual([one]);
    expect(cornersMeant([], two)).toEqual([two]);
    expect(cornersMeant([{ kind: 'room', level: L1, id: 'r1' }], two)).toEqual([]);
  });
});

describe('from corner to corner', () => {
  test('goes through every corner of the level once, in the order of the walk, and comes back', () => {
    const { shown } = house();
    const seen: string[] = [];
    let at = corner(shown, 'L1', null, 1);
    const first = at;
    do {
      seen.push((at as { id: string }).id);
      at = corner(shown, 'L1', at, 1);
    } while (at?.id !== first?.id && seen.length < 100);
    expect(seen).toHaveLength(25);
    expect(new Set(seen).size).toBe(25);
    const numbers = seen.map((key) => cornerFound(house().level, key)!.corner.number);
    expect(numbers).toEqual(numbers.toSorted((a, b) => a! - b!));
    expect(corner(shown, 'L1', first, -1)?.id).toBe(seen.at(-1));
  });

  test('begins at the end of what is chosen', () => {
    const it = house();
    const piece: Ref = { kind: 'piece', level: L1, id: '9A' };
    expect(corner(it.shown, 'L1', piece, 1)).toEqual(numbered(it, 10));
    expect(corner(it.shown, 'L1', piece, -1)).toEqual(numbered(it, 9));
    expect(corner(it.shown, 'L1', { kind: 'room', level: L1, id: 'r4' }, 1)?.kind).toBe('corner');
    expect(corner(it.shown, 'nowhere', null, 1)).toBeNull();
  });
});

describe('where things stand', () => {
  const opening = (it: House, id: string) => lookup(it.level.walk.level.openings, id)!;
  const placesOfDoor = (it: House, id = 'o1') =>
    placesOf(it.level, {
      kind: 'opening',
      id: id as never,
      wall: opening(it, id).wall,
    });

  /** What a gap typed in the door's ticket does, and what is said of it. */
  function typedGap(it: House, side: Side, from: 'toLeft' | 'toRight', gap: number) {
    const { walk } = it.level;
    const { wall, width } = opening(it, 'o1');
    const face = faceOf(walk.level, walk, wall, side)!;
    const did: { edit?: Edit; said?: string } = {};
    const app = {
      commit: (edit: Edit) => {
        did.edit = edit;
        return true;
      },
      say: (said: string) => {
        did.said = said;
      },
    };
    const at = placeByGap(face, gap, from === 'toLeft' ? 'left' : 'right', width);
    const context = { app: app as unknown as App, figures: figuresOf(it.plan), level: it.level };
    const done = putOn(context, { kind: 'opening', level: L1, id: 'o1' as never }, { face, at, width });
    expect(done).toBe(did.edit !== undefined);
    return did;
  }

  test('a door has its distances in both rooms, the same door from both sides', () => {
    const places = placesOfDoor(house());
    expect(places.map(({ found }) => found.room.name).toSorted()).toEqual(['Kitchen', 'Parlour']);
    const [one, other] = places;
    expect(one!.toLeft + one!.toRight + 812.8 * MM).toBeCloseTo(one!.found.segment.drawn, 6);
    expect(one!.side).not.toBe(other!.side);
  });

  test.each(['Parlour', 'Kitchen'])('typed from either corner in the %s, it stands there', (room) => {
    for (const side of ['toLeft', 'toRight'] as const) {
      const before = house();
      const place = placesOfDoor(before).find(({ found }) => found.room.name === room)!;
      const { edit } = typedGap(before, place.side, side, 500 * MM);
      const moved = after(before, edit!);
      const now = placesOfDoor(moved).find(({ found }) => found.room.name === room)!;
      expect(Math.abs(now[side] - 500 * MM)).toBeLessThanOrEqual(1);
    }
  });

  test('typed past a corner of the room it stays where it is, with both figures', () => {
    const before = house();
    for (const place of placesOfDoor(before)) {
      for (const side of ['toLeft', 'toRight'] as const) {
        const { edit, said } = typedGap(before, place.side, side, -40 * MM);
        expect(edit).toBeUndefined();
        expect(said).toMatch(
          /^The opening does not fit there: it would leave .* on its left and .* on its right\.$/,
        );
      }
    }
  });

  test('a clear distance becomes what was typed, whichever wall goes', () => {
    for (const moves of ['own', 'other'] as const) {
      const before = house();
      const clear = clearDistances(before.level, 'w3' as never).find(({ other }) => other.wall === 'w14')!;
      expect(clear.distance / MM).toBeCloseTo(3600 - 165 / 2 - 115 / 2, 3);
      const now = after(before, clearEdit(L1, clear, moves, 3300 * MM));
      const again = clearDistances(now.level, 'w3' as never).find(({ other }) => other.wall === 'w14')!;
      expect(Math.abs(again.distance - 3300 * MM)).toBeLessThanOrEqual(1);
    }
  });
});

describe('faces, casings and rooms', () => {
  test('stretches of a face are told by what stands at their ends, and measured one by one', () => {
    const it = house();
    const found = segmentFound(it.level, pieceFound(it.level, '6A')!.piece.segment.key)!;
    const told = stretchesOf(it.level, found);
    expect(told.map(({ words }) => words)).toEqual(['corner 6 to door o1', 'door o1 to corner 7']);
    const measured = after(it, setStretch(L1, found.segment.key, told[0]!.key, 1150 * MM));
    expect(pieceFound(measured.level, '6A')!.piece.lengthFrom).toBe('measured');
    expect(pieceFound(measured.level, '6B')!.piece.lengthFrom).toBe('drawn');
    const back = after(measured, setStretch(L1, found.segment.key, told[0]!.key, null));
    expect(reportToJson(back.shown.report)).toBe(reportToJson(it.shown.report));
  });

  test('[ED23] what is known of a face is named in undo by its wall', () => {
    const it = house();
    const said = (face: string) =>
      inWords({ type: 'setFace', level: L1, face: face as never, set: { measured: 1 } }, it.plan);
    expect(said('w2:left')).toBe('measured length of the left face of wall w2');
    expect(said('n13:w16>w16')).toBe('measured length of the wall’s end at n13');
    expect(inWords(setFaceLine(L1, 'w2:right' as never, 'base', 'none'), it.plan)).toBe(
      'no base on the right face of wall w2',
    );
  });

  test('readings go in the order they lie in', () => {
    const it = house();
    const face = pieceFound(it.level, '6A')!.piece.segment.key;
    const now = after(
      it,
      setReadings(L1, face, 'floor', [
        { at: 900 * MM, height: -3 * MM },
        { at: 0, height: 0 },
      ]),
    );
    expect(now.level.walk.level.faces[face]!.floor!.map(({ at }) => at)).toEqual([0, 900 * MM]);
  });

  test('a casing side is a profile, none or not known, and the other side stays', () => {
    const it = house();
    const o1 = lookup(it.level.walk.level.openings, 'o1')!;
    const none = after(it, setCasing(L1, 'o1' as never, o1, 'left', 'none'));
    const side = (of: House) => lookup(of.level.walk.level.openings, 'o1')!.casing;
    expect(side(none)).toEqual({ left: null, right: 'case' });
    const o1none = lookup(none.level.walk.level.openings, 'o1')!;
    expect(side(after(none, setCasing(L1, 'o1' as never, o1none, 'left', 'unknown')))).toEqual({
      right: 'case',
    });
    const bare = { ...o1, casing: { left: 'case' as never } };
    expect(setCasing(L1, 'o1' as never, bare, 'left', 'unknown')).toMatchObject({ set: { casing: null } });
  });

  test('a room without a name gets one with the first thing said of it, on its own floor', () => {
    const bare = house((file) => ({ ...file, levels: [{ ...file.levels[0]!, rooms: {} }] }));
    for (const room of bare.level.walk.rooms) {
      const named = after(bare, nameRoom(bare.plan, room, 'Named'));
      const same = named.level.walk.rooms.find(({ name }) => name === 'Named')!;
      expect(same.loops[0]!.corners[0]!.key).toBe(room.loops[0]!.corners[0]!.key);
    }
    const room = bare.level.walk.rooms[0]!;
    const based = after(bare, roomLine(bare.plan, room, 'base', 'base' as never));
    expect(based.level.walk.rooms[0]!.record?.trim).toEqual({ base: 'base' });
    expect(based.level.trims[0]!.lines.flatMap(({ runs }) => runs).length).toBeGreaterThan(0);
  });

  test('heights of a room are set one by one, and the last one taken out leaves nothing', () => {
    const it = house();
    const room = (of: House) => of.level.walk.rooms[0]!;
    const one = after(it, roomHeight(it.plan, room(it), 'old', 'baseHeight', 88.9 * MM));
    const two = after(one, roomHeight(one.plan, room(one), 'old', 'floor', 19 * MM));
    expect(room(two).record?.old).toEqual({ baseHeight: 88.9 * MM, floor: 19 * MM });
    const less = after(two, roomHeight(two.plan, room(two), 'old', 'floor', null));
    const none = after(less, roomHeight(less.plan, room(less), 'old', 'baseHeight', null));
    expect(room(none).record).not.toHaveProperty('old');
    expect(none.plan).toEqual(it.plan);
  });

  test('the verdict on the old paint line follows what is known', () => {
    const it = house();
    const say = (of: House) => lineVerdict(of.shown, of.level, of.level.trims[0]!)!;
    expect(say(it).words).toBe(
      'Not known yet: the old base height, the old floor, the new floor are missing.',
    );
    const known = (height: number) =>
      after(it, {
        type: 'changeRoom',
        level: L1,
        room: 'r1' as RoomId,
        set: { old: { baseHeight: height * MM, floor: 0 }, new: { floor: 0 } },
      });
    expect(say(known(100))).toEqual({ words: 'The new base covers it.', bad: false, more: null });
    expect(say(known(200)).bad).toBe(true);
    expect(say(known(200)).words).toContain('old');
    expect(say(known(138)).bad).toBe(false);
    expect(say(known(138)).words).not.toBe('The new base covers it.');
  });
});

describe('boards and several things', () => {
  test('a solved board tells the board it is cut from with what else comes from it, and its scribe', async () => {
    const bare = house();
    const face = pieceFound(bare.level, '9A')!.piece.segment.key;
    const it = after(
      bare,
      setReadings(L1, face, 'floor', [
        { at: 0, height: 0 },
        { at: 1500 * MM, height: 6 * MM },
        { at: 4400 * MM, height: 0 },
      ]),
    );
    const solved = solve(it.shown, await loadHighs());
    const facts = (id: string) => pieceFacts(solved, solved, pieceFound(solved.levels[0]!, id)!);
    const stock = facts('9A').stock!;
    expect(stock.length).toBe(3657.6 * MM);
    for (const other of stock.others.filter((id) => !id.includes('r-')))
      expect(facts(other).stock!.others).toContain('9A');
    expect(facts('9A').scribe.join(' ')).toContain('The floor under board 9A');
    expect(facts('22A').scribe).toEqual([]);
    expect(pieceFacts(it.shown, null, pieceFound(it.level, '9A')!).stock).toBeNull();
  });

  test('a board waits for the boards beside it that go up first', () => {
    const it = house();
    for (const id of ['9A', '9B', '10A', '12B']) {
      const found = pieceFound(it.level, id)!;
      const { after: waits, order } = pieceFacts(it.shown, null, found);
      const pieces = found.run.pieces;
      const at = pieces.indexOf(found.piece);
      for (const other of waits) {
        const beside = pieces.findIndex((each) => each.id === other);
        expect(pieces[beside]!.order).toBeLessThan(found.piece.order);
        expect([1, pieces.length - 1]).toContain(Math.abs(beside - at));
      }
      expect(order).toContain(`${found.piece.order} of ${pieces.length}`);
    }
  });

  test('what walls have in common is told, and what differs is not', () => {
    const { level } = house();
    const wall = (id: string): Ref => ({ kind: 'wall', level: L1, id: id as never });
    const some = commonOfWalls(level.walk.level, [wall('w1'), wall('w3')])!;
    expect(some).toEqual({ ids: ['w1', 'w3'], thickness: 165 * MM, height: 'ceiling', surface: 'drywall' });
    expect(commonOfWalls(level.walk.level, [wall('w1'), wall('w11')])!.thickness).toBeNull();
    expect(commonOfWalls(level.walk.level, [{ kind: 'room', level: L1, id: 'r1' }])).toBeNull();
    expect(severalWords([wall('w1'), wall('w3'), { kind: 'room', level: L1, id: 'r1' }])).toBe(
      '2 walls, 1 room',
    );
  });
});
