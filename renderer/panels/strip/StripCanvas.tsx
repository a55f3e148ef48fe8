// The strip on a canvas as wide as what is seen of it: it is painted anew as it scrolls. Pointing shows what lies there,
// a click chooses it. The list of walls beside it says the same in words.

import { useEffect, useId, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { LevelId } from '../../../core/plan/index.ts';
import type { Derived } from '../../../core/report/index.ts';
import type { RoomTrim } from '../../../core/trim/index.ts';
import { darkNow } from '../../app/theme.ts';
import { paintItems } from '../../sheet/paint-items.ts';
import { paletteOf } from '../../sheet/palette.ts';
import { canvasMeasure, loadFaces } from '../../sheet/type.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { type Ref, sameRef } from '../../state/refs.ts';
import type { Figures } from '../kit/figures.ts';
import { type Box, boxesOf, placeAt, type StripPicture, stripPicture } from './strip-drawing.ts';
import { stripWords } from './strip-text.ts';

const EMPTY: StripPicture = { width: 0, height: 0, items: [], places: [], note: '' };

/** Redrawn when the fonts have come, since widths are theirs. */
function useFaces(): boolean {
  const [ready, setReady] = useState(false);
  useEffect(() => {
    let gone = false;
    void loadFaces(document.fonts).then(() => {
      if (!gone) setReady(true);
    });
    return () => {
      gone = true;
    };
  }, []);
  return ready;
}

export interface StripCanvasProps {
  readonly shown: Derived;
  readonly trim: RoomTrim;
  readonly level: LevelId;
  readonly loop: number;
  readonly pixelsPerFoot: number;
  readonly figures: Figures;
  /** Said after the note. */
  readonly more: string;
}

export function StripCanvas({ shown, trim, level, loop, pixelsPerFoot, figures, more }: StripCanvasProps) {
  const app = useApp();
  const id = useId();
  const scroller = useRef<HTMLElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const selection = usePicked((state) => state.selection);
  const hover = usePicked((state) => state.hover);
  const dark = usePicked((state) => darkNow(state.theme));
  const [left, setLeft] = useState(0);
  const [seen, setSeen] = useState(0);
  // The canvas's own type goes with the window's: twice the text, twice the drawing.
  const size = usePicked((state) => state.textScale);
  const ready = useFaces();

  const picture = useMemo(() => {
    const context = document.createElement('canvas').getContext('2d');
    const derived = shown.levels.find(({ walk }) => walk.levelId === level);
    if (context === null || derived === undefined || !ready) return EMPTY;
    return stripPicture(canvasMeasure(context), shown, derived, trim, loop, pixelsPerFoot);
  }, [shown, trim, level, loop, pixelsPerFoot, ready]);

  useEffect(() => {
    const box = scroller.current;
    if (box === null) return;
    const watch = new ResizeObserver(() => setSeen(box.clientWidth));
    watch.observe(box);
    return () => watch.disconnect();
  }, []);

  useLayoutEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (!context || seen === 0) return;
    const scale = globalThis.devicePixelRatio || 1;
    const own = context.canvas;
    own.width = Math.ceil(seen * scale);
    own.height = Math.ceil(picture.height * size * scale);
    context.setTransform(size * scale, 0, 0, size * scale, -left * scale, 0);
    paintItems(context, picture.items, dark ? 'dark' : 'light');
    const palette = paletteOf(dark ? 'dark' : 'light');
    const mark = ([x0, y0, x1, y1]: Box, wide: number, fill: boolean): void => {
      context.fillStyle = palette.chosenWash;
      if (fill) context.fillRect(x0, y0, x1 - x0, y1 - y0);
      context.strokeStyle = wide > 1 ? palette.chosen : palette.hover;
      context.lineWidth = wide;
      context.strokeRect(x0, y0, x1 - x0, y1 - y0);
    };
    for (const box of boxesOf(picture, hover)) mark(box, 1, false);
    for (const ref of selection) for (const box of boxesOf(picture, ref)) mark(box, 2, true);
  }, [picture, left, seen, size, selection, hover, dark]);

  // What is chosen elsewhere is scrolled into sight, once: the strip stays where the user has pushed it when the boards
  // are worked out or a figure changes. A room is everywhere.
  const chosen = selection[0] ?? null;
  const sought = useRef<{ readonly ref: Ref | null; readonly room: RoomTrim['room']['id'] } | null>(null);
  useEffect(() => {
    const box = scroller.current;
    if (box === null || picture === EMPTY) return;
    const before = sought.current;
    if (before !== null && before.room === trim.room.id && sameRef(before.ref, chosen)) return;
    sought.current = { ref: chosen, room: trim.room.id };
    const place = boxesOf(picture, chosen)[0];
    if (place === undefined) return;
    const [x0, x1] = [place[0] * size, place[2] * size];
    if (x0 < box.scrollLeft || x1 > box.scrollLeft + box.clientWidth)
      box.scrollTo({ left: (x0 + x1) / 2 - box.clientWidth / 2 });
  }, [picture, chosen, size, trim.room.id]);

  const under = (event: { clientX: number; clientY: number }): Ref | null => {
    const at = canvas.current?.getBoundingClientRect();
    if (at === undefined) return null;
    const [x, y] = [event.clientX - at.left + left, event.clientY - at.top];
    return placeAt(picture, x / size, y / size)?.ref ?? null;
  };
  const words = stripWords(shown, trim, loop, figures);
  const over = hover !== null && picture.places.some((each) => sameRef(each.ref, hover));

  return (
    <>
      <section
        ref={scroller}
        className="strip-scroll"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways, and keys must be able to
        tabIndex={0}
        aria-label={`Walls of ${trim.room.name || 'the room'}, unrolled`}
        aria-describedby={`${id}-note`}
        title="Walls unrolled. Click a board, a corner or an opening to choose it. Arrow keys scroll."
        onScroll={({ currentTarget }) => setLeft(currentTarget.scrollLeft)}
      >
        <div
          className="strip-room"
          ref={(box) => void box?.style.setProperty('width', `${picture.width * size}px`)}
        >
          {/* The walk is its twin for keys: everything that is chosen here is chosen there. */}
          <canvas
            ref={canvas}
            className={over ? 'strip-canvas over' : 'strip-canvas'}
            role="img"
            aria-label={`Drawing of ${words.length} walls in a line; the same follows in words`}
            style={{ width: seen, height: picture.height * size }}
            onPointerMove={(event) => {
              const ref = under(event);
              if (!sameRef(ref, app.store.get().hover)) app.change(() => ({ hover: ref }));
            }}
            onPointerLeave={() => app.change(() => ({ hover: null }))}
            onClick={(event) => {
              const ref = under(event);
              if (ref === null) return;
              if (event.shiftKey || event.ctrlKey || event.metaKey) app.toggle(ref);
              else app.select([ref]);
            }}
          />
        </div>
        <ul className="unseen">
          {words.map((wall) => (
            <li key={wall.key}>{wall.words}</li>
          ))}
        </ul>
      </section>
      <p id={`${id}-note`} className="strip-note soft">
        {picture.note} {more}
      </p>
    </>
  );
}
