// Bundled for a page: a plan's text and the solver's WebAssembly in, the solved report's JSON out.

import load from 'highs';
import { solverOn } from '../../core/fit/engine.ts';
import { readPlan } from '../../core/plan/index.ts';
import { derive, reportToJson, solve } from '../../core/report/index.ts';

/** The report as JSON text. `wasm` is the solver's binary in base64. */
export async function reportOf(planText: string, wasm: string): Promise<string> {
  const read = readPlan(planText);
  if (!read.ok) throw new Error(read.error.message);
  const bytes = Uint8Array.from(atob(wasm), (letter) => letter.charCodeAt(0));
  const address = URL.createObjectURL(new Blob([bytes], { type: 'application/wasm' }));
  const engine = await load({ locateFile: () => address });
  return reportToJson(solve(derive(read.plan), solverOn(engine)).report);
}
