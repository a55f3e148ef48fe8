// The still picture: paper, grid, walls, boards and labels on one canvas, painted as seldom as can be. A sheet that is moved
// keeps its pixels, and only what comes into sight is painted; one that is zoomed shows its last picture stretched until the
// zoom rests. What is at rest is always as if painted whole. Labels are placed while the browser has nothing else to do.
// Places in ticks; `Patch` in the canvas's own pixels. Knows no React and no tool.

import type { Finding } from '../../core/fit/types.ts';
import type { DerivedLevel } from '../../core/report/index.ts';
import type { RoomTrim } from '../../core/trim/types.ts';
import type { Stage } from '../state/app-state.ts';
import { type Bounds, boundsOf, pannedBy, toPlan, toScreen, type Viewport } from '../state/viewport.ts';
import { paintBoards } from './boards.ts';
import { paintGrid } from './grid.ts';
import { groundOf } from './ground.ts';
import { whenIdle } from './idle.ts';
import type { LabelBook } from './label-book.ts';
import { notePainted } from './painted.ts';
import type { Palette } from './palette.ts';
import { paintPinned } from './pinned.ts';
import type { SheetWords } from './placing.ts';
import { roomBox } from './sight.ts';

/** What the picture is of, apart from where it is looked at. */
export interface StillAsked {
  readonly level: DerivedLevel;
  /** Of the whole plan, worst first. */
  readonly findings: readonly Finding[];
  readonly stage: Stage;
  /** The letter of the finding that is open. */
  readonly open: string | null;
  readonly words: SheetWords;
  readonly grid: number | null;
  readonly palette: Palette;
  /** Labels stand back: what is being moved makes them those of before. */
  readonly faint: boolean;
}

