// A room's corners as a table: what the angle finder reads, drawn and measured and with the allowance, and for each line
// the joint, the board that is worked, how the saw is set and why. Points; figures come from the report [SH24].

import type { Block } from './flow.ts';
import { ringedNumber, ringRadius } from './kit.ts';
import { MARK_LETTERS } from './marks.ts';
import type { PageKit } from './page-layout.ts';
import type { ReportRoom, RoomOnPaper } from './page-names.ts';
import { workedBoard } from './strip-spec.ts';
import { blank, type Cell, type Row, table, words } from './table.ts';
import { JOINT_WORDS, LINE_NAMES, primes, printable } from './words.ts';

type ReportCorner = ReportRoom['loops'][number]['corners'][number];

/** Every corner of a room by its number. */
export function cornerTable(kit: PageKit, room: RoomOnPaper): Block[] {
  const { measure, sizes, width } = kit;
  const rows = room.said.loops.flatMap((loop, loopIndex): Row[] => {
    const order = loop.corners
      .map((_, index) => index)
      .toSorted((a, b) => loop.corners[a]!.number - loop.corners[b]!.number);
    const ours = order.flatMap((index): Row[] =>
      cornerRows(kit, room, loop.corners[index]!, loopIndex, index),
    );
    return loop.kind === 'island' && ours.length > 0
      ? [{ kind: 'band', text: 'What stands free in the room' }, ...ours]
      : ours;
  });
  const anyAllowance = room.said.loops.some((loop) =>
    loop.corners.some((corner) => corner.includedDeg.allowance !== 0),
  );
  return table(measure, sizes, width, {
    title: 'Corners',
    note: `Corner angles are what the angle finder reads. Saw is degrees off square.${anyAllowance ? ' Allowance: for compound in unmeasured drywall corners, in mitres and copes only.' : ''}`,
    columns: [
      { title: '', width: ringRadius(measure, '88', sizes.body) * 2 },
      { title: 'corner' },
      { title: 'drawn', align: 'right' },
      { title: 'measured', width: 42 * sizes.by },
      { title: 'allowance', align: 'right' },
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

/** A row for each line with a joint at the corner; the corner itself stands in the first. */
function cornerRows(
  kit: PageKit,
  room: RoomOnPaper,
  corner: ReportCorner,
  loop: number,
  index: number,
): Row[] {
  const { figures } = kit;
  const joints = (['base', 'shoe'] as const).flatMap((line) => {
    const joint = corner[line];
    return joint ? [{ line, joint }] : [];
  });
  const about = cornerCells(kit, corner);
  if (joints.length === 0) {
    const none = words('no two boards meet here', { size: kit.sizes.small, ink: 'graphite' });
    return [{ kind: 'cells', cells: [...about, [], words('–'), [], [], none] }];
  }
  const trimCorner = room.trim.room.loops[loop]!.corners[index]!;
  return joints.map(({ line, joint }, at): Row => {
    const trim = room.trim.lines.find((each) => each.line === line);
    const worked =
      joint.joint === 'mitre'
        ? 'both'
        : joint.coped === null
          ? '–'
          : (workedBoard(trim, trimCorner, joint.coped) ?? '–');
    const last = at === joints.length - 1;
    return {
      kind: 'cells',
      keep: !last,
      open: !last,
      cells: [
        ...(at === 0 ? about : about.map(() => [])),
        words(LINE_NAMES[line], { ink: 'graphite' }),
        words(`${MARK_LETTERS[joint.joint]}\u00a0\u00a0${JOINT_WORDS[joint.joint]}`, {
          font: 'semibold',
        }),
        words(worked),
        words(figures.saw(joint.sawDeg), { font: 'semibold' }),
        words(whyWords(joint), { size: kit.sizes.small, ink: 'graphite' }),
      ],
    };
  });
}

/** The reason without the joint's name, which stands in its own column. */
function whyWords(joint: NonNullable<ReportCorner['base']>): string {
  const why = primes(printable(joint.why));
  const head = `${joint.joint}: `;
  return why.startsWith(head) ? why.slice(head.length) : why;
}

function cornerCells(kit: PageKit, corner: ReportCorner): Cell[] {
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
    words(corner.kind),
    words(figures.angle(drawn)),
    measured === null ? [blank(13 * sizes.by)] : words(figures.angle(measured), { font: 'semibold' }),
    words(allowance === 0 ? '–' : `${allowance > 0 ? '+' : ''}${figures.angle(allowance)}`),
    words(figures.angle(used), { font: 'semibold' }),
  ];
}
