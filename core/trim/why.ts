// A decision at a corner to one plain sentence with its figures, as the report and the sheets print it. RULES: JT, WB.

import { LINE_NAMES } from '../plan/kinds.ts';
import type { JointChoice, Plan, TrimLine } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { formatAngle } from '../units/format.ts';
import { roundHalfAway } from '../units/ticks.ts';
import type { CornerJoint, Lost } from './corners.ts';
import type { Decision } from './runs.ts';
import { sayLength } from './say.ts';
import type { Piece, StopAt } from './types.ts';

/** `inside 91.5° measured`, `outside 90° drawn`, and the angle it is set for where build-up is allowed for. */
function angleWords({ corner, angles, how }: CornerJoint): string {
  const plain = `${corner.kind} ${formatAngle(angles.plain)} ${angles.measured === null ? 'drawn' : 'measured'}`;
  const set = angles.allowance !== 0 && (how === 'cope' || how === 'mitre');
  return set ? `${plain} and set for ${formatAngle(angles.used)} with build-up` : plain;
}

/** What the user chose and was not done [JT3]. */
function unusedWords({ refused, sideUnused, corner, how, chosenBy }: CornerJoint): string {
  if (refused !== null) {
    if (refused.why === 'short') return `; the ${refused.joint} you chose would leave a board under 1 mm`;
    const where = refused.why === 'outside' ? 'an outside corner' : 'this angle';
    return `; the ${refused.joint} you chose cannot be made at ${where}`;
  }
  if (!sideUnused) return '';
  if (how === 'block')
    return '; you chose which board is worked, but both stop square at the block and neither is';
  if (chosenBy === 'user') return '; you chose which board is worked as well, but in a mitre neither is';
  const where = corner.kind === 'outside' ? 'at an outside corner' : 'at this angle';
  return `; you chose which board is worked, but ${where} both are mitred`;
}

/** Why this joint at a corner where the two boards do not touch [JT5]. */
export function blockWords(joint: CornerJoint): string {
  const { before, after } = joint;
  const told =
    joint.chosenBy === 'user'
      ? 'your choice'
      : `"${before.profile.name}" meets "${after.profile.name}", which differ`;
  const short = joint.bare ? '; the wall beside it is too short for a board' : '';
  return `block: ${told}, ${angleWords(joint)}${short}${unusedWords(joint)}`;
}

/**
 * What the user chose at a corner where two boards do not meet, why it cannot be made and what is done instead [JT3].
 * `piece`: the board that is there, if any; it ends there at its right or its left.
 */
export function unmadeWords(
  line: TrimLine,
  user: { readonly joint?: JointChoice | undefined; readonly coped?: 'before' | 'after' | undefined },
  lost: Lost,
  piece: Piece | undefined,
  right: boolean,
): string {
  const name = LINE_NAMES[line];
  const chosen =
    user.joint === undefined
      ? `Your choice of the worked ${name} board cannot be followed`
      : `The ${user.joint} you chose for ${name} cannot be made`;
  const done =
    piece === undefined ? `no ${name} board ends there` : `board ${piece.id} ${doneWords(piece, right)}`;
  return `${chosen} there: ${lostWords(lost, name)}; ${done}.`;
}

function lostWords(lost: Lost, name: string): string {
  switch (lost.kind) {
    case 'no-room':
      return `the ${thingAt(lost.against)} of ${lost.opening.id} leaves no room for a board beside it`;
    case 'filled':
      return `the ${thingAt(lost.against)} of ${lost.opening.id} fills the corner`;
    case 'stop':
      return lost.stop.kind === 'corner'
        ? `no ${name} reaches it on one wall`
        : lost.stop.kind === 'opening'
          ? `opening ${lost.stop.opening.id} reaches the corner`
          : `built-in ${lost.stop.id} stands in the corner`;
    case 'no-line':
      return `one of its walls carries no ${name}`;
    case 'short':
      return 'a board on one of its walls would come out under 1 mm';
  }
}

const thingAt = (stop: StopAt): string =>
  stop.kind === 'opening' && stop.against === 'plinth' ? 'plinth block' : 'casing';

/** How a board ends that meets no other. */
function doneWords(piece: Piece, right: boolean): string {
  const end = right ? piece.right : piece.left;
  if (end.end === 'square')
    return 'opening' in end.at ? 'ends square against it' : 'runs through to the wall, square';
  return end.end === 'return'
    ? 'is returned'
    : end.end === 'scribe'
      ? 'is scribed to the wall'
      : `has a ${end.end}`;
}

/** Why this joint, and why this board runs through. */
export function decisionWords(decision: Decision, plan: Plan, settings: Settings): string {
  const { joint, choice, before, after } = decision;
  const measured = angleWords(joint);
  const mouldings = `${before.profile.form} ${LINE_NAMES[before.line]}`;
  if (choice === 'mitre') {
    if (joint.needsLength) {
      const least = sayLength(plan, settings.copeMin);
      return `mitre: ${measured}, but boards ${before.id} and ${after.id} are both under ${least}, too short to cope`;
    }
    if (joint.chosenBy === 'user') return `mitre: your choice, ${measured}${unusedWords(joint)}`;
    const rule = joint.corner.kind === 'outside' ? '' : ', not within 80° to 100°';
    return `mitre: ${measured}${rule}${unusedWords(joint)}`;
  }
  const head =
    joint.chosenBy === 'user' && joint.sideBy !== 'user'
      ? `${joint.how}: your choice, ${measured}`
      : `${joint.how}: ${measured}, ${mouldings}`;
  const through = choice === 'after' ? before : after;
  return `${head}; board ${through.id} runs through ${because(decision, settings)}${unusedWords(joint)}`;
}

function because(decision: Decision, settings: Settings): string {
  const { joint, choice, aim, before, after, seams } = decision;
  const [through, worked] = choice === 'after' ? [before, after] : [after, before];
  if (joint.sideBy === 'user') return 'by your choice';
  if (joint.sideBy === 'taller') return 'because it is the taller';
  if (joint.sideBy === 'stub') return `because it is a stub beside the casing of ${joint.stubAt!.id}`;
  switch (aim) {
    case 'short':
      return roundHalfAway(through.back) < settings.copeMin
        ? 'because it is too short to cope'
        : 'because another board of the run would then be too short to cope';
    case 'order':
      return 'because the boards could not be put up in any order otherwise';
    case 'bothEnds':
      return 'so that fewer boards are worked at both ends';
    case 'sight': {
      const faces =
        seams !== null && (choice === 'after' ? seams.before < seams.after : seams.after < seams.before);
      return faces
        ? 'because it faces the entry'
        : 'because the seams of the run then show least from the entry';
    }
    case 'length':
      return through.L > worked.L
        ? 'because it is the longer board'
        : 'because the longer boards of the run then run through';
    default:
      return 'as walking order has it, all else being equal';
  }
}
