// Names of rooms, levels, profiles and what stands on walls, as they are printed; and which pieces belong to which room.
// User's words are printed as given, control characters stripped; what has no name gets a plain one [SH29].

import { BUILT_IN_KINDS, OPENING_KINDS } from '../plan/kinds.ts';
import { lookup } from '../plan/maps.ts';
import type { Level, Profile } from '../plan/schema.ts';
import type { Report } from '../report/schema.ts';
import type { Solved } from '../report/types.ts';
import type { RoomTrim } from '../trim/types.ts';
import { mmFromTicks } from '../units/ticks.ts';
import { type Figures, nameOr, type PlaceNames } from './words.ts';

export type ReportRoom = Report['rooms'][number];
export type ReportPiece = Report['pieces'][number];

/** A room with all that its sheet needs: the report's figures beside what they were derived from. */
export interface RoomOnPaper {
  readonly level: Level;
  readonly levelName: string;
  readonly name: string;
  readonly trim: RoomTrim;
  readonly said: ReportRoom;
  /** By run of the trim, in walking order, with the return pieces of each run after them. */
  readonly runs: readonly {
    readonly line: RoomTrim['lines'][number]['line'];
    readonly pieces: readonly ReportPiece[];
  }[];
  readonly findings: readonly Report['findings'][number][];
}

/** Every room of the plan in the report's order. Throws where report and trim do not belong together. */
export function roomsOnPaper(solved: Solved): RoomOnPaper[] {
  const { report } = solved;
  const pieces = new Map(report.pieces.map((piece) => [piece.id, piece]));
  const trims = solved.levels.flatMap((level) =>
    level.trims.map((trim) => ({ level: level.walk.level, trim })),
  );
  if (trims.length !== report.rooms.length)
    throw new Error(`the report has ${report.rooms.length} rooms, the plan ${trims.length}`);
  return trims.map(({ level, trim }, index) => ({
    level,
    levelName: levelName(solved, level),
    name: nameOr(trim.room.name, `Room ${index + 1}`),
    trim,
    said: report.rooms[index]!,
    runs: trim.lines.flatMap((line) =>
      line.runs.map((run) => ({
        line: line.line,
        pieces: [...run.pieces, ...run.returns].map((piece) => {
          const said = pieces.get(piece.id);
          if (!said) throw new Error(`the report has no piece ${piece.id}`);
          return said;
        }),
      })),
    ),
    findings: report.findings.filter((each) => each.level === level.id && each.room === trim.room.id),
  }));
}

/** A level's name, or its place in the house. */
export function levelName(solved: Solved, level: Level): string {
  const position = solved.plan.levels.indexOf(level);
  return nameOr(level.name, `Level ${position + 1}`);
}

/** Names of openings and built-ins of one level: `door o1`, `hearth b2`. */
export function placeNames(level: Level): PlaceNames {
  return {
    opening: (id) => {
      const opening = lookup(level.openings, id);
      return opening ? `${OPENING_KINDS[opening.kind]} ${id}` : `opening ${id}`;
    },
    builtIn: (id) => {
      const builtIn = lookup(level.builtIns, id);
      return builtIn ? `${BUILT_IN_KINDS[builtIn.kind]} ${id}` : `built-in ${id}`;
    },
  };
}

/** A profile's name as printed. */
export function profileName(solved: Solved, id: string): string {
  return nameOr(lookup(solved.plan.profiles, id)?.name ?? '', id);
}

/** A profile's size: height by thickness, a casing's width by thickness. */
export function profileSize(figures: Figures, profile: Profile): string {
  const say = (ticks: number) => figures.fine(mmFromTicks(ticks));
  const face = profile.kind === 'casing' ? profile.width : profile.height;
  const parts =
    face === undefined ? [`${say(profile.thickness)} thick`] : [`${say(face)} × ${say(profile.thickness)}`];
  if (profile.edgeThickness !== undefined && profile.edgeThickness !== profile.thickness)
    parts.push(`outer edge ${say(profile.edgeThickness)}`);
  if (profile.kind === 'crown') {
    if (profile.springAngle !== undefined) parts.push(`spring angle ${figures.angle(profile.springAngle)}`);
    if (profile.projection !== undefined) parts.push(`out ${say(profile.projection)}`);
    if (profile.drop !== undefined) parts.push(`down ${say(profile.drop)}`);
  }
  return parts.join(', ');
}
