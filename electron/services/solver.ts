// The solver behind core's interface, for everything that runs in Node: the `highs` package (WebAssembly, one thread).
// What is asked of it and how is core's (core/fit/engine.ts), so the window's worker gets the same answers.

import load from 'highs';
import { type SparseEngine, solverOn } from '../../core/fit/engine.ts';
import type { Solver } from '../../core/fit/types.ts';

/** Loads the engine and gives core's solver on it. Loading takes a moment: keep what it gives. */
export async function loadHighs(): Promise<Solver> {
  const engine: SparseEngine = await load();
  return solverOn(engine);
}
