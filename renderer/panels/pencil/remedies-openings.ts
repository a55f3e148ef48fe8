// Remedies at an opening: plinth blocks, another casing on one side, the opening moved. Ticks. Candidates only:
// remedies.ts tries them.

import type { Edit } from '../../../core/edit/index.ts';
import type { Finding } from '../../../core/fit/index.ts';
import { mm } from '../../../core/fit/say.ts';
import {
  type BuiltInId,
  lookup,
  type OpeningId,
  type ProfileId,
  settingsOf,
  sortedEntries,
} from '../../../core/plan/index.ts';
import { sayLength } from '../../../core/trim/index.ts';
import type { SegmentOpening } from '../../../core/walk/index.ts';
import type { EditRemedy } from './remedy.ts';
import { MOST_PROFILES, named, roundedUp, type Scene, stretchesAt } from './scene.ts';

/** A plinth block stands past what it stops by this much: 1/8 in. Common practice, no published source. */
const PLINTH_PAST = 1016;
/** And rises above the base by this much: 1/2 in. Common practice, no published source. */
const PLINTH_OVER = 4064;

/** Where the base and what it stops against are, as the finding names them. */
export function atOpening(finding: Finding, scene: Scene) {
  const [opening, profile] = finding.about;
  if (opening === undefined || profile === undefined) return null;
  const here = stretchesAt(scene.trim!, 'base', opening).filter(
    ({ stretch, stop }) => stretch.profileId === profile && stop.thickness !== null,
  );
  const first = here[0];
  return first === undefined ? null : { ...first, profile: profile as ProfileId };
}

export function plinth(finding: Finding, scene: Scene): EditRemedy[] {
  const at = atOpening(finding, scene);
  if (at === null) return [];
  const { id, opening, casing } = at.stop.opening;
  if (opening.sill > 0 || casing?.profile.width === undefined) return [];
  // The block stands on both sides of the wall: what is thickest and tallest of either side counts.
  const bases = scene.level.trims
    .flatMap((trim) => stretchesAt(trim, 'base', id))
    .map(({ stretch }) => stretch.profile);
  const thickest = Math.max(casing.profile.thickness, ...bases.map((base) => base.thickness));
  const tallest = Math.max(0, ...bases.map((base) => base.height ?? 0));
  if (tallest === 0) return [];
  const past = Math.max(PLINTH_PAST, settingsOf(scene.plan).flushUnder);
  const was = opening.plinth;
  const record = {
    width: was?.width ?? roundedUp(scene, casing.profile.width + PLINTH_PAST),
    thickness: roundedUp(scene, thickest + past),
    height: was?.height ?? roundedUp(scene, tallest + PLINTH_OVER),
  };
  const size = [record.width, record.height, record.thickness].map((each) => sayLength(scene.plan, each));
  return [
    {
      kind: 'edit',
      words:
        was === undefined
          ? `Set plinth blocks at ${id}: ${size[0]} wide, ${size[1]} high, ${size[2]} thick`
          : `Make the plinth blocks of ${id} ${size[2]} thick`,
      edit: changeOpening(scene, id, { plinth: record }),
    },
  ];
}

function changeOpening(
  scene: Scene,
  opening: OpeningId,
  set: Extract<Edit, { type: 'changeOpening' }>['set'],
): Edit {
  return { type: 'changeOpening', level: scene.levelId, opening, set };
}

export function casingOn(scene: Scene, { id, side, opening }: SegmentOpening, profile: ProfileId): Edit {
  return changeOpening(scene, id, { casing: { ...opening.casing, [side]: profile } });
}

export function thickerCasing(finding: Finding, scene: Scene): EditRemedy[] {
  const at = atOpening(finding, scene);
  if (at === null || at.stop.against !== 'casing') return [];
  const least = at.stretch.profile.thickness + settingsOf(scene.plan).flushUnder;
  const width = at.stop.opening.casing?.profile.width ?? 0;
  return sortedEntries(scene.plan.profiles)
    .filter(([, each]) => each.kind === 'casing' && (each.edgeThickness ?? each.thickness) >= least)
    .sort(([, a], [, b]) => Math.abs((a.width ?? 0) - width) - Math.abs((b.width ?? 0) - width))
    .slice(0, MOST_PROFILES)
    .map(([id]) => ({
      kind: 'edit',
      words: `Case ${at.stop.opening.id} with ${named(scene.plan, id)} on this side`,
      edit: casingOn(scene, at.stop.opening, id),
    }));
}

