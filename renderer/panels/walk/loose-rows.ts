// Walls that no room looks at as rows of the walk, and what stands on them.

import { capital } from '../../../core/fit/say.ts';
import { mustLookup, sortedEntries } from '../../../core/plan/index.ts';
import { OPENING_KINDS } from '../../../core/plan/kinds.ts';
import type { DerivedLevel } from '../../../core/report/index.ts';
import { type Ref, refKey } from '../../state/refs.ts';
import type { Figures } from '../kit/figures.ts';
import { counted } from '../ticket/say.ts';
import type { MarkedLevel } from './marked.ts';
import {
  type Bare,
  looseKey,
  type Opened,
  PLAIN,
  placed,
  type RowKind,
  rowKey,
  type WalkRow,
} from './row.ts';

/** Walls that no room looks at, with what stands on them, so that they too can be chosen without the sheet. */
export function looseRows(
  { walk }: DerivedLevel,
  parent: string,
  marks: MarkedLevel,
  figures: Figures,
  opened: Opened,
): readonly WalkRow[] {
  const { level } = walk;
  const seen = new Set<string>();
  for (const { loops } of walk.rooms)
    for (const { segments } of loops)
      for (const { parts } of segments) for (const { wall } of parts) seen.add(wall);
  if (Object.keys(level.walls).every((id) => seen.has(id))) return [];
  const walls = sortedEntries(level.walls).filter(([id]) => !seen.has(id));
  const key = looseKey(level.id);
  const count = counted(walls.length, 'wall');
  const head: Bare = {
    ...PLAIN,
    key,
    kind: 'loose',
    ref: null,
    depth: 2,
    parent,
    opens: true,
    open: opened === null || opened.has(key),
    words: 'In no room',
    more: count,
    name: `In no room, ${count}`,
  };
  if (!head.open) return placed([head]);
  const make = (ref: Ref & { id: string }, kind: RowKind, words: string, more: string): Bare => {
    const { count: found, worst } = marks.about(ref.id);
    const name = `${words}, ${more}`;
    return {
      ...PLAIN,
      key: rowKey(key, ref),
      kind,
      ref,
      id: refKey(ref),
      depth: 3,
      parent: key,
      words,
      more,
      name,
      count: found,
      worst,
    };
  };
  const rows = walls.flatMap(([id, { from, to }]): Bare[] => {
    const [a, b] = [mustLookup(level.nodes, from), mustLookup(level.nodes, to)];
    const length = figures.length(Math.hypot(b[0] - a[0], b[1] - a[1]));
    const on = level.id;
    return [
      make({ kind: 'wall', level: on, id }, 'face', `Wall ${id}`, length),
      ...sortedEntries(level.openings).flatMap(([opening, { wall, kind, width }]) =>
        wall === id
          ? [
              make(
                { kind: 'opening', level: on, id: opening },
                'opening',
                capital(`${OPENING_KINDS[kind]} ${opening}`),
                figures.length(width),
              ),
            ]
          : [],
      ),
      ...sortedEntries(level.builtIns).flatMap(([item, { wall, kind, width }]) =>
        wall === id
          ? [
              make(
                { kind: 'builtIn', level: on, id: item },
                'thing',
                capital(`${kind} ${item}`),
                figures.length(width),
              ),
            ]
          : [],
      ),
      ...sortedEntries(level.marks).flatMap(([mark, { wall, kind, width }]) =>
        wall === id
          ? [
              make(
                { kind: 'mark', level: on, id: mark },
                'thing',
                capital(`${kind} ${mark}`),
                figures.length(width),
              ),
            ]
          : [],
      ),
    ];
  });
  return [...placed([head]), ...placed(rows)];
}
