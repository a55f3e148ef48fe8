// A field that people type in: what stands in it until it is taken, and why it was not. Enter or leaving takes it, Escape
// puts back what was there. What is refused stays, and is not asked about again until it is changed.

import { type ChangeEvent, type KeyboardEvent, useState } from 'react';

export interface Typed {
  /** What is being typed; null: the field shows what is set. */
  readonly typed: string | null;
  /** Why it was not taken, in one sentence. */
  readonly problem: string | null;
  /** For the input itself. */
  readonly input: {
    onChange(event: ChangeEvent<HTMLInputElement>): void;
    onBlur(): void;
    onKeyDown(event: KeyboardEvent): void;
    /** Nothing is half typed: the keys that take back are then the plan's. */
    'data-settled'?: '';
  };
}

/** `take` sets what was typed, or gives the sentence that says why not. */
export function useTyped(take: (text: string) => string | null): Typed {
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);

  function give(): void {
    if (typed === null || problem !== null) return;
    const why = take(typed);
    setProblem(why);
    if (why === null) setTyped(null);
  }

  return {
    typed,
    problem,
    input: {
      ...(typed === null ? { 'data-settled': '' as const } : {}),
      onChange: ({ target }) => {
        setTyped(target.value);
        setProblem(null);
      },
      onBlur: give,
      onKeyDown: (event) => {
        if (event.key === 'Enter') give();
        if (event.key !== 'Escape' || typed === null) return;
        // A dialog round it stays open.
        event.preventDefault();
        event.stopPropagation();
        setTyped(null);
        setProblem(null);
      },
    },
  };
}
