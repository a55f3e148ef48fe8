// What is drawn on the sheet stands out from what it stands on: text 4.5 to 1 and marks 3 to 1, reckoned from the palettes as
// WCAG 2.2 has it (1.4.3 and 1.4.11; relative luminance of sRGB). By day, by night and as printed.

import { describe, expect, test } from 'vitest';
import { type Palette, paletteOf } from '../../../renderer/sheet/palette.ts';

function luminance(hex: string): number {
  expect(hex).toMatch(/^#[0-9a-f]{6}$/);
  const [red, green, blue] = [1, 3, 5].map((from) => {
    const value = Number.parseInt(hex.slice(from, from + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

function contrast(one: string, other: string): number {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light! + 0.05) / (dark! + 0.05);
}

/** What things are drawn on: the sheet, a room's floor, the wash of the strip's walls and of a label, a finding's wash. */
const grounds = ({ ground, floor, inks }: Palette) => ({
  ground,
  floor,
  wash: inks.wash,
  washPencil: inks.washPencil,
});
const TEXT = ({ inks, set }: Palette) => ({
  graphite: inks.graphite,
  ink: inks.ink,
  pencil: inks.pencil,
  set,
});
const MARKS = ({ inks, chosen, hover, guide }: Palette) => ({ faint: inks.faint, chosen, hover, guide });

describe.each(['light', 'dark', 'paper'] as const)('%s', (paper) => {
  const palette = paletteOf(paper);
  test('text is 4.5 to 1 on every ground it may stand on', () => {
    for (const [ink, colour] of Object.entries(TEXT(palette)))
      for (const [ground, under] of Object.entries(grounds(palette)))
        expect(contrast(colour, under), `${ink} on ${ground}`).toBeGreaterThanOrEqual(4.5);
  });

  test('marks, leaders and guides are 3 to 1 on every ground they may stand on', () => {
    for (const [ink, colour] of Object.entries(MARKS(palette)))
      for (const [ground, under] of Object.entries(grounds(palette)))
        expect(contrast(colour, under), `${ink} on ${ground}`).toBeGreaterThanOrEqual(3);
  });

  test('the cut of a wall is 3 to 1 beside floor and sheet', () => {
    for (const under of [palette.floor, palette.ground])
      for (const colour of [palette.wall, palette.wallStroke])
        expect(contrast(colour, under)).toBeGreaterThanOrEqual(3);
  });

  test('what is outlined tells its inside from its outline: a board that runs through from one that is worked', () => {
    expect(contrast(palette.inks.faint, palette.inks.paper)).toBeGreaterThanOrEqual(3);
    expect(contrast(palette.inks.graphite, palette.halfWall)).toBeGreaterThanOrEqual(3);
  });
});
