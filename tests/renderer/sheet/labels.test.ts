// Labels: they never overlap at any zoom, corner numbers come before all else, and placing keeps to its share of a frame.

import { describe, expect, test } from 'vitest';
import type { DerivedLevel } from '../../../core/report/index.ts';
import { flagFindings } from '../../../core/sheets/plan-options.ts';
import { textItems } from '../../../core/sheets/sheet-faults.ts';
import { labelBook } from '../../../renderer/sheet/label-book.ts';
import { namedAt, notePainted } from '../../../renderer/sheet/painted.ts';
import type { Pinned } from '../../../renderer/sheet/pinned.ts';
import { wordsOf } from '../../../renderer/sheet/sheet-words.ts';
import { roomBox } from '../../../renderer/sheet/sight.ts';
import { detailFor, POINT_PX, stepAt } from '../../../renderer/sheet/steps.ts';
import { fittedTo } from '../../../renderer/sheet/view-moves.ts';
import type { Stage } from '../../../renderer/state/app-state.ts';
import { refKey } from '../../../renderer/state/refs.ts';
import { boundsOf, REAL_SIZE, type Viewport, zoomedAt } from '../../../renderer/state/viewport.ts';
import { demoHouse, plainMeasure } from './house.ts';

type Label = Extract<Pinned, { kind: 'label' }>;
const house = demoHouse('larkspur-house');
const level = house.levels[0]!;
const words = wordsOf(house.plan);
const sheet: Viewport = { centre: [0, 0], pixelsPerTick: REAL_SIZE / 48, width: 4000, height: 3000 };

const labelsAt = (of: DerivedLevel, stage: Stage, pixelsPerTick: number): readonly Label[] =>
  allAt(of, stage, pixelsPerTick).filter((each): each is Label => each.kind === 'label');

function allAt(of: DerivedLevel, stage: Stage, pixelsPerTick: number): readonly Pinned[] {
  const whole = fittedTo(sheet, of);
  const viewport = zoomedAt(whole, [2000, 1500], pixelsPerTick / whole.pixelsPerTick);
  const asked = { level: of, findings: house.findings, stage, viewport, words };
  const book = labelBook(plainMeasure, () => 0);
  const { labels, more } = book.labels(asked, 1);
  expect(more).toBe(false);
  return labels;
}

const wordsIn = (labels: readonly Label[], role: string): string[] =>
  labels
    .flatMap(({ items }) => textItems(items).filter((each) => each.role === role))
    .map(({ text }) => text);

describe('steps of zoom', () => {
  test('a step is at or just below its zoom, and a zoom is its own step’s', () => {
    for (let zoom = 1e-6; zoom < 1; zoom *= 1.07) {
      const step = stepAt(zoom);
      expect(step).toBeLessThanOrEqual(zoom * 1.000001);
      expect(zoom / step).toBeLessThan(2 ** (1 / 5) * 1.000001);
      expect(stepAt(step)).toBe(step);
    }
  });

  test('a larger room never shows less', () => {
    let before = detailFor(0, 0);
    expect(Object.values(before).some(Boolean)).toBe(false);
    for (let side = 4; side < 400; side += 4) {
      const now = detailFor(side, side * 1.4);
      for (const key of Object.keys(now) as (keyof typeof now)[])
        if (before[key]) expect(now[key], `${key} at ${side}`).toBe(true);
      before = now;
    }
  });
});

