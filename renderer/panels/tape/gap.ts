// Whether walls that were just drawn or moved, or are chosen, nearly meet another: then closing the gap is offered.

import { lookup } from '../../../core/plan/index.ts';
import type { ToolContext } from '../../tools/types.ts';

/** In words, with the gap; null where nothing near is open. From the walk's own notes. RULES: WK18. */
export function gapNear({ walk, level, selection, recent, figures }: ToolContext): string | null {
  const near = new Set<string>([...recent, ...selection.map(({ id }) => id)]);
  for (const note of walk.notes) {
    if (note.kind !== 'not-closed' || note.gap === null) continue;
    const own = note.about.some((id) => {
      const wall = lookup(level.walls, id as keyof typeof level.walls);
      return near.has(id) || (wall !== undefined && (near.has(wall.from) || near.has(wall.to)));
    });
    if (own) return `Close the gap of ${figures.length(note.gap)} between walls that nearly meet`;
  }
  return null;
}
