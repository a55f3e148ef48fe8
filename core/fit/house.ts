// Findings that are about the whole plan or that other parts noticed: the age of the house, what the walk noted, what
// was mended when the plan was opened.

import type { Point } from '../graph/types.ts';
import { lookup } from '../plan/maps.ts';
import type { LevelId, Plan } from '../plan/schema.ts';
import type { LevelWalk, WalkNote } from '../walk/types.ts';
import { finding, listed, mm, type Place, sayLength, whole } from './say.ts';
import type { Finding } from './types.ts';

/** Houses from this year on have no lead paint to expect: 40 CFR 745.83 (RULES: CA2). */
export const LEAD_FREE_FROM = 1978;
/** Floors from this year on are not presumed to hold asbestos: 29 CFR 1926.1101 (RULES: CA3). */
export const ASBESTOS_FREE_FROM = 1981;

/** Built before 1978, or nobody knows. */
export function mayHoldLead(plan: Plan): boolean {
  return plan.builtYear === undefined || plan.builtYear < LEAD_FREE_FROM;
}

/** Built in 1980 or before, or nobody knows. */
export function mayHoldAsbestos(plan: Plan): boolean {
  return plan.builtYear === undefined || plan.builtYear < ASBESTOS_FREE_FROM;
}

/** old-paint and old-floor, for the whole plan (RULES: FD18). */
export function planFindings(plan: Plan): Finding[] {
  const nowhere: Place = { level: null, room: null, at: null };
  const built =
    plan.builtYear === undefined ? 'The year of building is not known' : `Built in ${plan.builtYear}`;
  const figures: Record<string, number> = plan.builtYear === undefined ? {} : { builtYear: plan.builtYear };
  const found: Finding[] = [];
  if (mayHoldLead(plan)) {
    found.push(
      finding('old-paint', nowhere, {
        figures,
        message: `${built}: the old paint may hold lead.`,
        remedies: [
          'Have the paint tested before prying, scraping or sanding.',
          'In the USA the federal lead rule applies, 40 CFR 745 subpart E; local codes and licensed trades come first.',
        ],
      }),
    );
  }
  if (mayHoldAsbestos(plan)) {
    found.push(
      finding('old-floor', nowhere, {
        figures,
        message: `${built}: old resilient floors and their adhesive may hold asbestos.`,
        remedies: [
          'Have it tested before the floor or its adhesive is disturbed. Do not sand it.',
          'In the USA it is presumed to, 29 CFR 1926.1101; local codes and licensed trades come first.',
        ],
      }),
    );
  }
  return found;
}

/** What was mended on opening, as a finding (RULES: FD19). */
export function mendedFinding(note: {
  readonly level: LevelId;
  readonly at: Point | null;
  readonly about: readonly string[];
  readonly message: string;
}): Finding {
  return finding(
    'mended',
    { level: note.level, room: null, at: note.at },
    {
      about: note.about,
      message: note.message,
      remedies: ['Look at the place and see that the wall is what was meant.'],
    },
  );
}

/** too-narrow, not-closed, record-unused and room-twice, from what the walk noted (RULES: FD19). */
export function walkFindings(plan: Plan, walk: LevelWalk): Finding[] {
  return walk.notes.map((note) => walkFinding(plan, walk.levelId, note));
}

const RECORDS = {
  room: 'The room record',
  corner: 'The corner record',
  face: 'The face record',
} as const;

function walkFinding(plan: Plan, level: LevelId, note: WalkNote): Finding {
  switch (note.kind) {
    case 'too-narrow':
      return finding(
        'too-narrow',
        { level, room: note.room, at: note.at },
        {
          about: note.about,
          message:
            'The wall faces cross here: there is no room between the walls, and no boards are reckoned.',
          remedies: [
            ...(note.join ? [`Join the wall end of ${note.join.end} to ${note.join.to}.`] : []),
            'Make the walls thinner or move them apart.',
          ],
        },
      );
    case 'not-closed': {
      const { gap, at, about } = note;
      return finding(
        'not-closed',
        { level, room: null, at },
        {
          about,
          figures: gap === null ? {} : { gapMm: mm(gap) },
          message:
            gap === null
              ? `${about.length > 0 ? listed(about) : 'These walls'} enclose${about.length > 1 || about.length === 0 ? '' : 's'} no room.`
              : whole(gap) === 0
                ? `The end of wall ${about[0]} touches wall ${about[1]} and is not joined to it.`
                : `The end of wall ${about[0]} is ${sayLength(plan, whole(gap))} from wall ${about[1]} and does not meet it.`,
          remedies:
            gap === null
              ? [
                  'Draw the walls on until they go round a room.',
                  'Leave them, if they are meant to stand free.',
                ]
              : whole(gap) === 0
                ? [`Join the wall end of ${about[0]} to ${about[1]}.`]
                : ['Draw the end on to the other wall.', 'Leave it, if the gap is meant.'],
        },
      );
    }
    case 'record-unused':
      return finding(
        'record-unused',
        { level, room: null, at: note.at },
        {
          about: [note.id],
          message:
            note.record === 'entry'
              ? `The entry of ${roomName(plan, level, note.id)} does not open into that room, so its boards are reckoned without one.`
              : `${RECORDS[note.record]} ${note.id} fits nothing on the plan, so what is written in it is not used.`,
          remedies: [
            note.record === 'entry'
              ? 'Name an opening of that room as its entry.'
              : 'Delete it, or put back what it belonged to.',
          ],
        },
      );
    case 'room-twice':
      return finding(
        'room-twice',
        { level, room: note.ids[0] ?? null, at: note.at },
        {
          about: note.ids,
          message: `The room records ${listed(note.ids)} lie in one room; ${note.ids[0]} is used.`,
          remedies: ['Delete the one that is not meant, or draw the wall between them.'],
        },
      );
  }
}

/** As the user named it, else by its id. */
function roomName({ levels }: Plan, level: LevelId, id: string): string {
  const name = lookup(levels.find((each) => each.id === level)?.rooms ?? {}, id)?.name.trim() ?? '';
  return name === '' ? `room ${id}` : name;
}
