// A document read by the schema in pieces is what the schema makes of it whole, and the first issue keeps its place.

import { describe, expect, it } from 'vitest';
import { type PlanFile, PlanSchema } from '../../../core/plan/schema.ts';
import { readInPieces } from '../../../core/plan/shape.ts';
import { COTTAGE } from '../../fixtures/cottage.ts';

/** More entries than one piece takes. */
const MANY = 3_000;
const many = <T>(make: (i: number) => T): T[] => Array.from({ length: MANY }, (_, i) => make(i));

/** The cottage with large maps, large lists, and records that are large on their own between small ones. */
function large(): PlanFile {
  const [level] = structuredClone(COTTAGE.levels);
  const rooms = Object.fromEntries(
    many((i) => [`x${i}`, { name: `Room ${i}`, at: [i, 0] as [number, number], old: null }]),
  );
  const floor = many((at) => ({ at, height: -0.5 }));
  const faces = {
    'w1:right': { floor },
    'w2:right': { measured: 1000 },
    'w3:left': { studs: many((i) => i) },
  };
  return {
    ...COTTAGE,
    levels: [{ ...level!, rooms: { ...level!.rooms, ...rooms }, faces: { ...level!.faces, ...faces } }],
    stockOnHand: { [Object.keys(COTTAGE.profiles!)[0]!]: many((i) => ({ length: i + 1, count: 1 })) },
  };
}

describe('a document in pieces', () => {
  it('[PL4] is what the schema makes of it whole, in the same order', () => {
    for (const document of [COTTAGE, large(), { ...large(), levels: [] }]) {
      const read = readInPieces(PlanSchema, document);
      if (!read.ok) throw new Error(read.issue.message);
      expect(JSON.stringify(read.value)).toBe(JSON.stringify(PlanSchema.parse(document)));
    }
  });

  it('[PL4] gives the first issue with its place in the whole document', () => {
    const spoil = (where: (file: ReturnType<typeof large>) => void): readonly PropertyKey[] => {
      const file = large();
      where(file);
      const read = readInPieces(PlanSchema, file);
      return read.ok ? [] : read.issue.path;
    };
    const at = (file: PlanFile) => file.levels[0]! as unknown as Record<string, Record<string, unknown>>;
    expect(
      spoil((file) => {
        at(file).rooms!.x2999 = { name: 'x', at: [0, 'y'] };
      }),
    ).toEqual(['levels', 0, 'rooms', 'x2999', 'at', 1]);
    expect(
      spoil((file) => {
        const { floor } = at(file).faces!['w1:right'] as { floor: unknown[] };
        floor[2500] = { at: 0 };
      }),
    ).toEqual(['levels', 0, 'faces', 'w1:right', 'floor', 2500, 'height']);
  });

  it('[PL4] refuses a spoiled key whatever is kept under it, and takes a long list of names', () => {
    const profile = Object.keys(COTTAGE.profiles!)[0]!;
    const faces = (key: string, readings: number) => ({
      ...COTTAGE,
      levels: [
        {
          ...COTTAGE.levels[0]!,
          faces: { [key]: { floor: Array.from({ length: readings }, (_, at) => ({ at, height: 0 })) } },
        },
      ],
    });
    const held = (key: string, names: number) => ({
      ...COTTAGE,
      heldBoards: {
        [key]: [
          { length: 2400, onHand: false, pieces: Array.from({ length: names }, (_, i) => `${i + 1}A`) },
        ],
      },
    });
    for (const make of [faces, held]) {
      for (const count of [1, MANY]) {
        const read = readInPieces(PlanSchema, make('no such key', count));
        const whole = PlanSchema.safeParse(make('no such key', count)).error!.issues[0]!;
        expect(read.ok ? null : read.issue, `${make.name} ${count}`).toMatchObject({ code: 'invalid_key' });
        expect(read.ok ? null : read.issue.path).toEqual(whole.path);
        expect(readInPieces(PlanSchema, make(make === faces ? 'w1:right' : profile, count)).ok).toBe(true);
      }
    }
  });

  it('[PL4] refuses a long list as the schema does, by its length', () => {
    const level = large().levels[0]!;
    const document = {
      ...COTTAGE,
      levels: Array.from({ length: 101 }, (_, i) => ({ ...level, id: `L${i}` })),
    };
    const read = readInPieces(PlanSchema, document);
    const whole = PlanSchema.safeParse(document).error!.issues[0]!;
    expect(read.ok ? null : read.issue).toMatchObject({ code: 'too_big', path: ['levels'], maximum: 100 });
    expect(whole).toMatchObject({ code: 'too_big', path: ['levels'], maximum: 100 });
  });
});
