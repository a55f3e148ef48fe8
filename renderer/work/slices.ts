// Long work in the window's own thread, cut up: so much at a time, and in between the thread is the pointer's. Work says
// itself where it may be cut: at each step it yields.

/** How long the thread is kept at a time, ms. A frame has 16, and others work in it too. */
const SLICE_MS = 5;

/**
 * Works through the steps a slice at a time and hands over what they give. The first slice is worked before it returns: what
 * takes no longer is done then. Gives back what ends the work early; null where it is done.
 */
export function inSlices<T>(steps: Iterator<void, T>, done: (value: T) => void): (() => void) | null {
  let timer: ReturnType<typeof setTimeout> | null = null;
  function slice(): void {
    timer = null;
    const until = performance.now() + SLICE_MS;
    do {
      const step = steps.next();
      if (step.done) {
        done(step.value);
        return;
      }
    } while (performance.now() < until);
    timer = setTimeout(slice, 0);
  }
  slice();
  return timer === null ? null : () => clearTimeout(timer ?? undefined);
}
