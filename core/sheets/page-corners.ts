// A room's corners as a table: what the angle finder reads, drawn and measured and with the allowance, and for each line
// the joint, the board that is worked, how the saw is set and why. Points; figures come from the report [SH24].

import { LINE_NAMES } from '../plan/kinds.ts';
import type { Block } from './flow.ts';
import { MARK_LETTERS } from './marks.ts';
import type { PageKit } from './page-layout.ts';
import type { ReportRoom, RoomOnPaper } from './page-names.ts';
import { ringedNumber, ringRadius } from './shapes.ts';
import { workedBoard } from './strip-spec.ts';
import { blank, type Cell, type Row, table, words } from './table.ts';
import { JOINT_WORDS, primes, printable, unbroken } from './words.ts';

type ReportCorner = ReportRoom['loops'][number]['corners'][number];

/** Every corner of a room by its number. */
export function cornerTable(kit: PageKit, room: RoomOnPaper): Block[] {
  const { measure, sizes, width } = kit;
  const anyAllowance = room.said.loops.some((loop) =>
    loop.corners.some((corner) => corner.includedDeg.allowance !== 0),
  );
  const rows = room.said.loops.flatMap((loop, loopIndex): Row[] => {
    const order = loop.corners
      .map((_, index) => index)
      .toSorted((a, b) => loop.corners[a]!.number - loop.corners[b]!.number);
    const ours = order.flatMap((index): Row[] =>
      cornerRows(kit, room, loop.corners[index]!, loopIndex, index, anyAllowance),
    );
    return loop.kind === 'island' && ours.length > 0
      ? [{ kind: 'band', text: 'What stands free in the room' }, ...ours]
      : ours;
  });
  return table(measure, sizes, width, {
    title: 'Corners',
    note: `Angles: as the angle finder reads. Saw: degrees off square.${anyAllowance ? ' Allow: assumed for compound in corners nobody measured, mitres and copes only.' : ''}`,
    columns: [
      { title: '', width: ringRadius(measure, '88', sizes.body) * 2 },
      { title: 'drawn' },
      { title: 'measured', width: 40 * sizes.by },
      ...(anyAllowance ? [{ title: 'allow', align: 'right' } as const] : []),
      { title: 'used', align: 'right' },
      { title: 'line' },
      { title: 'joint' },
      { title: 'worked' },
      { title: 'saw', align: 'right' },
      { title: 'why', grow: 1 },
    ],
    rows,
  });
}

/** A joint as its row tells it. */
interface Told {
  readonly line: string;
  readonly joint: string;
  readonly worked: string;
  readonly saw: string;
  readonly why: string;
}

/** A row for each line with a joint at the corner, one for lines that are joined alike; the corner stands in the first. */
function cornerRows(
  kit: PageKit,
  room: RoomOnPaper,
  corner: ReportCorner,
  loop: number,
  index: number,
  anyAllowance: boolean,
): Row[] {
  const { figures } = kit;
  const about = cornerCells(kit, corner, anyAllowance);
  const trimCorner = room.trim.room.loops[loop]!.corners[index]!;
  const joints = (['base', 'shoe'] as const).flatMap((line) => {
    const joint = corner[line];
    if (!joint) return [];
    const trim = room.trim.lines.find((each) => each.line === line);
    const told: Told = {
      line: LINE_NAMES[line],
      joint: `${MARK_LETTERS[joint.joint]}\u00a0${unbroken(JOINT_WORDS[joint.joint])}`,
      worked:
        joint.joint === 'mitre'
          ? 'both'
          : joint.coped === null
            ? '–'
            : (workedBoard(trim, trimCorner, joint.coped) ?? '–'),
      saw: figures.saw(joint.sawDeg),
      why: reasonWords(joint.why) || (corner.kind === 'outside' ? 'outside corner' : ''),
    };
    return [{ joint, told }];
  });
  if (joints.length === 0) {
    const none = words('no two boards meet here', { size: kit.sizes.small, ink: 'graphite' });
    return [{ kind: 'cells', cells: [...about, [], words('–'), [], [], none] }];
  }
  const [base, shoe] = joints;
  const alike =
    base !== undefined &&
    shoe !== undefined &&
    base.joint.joint === shoe.joint.joint &&
    base.joint.coped === shoe.joint.coped &&
    base.told.saw === shoe.told.saw;
  const rows = alike ? [inOne(base.told, shoe.told)] : joints.map(({ told }) => told);
  return rows.map((told, at): Row => {
    const last = at === rows.length - 1;
    return {
      kind: 'cells',
      keep: !last,
      open: !last,
      cells: [
        ...(at === 0 ? about : about.map(() => [])),
        words(told.line, { ink: 'graphite' }),
        words(told.joint, { font: 'semibold' }),
        words(told.worked),
        words(told.saw, { font: 'semibold' }),
        words(told.why, { size: kit.sizes.small, ink: 'graphite' }),
      ],
    };
  });
}

/** Base and shoe in one row: the base's reason, and the shoe's where it is another. */
function inOne(base: Told, shoe: Told): Told {
  const own = shoe.why.replace(/^\S+ runs through /, '');
  const same = base.why.endsWith(own);
  return {
    ...base,
    line: unbroken('base, shoe'),
    worked: base.worked === shoe.worked ? base.worked : `${base.worked}, ${shoe.worked}`,
    why: same ? base.why : `${base.why}; shoe ${own}`,
  };
}

/**
 * The reason for a joint without what stands in the row's other columns: its name, the corner's kind and angles, the
 * moulding. Whatever is not in that form is kept whole.
 */
export function reasonWords(why: string): string {
  const said = primes(printable(why))
    .replace(/^(cope|mitre|butt|block): /, '')
    .replace(/(inside|outside) [\d.]+° (drawn|measured)( and set for [\d.]+° with build-up)?/, '')
    .replace(/, (shaped|flat) (base|shoe)(?=;|$)/, '')
    .replace(/^[,; ]+/, '')
    .replace(/[,; ]+$/, '')
    .replace(/^board (?=\S+ runs through)/, '')
    .replace(/^not within/, 'angle not within');
  return said;
}

function cornerCells(kit: PageKit, corner: ReportCorner, anyAllowance: boolean): Cell[] {
  const { sizes, figures, measure } = kit;
  const { drawn, measured, allowance, used } = corner.includedDeg;
  const number = `${corner.number}`;
  const ring = ringRadius(measure, number, sizes.body);
  return [
    [
      {
        kind: 'drawing',
        width: 2 * ring,
        height: 2 * ring,
        items: ringedNumber(measure, [ring, ring], number, sizes.body),
      },
    ],
    words(unbroken(`${corner.kind} ${figures.angle(drawn)}`)),
    measured === null ? [blank(13 * sizes.by)] : words(figures.angle(measured), { font: 'semibold' }),
    ...(anyAllowance
      ? [words(allowance === 0 ? '–' : `${allowance > 0 ? '+' : ''}${figures.angle(allowance)}`)]
      : []),
    words(figures.angle(used), { font: 'semibold' }),
  ];
}
