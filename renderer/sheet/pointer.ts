// The pointer, the wheel and the keys on the sheet: what moves the view is done here, all else goes to the tool in hand as
// plan places (ticks). Moves are gathered and given once a frame. A gesture holds the pointer until it ends; a second finger
// or Escape gives it up. Knows no tool.

import type { Point } from '../../core/graph/index.ts';
import type { App } from '../state/app.ts';
import { sameRef } from '../state/refs.ts';
import { derivedLevelOf } from '../state/selectors.ts';
import { pannedBy, toPlan } from '../state/viewport.ts';
import { backOut, runKey, runningOf, runPointer } from '../tools/run.ts';
import type { PointerInput } from '../tools/types.ts';
import { hitIndex } from './hit.ts';
import { pinched, turned } from './wheel.ts';

interface PointerHooks {
  /** Where the pointer is, ticks; null where it has left. */
  at(place: Point | null): void;
  /** The sheet is being moved, or would be by the next press; null: the tool's own cursor. */
  hand(cursor: 'grab' | 'grabbing' | null): void;
  /** A press while choosing. True where it was on what is no thing of the plan: it is done with then. */
  pressed(place: Point): boolean;
}

const LONG_PRESS_MS = 550;
/** A finger that moves further than this is no long press, pixels. */
const STILL_PX = 8;
const ARROW_PX = 60;
const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: [ARROW_PX, 0],
  ArrowRight: [-ARROW_PX, 0],
  ArrowUp: [0, ARROW_PX],
  ArrowDown: [0, -ARROW_PX],
};

type Mode = 'idle' | 'tool' | 'pan' | 'pinch' | 'givenUp';

