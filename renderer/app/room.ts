// How much room the window has, in the size of its own text: what is wide at 100 % is narrow at 200 %.

import { type RefObject, useEffect, useState } from 'react';

/** Less than this many rem, and the side panels lie over the sheet. */
const NARROW_REM = 66;

export function useNarrow(ref: RefObject<HTMLElement | null>): boolean {
  const [narrow, setNarrow] = useState(false);
  useEffect(() => {
    const frame = ref.current;
    if (frame === null) return undefined;
    const look = (): void => {
      const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
      setNarrow(frame.clientWidth / rem < NARROW_REM);
    };
    const observer = new ResizeObserver(look);
    observer.observe(frame);
    // The first child is as high as its text: it changes with the size of the text alone.
    if (frame.firstElementChild !== null) observer.observe(frame.firstElementChild);
    look();
    return () => observer.disconnect();
  }, [ref]);
  return narrow;
}
