// One room's sheet: its plan, its walls unrolled, what was found, its boards and corners, how to scribe, what to do first
// and in which order, cautions, and lines for what the crew finds. Points; figures come from the report [SH24, SH31].

import { oldLine } from '../fit/context.ts';
import { type Caution, type RoomNotes, roomNotes, scribeWords } from '../fit/index.ts';
import type { Scribe } from '../fit/types.ts';
import { LINE_NAMES } from '../plan/kinds.ts';
import { lookup } from '../plan/maps.ts';
import type { DerivedLevel } from '../report/types.ts';
import { mmFromTicks } from '../units/ticks.ts';
import { type Box, drawnBox, moved } from './boxes.ts';
import { type Block, block, sideBySide, stacked, together } from './flow.ts';
import { kept } from './kept.ts';
import type { Article, ArticleBlocks } from './page-articles.ts';
import { roomBoards } from './page-boards.ts';
import { cornerTable } from './page-corners.ts';
import { cautionList } from './page-cover.ts';
import { findingBlocks, findingCounts } from './page-findings.ts';
import { type PageKit, smallerType } from './page-layout.ts';
import { placeNames, profileName, profileSize, type RoomOnPaper } from './page-names.ts';
import { heading, list, prose } from './page-prose.ts';
import { flagFindings, type PlanDrawing, planDrawing } from './plan-drawing.ts';
import { wordScale } from './plan-layout.ts';
import { roomScale } from './plan-scale.ts';
import { planFormat } from './plan-sheets.ts';
import { type NamedScale, SCALES } from './scale.ts';
import { scribeBlocks } from './scribe-drawing.ts';
import { strip, stripNote } from './strip.ts';
import type { StripSpec } from './strip-spec.ts';
import { blank, table, words } from './table.ts';
import { counted, gathered, primes, printable } from './words.ts';

/** How high a room's plan stands at most, as a share of its column's width. */
const PLAN_SHARE = 0.72;
/** Nor than so much of the sheet's; */
const PLAN_OF_SHEET = 0.44;
/** but up to this where it would else be smaller than on its level's plan. */
const TALL_PLAN_OF_SHEET = 0.72;
/** How a room is set: its plan so many named scales smaller than it could be; close, with low strips and type a step smaller. */
interface Setting {
  readonly smaller: 0 | 1 | 2;
  readonly close: boolean;
}
/** From roomy to tight; the roomiest that needs no more sheets is taken: the plan shrinks before the type does [SH33]. */
const SETTINGS: readonly Setting[] = [
  { smaller: 0, close: false },
  { smaller: 1, close: false },
  { smaller: 2, close: false },
  { smaller: 0, close: true },
  { smaller: 1, close: true },
  { smaller: 2, close: true },
];
const CLOSE_TYPE = 0.94;
/** What stands beside a plan is no narrower, points on a letter sheet. */
const BESIDE_PLAN = 178;
/** And reaches at most so far below it. */
const BELOW_PLAN = 24;
const FOUND_LINES = { least: 3, most: 8 };

/** A room as pages know it. `levelRatio`: the ratio that its level's plan is drawn at, 48 of 1:48; null: it has none. */
export function roomArticle(
  kit: PageKit,
  derived: DerivedLevel,
  room: RoomOnPaper,
  levelRatio: number | null,
): Article {
  const onLevel = kit.solved.findings.filter((each) => each.level === room.level.id || each.level === null);
  const notes = roomNotes(kit.plan, room.trim.room, room.trim, onLevel);
  const drawn = kept((smaller: Setting['smaller']): PlanDrawing | null => {
    if (smaller === 0) return largestPlan(kit, derived, room, levelRatio);
    const larger = drawn(smaller === 1 ? 0 : 1);
    const scale = larger && SCALES[kit.plan.units].find(({ ratio }) => ratio > larger.scale.ratio);
    // Never smaller than on the level's plan.
    const shrinks = scale && (levelRatio === null || scale.ratio <= levelRatio);
    return shrinks ? roomPlan(kit, derived, room, scale) : larger;
  });
  const told = kept((close: boolean): Pick<ArticleBlocks, 'body' | 'tail'> => {
    const set = close ? smallerType(kit, CLOSE_TYPE) : kit;
    return {
      body: [
        ...stripBlocks(set, room, close),
        ...findings(set, room),
        ...roomBoards(set, room),
        ...cornerTable(set, room),
        ...scribes(set, room),
      ],
      tail: cautions(set, notes.cautions),
    };
  });
  return {
    title: room.name,
    name: room.name,
    subtitle: subtitle(kit, room),
    ways: SETTINGS.length,
    make: (tight) => {
      const { smaller, close } = SETTINGS[tight]!;
      const drawing = drawn(smaller);
      const set = close ? smallerType(kit, CLOSE_TYPE) : kit;
      const { body, tail } = told(close);
      return {
        body: [...planBlocks(set, room, notes, drawing), ...body],
        tail,
        ...(drawing === null ? {} : { ratio: drawing.scale.ratio }),
      };
    },
    closing: { ...FOUND_LINES, make: (lines) => found(kit, lines) },
  };
}

