// The labels of what the screen shows, room by room, placed when they are first seen at a zoom step and kept. Placing is
// given so much of a frame; what is left waits for the next one, and what was placed before stands in meanwhile.

import type { Finding } from '../../core/fit/types.ts';
import type { Point } from '../../core/graph/index.ts';
import type { DerivedLevel } from '../../core/report/index.ts';
import type { TextMeasure } from '../../core/sheets/items.ts';
import { flagCandidates } from '../../core/sheets/plan-labels.ts';
import { flagFindings } from '../../core/sheets/plan-options.ts';
import type { RoomTrim } from '../../core/trim/types.ts';
import type { Stage } from '../state/app-state.ts';
import { type Bounds, boundsOf, type Viewport } from '../state/viewport.ts';
import { type Pinned, pinned } from './pinned.ts';
import type { FlagAt, SheetWords } from './placing.ts';
import { placeRoom } from './room-labels.ts';
import { meet, roomBox } from './sight.ts';
import { stepAt, viewAt } from './steps.ts';

interface LabelsAsked {
  readonly level: DerivedLevel;
  /** Of the whole plan, worst first. */
  readonly findings: readonly Finding[];
  readonly stage: Stage;
  readonly viewport: Viewport;
  readonly words: SheetWords;
  /** The part that is asked for, ticks: all that the viewport shows where it is not said. */
  readonly part?: Bounds;
  /** The view rests: figures of walls that run out of sight stand where they are seen. */
  readonly rests?: boolean;
  /** The letter of the finding that the red pencil has open: it is not left out. */
  readonly open?: string | null;
}

interface BookPage {
  readonly labels: readonly Pinned[];
  /** Some are not placed yet, or not as asked. */
  readonly more: boolean;
  /** The rooms whose labels were placed just now. */
  readonly placed: readonly RoomTrim[];
}

export interface LabelBook {
  /** What is to be painted now, and whether more is to come. `until` is a time of `now()`: none is placed after it. */
  labels(asked: LabelsAsked, until: number): BookPage;
}

interface Entry {
  readonly key: string;
  readonly stage: Stage;
  readonly step: number;
  readonly words: SheetWords;
  /** What was in sight, where that changes where figures stand; null where the room was placed as a whole. */
  readonly sight: Bounds | null;
  readonly labels: readonly Pinned[];
}

interface RoomFlags {
  readonly own: readonly FlagAt[];
  /** The same for the same flags. */
  readonly key: string;
}

interface Flags {
  readonly byRoom: ReadonlyMap<string, RoomFlags>;
  readonly loose: readonly FlagAt[];
}

const NO_FLAGS: RoomFlags = { own: [], key: '' };
/** Labels of a larger step stand in while zooming out no further than this. */
const CROWDED = 1.35;

/** An empty book. Its labels are as wide as `measure` says: start a new one when the fonts have come. */
export function labelBook(measure: TextMeasure, now: () => number): LabelBook {
  const entries = new WeakMap<RoomTrim, Entry>();
  const flagged = new WeakMap<DerivedLevel, { findings: readonly Finding[]; flags: Flags }>();

  const flagsOf = (level: DerivedLevel, findings: readonly Finding[]): Flags => {
    const known = flagged.get(level);
    if (known?.findings === findings) return known.flags;
    const flags = sorted(level, findings);
    flagged.set(level, { findings, flags });
    return flags;
  };

  /** A room's flag whose letter found no place in it. */
  const leftOut = ({ trims }: DerivedLevel, { byRoom }: Flags, letter: string): FlagAt | null => {
    for (const trim of trims) {
      const flag = byRoom.get(trim.room.id)?.own.find((each) => each.letter === letter);
      if (flag === undefined) continue;
      return entries.get(trim)?.labels.some((label) => isLettered(label, letter)) ? null : flag;
    }
    return null;
  };

  return {
    labels: ({ level, findings, stage, viewport, words, part, rests = false, open = null }, until) => {
      const step = stepAt(viewport.pixelsPerTick);
      const seen = boundsOf(viewport);
      const asked = part ?? seen;
      const flags = flagsOf(level, findings);
      const labels: Pinned[] = [];
      const placed: RoomTrim[] = [];
      let more = false;
      for (const trim of level.trims) {
        const box = roomBox(trim.room);
        if (box === null || !meet(box, asked)) continue;
        const { own, key } = flags.byRoom.get(trim.room.id) ?? NO_FLAGS;
        const known = entries.get(trim);
        const right = known?.stage === stage && known.words === words;
        const sight = sightOf(box, seen);
        const stands = !rests || (known !== undefined && sameBounds(known.sight, sight));
        let entry = right && known.step === step && known.key === key && stands ? known : null;
        if (entry === null && now() < until) {
          const room = { level: level.walk.level, trim, stage, step, measure, words, flags: own };
          entry = { key, stage, step, words, sight, labels: placeRoom({ ...room, sight }) };
          entries.set(trim, entry);
          placed.push(trim);
        } else if (entry === null) {
          more = true;
          if (right && known.step <= viewport.pixelsPerTick * CROWDED) entry = known;
        }
        if (entry !== null) labels.push(...entry.labels);
      }
      if (stage !== 'measure') {
        const loose = flags.loose.toSorted((a, b) => Number(b.letter === open) - Number(a.letter === open));
        for (const { letter, at } of apart(loose, asked, viewport.pixelsPerTick))
          labels.push(...looseFlag(measure, letter, at, step));
        const crowdedOut = open === null ? null : leftOut(level, flags, open);
        if (crowdedOut !== null) labels.push(...looseFlag(measure, crowdedOut.letter, crowdedOut.at, step));
      }
      return { labels, more, placed };
    },
  };
}

