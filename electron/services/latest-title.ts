// The title a plan has after edits, read from the edits alone, so that kept work is offered under the name its user knows
// without doing it all again.

import type { Edit } from '../../core/edit/index.ts';

/** The last title that these edits set, oldest first; `before` where none does. */
export function latestTitle(edits: readonly Edit[], before: string): string {
  let title = before;
  for (const edit of edits) title = titleSetBy(edit) ?? title;
  return title;
}

function titleSetBy(edit: Edit): string | null {
  switch (edit.type) {
    case 'setPlan':
      return edit.set.title ?? null;
    case 'several':
      return edit.edits.map(titleSetBy).findLast((each) => each !== null) ?? null;
    case 'patch': {
      const patch = edit.patches.findLast(({ path }) => path.length === 1 && path[0] === 'title');
      return patch !== undefined && 'value' in patch && typeof patch.value === 'string' ? patch.value : null;
    }
    default:
      return null;
  }
}
