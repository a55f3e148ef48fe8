// What every ticket is made of: its heading, parts with small headings, facts in two columns beside the fields, reasons,
// and the way to another thing.

import { type ReactNode, useEffect, useRef } from 'react';
import type { Finding } from '../../../core/fit/index.ts';
import type { Plan } from '../../../core/plan/index.ts';
import type { Derived, DerivedLevel } from '../../../core/report/index.ts';
import type { App } from '../../state/app.ts';
import { useApp } from '../../state/react.ts';
import type { Ref } from '../../state/refs.ts';
import type { Figures } from '../kit/figures.ts';
import { showOnSheet } from '../walk/show.ts';

/** What a ticket is given beside its thing. */
export interface TicketContext {
  readonly app: App;
  readonly shown: Derived;
  readonly plan: Plan;
  readonly level: DerivedLevel;
  readonly figures: Figures;
}

/** The first thing of a ticket. `sign` is printed in a ring, as on the sheet. */
export function Head({
  title,
  under,
  sign,
}: {
  readonly title: string;
  readonly under?: ReactNode;
  readonly sign?: { readonly words: string; readonly square: boolean };
}) {
  return (
    <header className="ticket-head">
      {sign === undefined ? null : (
        <span className={sign.square ? 'ticket-sign ticket-sign-square' : 'ticket-sign'} aria-hidden="true">
          {sign.words}
        </span>
      )}
      <div>
        <h2 id="ticket-title" tabIndex={-1} data-focus="">
          {title}
        </h2>
        {under === undefined ? null : <p className="soft">{under}</p>}
      </div>
    </header>
  );
}

export function Part({
  title,
  aside,
  children,
}: {
  readonly title: string;
  readonly aside?: ReactNode;
  readonly children: ReactNode;
}) {
  return (
    <section className="ticket-part">
      <div className="ticket-part-head">
        <h3>{title}</h3>
        {aside}
      </div>
      {children}
    </section>
  );
}

export function Fact({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    <div className="field ticket-fact">
      <span className="soft">{label}</span>
      <span className="ticket-value">{children}</span>
    </div>
  );
}

/** Why something is as it is: one sentence. */
export function Why({ children }: { readonly children: ReactNode }) {
  return <p className="ticket-why">{children}</p>;
}

/** Goes to another thing. */
export function ThingLink({ to, children }: { readonly to: Ref; readonly children: ReactNode }) {
  const app = useApp();
  return (
    <button
      type="button"
      className="ticket-link"
      title="Go there"
      onClick={() => {
        app.select([to]);
        showOnSheet(app, to);
      }}
    >
      {children}
    </button>
  );
}

/** A box to tick, beside the fields. */
export function Tick({
  label,
  on,
  disabled,
  title = label,
  onSet,
}: {
  readonly label: string;
  readonly on: boolean;
  readonly disabled?: boolean;
  /** What it is for, as a tooltip; its label where not given. */
  readonly title?: string;
  readonly onSet: (on: boolean) => void;
}) {
  return (
    <label className="ticket-tick" title={title}>
      <input
        type="checkbox"
        checked={on}
        disabled={disabled}
        onChange={({ target }) => onSet(target.checked)}
      />
      <span>{label}</span>
    </label>
  );
}

/** What the red pencil says of this thing. */
export function Pencilled({ findings }: { readonly findings: readonly Finding[] }) {
  if (findings.length === 0) return null;
  return (
    <Part title="Red pencil">
      <ul className="ticket-findings">
        {findings.map(({ code, severity, message, remedies }, index) => (
          <li key={`${code} ${index}`} className={`ticket-finding-${severity}`}>
            <strong>{severity}</strong> {message}
            {remedies[0] === undefined ? null : <span className="soft"> {remedies[0]}</span>}
          </li>
        ))}
      </ul>
    </Part>
  );
}

/** Keeps the ticket at its top when another thing is chosen. */
export function useTopOf(key: string): React.RefObject<HTMLElement | null> {
  const box = useRef<HTMLElement>(null);
  useEffect(() => {
    if (key !== '' && box.current !== null) box.current.scrollTop = 0;
  }, [key]);
  return box;
}