describe('labels on the sheet', () => {
  for (const stage of ['measure', 'draw', 'trim'] as const)
    test(`no two texts overlap at the stage ${stage}, at any zoom`, () => {
      for (const ratio of [160, 97, 61, 48, 33, 24, 16]) {
        const zoom = REAL_SIZE / ratio;
        const texts = labelsAt(level, stage, zoom).flatMap(({ anchor, items }) =>
          textItems(items).map(({ text, box }) => {
            const [x, y] = [(anchor[0] * zoom) / POINT_PX, (anchor[1] * zoom) / POINT_PX];
            return { text, box: [box[0] + x, box[1] + y, box[2] + x, box[3] + y] as const };
          }),
        );
        for (const [i, a] of texts.entries())
          for (const b of texts.slice(i + 1)) {
            const apart =
              a.box[2] <= b.box[0] + 0.01 ||
              b.box[2] <= a.box[0] + 0.01 ||
              a.box[3] <= b.box[1] + 0.01 ||
              b.box[3] <= a.box[1] + 0.01;
            expect(apart, `1:${ratio}: '${a.text}' and '${b.text}'`).toBe(true);
          }
      }
    });

  test('a dimension stands no farther from its face than that is long', () => {
    const faces = new Map(
      level.walk.rooms.flatMap(({ loops }) =>
        loops.flatMap(({ segments }) => segments.map((each) => [each.key as string, each] as const)),
      ),
    );
    let [count, short] = [0, 0];
    for (const ratio of [110, 97, 90, 73, 61, 48, 24])
      for (const stage of ['measure', 'draw'] as const) {
        let line: Extract<Pinned, { kind: 'tie' }> | null = null;
        for (const each of allAt(level, stage, REAL_SIZE / ratio)) {
          if (each.kind === 'tie') line = each;
          const face = each.kind === 'label' && each.ref?.kind === 'segment' ? faces.get(each.ref.id) : null;
          if (face == null || line === null) continue;
          const [x, y] = [line.from[0] - face.start[0], line.from[1] - face.start[1]];
          const far = x * face.inward[0] + y * face.inward[1];
          expect(far, `${face.key} at 1:${ratio}`).toBeLessThanOrEqual(face.drawn + 1);
          count += 1;
          if (far > face.drawn / 2) short += 1;
          line = null;
        }
      }
    expect(count).toBeGreaterThan(100);
    expect(short).toBeGreaterThan(3);
  });

  test('angles stand apart from what is in one line with them', () => {
    for (const ratio of [48, 61, 73, 90]) {
      const zoom = REAL_SIZE / ratio;
      const texts = labelsAt(level, 'measure', zoom).flatMap(({ anchor, items }) =>
        textItems(items).map((each) => ({
          ...each,
          from: (anchor[0] * zoom) / POINT_PX + each.box[0],
          to: (anchor[0] * zoom) / POINT_PX + each.box[2],
          y: (anchor[1] * zoom) / POINT_PX + (each.box[1] + each.box[3]) / 2,
        })),
      );
      const angles = texts.filter(({ role }) => role?.startsWith('angle'));
      expect(angles.length).toBeGreaterThan(1);
      for (const one of angles)
        for (const other of texts) {
          if (other === one || Math.abs(other.y - one.y) > 5) continue;
          const gap = Math.max(other.from - one.to, one.from - other.to);
          expect(gap, `1:${ratio}: '${one.text}' and '${other.text}'`).toBeGreaterThan(3);
        }
    }
  });

  test('close enough, every corner has its number and every joint its mark', () => {
    const labels = labelsAt(level, 'trim', REAL_SIZE / 16);
    const numbers = level.walk.rooms.flatMap(({ loops }) =>
      loops.flatMap(({ corners }) => corners.map(({ number }) => String(number))),
    );
    expect(wordsIn(labels, 'corner-number').toSorted()).toEqual(numbers.toSorted());
    expect(wordsIn(labels, 'joint-letter').length).toBeGreaterThan(30);
  });

  test('from far away there are no labels at all, and corner numbers come before board ids', () => {
    expect(labelsAt(level, 'trim', REAL_SIZE / 3000)).toEqual([]);
    const firstRatio = (role: string): number =>
      [400, 300, 240, 200, 160, 130, 110, 96, 80].find(
        (ratio) => wordsIn(labelsAt(level, 'trim', REAL_SIZE / ratio), role).length > 0,
      ) ?? 0;
    expect(firstRatio('corner-number')).toBeGreaterThanOrEqual(firstRatio('piece-id'));
    expect(firstRatio('piece-id')).toBeGreaterThan(0);
  });

  test('no room shows a board’s id while one of its corners has no number', () => {
    let [seen, waiting] = [0, 0];
    for (const ratio of [200, 160, 130, 110, 96, 80, 64, 48, 32, 24]) {
      const labels = labelsAt(level, 'trim', REAL_SIZE / ratio);
      const named = new Set(labels.flatMap(({ ref }) => (ref === null ? [] : [refKey(ref)])));
      for (const { room, lines } of level.trims) {
        const ids = lines.flatMap(({ runs }) => runs.flatMap(({ pieces }) => pieces.map(({ id }) => id)));
        const shows = ids.some((id) => named.has(`piece|L1|${id}`));
        const corners = room.loops.flatMap((loop) => loop.corners);
        const whole = corners.every(({ key }) => named.has(`corner|L1|${key}`));
        if (shows) seen += 1;
        if (!whole) waiting += 1;
        if (shows) expect(whole, `${room.name} at 1:${ratio}`).toBe(true);
      }
    }
    expect(seen).toBeGreaterThan(20);
    expect(waiting).toBeGreaterThan(10);
  });

  test('a length that was measured is told from one that was only drawn', () => {
    const labels = labelsAt(level, 'measure', REAL_SIZE / 24);
    expect(wordsIn(labels, 'dimension-measured').length).toBeGreaterThan(0);
    const drawn = wordsIn(labels, 'dimension');
    expect(drawn.length).toBeGreaterThan(5);
    for (const text of drawn) expect(text).toMatch(/^\(.*\)$/);
  });
});

