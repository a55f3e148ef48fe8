// Remedies that choose a joint: back to the rule, the other board, another joint, a block. Candidates only: remedies.ts
// tries them, so that a joint the corner cannot take is never offered.

import type { CornerChoice, Edit } from '../../../core/edit/index.ts';
import type { Finding } from '../../../core/fit/index.ts';
import type { JointChoice, LevelId, TrimLine } from '../../../core/plan/index.ts';
import type { Derived } from '../../../core/report/index.ts';
import type { JointAt, RoomTrim } from '../../../core/trim/index.ts';
import type { Corner } from '../../../core/walk/index.ts';
import type { EditRemedy, Remedy } from './remedy.ts';
import { pieceIn, sceneOf } from './scene.ts';

const OTHER = { before: 'after', after: 'before' } as const;

export function cornerRemedies(finding: Finding, derived: Derived): Remedy[] {
  const scene = sceneOf(finding, derived);
  if (scene === null || scene.trim === null) return [];
  const { trim, levelId } = scene;
  switch (finding.code) {
    case 'saw-limit':
      return overTheSaw(finding, trim, levelId);
    case 'cope-short':
      return tooShort(finding, trim, levelId);
    case 'order-circle':
      return circle(finding, trim, levelId);
    case 'angle-odd':
      return oddAngle(finding, trim, levelId);
    case 'record-unused':
      return unmade(finding, trim, levelId);
    default:
      return [];
  }
}

/** A corner by the name that findings give it. */
function cornerOf({ room }: RoomTrim, name: string | undefined): Corner | null {
  const corners = room.loops.flatMap((loop) => loop.corners);
  return corners.find((each) => `corner ${each.number ?? each.key}` === name) ?? null;
}

function jointsAt(trim: RoomTrim, corner: Corner): readonly JointAt[] {
  return trim.lines
    .flatMap((line) => line.joints.flat())
    .filter((joint): joint is JointAt => joint !== null && joint.corner.key === corner.key);
}

function set(
  level: LevelId,
  corner: Corner,
  line: TrimLine,
  choice: CornerChoice | null,
  words: string,
): EditRemedy {
  const edit: Edit = { type: 'setCorner', level, corner: corner.key, set: { lines: { [line]: choice } } };
  return { kind: 'edit', words, edit };
}

const name = ({ number, key }: Corner): string => `corner ${number ?? key}`;

function backToRule(level: LevelId, corner: Corner, line: TrimLine): EditRemedy {
  return set(level, corner, line, null, `Let ${name(corner)} follow the rule`);
}

function chosen(corner: Corner, line: TrimLine): boolean {
  return corner.record?.lines?.[line] !== undefined;
}

const JOINT_DOES: Readonly<Record<JointChoice, (corner: string) => string>> = {
  cope: (corner) => `Cope ${corner}`,
  butt: (corner) => `Butt the boards in ${corner}`,
  mitre: (corner) => `Mitre ${corner} and leave it at that`,
  block: (corner) => `Set a block in ${corner} and cut both boards square`,
};

function joint(level: LevelId, corner: Corner, line: TrimLine, how: JointChoice): EditRemedy {
  return set(level, corner, line, { joint: how, coped: null }, JOINT_DOES[how](name(corner)));
}

function overTheSaw(finding: Finding, trim: RoomTrim, level: LevelId): EditRemedy[] {
  const corner = cornerOf(trim, finding.about[0]);
  const line = pieceIn(trim, finding.about[1] ?? '')?.line.line;
  if (corner === null || line === undefined) return [];
  const now = jointsAt(trim, corner).find((each) => each.line === line);
  // Shaped stock is never butted: its profile would stand open.
  const flat = now?.before.profile.form === 'flat' && now.after.profile.form === 'flat';
  const hows = flat ? (['butt', 'cope', 'block'] as const) : (['cope', 'block'] as const);
  const others = hows.filter((how) => how !== now?.joint);
  return [
    ...(chosen(corner, line) ? [backToRule(level, corner, line)] : []),
    ...others.map((how) => joint(level, corner, line, how)),
  ];
}

function tooShort(finding: Finding, trim: RoomTrim, level: LevelId): EditRemedy[] {
  const corner = cornerOf(trim, finding.about[0]);
  if (corner === null) return [];
  return jointsAt(trim, corner)
    .filter(({ copeShort, line }) => copeShort && finding.message.includes(` ${line} `))
    .flatMap(({ line }) => [joint(level, corner, line, 'mitre'), joint(level, corner, line, 'block')]);
}

function circle(finding: Finding, trim: RoomTrim, level: LevelId): EditRemedy[] {
  const corners = finding.about.flatMap((about) => cornerOf(trim, about) ?? []);
  const piece = finding.about.map((about) => pieceIn(trim, about)).find((each) => each !== null);
  const line = piece?.line.line;
  if (line === undefined) return [];
  const turned = corners.flatMap((corner) => {
    const coped = corner.record?.lines?.[line]?.coped;
    if (coped === undefined) return [];
    const words = `Turn ${name(corner)} round: work the other board`;
    return set(level, corner, line, { coped: OTHER[coped] }, words);
  });
  const ruled = corners.map((corner) => backToRule(level, corner, line));
  return [...turned, ...ruled];
}

function oddAngle(finding: Finding, trim: RoomTrim, level: LevelId): Remedy[] {
  const corner = cornerOf(trim, finding.about[0]);
  if (corner === null) return [];
  return [
    { kind: 'go', words: 'Measure it again', go: { to: 'measure' } },
    {
      kind: 'edit',
      words: `Forget the measured angle of ${name(corner)}`,
      edit: { type: 'setCorner', level, corner: corner.key, set: { measured: null } },
    },
  ];
}

/** A joint chosen where two boards do not meet. */
function unmade(finding: Finding, trim: RoomTrim, level: LevelId): EditRemedy[] {
  const corner = cornerOf(trim, finding.about[0]);
  const line = trim.lines.find((each) => each.line === finding.about[1])?.line;
  if (corner === null || line === undefined || corner.record?.lines?.[line] === undefined) return [];
  return [backToRule(level, corner, line)];
}
