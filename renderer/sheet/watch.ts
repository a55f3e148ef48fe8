// What the sheet hears of the browser: its size, the screen's pixels, the light, the fonts. Each a React hook or a listener
// that ends with it.

import { useEffect, useRef, useState, useSyncExternalStore } from 'react';
import type { Point } from '../../core/graph/index.ts';
import type { TextMeasure } from '../../core/sheets/items.ts';
import { remPx } from '../app/room.ts';
import type { App } from '../state/app.ts';
import type { AppState } from '../state/app-state.ts';
import { useApp } from '../state/react.ts';
import { pannedBy } from '../state/viewport.ts';
import type { Paper } from './palette.ts';
import { canvasMeasure, loadFaces } from './type.ts';

/** Light or dark paper, as the window is. */
export function usePaper(): Paper {
  return useSyncExternalStore(listenToTheme, () =>
    document.documentElement.dataset.theme === 'dark' ? 'dark' : 'light',
  );
}

function listenToTheme(heard: () => void): () => void {
  const watch = new MutationObserver(heard);
  watch.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
  return () => watch.disconnect();
}

/** Device pixels to a CSS pixel, now and when the window goes to another screen. */
export function usePixelRatio(): number {
  return useSyncExternalStore(listenToRatio, () => window.devicePixelRatio);
}

function listenToRatio(heard: () => void): () => void {
  let end = (): void => {};
  const listen = (): void => {
    const query = matchMedia(`(resolution: ${window.devicePixelRatio}dppx)`);
    const changed = (): void => {
      end();
      listen();
      heard();
    };
    query.addEventListener('change', changed);
    end = () => query.removeEventListener('change', changed);
  };
  listen();
  // Some browsers tell of a new screen by its size only.
  window.addEventListener('resize', heard);
  return () => {
    end();
    window.removeEventListener('resize', heard);
  };
}

/** Between one look at what is followed calmly and the next, ms. */
const CALM_MS = 100;

/** What is picked of the state, looked at only now and then: for what would else be laid out on every frame of a gesture. */
export function useCalmly<T>(pick: (state: AppState) => T): T {
  const { store } = useApp();
  const look = useRef(pick);
  const [value, setValue] = useState(() => pick(store.get()));
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const end = store.listen(() => {
      timer ??= setTimeout(() => {
        timer = undefined;
        setValue(look.current(store.get()));
      }, CALM_MS);
    });
    return () => {
      clearTimeout(timer);
      end();
    };
  }, [store]);
  return value;
}

/** A measure of the drawing's type: a new one when its faces have come. */
export function useMeasure(): TextMeasure {
  const [measure, setMeasure] = useState(newMeasure);
  useEffect(() => {
    let live = true;
    void loadFaces(document.fonts).then(() => {
      if (live) setMeasure(newMeasure());
    });
    return () => {
      live = false;
    };
  }, []);
  return measure;
}

function newMeasure(): TextMeasure {
  const context = document.createElement('canvas').getContext('2d');
  if (context === null) throw new Error('no canvas to measure type on');
  return canvasMeasure(context);
}

/** How large the window's text is to its usual size. */
function textScaleNow(): number {
  return remPx() / 16 || 1;
}

/**
 * Keeps the viewport as large as an element, in pixels that go with the size of text; what it shows stays where it is on the screen when a bar or a panel beside it
 * grows. Gives back what ends it.
 */
export function followSize(app: App, element: HTMLElement): () => void {
  let was: { readonly left: number; readonly top: number; readonly textScale: number } | null = null;
  const put = (): void => {
    const textScale = textScaleNow();
    const box = element.getBoundingClientRect();
    const [left, top] = [box.left / textScale, box.top / textScale];
    const [width, height] = [element.clientWidth / textScale, element.clientHeight / textScale];
    const from = was?.textScale === textScale ? was : { left, top };
    was = { left, top, textScale };
    app.change(({ viewport, textScale: before }) => {
      if (viewport.width === width && viewport.height === height && before === textScale) return {};
      const sized = { ...viewport, width, height };
      if (viewport.width === 0 || viewport.height === 0) return { viewport: sized, textScale };
      const by: Point = [
        from.left - left + (viewport.width - width) / 2,
        from.top - top + (viewport.height - height) / 2,
      ];
      return { viewport: before === textScale ? pannedBy(sized, by) : sized, textScale };
    });
  };
  const watch = new ResizeObserver(put);
  watch.observe(element);
  put();
  return () => watch.disconnect();
}
