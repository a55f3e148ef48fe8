// Something worked out when it is first asked for, and kept by whoever asks.

/** Gives what `make` makes, which is asked once. */
export function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
