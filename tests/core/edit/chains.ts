// Random edits to a small house, many of them degenerate, from a seeded source.

import type { Edit } from '../../../core/edit/index.ts';
import type { Plan } from '../../../core/plan/index.ts';
import { boxPlan, level, MM, prepared } from './helpers.ts';

type Next = () => number;

const door = {
  width: 800 * MM,
  height: 2000 * MM,
  sill: 0,
  kind: 'door',
  pocket: 'start',
  casing: { left: null },
};

/** A small house with something of everything on its walls. */
export function house(next: Next): Plan {
  const wall = () => `w${1 + Math.floor(next() * 4)}`;
  return prepared(
    boxPlan(4000, 3000, {
      openings: {
        o1: { wall: wall(), at: Math.floor(next() * 2000) * MM, ...door },
        o2: { wall: wall(), at: Math.floor(next() * 2000) * MM, ...door },
      },
      builtIns: {
        b1: {
          wall: wall(),
          side: 'right',
          at: Math.floor(next() * 2900 * MM),
          width: 600 * MM,
          bottom: 0,
          top: 900,
          kind: 'tub',
        },
      },
      marks: {
        k1: {
          wall: wall(),
          side: 'left',
          at: Math.floor(next() * 2900 * MM),
          width: 70 * MM,
          bottom: 0,
          top: 9,
          kind: 'outlet',
        },
      },
      rooms: { r1: { name: 'Hall', at: [1000 * MM, 1000 * MM], entry: 'o1' } },
      corners: {
        'n2:w1>w2': { measured: 91 },
        'n3:w2>w3': { number: 30, lines: { base: { joint: 'mitre' } } },
      },
      faces: {
        'w1:right': {
          measured: 3900 * MM,
          floor: [
            { at: 100, height: 1 },
            { at: 3000 * MM, height: 2 },
          ],
          studs: [5, 400 * MM],
        },
        'w2:right': { stretches: { 'corner..o1': 100, 'corner..corner': 7 }, trim: { base: null } },
        'w3:left': { line: [{ at: 1000 * MM, height: 4 }] },
      },
    }),
  );
}

/** An edit that is often degenerate: snapped to few places, onto nodes, along walls, or a tick beside them. */
export function randomEdit(plan: Plan, next: Next, step: number): Edit {
  const { nodes, walls } = level(plan);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)]!;
  const nodeIds = Object.keys(nodes).sort();
  const wallIds = Object.keys(walls).sort();
  const place = (): [number, number] => {
    const [x, y] = [Math.floor(next() * 7) * 700 * MM, Math.floor(next() * 6) * 600 * MM];
    const kind = next();
    if (kind < 0.4) return [x, y];
    if (kind < 0.55) return [x + 1, y - 1];
    if (kind < 0.7 && nodeIds.length > 0) {
      const at = nodes[pick(nodeIds) as never] as unknown as [number, number];
      return [at[0] + Math.floor(next() * 3) - 1, at[1]];
    }
    return [Math.floor(next() * 5000 * MM), Math.floor(next() * 4000 * MM)];
  };
  const end = (id: string) =>
    next() < 0.35 && nodeIds.length > 0 ? pick(nodeIds) : { id: `s${step}${id}`, at: place() };
  const kind = next();
  const of = { level: 'L1' };
  let edit: Record<string, unknown>;
  if (kind < 0.4 || wallIds.length === 0) {
    edit = {
      type: 'addWall',
      wall: `v${step}`,
      from: end('a'),
      to: end('b'),
      thickness: pick([100, 100, 160, 300]) * MM,
    };
  } else if (kind < 0.55) edit = { type: 'moveNode', node: pick(nodeIds), to: place() };
  else if (kind < 0.65) {
    const by = pick([
      [0, 700 * MM],
      [-700 * MM, 0],
      [1, 0],
      [300 * MM, -200 * MM],
    ]);
    edit = { type: 'moveWall', wall: pick(wallIds), by };
  } else if (kind < 0.75) {
    edit = {
      type: 'splitWall',
      wall: pick(wallIds),
      at: next() * 3000 * MM,
      node: `t${step}`,
      newWall: `u${step}`,
    };
  } else if (kind < 0.85) {
    // Mostly where a split left two walls in line.
    const split = nodeIds.filter((id) => id.startsWith('t'));
    edit = { type: 'joinWalls', node: pick(split.length > 0 && next() < 0.8 ? split : nodeIds) };
  } else if (kind < 0.95) edit = { type: 'deleteWall', wall: pick(wallIds), joins: kind > 0.92 };
  else {
    const path = ['levels', 0, 'walls', pick(wallIds), 'thickness'];
    return { type: 'patch', patches: [{ op: 'replace', path, value: pick([60, 100, 500]) * MM }] };
  }
  return { ...of, ...edit } as unknown as Edit;
}
