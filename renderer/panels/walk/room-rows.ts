// What a room holds as rows of the walk, in the order a carpenter goes round it: a corner, the wall after it with its
// boards, openings and built-ins from left to right, the next corner; what stands free in the room after that.

import { capital } from '../../../core/fit/say.ts';
import { lookup } from '../../../core/plan/index.ts';
import { LINE_NAMES } from '../../../core/plan/kinds.ts';
import type { DerivedLevel } from '../../../core/report/index.ts';
import { wallsFromLowest } from '../../../core/sheets/strip-spec.ts';
import type { Piece, RoomTrim } from '../../../core/trim/index.ts';
import type { Loop, Segment } from '../../../core/walk/index.ts';
import { type Ref, refKey } from '../../state/refs.ts';
import type { Figures } from '../kit/figures.ts';
import { endsOf } from '../ticket/find.ts';
import {
  builtInWords,
  cornerWords,
  counted,
  endWords,
  jointsWords,
  kindWords,
  openingWords,
} from '../ticket/say.ts';
import type { MarkedLevel } from './marked.ts';
import { type Bare, PLAIN, type RowKind, rowKey } from './row.ts';

export function contents(
  level: DerivedLevel,
  trim: RoomTrim,
  parent: string,
  marks: MarkedLevel,
  figures: Figures,
): Bare[] {
  const { room } = trim;
  const boards = boardsBySegment(trim);
  const make = (
    ref: Ref,
    kind: RowKind,
    about: string,
    rest: Pick<Bare, 'words' | 'name'> & Partial<Bare>,
  ): Bare => {
    const { count, worst } = marks.about(about);
    const name = count > 0 ? `${rest.name}; ${counted(count, 'finding')}, the worst: ${worst}` : rest.name;
    const own = {
      key: rowKey(room.id, ref),
      kind,
      ref,
      id: refKey(ref),
      depth: 3,
      parent,
      count,
      worst,
    } as const;
    return { ...PLAIN, ...own, ...rest, name };
  };
  const on = level.walk.levelId;

  const cornerRow = (loop: Loop, loopIndex: number, index: number): Bare => {
    const corner = loop.corners[index]!;
    const angle = kindWords(corner, trim.angles[loopIndex]![index]!);
    const joints = jointsWords(trim, loopIndex, index);
    return make({ kind: 'corner', level: on, id: corner.key }, 'corner', cornerWords(corner), {
      also: [refKey({ kind: 'node', level: on, id: corner.node })],
      sign: corner.number === null ? '–' : String(corner.number),
      words: angle,
      more: jointsWords(trim, loopIndex, index, true),
      name: [capital(cornerWords(corner)), angle, joints].filter((each) => each !== '').join(', '),
      shape: corner.kind,
    });
  };

  const faceRow = (loop: Loop, segment: Segment): Bare => {
    const [left, right] = endsOf(loop, segment.index);
    const measured = segment.record?.measured;
    const length = figures.length(measured ?? segment.drawn);
    const from = measured === undefined ? 'drawn' : 'measured';
    const between = `${left.number ?? '–'} to ${right.number ?? '–'}`;
    const what = segment.parts.length > 0 ? 'Wall' : isWallEnd(segment) ? 'Wall end' : 'Step in the wall';
    return make({ kind: 'segment', level: on, id: segment.key }, 'face', segment.key, {
      also: segment.parts.map(({ wall }) => refKey({ kind: 'wall', level: on, id: wall })),
      words: `${what} ${between}`,
      more: `${length} ${from}`,
      name: `${what}, corner ${between}, ${length} ${from}`,
      shape: segment.parts.length > 0 ? '' : 'end',
    });
  };

  const boardRow = (piece: Piece): Bare => {
    const length = figures.inches(piece.overall);
    const ends = [endWords(level, piece.left), endWords(level, piece.right)] as const;
    const line = piece.line === 'base' ? '' : LINE_NAMES[piece.line];
    const drawn = piece.lengthFrom === 'drawn';
    const kind = piece.returnOf === null ? 'Board' : 'Return';
    return make({ kind: 'piece', level: on, id: piece.id }, 'board', piece.id, {
      words: `${piece.id}  ${length}`,
      more:
        piece.returnOf === null
          ? `${piece.left.end} – ${piece.right.end}${drawn ? '' : ' · measured'}`
          : `return of ${piece.returnOf}`,
      name: `${kind} ${piece.id}${line === '' ? '' : `, ${line}`}, ${length} overall, left ${ends[0]}, right ${ends[1]}, ${drawn ? 'drawn: measure before cutting' : 'measured'}`,
      shape: piece.returnOf !== null ? 'return' : piece.line === 'base' ? '' : 'thin',
      joined: piece.returnOf === null && piece.parts > 1,
    });
  };

  const along = (segment: Segment): Bare[] => {
    const items: { readonly at: number; readonly row: Bare }[] = [];
    for (const [order, piece] of (boards.get(segment.key) ?? []).entries())
      items.push({ at: piece.stretch.from + piece.part + order / 1000, row: boardRow(piece) });
    for (const { id, from, to, bottom, casing } of segment.openings) {
      const what = openingWords(level, id);
      const width = figures.length(to - from);
      const cased =
        casing === undefined ? 'casing not known' : casing === null ? 'no casing' : casing.profile.name;
      items.push({
        at: from,
        row: make({ kind: 'opening', level: on, id }, 'opening', id, {
          words: capital(what),
          more: `${width} · ${cased}`,
          name: `${capital(what)}, ${width} wide, ${cased}`,
          shape: bottom > 0 ? 'high' : 'hole',
        }),
      });
    }
    for (const { id, from, to, kind, roundCorner } of segment.builtIns) {
      // It has its row on the wall that it stands on; round the corner the wall shows its depth only.
      if (roundCorner) continue;
      const own = lookup(level.walk.level.builtIns, id);
      const width = figures.length(own?.width ?? to - from);
      items.push({
        at: from,
        row: make({ kind: 'builtIn', level: on, id }, 'thing', id, {
          words: capital(builtInWords(level, id)),
          more: width,
          name: `${capital(kind)} ${id}, ${width} wide`,
        }),
      });
    }
    for (const { id, from, kind } of segment.marks)
      items.push({
        at: from,
        row: make({ kind: 'mark', level: on, id }, 'thing', id, {
          words: `${capital(kind)} ${id}`,
          more: `${figures.length(from)} from the left`,
          name: `${capital(kind)} ${id}, ${figures.length(from)} from the left corner`,
          shape: 'dot',
        }),
      });
    return items.sort((a, b) => a.at - b.at).map(({ row }) => row);
  };

  const all = room.loops.flatMap((loop, loopIndex): Bare[] => {
    const count = loop.corners.length;
    const rows = wallsFromLowest(loop.corners).flatMap((index): Bare[] => {
      const segment = loop.segments[index]!;
      return [
        cornerRow(loop, loopIndex, (index + count - 1) % count),
        faceRow(loop, segment),
        ...along(segment),
      ];
    });
    if (loop.kind === 'outer') return rows;
    const words = 'Stands free in the room';
    return [
      {
        ...PLAIN,
        key: `${parent} free ${loopIndex}`,
        kind: 'island',
        ref: null,
        depth: 3,
        parent,
        words,
        name: words,
      },
      ...rows,
    ];
  });
  // What stands where two walls meet in one line is on a face of each: it has its row where it comes first.
  const seen = new Set<string>();
  return all.filter(({ key }) => !seen.has(key) && seen.add(key));
}

/** Boards by the face they go on: left to right, base before shoe where they begin together; returns after their board. */
function boardsBySegment(trim: RoomTrim): ReadonlyMap<string, readonly Piece[]> {
  const map = new Map<string, Piece[]>();
  for (const { runs } of trim.lines)
    for (const { pieces, returns } of runs)
      for (const piece of pieces) {
        const list = map.get(piece.segment.key) ?? [];
        map.set(piece.segment.key, list);
        list.push(piece, ...returns.filter(({ returnOf }) => returnOf === piece.id));
      }
  return map;
}

/** A face without walls is a free wall's end, where one wall comes and goes, or a step between two walls. */
function isWallEnd({ key }: Segment): boolean {
  const [into, out] = key.slice(key.indexOf(':') + 1).split('>');
  return into === out;
}
