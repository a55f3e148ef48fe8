// Stretches joined otherwise, as the boards may want them: what is lent from before equals a derivation from nothing, and
// rooms whose stretches are joined as they were are the same objects.

import { readFileSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import { expect, test } from 'vitest';
import { apply } from '../../../core/edit/index.ts';
import { readPlan } from '../../../core/plan/index.ts';
import { derive, rejoined } from '../../../core/report/index.ts';
import { splitKey } from '../../../core/trim/types.ts';

for (const house of ['larkspur-house', 'thimble-cottage'])
  test(`[RP3] ${house}: joined otherwise, it is as derived with those joints from nothing`, () => {
    const url = new URL(`../../../demo-data/${house}.copewright.json`, import.meta.url);
    const read = readPlan(readFileSync(url, 'utf8'));
    if (!read.ok) throw new Error(read.error.message);
    const derived = derive(read.plan);
    const trims = derived.levels.flatMap((level) => level.trims);
    const stretches = trims.flatMap(({ room, lines }) =>
      lines.flatMap((line) =>
        line.stretches.map(({ segment, line, key, L }) => ({
          key: splitKey(room.level, segment.key, line, key),
          half: Math.round(L / 2),
          room: room.id,
        })),
      ),
    );
    const whole = Object.fromEntries(stretches.map(({ key, half }) => [key, [half]]));
    const before = rejoined(derived, whole);
    for (const some of [stretches.slice(0, 1), stretches.filter((_, i) => i % 3 === 0)]) {
      const splits = Object.fromEntries(some.map(({ key, half }) => [key, [half]]));
      const lent = rejoined(derived, splits);
      const fresh = derive(derived.plan, undefined, splits);
      expect(isDeepStrictEqual(lent.levels, fresh.levels)).toBe(true);
      expect(isDeepStrictEqual(lent.findings, fresh.findings)).toBe(true);
      const now = new Set(lent.levels.flatMap((level) => level.trims));
      const anew = trims.filter((trim) => !now.has(trim)).map(({ room }) => room.id);
      expect(new Set(anew)).toEqual(new Set(some.map(({ room }) => room)));
      // Also with what was joined in another way before.
      const again = rejoined(derived, splits, before);
      expect(isDeepStrictEqual(again.levels, fresh.levels)).toBe(true);
    }
  });

test('[RP3] after an edit, rooms that it did not touch are lent as they were joined before it', () => {
  const url = new URL('../../../demo-data/larkspur-house.copewright.json', import.meta.url);
  const read = readPlan(readFileSync(url, 'utf8'));
  if (!read.ok) throw new Error(read.error.message);
  const derived = derive(read.plan);
  const halves = (of: typeof derived) =>
    Object.fromEntries(
      of.levels.flatMap(({ trims }) =>
        trims.flatMap(({ room, lines }) =>
          lines.flatMap((line) =>
            line.stretches.map(({ segment, line, key, L }) => [
              splitKey(room.level, segment.key, line, key),
              [Math.round(L / 2)],
            ]),
          ),
        ),
      ),
    );
  const before = rejoined(derived, halves(derived));
  const { walk } = derived.levels[0]!;
  const corner = walk.rooms[0]!.loops[0]!.corners[0]!.key;
  for (const edit of [
    { type: 'setCorner', level: walk.levelId, corner, set: { lines: { base: { joint: 'mitre' } } } },
    { type: 'setSettings', set: { springBy: 640 } },
  ] as const) {
    const edited = apply(derived.plan, edit);
    if (!edited.ok) throw new Error(edited.message);
    const now = derive(edited.plan, derived);
    const splits = halves(now);
    const lent = rejoined(now, splits, before);
    const fresh = derive(now.plan, undefined, splits);
    expect(isDeepStrictEqual(lent.levels, fresh.levels), edit.type).toBe(true);
    expect(isDeepStrictEqual(lent.findings, fresh.findings), edit.type).toBe(true);
    const kept = (of: typeof derived, from: typeof derived): number => {
      const were = new Set(from.levels.flatMap(({ trims }) => trims));
      return of.levels.flatMap(({ trims }) => trims).filter((trim) => were.has(trim)).length;
    };
    expect(kept(lent, before), edit.type).toBe(kept(now, derived));
    expect(kept(lent, before) > 0, edit.type).toBe(edit.type === 'setCorner');
  }
});