/** Listens on the sheet's element. Gives back what ends it. */
export function listenToPointer(app: App, element: HTMLElement, hooks: PointerHooks): () => void {
  let mode: Mode = 'idle';
  let space = false;
  let waiting: PointerInput | null = null;
  let frame = 0;
  let press: ReturnType<typeof setTimeout> | null = null;
  let pressedAt: Point = [0, 0];
  /** A finger's press that the tool has not been told of: it may yet be the first of two fingers. */
  let held: PointerInput | null = null;
  const down = new Map<number, Point>();

  const place = (event: MouseEvent): Point => {
    const { left, top } = element.getBoundingClientRect();
    const { textScale } = app.store.get();
    return [(event.clientX - left) / textScale, (event.clientY - top) / textScale];
  };
  const inputOf = (kind: PointerInput['kind'], event: MouseEvent, touch: boolean): PointerInput => ({
    kind,
    at: toPlan(app.store.get().viewport, place(event)),
    touch,
    shift: event.shiftKey,
    alt: event.altKey,
    mod: event.ctrlKey || event.metaKey,
  });
  const flush = (): void => {
    if (frame !== 0) cancelAnimationFrame(frame);
    frame = 0;
    const input = waiting;
    waiting = null;
    if (input === null) return;
    runPointer(app, input);
    if (mode === 'idle') hover(app, input.at);
  };
  const wait = (input: PointerInput): void => {
    waiting = input;
    if (frame === 0) frame = requestAnimationFrame(flush);
  };
  const tellHeld = (): void => {
    const input = held;
    held = null;
    if (input !== null) runPointer(app, input);
  };
  const stopPress = (): void => {
    if (press !== null) clearTimeout(press);
    press = null;
  };
  /** Gives up what the tool was doing; what it had done before stays. */
  const giveUp = (next: Mode): void => {
    waiting = null;
    stopPress();
    const told = held === null;
    held = null;
    if (mode === 'tool' && told) {
      const running = runningOf(app.store.get());
      if (running?.tool.busy(running.state)) backOut(app);
    }
    mode = next;
  };

  const onDown = (event: PointerEvent): void => {
    const at = place(event);
    element.focus({ preventScroll: true });
    down.set(event.pointerId, at);
    if (down.size === 2) {
      giveUp('pinch');
      return;
    }
    if (mode !== 'idle' || down.size > 1) return;
    if (event.button === 1 || (event.button === 0 && space)) {
      event.preventDefault();
      element.setPointerCapture(event.pointerId);
      mode = 'pan';
      hooks.hand('grabbing');
    } else if (event.button === 0) {
      flush();
      element.setPointerCapture(event.pointerId);
      mode = 'tool';
      const touch = event.pointerType === 'touch';
      pressedAt = at;
      const input = inputOf('down', event, touch);
      if (app.store.get().tool.id === 'select' && hooks.pressed(input.at)) {
        mode = 'givenUp';
        return;
      }
      if (touch) {
        held = input;
        press = setTimeout(() => longPress(input), LONG_PRESS_MS);
      } else runPointer(app, input);
    }
  };

  /** A finger held still: what lies beneath what a tap would choose. */
  const longPress = (input: PointerInput): void => {
    giveUp('givenUp');
    runPointer(app, input);
    runPointer(app, { ...input, kind: 'up' });
    runKey(app, { key: 'n', shift: false, alt: false, mod: false });
  };

  const onMove = (event: PointerEvent): void => {
    const at = place(event);
    const before = down.get(event.pointerId);
    if (mode === 'pinch' && before !== undefined && down.size === 2) {
      const other = [...down].find(([id]) => id !== event.pointerId)![1];
      app.look((viewport) => pinched(viewport, [before, other], [at, other]));
    } else if (mode === 'pan' && before !== undefined) {
      app.look((viewport) => pannedBy(viewport, [at[0] - before[0], at[1] - before[1]]));
    } else if (mode === 'tool' || mode === 'idle') {
      const still = Math.hypot(at[0] - pressedAt[0], at[1] - pressedAt[1]) <= STILL_PX;
      if (held !== null && still) return;
      stopPress();
      tellHeld();
      wait(inputOf('move', event, event.pointerType === 'touch'));
      hooks.at(toPlan(app.store.get().viewport, at));
    }
    if (before !== undefined) down.set(event.pointerId, at);
  };

  const onUp = (event: PointerEvent): void => {
    stopPress();
    const touch = event.pointerType === 'touch';
    down.delete(event.pointerId);
    if (mode === 'tool') {
      tellHeld();
      flush();
      mode = 'idle';
      runPointer(app, inputOf('up', event, touch));
    }
    if (down.size > 0) {
      // The finger that is left neither draws nor moves.
      if (mode === 'pinch') mode = 'givenUp';
      return;
    }
    mode = 'idle';
    hooks.hand(space ? 'grab' : null);
  };

  const onCancel = (event: PointerEvent): void => {
    if (!down.delete(event.pointerId)) return;
    giveUp('idle');
    hooks.hand(space ? 'grab' : null);
  };

  const onLeave = (event: PointerEvent): void => {
    if (mode !== 'idle') return;
    flush();
    hooks.at(null);
    runPointer(app, inputOf('leave', event, event.pointerType === 'touch'));
    if (app.store.get().hover !== null) app.change(() => ({ hover: null }));
  };

  const onDouble = (event: MouseEvent): void => {
    flush();
    runPointer(app, inputOf('double', event, false));
  };

  const onWheel = (event: WheelEvent): void => {
    event.preventDefault();
    const at = place(event);
    app.look((viewport) => turned(viewport, event, at));
  };

  const onKey = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.isComposing) return;
    const { key, shiftKey: shift, altKey: alt } = event;
    const mod = event.ctrlKey || event.metaKey;
    if (key === ' ' && !mod && !alt) {
      event.preventDefault();
      if (!space && mode === 'idle') hooks.hand('grab');
      space = true;
      return;
    }
    if (runKey(app, { key, shift, alt, mod })) {
      event.preventDefault();
      if (key === 'Escape' && mode === 'tool') giveUp('givenUp');
      return;
    }
    const way = ARROWS[key];
    if (way === undefined || mod || alt || app.store.get().selection.length > 0) return;
    event.preventDefault();
    app.look((viewport) => pannedBy(viewport, shift ? [way[0] / 4, way[1] / 4] : way));
  };

  const onKeyUp = (event: KeyboardEvent): void => {
    if (event.key === ' ') letSpaceGo();
  };
  const letSpaceGo = (): void => {
    space = false;
    if (mode !== 'pan') hooks.hand(null);
  };

  const end = new AbortController();
  const { signal } = end;
  element.addEventListener('pointerdown', onDown, { signal });
  element.addEventListener('pointermove', onMove, { signal });
  element.addEventListener('pointerup', onUp, { signal });
  element.addEventListener('pointercancel', onCancel, { signal });
  element.addEventListener('lostpointercapture', onCancel, { signal });
  element.addEventListener('pointerleave', onLeave, { signal });
  element.addEventListener('dblclick', onDouble, { signal });
  element.addEventListener('wheel', onWheel, { signal, passive: false });
  // A long press of a finger is ours, not the browser's menu.
  element.addEventListener('contextmenu', (event) => event.preventDefault(), { signal });
  element.addEventListener('keydown', onKey, { signal });
  element.addEventListener('keyup', onKeyUp, { signal });
  element.addEventListener('blur', letSpaceGo, { signal });
  return () => {
    end.abort();
    stopPress();
    if (frame !== 0) cancelAnimationFrame(frame);
  };
}

/** What the pointer is over, while choosing. A floor is too much to light up. */
function hover(app: App, at: Point): void {
  const state = app.store.get();
  const level = derivedLevelOf(state);
  if (level === null) return;
  const found =
    state.tool.id === 'select'
      ? hitIndex(level, state.stage).hit(at, state.viewport.pixelsPerTick)[0]
      : undefined;
  const next = found === undefined || found.kind === 'room' ? null : found;
  if (!sameRef(next, state.hover)) app.change(() => ({ hover: next }));
}
