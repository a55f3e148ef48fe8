// The cover: what must be settled before anything is cut, what is in the set, which mouldings go where, how to read the
// figures, what was assumed, and the cautions. Points. Figures come from the report [SH24].

import { jobCautions } from '../fit/index.ts';
import { LINE_NAMES, PROFILE_KINDS } from '../plan/kinds.ts';
import { byCodeUnit, sortedEntries } from '../plan/maps.ts';
import { LINES, type Plan } from '../plan/schema.ts';
import type { Report } from '../report/schema.ts';
import { type Block, block, together } from './flow.ts';
import type { FontName, Sheet } from './items.ts';
import { countedByCode, findingBlocks, findingCounts } from './page-findings.ts';
import { layPages, type PageKit } from './page-layout.ts';
import { placeNames, profileSize, type RoomOnPaper } from './page-names.ts';
import { heading, list, prose } from './page-prose.ts';
import { type Row, table, words } from './table.ts';
import { CAP_EM, lineHeight, text, wrapText } from './texts.ts';
import { counted, gathered, nameOr, primes, printable, unbroken } from './words.ts';

/** A line of the sheet list. */
export interface SetEntry {
  readonly page: number;
  readonly title: string;
  readonly shows: string;
}

/** The cover sheets. `entries` must have their final number: the length of the cover does not hang on their pages. */
export function coverSheets(
  kit: PageKit,
  rooms: readonly RoomOnPaper[],
  entries: readonly SetEntry[],
): Sheet[] {
  const { report } = kit.solved;
  const levels = kit.plan.levels.length;
  const subtitle = [
    counted(report.rooms.length, 'room'),
    counted(levels, 'level'),
    counted(report.pieces.length, 'board'),
    ...(kit.plan.builtYear === undefined ? ['year of building not known'] : [`built ${kit.plan.builtYear}`]),
  ].join('  ·  ');
  return layPages(kit, {
    title: kit.job,
    subtitle,
    corner: 'Trim sheets for the crew',
    bookmark: 'Cover',
    parent: null,
    blocks: [
      ...urgent(kit, rooms),
      ...inTheSet(kit, entries),
      ...profiles(kit, rooms),
      ...totals(kit),
      ...howToRead(kit),
      ...assumed(kit, rooms),
      ...cautions(kit, rooms),
    ],
  });
}

function urgent(kit: PageKit, rooms: readonly RoomOnPaper[]): Block[] {
  const { measure, sizes, width } = kit;
  const findings = kit.solved.report.findings;
  const heavy = findings.filter((each) => each.severity !== 'look');
  const look = findings.filter((each) => each.severity === 'look');
  const title =
    heavy.length === 0 ? 'Nothing stops the job' : `Before anything is cut: ${findingCounts(heavy)}`;
  const note =
    heavy.length === 0
      ? 'No finding asks for a change. Measure before cutting where the sheets say so.'
      : 'Stop: do not cut before this is settled. Fix: needs work or a part that the plan does not have yet.';
  const blocks: Block[] = [heading(measure, sizes, width, title, note)];
  for (const finding of heavy) blocks.push(...findingBlocks(kit, width, finding, place(kit, rooms, finding)));
  if (look.length > 0)
    blocks.push(
      ...prose(
        measure,
        sizes,
        width,
        `Also ${findingCounts(look)}, on the room sheets: ${countedByCode(look).join(', ')}.`,
        { before: 9 * sizes.by, ink: 'graphite', role: 'look-counts' },
      ),
    );
  return blocks;
}

function place(kit: PageKit, rooms: readonly RoomOnPaper[], finding: Report['findings'][number]): string {
  const room = rooms.find((each) => each.findings.includes(finding));
  const many = kit.plan.levels.length > 1;
  if (room) return many ? `${room.name}, ${room.levelName}` : room.name;
  const level = kit.plan.levels.find((each) => each.id === finding.level);
  return level && many ? nameOr(level.name, '') : '';
}

function inTheSet(kit: PageKit, entries: readonly SetEntry[]): Block[] {
  const { measure, sizes, width } = kit;
  return table(measure, sizes, width, {
    title: 'In this set',
    columns: [
      { title: 'page', align: 'right', width: 24 * sizes.by },
      { title: 'sheet' },
      { title: 'shows', grow: 1 },
    ],
    rows: entries.map((entry) => ({
      kind: 'cells',
      cells: [
        words(`${entry.page}`, { role: 'set-page' }),
        words(entry.title, { font: 'semibold' }),
        words(entry.shows, { ink: 'graphite' }),
      ],
    })),
  });
}

/** So many characters of room names stand in a schedule; the rest is counted. */
const MOST_NAMES = 160;

function roomList(names: readonly string[]): string {
  const shown: string[] = [];
  let length = 0;
  for (const name of names) {
    if (shown.length > 0 && length + name.length > MOST_NAMES) break;
    shown.push(name);
    length += name.length + 2;
  }
  const left = names.length - shown.length;
  return left === 0 ? shown.join(', ') : `${shown.join(', ')} and ${counted(left, 'more room')}`;
}

