// Remedies of everything but mouldings, joints and boards: walls that nearly meet, measurements that do not fit, records that fit nothing, and where to go when no edit can do it. Ticks. Candidates only.

import type { Edit } from '../../../core/edit/index.ts';
import type { Finding } from '../../../core/fit/index.ts';
import { capital } from '../../../core/fit/say.ts';
import {
  type CornerKey,
  LINES,
  lookup,
  type RoomId,
  type SegmentKey,
  settingsOf,
  type WallId,
} from '../../../core/plan/index.ts';
import type { Derived } from '../../../core/report/index.ts';
import { nearlyMeeting } from '../../../core/snap/index.ts';
import { sayLength } from '../../../core/trim/index.ts';
import type { Segment } from '../../../core/walk/index.ts';
import { letGo, longerForBoards, noStock, sliver } from './remedies-boards.ts';
import { type EditRemedy, go, type Remedy } from './remedy.ts';
import { type Scene, sceneOf, together } from './scene.ts';

export function recordRemedies(finding: Finding, derived: Derived): Remedy[] {
  const { plan } = derived;
  switch (finding.code) {
    case 'old-paint':
    case 'old-floor':
      return plan.builtYear === undefined ? [go('Say when the house was built', 'settings')] : [];
    case 'unmeasured':
      return [go('Go to Measure and type it in', 'measure')];
    case 'held-loose':
      return letGo(finding);
    default: {
      const scene = sceneOf(finding, derived);
      return scene === null ? [] : onLevel(finding, scene);
    }
  }
}

function onLevel(finding: Finding, scene: Scene): Remedy[] {
  switch (finding.code) {
    case 'not-closed':
      return notClosed(finding, scene);
    case 'too-narrow':
      return tooNarrow(finding, scene);
    case 'stock-none':
      return noStock(finding, scene);
    case 'joint-in-sight':
      return [...longerForBoards(finding, scene), go('Look at the stock lengths', 'profiles')];
    case 'sliver':
      return sliver(finding, scene);
    case 'length-odd':
      return oddLength(finding, scene);
    case 'record-unused':
      return unused(finding, scene);
    case 'room-twice':
      return roomTwice(finding, scene);
    default:
      return [];
  }
}

function notClosed(finding: Finding, scene: Scene): EditRemedy[] {
  const { level } = scene.level.walk;
  const same = (walls: readonly string[]): boolean =>
    [...walls].sort().join() === [...finding.about].sort().join();
  const offers = nearlyMeeting(level, settingsOf(scene.plan)).filter((offer) => same(offer.walls));
  if (offers.length > 0)
    return offers.map(({ words, edit }) => ({ kind: 'edit', words: capital(words), edit }));
  const walls = finding.about.filter((id) => lookup(level.walls, id) !== undefined);
  const edit = together(
    walls.map((wall) => ({ type: 'deleteWall', level: scene.levelId, wall: wall as WallId })),
    'delete walls',
  );
  const what = walls.length === 1 ? `wall ${walls[0]}` : `these ${walls.length} walls`;
  return edit === null ? [] : [{ kind: 'edit', words: `Delete ${what}`, edit }];
}

/** A wall end that runs into the wall across is joined to it. */
function tooNarrow(finding: Finding, scene: Scene): EditRemedy[] {
  const { level, notes } = scene.level.walk;
  const note = notes.find((each) => each.kind === 'too-narrow' && each.room === finding.room);
  const joined: EditRemedy[] = [];
  if (note?.kind === 'too-narrow' && note.join !== undefined) {
    const { end, to } = note.join;
    const [own, wall] = [lookup(level.walls, end), lookup(level.walls, to)];
    const ends = own === undefined ? [] : [own.from, own.to];
    const [a, b] = [lookup(level.nodes, wall?.from), lookup(level.nodes, wall?.to)];
    for (const node of ends) {
      const at = lookup(level.nodes, node);
      const hangs = Object.values(level.walls).filter((each) => each.from === node || each.to === node);
      if (at === undefined || a === undefined || b === undefined || hangs.length !== 1) continue;
      const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
      const share = ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / (dx * dx + dy * dy);
      if (!(share >= 0 && share <= 1)) continue;
      const foot: [number, number] = [Math.round(a[0] + share * dx), Math.round(a[1] + share * dy)];
      const edit: Edit = { type: 'moveNode', level: scene.levelId, node, to: foot, on: to };
      joined.push({ kind: 'edit', words: `Join the end of wall ${end} to wall ${to}`, edit });
    }
  }
  const walls = finding.about.filter((id) => lookup(level.walls, id) !== undefined) as WallId[];
  const thickest = Math.max(0, ...walls.map((id) => lookup(level.walls, id)!.thickness));
  const thinner: EditRemedy[] = [0.75, 0.5].map((share) => {
    const thickness = 2 * Math.round((thickest * share) / 2);
    return {
      kind: 'edit',
      words: `Make the walls here no thicker than ${sayLength(scene.plan, thickness)}`,
      edit: {
        type: 'changeWalls',
        level: scene.levelId,
        walls: walls.filter((id) => lookup(level.walls, id)!.thickness > thickness),
        set: { thickness },
      },
    };
  });
  return [...joined, ...thinner];
}