/** A part of the canvas in its own pixels, whole ones. */
interface Patch {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

interface Painted {
  readonly asked: StillAsked;
  readonly viewport: Viewport;
  readonly ratio: number;
}

export interface Still {
  /** Brings the canvas up to date. Its context's unit is the CSS pixel. */
  paint(context: CanvasRenderingContext2D, asked: StillAsked): void;
  end(): void;
}

interface StillHooks {
  readonly book: LabelBook;
  view(): Viewport;
  /** Asks for another frame. */
  again(): void;
  /** How the canvas is to be shown: null as it is. */
  stretch(transform: string | null, asked: StillAsked, viewport: Viewport): void;
  /** All is painted and the view rests: there is time for what may be of use later. */
  spare(asked: StillAsked): void;
}

/** A view that has not changed for so long rests, ms. */
const REST_MS = 140;
/** How long a frame that shows something new may place labels, ms: the rest of it is for painting. */
const PLACING_MS = 5;
/** Labels that were placed meanwhile are shown together, this long after the first of them at the latest, ms. */
const TOGETHER_MS = 100;
/** A picture is not stretched further than this: it would be too coarse, or too small. */
const STRETCHED = [0.5, 2.2] as const;
/** Of an idle time, ms: what is left for others. */
const SPARE_MS = 3;
/** Of an idle time, ms: from so much on there is time for what is only of use later. */
const PLENTY_MS = 20;
/** Labels wait for an idle time no longer than this, ms. */
const IDLE_WITHIN_MS = 300;

export function stillPicture({ book, view, again, stretch, spare }: StillHooks): Still {
  let painted: Painted | null = null;
  let seen: Viewport | null = null;
  let zoomed = Number.NEGATIVE_INFINITY;
  let rests = true;
  let stretched = false;
  /** Of a picture at rest that waits for its labels: they have come. */
  let ready = false;
  /** Rooms with new labels that are not painted yet, and since when. */
  let fresh: RoomTrim[] = [];
  let freshSince = 0;
  let resting: ReturnType<typeof setTimeout> | undefined;
  let stopIdle: (() => void) | null = null;

  const labelsOf = (
    { level, findings, stage, open, words }: StillAsked,
    viewport: Viewport,
    part: Bounds,
  ) => ({
    level,
    findings,
    stage,
    open,
    words,
    viewport,
    part,
    rests,
  });

  function paintPart(context: CanvasRenderingContext2D, patch: Patch, now: Painted): void {
    const { asked, viewport, ratio } = now;
    const { palette, level } = asked;
    const [left, top] = [patch.x / ratio, patch.y / ratio];
    const [right, bottom] = [left + patch.width / ratio, top + patch.height / ratio];
    const part: Bounds = [...toPlan(viewport, [left, top]), ...toPlan(viewport, [right, bottom])];
    context.save();
    context.beginPath();
    context.rect(left, top, right - left, bottom - top);
    context.clip();
    context.fillStyle = palette.ground;
    context.fillRect(left, top, right - left, bottom - top);
    if (asked.grid !== null) paintGrid(context, viewport, asked.grid, palette);
    groundOf(level).paint(context, viewport, palette, part);
    if (asked.stage === 'trim') paintBoards(context, level.trims, viewport, palette, part);
    const { labels, more } = book.labels(labelsOf(asked, viewport, part), Number.NEGATIVE_INFINITY);
    if (asked.faint) context.globalAlpha = 0.3;
    paintPinned(context, labels, viewport, palette, ratio, [left, top, right, bottom]);
    context.restore();
    if (more) settleSoon();
  }

  function whole(context: CanvasRenderingContext2D, asked: StillAsked, viewport: Viewport): void {
    const ratio = context.getTransform().a;
    painted = { asked, viewport, ratio };
    fresh = [];
    unstretch(painted);
    const all = {
      x: 0,
      y: 0,
      width: Math.ceil(viewport.width * ratio),
      height: Math.ceil(viewport.height * ratio),
    };
    paintPart(context, all, painted);
    notePainted(
      asked.level,
      asked.stage,
      () => book.labels(labelsOf(asked, view(), boundsOf(view())), Number.NEGATIVE_INFINITY).labels,
    );
  }

  /** Moves the pixels by whole ones and paints what comes into sight. False where that is not worth it. */
  function slide(context: CanvasRenderingContext2D, was: Painted, viewport: Viewport): boolean {
    const { ratio } = was;
    const [atX, atY] = toScreen(viewport, was.viewport.centre);
    const x = (atX - viewport.width / 2) * ratio;
    const y = (atY - viewport.height / 2) * ratio;
    const [dx, dy] = [Math.round(x), Math.round(y)];
    const { width, height } = context.canvas;
    if (Math.abs(dx) > width / 2 || Math.abs(dy) > height / 2) return false;
    // Between the pixels: only while it moves.
    if (rests && Math.hypot(x - dx, y - dy) > 0.01) return false;
    unstretch(was);
    if (dx === 0 && dy === 0) return true;
    context.save();
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.globalCompositeOperation = 'copy';
    context.drawImage(context.canvas, dx, dy);
    context.restore();
    painted = { ...was, viewport: pannedBy(was.viewport, [dx / ratio, dy / ratio]) };
    if (dy !== 0)
      paintPart(context, { x: 0, y: dy > 0 ? 0 : height + dy, width, height: Math.abs(dy) }, painted);
    if (dx !== 0)
      paintPart(
        context,
        {
          x: dx > 0 ? 0 : width + dx,
          y: Math.max(0, dy),
          width: Math.abs(dx),
          height: height - Math.abs(dy),
        },
        painted,
      );
    return true;
  }

  /** Shows the picture as it was, larger or smaller. False where it would be too coarse. */
  function stretchTo({ asked, viewport: was }: Painted, viewport: Viewport): boolean {
    const by = viewport.pixelsPerTick / was.pixelsPerTick;
    if (by < STRETCHED[0] || by > STRETCHED[1]) return false;
    const [x, y] = toScreen(viewport, toPlan(was, [0, 0]));
    stretched = true;
    stretch(`matrix(${by}, 0, 0, ${by}, ${x}, ${y})`, asked, viewport);
    return true;
  }

  function unstretch({ asked, viewport }: Painted): void {
    if (stretched) stretch(null, asked, viewport);
    stretched = false;
  }

  /** Paints the rooms anew whose labels have come. */
  function freshen(context: CanvasRenderingContext2D, now: Painted): void {
    const { viewport, ratio } = now;
    const { width, height } = context.canvas;
    const patches = fresh.flatMap(({ room }) => {
      const box = roomBox(room);
      return (box && patchOf(box, viewport, ratio)) ?? [];
    });
    fresh = [];
    const area = patches.reduce((sum, patch) => sum + patch.width * patch.height, 0);
    if (area > (width * height) / 2) whole(context, now.asked, viewport);
    else for (const patch of patches) paintPart(context, patch, now);
  }

  function settleSoon(): void {
    stopIdle ??= whenIdle(settle, IDLE_WITHIN_MS);
  }

  /** Places labels while there is time; when all are there, or some have waited long enough, they are painted. */
  function settle(deadline: IdleDeadline): void {
    stopIdle = null;
    if (painted === null || (stretched && !rests)) return;
    const viewport = view();
    const { asked } = painted;
    const time = deadline.didTimeout ? PLACING_MS : deadline.timeRemaining() - SPARE_MS;
    const until = performance.now() + Math.max(1, time);
    const { placed, more } = book.labels(labelsOf(asked, viewport, boundsOf(viewport)), until);
    if (placed.length > 0 && fresh.length === 0) freshSince = performance.now();
    fresh.push(...placed);
    const shows = !more || performance.now() - freshSince > TOGETHER_MS;
    if (shows && (stretched ? !ready : fresh.length > 0)) {
      ready = true;
      again();
    }
    const around = { ...labelsOf(asked, viewport, roundAbout(viewport)), rests: false };
    if (more || (rests && book.labels(around, until).more)) settleSoon();
    else if (rests && !stretched) {
      if (deadline.timeRemaining() > PLENTY_MS) spare(asked);
      else settleSoon();
    }
  }

  function rest(): void {
    rests = true;
    ready = false;
    freshSince = performance.now();
    if (!stretched) again();
    settleSoon();
  }

  function move(viewport: Viewport): void {
    if (seen !== null && viewport.pixelsPerTick !== seen.pixelsPerTick) zoomed = performance.now();
    seen = viewport;
    rests = false;
    clearTimeout(resting);
    resting = setTimeout(rest, REST_MS);
  }

  return {
    paint: (context, asked) => {
      const viewport = view();
      const zooming = performance.now() - zoomed < REST_MS;
      if (seen !== viewport) move(viewport);
      if (painted === null || !sameAsked(painted, asked, viewport, context.getTransform().a)) {
        book.labels(labelsOf(asked, viewport, boundsOf(viewport)), performance.now() + PLACING_MS);
        whole(context, asked, viewport);
      } else if (painted.viewport.pixelsPerTick === viewport.pixelsPerTick) {
        if (!slide(context, painted, viewport)) whole(context, asked, viewport);
        else if (fresh.length > 0 && (ready || !rests)) freshen(context, painted);
      } else {
        const waits = rests ? stretched && !ready : zooming;
        if (!waits || !stretchTo(painted, viewport)) whole(context, asked, viewport);
      }
    },
    end: () => {
      clearTimeout(resting);
      stopIdle?.();
    },
  };
}

/** Whether a picture shows what is asked, wherever it was looked at. */
function sameAsked(
  { asked: was, viewport, ratio }: Painted,
  now: StillAsked,
  view: Viewport,
  by: number,
): boolean {
  return (
    ratio === by &&
    viewport.width === view.width &&
    viewport.height === view.height &&
    (Object.keys(now) as (keyof StillAsked)[]).every((key) => was[key] === now[key])
  );
}

/** The pixels about a place on the plan, as far as they are on the canvas; null where none is. */
function patchOf([left, top, right, bottom]: Bounds, viewport: Viewport, ratio: number): Patch | null {
  const over = 3;
  const [x0, y0] = toScreen(viewport, [left, top]).map((at) =>
    Math.max(0, Math.floor(at * ratio) - over),
  ) as [number, number];
  const [x, y] = toScreen(viewport, [right, bottom]);
  const width = Math.min(Math.ceil(viewport.width * ratio), Math.ceil(x * ratio) + over) - x0;
  const height = Math.min(Math.ceil(viewport.height * ratio), Math.ceil(y * ratio) + over) - y0;
  return width > 0 && height > 0 ? { x: x0, y: y0, width, height } : null;
}

/** What a view shows and half as much on every side. */
function roundAbout(viewport: Viewport): Bounds {
  const [left, top, right, bottom] = boundsOf(viewport);
  const [dx, dy] = [(right - left) / 2, (bottom - top) / 2];
  return [left - dx, top - dy, right + dx, bottom + dy];
}
