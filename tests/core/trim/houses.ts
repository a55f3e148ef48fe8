// Rooms for the trim tests, written by their faces in millimetres: walls are drawn round the outline, nodes n1, n2 …
// at its points and wall w1 from n1 to n2, w2 from n2 to n3 and so on, walked clockwise. Point k's corner has number k,
// so the board on wall k is `kA`. Faces are plaster unless a test says otherwise: no build-up allowance.

import { type Plan, PlanSchema } from '../../../core/plan/schema.ts';
import { trimRoom } from '../../../core/trim/index.ts';
import type { JointAt, LineTrim, Piece, RoomTrim, Splits } from '../../../core/trim/types.ts';
import { mmFromTicks } from '../../../core/units/ticks.ts';
import { walkLevel } from '../../../core/walk/index.ts';

export type Fields = Readonly<Record<string, unknown>>;

export interface HouseOptions {
  readonly thickness?: number;
  readonly surface?: string;
  readonly trim?: Fields;
  readonly room?: Fields;
  /** By point: measured angle, user's choice. */
  readonly corners?: Readonly<Record<number, Fields>>;
  /** By wall: the room side's face record. */
  readonly faces?: Readonly<Record<number, Fields>>;
  readonly surfaces?: Readonly<Record<number, string>>;
  readonly heights?: Readonly<Record<number, number>>;
  readonly openings?: Fields;
  readonly builtIns?: Fields;
  readonly settings?: Fields;
  readonly profiles?: Fields;
  readonly units?: 'imperial' | 'metric';
}

const moulding = (kind: string, form: string, height: number, thickness: number, more: Fields = {}) => ({
  kind,
  name: `${form} ${kind} ${thickness}`,
  height,
  thickness,
  form,
  material: 'pine',
  stock: [],
  ...more,
});

/** Thicknesses in mm: shaped 12.7, flat 12.7, thick 19.05 (shaped, taller), shoe 11.1125, casing edge 17.4625. */
export const PROFILES: Fields = {
  shaped: moulding('base', 'shaped', 139.7, 12.7),
  flat: moulding('base', 'flat', 139.7, 12.7),
  thick: moulding('base', 'shaped', 184.15, 19.05),
  stocked: moulding('base', 'shaped', 139.7, 12.7, { stock: [{ length: 2500 }] }),
  shoe: moulding('shoe', 'shaped', 19.05, 11.1125),
  thin: moulding('shoe', 'shaped', 19.05, 3.175),
  case: {
    kind: 'casing',
    name: 'Casing',
    width: 69.85,
    thickness: 17.4625,
    form: 'flat',
    material: 'poplar',
    stock: [],
  },
};

/** The outline moved outwards by half the wall: the centre lines. */
function centreLines(faces: readonly (readonly [number, number])[], half: number): [number, number][] {
  const count = faces.length;
  return faces.map((at, i) => {
    const before = faces[(i + count - 1) % count]!;
    const after = faces[(i + 1) % count]!;
    const unit = (a: readonly number[], b: readonly number[]): [number, number] => {
      const [dx, dy] = [b[0]! - a[0]!, b[1]! - a[1]!];
      const length = Math.sqrt(dx * dx + dy * dy);
      return [dx / length, dy / length];
    };
    const [u, v] = [unit(before, at), unit(at, after)];
    // Left of the walk is outwards: (dy, −dx) on a sheet whose y runs down.
    const share = half / (1 + u[0] * v[0] + u[1] * v[1]);
    return [at[0] + share * (u[1] + v[1]), at[1] - share * (u[0] + v[0])];
  });
}

