// The strip and the sections: every board, corner and opening of a room can be chosen on the strip where it is drawn, the
// words say the same walls, and the sections show the step that the checks reckon with.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { prepare } from '../../../core/edit/index.ts';
import { type LevelId, readPlanBytes } from '../../../core/plan/index.ts';
import { type Derived, derive, solve } from '../../../core/report/index.ts';
import { loadHighs } from '../../../electron/services/solver.ts';
import { figuresOf } from '../../../renderer/panels/kit/figures.ts';
import { roomsOf } from '../../../renderer/panels/strip/rooms-of.ts';
import { planSection, upright } from '../../../renderer/panels/strip/section.ts';
import { boxesOf, placeAt, STRIP_ZOOM, stripPicture } from '../../../renderer/panels/strip/strip-drawing.ts';
import { stripWords } from '../../../renderer/panels/strip/strip-text.ts';
import type { Ref } from '../../../renderer/state/refs.ts';
import { type Change, DOOR, inch, planOf, profiles } from '../../core/fit/house.ts';
import { measure } from '../../core/sheets/fonts.ts';

function read(name: string): Derived {
  const plan = readPlanBytes(readFileSync(`demo-data/${name}.copewright.json`));
  if (!plan.ok) throw new Error(`${name} cannot be read`);
  const ready = prepare(plan.plan);
  if (!ready.ok) throw new Error(ready.message);
  return derive(ready.plan);
}

function made(change: Change = {}): Derived {
  const ready = prepare(planOf(change));
  if (!ready.ok) throw new Error(ready.message);
  return derive(ready.plan);
}

const L1 = 'L1' as LevelId;