function profiles(kit: PageKit, rooms: readonly RoomOnPaper[]): Block[] {
  const { measure, sizes, width, figures, plan } = kit;
  const { report } = kit.solved;
  const rows = sortedEntries(plan.profiles).flatMap(([id, profile]): Row[] => {
    const pieces = report.pieces.filter((piece) => piece.profile === id);
    const casings = report.casings.filter((casing) => casing.profile === id);
    const lengthMm =
      pieces.reduce((sum, piece) => sum + piece.overallMm, 0) +
      casings.reduce((sum, casing) => sum + casing.parts.reduce((own, part) => own + part.longMm, 0), 0);
    const count = pieces.length + casings.reduce((sum, casing) => sum + casing.parts.length, 0);
    const names = rooms
      .filter(
        (room) =>
          room.runs.some((run) => run.pieces.some((piece) => piece.profile === id)) ||
          casings.some((casing) => casing.room === room.trim.room.id && casing.level === room.level.id),
      )
      .map((room) => room.name);
    const outside = casings.some((casing) => casing.room === null);
    const used = roomList([...new Set(names), ...(outside ? ['outside'] : [])]);
    return [
      {
        kind: 'cells',
        cells: [
          [
            { kind: 'text', text: nameOr(profile.name, id), font: 'semibold' },
            {
              kind: 'text',
              text: `${PROFILE_KINDS[profile.kind]}, ${profile.form}`,
              size: sizes.small,
              ink: 'graphite',
            },
          ],
          words(profileSize(figures, profile)),
          words(printable(profile.material)),
          words(count === 0 ? 'not used' : used),
          count === 0
            ? words('–')
            : [
                { kind: 'text', text: unbroken(figures.length(lengthMm)) },
                { kind: 'text', text: counted(count, 'piece'), size: sizes.small, ink: 'graphite' },
              ],
        ],
      },
    ];
  });
  return table(measure, sizes, width, {
    title: 'Mouldings',
    note: 'Sizes are height × thickness; for casing width × thickness. Lengths are what the pieces need, without waste.',
    columns: [
      { title: 'moulding' },
      { title: 'size' },
      { title: 'material' },
      { title: 'where', grow: 1 },
      { title: 'total length', align: 'right' },
    ],
    rows,
  });
}

function totals(kit: PageKit): Block[] {
  const { measure, sizes, width, figures } = kit;
  const rows = LINES.flatMap((line): Row[] => {
    const total = kit.solved.report.totals[line];
    if (total === undefined || typeof total === 'number') return [];
    return [
      {
        kind: 'cells',
        cells: [
          words(LINE_NAMES[line], { font: 'semibold' }),
          words(counted(total.pieces, 'piece')),
          words(unbroken(figures.length(total.lengthMm))),
        ],
      },
    ];
  });
  const drawn = kit.solved.report.pieces.filter(
    (piece) => piece.lengthFrom === 'drawn' && piece.returnOf === null,
  );
  const blocks = table(measure, sizes, width, {
    title: 'Totals',
    columns: [
      { title: 'line', grow: 1 },
      { title: 'pieces', align: 'right' },
      { title: 'length, overall', align: 'right' },
    ],
    rows,
  });
  if (blocks.length === 0 || drawn.length === 0) return blocks;
  return [
    ...together(blocks).map((each) => ({ ...each, keep: true })),
    ...prose(
      measure,
      sizes,
      width,
      `${drawn.length === 1 ? '1 board has' : `${drawn.length} boards have`} lengths from the drawing only: measure before cutting.`,
      { before: 5, ink: 'graphite' },
    ),
  ];
}

function howToRead(kit: PageKit): Block[] {
  const { measure, sizes, width, plan } = kit;
  const unit = plan.units === 'imperial' ? 'inches' : 'millimetres';
  const entries: [string, string][] = [
    [
      'Left and right',
      'as you stand in the room and face the wall. Boards run left to right from the corner that gives them their number: 7A is the first board right of corner 7.',
    ],
    [
      'Overall',
      `the length the blank must hold, from long point to long point, in ${unit}. Back lies against the wall, face looks into the room.`,
    ],
    ['Corner angles', 'what the angle finder reads, laid on the two walls; a square corner reads 90.'],
    ['Saw settings', 'degrees off square on the saw: 0 is a square cut, a mitre in a square corner is 45.'],
    [
      'Heights',
      'all heights are above the subfloor of that level. Floor readings on the site sheet alone are taken down from the laser.',
    ],
    [
      'Drawn: measure before cutting',
      'the length comes from the drawing and nobody has held a tape to it. Measure, write it in the blank, cut to that.',
    ],
    ['Spring', 'added when the board is cut, so that it springs in tight; it is not in the overall length.'],
    [
      'Order',
      'of putting up, within one run: a board that runs through goes up before the one that is worked to meet it.',
    ],
    ['Numbers', 'of corners stay the same on every later print of this job.'],
  ];
  return [
    heading(measure, sizes, width, 'How to read the sheets'),
    ...entries.map(([term, meaning], index) => definition(kit, term, meaning, index === 0)),
  ];
}

