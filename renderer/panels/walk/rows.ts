import type { Derived, DerivedLevel } from '../../../core/report/index.ts';
import type { RoomTrim } from '../../../core/trim/index.ts';
import { formatArea } from '../../../core/units/index.ts';
import type { Figures } from '../kit/figures.ts';
import { counted, levelWords } from '../ticket/say.ts';
import { looseRows } from './loose-rows.ts';
import { type MarkedLevel, markedBy, NOTHING_MARKED } from './marked.ts';
import { contents } from './room-rows.ts';
import { type Bare, levelKey, type Opened, PLAIN, placed, roomKey, type WalkRow } from './row.ts';

/** Rows of rooms as they were made last, to be taken again where a room reads the same. The caller keeps it. */
export type RowMemory = Map<
  string,
  {
    readonly trim: RoomTrim;
    readonly figures: Figures;
    readonly said: string;
    readonly rows: readonly WalkRow[];
  }
>;

/** All rows that are to be shown. With a memory, rooms that did not change give the very rows they gave before. */
export function walkRows(
  shown: Derived,
  opened: Opened,
  figures: Figures,
  memory: RowMemory = new Map(),
): readonly WalkRow[] {
  const marked = markedBy(shown.findings);
  const levels = placed(shown.levels.map((level) => levelRow(shown, level, opened)));
  return shown.levels.flatMap((level, index): WalkRow[] => {
    const row = levels[index]!;
    if (!row.open) return [row];
    const marks = marked.get(level.walk.levelId) ?? NOTHING_MARKED;
    const heads = placed(level.trims.map((trim) => roomRow(shown, level, trim, row.key, marks, opened)));
    return [
      row,
      ...level.trims.flatMap((trim, at): WalkRow[] => {
        const head = heads[at]!;
        if (!head.open) return [head];
        const said = marks.said(trim.room.id);
        const known = memory.get(head.key);
        if (known?.trim === trim && known.figures === figures && known.said === said)
          return [head, ...known.rows];
        const rows = placed(contents(level, trim, head.key, marks, figures));
        memory.set(head.key, { trim, figures, said, rows });
        return [head, ...rows];
      }),
      ...looseRows(level, row.key, marks, figures, opened),
    ];
  });
}

/** The rows whose names hold every word asked for, with the rows above them; all open. */
export function foundRows(rows: readonly WalkRow[], asked: string): readonly WalkRow[] {
  const wanted = asked.toLowerCase().split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return rows;
  const names = new Map(rows.map((row) => [row.key, row.name.toLowerCase()]));
  const parents = new Map(rows.map((row) => [row.key, row.parent]));
  /** A row is found by its own name together with its room's and level's: 'hall cope'. */
  const whole = (key: string): string => {
    const parent = parents.get(key);
    return `${parent == null ? '' : `${whole(parent)} `}${names.get(key) ?? ''}`;
  };
  const kept = new Set<string>();
  for (const row of rows) {
    const own = names.get(row.key)!;
    const all = whole(row.key);
    if (!wanted.every((word) => all.includes(word)) || !wanted.some((word) => own.includes(word))) continue;
    for (let key: string | null | undefined = row.key; key != null; key = parents.get(key)) kept.add(key);
  }
  return placed(rows.filter(({ key }) => kept.has(key)));
}

function levelRow(shown: Derived, level: DerivedLevel, opened: Opened): Bare {
  const key = levelKey(level.walk.levelId);
  const rooms = counted(level.walk.rooms.length, 'room');
  const words = levelWords(shown, level);
  return {
    ...PLAIN,
    key,
    kind: 'level',
    ref: null,
    depth: 1,
    parent: null,
    opens: Object.keys(level.walk.level.walls).length > 0,
    open: Object.keys(level.walk.level.walls).length > 0 && (opened === null || opened.has(key)),
    words,
    more: rooms,
    name: `Level ${words}, ${rooms}`,
  };
}

function roomRow(
  shown: Derived,
  level: DerivedLevel,
  { room }: RoomTrim,
  parent: string,
  marks: MarkedLevel,
  opened: Opened,
): Bare {
  const key = roomKey(level.walk.levelId, room.id);
  const { count, worst } = marks.room(room.id);
  const unnamed = room.record === undefined || room.record.name === '';
  const area = formatArea(room.area, shown.plan.units);
  return {
    ...PLAIN,
    key,
    kind: 'room',
    ref: { kind: 'room', level: level.walk.levelId, id: room.id },
    id: key,
    depth: 2,
    parent,
    opens: true,
    open: opened === null || opened.has(key),
    words: room.name,
    more: unnamed ? `no name yet · ${area}` : area,
    name: [
      room.name,
      ...(unnamed ? ['no name yet'] : []),
      area,
      ...(count > 0 ? [`${counted(count, 'finding')}, the worst: ${worst}`] : []),
    ].join(', '),
    count,
    worst,
  };
}
