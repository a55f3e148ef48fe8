// Findings as the crew reads them: how bad, where, what is wrong in plain words, and what to do about it in order of
// preference. Worst first, as the report sorts them [SH28]. Points.

import { SEVERITIES, type Severity } from '../fit/types.ts';
import type { Report } from '../report/schema.ts';
import type { Block } from './flow.ts';
import type { PageKit } from './page-layout.ts';
import { list, prose } from './page-prose.ts';
import { flaggedLetter, flagHalf, rectangle } from './shapes.ts';
import { CAP_EM, text } from './texts.ts';
import { counted, FINDING_NAMES, primes, printable, SEVERITY_WORDS } from './words.ts';

type ReportFinding = Report['findings'][number];

/** One finding as blocks: its tag, its letter on the plan, its place, its message, its remedies. `place` may be empty. */
export function findingBlocks(
  kit: PageKit,
  width: number,
  finding: ReportFinding,
  place: string,
  letter?: string,
): Block[] {
  const { measure, sizes } = kit;
  const size = sizes.small;
  const word = SEVERITY_WORDS[finding.severity].one.toUpperCase();
  // Tags are of one width, so that messages line up.
  const widest = Math.max(
    ...SEVERITIES.map((each) => measure.width(SEVERITY_WORDS[each].one.toUpperCase(), 'bold', size)),
  );
  const wide = widest + 8 * sizes.by;
  const high = size * CAP_EM + 5 * sizes.by;
  const heavy = finding.severity !== 'look';
  const ink = heavy ? 'pencil' : 'graphite';
  const half = letter === undefined ? 0 : flagHalf(measure, letter, size);
  const flagAt = wide + 5 * sizes.by + half;
  const indent = letter === undefined ? wide + 7 * sizes.by : flagAt + half + 6 * sizes.by;
  const message = `${place === '' ? '' : `${place}: `}${primes(printable(finding.message))}`;
  const said = prose(measure, sizes, width, message, {
    indent,
    before: 7 * sizes.by,
    keep: finding.remedies.length > 0,
    font: heavy ? 'semibold' : 'regular',
    role: 'finding',
  });
  const top = (sizes.body * CAP_EM - high) / 2;
  const tag = [
    rectangle(
      [0.5, top, wide, top + high],
      {
        ink,
        width: finding.severity === 'stop' ? 1.1 : 0.7,
        ...(finding.severity === 'look' ? { dash: [2, 1.2] } : {}),
      },
      finding.severity === 'stop' ? 'pencil' : 'paper',
      'severity-box',
    ),
    text(measure, {
      text: word,
      at: [0.25 + wide / 2, top + high / 2 + (size * CAP_EM) / 2],
      size,
      font: 'bold',
      ink: finding.severity === 'stop' ? 'paper' : ink,
      align: 'middle',
      role: 'severity',
    }),
    ...(letter === undefined
      ? []
      : flaggedLetter(measure, [flagAt, top + high / 2 - 1 * sizes.by], letter, size)),
  ];
  const first = said[0]!;
  const remedies = list(
    measure,
    sizes,
    width,
    finding.remedies.map((remedy) => primes(printable(remedy))),
    finding.remedies.length > 1 ? 'number' : 'dash',
    { indent, before: 1.5, ink: 'ink', role: 'remedy' },
  );
  return [{ ...first, items: [...tag, ...first.items] }, ...said.slice(1), ...remedies];
}

/** `1 stop, 3 fixes, 12 to look at`; empty where there are none. */
export function findingCounts(findings: readonly ReportFinding[]): string {
  const names: Readonly<Record<Severity, (count: number) => string>> = {
    stop: (count) => counted(count, 'stop'),
    fix: (count) => counted(count, 'fix', 'fixes'),
    look: (count) => `${count} to look at`,
  };
  return SEVERITIES.flatMap((severity) => {
    const count = findings.filter((each) => each.severity === severity).length;
    return count === 0 ? [] : [names[severity](count)];
  }).join(', ');
}

/** Findings counted by what they are about, most first: `3 slivers`. */
export function countedByCode(findings: readonly ReportFinding[]): string[] {
  const codes = [...new Set(findings.map((each) => each.code))];
  return codes
    .map((code) => ({ code, count: findings.filter((each) => each.code === code).length }))
    .toSorted((a, b) => b.count - a.count || (a.code < b.code ? -1 : 1))
    .map(({ code, count }) => counted(count, ...FINDING_NAMES[code]));
}
