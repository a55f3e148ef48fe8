// What the window says of mouldings that are only named, against what core lays out.

import { expect, test } from 'vitest';
import { LINES, type Plan, type Profile } from '../../../core/plan/index.ts';
import { derive } from '../../../core/report/index.ts';
import { isOnlyNamed, ONLY_NAMED, onlyNamedWords } from '../../../renderer/panels/ticket/laid-out.ts';
import { boxPlan, MM, prepared } from '../../core/edit/helpers.ts';

test('the lines that are only named are those for which core makes no board', () => {
  const profile = (kind: string) => ({
    kind,
    name: kind,
    height: 80 * MM,
    thickness: 12 * MM,
    projection: 60 * MM,
    drop: 60 * MM,
    form: 'shaped',
    material: 'pine',
    stock: [],
  });
  const profiles = Object.fromEntries(LINES.map((line) => [line, profile(line)]));
  const trim = Object.fromEntries(LINES.map((line) => [line, line]));
  const rooms = { r1: { name: 'Hall', at: [2000 * MM, 1500 * MM], trim } };
  const plan = prepared({ ...boxPlan(4000, 3000, { rooms }), profiles } as unknown as Plan);
  const made = new Set(derive(plan).report.pieces.map(({ line }) => line));
  expect(ONLY_NAMED).toEqual(LINES.filter((line) => !made.has(line)));
  for (const line of LINES) expect(isOnlyNamed(line)).toBe(!made.has(line));
  expect(isOnlyNamed('casing' satisfies Profile['kind'])).toBe(false);
});

test('what is done for them and what is not is said in two sentences', () => {
  expect(onlyNamedWords(['crown'])).toBe(
    'Crown: named on the room’s sheet, for the crew to measure on site. No boards, joints, saw settings, checks or stock are worked out for it; those are for base, shoe and casings.',
  );
  expect(onlyNamedWords(['chairRail', 'pictureRail'])).toMatch(/^Chair rail and picture rail: .* for them; /);
});
