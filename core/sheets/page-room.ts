// One room's sheet: its plan, its walls unrolled, what was found, its boards and corners, how to scribe, what to do first
// and in which order, cautions, and lines for what the crew finds. Points; figures come from the report [SH24, SH31].

import { oldLine } from '../fit/context.ts';
import { type Caution, roomNotes, scribeWords } from '../fit/index.ts';
import { lookup } from '../plan/maps.ts';
import type { DerivedLevel } from '../report/types.ts';
import { mmFromTicks } from '../units/ticks.ts';
import { type Block, block, together } from './flow.ts';
import type { Sheet } from './items.ts';
import { moved } from './kit.ts';
import { roomBoards } from './page-boards.ts';
import { cornerTable } from './page-corners.ts';
import { cautionList } from './page-cover.ts';
import { findingBlocks, findingCounts } from './page-findings.ts';
import { layPages, type PageKit } from './page-layout.ts';
import { placeNames, profileName, profileSize, type RoomOnPaper } from './page-names.ts';
import { heading, list, prose } from './page-prose.ts';
import { drawnBox, flagFindings, type PlanDrawing, planDrawing } from './plan-drawing.ts';
import { planFormat } from './plan-sheets.ts';
import { scribeBlocks } from './scribe-drawing.ts';
import { strip, stripNote } from './strip.ts';
import type { StripSpec } from './strip-spec.ts';
import { blank, table, words } from './table.ts';
import { counted, LINE_NAMES, primes, printable } from './words.ts';

/** How high a room's plan stands at most, as a share of its column's width, and never more than so much of the sheet. */
const PLAN_SHARE = 0.72;
const PLAN_OF_SHEET = 0.48;
const FOUND_LINES = 5;

/** The sheets of one room. `parent` is the bookmark they hang under. */
export function roomSheets(
  kit: PageKit,
  derived: DerivedLevel,
  room: RoomOnPaper,
  parent: string | null,
): Sheet[] {
  const onLevel = kit.solved.findings.filter((each) => each.level === room.level.id || each.level === null);
  const notes = roomNotes(kit.plan, room.trim.room, room.trim, onLevel);
  return layPages(kit, {
    title: room.name,
    subtitle: subtitle(kit, room),
    bookmark: room.name,
    parent,
    blocks: [
      ...planBlocks(kit, derived, room),
      ...stripBlocks(kit, room),
      ...findings(kit, room),
      ...facts(kit, room),
      ...stepsBlocks(kit, 'Preparation', notes.preparation, 'tick'),
      ...stepsBlocks(kit, 'Order of work', notes.order, 'number'),
      ...roomBoards(kit, room),
      ...cornerTable(kit, room),
      ...scribes(kit, room),
      ...cautions(kit, notes.cautions),
      ...found(kit),
    ],
  });
}

function subtitle(kit: PageKit, room: RoomOnPaper): string {
  const boards = room.runs.reduce((sum, run) => sum + run.pieces.length, 0);
  return [
    room.levelName,
    kit.figures.area(room.said.areaMm2),
    `${kit.figures.length(room.said.perimeterMm)} of wall`,
    counted(boards, 'board'),
    'heights above the subfloor',
  ].join('  ·  ');
}

function planBlocks(kit: PageKit, derived: DerivedLevel, room: RoomOnPaper): Block[] {
  const { measure, sizes, width } = kit;
  const drawing = planDrawing(
    measure,
    derived,
    [0, 0, width, Math.min(width * PLAN_SHARE, kit.size[1] * PLAN_OF_SHEET)],
    {
      units: kit.plan.units,
      format: planFormat(kit.plan),
      room: room.trim.room.id,
      findings: flagFindings(kit.solved.findings, room.level.id),
    },
  );
  if (drawing === null) return [];
  const box = drawnBox(drawing.items);
  const note = planNote(drawing);
  return [
    { ...block(box[3] - box[1], moved(drawing.items, [0, -box[1]])), keep: true },
    ...prose(measure, sizes, width, note, {
      size: sizes.small,
      font: 'italic',
      ink: 'graphite',
      before: 3,
      role: 'note',
    }),
  ];
}

function planNote(drawing: PlanDrawing): string {
  const left = drawing.unplaced.map((each) => printable(each.words));
  const scale = `Plan ${drawing.scale.name}.`;
  return left.length === 0 ? scale : `${scale} No room on the plan for: ${left.join('; ')}.`;
}

function stripSpec(kit: PageKit, room: RoomOnPaper, loop: number): StripSpec {
  return {
    trim: room.trim,
    loop,
    reportRoom: room.said,
    pieces: new Map(kit.solved.report.pieces.map((piece) => [piece.id, piece])),
    scribes: new Map(kit.solved.scribes.map((scribe) => [scribe.piece, scribe])),
  };
}

function stripBlocks(kit: PageKit, room: RoomOnPaper): Block[] {
  const { measure, sizes, width, figures } = kit;
  return room.trim.room.loops.flatMap((loop, index) => {
    const spec = stripSpec(kit, room, index);
    const rows = strip(measure, sizes, figures, width, spec);
    if (rows.length === 0) return [];
    const title = loop.kind === 'outer' ? 'Walls unrolled' : `What stands free in the room, unrolled`;
    return [heading(measure, sizes, width, title, stripNote(sizes, width, spec)), ...rows];
  });
}

