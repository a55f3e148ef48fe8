// The report as plain lines for a terminal: findings first, then each room with its boards, casings and scribes. Prints
// the report and nothing else, so it says what the JSON says.

import { scribeWords, UNTOUCHED } from '../fit/index.ts';
import type { Scribe } from '../fit/types.ts';
import { lookup } from '../plan/maps.ts';
import { settingsOf } from '../plan/settings.ts';
import { formatArea, formatLength, formatSaw } from '../units/index.ts';
import { TICKS_PER_MM, ticksFromMm } from '../units/ticks.ts';
import type { Report } from './schema.ts';
import type { Solved } from './types.ts';

type Room = Report['rooms'][number];
type Piece = Report['pieces'][number];
type End = Piece['left'];

const SEVERITY_WORDS = { stop: 'STOP', fix: 'FIX ', look: 'look' } as const;
const PART_WORDS = { head: 'head', legLeft: 'left leg', legRight: 'right leg', sill: 'sill' } as const;

function endWords(end: End): string {
  const saw = end.sawDeg === 0 ? '' : ` ${formatSaw(end.sawDeg)}`;
  const long = end.longPoint === null ? '' : `, long at ${end.longPoint}`;
  return `${end.end}${saw}${long}`;
}

/** A piece belongs to the room that lists it in a run, or whose run lists its parent: room ids may recur on another level. */
function isListedIn(piece: Piece, room: Room): boolean {
  const listed = piece.returnOf ?? piece.id;
  return room.runs.some((run) => run.line === piece.line && run.pieces.includes(listed));
}

/** A board that stands on the floor as it is: nothing comes off, no end is held up, and the old line is covered. */
function isLeftAlone(scribe: Scribe): boolean {
  const held = [scribe.stations[0], scribe.stations.at(-1)].some((end) => (end?.gap ?? 0) >= UNTOUCHED);
  return scribe.takeFrom === 'none' && scribe.coversOldLine && !held && scribe.underGap === 0;
}

/** The report as text; lengths in the plan's units and rounding. Ends with a line break. */
export function reportToText({ plan, report, scribes }: Solved): string {
  const { roundIn, roundMm } = settingsOf(plan);
  const length = (mm: number, finest?: { readonly roundIn: number; readonly roundMm: number }): string =>
    formatLength(ticksFromMm(mm), { units: plan.units, roundIn, roundMm, style: 'inches', ...finest });
  const profileName = (id: string): string => lookup(plan.profiles, id)?.name ?? id;
  const levelName = (id: string): string => plan.levels.find((level) => level.id === id)?.name ?? id;

  const pieceLine = (piece: Piece): string => {
    // The spring is a small set figure: it is printed as it is, not to the rounding of lengths.
    const spring =
      piece.springMm > 0 ? ` + ${length(piece.springMm, { roundIn: 64, roundMm: 0.1 })} spring` : '';
    const blank =
      piece.lengthFrom === 'drawn' && piece.returnOf === null ? '  drawn: measure before cutting' : '';
    return (
      `  ${piece.id.padEnd(9)} ${profileName(piece.profile)}: overall ${length(piece.overallMm)}${spring}` +
      `  [${endWords(piece.left)} | ${endWords(piece.right)}]  order ${piece.order}${blank}`
    );
  };
  const casingLines = (room: Room): string[] =>
    report.casings
      .filter((casing) => casing.level === room.level && casing.room === room.id)
      .map((casing) => {
        const parts = casing.parts.map(
          (part) => `${PART_WORDS[part.part]} ${length(part.shortMm)} short, ${length(part.longMm)} long`,
        );
        const assumed = casing.assumedFloor ? '  (assumed: legs from the subfloor)' : '';
        return `  casing at ${casing.opening}, ${profileName(casing.profile)}: ${parts.join('; ')}${assumed}`;
      });

  const lines: string[] = [report.title, ''];
  for (const finding of report.findings) {
    lines.push(`${SEVERITY_WORDS[finding.severity]}  ${finding.code}: ${finding.message}`);
    for (const remedy of finding.remedies) lines.push(`      - ${remedy}`);
  }
  for (const room of report.rooms) {
    const area = formatArea(room.areaMm2 * TICKS_PER_MM * TICKS_PER_MM, plan.units);
    lines.push('', `${room.name} (${levelName(room.level)}), ${area}`);
    const pieces = report.pieces.filter((piece) => isListedIn(piece, room));
    lines.push(...pieces.map(pieceLine), ...casingLines(room));
    const ids = new Set(pieces.map((piece) => piece.id));
    const own = scribes.filter((each) => ids.has(each.piece));
    const standing = own.filter(isLeftAlone);
    for (const scribe of own.filter((each) => !standing.includes(each))) {
      lines.push(`  scribing: ${scribeWords(scribe, plan).join(' ')}`);
    }
    if (standing.length > 0) {
      const assumed = [...new Set(standing.flatMap((each) => each.assumed))];
      const note = assumed.length === 0 ? '' : ` Assumed, not measured: ${assumed.join('; ')}.`;
      lines.push(`  nothing to scribe: ${standing.map((each) => each.piece).join(', ')}.${note}`);
    }
  }
  return `${lines.join('\n')}\n`;
}
