// The survey of a room: what is measured, beside what is drawn, and what is missing.

import { describe, expect, test } from 'vitest';
import { missingWords, surveyOf } from '../../../renderer/panels/measure/survey.ts';
import { after, type House, house, MM } from './house.ts';

const L1 = 'L1' as never;
const kitchen = ({ shown, level }: House) => surveyOf(level, level.trims[1]!, shown.findings);

describe('the survey of a room', () => {
  test('asks in walking order for each angle, each wall and each stretch between casings', () => {
    const told = kitchen(house()).items.flatMap((item) =>
      item.kind === 'corner'
        ? [item.words]
        : [item.words, ...item.stretches.map(({ words }) => `  ${words}`)],
    );
    expect(told).toEqual([
      'Corner 9, inside',
      'Wall 9 to 10',
      'Corner 10, inside',
      'Wall 10 to 11',
      '  Corner 10 to cabinet b1',
      '  Cabinet b1 to corner 11',
      'Corner 11, inside',
      'Wall 11 to 12',
      '  Corner 11 to pocket door o4',
      '  Pocket door o4 to corner 12',
      'Corner 12, inside',
      'Wall 12 to 9',
      '  Corner 12 to door o1',
      '  Door o1 to corner 9',
    ]);
  });

  test('counts what is missing, and one less with each figure', () => {
    const it = house();
    const { missing } = kitchen(it);
    expect(missing).toEqual({ angles: 4, lengths: 7, floors: 4, casings: 0, heights: 3 });
    const [first] = it.level.walk.rooms[1]!.loops[0]!.corners.filter(({ number }) => number === 9);
    const angle = after(it, { type: 'setCorner', level: L1, corner: first!.key, set: { measured: 90.5 } });
    expect(kitchen(angle).missing.angles).toBe(3);
    const face = it.level.trims[1]!.room.loops[0]!.segments[1]!.key;
    const wall = after(it, { type: 'setFace', level: L1, face, set: { measured: 4400 * MM } });
    expect(kitchen(wall).missing.lengths).toBe(6);
    expect(missingWords(missing)).toBe(
      '4 angles, 7 lengths, 3 heights of old base and floors, 4 walls without floor readings',
    );
    expect(missingWords({ angles: 0, lengths: 0, floors: 0, casings: 0, heights: 0 })).toBeNull();
  });

  test('marks at once what differs much from the drawing', () => {
    const it = house();
    const corner = it.level.walk.rooms[1]!.loops[0]!.corners.find(({ number }) => number === 9)!.key;
    const odd = (measured: number) =>
      kitchen(after(it, { type: 'setCorner', level: L1, corner, set: { measured } })).items[0]!.odd;
    expect(odd(94)).toBe(false);
    expect(odd(96)).toBe(true);
    const face = it.level.trims[1]!.room.loops[0]!.segments[1]!.key;
    const long = (measured: number) =>
      kitchen(after(it, { type: 'setFace', level: L1, face, set: { measured: measured * MM } })).items[1]!
        .odd;
    expect(long(4460)).toBe(false);
    expect(long(4500)).toBe(true);
  });
});
