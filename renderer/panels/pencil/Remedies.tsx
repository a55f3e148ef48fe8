// What to do about the open finding: what the trade would do, in words, and what one click can do here. Each edit is
// tried in memory, one after the other and never before the finding is on the screen, so that opening it stays quick.

import { useEffect, useRef, useState } from 'react';
import type { Finding } from '../../../core/fit/index.ts';
import type { Derived } from '../../../core/report/index.ts';
import { drawNow } from '../../app/draw-now.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { shownOf } from '../../state/selectors.ts';
import { findingKey, neighbour } from './findings.ts';
import { candidatesOf, outcomeWords, type TriedRemedy, tried } from './remedies.ts';
import type { EditRemedy } from './remedy.ts';
import { goTo, openFinding } from './show.ts';

/** Nothing is tried before the finding has been open, and the plan unchanged, for so long. */
const QUIET_MS = 120;

/** In a plan so large that one try takes longer, ms, the rest is tried when it is asked for. */
const SLOW_MS = 250;

interface Tries {
  readonly of: Finding;
  readonly offered: readonly TriedRemedy[];
  readonly left: number;
  /** Not tried yet, and not tried by itself. */
  readonly untried: readonly EditRemedy[];
}

/** Tries the candidates one task at a time. */
function useTries(finding: Finding, derived: Derived | null): Tries | null {
  const [tries, setTries] = useState<Tries | null>(null);
  useEffect(() => {
    if (derived === null) return;
    let timer: ReturnType<typeof setTimeout>;
    const candidates = candidatesOf(finding, derived);
    const offered: TriedRemedy[] = [];
    const next = (at: number): void => {
      setTries({ of: finding, offered: [...offered], left: candidates.length - at, untried: [] });
      const candidate = candidates[at];
      if (candidate === undefined) return;
      timer = setTimeout(() => {
        const start = performance.now();
        const done = tried(candidate, finding, derived);
        const slow = performance.now() - start > SLOW_MS;
        if (done !== null && !offered.some(({ words }) => words === done.words)) offered.push(done);
        if (slow) {
          const rest = candidates.slice(at + 1);
          const go = rest.filter((each) => each.kind === 'go');
          const untried = rest.filter((each) => each.kind === 'edit');
          setTries({ of: finding, offered: [...offered, ...go], left: 0, untried });
        } else next(at + 1);
      }, 0);
    };
    // A finding that is only passed by, or a plan that still changes, costs nothing.
    timer = setTimeout(() => next(0), QUIET_MS);
    return () => clearTimeout(timer);
  }, [finding, derived]);
  return tries?.of === finding ? tries : null;
}

export function Remedies({ finding }: { readonly finding: Finding }) {
  const app = useApp();
  const derived = usePicked(({ open }) => open?.derived ?? null);
  const tries = useTries(finding, derived);
  const box = useRef<HTMLDivElement>(null);

  function take(remedy: TriedRemedy): void {
    if (remedy.kind === 'go') {
      goTo(app, remedy, finding);
      return;
    }
    const before = shownOf(app.store.get());
    const following = before === null ? null : neighbour(before.findings, finding, 1);
    const root = box.current?.closest('.pencil');
    const { selection } = app.store.get();
    if (!app.commit(remedy.edit, { words: lowered(remedy.words), select: selection })) return;
    app.say(`Done: ${lowered(remedy.words)}. ${outcomeWords(remedy)}`);
    // The finding goes, and with it the button that had the focus: the next one takes its place.
    const after = shownOf(app.store.get());
    if (after === null || following === null || before === null) return;
    const key = findingKey(following, before);
    const same = after.findings.find((each) => findingKey(each, after) === key);
    // One on another level would take the sheet away from what was just mended.
    const here = same?.level == null || same.level === app.store.get().level;
    if (same !== undefined && same !== finding && here) openFinding(app, same);
    drawNow();
    const rows = root?.querySelectorAll<HTMLElement>('[data-finding]') ?? [];
    const row = [...rows].find((each) => each.dataset.finding === key);
    (row ?? root?.querySelector<HTMLElement>('[data-focus]'))?.focus();
  }

  function tryAndTake(remedy: EditRemedy): void {
    const done = derived === null ? null : tried(remedy, finding, derived);
    if (done === null) app.say(`“${remedy.words}” would not help here: it was tried and left as it was.`);
    else take(done);
  }

  const some = tries !== null && tries.offered.length + tries.left + tries.untried.length > 0;
  return (
    <div ref={box} className="pencil-more">
      {some ? (
        <>
          <h4>With one click</h4>
          <ul className="pencil-remedies">
            {tries.offered.map((remedy) => (
              <li key={remedy.words}>
                <button
                  type="button"
                  title={
                    remedy.kind === 'go'
                      ? `${remedy.words}: changes nothing`
                      : `${remedy.words}. Undo takes it back.`
                  }
                  onClick={() => take(remedy)}
                >
                  {remedy.words}
                  {remedy.kind === 'go' ? '…' : ''}
                </button>
                {remedy.kind === 'edit' ? <p className="soft">{outcomeWords(remedy)}</p> : null}
              </li>
            ))}
            {tries.untried.map((remedy) => (
              <li key={remedy.words}>
                <button
                  type="button"
                  title={`${remedy.words}. It is tried first. Undo takes it back.`}
                  onClick={() => tryAndTake(remedy)}
                >
                  {remedy.words}
                </button>
                <p className="soft">Tried when you choose it.</p>
              </li>
            ))}
            {tries.left > 0 ? <li className="soft">Trying what would help…</li> : null}
          </ul>
        </>
      ) : null}
      {finding.remedies.length === 0 ? null : (
        <>
          <h4>In the trade</h4>
          <ul className="pencil-trade">
            {finding.remedies.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}

function lowered(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}