function oddLength(finding: Finding, scene: Scene): Remedy[] {
  const [face, stretch] = finding.about as [SegmentKey | undefined, string | undefined];
  if (face === undefined) return [];
  const set = stretch === undefined ? { measured: null } : { stretches: { [stretch]: null } };
  const segment = scene.trim?.room.loops.flatMap((loop) => loop.segments).find(({ key }) => key === face);
  return [
    { kind: 'go', words: 'Measure it again', go: { to: 'measure' } },
    ...(stretch === undefined && segment !== undefined ? drawnAsMeasured(scene, segment) : []),
    {
      kind: 'edit',
      words: 'Forget the measured length',
      edit: { type: 'setFace', level: scene.levelId, face, set },
    },
  ];
}

/** A wall that stands at the end of the measured one is moved, so that the drawing says what the tape said. */
function drawnAsMeasured(scene: Scene, segment: Segment): EditRemedy[] {
  const measured = segment.record?.measured;
  const segments = scene.trim!.room.loops[segment.loop]?.segments ?? [];
  const before = segments[(segment.index + segments.length - 1) % segments.length]?.parts.at(-1);
  const after = segments[(segment.index + 1) % segments.length]?.parts[0];
  if (measured === undefined || before === undefined || after === undefined) return [];
  const face = ({ wall, side }: typeof before) => ({ wall, side });
  return [
    { stays: face(before), moves: face(after), which: 'right' },
    { stays: face(after), moves: face(before), which: 'left' },
  ].map(({ stays, moves, which }) => ({
    kind: 'edit',
    words: `Draw it as measured, ${sayLength(scene.plan, measured)}: the wall on its ${which} moves`,
    edit: { type: 'setClearDistance', level: scene.levelId, stays, moves, distance: measured },
  }));
}

function unused(finding: Finding, scene: Scene): EditRemedy[] {
  const [id, ...more] = finding.about;
  const { level } = scene.level.walk;
  const { levelId } = scene;
  if (id === undefined || id.startsWith('corner ')) return [];
  if (finding.room !== null) return unusedOnFace(id as SegmentKey, more, finding, scene);
  const room = lookup(level.rooms, id);
  if (finding.message.startsWith('The entry of') && room !== undefined)
    return [
      {
        kind: 'edit',
        words: `Forget the entry of ${room.name || id}`,
        edit: { type: 'changeRoom', level: levelId, room: id as RoomId, set: { entry: null } },
      },
    ];
  if (finding.message.startsWith('The room record') && room !== undefined)
    return [
      {
        kind: 'edit',
        words: `Delete the room record ${room.name || id}`,
        edit: { type: 'deleteRoom', level: levelId, room: id as RoomId },
      },
    ];
  if (finding.message.startsWith('The corner record'))
    return [
      {
        kind: 'edit',
        words: 'Forget what was measured and chosen at that corner',
        edit: {
          type: 'setCorner',
          level: levelId,
          corner: id as CornerKey,
          set: { measured: null, lines: Object.fromEntries(LINES.map((line) => [line, null])) },
        },
      },
    ];
  const record = lookup(level.faces, id);
  if (record === undefined) return [];
  const face = id as SegmentKey;
  const stretches = Object.fromEntries(Object.keys(record.stretches ?? {}).map((key) => [key, null]));
  const trim: Edit = {
    type: 'setTrim',
    level: levelId,
    of: { face },
    lines: Object.fromEntries(LINES.map((line) => [line, null])),
  };
  const rest: Edit = {
    type: 'setFace',
    level: levelId,
    face,
    set: { measured: null, floor: null, line: null, studs: null, stretches },
  };
  const { trim: _, ...figures } = record;
  const edits = [
    ...(record.trim === undefined ? [] : [trim]),
    ...(Object.keys(figures).length === 0 ? [] : [rest]),
  ];
  const edit = together(edits, 'forget face record');
  return edit === null ? [] : [{ kind: 'edit', words: 'Forget what was written of that face', edit }];
}

/** Stretches that no board has, or readings beyond a face's end. */
function unusedOnFace(
  face: SegmentKey,
  stretches: readonly string[],
  finding: Finding,
  scene: Scene,
): EditRemedy[] {
  const record = lookup(scene.level.walk.level.faces, face);
  if (record === undefined) return [];
  if (stretches.length > 0)
    return [
      {
        kind: 'edit',
        words: stretches.length === 1 ? 'Forget that measured stretch' : 'Forget those measured stretches',
        edit: {
          type: 'setFace',
          level: scene.levelId,
          face,
          set: { stretches: Object.fromEntries(stretches.map((key) => [key, null])) },
        },
      },
    ];
  const end = Math.round((finding.figures.faceMm ?? 0) * 320);
  const within = (list: typeof record.floor) => list?.filter(({ at }) => at >= 0 && at <= end) ?? [];
  return [
    {
      kind: 'edit',
      words: 'Forget the readings beyond the end of the wall',
      edit: {
        type: 'setFace',
        level: scene.levelId,
        face,
        set: { floor: within(record.floor), line: within(record.line) },
      },
    },
  ];
}

function roomTwice(finding: Finding, scene: Scene): EditRemedy[] {
  const { rooms } = scene.level.walk.level;
  const [used, ...others] = finding.about;
  const deleting = others.map(
    (id) => ({ type: 'deleteRoom', level: scene.levelId, room: id as RoomId }) as const,
  );
  const edit = together(deleting, 'forget rooms');
  const says = (id: string | undefined): string => {
    const record = lookup(rooms, id);
    return `${record?.name || 'the unnamed room'} (${id})`;
  };
  return edit === null
    ? []
    : [{ kind: 'edit', words: `Keep ${says(used)} and delete ${others.map(says).join(', ')}`, edit }];
}