describe('a wall that runs out of sight at both ends', () => {
  // A long face, seen from close by over a stretch right beside its start.
  const face = level.walk.rooms
    .flatMap(({ loops }) => loops.flatMap(({ segments }) => segments))
    .toSorted((a, b) => b.drawn - a.drawn)[0]!;
  const viewport: Viewport = {
    width: 500,
    height: 400,
    pixelsPerTick: 1500 / face.drawn,
    centre: [
      face.start[0] + (face.along[0] * face.drawn) / 5 + face.inward[0] * 30_000,
      face.start[1] + (face.along[1] * face.drawn) / 5 + face.inward[1] * 30_000,
    ],
  };
  /** Figures in sight after the view has come here from one that showed the whole room. */
  const said = (rests: boolean): readonly string[] => {
    const asked = { level, findings: house.findings, stage: 'draw' as const, viewport, words };
    const book = labelBook(plainMeasure, () => 0);
    book.labels({ ...asked, viewport: { ...viewport, width: 8000, height: 8000 } }, 1);
    const { labels } = book.labels({ ...asked, rests }, 1);
    const seen = boundsOf(viewport);
    const inSight = labels.filter(
      (each): each is Label =>
        each.kind === 'label' &&
        each.anchor[0] > seen[0] &&
        each.anchor[0] < seen[2] &&
        each.anchor[1] > seen[1] &&
        each.anchor[1] < seen[3],
    );
    return wordsIn(inSight, 'dimension');
  };

  test('has its length where it is seen once the view rests, and not before', () => {
    expect(said(true)).toContain(words.length(face.drawn));
    expect(said(false)).not.toContain(words.length(face.drawn));
  });
});

describe('placing within a frame', () => {
  const viewport = fittedTo({ ...sheet, width: 1200, height: 800 }, level);
  const asked = { level, findings: house.findings, stage: 'trim' as const, viewport, words };

  test('with no time left nothing is placed, and it is said that more is to come', () => {
    const book = labelBook(plainMeasure, () => 10);
    expect(book.labels(asked, 5)).toEqual({ labels: [], more: true, placed: [] });
  });

  test('what was placed is kept: with no time left it is there', () => {
    let now = 0;
    const book = labelBook(plainMeasure, () => now);
    const { labels } = book.labels(asked, 1);
    now = 10;
    const again = book.labels(asked, 5);
    expect(again.more).toBe(false);
    expect(again.labels).toEqual(labels);
    const next = { ...asked, viewport: { ...viewport, pixelsPerTick: viewport.pixelsPerTick * 1.2 } };
    const standingIn = book.labels(next, 5);
    expect(standingIn.more).toBe(true);
    expect(standingIn.labels.length).toBeGreaterThan(0);
  });

  test('a place on a label names what the label stands for, at its own stage only', () => {
    const book = labelBook(plainMeasure, () => 0);
    const { labels } = book.labels(asked, 1);
    notePainted(level, 'trim', () => labels);
    const corner = labels.find(
      (each): each is Label => each.kind === 'label' && each.ref?.kind === 'corner',
    )!;
    expect(namedAt(level, 'trim', corner.anchor, viewport.pixelsPerTick)).toEqual(corner.ref);
    expect(namedAt(level, 'draw', corner.anchor, viewport.pixelsPerTick)).toBeNull();
  });
});

