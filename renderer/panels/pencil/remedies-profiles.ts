// Remedies that choose another moulding: thinner, taller or shorter base, one profile on both walls of a corner; what is
// done at an opening is beside (remedies-openings.ts). Ticks. Candidates only: remedies.ts tries them.

import type { Edit } from '../../../core/edit/index.ts';
import { oldLine, standingHeight } from '../../../core/fit/context.ts';
import { type Finding, pickProfiles } from '../../../core/fit/index.ts';
import { mm } from '../../../core/fit/say.ts';
import {
  lookup,
  type Profile,
  type ProfileId,
  type RoomId,
  settingsOf,
  sortedEntries,
  type TrimLine,
} from '../../../core/plan/index.ts';
import type { Derived } from '../../../core/report/index.ts';
import { sayLength } from '../../../core/trim/index.ts';
import {
  apart,
  atOpening,
  casingOn,
  narrowerCasing,
  openingIn,
  plinth,
  thickerCasing,
} from './remedies-openings.ts';
import type { EditRemedy, Remedy } from './remedy.ts';
import { MOST_PROFILES, named, onFace, profileOf, roundedUp, type Scene, sceneOf, swapIn } from './scene.ts';

/** Shoe covers a gap up to this much under its top: 1/4 in (RULES: SC5). */
const SHOE_LAP = 2032;

export function profileRemedies(finding: Finding, derived: Derived): Remedy[] {
  const scene = sceneOf(finding, derived);
  if (scene === null || scene.trim === null) return [];
  switch (finding.code) {
    case 'base-proud':
    case 'base-flush':
      return [
        ...thinnerBase(finding, scene),
        ...plinth(finding, scene),
        ...thickerCasing(finding, scene),
        picker(scene, 'base'),
      ];
    case 'base-short':
    case 'base-close':
      return [...tallerBase(finding, scene), ...raisedOnShoe(finding, scene), picker(scene, 'base')];
    case 'height-change':
      return oneProfile(finding, scene);
    case 'opening-clash':
    case 'built-in-clash':
      return apart(finding, scene);
    case 'casing-crowded':
      return narrowerCasing(finding, scene);
    case 'outlet-hit':
      return [...shorter(finding, scene, 'base'), ...raisedMark(finding, scene), picker(scene, 'base')];
    case 'sill-hit':
      return sillRemedies(finding, scene);
    case 'scribe-deep':
      return [...tallerForScribe(finding, scene), ...shoeOver(finding, scene)];
    default:
      return [];
  }
}

function picker({ levelId, trim }: Scene, line: TrimLine): Remedy {
  return {
    kind: 'go',
    words: 'See which profiles fit in this room',
    go: { to: 'picker', level: levelId, room: trim!.room.id, line },
  };
}

/** Profiles of a line that are worth a try, those that pass every check in the room first. */
function swaps(
  scene: Scene,
  line: TrimLine,
  from: ProfileId,
  fits: (profile: Profile) => boolean,
): EditRemedy[] {
  const { plan, level, levelId, trim } = scene;
  const picked = pickProfiles(plan, level, trim!.room.id, line);
  return picked
    .filter(({ profile }) => profile !== from && fits(profileOf(plan, profile)!))
    .sort((a, b) => Number(b.passes) - Number(a.passes))
    .slice(0, MOST_PROFILES)
    .flatMap(({ profile }) => {
      const edit = swapIn(levelId, trim!, line, from, profile);
      return edit === null
        ? []
        : [{ kind: 'edit', words: `Use ${named(plan, profile)} in this room`, edit } satisfies EditRemedy];
    });
}

function thinnerBase(finding: Finding, scene: Scene): EditRemedy[] {
  const at = atOpening(finding, scene);
  if (at === null) return [];
  const most = at.stop.thickness! - settingsOf(scene.plan).flushUnder;
  return swaps(scene, 'base', at.profile, ({ thickness }) => thickness <= most);
}

