// Large houses for timing: a demo house set down many times over on its own levels, copies beside one another. A plan
// file in and out; ids get the copy's number, corner numbers go on from copy to copy.

import { readPlan } from '../../core/plan/index.ts';
import type { Plan } from '../../core/plan/schema.ts';

type Loose = Record<string, unknown>;
type Maps = Record<string, Record<string, Loose>>;

/** Between a copy and the next, mm. */
const APART_MM = 2000;

/** A house `copies` times over, each copy beside the last, as a plan read from its file's text. Not yet prepared. */
export function manyHouses(text: string, copies: number): Plan {
  const file: Loose & { levels: (Maps & Loose)[]; counters: { corner: number } } = JSON.parse(text);
  const points = file.levels.flatMap((level) => Object.values(level.nodes!) as unknown as [number, number][]);
  const span = (axis: 0 | 1) => {
    const all = points.map((at) => at[axis]);
    return Math.max(...all) - Math.min(...all) + APART_MM;
  };
  const across = Math.ceil(Math.sqrt(copies));
  const levels = file.levels.map((level) => {
    const many: Maps = {};
    for (let copy = 0; copy < copies; copy += 1) {
      const shift: [number, number] = [(copy % across) * span(0), Math.floor(copy / across) * span(1)];
      const one = copied(level, copy, shift, copy * file.counters.corner);
      for (const [map, records] of Object.entries(one)) many[map] = Object.assign(many[map] ?? {}, records);
    }
    return { ...level, ...many };
  });
  const counters = { corner: file.counters.corner * copies };
  const read = readPlan(JSON.stringify({ ...file, levels, counters }));
  if (!read.ok) throw new Error(read.error.message);
  return read.plan;
}

const MAPS = ['nodes', 'walls', 'openings', 'builtIns', 'marks', 'rooms', 'corners', 'faces'] as const;
/** Fields that name another record of the level. */
const NAMES: ReadonlySet<string> = new Set(['from', 'to', 'wall', 'entry']);

function copied(level: Maps, copy: number, [dx, dy]: [number, number], numbers: number): Maps {
  const ids = new Set(MAPS.slice(0, 6).flatMap((map) => Object.keys(level[map] ?? {})));
  const renamed = (id: string): string => (ids.has(id) ? `${id}-${copy}` : id);
  /** A key that holds ids: `n2:w1>w2#0`, `corner..o1`. */
  const key = (text: string): string => text.replace(/[A-Za-z][\w-]*/g, renamed);
  const maps: Maps = {};
  for (const map of MAPS) {
    maps[map] = Object.fromEntries(
      Object.entries(level[map] ?? {}).map(([id, record]) => {
        if (map === 'nodes') {
          const [x, y] = record as unknown as [number, number];
          return [renamed(id), [x + dx, y + dy] as unknown as Loose];
        }
        const fields = Object.entries(record).map(([field, value]) => {
          if (NAMES.has(field) && typeof value === 'string') return [field, renamed(value)];
          if (field === 'stretches')
            return [field, Object.fromEntries(Object.entries(value as Loose).map(([k, v]) => [key(k), v]))];
          if (field === 'number' && map === 'corners') return [field, (value as number) + numbers];
          if (field === 'at' && map === 'rooms')
            return [field, [(value as number[])[0]! + dx, (value as number[])[1]! + dy]];
          return [field, value];
        });
        return [key(id), Object.fromEntries(fields)];
      }),
    );
  }
  return maps;
}
