// Work that says itself where it may be cut up, done without a break.

/** What the steps give at their end. */
export function atOnce<T>(steps: Iterator<void, T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
