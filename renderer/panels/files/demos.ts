// The demo houses in words, and small drawings of their ground floors: walls along their middles, and the openings in
// them, as paths in a box of `DRAWING`. A test draws them again from the plan files.

import type { DEMO_HOUSES } from '../../../electron/contract.ts';

export interface Demo {
  readonly name: string;
  readonly about: string;
  readonly walls: string;
  readonly openings: string;
}

export const DRAWING = { width: 120, height: 84, margin: 6 } as const;

export const DEMOS: Readonly<Record<(typeof DEMO_HOUSES)[number], Demo>> = {
  'thimble-cottage': {
    name: 'Thimble Cottage',
    about: 'Three rooms on one floor, to look round in',
    walls:
      'M14 6L67 6M67 42L80 42M80 42L80 71M67 6L106 6M80 42L106 42M106 42L106 71M80 71L50 71M106 6L106 42M106 71L80 71M50 71L44 78M44 78L31 78M31 78L24 71M24 71L14 71M14 71L14 6M67 6L67 42',
    openings: 'M14 31L14 21M69 42L77 42M80 50L80 58M31 6L47 6M81 6L94 6M42 78L32 78M106 51L106 57',
  },
  'larkspur-house': {
    name: 'Larkspur House',
    about: 'Nineteen rooms on two floors, some of it old and out of square',
    walls:
      'M14 6L50 6M50 35L50 73M14 35L50 35M68 6L68 17M68 44L106 44M50 27L59 27M59 6L59 20M50 20L59 20M68 17L80 6M106 32L92 32M14 49L17 49M106 6L106 32M17 49L17 59M17 59L14 59M38 43L41 43M41 43L41 45M41 45L38 45M38 45L38 43M50 6L59 6M59 6L68 6M68 6L80 6M80 6L106 6M106 73L68 73M68 17L68 27M68 27L68 44M68 44L68 73M59 27L68 27M59 20L59 27M106 32L106 44M106 44L106 73M68 73L50 73M50 73L43 73M14 59L14 49M43 73L38 78M14 49L14 35M14 35L14 6M50 20L50 27M50 27L50 35M38 78L29 78M29 78L23 73M23 73L14 73M14 73L14 59M50 6L50 20',
    openings:
      'M62 73L56 73M72 14L76 10M28 6L36 6M14 25L14 16M14 69L14 63M14 45L14 39M42 74L39 77M37 78L30 78M28 77L25 74M94 73L82 73M106 52L106 64M50 55L50 67M106 16L106 25M87 6L95 6M61 6L65 6M68 52L68 62M68 32L68 38M81 44L86 44M50 28L50 33M52 27L57 27M61 27L66 27M59 11L59 16',
  },
};
