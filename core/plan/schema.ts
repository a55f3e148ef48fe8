// The plan document, version 1: one schema from which the types, the reader, the writer and the published
// JSON Schema all follow. Decoding turns millimetres into ticks and `null` into absent; encoding turns them back.
// Positions are [x, y], x to the right and y down the sheet; angles are degrees.
// The schema knows shapes and ranges only; references between records are the reader's (references.ts).

import { z } from 'zod';
import { mmFromTicks, roundHalfAway, ticksFromMm } from '../units/ticks.ts';

/** Coordinates and lengths beyond this are refused, in mm (1 km). */
export const MAX_MM = 1_000_000;

const id = z
  .string()
  .regex(/^[A-Za-z][A-Za-z0-9_-]{0,39}$/, 'an id: a letter, then at most 39 letters, digits, "-" or "_"');
const NodeIdSchema = id.brand<'NodeId'>();
const WallIdSchema = id.brand<'WallId'>();
const OpeningIdSchema = id.brand<'OpeningId'>();
const BuiltInIdSchema = id.brand<'BuiltInId'>();
const MarkIdSchema = id.brand<'MarkId'>();
const RoomIdSchema = id.brand<'RoomId'>();
const LevelIdSchema = id.brand<'LevelId'>();
const ProfileIdSchema = id.brand<'ProfileId'>();
/** `node:wallIn>wallOut`, with `#0`, `#1` where one node gives two corners. */
const CornerKeySchema = z
  .string()
  .regex(
    /^[A-Za-z][\w-]{0,39}:[A-Za-z][\w-]{0,39}>[A-Za-z][\w-]{0,39}(#[01])?$/,
    'a corner key such as "n2:w1>w2"',
  )
  .brand<'CornerKey'>();
/** `wall:side` of the segment's first wall in walking order; `node:wallIn>wallOut` for a wall end or a jog. */
const SegmentKeySchema = z
  .string()
  .regex(
    /^[A-Za-z][\w-]{0,39}:(left|right|[A-Za-z][\w-]{0,39}>[A-Za-z][\w-]{0,39})$/,
    'a segment key such as "w1:right"',
  )
  .brand<'SegmentKey'>();

/** A field that may be left out; `null` in a file means the same. In memory it is absent, never null. */
function opt<S extends z.ZodType>(schema: S) {
  return z
    .codec(
      schema.nullable(),
      z.custom<z.output<S> | undefined>(() => true),
      {
        decode: (value) => (value ?? undefined) as z.output<S> | undefined,
        encode: (value) => (value ?? null) as never,
      },
    )
    .optional();
}

/** A length: millimetres in the file, whole ticks in memory. */
function length(minMm: number, maxMm: number = MAX_MM) {
  return z.codec(z.number().min(minMm).max(maxMm), z.number().int(), {
    decode: (mm) => ticksFromMm(mm),
    encode: (ticks) => mmFromTicks(ticks),
  });
}
const anyLength = length(-MAX_MM);
const zeroOrMore = length(0);
/** Above zero, and at least one tick once rounded. */
const positive = length(1 / 320);
/** Wall thickness: rounded to an even number of ticks so that half of it is whole. */
const thickness = z.codec(
  z
    .number()
    .min(1 / 160)
    .max(10_000),
  z.number().int().multipleOf(2),
  {
    decode: (mm) => 2 * roundHalfAway((mm * 320) / 2),
    encode: (ticks) => mmFromTicks(ticks),
  },
);
const angleDeg = z.number().min(0).max(180);
const count = z.number().int().min(0).max(1_000_000);
/** One line of text: no control characters, no line or paragraph marks, no halves of characters. */
const name = z
  .string()
  .max(200)
  .regex(/^[^\p{Cc}\p{Cs}\p{Zl}\p{Zp}]*$/u, 'text on one line, without control characters');
/** Corner numbers and their counter go no higher. */
const cornerNumber = z.number().int().max(1_000_000_000);

export const LINES = ['base', 'shoe', 'crown', 'chairRail', 'pictureRail'] as const;
/** A kind of moulding along the walls. */
export type TrimLine = (typeof LINES)[number];

const StockSchema = z.strictObject({
  length: positive,
  price: opt(z.number().min(0).max(1e9)),
  onHand: opt(count),
});

const ProfileSchema = z.strictObject({
  kind: z.enum([...LINES, 'casing']),
  name,
  height: opt(positive),
  width: opt(positive),
  thickness: positive,
  edgeThickness: opt(positive),
  form: z.enum(['flat', 'shaped']),
  material: name,
  stock: z.array(StockSchema).max(200),
  scarf: opt(z.boolean()),
  springAngle: opt(z.number().gt(0).lt(90)),
  projection: opt(positive),
  drop: opt(positive),
});

const FaceSurfaceSchema = z.enum(['drywall', 'plaster', 'masonry', 'wood']);

const WallSchema = z.strictObject({
  from: NodeIdSchema,
  to: NodeIdSchema,
  thickness,
  height: opt(positive),
  faces: opt(z.strictObject({ left: opt(FaceSurfaceSchema), right: opt(FaceSurfaceSchema) })),
});

/** `null` in a casing side means no casing; a side left out is unknown. */
const CasingSchema = z.strictObject({
  left: ProfileIdSchema.nullable().optional(),
  right: ProfileIdSchema.nullable().optional(),
});

const OpeningSchema = z.strictObject({
  wall: WallIdSchema,
  at: zeroOrMore,
  width: positive,
  height: positive,
  sill: zeroOrMore,
  kind: z.enum(['door', 'cased', 'window', 'sliding', 'pocket', 'passage']),
  reveal: opt(zeroOrMore),
  casing: opt(CasingSchema),
  plinth: opt(z.strictObject({ width: positive, thickness: positive, height: positive })),
  pocket: opt(z.enum(['start', 'end'])),
});

const SideSchema = z.enum(['left', 'right']);

const BuiltInSchema = z.strictObject({
  wall: WallIdSchema,
  side: SideSchema,
  at: anyLength,
  width: positive,
  bottom: anyLength,
  top: anyLength,
  depth: opt(zeroOrMore),
  kind: z.enum(['cabinet', 'hearth', 'tub', 'stair', 'radiator', 'column']),
  ends: opt(z.enum(['square', 'scribe', 'return'])),
});

const MarkSchema = z.strictObject({
  wall: WallIdSchema,
  side: SideSchema,
  at: anyLength,
  kind: z.enum(['outlet', 'register']),
  bottom: anyLength,
  top: anyLength,
  width: positive,
});

/** A line left out inherits (face from room, room from nothing); `null` means none. */
const TrimSchema = z.strictObject({
  base: ProfileIdSchema.nullable().optional(),
  shoe: ProfileIdSchema.nullable().optional(),
  crown: ProfileIdSchema.nullable().optional(),
  chairRail: ProfileIdSchema.nullable().optional(),
  pictureRail: ProfileIdSchema.nullable().optional(),
});

const point = z.tuple([anyLength, anyLength]);

const RoomSchema = z.strictObject({
  name,
  at: point,
  entry: opt(OpeningIdSchema),
  trim: opt(TrimSchema),
  old: opt(z.strictObject({ baseHeight: opt(zeroOrMore), floor: opt(anyLength), gap: opt(zeroOrMore) })),
  new: opt(z.strictObject({ floor: opt(anyLength), gap: opt(zeroOrMore), carpet: opt(z.boolean()) })),
  floorDatum: opt(anyLength),
});

/** The joints a user may choose at a corner. */
const JointChoiceSchema = z.enum(['cope', 'mitre', 'butt', 'block']);
const CornerLineSchema = z.strictObject({
  joint: opt(JointChoiceSchema),
  coped: opt(z.enum(['before', 'after'])),
});

const CornerSchema = z.strictObject({
  number: opt(cornerNumber.min(1)),
  measured: opt(z.number().gt(0).max(180)),
  lines: opt(
    z.strictObject({
      base: opt(CornerLineSchema),
      shoe: opt(CornerLineSchema),
      crown: opt(CornerLineSchema),
      chairRail: opt(CornerLineSchema),
      pictureRail: opt(CornerLineSchema),
    }),
  ),
});

const readings = z.array(z.strictObject({ at: anyLength, height: anyLength })).max(10_000);

/** What stands at a stretch's left and right end: `corner..o1`. */
const stretchKey = z
  .string()
  .regex(/^[A-Za-z][\w-]{0,39}\.\.[A-Za-z][\w-]{0,39}$/, 'a stretch key such as "corner..o1"');

const FaceSchema = z.strictObject({
  measured: opt(positive),
  stretches: opt(z.record(stretchKey, positive)),
  floor: opt(readings),
  line: opt(readings),
  studs: opt(z.array(anyLength).max(10_000)),
  trim: opt(TrimSchema),
});

const LevelSchema = z.strictObject({
  id: LevelIdSchema,
  name,
  ceilingHeight: positive,
  nodes: z.record(NodeIdSchema, point).default({}),
  walls: z.record(WallIdSchema, WallSchema).default({}),
  openings: z.record(OpeningIdSchema, OpeningSchema).default({}),
  builtIns: z.record(BuiltInIdSchema, BuiltInSchema).default({}),
  marks: z.record(MarkIdSchema, MarkSchema).default({}),
  rooms: z.record(RoomIdSchema, RoomSchema).default({}),
  corners: z.record(CornerKeySchema, CornerSchema).default({}),
  faces: z.record(SegmentKeySchema, FaceSchema).default({}),
});

const SettingsSchema = z.strictObject({
  roundIn: opt(z.union([z.literal(8), z.literal(16), z.literal(32), z.literal(64)])),
  roundMm: opt(z.union([z.literal(0.1), z.literal(0.5), z.literal(1)])),
  voidAreaM2: opt(z.number().min(0).max(100)),
  buildUpDeg: opt(z.number().min(0).max(10)),
  scribeAllowance: opt(zeroOrMore),
  returnHold: opt(zeroOrMore),
  scarfDeg: opt(z.number().min(0).max(60)),
  copeMin: opt(zeroOrMore),
  springOver: opt(zeroOrMore),
  springBy: opt(zeroOrMore),
  flushUnder: opt(zeroOrMore),
  closeUnder: opt(zeroOrMore),
  sliverUnder: opt(zeroOrMore),
  angleOddDeg: opt(angleDeg),
  lengthOdd: opt(zeroOrMore),
  sawStandingDeg: opt(angleDeg),
  sawBevelDeg: opt(angleDeg),
  scribeDeep: opt(zeroOrMore),
  scribeTolerance: opt(zeroOrMore),
  carpetTolerance: opt(zeroOrMore),
  kerf: opt(zeroOrMore),
  endTrim: opt(zeroOrMore),
  sparePercent: opt(z.number().min(0).max(1000)),
  blockSize: opt(zeroOrMore),
  shimStep: opt(positive),
  nearlyMeet: opt(zeroOrMore),
  minScarfPiece: opt(zeroOrMore),
  labelColumns: opt(z.number().int().min(1).max(20)),
  labelRows: opt(z.number().int().min(1).max(50)),
});

/** What is cut from stock, as the report names it: `7A`, `shoe-7A`, `7Ar-left`, `o1.left.head`, `L1:o1.left.head`. */
const cutName = z
  .string()
  .regex(
    /^[A-Za-z0-9][\w.:-]{0,139}$/,
    'the name of a piece as the report has it, such as "7A" or "o1.left.head"',
  );

/** A stretch by what edits elsewhere leave alone: the corner its wall starts at (0: one without a number), its line, its stops. */
const stretchName = {
  corner: cornerNumber.min(0),
  line: z.enum(LINES),
  stretch: z.string().max(200),
};

/** Where a stretch is joined: its joints, ascending, from one end. */
const HeldJointSchema = z.strictObject({
  ...stretchName,
  from: z.enum(['left', 'right']),
  at: z.array(positive).min(1).max(200),
});

const partCount = z.number().int().min(1).max(1000);

/** Which part of a stretch a piece is, from the left, counted from 1, and of how many. */
const StretchPartSchema = z.strictObject({ ...stretchName, part: partCount, parts: partCount });

/** A piece as it was when its board was held: what it took of the board, and, where it is no part of a casing, of which stretch it is. */
const HeldPieceSchema = z.strictObject({
  piece: cutName,
  length: positive,
  of: opt(StretchPartSchema),
});

/** A stock board that stays as it is: its length, whether it is one on hand, what is cut from it, what that was, joints of it. */
const HeldBoardSchema = z.strictObject({
  length: positive,
  onHand: z.boolean(),
  pieces: z.array(cutName).min(1).max(10_000),
  was: opt(z.array(HeldPieceSchema).max(10_000)),
  joints: opt(z.array(HeldJointSchema).max(10_000)),
});

export const PlanSchema = z.strictObject({
  format: z.literal('copewright-plan'),
  version: z.literal(1),
  title: name,
  units: z.enum(['imperial', 'metric']),
  builtYear: opt(z.number().int().min(1000).max(9999)),
  settings: SettingsSchema.default({}),
  profiles: z.record(ProfileIdSchema, ProfileSchema).default({}),
  levels: z.array(LevelSchema).max(100),
  stockOnHand: z
    .record(ProfileIdSchema, z.array(z.strictObject({ length: positive, count })).max(10_000))
    .default({}),
  heldBoards: z.record(ProfileIdSchema, z.array(HeldBoardSchema).max(10_000)).default({}),
  studs: opt(z.strictObject({ spacing: positive })),
  counters: z.strictObject({ corner: cornerNumber.min(0) }).default({ corner: 0 }),
});

export type Plan = z.output<typeof PlanSchema>;
/** What stands in a file: millimetres, and `null` allowed where a field may be left out. */
export type PlanFile = z.input<typeof PlanSchema>;
export type Level = Plan['levels'][number];
export type Profile = z.output<typeof ProfileSchema>;
export type Wall = z.output<typeof WallSchema>;
export type Opening = z.output<typeof OpeningSchema>;
export type BuiltIn = z.output<typeof BuiltInSchema>;
export type Mark = z.output<typeof MarkSchema>;
export type RoomRecord = z.output<typeof RoomSchema>;
export type CornerRecord = z.output<typeof CornerSchema>;
export type FaceRecord = z.output<typeof FaceSchema>;
export type HeldBoard = z.output<typeof HeldBoardSchema>;
export type HeldJoint = z.output<typeof HeldJointSchema>;
export type HeldPiece = z.output<typeof HeldPieceSchema>;
export type StretchPart = z.output<typeof StretchPartSchema>;
export type TrimChoice = z.output<typeof TrimSchema>;
export type FaceSurface = z.output<typeof FaceSurfaceSchema>;
export type Side = z.output<typeof SideSchema>;
export type JointChoice = z.output<typeof JointChoiceSchema>;

export type NodeId = z.output<typeof NodeIdSchema>;
export type WallId = z.output<typeof WallIdSchema>;
export type OpeningId = z.output<typeof OpeningIdSchema>;
export type BuiltInId = z.output<typeof BuiltInIdSchema>;
export type MarkId = z.output<typeof MarkIdSchema>;
export type RoomId = z.output<typeof RoomIdSchema>;
export type LevelId = z.output<typeof LevelIdSchema>;
export type ProfileId = z.output<typeof ProfileIdSchema>;
export type CornerKey = z.output<typeof CornerKeySchema>;
export type SegmentKey = z.output<typeof SegmentKeySchema>;
