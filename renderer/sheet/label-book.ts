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
import { boundsOf, type Viewport } from '../state/viewport.ts';
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
}

interface LabelBook {
  /** What is to be painted now, and whether more is to come. `until` is a time of `now()`. */
  labels(asked: LabelsAsked, until: number): { readonly labels: readonly Pinned[]; readonly more: boolean };
}

interface Entry {
  readonly key: string;
  readonly stage: Stage;
  readonly step: number;
  readonly words: SheetWords;
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

  return {
    labels: ({ level, findings, stage, viewport, words }, until) => {
      const step = stepAt(viewport.pixelsPerTick);
      const seen = boundsOf(viewport);
      const flags = flagsOf(level, findings);
      const labels: Pinned[] = [];
      let more = false;
      for (const trim of level.trims) {
        const box = roomBox(trim.room);
        if (box === null || !meet(box, seen)) continue;
        const { own, key } = flags.byRoom.get(trim.room.id) ?? NO_FLAGS;
        const known = entries.get(trim);
        const right = known?.stage === stage && known.words === words;
        let entry = right && known.step === step && known.key === key ? known : null;
        if (entry === null && now() < until) {
          const placed = placeRoom({
            level: level.walk.level,
            trim,
            stage,
            step,
            measure,
            words,
            flags: own,
          });
          entry = { key, stage, step, words, labels: placed };
          entries.set(trim, entry);
        } else if (entry === null) {
          more = true;
          if (right && known.step <= viewport.pixelsPerTick * CROWDED) entry = known;
        }
        if (entry !== null) labels.push(...entry.labels);
      }
      if (stage !== 'measure')
        for (const { letter, at } of flags.loose) labels.push(...looseFlag(measure, letter, at, step));
      return { labels, more };
    },
  };
}

/** A flag up and to the right of its place, where no room's labels are in the way. */
function looseFlag(measure: TextMeasure, letter: string, at: Point, step: number): Pinned[] {
  const view = viewAt(step);
  const first = flagCandidates(measure, letter, view.on(at), 20).next();
  return first.done === true ? [] : pinned(first.value.items(), view, null, letter);
}

/** A level's findings with the letters they have on paper, by the room they are in. */
function sorted({ walk }: DerivedLevel, findings: readonly Finding[]): Flags {
  const byRoom = new Map<string, RoomFlags>();
  const loose: FlagAt[] = [];
  const rooms = new Set(walk.rooms.map(({ id }) => id));
  for (const { letter, finding } of flagFindings(findings, walk.levelId)) {
    if (finding.at === null) continue;
    const flag = { letter, at: finding.at };
    if (finding.room === null || !rooms.has(finding.room)) loose.push(flag);
    else {
      const { own, key } = byRoom.get(finding.room) ?? NO_FLAGS;
      byRoom.set(finding.room, { own: [...own, flag], key: `${key} ${letter}${finding.at.join()}` });
    }
  }
  return { byRoom, loose };
}
