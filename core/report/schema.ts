// The report: what the window, the PDF, the CSV and the command line all print. Plain JSON, millimetres and degrees
// rounded to 6 decimals, no −0. The published JSON Schema is made from this.

import { z } from 'zod';
import { FINDING_CODES, SEVERITIES } from '../fit/types.ts';
import { LINES } from '../plan/schema.ts';

const mm = z.number();
const deg = z.number();
const point = z.tuple([mm, mm]);

const JointSchema = z.strictObject({
  joint: z.enum(['cope', 'mitre', 'butt', 'block']),
  coped: z.enum(['before', 'after']).nullable(),
  sawDeg: deg,
  why: z.string(),
  chosenBy: z.enum(['rule', 'user']),
});

const CornerSchema = z.strictObject({
  number: z.number().int(),
  key: z.string(),
  at: point,
  kind: z.enum(['inside', 'outside']),
  roomAngleDeg: deg,
  includedDeg: z.strictObject({ drawn: deg, measured: deg.nullable(), allowance: deg, used: deg }),
  base: JointSchema.nullable(),
  shoe: JointSchema.nullable(),
});

const SegmentSchema = z.strictObject({ key: z.string(), drawnMm: mm, measuredMm: mm.nullable() });

const LoopSchema = z.strictObject({
  kind: z.enum(['outer', 'island']),
  segments: z.array(SegmentSchema),
  corners: z.array(CornerSchema),
});

const RunSchema = z.strictObject({
  line: z.enum(LINES),
  closed: z.boolean(),
  pieces: z.array(z.string()),
});

const RoomSchema = z.strictObject({
  id: z.string(),
  name: z.string(),
  level: z.string(),
  areaMm2: z.number(),
  perimeterMm: mm,
  loops: z.array(LoopSchema),
  runs: z.array(RunSchema),
});

const EndSchema = z.strictObject({
  end: z.enum(['square', 'cope', 'mitre', 'butt', 'scarf', 'return', 'scribe', 'block']),
  at: z.union([
    z.strictObject({ corner: z.number().int() }),
    z.strictObject({ opening: z.string() }),
    z.strictObject({ builtIn: z.string() }),
    z.strictObject({ piece: z.string() }),
  ]),
  sawDeg: deg,
  longPoint: z.enum(['back', 'face']).nullable(),
  lap: z.enum(['laps', 'under']).nullable(),
});

const PieceSchema = z.strictObject({
  id: z.string(),
  level: z.string(),
  room: z.string(),
  line: z.enum(LINES),
  profile: z.string(),
  segment: z.string(),
  stretch: z.string(),
  lengthFrom: z.enum(['drawn', 'measured']),
  backMm: mm,
  faceMm: mm,
  overallMm: mm,
  springMm: mm,
  order: z.number().int(),
  returnOf: z.string().nullable(),
  left: EndSchema,
  right: EndSchema,
});

const CasingSchema = z.strictObject({
  id: z.string(),
  level: z.string(),
  opening: z.string(),
  side: z.enum(['left', 'right']),
  room: z.string().nullable(),
  profile: z.string(),
  assumedFloor: z.boolean(),
  parts: z.array(
    z.strictObject({ part: z.enum(['head', 'legLeft', 'legRight', 'sill']), shortMm: mm, longMm: mm }),
  ),
});

const FindingSchema = z.strictObject({
  code: z.enum(FINDING_CODES),
  severity: z.enum(SEVERITIES),
  level: z.string().nullable(),
  room: z.string().nullable(),
  at: point.nullable(),
  about: z.array(z.string()),
  message: z.string(),
  remedies: z.array(z.string()),
  figures: z.record(z.string(), z.number()),
});

const ScribeSchema = z.strictObject({
  piece: z.string(),
  kind: z.enum(['hump', 'dip', 'slope', 'level']),
  takeFrom: z.enum(['left', 'right', 'middle', 'both', 'none']),
  deepestMm: mm,
  areaMm2: z.number(),
  shimMm: mm,
  coversOldLine: z.boolean(),
  runAreaMm2: z.number(),
  assumed: z.array(z.string()),
  stations: z.array(z.strictObject({ atMm: mm, floorMm: mm, bottomMm: mm, trimMm: mm, gapMm: mm })),
});

const StockSchema = z.strictObject({
  profile: z.string(),
  // What was made least, and the unit of cost and bound: money, or mm bought.
  by: z.enum(['money', 'length']),
  proved: z.boolean(),
  cost: z.number(),
  bound: z.number(),
  // piecesMm + kerfMm + trimMm + offcutMm = lengthMm
  boards: z.array(
    z.strictObject({
      lengthMm: mm,
      onHand: z.boolean(),
      // As the user holds it, not chosen here.
      held: z.boolean(),
      pieces: z.array(z.string()),
      piecesMm: mm,
      kerfMm: mm,
      trimMm: mm,
      offcutMm: mm,
    }),
  ),
  keep: z.array(z.strictObject({ lengthMm: mm, count: z.number().int() })),
  unplaced: z.array(z.string()),
});

const PurchaseSchema = z.strictObject({
  profile: z.string(),
  lengthMm: mm,
  count: z.number().int(),
  price: z.number().nullable(),
  sum: z.number().nullable(),
  spare: z.number().int(),
  spareSum: z.number().nullable(),
});

export const ReportSchema = z.strictObject({
  format: z.literal('copewright-report'),
  version: z.literal(1),
  title: z.string(),
  rooms: z.array(RoomSchema),
  pieces: z.array(PieceSchema),
  casings: z.array(CasingSchema),
  findings: z.array(FindingSchema),
  scribes: z.array(ScribeSchema),
  stock: z.array(StockSchema),
  purchase: z.array(PurchaseSchema),
  totals: z.record(
    z.string(),
    z.union([z.number(), z.strictObject({ pieces: z.number().int(), lengthMm: mm })]),
  ),
});

export type Report = z.output<typeof ReportSchema>;
