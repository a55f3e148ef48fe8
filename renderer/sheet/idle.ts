// Work for when the browser has nothing else to do. Milliseconds.

/** Runs when the browser has nothing else to do, or after so long, ms. Gives back what calls it off. */
export function whenIdle(run: (deadline: IdleDeadline) => void, timeout: number): () => void {
  if (typeof requestIdleCallback === 'function') {
    const idle = requestIdleCallback(run, { timeout });
    return () => cancelIdleCallback(idle);
  }
  const timer = setTimeout(() => run({ didTimeout: true, timeRemaining: () => timeout }), timeout);
  return () => clearTimeout(timer);
}