/** A term with its meaning beside it, read together. */
function definition(kit: PageKit, term: string, meaning: string, first: boolean): Block {
  const { measure, sizes, width } = kit;
  const size = sizes.body;
  const indent = 116 * sizes.by;
  const set = (content: string, font: FontName, x: number, wide: number) =>
    wrapText(measure, content, font, size, wide).map((line, index) =>
      text(measure, {
        text: line,
        at: [x, size * CAP_EM + index * lineHeight(size)],
        size,
        font,
        role: font === 'regular' ? 'prose' : 'term',
      }),
    );
  const items = [...set(term, 'semibold', 0, indent - 8), ...set(meaning, 'regular', indent, width - indent)];
  const lowest = Math.max(...items.map((item) => item.at[1]));
  return block(lowest + size * 0.3, items, { before: first ? 4 : 3.5 });
}

/** What nobody measured: said once for the whole job, and again where it is used. */
function assumed(kit: PageKit, rooms: readonly RoomOnPaper[]): Block[] {
  const { measure, sizes, width, figures } = kit;
  const { report } = kit.solved;
  const said: string[] = [];
  const corners = report.rooms.flatMap((room) => room.loops.flatMap((loop) => loop.corners));
  const unmeasured = corners.filter((corner) => corner.includedDeg.measured === null);
  const allowed = unmeasured.filter((corner) => corner.includedDeg.allowance !== 0);
  if (unmeasured.length > 0)
    said.push(
      unmeasured.length === corners.length
        ? 'No corner has been measured: every angle is as drawn.'
        : `${unmeasured.length} of ${counted(corners.length, 'corner')} are not measured: their angles are as drawn.`,
    );
  if (allowed.length > 0) {
    const most = Math.max(...allowed.map((corner) => Math.abs(corner.includedDeg.allowance)));
    said.push(
      `Joint compound builds up in drywall corners: ${counted(allowed.length, 'unmeasured corner')} ${allowed.length === 1 ? 'is' : 'are'} cut with an allowance of ${figures.angle(most)} (common practice, no published source). Try the angle on two scraps first.`,
    );
  }
  const feet = openingsOf(
    kit.plan,
    report.casings.filter((casing) => casing.assumedFloor),
  );
  if (feet.length > 0)
    said.push(
      `Casing legs reckoned from the subfloor because the new floor there is not known: ${roomList(feet)}.`,
    );
  const floors = rooms
    .filter((room) => room.trim.room.record?.new?.floor === undefined)
    .map((room) => nameApart(room, rooms));
  if (floors.length > 0) said.push(`Height of the new floor not known: ${roomList(floors)}.`);
  for (const room of rooms) {
    const ids = new Set(room.runs.flatMap((run) => run.pieces.map((piece) => piece.id)));
    const what = report.scribes.filter((scribe) => ids.has(scribe.piece)).flatMap((scribe) => scribe.assumed);
    if (what.length > 0)
      said.push(
        `Scribing in ${nameApart(room, rooms)}: ${gathered([...new Set(what)].map(printable)).join('; ')}.`,
      );
  }
  if (said.length === 0) return [];
  return [
    heading(measure, sizes, width, 'Assumed, not measured'),
    ...list(measure, sizes, width, said.map(primes), 'dash'),
  ];
}

/** The openings that casings stand at, each once, as the crew calls them. */
function openingsOf({ levels }: Plan, casings: Report['casings']): string[] {
  const names = casings.map(({ level, opening }) => {
    const own = levels.find(({ id }) => id === level);
    return own === undefined ? opening : placeNames(own).opening(opening);
  });
  return [...new Set(names)].sort(byCodeUnit);
}

/** A room's name, with its level where another room has the same. */
function nameApart({ name, levelName: level }: RoomOnPaper, rooms: readonly RoomOnPaper[]): string {
  const alike = rooms.filter((each) => each.name === name).length;
  return alike > 1 ? `${name} (${level})` : name;
}

function cautions(kit: PageKit, rooms: readonly RoomOnPaper[]): Block[] {
  const { measure, sizes, width } = kit;
  const said = jobCautions(
    kit.plan,
    rooms.map((room) => room.trim),
    kit.solved.findings,
  );
  return [heading(measure, sizes, width, 'Cautions'), ...cautionList(kit, width, said)];
}

/** Cautions, each with the source it rests on. */
export function cautionList(
  kit: PageKit,
  width: number,
  said: readonly { readonly text: string; readonly source: string | null }[],
): Block[] {
  const { measure, sizes } = kit;
  return list(
    measure,
    sizes,
    width,
    said.map(({ text: content, source }) =>
      primes(source === null ? content : `${content} Source: ${source}.`),
    ),
    'dash',
    { role: 'caution' },
  );
}
