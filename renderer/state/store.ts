// One value, changed as a whole, with listeners: what React's external stores ask for. States are immutable: a change
// gives a new state, and what did not change keeps its identity.

export interface Store<S> {
  get(): S;
  /** Puts the next state in place and tells the listeners, where it differs. */
  set(change: (state: S) => S): void;
  /** Gives back what ends the listening. */
  listen(listener: () => void): () => void;
}

export function createStore<S>(initial: S): Store<S> {
  let state = initial;
  const listeners = new Set<() => void>();
  return {
    get: () => state,
    set: (change) => {
      const next = change(state);
      if (next === state) return;
      state = next;
      for (const listener of [...listeners]) listener();
    },
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