export function openingIn(scene: Scene, id: string | undefined): SegmentOpening | null {
  const all = scene.trim!.room.loops.flatMap((loop) => loop.segments.flatMap((segment) => segment.openings));
  return all.find((each) => each.id === id) ?? null;
}

export function narrowerCasing(finding: Finding, scene: Scene): EditRemedy[] {
  const { plan } = scene;
  const opening = openingIn(scene, finding.about[0]);
  if (opening === null) return [];
  const left = finding.figures.leftMm ?? 0;
  const rip = Math.ceil((finding.figures.ripMm ?? 0) * 320);
  const block = finding.message.startsWith('The plinth block');
  const casings = block
    ? []
    : sortedEntries(plan.profiles)
        .filter(([, each]) => each.kind === 'casing' && each.width !== undefined && mm(each.width) <= left)
        .sort(([, a], [, b]) => b.width! - a.width!)
        .slice(0, MOST_PROFILES)
        .map(
          ([id]): EditRemedy => ({
            kind: 'edit',
            words: `Case ${opening.id} with ${named(plan, id)} on this side`,
            edit: casingOn(scene, opening, id),
          }),
        );
  const { plinth: blocks } = opening.opening;
  const narrower: EditRemedy[] =
    block && blocks !== undefined && blocks.width > rip
      ? [
          {
            kind: 'edit',
            words: `Make the plinth blocks of ${opening.id} ${sayLength(plan, blocks.width - rip)} wide`,
            edit: changeOpening(scene, opening.id, { plinth: { ...blocks, width: blocks.width - rip } }),
          },
        ]
      : [];
  const moves = [rip, -rip].map(
    (by): EditRemedy => ({
      kind: 'edit',
      words: `Move ${opening.id} away by ${sayLength(plan, rip)}, while the wall is open`,
      edit: changeOpening(scene, opening.id, { at: opening.opening.at + by }),
    }),
  );
  return [...casings, ...narrower, ...moves];
}

/** What can be moved along its wall or taken out. */
interface Movable {
  readonly id: string;
  readonly at: number;
  moved(at: number): Edit;
  readonly gone: Edit;
}

function movableIn(scene: Scene, id: string): Movable | null {
  const { plan, levelId: level } = scene;
  const opening = openingIn(scene, id);
  if (opening !== null)
    return {
      id,
      at: opening.opening.at,
      moved: (at) => changeOpening(scene, opening.id, { at }),
      gone: { type: 'deleteOpening', level, opening: opening.id },
    };
  const builtIn = id as BuiltInId;
  const record = lookup(plan.levels.find((each) => each.id === level)!.builtIns, builtIn);
  if (record === undefined) return null;
  return {
    id,
    at: record.at,
    moved: (at) => ({ type: 'changeBuiltIn', level, builtIn, set: { at } }),
    gone: { type: 'deleteBuiltIn', level, builtIn },
  };
}

/** How far an opening's casing stands out past its hole, ticks; 0 of anything else. */
function casingOut(scene: Scene, id: string): number {
  const opening = openingIn(scene, id);
  const width = opening?.casing?.profile.width;
  return opening === null || width === undefined ? 0 : Math.ceil(opening.reveal + width);
}

/** Openings, or built-ins, that stand in one another's way: each moved clear, also of a casing, or gone. */
export function apart(finding: Finding, scene: Scene): EditRemedy[] {
  const casing =
    finding.code === 'built-in-clash' ? Math.max(...finding.about.map((id) => casingOut(scene, id))) : 0;
  const by = Math.ceil((finding.figures.overlapMm ?? 0) * 320) + casing;
  const things = finding.about.flatMap((id) => movableIn(scene, id) ?? []);
  const moves = things.flatMap(({ id, at, moved }) =>
    [by, -by].map((step) => ({
      kind: 'edit' as const,
      words: `Move ${id} by ${sayLength(scene.plan, by)} along its wall`,
      edit: moved(at + step),
    })),
  );
  const gone = things.map((thing) => ({
    kind: 'edit' as const,
    words: `Delete ${thing.id}`,
    edit: thing.gone,
  }));
  return [...moves, ...gone];
}
