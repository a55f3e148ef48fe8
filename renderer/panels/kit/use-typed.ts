// A field that people type in: what stands in it until it is taken, and why it was not. Enter or leaving takes it, Escape
// puts back what was there. What is refused stays, and is not asked about again until it is changed; where its field goes
// away meanwhile, a notice says what was not taken.

import { type ChangeEvent, type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { App } from '../../state/app.ts';
import { useApp } from '../../state/react.ts';

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

interface Standing {
  readonly typed: string | null;
  readonly problem: string | null;
}

const NOTHING: Standing = { typed: null, problem: null };

/** `take` sets what was typed, or gives the sentence that says why not. `label` names the field in a notice. */
export function useTyped(label: string, take: (text: string) => string | null): Typed {
  const app = useApp();
  const [standing, setStanding] = useState<Standing>(NOTHING);
  // What stands there at this moment: a field may be taken away by the very edit that it makes.
  const live = useRef<Standing>(NOTHING);
  const named = useRef(label);
  useEffect(() => {
    named.current = label;
  }, [label]);
  useEffect(
    () => () => {
      const { typed, problem } = live.current;
      if (typed !== null) app.say(notTaken(named.current, typed, problem), 'problem');
    },
    [app],
  );

  function put(next: Standing): void {
    live.current = next;
    setStanding(next);
  }

  function give(): void {
    const { typed, problem } = live.current;
    if (typed === null || problem !== null) return;
    put(NOTHING);
    const why = take(typed);
    if (why !== null) put({ typed, problem: why });
  }

  return {
    ...standing,
    input: {
      ...(standing.typed === null ? { 'data-settled': '' as const } : {}),
      onChange: ({ target }) => put({ typed: target.value, problem: null }),
      onBlur: give,
      onKeyDown: (event) => {
        if (event.key === 'Enter') give();
        if (event.key !== 'Escape' || live.current.typed === null) return;
        // A dialog round it stays open.
        event.preventDefault();
        event.stopPropagation();
        put(NOTHING);
      },
    },
  };
}

function notTaken(label: string, typed: string, problem: string | null): string {
  return `${label}: “${typed}” was not taken.${problem === null ? '' : ` ${problem}`}`;
}

/** Does what `set` does. The sentence that it said where it gives `false`, as `app.commit` does where it refuses; else null. */
export function refusalOf(app: App, set: () => unknown): string | null {
  const last = (): ReturnType<App['store']['get']>['notices'][number] | undefined =>
    app.store.get().notices.at(-1);
  const before = last();
  if (set() !== false) return null;
  const said = last();
  return said === undefined || said === before ? 'This could not be done.' : said.words;
}