function findings(kit: PageKit, room: RoomOnPaper): Block[] {
  const { measure, sizes, width } = kit;
  if (room.findings.length === 0) return [];
  const letters = new Map(
    flagFindings(kit.solved.findings, room.level.id).map(({ letter, finding }) => [
      kit.solved.findings.indexOf(finding),
      letter,
    ]),
  );
  return [
    heading(measure, sizes, width, `Found: ${findingCounts(room.findings)}`),
    ...room.findings.flatMap((finding) => {
      const letter = letters.get(kit.solved.report.findings.indexOf(finding));
      return findingBlocks(kit, width, finding, '', letter);
    }),
  ];
}

/** What the room's boards are and what they stand on: a short table of two columns. */
function facts(kit: PageKit, room: RoomOnPaper): Block[] {
  const { measure, sizes, width, figures } = kit;
  const record = room.trim.room.record;
  const height = (ticks: number) => figures.fine(mmFromTicks(ticks));
  const rows: [string, string][] = [];
  for (const line of room.trim.lines) {
    const ids = [...new Set(line.stretches.map((stretch) => stretch.profileId))];
    for (const id of ids) {
      const profile = lookup(kit.plan.profiles, id);
      if (!profile) continue;
      const material = printable(profile.material);
      rows.push([
        LINE_NAMES[line.line],
        [
          profileName(kit.solved, id),
          profileSize(figures, profile),
          profile.form,
          ...(material === '' ? [] : [material]),
        ].join(', '),
      ]);
    }
  }
  const floor = record?.new?.floor;
  rows.push([
    'new floor',
    floor === undefined
      ? 'not known: measure it'
      : `${height(floor)} above the subfloor${(record?.new?.gap ?? 0) > 0 ? `, base ${height(record!.new!.gap!)} off it` : ''}${record?.new?.carpet ? ', carpet' : ''}`,
  ]);
  const line = oldLine(room.trim.room);
  if (line !== null) rows.push(['old line', `${height(line)} above the subfloor`]);
  const entry = room.trim.room.entry;
  if (entry)
    rows.push([
      'seen from',
      `${placeNames(room.level).opening(entry.id)}: where there is a choice, boards that face it run through`,
    ]);
  const blocks = table(measure, sizes, width, {
    title: 'What goes up',
    columns: [{ title: '' }, { title: '', grow: 1 }],
    rows: rows.map(([name, said]) => ({
      kind: 'cells',
      cells: [words(name, { font: 'semibold', ink: 'graphite' }), words(said)],
    })),
  });
  return together(blocks);
}

function scribes(kit: PageKit, room: RoomOnPaper): Block[] {
  const { measure, sizes, width, figures } = kit;
  const ids = new Set(room.runs.flatMap((run) => run.pieces.map((piece) => piece.id)));
  const ours = kit.solved.report.scribes.filter((scribe) => ids.has(scribe.piece));
  if (ours.length === 0) return [];
  const inTicks = kit.solved.scribes.filter((scribe) => ids.has(scribe.piece));
  // What was assumed is said once for the room; each entry names its place.
  const assumed = [...new Set(inTicks.flatMap((scribe) => scribe.assumed))].map(printable);
  const say = (piece: string): string[] => {
    const scribe = inTicks.find((each) => each.piece === piece);
    if (!scribe) throw new Error(`no scribe of board ${piece}`);
    return scribeWords({ ...scribe, assumed: [] }, kit.plan).map((each) => primes(printable(each)));
  };
  const touched = ours.filter((scribe) => scribe.takeFrom !== 'none');
  const untouched = ours.filter((scribe) => scribe.takeFrom === 'none');
  return [
    heading(
      measure,
      sizes,
      width,
      'Scribing to the floor',
      touched.length === 0
        ? 'No board of this room is scribed.'
        : 'Each board facing the wall, left end on the left. Mark all boards of a run before cutting any.',
    ),
    ...(assumed.length === 0
      ? []
      : prose(measure, sizes, width, `Assumed, not measured: ${assumed.join('; ')}. Check before cutting.`, {
          font: 'semibold',
          keep: true,
        })),
    ...touched.flatMap((scribe) => scribeBlocks(measure, sizes, figures, width, scribe, say(scribe.piece))),
    ...(untouched.length === 0
      ? []
      : list(
          measure,
          sizes,
          width,
          untouched.map((scribe) => say(scribe.piece).join(' ')),
          'dash',
          { before: 7 * sizes.by, role: 'scribe-words' },
        )),
  ];
}

function stepsBlocks(
  kit: PageKit,
  title: string,
  entries: readonly string[],
  bullet: 'tick' | 'number',
): Block[] {
  if (entries.length === 0) return [];
  const { measure, sizes, width } = kit;
  const said = entries.map((each) => primes(printable(each)));
  return [
    heading(measure, sizes, width, title),
    ...list(measure, sizes, width, said, entries.length === 1 ? 'dash' : bullet, { role: 'step' }),
  ];
}

function cautions(kit: PageKit, said: readonly Caution[]): Block[] {
  if (said.length === 0) return [];
  return [heading(kit.measure, kit.sizes, kit.width, 'Cautions'), ...cautionList(kit, kit.width, said)];
}

/** Lines for what the crew finds. They stay together. */
function found(kit: PageKit): Block[] {
  const { measure, sizes, width } = kit;
  const step = 20 * sizes.by;
  const part = blank(step);
  if (part.kind !== 'filling') throw new Error('a blank fills its cell');
  const lines = Array.from({ length: FOUND_LINES }, (_, index) =>
    moved(part.draw(width), [0, index * step]),
  ).flat();
  return [
    heading(
      measure,
      sizes,
      width,
      'Found on site',
      'Anything that differs from this sheet: what, where, how much.',
    ),
    block(FOUND_LINES * step, lines),
  ];
}