test('the finding that is open keeps its letter, however small its room is drawn', () => {
  const view = fittedTo({ ...sheet, width: 700, height: 460 }, level);
  const flagged = flagFindings(house.findings, level.walk.levelId);
  const shownWith = (open: string | null, letter: string): boolean => {
    const asked = { level, findings: house.findings, stage: 'trim', viewport: view, words, open } as const;
    const { labels } = labelBook(plainMeasure, () => 0).labels(asked, 1);
    return labels.some(
      (each) =>
        each.kind === 'label' &&
        each.flag === letter &&
        textItems(each.items).some(({ text }) => text === letter),
    );
  };
  const without = flagged.filter(({ letter }) => !shownWith(null, letter));
  expect(without.length).toBeGreaterThan(0);
  for (const { letter } of flagged) expect(shownWith(letter, letter), letter).toBe(true);
});

test('flags outside the rooms that would lie on one another are one, and more of them nearer to; none out of sight', () => {
  const [corner] = level.walk.rooms[0]!.loops[0]!.corners;
  const [from] = house.findings;
  const findings = Array.from({ length: 5000 }, (_, i) => ({
    ...from!,
    level: level.walk.levelId,
    room: null,
    at: [corner!.at[0] + i * 320, corner!.at[1]] as const,
  }));
  const flagsAt = (pixelsPerTick: number): number => {
    const viewport = { ...sheet, centre: corner!.at, pixelsPerTick };
    const asked = { level, findings, stage: 'trim' as const, viewport, words };
    const { labels } = labelBook(plainMeasure, () => 0).labels(asked, Number.NEGATIVE_INFINITY);
    return labels.filter((each) => each.kind === 'label' && each.flag !== undefined).length;
  };
  const [far, near, nearest] = [REAL_SIZE / 100, REAL_SIZE / 10, REAL_SIZE * 10].map(flagsAt);
  expect(far).toBeGreaterThan(1);
  expect(near).toBeGreaterThan(far!);
  expect(near).toBeLessThan(1000);
  expect(nearest).toBeLessThan(120);
});

test('thousands of findings at one spot of a room cost little more than some: the worst have their letters, a dot stands for the rest', () => {
  const [room] = level.walk.rooms;
  const [from] = house.findings;
  const [left, top, right, bottom] = roomBox(room!)!;
  const placed = (count: number) => {
    const at = (i: number) => [(left + right) / 2 + (i % 40) * 16, (top + bottom) / 2] as const;
    const findings = Array.from({ length: count }, (_, i) => ({
      ...from!,
      level: level.walk.levelId,
      room: room!.id,
      at: at(i),
    }));
    let asked = 0;
    const measure = {
      ...plainMeasure,
      width: (...given: Parameters<typeof plainMeasure.width>) => {
        asked += 1;
        return plainMeasure.width(...given);
      },
    };
    const stands = { level, findings, stage: 'draw' as const, viewport: fittedTo(sheet, level), words };
    const { labels } = labelBook(measure, () => 0).labels(stands, 1);
    const flags = labels.filter((each): each is Label => each.kind === 'label' && each.flag !== undefined);
    return { asked, flags, labels: labels.length };
  };
  const [some, all] = [placed(60), placed(4000)];
  expect(all.flags.map(({ flag }) => flag)).toEqual(some.flags.map(({ flag }) => flag));
  expect(all.flags[0]!.flag).toBe('A');
  expect(all.labels).toBeLessThanOrEqual(some.labels);
  expect(all.asked).toBeLessThan(some.asked * 1.1);
});
