// A sparse solver engine seen as core's `Solver`: bounds and rows to compressed rows, status codes to answers.
// The engine itself is loaded outside core (a service, a worker of the window); both use this, so both get one answer.
// Kept: one thread, one seed, tight tolerances, limits of work and never of time. Numbers go over as doubles, not as text.

import type { LinearProgram, Solver, SolverAnswer } from './types.ts';

/** Simplex iterations or branch-and-bound nodes where the caller sets no limit. */
const DEFAULT_WORK = 200_000;
const SEED = 20;
/** Feasibility and optimality, in the programme's own units: the least the engine takes. */
const TOLERANCE = 1e-10;
/** The same where whole numbers are asked for: cuts and branches carry more rounding. */
const MIXED_TOLERANCE = 1e-9;
/** Bounds beyond this count as none; a cost or factor beyond it is refused. */
const HUGE = 1e20;
/** Factors at or below this are dropped by the engine: refused rather than lost. */
const TINY = 1e-12;

/** What is needed of the engine. It matches the `highs` package; core does not import that. */
export interface SparseEngine {
  readonly infinity: number;
  createModel(data: EngineModelData): EngineModel;
}

export interface EngineModelData {
  readonly numCols: number;
  readonly numRows: number;
  readonly colCost: Float64Array;
  readonly colLower: Float64Array;
  readonly colUpper: Float64Array;
  readonly rowLower: Float64Array;
  readonly rowUpper: Float64Array;
  readonly matrix: {
    readonly format: 'csr';
    readonly numRows: number;
    readonly numCols: number;
    readonly starts: Int32Array;
    readonly indices: Int32Array;
    readonly values: Float64Array;
  };
  readonly integrality?: Int32Array;
}

export interface EngineModel {
  readonly options: { set(options: Readonly<Record<string, string | number | boolean>>): unknown };
  readonly info: { get(name: string): unknown };
  run(): unknown;
  getModelStatus(): number;
  getObjectiveValue(): number;
  getSolution(): { readonly colValue: Float64Array };
  dispose(): void;
}

/** Status codes of the engine. */
const OPTIMAL = 7;
const INFEASIBLE = 8;
const UNBOUNDED_OR_INFEASIBLE = 9;
const UNBOUNDED = 10;
const LIMITS = new Set([11, 12, 14, 16]);
/** `primal_solution_status` when the values at hand satisfy every row. */
const FEASIBLE = 2;

/**
 * Core's solver on a sparse engine. `solve` throws on a programme that is not one (a column that is not there, NaN, a
 * factor too small to be kept) and on an engine that fails; infeasible, unbounded and limit are answers.
 */
export function solverOn(engine: SparseEngine): Solver {
  return {
    solve(program, workLimit = DEFAULT_WORK, below = Number.POSITIVE_INFINITY) {
      check(program);
      if (program.columns.length === 0) return withoutColumns(program);
      const answer = run(engine, program, workLimit, below, 'choose');
      // Presolve may not tell the two apart; without it the engine can.
      if (answer === 'unsure') {
        const again = run(engine, program, workLimit, below, 'off');
        if (again === 'unsure') return toldApart(engine, program, workLimit);
        return again;
      }
      return answer;
    },
  };
}

/** Nothing to choose: every row is 0, which its bounds allow or not. */
function withoutColumns(program: LinearProgram): SolverAnswer {
  const met = program.rows.every(({ lower, upper }) => lower <= TOLERANCE && upper >= -TOLERANCE);
  return met ? { status: 'optimal', objective: 0, x: [], bound: 0 } : { status: 'infeasible' };
}

/** Infeasible or unbounded? With no costs an unbounded programme has an optimum and an infeasible one still has none. */
function toldApart(engine: SparseEngine, program: LinearProgram, workLimit: number): SolverAnswer {
  const flat = { ...program, columns: program.columns.map((column) => ({ ...column, cost: 0 })) };
  const answer = run(engine, flat, workLimit, Number.POSITIVE_INFINITY, 'off');
  if (answer === 'unsure' || answer.status === 'infeasible') return { status: 'infeasible' };
  if (answer.status === 'limit') return { status: 'limit', objective: null, x: null, bound: null };
  return { status: 'unbounded' };
}

function run(
  engine: SparseEngine,
  program: LinearProgram,
  workLimit: number,
  below: number,
  presolve: 'choose' | 'off',
): SolverAnswer | 'unsure' {
  const mixed = program.columns.some((column) => column.integer === true);
  const model = engine.createModel(compressed(engine, program, mixed));
  try {
    model.options.set({
      output_flag: false,
      random_seed: SEED,
      presolve,
      solver: mixed ? 'choose' : 'simplex',
      small_matrix_value: TINY,
      primal_feasibility_tolerance: mixed ? MIXED_TOLERANCE : TOLERANCE,
      dual_feasibility_tolerance: mixed ? MIXED_TOLERANCE : TOLERANCE,
      mip_feasibility_tolerance: MIXED_TOLERANCE,
      mip_rel_gap: 0,
      mip_abs_gap: MIXED_TOLERANCE,
      ...(mixed
        ? {
            mip_max_nodes: workLimit,
            mip_max_leaves: workLimit,
            ...(below < HUGE ? { objective_bound: below } : {}),
          }
        : { simplex_iteration_limit: workLimit }),
    });
    model.run();
    return answerOf(model, program, mixed, below);
  } finally {
    model.dispose();
  }
}

