// One sentence in red where the trouble is, read out by the window's one polite live region as it comes up. Nothing is
// shown for null.

import { type ReactNode, useEffect } from 'react';
import { useApp } from '../../state/react.ts';

/** Has words read out when they come up or change; empty words are silent. */
export function useSpoken(words: string): void {
  const app = useApp();
  useEffect(() => {
    if (words === '') return undefined;
    app.change(() => ({ spoken: words }));
    return () => app.change(({ spoken }) => (spoken === words ? { spoken: '' } : {}));
  }, [app, words]);
}

export function Problem({
  words,
  className = 'wrong',
  children,
}: {
  readonly words: string | null;
  readonly className?: string;
  /** What can be done about it, after the words. */
  readonly children?: ReactNode;
}) {
  useSpoken(words ?? '');
  return words === null || words === '' ? null : (
    <p className={className}>
      {words} {children}
    </p>
  );
}
