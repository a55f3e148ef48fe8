// The viewport under wheel and fingers, zoom in named scales, the grid, and bringing a thing into sight.

import { describe, expect, test } from 'vitest';
import type { Point } from '../../../core/graph/index.ts';
import type { OpeningId } from '../../../core/plan/index.ts';
import { type Box, boxesOverlap } from '../../../core/sheets/boxes.ts';
import { drawnGrid, gridSpacing } from '../../../renderer/sheet/grid.ts';
import { keepInSight, levelBounds, refBounds, showRef } from '../../../renderer/sheet/show.ts';
import { fittedTo, nextZoom, zoomWords } from '../../../renderer/sheet/view-moves.ts';
import { pinched, turned } from '../../../renderer/sheet/wheel.ts';
import type { Ref } from '../../../renderer/state/refs.ts';
import { derivedLevelOf } from '../../../renderer/state/selectors.ts';
import {
  boundsOf,
  pannedBy,
  REAL_SIZE,
  toPlan,
  toScreen,
  type Viewport,
} from '../../../renderer/state/viewport.ts';
import { runningOf } from '../../../renderer/tools/run.ts';
import { cottage } from '../../fixtures/cottage.ts';
import { demo, program } from '../tools/program.ts';
import { groundFloor } from './house.ts';

const viewport: Viewport = {
  centre: [1_000_000, 500_000],
  pixelsPerTick: REAL_SIZE / 48,
  width: 800,
  height: 600,
};
const still = { deltaX: 0, deltaY: 0, deltaMode: 0, ctrlKey: false, shiftKey: false };
const near = ([ax, ay]: Point, [bx, by]: Point): void => {
  expect(ax).toBeCloseTo(bx, 3);
  expect(ay).toBeCloseTo(by, 3);
};

describe('the wheel', () => {
  test('the place under the pointer stays under it', () => {
    const at: Point = [120, 470];
    const next = turned(viewport, { ...still, deltaY: -100 }, at);
    expect(next.pixelsPerTick).toBeGreaterThan(viewport.pixelsPerTick);
    near(toScreen(next, toPlan(viewport, at)), at);
  });

  test('a turn forth and back is where it began', () => {
    const at: Point = [700, 20];
    const back = turned(turned(viewport, { ...still, deltaY: 53 }, at), { ...still, deltaY: -53 }, at);
    near(back.centre, viewport.centre);
    expect(back.pixelsPerTick / viewport.pixelsPerTick).toBeCloseTo(1, 9);
  });

  test('three lines turn as far as their pixels do, and a page no further than the most', () => {
    const at: Point = [400, 300];
    const lines = turned(viewport, { ...still, deltaY: 3, deltaMode: 1 }, at);
    expect(lines).toEqual(turned(viewport, { ...still, deltaY: 48 }, at));
    const page = turned(viewport, { ...still, deltaY: 1, deltaMode: 2 }, at);
    expect(page).toEqual(turned(viewport, { ...still, deltaY: 10_000 }, at));
  });

  test('a pinch on a trackpad zooms faster than the wheel at the same turn', () => {
    const at: Point = [400, 300];
    const wheel = turned(viewport, { ...still, deltaY: -10 }, at);
    const pinch = turned(viewport, { ...still, deltaY: -10, ctrlKey: true }, at);
    expect(pinch.pixelsPerTick).toBeGreaterThan(wheel.pixelsPerTick);
  });

  test('a notch of the wheel with Ctrl held zooms about as far as one without', () => {
    const zoom = (turn: Partial<typeof still>): number =>
      turned(viewport, { ...still, ...turn }, [400, 300]).pixelsPerTick / viewport.pixelsPerTick;
    // As browsers send one notch: 100 or 120 pixels, 53 on some systems, three lines, a page.
    for (const deltaY of [-100, -120, -53]) {
      const held = zoom({ deltaY, ctrlKey: true });
      expect(held).toBeGreaterThan(1.08);
      expect(held).toBeLessThan(1.25);
    }
    for (const turn of [
      { deltaY: -3, deltaMode: 1 },
      { deltaY: -1, deltaMode: 2 },
    ])
      expect(zoom({ ...turn, ctrlKey: true })).toBe(zoom(turn));
    // A pinch is told as a hundred times the logarithm of how much further the fingers are apart.
    for (const apart of [1.01, 1.05, 1.2]) {
      expect(zoom({ deltaY: -100 * Math.log(apart), ctrlKey: true })).toBeCloseTo(apart, 9);
      expect(zoom({ deltaY: 100 * Math.log(apart), ctrlKey: true })).toBeCloseTo(1 / apart, 9);
    }
  });

  test('a sideways turn, or one with Shift, moves the sheet and does not zoom', () => {
    const aside = turned(viewport, { ...still, deltaX: 40 }, [0, 0]);
    expect(aside.pixelsPerTick).toBe(viewport.pixelsPerTick);
    expect(aside.centre[0]).toBeGreaterThan(viewport.centre[0]);
    expect(turned(viewport, { ...still, deltaY: 40, shiftKey: true }, [0, 0])).toEqual(aside);
  });
});

