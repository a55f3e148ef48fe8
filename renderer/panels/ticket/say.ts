// Names and figures as walk, ticket and survey say them: 'Corner 7, inside 91.5°, cope: board 2A is coped'. Words only.

import type { Plan } from '../../../core/plan/index.ts';
import { LINE_NAMES, OPENING_KINDS } from '../../../core/plan/kinds.ts';
import type { Derived, DerivedLevel } from '../../../core/report/index.ts';
import { nameOr } from '../../../core/sheets/words.ts';
import type { CornerAngles, JointAt, LineTrim, PieceEnd, RoomTrim } from '../../../core/trim/index.ts';
import { formatAngle, formatSaw } from '../../../core/units/index.ts';
import type { Corner, Room } from '../../../core/walk/index.ts';
import { boardsAt } from './find.ts';

export function cornerWords(corner: Corner): string {
  return corner.number === null ? 'corner without a number' : `corner ${corner.number}`;
}

export const roomWords = (room: Room): string => nameOr(room.name, 'Room without a name');

/** `inside 91.5°`: as measured, else as drawn. */
export function kindWords(corner: Corner, angles: CornerAngles): string {
  return `${corner.kind} ${formatAngle(angles.plain)}`;
}

/** `cope: board 2A is coped`, or in short `cope 2A`; `mitre`, `corner block`; null where two boards do not meet. */
export function jointWords(line: LineTrim, joint: JointAt | null, short = false): string | null {
  if (joint === null) return null;
  const { coped } = joint;
  if (coped === null) return joint.joint === 'block' ? 'corner block' : joint.joint;
  const board = boardsAt(line, joint.corner)[coped]?.id;
  const done = joint.joint === 'butt' ? 'butts against the other' : 'is coped';
  if (short && board !== undefined) return `${joint.joint} ${board}`;
  return board === undefined ? joint.joint : `${joint.joint}: board ${board} ${done}`;
}

/** What is done at a corner, base first; lines that are joined alike are not told twice. */
export function jointsWords(trim: RoomTrim, loop: number, index: number, short = false): string {
  const told: string[] = [];
  let first: JointAt | null = null;
  for (const line of trim.lines) {
    const joint = line.joints[loop]?.[index] ?? null;
    const words = jointWords(line, joint, short);
    if (joint === null || words === null) continue;
    if (first === null) {
      first = joint;
      told.push(line.line === 'base' ? words : `${LINE_NAMES[line.line]} ${words}`);
    } else if (joint.coped !== first.coped) told.push(`${LINE_NAMES[line.line]} ${words}`);
    else if (joint.joint !== first.joint) told.push(`${LINE_NAMES[line.line]}: ${joint.joint}`);
  }
  // Of a room that carries nothing yet there is nothing to say of joints.
  if (told.length === 0)
    return trim.lines.some(({ stretches }) => stretches.length > 0) ? 'no two boards meet' : '';
  return told.join('; ');
}

/** Where an end stands: `corner 7`, `door o1`, `hearth b2`, `board 3B`. */
export function placeWords(level: DerivedLevel, { at }: PieceEnd): string {
  if ('corner' in at) return cornerWords(at.corner);
  if ('opening' in at) return openingWords(level, at.opening);
  if ('builtIn' in at) return builtInWords(level, at.builtIn);
  return `board ${at.piece}`;
}

export function openingWords({ walk }: DerivedLevel, id: string): string {
  const { openings } = walk.level;
  const opening = Object.hasOwn(openings, id) ? openings[id as keyof typeof openings] : undefined;
  return opening === undefined ? `opening ${id}` : `${OPENING_KINDS[opening.kind]} ${id}`;
}

export function builtInWords({ walk }: DerivedLevel, id: string): string {
  const { builtIns } = walk.level;
  const builtIn = Object.hasOwn(builtIns, id) ? builtIns[id as keyof typeof builtIns] : undefined;
  return builtIn === undefined ? `built-in ${id}` : `${builtIn.kind} ${id}`;
}

/** `cope at corner 7`, `square at door o1`, `runs through, square, at corner 3`. */
export function endWords(level: DerivedLevel, end: PieceEnd): string {
  const place = placeWords(level, end);
  if (end.end === 'scarf') return `scarf, ${end.lap === 'laps' ? 'laps over' : 'lies under'} ${place}`;
  if (end.end === 'square' && end.through) return `square, runs through at ${place}`;
  if (end.end === 'block') return `square, against the block at ${place}`;
  return `${end.end} at ${place}`;
}

/** `saw 44¼°, long at the back`; `square cut`. */
export function sawWords({ sawDeg, longPoint }: PieceEnd): string {
  if (sawDeg === 0 && longPoint === null) return 'square cut';
  const long = longPoint === null ? '' : `, long at the ${longPoint}`;
  return `saw ${formatSaw(sawDeg)}${long}`;
}

export function levelWords(shown: Derived, level: DerivedLevel): string {
  return nameOr(level.walk.level.name, `Level ${shown.levels.indexOf(level) + 1}`);
}

export function profileWords(plan: Plan, id: string): string {
  const { profiles } = plan;
  return nameOr(Object.hasOwn(profiles, id) ? (profiles[id as keyof typeof profiles]?.name ?? '') : '', id);
}

/** `1 board`, `2 boards`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;