describe('the strip', () => {
  it('every wall, board, opening, built-in, mark and corner of every loop can be chosen', () => {
    const shown = read('larkspur-house');
    for (const level of shown.levels) {
      for (const trim of level.trims) {
        trim.room.loops.forEach((loop, index) => {
          const picture = stripPicture(measure, shown, level, trim, index, 36);
          const has = (ref: Ref) => boxesOf(picture, ref).length > 0;
          const { levelId } = level.walk;
          for (const segment of loop.segments) {
            expect(has({ kind: 'segment', level: levelId, id: segment.key })).toBe(true);
            for (const { id } of segment.openings)
              expect(has({ kind: 'opening', level: levelId, id })).toBe(true);
            for (const { id } of segment.builtIns)
              expect(has({ kind: 'builtIn', level: levelId, id })).toBe(true);
            for (const { id } of segment.marks) expect(has({ kind: 'mark', level: levelId, id })).toBe(true);
          }
          for (const { key } of loop.corners)
            expect(has({ kind: 'corner', level: levelId, id: key })).toBe(true);
          const base = trim.lines.find(({ line }) => line === 'base');
          const pieces = (base?.runs ?? []).flatMap((run) => run.pieces);
          for (const piece of pieces.filter((each) => each.stretch.segment.loop === index))
            expect(has({ kind: 'piece', level: levelId, id: piece.id }), piece.id).toBe(true);
          for (const { box } of picture.places) {
            expect(box[0]).toBeGreaterThanOrEqual(-40);
            expect(box[2]).toBeLessThanOrEqual(picture.width + 40);
          }
        });
      }
    }
  });

  it('a board is chosen where it is drawn, a door over the wall, a corner on its line', () => {
    const shown = made({ openings: { o1: DOOR } });
    const level = shown.levels[0]!;
    const picture = stripPicture(measure, shown, level, level.trims[0]!, 0, 36);
    const middleOf = (ref: Ref) => {
      const [x0, y0, x1, y1] = boxesOf(picture, ref)[0]!;
      return [(x0 + x1) / 2, (y0 + y1) / 2] as const;
    };
    const drawn = picture.items.filter((item) => item.kind === 'line' && item.role === 'board');
    const boards = picture.places.filter(({ ref }) => ref.kind === 'piece');
    expect(boards).toHaveLength(drawn.length);
    boards.forEach(({ box, ref }, at) => {
      const item = drawn[at]!;
      const xs = item.kind === 'line' ? item.points.map(([x]) => x) : [];
      expect(box[0], JSON.stringify(ref)).toBeCloseTo(Math.min(...xs), 6);
      expect(box[2]).toBeCloseTo(Math.max(...xs), 6);
    });
    const door: Ref = { kind: 'opening', level: L1, id: 'o1' as never };
    expect(placeAt(picture, ...middleOf(door))!.ref).toEqual(door);
    const corner: Ref = { kind: 'corner', level: L1, id: 'n2:w1>w2' as never };
    expect(placeAt(picture, ...middleOf(corner))!.ref).toEqual(corner);
    expect(placeAt(picture, -500, 0)).toBeNull();
  });

  it('it grows and shrinks with the zoom, within what can be read', () => {
    const shown = made();
    const level = shown.levels[0]!;
    const at = (zoom: number) => stripPicture(measure, shown, level, level.trims[0]!, 0, zoom);
    expect(at(60).width).toBeGreaterThan(at(30).width);
    expect(at(1)).toEqual(at(STRIP_ZOOM.least));
    expect(at(1e6)).toEqual(at(STRIP_ZOOM.most));
    // 14 m round the room: pixels to the foot as asked.
    const feet = 14000 / 304.8;
    const walls = at(30).places.filter(({ ref }) => ref.kind === 'segment');
    const long = walls.reduce((sum, { box }) => sum + box[2] - box[0], 0);
    expect(long / feet).toBeCloseTo(30, 1);
  });

  it('humps are drawn larger once the floors are worked out, and the note says by how much', async () => {
    const solver = await loadHighs();
    const floor = [
      { at: 0, height: 0 },
      { at: 2000, height: 6 },
      { at: 4000, height: 0 },
    ];
    const shown = made({ faces: { 'w1:right': { floor } }, room: { floorDatum: 0 } });
    const draw = (of: Derived) => stripPicture(measure, of, of.levels[0]!, of.levels[0]!.trims[0]!, 0, 36);
    expect(draw(shown).note).not.toContain('humps');
    const solved = draw(solve(shown, solver));
    expect(solved.note).toMatch(/humps and dips under the boards drawn \d+ times as large as/);
    expect(solved.items.some((item) => item.kind === 'line' && item.role === 'floor-shape')).toBe(true);
  });

  it('the words name each wall once, with its boards and what stands on it, left to right', () => {
    const shown = made({ openings: { o1: DOOR } });
    const words = stripWords(shown, shown.levels[0]!.trims[0]!, 0, figuresOf(shown.plan));
    expect(words).toHaveLength(4);
    expect(words[0]!.words).toMatch(/^Wall 1 to 2, /);
    const first = words.find((wall) => wall.key === 'w1:right')!;
    expect(first.words).toMatch(/^Wall 4 to 1, 13' 1 1⁄2": board 4A .*, door o1, board 4B /);
  });

  it('a thing is found in the rooms it stands in', () => {
    const shown = read('larkspur-house');
    const level = shown.levels[0]!;
    const door = level.trims[0]!.room.loops[0]!.segments.flatMap((segment) => segment.openings)[0]!;
    const rooms = roomsOf(level, { kind: 'opening', level: level.walk.levelId, id: door.id });
    expect(rooms).toContain(level.trims[0]!.room.id);
    const casing = roomsOf(level, {
      kind: 'casing',
      level: level.walk.levelId,
      opening: door.id,
      id: door.side,
    });
    expect(casing).toEqual([level.trims[0]!.room.id]);
    expect(roomsOf(level, { kind: 'room', level: 'nowhere' as LevelId, id: rooms[0]! })).toEqual([]);
  });
});

describe('the sections', () => {
  const door = (thickness: number) =>
    made({ openings: { o1: DOOR }, plan: profiles({ base: { thickness: inch(thickness) } }) });
  const at = (shown: Derived, ref: Ref | null = null) =>
    planSection(shown.plan, shown.levels[0]!.trims[0]!, ref);

  it('the step at an opening is the one that the checks find', () => {
    for (const thickness of [0.375, 0.5, 0.53125, 0.5625, 0.625, 0.75]) {
      const shown = door(thickness);
      const section = at(shown);
      if (section?.kind !== 'opening') throw new Error('no section of an opening');
      const codes = shown.findings.map(({ code }) => code);
      expect(section.verdict === 'proud').toBe(codes.includes('base-proud'));
      expect(section.verdict === 'flush').toBe(codes.includes('base-flush'));
      const found = shown.findings.find(({ code }) => code === 'base-proud' || code === 'base-flush');
      if (found !== undefined) expect(section.step! / 320).toBeCloseTo(found.figures.stepMm!, 6);
    }
    expect(at(door(0.75))!.words).toBe('The base stands 3⁄16" proud of the casing’s outer edge.');
  });

  it('of a room alone shows an opening where a base ends, not a window above it', () => {
    const window = { ...DOOR, kind: 'window' as const, sill: 900, height: 1000, at: 300 };
    const both = made({ openings: { o1: window, o2: { ...DOOR, at: 2000 } } });
    const section = at(both);
    expect(section?.kind === 'opening' && [section.opening.id, section.base?.id]).toEqual(['o2', 'base']);
    const room = { kind: 'room', level: L1, id: both.levels[0]!.walk.rooms[0]!.id } as const;
    expect(at(both, room)).toEqual(section);
    const asked = at(both, { kind: 'opening', level: L1, id: 'o1' as never });
    expect(asked?.words, 'what was asked for is shown').toBe('No base comes to window o1.');
    expect(at(made({ openings: { o1: window } }))?.kind, 'no door: a corner where boards meet').toBe(
      'corner',
    );
    const bare = at(made({ openings: { o1: window }, room: { trim: {} } }));
    expect(bare?.words).toBe('No base comes to window o1.');
  });

  it('of a wall shows its own door before another', () => {
    const doors = made({ openings: { o1: DOOR, o2: { ...DOOR, wall: 'w3', at: 900 } } });
    const wall = at(doors, { kind: 'segment', level: L1, id: 'w3:right' as never });
    expect(wall?.kind === 'opening' && wall.opening.id).toBe('o2');
  });

  it('a passage has no casing, and a room without openings shows a corner where boards meet', () => {
    const open = made({ openings: { o1: { ...DOOR, kind: 'passage', casing: null } } });
    const section = at(open, { kind: 'opening', level: L1, id: 'o1' as never });
    expect(section?.kind === 'opening' && section.verdict).toBe('open');
    expect(at(made())?.kind).toBe('corner');
    expect(at(made({ room: { trim: {} } }))).toBeNull();
  });

  it('in a coped corner the through board reaches the wall and the worked one its face', () => {
    const shown = made();
    const section = at(shown, { kind: 'corner', level: L1, id: 'n2:w1>w2' as never });
    if (section?.kind !== 'corner' || section.joint === null) throw new Error('no section of a corner');
    const t = inch(0.5) * 320;
    const area = (outline: readonly (readonly [number, number])[]) =>
      Math.abs(
        outline.reduce((sum, [x, y], i) => {
          const [u, v] = outline[(i + 1) % outline.length]!;
          return sum + x * v - u * y;
        }, 0),
      ) / 2;
    const arm = 4.5 * t;
    const through = section.joint.coped === 'after' ? section.before : section.after;
    const worked = section.joint.coped === 'after' ? section.after : section.before;
    expect(area(through)).toBeCloseTo(arm * t, 0);
    expect(area(worked)).toBeCloseTo((arm - t) * t, 0);
  });

  it('two mitred boards share the corner and leave no gap', () => {
    const corners = { 'n2:w1>w2': { number: 1, lines: { base: { joint: 'mitre' as const } } } };
    const section = at(made({ corners }), { kind: 'corner', level: L1, id: 'n2:w1>w2' as never });
    if (section?.kind !== 'corner') throw new Error('no section of a corner');
    expect(section.before[1]).toEqual(section.after[0]);
    expect(section.before[2]).toEqual(section.after[3]);
  });

  it('the upright says whether the old line is covered, by the checks’ own figure', () => {
    const short = made({ room: { old: { baseHeight: inch(6), floor: 0 }, new: { floor: 0 } } });
    const trim = short.levels[0]!.trims[0]!;
    const standing = upright(short.plan, trim, null)!;
    const found = short.findings.find(({ code }) => code === 'base-short')!;
    expect(standing.covers! / 320).toBeCloseTo(found.figures.coversMm!, 6);
    expect(standing.words).toBe('The old line shows: the base ends 1⁄2" under it.');
    const unknown = made({ room: { old: null } });
    expect(upright(unknown.plan, unknown.levels[0]!.trims[0]!, null)!.covers).toBeNull();
  });
});
