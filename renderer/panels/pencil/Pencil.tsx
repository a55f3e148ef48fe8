// The red pencil: what is wrong with the trim, worst first. A finding opens in place: its sentence, what the trade would
// do, and what one click can do. Opening it shows it on the sheet.

import { useEffect, useRef, useState } from 'react';
import type { Finding, Severity } from '../../../core/fit/index.ts';
import type { Derived } from '../../../core/report/index.ts';
import { flagFindings } from '../../../core/sheets/plan-options.ts';
import { SEVERITY_WORDS } from '../../../core/sheets/words.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { shownOf } from '../../state/selectors.ts';
import { useTip } from '../kit/CommandButton.tsx';
import { stepFinding } from './actions.ts';
import { CODE_WORDS, findingKey, groupsOf, placeWords } from './findings.ts';
import { Remedies } from './Remedies.tsx';
import { openFinding } from './show.ts';
import './pencil.css';

/** So many of a group are drawn before the rest is asked for. */
const MOST_DRAWN = 60;

export function Pencil() {
  const app = useApp();
  const shown = usePicked(shownOf);
  const pending = usePicked(({ solution }) => solution.state === 'pending');
  const tip = useTip();
  if (shown === null) return null;
  const { findings } = shown;
  const groups = groupsOf(findings);
  const letters = lettersOf(shown);
  return (
    <section className="pencil" aria-labelledby="pencil-title">
      <header className="pencil-head">
        <h2 id="pencil-title">Red pencil</h2>
        <p className="pencil-counts">
          {groups.map(({ severity, findings: own }) => (
            <span
              key={severity}
              className={`pencil-count pencil-${severity}`}
              title={`${own.length} to ${severity === 'look' ? 'look at' : severity}`}
            >
              <SeverityMark severity={severity} /> {own.length} <span className="unseen">{severity}</span>
            </span>
          ))}
        </p>
        {findings.length === 0 ? null : (
          <span className="pencil-steps">
            <button
              type="button"
              aria-label="Previous finding"
              title="Previous finding"
              onClick={() => stepFinding(app, -1)}
            >
              ‹
            </button>
            <button
              type="button"
              data-focus
              aria-label="Next finding"
              title={tip('trim.nextFinding')}
              onClick={() => stepFinding(app, 1)}
            >
              ›
            </button>
          </span>
        )}
      </header>
      {pending ? (
        <p className="pencil-pending soft">Scribes and boards are being worked out; their findings follow.</p>
      ) : null}
      {findings.length === 0 ? <Nothing shown={shown} /> : null}
      {groups.map(({ severity, findings: own }) => (
        <Group key={severity} severity={severity} findings={own} shown={shown} letters={letters} />
      ))}
    </section>
  );
}

/** The letters of the flags on the sheet, level by level. */
function lettersOf({ findings, levels }: Derived): ReadonlyMap<Finding, string> {
  return new Map(
    levels.flatMap(({ walk }) =>
      flagFindings(findings, walk.levelId).map(({ finding, letter }) => [finding, letter] as const),
    ),
  );
}

function Nothing({ shown }: { readonly shown: Derived }) {
  const boards = shown.report.pieces.length;
  return (
    <p className="pencil-none soft" data-focus tabIndex={-1}>
      {boards === 0
        ? 'Nothing to mark yet: no room carries trim.'
        : 'Nothing is marked. Every check that could be made has passed.'}
    </p>
  );
}

interface GroupProps {
  readonly severity: Severity;
  readonly findings: readonly Finding[];
  readonly shown: Derived;
  readonly letters: ReadonlyMap<Finding, string>;
}

function Group({ severity, findings, shown, letters }: GroupProps) {
  const [all, setAll] = useState(false);
  const open = usePicked((state) => state.finding);
  const drawn = all
    ? findings
    : findings.filter((each, at) => at < MOST_DRAWN || findingKey(each, shown) === open);
  return (
    <section className="pencil-group" aria-labelledby={`pencil-${severity}`}>
      <h3 id={`pencil-${severity}`}>
        {SEVERITY_WORDS[severity].one}
        <span className="pencil-means">{SEVERITY_WORDS[severity].means}</span>
      </h3>
      <ol>
        {drawn.map((finding) => {
          const key = findingKey(finding, shown);
          return (
            <Row
              key={`${key}|${finding.message}`}
              finding={finding}
              shown={shown}
              letter={letters.get(finding) ?? null}
              isOpen={key === open}
            />
          );
        })}
      </ol>
      {drawn.length < findings.length ? (
        <button
          type="button"
          className="plain"
          title="Long lists are drawn in parts"
          onClick={() => setAll(true)}
        >
          Show all {findings.length}
        </button>
      ) : null}
    </section>
  );
}

interface RowProps {
  readonly finding: Finding;
  readonly shown: Derived;
  /** Of its flag on the sheet. */
  readonly letter: string | null;
  readonly isOpen: boolean;
}

function Row({ finding, shown, letter, isOpen }: RowProps) {
  const app = useApp();
  const level = usePicked((state) => state.level);
  const row = useRef<HTMLLIElement>(null);
  useEffect(() => {
    if (isOpen) row.current?.scrollIntoView({ block: 'nearest' });
  }, [isOpen]);
  return (
    <li ref={row} className={isOpen ? 'pencil-row open' : 'pencil-row'}>
      <button
        type="button"
        className="plain pencil-line"
        aria-expanded={isOpen}
        data-finding={findingKey(finding, shown)}
        title={isOpen ? 'Fold away' : 'Show it on the sheet'}
        onClick={() => (isOpen ? app.change(() => ({ finding: null })) : openFinding(app, finding))}
      >
        <span className={`pencil-${finding.severity}`}>
          <SeverityMark severity={finding.severity} />
          <span className="unseen">{finding.severity}: </span>
        </span>
        <span className="pencil-what">{CODE_WORDS[finding.code]}</span>
        <span className="pencil-where soft">
          {placeWords(finding, shown, level)}
          {letter === null ? null : (
            <b className="pencil-letter">
              <span className="unseen">, flag </span>
              {letter}
            </b>
          )}
        </span>
        <span className="pencil-message">{finding.message}</span>
      </button>
      {isOpen ? <Remedies finding={finding} /> : null}
    </li>
  );
}

/** A square to stop at, a triangle to mend, a ring to look at: told apart without colour. */
export function SeverityMark({ severity }: { readonly severity: Severity }) {
  return (
    <svg className="pencil-mark" viewBox="0 0 12 12" aria-hidden="true">
      {severity === 'stop' ? <path d="M3.5 1h5L11 3.5v5L8.5 11h-5L1 8.5v-5z" /> : null}
      {severity === 'fix' ? <path d="M6 1.2 11.2 10.7H.8z" className="hollow" /> : null}
      {severity === 'look' ? <circle cx="6" cy="6" r="4.2" className="hollow" /> : null}
    </svg>
  );
}
