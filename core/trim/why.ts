// A decision at a corner to one plain sentence with its figures, as the report and the sheets print it. RULES: JT, WB.

import type { Plan } from '../plan/schema.ts';
import type { Settings } from '../plan/settings.ts';
import { formatAngle, formatLength } from '../units/format.ts';
import { roundHalfAway } from '../units/ticks.ts';
import type { CornerJoint } from './corners.ts';
import type { Decision } from './runs.ts';

const nameOf = (line: string): string =>
  line === 'chairRail' ? 'chair rail' : line === 'pictureRail' ? 'picture rail' : line;

/** `inside 91.5° measured`, `outside 90° drawn`, and the angle it is set for where build-up is allowed for. */
function angleWords({ corner, angles, how }: CornerJoint): string {
  const plain = `${corner.kind} ${formatAngle(angles.plain)} ${angles.measured === null ? 'drawn' : 'measured'}`;
  const set = angles.allowance !== 0 && (how === 'cope' || how === 'mitre');
  return set ? `${plain} and set for ${formatAngle(angles.used)} with build-up` : plain;
}

function refusedWords({ refused, corner }: CornerJoint): string {
  if (refused === null) return '';
  const where = corner.kind === 'outside' && refused !== 'mitre' ? 'an outside corner' : 'this angle';
  return `; the ${refused} you chose cannot be made at ${where}`;
}

/** Why this joint at a corner where the two boards do not touch [JT5]. */
export function blockWords(joint: CornerJoint): string {
  const { before, after } = joint;
  const told =
    joint.chosenBy === 'user'
      ? 'your choice'
      : `"${before.profile.name}" meets "${after.profile.name}", which differ`;
  return `block: ${told}, ${angleWords(joint)}${refusedWords(joint)}`;
}

/** Why this joint, and why this board runs through. */
export function decisionWords(decision: Decision, plan: Plan, settings: Settings): string {
  const { joint, choice, before, after } = decision;
  const measured = angleWords(joint);
  const mouldings = `${before.profile.form} ${nameOf(before.line)}`;
  if (choice === 'mitre') {
    if (joint.needsLength) {
      const least = formatLength(settings.copeMin, {
        units: plan.units,
        roundIn: settings.roundIn,
        roundMm: settings.roundMm,
        style: 'inches',
      });
      return `mitre: ${measured}, but boards ${before.id} and ${after.id} are both under ${least}, too short to cope`;
    }
    if (joint.chosenBy === 'user') return `mitre: your choice, ${measured}${refusedWords(joint)}`;
    const rule = joint.corner.kind === 'outside' ? '' : ', not within 80° to 100°';
    return `mitre: ${measured}${rule}${refusedWords(joint)}`;
  }
  const head =
    joint.chosenBy === 'user' && joint.sideBy !== 'user'
      ? `${joint.how}: your choice, ${measured}`
      : `${joint.how}: ${measured}, ${mouldings}`;
  const through = choice === 'after' ? before : after;
  return `${head}; board ${through.id} runs through ${because(decision, settings)}`;
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