export function housePlan(faces: readonly (readonly [number, number])[], options: HouseOptions = {}): Plan {
  const count = faces.length;
  const thickness = options.thickness ?? 100;
  const points = centreLines(faces, thickness / 2);
  const id = (k: number) => ((k - 1 + count) % count) + 1;
  const walls = Object.fromEntries(
    points.map((_, i) => [
      `w${i + 1}`,
      {
        from: `n${i + 1}`,
        to: `n${id(i + 2)}`,
        thickness,
        height: options.heights?.[i + 1] ?? null,
        faces: { left: 'plaster', right: options.surfaces?.[i + 1] ?? options.surface ?? 'plaster' },
      },
    ]),
  );
  const corners = Object.fromEntries(
    points.map((_, i) => [
      `n${i + 1}:w${id(i)}>w${i + 1}`,
      { number: i + 1, ...(options.corners?.[i + 1] ?? {}) },
    ]),
  );
  const records = Object.fromEntries(
    Object.entries(options.faces ?? {}).map(([k, record]) => [`w${k}:right`, record]),
  );
  const inner = faces.reduce((sum, at) => [sum[0]! + at[0] / count, sum[1]! + at[1] / count], [0, 0]);
  return PlanSchema.parse({
    format: 'copewright-plan',
    version: 1,
    title: 'Trim test',
    units: options.units ?? 'metric',
    settings: options.settings ?? {},
    profiles: { ...PROFILES, ...(options.profiles ?? {}) },
    levels: [
      {
        id: 'L1',
        name: 'Ground floor',
        ceilingHeight: 2400,
        nodes: Object.fromEntries(points.map((at, i) => [`n${i + 1}`, at])),
        walls,
        openings: options.openings ?? {},
        builtIns: options.builtIns ?? {},
        rooms: {
          r1: { name: 'Room', at: inner, trim: options.trim ?? { base: 'shaped' }, ...(options.room ?? {}) },
        },
        corners,
        faces: records,
      },
    ],
    counters: { corner: count },
  } as never);
}

/** The trim of the only room of a house. */
export function trimOf(
  faces: readonly (readonly [number, number])[],
  options: HouseOptions = {},
  splits: Splits = {},
): RoomTrim {
  const plan = housePlan(faces, options);
  const walk = walkLevel(plan, plan.levels[0]!);
  if (walk.rooms.length !== 1) throw new Error(`${walk.rooms.length} rooms`);
  return trimRoom(plan, walk.rooms[0]!, splits);
}

export function lineOf(trim: RoomTrim, line: 'base' | 'shoe' = 'base'): LineTrim {
  return trim.lines.find((each) => each.line === line)!;
}

export function piecesOf(trim: RoomTrim): Piece[] {
  return trim.lines.flatMap((line) => line.runs.flatMap((run) => [...run.pieces, ...run.returns]));
}

export function piece(trim: RoomTrim, id: string): Piece {
  const found = piecesOf(trim).find((each) => each.id === id);
  if (!found) throw new Error(`no piece ${id} among ${piecesOf(trim).map((each) => each.id)}`);
  return found;
}

export function joint(trim: RoomTrim, number: number, line: 'base' | 'shoe' = 'base'): JointAt | null {
  const all = lineOf(trim, line);
  for (const [l, loop] of trim.room.loops.entries()) {
    const i = loop.corners.findIndex((corner) => corner.number === number);
    if (i >= 0) return all.joints[l]![i]!;
  }
  throw new Error(`no corner ${number}`);
}

/** Back, face and overall in mm to 5 decimals, and both ends in short. */
export function shape(found: Piece) {
  const mm = (ticks: number) => Math.round(mmFromTicks(ticks) * 1e5) / 1e5;
  const end = ({ end, sawDeg, longPoint }: Piece['left']) =>
    `${end} ${Math.round(sawDeg * 1e4) / 1e4} ${longPoint ?? '-'}`;
  return {
    back: mm(found.back),
    face: mm(found.face),
    overall: mm(found.overall),
    left: end(found.left),
    right: end(found.right),
  };
}

/** A room of four walls, so wide and deep between faces, mm, walked from its top left. */
export const rectangle = (wide: number, deep: number): readonly (readonly [number, number])[] => [
  [0, 0],
  [wide, 0],
  [wide, deep],
  [0, deep],
];

/** A room of 4000 by 3000 mm between faces. */
export const RECTANGLE = rectangle(4000, 3000);

/** An L: corner 3 at [4000, 2000] … corner 5 is the outside one, at [2500, 2000]. */
export const L_SHAPE: readonly (readonly [number, number])[] = [
  [0, 0],
  [4000, 0],
  [4000, 2000],
  [2500, 2000],
  [2500, 3500],
  [0, 3500],
];

/** A door `width` wide whose edge is `at` mm from the left corner of wall k, seen from the room; walls 100 thick. */
export function door(wall: number, at: number, more: Fields = {}): Fields {
  return {
    wall: `w${wall}`,
    at: at + 50,
    width: 800,
    height: 2032,
    sill: 0,
    kind: 'door',
    reveal: 5,
    casing: { left: 'case', right: 'case' },
    ...more,
  };
}
