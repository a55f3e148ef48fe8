// Derived levels, findings and scribes to the printable report: ticks to rounded millimetres, nothing decided here.
// Order: levels by file, rooms and loops canonical, pieces in walking order with their returns after them (RULES: RP2).

import type { FoundLevel, LevelBundle } from '../fit/index.ts';
import type { Finding, Scribe } from '../fit/types.ts';
import type { LevelId, Plan, TrimLine } from '../plan/schema.ts';
import type { StockPlan } from '../stock/types.ts';
import type { CasingSet, CornerAngles, JointAt, Piece, PieceEnd, RoomTrim, Run } from '../trim/types.ts';
import type { Corner, Loop } from '../walk/types.ts';
import { reportMm, reportMm2, reportPoint, round6, solverMm, solverMm2 } from './rounding.ts';
import type { Report } from './schema.ts';
import { reportPurchase, reportStock } from './stock.ts';
import type { Derived, DerivedLevel, LevelReport } from './types.ts';

type ReportRoom = Report['rooms'][number];
type ReportPiece = Report['pieces'][number];
type ReportEnd = ReportPiece['left'];
type ReportCorner = ReportRoom['loops'][number]['corners'][number];

function numberOf(corner: Corner): number {
  if (corner.number === null)
    throw new Error(`corner ${corner.key} has no number: number the plan before reporting`);
  return corner.number;
}

function joint(at: JointAt | null | undefined): ReportCorner['base'] {
  if (!at) return null;
  return { joint: at.joint, coped: at.coped, sawDeg: round6(at.sawDeg), why: at.why, chosenBy: at.chosenBy };
}

function corner(
  of: Corner,
  angles: CornerAngles,
  base: JointAt | null | undefined,
  shoe: JointAt | null | undefined,
): ReportCorner {
  return {
    number: numberOf(of),
    key: of.key,
    at: reportPoint(of.at),
    kind: of.kind,
    roomAngleDeg: round6(of.roomAngleDeg),
    includedDeg: {
      drawn: round6(angles.drawn),
      measured: angles.measured === null ? null : round6(angles.measured),
      allowance: round6(angles.allowance),
      used: round6(angles.used),
    },
    base: joint(base),
    shoe: joint(shoe),
  };
}

function jointsOf(trim: RoomTrim, line: TrimLine, loop: number): readonly (JointAt | null)[] {
  return trim.lines.find((each) => each.line === line)?.joints[loop] ?? [];
}

function loop(of: Loop, index: number, trim: RoomTrim): ReportRoom['loops'][number] {
  const base = jointsOf(trim, 'base', index);
  const shoe = jointsOf(trim, 'shoe', index);
  return {
    kind: of.kind,
    segments: of.segments.map((segment) => ({
      key: segment.key,
      drawnMm: reportMm(segment.drawn),
      measuredMm: segment.record?.measured === undefined ? null : reportMm(segment.record.measured),
    })),
    corners: of.corners.map((each, at) => corner(each, trim.angles[index]![at]!, base[at], shoe[at])),
  };
}

function room(trim: RoomTrim): ReportRoom {
  return {
    id: trim.room.id,
    name: trim.room.name,
    level: trim.room.level,
    areaMm2: reportMm2(trim.room.area),
    perimeterMm: reportMm(trim.room.perimeter),
    loops: trim.room.loops.map((each, index) => loop(each, index, trim)),
    runs: runsOf(trim).map((run) => ({
      line: run.line,
      closed: run.closed,
      pieces: run.pieces.map((piece) => piece.id),
    })),
  };
}

function runsOf(trim: RoomTrim): readonly Run[] {
  return trim.lines.flatMap((line) => line.runs);
}

function end(of: PieceEnd): ReportEnd {
  const at = 'corner' in of.at ? { corner: numberOf(of.at.corner) } : of.at;
  return { end: of.end, at, sawDeg: round6(of.sawDeg), longPoint: of.longPoint, lap: of.lap };
}

function piece(of: Piece, level: string): ReportPiece {
  return {
    id: of.id,
    level,
    room: of.room,
    line: of.line,
    profile: of.profileId,
    segment: of.segment.key,
    stretch: of.stretch.key,
    lengthFrom: of.lengthFrom,
    backMm: reportMm(of.back),
    faceMm: reportMm(of.face),
    overallMm: reportMm(of.overall),
    springMm: reportMm(of.spring),
    order: of.order,
    returnOf: of.returnOf,
    left: end(of.left),
    right: end(of.right),
  };
}

function piecesOf(run: Run, level: string): ReportPiece[] {
  return run.pieces
    .flatMap((each) => [each, ...run.returns.filter((back) => back.returnOf === each.id)])
    .map((each) => piece(each, level));
}

function casing(of: CasingSet, level: string): Report['casings'][number] {
  return {
    id: of.id,
    level,
    opening: of.opening,
    side: of.side,
    room: of.room,
    profile: of.profileId,
    assumedFloor: of.assumedFloor,
    parts: of.parts.map((part) => ({
      part: part.part,
      shortMm: reportMm(part.short),
      longMm: reportMm(part.long),
    })),
  };
}

