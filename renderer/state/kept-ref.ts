// A thing that a panel keeps for itself, beside what is chosen in the window: through edits it goes by the name it has now.

import { useState } from 'react';
import type { Derived } from '../../core/report/index.ts';
import type { Ref } from './refs.ts';
import { refNow } from './same-room.ts';

/** What is kept, in `shown`, and how to keep another. `first`: what is kept to begin with. */
export function useKeptRef(
  shown: Pick<Derived, 'levels'> | null,
  first: () => Ref | null,
): readonly [kept: Ref | null, keep: (ref: Ref | null) => void] {
  const [{ ref, of }, setKept] = useState(() => ({ ref: first(), of: shown }));
  const now = ref === null || of === null || shown === null ? ref : refNow(ref, of, shown);
  if (of !== shown) setKept({ ref: now, of: shown });
  return [now, (next) => setKept({ ref: next, of: shown })];
}