/** Profiles of the base that a finding about a room names. */
function baseOf(finding: Finding, scene: Scene): ProfileId | null {
  const id = finding.about.find((each) => lookup(scene.plan.profiles, each)?.kind === 'base');
  return (id as ProfileId | undefined) ?? null;
}

function tallerBase(finding: Finding, scene: Scene): EditRemedy[] {
  const from = baseOf(finding, scene);
  const { room } = scene.trim!;
  const [stands, line] = [standingHeight(room), oldLine(room)];
  if (from === null || stands === null || line === null) return [];
  const enough = line - stands + (finding.code === 'base-close' ? settingsOf(scene.plan).closeUnder : 0);
  return swaps(scene, 'base', from, ({ height }) => (height ?? 0) >= enough);
}

function raisedOnShoe(finding: Finding, scene: Scene): EditRemedy[] {
  const from = baseOf(finding, scene);
  const { room } = scene.trim!;
  const record = room.record;
  const [stands, line] = [standingHeight(room), oldLine(room)];
  const height = from === null ? undefined : profileOf(scene.plan, from)?.height;
  if (!record || stands === null || line === null || height === undefined) return [];
  const need = roundedUp(scene, line - stands - height);
  if (need <= 0) return [];
  const shoe = sortedEntries(scene.plan.profiles).find(
    ([, each]) => each.kind === 'shoe' && (each.height ?? 0) - SHOE_LAP >= need + (record.new?.gap ?? 0),
  );
  if (shoe === undefined || record.new?.carpet === true) return [];
  const words = `Hold the base ${sayLength(scene.plan, need)} higher and cover the gap with ${named(scene.plan, shoe[0])}`;
  return [
    {
      kind: 'edit',
      words,
      edit: {
        type: 'several',
        words: 'raise base on shoe',
        edits: [
          {
            type: 'changeRoom',
            level: scene.levelId,
            room: room.id as RoomId,
            set: { new: { ...record.new, gap: (record.new?.gap ?? 0) + need } },
          },
          {
            type: 'setTrim',
            level: scene.levelId,
            of: { room: room.id as RoomId },
            lines: { shoe: { profile: shoe[0] } },
          },
        ],
      },
    },
  ];
}

function oneProfile(finding: Finding, scene: Scene): EditRemedy[] {
  const { plan, levelId, trim } = scene;
  const [corner, before, after] = finding.about;
  const joint = trim!.lines
    .flatMap((line) => line.joints.flat())
    .find(
      (each) =>
        each?.differs &&
        `corner ${each.corner.number ?? each.corner.key}` === corner &&
        each.before.profileId === before &&
        each.after.profileId === after,
    );
  if (!joint) return [];
  const { line } = joint;
  const sides = [
    { face: joint.before.segment.key, to: joint.after.profileId, said: 'before' },
    { face: joint.after.segment.key, to: joint.before.profileId, said: 'after' },
  ] as const;
  const roomHas = trim!.room.record?.trim?.[line];
  const sorted = [...sides].sort((a, b) => Number(b.to === roomHas) - Number(a.to === roomHas));
  const words = (to: ProfileId, said: string) =>
    `${to === roomHas ? 'As the room: ' : ''}${named(plan, to)} on the wall ${said} ${corner} too`;
  const same = sorted.map(
    ({ face, to, said }): EditRemedy => ({
      kind: 'edit',
      words: words(to, said),
      edit: onFace(levelId, trim!, face, line, to),
    }),
  );
  const block: EditRemedy[] =
    joint.joint === 'block'
      ? []
      : [
          {
            kind: 'edit',
            words: `Set a block in ${corner}`,
            edit: {
              type: 'setCorner',
              level: levelId,
              corner: joint.corner.key,
              set: { lines: { [line]: { joint: 'block', coped: null } } },
            },
            leaves:
              'The two profiles still meet here, with a block between them: the finding stays as a reminder.',
          },
        ];
  return [...same, ...block];
}