function finding(of: Finding): Report['findings'][number] {
  return {
    code: of.code,
    severity: of.severity,
    level: of.level,
    room: of.room,
    at: of.at ? reportPoint(of.at) : null,
    about: [...of.about],
    message: of.message,
    remedies: [...of.remedies],
    figures: Object.fromEntries(Object.entries(of.figures).map(([name, value]) => [name, round6(value)])),
  };
}

function scribe(of: Scribe): Report['scribes'][number] {
  return {
    piece: of.piece,
    kind: of.kind,
    takeFrom: of.takeFrom,
    deepestMm: solverMm(of.deepest),
    areaMm2: solverMm2(of.area),
    shimMm: reportMm(of.shim),
    coversOldLine: of.coversOldLine,
    runAreaMm2: solverMm2(of.runArea),
    assumed: [...of.assumed],
    stations: of.stations.map((station) => ({
      atMm: solverMm(station.at),
      floorMm: solverMm(station.floor),
      bottomMm: solverMm(station.bottom),
      trimMm: solverMm(station.trim),
      gapMm: solverMm(station.gap),
    })),
  };
}

type LineTotal = LevelReport['rooms'][number]['totals'][number];

/** Boards by line, lines in the order of their first board; the lengths not rounded. */
function lineTotals(pieces: readonly ReportPiece[]): LineTotal[] {
  const lines = new Map<TrimLine, { line: TrimLine; pieces: number; lengthMm: number }>();
  for (const { line, overallMm } of pieces) {
    const sum = lines.get(line) ?? { line, pieces: 0, lengthMm: 0 };
    sum.pieces += 1;
    sum.lengthMm += overallMm;
    lines.set(line, sum);
  }
  return [...lines.values()];
}

function totals(rooms: readonly { readonly totals: readonly LineTotal[] }[]): Report['totals'] {
  const lines = new Map<TrimLine, { pieces: number; lengthMm: number }>();
  for (const room of rooms) {
    for (const { line, pieces, lengthMm } of room.totals) {
      const sum = lines.get(line) ?? { pieces: 0, lengthMm: 0 };
      sum.pieces += pieces;
      sum.lengthMm += lengthMm;
      lines.set(line, sum);
    }
  }
  return Object.fromEntries(
    [...lines].map(([line, sum]) => [line, { pieces: sum.pieces, lengthMm: round6(sum.lengthMm) }]),
  );
}

/** What the report says of one room. */
export function roomReport(trim: RoomTrim): LevelReport['rooms'][number] {
  const pieces = roomPieces(trim);
  return { room: room(trim), pieces, totals: lineTotals(pieces) };
}

/** The pieces of a room, as the report lists them. */
function roomPieces(trim: RoomTrim): ReportPiece[] {
  return runsOf(trim).flatMap((run) => piecesOf(run, trim.room.level));
}

/** A level that may lend what is found and said of its rooms. */
export type LevelLender = FoundLevel & Pick<DerivedLevel, 'report'>;

/** What the report says of a level: rooms and casings in its order, and each room's pieces. */
export function levelReport(
  { walk, trims, casings }: LevelBundle,
  lenders: readonly LevelLender[] = [],
): LevelReport {
  const rooms = new Map(
    lenders.flatMap((since) => since.trims.map((trim, i) => [trim, since.report.rooms[i]!] as const)),
  );
  return {
    rooms: trims.map((trim) => rooms.get(trim) ?? roomReport(trim)),
    casings: casingsReport(casings, walk.levelId, lenders),
  };
}

function casingsReport(
  casings: readonly CasingSet[],
  level: LevelId,
  lenders: readonly LevelLender[],
): LevelReport['casings'] {
  const same = lenders.find((since) => since.casings === casings);
  if (same !== undefined) return same.report.casings;
  const known = new Map(
    lenders.flatMap((since) => since.casings.map((set, i) => [set, since.report.casings[i]!] as const)),
  );
  return casings.map((set) => known.get(set) ?? casing(set, level));
}

/** Lists one after the other: the built-in `flatMap` takes twenty times as long, which is felt at every edit. */
function inOneList<T>(lists: readonly (readonly T[])[]): T[] {
  const all: T[] = [];
  for (const list of lists) for (const each of list) all.push(each);
  return all;
}

type Earlier = Pick<Derived, 'findings' | 'report'>;

/**
 * The report of derived levels. `scribes` and `stock` are empty until solved. `earlier` lends what it says of findings
 * that are the same objects (RULES: RP3).
 */
export function buildReport(
  plan: Plan,
  levels: readonly DerivedLevel[],
  findings: readonly Finding[],
  scribes: readonly Scribe[],
  stock: readonly StockPlan[],
  earlier?: Earlier,
): Report {
  const said = new Map(earlier?.findings.map((each, i) => [each, earlier.report.findings[i]!]));
  const rooms = inOneList(levels.map((level) => level.report.rooms));
  const bought = reportPurchase(stock);
  return {
    format: 'copewright-report',
    version: 1,
    title: plan.title,
    rooms: rooms.map((each) => each.room),
    pieces: inOneList(rooms.map((each) => each.pieces)),
    casings: inOneList(levels.map((level) => level.report.casings)),
    findings: findings.map((each) => said.get(each) ?? finding(each)),
    scribes: scribes.map(scribe),
    stock: reportStock(stock),
    purchase: bought.purchase,
    totals: { ...totals(rooms), ...bought.totals },
  };
}
