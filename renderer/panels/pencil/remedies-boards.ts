// Remedies of boards: stock that is too short or used up, a scarf in sight, a board too small to hold. Ticks. Candidates
// only: remedies.ts tries them.

import type { Edit } from '../../../core/edit/index.ts';
import { standingHeight } from '../../../core/fit/context.ts';
import type { Finding } from '../../../core/fit/index.ts';
import {
  lookup,
  type OpeningId,
  type Plan,
  type Profile,
  type ProfileId,
  settingsOf,
} from '../../../core/plan/index.ts';
import { sayLength } from '../../../core/trim/index.ts';
import { type EditRemedy, go, type Remedy } from './remedy.ts';
import { named, onFace, pieceIn, profileOf, type Scene } from './scene.ts';

/** Stock comes in steps of this: 2 ft, or 300 mm in a metric plan. Common practice, no published source. */
const STOCK_STEP = { imperial: 24 * 8128, metric: 300 * 320 } as const;

function lengthsWith(plan: Plan, { stock }: Profile, need: number): Profile['stock'] | null {
  const step = STOCK_STEP[plan.units];
  const length = Math.ceil(need / step) * step;
  if (stock.some((each) => each.length === length && each.onHand === undefined)) return null;
  return [...stock.filter((each) => each.length !== length), { length }].sort((a, b) => a.length - b.length);
}

function longer(scene: Scene, id: ProfileId, profile: Profile, need: number): EditRemedy[] {
  const stock = lengthsWith(scene.plan, profile, need + settingsOf(scene.plan).endTrim);
  if (stock === null) return [];
  const length = stock.find((each) => !profile.stock.includes(each))!.length;
  return [
    {
      kind: 'edit',
      words: `List a stock length of ${sayLength(scene.plan, length)} for ${named(scene.plan, id)}, where it can be had`,
      edit: { type: 'changeProfile', profile: id, set: { stock } },
    },
  ];
}

export function noStock(finding: Finding, scene: Scene): Remedy[] {
  const id = finding.about.find((each) => lookup(scene.plan.profiles, each) !== undefined) as
    | ProfileId
    | undefined;
  const profile = id === undefined ? null : profileOf(scene.plan, id);
  if (id === undefined || profile === null) return [];
  const need = Math.round((finding.figures.needMm ?? 0) * 320);
  const scarf: EditRemedy[] =
    profile.scarf === false && profile.kind !== 'casing'
      ? [
          {
            kind: 'edit',
            words: `Allow scarfs for ${named(scene.plan, id)}`,
            edit: { type: 'changeProfile', profile: id, set: { scarf: null } },
          },
        ]
      : [];
  const limited = profile.stock.filter((each) => each.onHand !== undefined);
  const open: EditRemedy[] =
    limited.length > 0
      ? [
          {
            kind: 'edit',
            words: `More ${named(scene.plan, id)} can be bought: leave the number of boards open`,
            edit: {
              type: 'changeProfile',
              profile: id,
              set: { stock: profile.stock.map(({ onHand: _, ...rest }) => rest) },
            },
          },
        ]
      : [];
  const longest = Math.max(0, ...profile.stock.map((each) => each.length));
  const reaches = need <= longest - settingsOf(scene.plan).endTrim;
  return [
    ...scarf,
    ...open,
    ...(reaches && limited.length > 0 ? [] : longer(scene, id, profile, need)),
    go('Look at stock on hand', 'stock'),
  ];
}

/** A stock length in one piece where a scarf shows. */
export function longerForBoards(finding: Finding, scene: Scene): EditRemedy[] {
  const found = scene.trim === null ? null : pieceIn(scene.trim, finding.about[0] ?? '');
  if (found === null) return [];
  const { profile, profileId, wholeNeed } = found.piece;
  return longer(scene, profileId, profile, Math.ceil(wholeNeed));
}

/** A held board that can no longer be held: its pieces are named first, its profile last. */
export function letGo({ about }: Finding): EditRemedy[] {
  const [piece] = about;
  const profile = about.at(-1) as ProfileId | undefined;
  if (piece === undefined || profile === undefined) return [];
  return [{ kind: 'edit', words: 'Let it go', edit: { type: 'letGoBoard', profile, piece } }];
}

export function sliver(finding: Finding, scene: Scene): EditRemedy[] {
  const { trim } = scene;
  const found = trim === null ? null : pieceIn(trim, finding.about[0] ?? '');
  if (trim === null || found === null) return [];
  const { line, piece } = found;
  const { stretch, segment } = piece;
  const gap = Math.ceil(stretch.to - stretch.from);
  const moves: EditRemedy[] = [];
  for (const stop of [stretch.left, stretch.right]) {
    if (stop.kind !== 'opening' || stop.against === 'open') continue;
    const { id, opening, casing } = stop.opening;
    const width = (stop.against === 'plinth' ? opening.plinth?.width : casing?.profile.width) ?? 0;
    const base = trim.lines
      .flatMap((each) => each.stretches)
      .filter((each) => each.line === 'base' && each.segment.key === segment.key)
      .map((each) => each.profile);
    const height = Math.max(0, ...base.map((each) => each.height ?? 0));
    const thickness = Math.max(casing?.profile.thickness ?? 0, ...base.map((each) => each.thickness));
    if (opening.sill === 0 && height > 0 && standingHeight(trim.room) !== null) {
      const size = width + gap;
      moves.push({
        kind: 'edit',
        words: `Fill it with a plinth block ${sayLength(scene.plan, size)} wide at ${id}`,
        edit: changed(scene, id, {
          plinth: {
            width: size,
            thickness: opening.plinth?.thickness ?? thickness + 1016,
            height: opening.plinth?.height ?? height + 4064,
          },
        }),
      });
    }
    for (const by of [gap, -gap])
      moves.push({
        kind: 'edit',
        words: `Move ${id} by ${sayLength(scene.plan, gap)} on to it, while the wall is open`,
        edit: changed(scene, id, { at: opening.at + by }),
      });
  }
  const alone = line.stretches.filter((each) => each.segment.key === segment.key).length === 1;
  const bare: EditRemedy[] = alone
    ? [
        {
          kind: 'edit',
          words: `Leave the ${line.line} off this short wall`,
          edit: onFace(scene.levelId, trim, segment.key, line.line, null),
        },
      ]
    : [];
  return [...moves, ...bare];
}

function changed(
  scene: Scene,
  opening: OpeningId,
  set: Extract<Edit, { type: 'changeOpening' }>['set'],
): Edit {
  return { type: 'changeOpening', level: scene.levelId, opening, set };
}
