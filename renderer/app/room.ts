// How much room the window has, in the size of its own text: what is wide at 100 % is narrow at 200 %.

import { type RefObject, useEffect, useState } from 'react';
import { keepInSight } from '../sheet/show.ts';
import type { App } from '../state/app.ts';

/** Less than this many rem, and the side panels lie over the sheet. */
const NARROW_REM = 66;

/** The size of the window's text: CSS pixels to the rem. */
export function remPx(): number {
  return Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
}

function isNarrow(width: number): boolean {
  return width / remPx() < NARROW_REM;
}

export function useNarrow(ref: RefObject<HTMLElement | null>): boolean {
  // Known before anything is laid out: what is fitted into the room that is left is fitted once.
  const [narrow, setNarrow] = useState(() => isNarrow(document.documentElement.clientWidth));
  useEffect(() => {
    const frame = ref.current;
    if (frame === null) return undefined;
    const look = (): void => setNarrow(isNarrow(frame.clientWidth));
    const observer = new ResizeObserver(look);
    observer.observe(frame);
    // The first child is as high as its text: it changes with the size of the text alone.
    if (frame.firstElementChild !== null) observer.observe(frame.firstElementChild);
    look();
    return () => observer.disconnect();
  }, [ref]);
  return narrow;
}

/** Keeps the state told how far the side panels lie over the sheet; where they stand beside it, not at all. */
export function useCovered(app: App, ref: RefObject<HTMLElement | null>, narrow: boolean): void {
  useEffect(() => {
    const sides = ['frame-walk', 'frame-side'].flatMap(
      (id) => ref.current?.querySelector<HTMLElement>(`#${id}`) ?? [],
    );
    const look = (): void => {
      const [left = 0, right = 0] = sides.map(({ offsetWidth }) => (narrow ? offsetWidth : 0));
      const { covered } = app.store.get();
      if (covered.left === left && covered.right === right) return;
      app.change(() => ({ covered: { left, right } }));
      keepInSight(app, covered);
    };
    const observer = new ResizeObserver(look);
    for (const side of sides) observer.observe(side);
    look();
    return () => observer.disconnect();
  }, [app, ref, narrow]);
}
