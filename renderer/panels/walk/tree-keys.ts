// Keys in the walk to what they do: one row further, open, close, to the corner with a number. ARIA's tree pattern; letters
// are left to the commands of the window, so that only figures are looked up. No DOM.

import type { WalkRow } from './row.ts';

export type TreeStep =
  | { readonly kind: 'focus'; readonly key: string; readonly extend: boolean }
  | { readonly kind: 'open' | 'close'; readonly keys: readonly string[] };

const PAGE = 10;

/** What a key does where `focus` has the focus; null where the tree does not want it. */
export function treeStep(
  rows: readonly WalkRow[],
  focus: string,
  key: string,
  shift = false,
): TreeStep | null {
  const at = rows.findIndex((row) => row.key === focus);
  const row = rows[at];
  if (row === undefined) return null;
  const to = (index: number): TreeStep => ({
    kind: 'focus',
    key: rows[Math.max(0, Math.min(rows.length - 1, index))]!.key,
    extend: shift,
  });
  switch (key) {
    case 'ArrowDown':
      return to(at + 1);
    case 'ArrowUp':
      return to(at - 1);
    case 'PageDown':
      return to(at + PAGE);
    case 'PageUp':
      return to(at - PAGE);
    case 'Home':
      return to(0);
    case 'End':
      return to(rows.length - 1);
    case 'ArrowRight':
      if (!row.opens) return null;
      return row.open
        ? { kind: 'focus', key: rows[at + 1]?.key ?? row.key, extend: false }
        : { kind: 'open', keys: [row.key] };
    case 'ArrowLeft':
      if (row.opens && row.open) return { kind: 'close', keys: [row.key] };
      return row.parent === null ? null : { kind: 'focus', key: row.parent, extend: false };
    case '*':
      return {
        kind: 'open',
        keys: rows.filter((each) => each.parent === row.parent && each.opens).map((each) => each.key),
      };
    default:
      return null;
  }
}

/** The row a typed number leads to: the corner with it, else the first board that begins with it, from `focus` on, round. */
export function rowOfNumber(rows: readonly WalkRow[], focus: string, typed: string): string | null {
  const at = rows.findIndex((row) => row.key === focus);
  const round = [...rows.slice(Math.max(0, at)), ...rows.slice(0, Math.max(0, at))];
  const corner = round.find((row) => row.kind === 'corner' && row.sign === typed);
  const begins = round.find((row) => row.kind === 'corner' && row.sign.startsWith(typed));
  return (corner ?? begins)?.key ?? null;
}

/**
 * Where the focus is when rows were taken away: on its row; where that is gone, on the nearest one beside it that is still
 * there, the one after it first; where none is, on the row over it. Null where nothing is left. `rows`: as they were.
 */
export function rowLeft(
  rows: readonly WalkRow[],
  focus: string,
  isThere: (key: string) => boolean,
): string | null {
  if (isThere(focus)) return focus;
  const row = rows.find(({ key }) => key === focus);
  if (row === undefined) return null;
  const kin = rows.filter(({ parent }) => parent === row.parent);
  const at = kin.indexOf(row);
  for (let by = 1; by < kin.length; by++)
    for (const beside of [kin[at + by], kin[at - by]])
      if (beside !== undefined && isThere(beside.key)) return beside.key;
  return row.parent === null ? null : rowLeft(rows, row.parent, isThere);
}

/** The rows from one to another, both counted, in reading order: what Shift chooses. */
export function rowsBetween(rows: readonly WalkRow[], one: string, other: string): readonly WalkRow[] {
  const ends = [one, other].map((key) => rows.findIndex((row) => row.key === key));
  if (ends.includes(-1)) return rows.filter((row) => row.key === other);
  return rows.slice(Math.min(...ends), Math.max(...ends) + 1);
}