function shorter(finding: Finding, scene: Scene, line: 'base' | 'shoe'): EditRemedy[] {
  const from = finding.about.find((id) => lookup(scene.plan.profiles, id)?.kind === line);
  const over = finding.figures.overlapMm;
  const now = from === undefined ? undefined : profileOf(scene.plan, from)?.height;
  if (from === undefined || over === undefined || now === undefined) return [];
  const most = mm(now) - over;
  return swaps(scene, line, from as ProfileId, ({ height }) => height !== undefined && mm(height) <= most);
}

function raisedMark(finding: Finding, scene: Scene): EditRemedy[] {
  const [id] = finding.about;
  const mark = lookup(scene.level.walk.level.marks, id);
  const over = finding.figures.overlapMm;
  if (mark === undefined || over === undefined) return [];
  const by = roundedUp(scene, over * 320);
  const who = mark.kind === 'outlet' ? ', once the electrician has moved the box' : '';
  return [
    {
      kind: 'edit',
      words: `Put ${mark.kind} ${id} ${sayLength(scene.plan, by)} higher on the plan${who}`,
      edit: {
        type: 'changeMark',
        level: scene.levelId,
        mark: id as Extract<Edit, { type: 'changeMark' }>['mark'],
        set: { bottom: mark.bottom + by, top: mark.top + by },
      },
    },
  ];
}

function sillRemedies(finding: Finding, scene: Scene): Remedy[] {
  const line = finding.about.some((id) => lookup(scene.plan.profiles, id)?.kind === 'shoe') ? 'shoe' : 'base';
  const opening = openingIn(scene, finding.about[0]);
  const bare: EditRemedy[] =
    opening?.casing == null
      ? []
      : sortedEntries(scene.plan.profiles)
          .filter(
            ([id, each]) =>
              each.kind === 'casing' &&
              id !== opening.casing!.id &&
              (each.width ?? 0) < (opening.casing!.profile.width ?? 0),
          )
          .slice(0, MOST_PROFILES)
          .map(([id]) => ({
            kind: 'edit',
            words: `Case ${opening.id} with ${named(scene.plan, id)} on this side`,
            edit: casingOn(scene, opening, id),
          }));
  return [...shorter(finding, scene, line), ...bare, picker(scene, line)];
}

/** The base of the board that a finding about a scribe names. */
function scribedBase(finding: Finding, scene: Scene): ProfileId | null {
  const [id] = finding.about;
  for (const line of scene.trim!.lines)
    for (const run of line.runs) for (const piece of run.pieces) if (piece.id === id) return piece.profileId;
  return null;
}

function tallerForScribe(finding: Finding, scene: Scene): EditRemedy[] {
  const from = scribedBase(finding, scene);
  const now = from === null ? undefined : profileOf(scene.plan, from)?.height;
  if (from === null || now === undefined) return [];
  const short = finding.figures.shortMm;
  if (short === undefined) return [];
  return swaps(scene, 'base', from, ({ height }) => height !== undefined && mm(height) >= mm(now) + short);
}

/** Shoe lets the base stand off the floor, so that less comes off it. */
function shoeOver(_: Finding, scene: Scene): EditRemedy[] {
  const { record, id } = scene.trim!.room;
  if (!record || record.trim?.shoe != null) return [];
  return sortedEntries(scene.plan.profiles)
    .filter(([, each]) => each.kind === 'shoe' && each.height !== undefined)
    .sort(([, a], [, b]) => b.height! - a.height!)
    .slice(0, 1)
    .map(([shoe]) => ({
      kind: 'edit',
      words: `Put ${named(scene.plan, shoe)} in this room, so that the base can stand off the floor`,
      edit: {
        type: 'setTrim',
        level: scene.levelId,
        of: { room: id as RoomId },
        lines: { shoe: { profile: shoe } },
      },
    }));
}