/** What goes up, what to do first and in which order, for a column of a width; each part whole in itself. */
function toldBeside(kit: PageKit, room: RoomOnPaper, notes: RoomNotes, width: number): Block[][] {
  return [
    facts(kit, room, width),
    stepsBlocks(kit, 'Preparation', notes.preparation, 'tick', width),
    stepsBlocks(kit, 'Order of work', notes.order, 'number', width),
  ].filter((blocks) => blocks.length > 0);
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

/**
 * The room's plan at the largest named scale that fits; where that is smaller than its level's plan, it stands higher than it
 * usually may, up to that plan's scale [SH33].
 */
function largestPlan(
  kit: PageKit,
  derived: DerivedLevel,
  room: RoomOnPaper,
  levelRatio: number | null,
): PlanDrawing | null {
  const usual = roomPlan(kit, derived, room, null);
  if (usual === null || levelRatio === null || usual.scale.ratio <= levelRatio) return usual;
  const larger = SCALES[kit.plan.units].filter(
    ({ ratio }) => ratio >= levelRatio && ratio < usual.scale.ratio,
  );
  const frame = planFrame(kit, 'tall');
  const scale = roomScale(derived, room.trim.room.id, frame, wordScale(kit.sheet), larger);
  return scale === null ? usual : roomPlan(kit, derived, room, scale, 'tall');
}

/** Where a room's plan is drawn: as wide as a column, and as high as it usually may stand, or at most. */
function planFrame({ width, size }: PageKit, height: 'usual' | 'tall'): Box {
  const usual = Math.min(width * PLAN_SHARE, size[1] * PLAN_OF_SHEET);
  return [0, 0, width, height === 'tall' ? size[1] * TALL_PLAN_OF_SHEET : usual];
}

/** The room's plan at a scale; without one at the largest that fits. */
function roomPlan(
  kit: PageKit,
  derived: DerivedLevel,
  room: RoomOnPaper,
  scale: NamedScale | null,
  height: 'usual' | 'tall' = 'usual',
): PlanDrawing | null {
  return planDrawing(kit.measure, derived, planFrame(kit, height), {
    units: kit.plan.units,
    format: planFormat(kit.plan),
    room: room.trim.room.id,
    findings: flagFindings(kit.solved.findings, room.level.id),
    labelScale: wordScale(kit.sheet),
    ...(scale === null ? {} : { scale }),
  });
}

/** The room's plan, and beside it as much of what is told of the room as stands there; the rest below it. */
function planBlocks(kit: PageKit, room: RoomOnPaper, notes: RoomNotes, drawing: PlanDrawing | null): Block[] {
  const below = toldBeside(kit, room, notes, kit.width);
  if (drawing === null) return below.flat();
  const plan = besidePlan(kit, drawing, (wide) => toldBeside(kit, room, notes, wide));
  return [...plan.blocks, ...below.slice(plan.used).flat()];
}

/**
 * A plan with its scale under it and, where it leaves room at its right, as many of the parts as are no higher than it;
 * then what found no place on it. `used` says how many parts stand beside it.
 */
export function besidePlan(
  kit: PageKit,
  drawing: PlanDrawing,
  parts: (width: number) => readonly (readonly Block[])[],
): { readonly blocks: Block[]; readonly used: number } {
  const { measure, sizes, width } = kit;
  const box = drawnBox(drawing.items);
  const gap = 20 * sizes.by;
  const right = width - (box[2] - box[0]) - gap;
  const noteOf = (content: string, wide: number) =>
    prose(measure, sizes, wide, content, {
      size: sizes.small,
      font: 'italic',
      ink: 'graphite',
      before: 3,
      role: 'note',
    });
  const plan = (x: number) => block(box[3] - box[1], moved(drawing.items, [x, -box[1]]));
  const named = SCALES[kit.plan.units].some((each) => each.name === drawing.scale.name);
  const scale = `Plan ${drawing.scale.name}${named ? '' : ', no named scale'}.`;
  const left = drawing.unplaced.map((each) => printable(each.words));
  const unplaced = left.length === 0 ? '' : `No room on the plan for: ${left.join('; ')}.`;
  if (right >= BESIDE_PLAN * sizes.by) {
    const picture = stacked([plan(-box[0]), ...noteOf(scale, box[2] - box[0])]);
    const all = parts(right);
    for (let used = all.length; used > 0; used--) {
      const told = stacked(all.slice(0, used).flat());
      if (told.height > picture.height + BELOW_PLAN * sizes.by) continue;
      const both = sideBySide(picture, { ...told, before: 0 }, width - right);
      return {
        blocks: unplaced === '' ? [both] : [{ ...both, keep: true }, ...noteOf(unplaced, width)],
        used,
      };
    }
  }
  return { blocks: [{ ...plan(0), keep: true }, ...noteOf(`${scale} ${unplaced}`.trim(), width)], used: 0 };
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

function stripBlocks(kit: PageKit, room: RoomOnPaper, low: boolean): Block[] {
  const { measure, sizes, width, figures } = kit;
  return room.trim.room.loops.flatMap((loop, index) => {
    const spec = { ...stripSpec(kit, room, index), low };
    const rows = strip(measure, sizes, figures, width, spec);
    if (rows.length === 0) return [];
    const title = loop.kind === 'outer' ? 'Walls unrolled' : `What stands free in the room, unrolled`;
    const first = heading(measure, sizes, width, title, stripNote(sizes, width, spec));
    const head = { first, again: heading(measure, sizes, width, `${title}, continued`) };
    return rows.map((row, position) => ({
      ...row,
      head,
      before: position === 0 ? first.before : row.before,
    }));
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
function facts(kit: PageKit, room: RoomOnPaper, width: number): Block[] {
  const { measure, sizes, figures } = kit;
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
  const assumed = gathered([...new Set(inTicks.flatMap((scribe) => scribe.assumed))].map(printable));
  const say = (piece: string): string[] => {
    const scribe = inTicks.find((each) => each.piece === piece);
    if (!scribe) throw new Error(`no scribe of board ${piece}`);
    return scribeWords({ ...scribe, assumed: [] }, kit.plan).map((each) => primes(printable(each)));
  };
  const touched = ours.filter((scribe) => scribe.takeFrom !== 'none');
  const untouched = ours.filter((scribe) => scribe.takeFrom === 'none');
  // Those that only stand as they are go into one sentence; one that is held off the floor or leaves the old line bare does not.
  const plain = untouched.filter((scribe) => say(scribe.piece).length === 2);
  const others = untouched.filter((scribe) => !plain.includes(scribe));
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
    ...list(
      measure,
      sizes,
      width,
      [...others.map((scribe) => say(scribe.piece).join(' ')), ...nothingToScribe(plain)],
      'dash',
      { before: touched.length === 0 ? 4 : 7 * sizes.by, role: 'scribe-words' },
    ),
  ];
}

const LIES_WORDS: Readonly<Record<Scribe['kind'], string>> = {
  level: 'level',
  slope: 'a slope',
  hump: 'a hump',
  dip: 'a dip',
};

/** One sentence for all boards that stand as they are, by what lies under them; none for no boards. */
function nothingToScribe(
  scribes: readonly { readonly piece: string; readonly kind: Scribe['kind'] }[],
): string[] {
  if (scribes.length === 0) return [];
  const kinds = (['level', 'slope', 'hump', 'dip'] as const).flatMap((kind) => {
    const ids = scribes.filter((each) => each.kind === kind).map((each) => each.piece);
    return ids.length === 0 ? [] : [`${LIES_WORDS[kind]} under ${ids.join(', ')}`];
  });
  return [
    `Nothing to scribe, set them as they are: the floor is within what is allowed, ${kinds.join('; ')}.`,
  ];
}

function stepsBlocks(
  kit: PageKit,
  title: string,
  entries: readonly string[],
  bullet: 'tick' | 'number',
  width: number,
): Block[] {
  if (entries.length === 0) return [];
  const { measure, sizes } = kit;
  const said = entries.map((each) => primes(printable(each)));
  return [
    heading(measure, sizes, width, title),
    ...list(measure, sizes, width, said, entries.length === 1 ? 'dash' : bullet, { role: 'step' }),
  ];
}

/** What is this room's own in full and first; what goes for any room in one line each, its source on the cover [SH34]. */
function cautions(kit: PageKit, said: readonly Caution[]): Block[] {
  if (said.length === 0) return [];
  const { measure, sizes, width } = kit;
  const own = said.filter((each) => each.short === undefined).map((each) => ({ ...each, source: null }));
  const general = said.flatMap((each) => (each.short === undefined ? [] : [primes(each.short)]));
  const gap = 16 * sizes.by;
  const half = (width - gap) / 2;
  const brief = (entries: readonly string[]) =>
    stacked(list(measure, sizes, half, entries, 'dash', { size: sizes.small, before: 3, role: 'caution' }));
  const middle = Math.ceil(general.length / 2);
  return [
    heading(measure, sizes, width, 'Cautions (sources on the cover)'),
    ...cautionList(kit, width, own),
    ...(general.length === 0
      ? []
      : [
          {
            ...sideBySide(brief(general.slice(0, middle)), brief(general.slice(middle)), half + gap),
            before: 4,
          },
        ]),
  ];
}

/** Lines for what the crew finds. They stay together. */
function found(kit: PageKit, count: number): Block {
  const { measure, sizes, width } = kit;
  const step = 18 * sizes.by;
  const part = blank(step);
  if (part.kind !== 'filling') throw new Error('a blank fills its cell');
  const lines = Array.from({ length: count }, (_, index) =>
    moved(part.draw(width), [0, index * step]),
  ).flat();
  const head = heading(
    measure,
    sizes,
    width,
    'Found on site',
    'Anything that differs from this sheet: what, where, how much.',
  );
  return stacked([head, block(count * step, lines)]);
}
