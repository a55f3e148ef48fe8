// The least an order can cost, by a model that shares nothing with the product: arc flow. A board is a path from 0 along
// its length, each piece an arc as long as the piece and its cut; a flow of whole boards that carries every piece, solved
// to proof as one mixed programme. Source: J. M. Valério de Carvalho, 'Exact solution of bin-packing problems using
// column generation and branch-and-bound', Annals of Operations Research 86 (1999), from memory.
// Lengths are whole grid steps. The first piece on a board has the widest cut and is not charged for it: the last cut may
// fall off the end, and which piece is cut last is free.

import load from 'highs';

export interface ModelPiece {
  readonly need: number;
  readonly kerf: number;
}

export interface ModelBoard {
  /** Length less end trim. */
  readonly room: number;
  readonly cost: number;
  readonly limit: number | null;
}

interface Arc {
  readonly from: number;
  readonly to: number;
  /** Index of the piece kind, or −1 for nothing. */
  readonly kind: number;
}

function kindsOf(pieces: readonly ModelPiece[]): { need: number; kerf: number; count: number }[] {
  const kinds = new Map<string, { need: number; kerf: number; count: number }>();
  for (const { need, kerf } of pieces) {
    const key = `${need}/${kerf}`;
    const kind = kinds.get(key);
    if (kind) kind.count += 1;
    else kinds.set(key, { need, kerf, count: 1 });
  }
  return [...kinds.values()].sort((a, b) => b.kerf - a.kerf || b.need - a.need);
}

/** Arcs of every board that takes its pieces in the order of the kinds. */
function arcsOf(kinds: readonly { need: number; kerf: number; count: number }[], room: number): Arc[] {
  const arcs: Arc[] = [];
  const reached = new Array<boolean>(room + 1).fill(false);
  kinds.forEach(({ need, kerf, count }, kind) => {
    const before = reached.slice();
    const after = new Set<string>();
    const add = (from: number, to: number): void => {
      if (to > room || after.has(`${from} ${to}`)) return;
      after.add(`${from} ${to}`);
      arcs.push({ from, to, kind });
      reached[to] = true;
    };
    const more = (from: number, left: number): void => {
      for (let i = 0, at = from; i < left && at + need + kerf <= room; i++, at += need + kerf) {
        add(at, at + need + kerf);
      }
    };
    before.forEach((is, from) => {
      if (is) more(from, count);
    });
    if (need <= room) {
      add(0, need);
      more(need, count - 1);
    }
  });
  for (let at = 1; at < room; at++) arcs.push({ from: at, to: at + 1, kind: -1 });
  return arcs;
}

/** The least Σ cost of boards that hold all pieces, proved. Throws when it is not. Costs are whole numbers. */
export async function leastCost(
  pieces: readonly ModelPiece[],
  boards: readonly ModelBoard[],
): Promise<number> {
  const highs = await load();
  const kinds = kindsOf(pieces);
  const longest = Math.max(...boards.map((board) => board.room));
  const arcs = arcsOf(kinds, longest);
  const columns = arcs.length + boards.length;
  const rows: { terms: [number, number][]; lower: number; upper: number }[] = [];
  const inAt: [number, number][][] = Array.from({ length: longest + 1 }, () => []);
  arcs.forEach(({ from, to }, a) => {
    inAt[to]!.push([a, 1]);
    if (from > 0) inAt[from]!.push([a, -1]);
  });
  boards.forEach((board, b) => {
    if (board.room > 0) inAt[board.room]!.push([arcs.length + b, -1]);
  });
  for (let at = 1; at <= longest; at++) rows.push({ terms: inAt[at]!, lower: 0, upper: 0 });
  kinds.forEach(({ count }, kind) => {
    const terms = arcs.flatMap((arc, a): [number, number][] => (arc.kind === kind ? [[a, 1]] : []));
    rows.push({ terms, lower: count, upper: highs.infinity });
  });
  const starts = new Int32Array(rows.length + 1);
  const indices: number[] = [];
  const values: number[] = [];
  rows.forEach((row, r) => {
    for (const [column, factor] of row.terms.slice().sort((a, b) => a[0] - b[0])) {
      indices.push(column);
      values.push(factor);
    }
    starts[r + 1] = indices.length;
  });
  const upper = new Float64Array(columns).fill(pieces.length);
  boards.forEach((board, b) => {
    upper[arcs.length + b] = Math.min(board.limit ?? pieces.length, pieces.length);
  });
  const model = highs.createModel({
    numCols: columns,
    numRows: rows.length,
    colCost: Float64Array.from({ length: columns }, (_, c) => boards[c - arcs.length]?.cost ?? 0),
    colLower: new Float64Array(columns),
    colUpper: upper,
    rowLower: Float64Array.from(rows, (row) => row.lower),
    rowUpper: Float64Array.from(rows, (row) => row.upper),
    matrix: {
      format: 'csr',
      numRows: rows.length,
      numCols: columns,
      starts,
      indices: Int32Array.from(indices),
      values: Float64Array.from(values),
    },
    integrality: new Int32Array(columns).fill(1),
  });
  try {
    model.options.set({ output_flag: false, random_seed: 1, mip_rel_gap: 0, mip_abs_gap: 0.5 });
    model.run();
    const optimal = 7;
    if (model.getModelStatus() !== optimal) throw new Error(`no proof: status ${model.getModelStatus()}`);
    return Math.round(model.getObjectiveValue());
  } finally {
    model.dispose();
  }
}