/** A flag that shows its letter, and is not only a dot. */
function isLettered(label: Pinned, letter: string): boolean {
  return label.kind === 'label' && label.flag === letter && label.items.some(({ kind }) => kind === 'text');
}

/** Of the view this much, a room's longer side is too long for figures at its walls' middles. */
const LONG = 0.7;

/** What is in sight of a large room; null where it is seen whole, or is no larger than that its figures are mostly seen. */
function sightOf(box: Bounds, seen: Bounds): Bounds | null {
  const large = box[2] - box[0] > LONG * (seen[2] - seen[0]) || box[3] - box[1] > LONG * (seen[3] - seen[1]);
  const whole = box[0] >= seen[0] && box[1] >= seen[1] && box[2] <= seen[2] && box[3] <= seen[3];
  return large && !whole ? seen : null;
}

function sameBounds(a: Bounds | null, b: Bounds | null): boolean {
  return a === b || (a !== null && b !== null && a.every((each, i) => each === b[i]));
}

/** Flags nearer to one another than this, pixels, cannot be told apart: the first stands for them until there is more room. */
const APART_PX = 10;
/** How far a flag stands from its place at most, pixels. */
const FLAG_REACH_PX = 60;

/** The flags whose places are in sight, or nearly, and not on one another. */
function apart(flags: readonly FlagAt[], seen: Bounds, pixelsPerTick: number): readonly FlagAt[] {
  const over = FLAG_REACH_PX / pixelsPerTick;
  const [left, top, right, bottom] = seen;
  const taken = new Set<number>();
  const cellOf = (ticks: number): number => Math.floor((ticks * pixelsPerTick) / APART_PX);
  return flags.filter(({ at: [x, y] }) => {
    if (x < left - over || x > right + over || y < top - over || y > bottom + over) return false;
    const cell = cellOf(x) * 2 ** 24 + cellOf(y);
    if (taken.has(cell)) return false;
    taken.add(cell);
    return true;
  });
}

/** A flag up and to the right of its place, where no room's labels are in the way. */
function looseFlag(measure: TextMeasure, letter: string, at: Point, step: number): Pinned[] {
  const view = viewAt(step);
  const first = flagCandidates(measure, letter, view.on(at), 20).next();
  return first.done === true ? [] : pinned(first.value.items(), view, null, letter);
}

/** A level's findings with the letters they have on paper, by the room they are in. */
function sorted({ walk }: DerivedLevel, findings: readonly Finding[]): Flags {
  const inRooms = new Map<string, FlagAt[]>(walk.rooms.map(({ id }) => [id, []]));
  const loose: FlagAt[] = [];
  for (const { letter, finding } of flagFindings(findings, walk.levelId)) {
    if (finding.at === null) continue;
    (inRooms.get(finding.room ?? '') ?? loose).push({ letter, at: finding.at });
  }
  const byRoom = new Map(
    [...inRooms].map(([room, own]): [string, RoomFlags] => [
      room,
      { own, key: own.map(({ letter, at }) => ` ${letter}${at.join()}`).join('') },
    ]),
  );
  return { byRoom, loose };
}
