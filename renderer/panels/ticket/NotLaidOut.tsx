// Lines that are chosen but get no boards: the plan keeps them, and the ticket says what that means.

import type { TrimLine } from '../../../core/plan/index.ts';
import { isOnlyNamed, onlyNamedWords } from './laid-out.ts';
import { Why } from './parts.tsx';

/** `lines`: those that are chosen here. */
export function NotLaidOut({ lines }: { readonly lines: readonly TrimLine[] }) {
  const named = lines.filter(isOnlyNamed);
  return named.length === 0 ? null : <Why>{onlyNamedWords(named)}</Why>;
}