describe('two fingers', () => {
  test('what is between them stays between them, twice as far apart is twice as large', () => {
    const before: [Point, Point] = [
      [300, 300],
      [400, 300],
    ];
    const after: [Point, Point] = [
      [320, 240],
      [520, 240],
    ];
    const next = pinched(viewport, before, after);
    expect(next.pixelsPerTick / viewport.pixelsPerTick).toBeCloseTo(2, 9);
    near(toScreen(next, toPlan(viewport, [350, 300])), [420, 240]);
  });

  test('fingers on one spot only move the sheet', () => {
    const next = pinched(
      viewport,
      [
        [10, 10],
        [10, 10],
      ],
      [
        [30, 10],
        [30, 10],
      ],
    );
    expect(next.pixelsPerTick).toBe(viewport.pixelsPerTick);
  });
});

describe('zoom in named scales', () => {
  test('from one to the next and back', () => {
    const quarter = REAL_SIZE / 48;
    expect(nextZoom(quarter, 'imperial', 1)).toBeCloseTo(REAL_SIZE / 32, 12);
    expect(nextZoom(quarter, 'imperial', -1)).toBeCloseTo(REAL_SIZE / 64, 12);
    expect(nextZoom(REAL_SIZE / 50, 'metric', 1)).toBeCloseTo(REAL_SIZE / 25, 12);
    expect(nextZoom(quarter * 1.2, 'imperial', -1)).toBeCloseTo(quarter, 12);
  });

  test('beyond the last one it goes on', () => {
    expect(nextZoom(REAL_SIZE, 'imperial', 1)).toBeCloseTo(REAL_SIZE * 1.5, 12);
    expect(nextZoom(REAL_SIZE / 1000, 'metric', -1)).toBeCloseTo(REAL_SIZE / 1500, 12);
  });

  test('a scale is named where it is one, else the ratio is said', () => {
    expect(zoomWords(REAL_SIZE / 48, 'imperial')).toContain('1⁄4″');
    expect(zoomWords(REAL_SIZE / 50, 'metric')).toBe('1:50');
    expect(zoomWords(REAL_SIZE / 52, 'imperial')).toBe('1 : 52');
    expect(zoomWords(REAL_SIZE, 'imperial')).toBe('real size');
    expect(zoomWords(REAL_SIZE * 3, 'metric')).toBe('3 : 1');
  });
});

describe('the whole plan', () => {
  test('lies in sight, and an empty sheet shows room for a house', () => {
    const level = groundFloor();
    const shown = boundsOf(fittedTo(viewport, level));
    const [left, top, right, bottom] = levelBounds(level)!;
    expect(shown[0]).toBeLessThan(left);
    expect(shown[1]).toBeLessThan(top);
    expect(shown[2]).toBeGreaterThan(right);
    expect(shown[3]).toBeGreaterThan(bottom);
    const empty = boundsOf(fittedTo(viewport, null));
    expect(empty[2] - empty[0]).toBeGreaterThan(30 * 12 * 8128);
  });
});

describe('a sheet with a side panel over it', () => {
  test.each([
    { left: 352, right: 0 },
    { left: 0, right: 352 },
  ])('shows the whole plan beside it: %o', (panels) => {
    const level = groundFloor();
    const shown = fittedTo({ ...viewport, width: 640, height: 360 }, level, panels);
    const [left, top, right, bottom] = levelBounds(level)!;
    expect(toScreen(shown, [left, top])[0]).toBeGreaterThan(panels.left);
    expect(toScreen(shown, [right, bottom])[0]).toBeLessThan(640 - panels.right);
  });
});

describe('what is chosen', () => {
  const own = program(demo('thimble-cottage'));
  const { app } = own;
  const ref = { kind: 'opening', level: own.level().id, id: 'o4' as OpeningId } as const;
  app.change(() => ({ textScale: 2, viewport: { ...viewport, width: 640, height: 280 } }));
  const cover = (left: number, right: number) => {
    const { covered } = app.store.get();
    app.change(() => ({ covered: { left, right } }));
    keepInSight(app, covered);
  };
  const span = () => {
    const state = app.store.get();
    const [left, , right] = refBounds(derivedLevelOf(state)!, ref)!;
    return [left, right].map((x) => toScreen(state.viewport, [x, 0])[0]) as [number, number];
  };

  test('is shown beside a side panel, and comes out from under another that opens', () => {
    app.change(() => ({ covered: { left: 704, right: 0 } }));
    app.select([ref]);
    showRef(app, ref);
    expect(span()[0]).toBeGreaterThan(352);
    expect(span()[1]).toBeLessThan(640);
    cover(0, 704);
    expect(span()[0]).toBeGreaterThan(0);
    expect(span()[1]).toBeLessThan(640 - 352);
    const before = app.store.get().viewport;
    cover(0, 0);
    expect(app.store.get().viewport).toEqual(before);
  });

  test('is left where it is when the user has pushed it out of sight', () => {
    app.look((now) => pannedBy(now, [-2000, 0]));
    const before = app.store.get().viewport;
    cover(704, 0);
    expect(app.store.get().viewport).toEqual(before);
  });
});

