// The report as plain lines for a terminal: findings first, then each room with its boards. Prints the report and
// nothing else, so it says what the JSON says.

import type { Plan } from '../plan/schema.ts';
import { settingsOf } from '../plan/settings.ts';
import { formatArea, formatLength, formatSaw } from '../units/index.ts';
import { TICKS_PER_MM, ticksFromMm } from '../units/ticks.ts';
import type { Report } from './schema.ts';

type Piece = Report['pieces'][number];
type End = Piece['left'];

const SEVERITY_WORDS = { stop: 'STOP', fix: 'FIX', look: 'look' } as const;

function endWords(end: End): string {
  const saw = end.sawDeg === 0 ? '' : ` ${formatSaw(end.sawDeg)}`;
  const long = end.longPoint === null ? '' : `, long at ${end.longPoint}`;
  return `${end.end}${saw}${long}`;
}

/** The report as text; lengths in the plan's units and rounding. Ends with a line break. */
export function reportToText(plan: Plan, report: Report): string {
  const { roundIn, roundMm } = settingsOf(plan);
  const length = (mm: number): string =>
    formatLength(ticksFromMm(mm), { units: plan.units, roundIn, roundMm, style: 'inches' });
  const lines: string[] = [report.title, ''];
  for (const finding of report.findings) {
    lines.push(`${SEVERITY_WORDS[finding.severity]}  ${finding.code}: ${finding.message}`);
    for (const remedy of finding.remedies) lines.push(`      - ${remedy}`);
  }
  for (const room of report.rooms) {
    const area = formatArea(room.areaMm2 * TICKS_PER_MM * TICKS_PER_MM, plan.units);
    lines.push('', `${room.name} (${room.level}), ${area}`);
    const pieces = report.pieces.filter((piece) => isListedIn(piece, room));
    for (const piece of pieces) {
      const spring = piece.springMm > 0 ? ` + ${length(piece.springMm)} spring` : '';
      const blank =
        piece.lengthFrom === 'drawn' && piece.returnOf === null ? '  drawn: measure before cutting' : '';
      lines.push(
        `  ${piece.id.padEnd(9)} ${piece.profile.padEnd(10)} overall ${length(piece.overallMm)}${spring}` +
          `  [${endWords(piece.left)} | ${endWords(piece.right)}]  order ${piece.order}${blank}`,
      );
    }
  }
  return `${lines.join('\n')}\n`;
}

/** Room ids are unique within a level only: a piece belongs to the room that lists it in a run, or whose run lists its parent. */
function isListedIn(piece: Piece, room: Report['rooms'][number]): boolean {
  const listed = piece.returnOf ?? piece.id;
  return room.runs.some((run) => run.line === piece.line && run.pieces.includes(listed));
}