function answerOf(
  model: EngineModel,
  program: LinearProgram,
  mixed: boolean,
  below: number,
): SolverAnswer | 'unsure' {
  const status = model.getModelStatus();
  if (status === INFEASIBLE) return { status: 'infeasible' };
  if (status === UNBOUNDED) return { status: 'unbounded' };
  if (status === UNBOUNDED_OR_INFEASIBLE) return 'unsure';
  if (status === OPTIMAL) {
    const x = cleaned(model.getSolution().colValue, program);
    const objective = model.getObjectiveValue();
    // Whatever is left when all that costs less is ruled out.
    if (mixed && objective >= below) return { status: 'infeasible' };
    return { status: 'optimal', objective, x, bound: mixed ? dualBound(model, objective) : objective };
  }
  if (LIMITS.has(status)) {
    const held = model.info.get('primal_solution_status') === FEASIBLE;
    return {
      status: 'limit',
      objective: held ? model.getObjectiveValue() : null,
      x: held ? cleaned(model.getSolution().colValue, program) : null,
      bound: mixed ? finite(Math.min(below, dualBound(model, Number.NaN))) : null,
    };
  }
  throw new Error(`solver: the engine ended with status ${status}`);
}

function dualBound(model: EngineModel, otherwise: number): number {
  const bound = model.info.get('mip_dual_bound');
  return typeof bound === 'number' && Math.abs(bound) < HUGE ? bound : otherwise;
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

/** Whole columns come out whole, dust and −0 come out 0. */
function cleaned(values: Float64Array, program: LinearProgram): number[] {
  return program.columns.map((column, index) => {
    const value = values[index] ?? 0;
    if (column.integer === true) return Math.round(value) + 0;
    return Math.abs(value) < MIXED_TOLERANCE ? 0 : value;
  });
}

function compressed(engine: SparseEngine, program: LinearProgram, mixed: boolean): EngineModelData {
  const { columns, rows } = program;
  const bound = (value: number): number =>
    value >= HUGE ? engine.infinity : value <= -HUGE ? -engine.infinity : value;
  const starts = new Int32Array(rows.length + 1);
  const indices: number[] = [];
  const values: number[] = [];
  rows.forEach((row, r) => {
    const factors = new Map<number, number>();
    for (const [column, factor] of row.terms) factors.set(column, (factors.get(column) ?? 0) + factor);
    for (const [column, factor] of [...factors].sort((a, b) => a[0] - b[0])) {
      if (factor === 0) continue;
      indices.push(column);
      values.push(factor);
    }
    starts[r + 1] = indices.length;
  });
  return {
    numCols: columns.length,
    numRows: rows.length,
    colCost: Float64Array.from(columns, (column) => column.cost),
    colLower: Float64Array.from(columns, (column) => bound(column.lower)),
    colUpper: Float64Array.from(columns, (column) => bound(column.upper)),
    rowLower: Float64Array.from(rows, (row) => bound(row.lower)),
    rowUpper: Float64Array.from(rows, (row) => bound(row.upper)),
    matrix: {
      format: 'csr',
      numRows: rows.length,
      numCols: columns.length,
      starts,
      indices: Int32Array.from(indices),
      values: Float64Array.from(values),
    },
    ...(mixed ? { integrality: Int32Array.from(columns, (column) => (column.integer ? 1 : 0)) } : {}),
  };
}

function check(program: LinearProgram): void {
  const { columns, rows } = program;
  columns.forEach(({ cost, lower, upper }, c) => {
    if (!Number.isFinite(cost) || Math.abs(cost) >= HUGE) {
      throw new RangeError(`solver: column ${c} costs ${cost}`);
    }
    if (Number.isNaN(lower) || Number.isNaN(upper))
      throw new RangeError(`solver: column ${c} has a bound NaN`);
  });
  rows.forEach(({ lower, upper, terms }, r) => {
    if (Number.isNaN(lower) || Number.isNaN(upper)) throw new RangeError(`solver: row ${r} has a bound NaN`);
    for (const [column, factor] of terms) {
      if (!Number.isInteger(column) || column < 0 || column >= columns.length) {
        throw new RangeError(`solver: row ${r} names column ${column} of ${columns.length}`);
      }
      const size = Math.abs(factor);
      if (!Number.isFinite(factor) || size >= HUGE || (size > 0 && size <= TINY)) {
        throw new RangeError(`solver: row ${r} has the factor ${factor}`);
      }
    }
  });
}
