// Boards by how the saw is set for them, so that it is set once for each group. Paper and window list them alike.

import { byCodeUnit } from '../plan/maps.ts';
import type { Report } from '../report/schema.ts';
import { formatSaw } from '../units/index.ts';

type Piece = Report['pieces'][number];

export interface SawGroup {
  /** `Saw at 22½° and 44¼°`. */
  readonly words: string;
  /** The longest board first. */
  readonly pieces: readonly Piece[];
}

/** By both settings as printed, the smaller first; groups by their settings. */
export function sawGroups(pieces: readonly Piece[]): SawGroup[] {
  const groups = new Map<string, { low: number; high: number; words: string; pieces: Piece[] }>();
  for (const piece of pieces) {
    const [low, high] = [piece.left.sawDeg, piece.right.sawDeg].toSorted((a, b) => a - b) as [number, number];
    const words = settingWords(formatSaw(low), formatSaw(high));
    const group = groups.get(words) ?? { low, high, words, pieces: [] };
    group.pieces.push(piece);
    groups.set(words, group);
  }
  return [...groups.values()]
    .toSorted((a, b) => a.low - b.low || a.high - b.high)
    .map(({ words, pieces: own }) => ({
      words,
      pieces: own.toSorted((a, b) => b.overallMm - a.overallMm || byCodeUnit(a.id, b.id)),
    }));
}

function settingWords(low: string, high: string): string {
  if (low === '0°') return high === '0°' ? 'Square both ends' : `Saw at ${high}, the other end square`;
  return low === high ? `Saw at ${low}, both ends` : `Saw at ${low} and ${high}`;
}
