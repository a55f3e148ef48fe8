// What the sheet hears of the browser: its size, the screen's pixels, the light, the fonts. Each a React hook or a listener
// that ends with it.

import { useEffect, useRef, useState, useSyncExternalStore } from 'react';
import type { Point } from '../../core/graph/index.ts';
import type { TextMeasure } from '../../core/sheets/items.ts';
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

/**
 * Keeps the viewport as large as an element; what it shows stays where it is on the screen when a bar or a panel beside it
 * grows. Gives back what ends it.
 */
export function followSize(app: App, element: HTMLElement): () => void {
  let was: { readonly left: number; readonly top: number } | null = null;
  const put = (): void => {
    const { left, top } = element.getBoundingClientRect();
    const { clientWidth: width, clientHeight: height } = element;
    const from = was ?? { left, top };
    was = { left, top };
    app.look((viewport) => {
      if (viewport.width === width && viewport.height === height) return viewport;
      const sized = { ...viewport, width, height };
      if (viewport.width === 0 || viewport.height === 0) return sized;
      const by: Point = [
        from.left - left + (viewport.width - width) / 2,
        from.top - top + (viewport.height - height) / 2,
      ];
      return pannedBy(sized, by);
    });
  };
  const watch = new ResizeObserver(put);
  watch.observe(element);
  put();
  return () => watch.disconnect();
}