describe('a low sheet, whose tools lie along its top', () => {
  test.each([
    [640, 320],
    [500, 260],
    [280, 300],
  ])('of %d by %d shows the whole plan clear of them and of the view’s buttons', (width, height) => {
    const level = groundFloor();
    const low = fittedTo({ ...viewport, width, height }, level);
    const [left, top, right, bottom] = levelBounds(level)!;
    const house: Box = [...toScreen(low, [left, top]), ...toScreen(low, [right, bottom])];
    const rows = width < 310 ? 2 : 1;
    expect(boxesOverlap(house, [10, 10, Math.min(width - 10, 290), 14 + 34 * rows])).toBe(false);
    expect(boxesOverlap(house, [width - 105, height - 36, width, height])).toBe(false);
    expect(house[0]).toBeGreaterThanOrEqual(0);
    expect(house[1]).toBeGreaterThanOrEqual(0);
    expect(house[2]).toBeLessThanOrEqual(width);
    expect(house[3]).toBeLessThanOrEqual(height);
  });

  test('shows it larger than between the tools and the buttons, which lie in corners', () => {
    const level = groundFloor();
    const [left, top, right, bottom] = levelBounds(level)!;
    const [width, height] = [640, 287];
    const { pixelsPerTick } = fittedTo({ ...viewport, width, height }, level);
    const between = height - 48 - 40;
    expect((bottom - top) * pixelsPerTick).toBeGreaterThan(between);
    expect((right - left) * pixelsPerTick).toBeGreaterThan(240);
  });

  test.each([400, 800])(
    'keeps a plan in the middle where it would be no larger beside it: %d high',
    (height) => {
      const level = groundFloor();
      const [left, , right] = levelBounds(level)!;
      const shown = fittedTo({ ...viewport, width: 700, height }, level, { left: 0, right: 0 });
      const ends = [left, right].map((x) => toScreen(shown, [x, 0])[0]);
      expect((ends[0]! + ends[1]!) / 2).toBeCloseTo((44 + 700) / 2, 6);
    },
  );
});

describe('the grid', () => {
  test('its lines keep apart at every zoom and are multiples of the spacing', () => {
    for (const units of ['imperial', 'metric'] as const)
      for (let zoom = REAL_SIZE / 400; zoom < REAL_SIZE * 4; zoom *= 1.37) {
        const { spacing, bold } = drawnGrid(gridSpacing(null, units), zoom);
        expect(spacing * zoom).toBeGreaterThanOrEqual(9);
        expect(spacing % gridSpacing(null, units)).toBe(0);
        expect(bold).toBeGreaterThanOrEqual(2);
      }
  });
});

describe('the tape bar, of a wall or a face that is chosen', () => {
  test('tells of the length and the clear distance only where there is a field for them', () => {
    const it = program(cottage());
    it.tool('select');
    const { walk } = derivedLevelOf(it.app.store.get())!;
    const faces = walk.rooms.flatMap(({ loops }) => loops.flatMap(({ segments }) => segments));
    const refs: Ref[] = [
      ...faces.map(({ key }) => ({ kind: 'segment', level: walk.levelId, id: key }) as const),
      ...Object.keys(walk.level.walls).map(
        (id) => ({ kind: 'wall', level: walk.levelId, id: id as never }) as const,
      ),
    ];
    const kinds = new Map<string, number>();
    for (const ref of refs) {
      it.choose(ref);
      const { tool, state, context } = runningOf(it.app.store.get())!;
      const labels = tool.fields(state, context).map(({ label }) => label);
      const has = (start: string): boolean => labels.some((label) => label.startsWith(start));
      const hint = it.hint();
      expect(/ype its length/.test(hint), `${ref.id}: ${hint}`).toBe(has('Length'));
      expect(/clear distance/.test(hint), `${ref.id}: ${hint}`).toBe(has('Clear'));
      const kind = `${ref.kind}: ${has('Length')}, ${has('Clear')}`;
      kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
    }
    // The cottage has a wall across a corner, one that ends free, and a column.
    expect([...kinds.keys()]).toEqual(
      expect.arrayContaining([
        'segment: true, true',
        'segment: false, true',
        'segment: false, false',
        'wall: false, true',
        'wall: false, false',
      ]),
    );
  });
});
