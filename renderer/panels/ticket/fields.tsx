// Fields that several tickets have: which profile, and a list of readings along a face.

import { useState } from 'react';
import { type Plan, type Profile, type ProfileId, sortedEntries } from '../../../core/plan/index.ts';
import { Choice } from '../kit/Choice.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import type { Figures } from '../kit/figures.ts';
import type { Reading } from './edits.ts';

/** A profile of one kind, or one of the other answers. */
export function ProfileChoice<V extends string>({
  label,
  plan,
  kind,
  value,
  others,
  onSet,
}: {
  readonly label: string;
  readonly plan: Plan;
  readonly kind: Profile['kind'];
  readonly value: V | ProfileId;
  readonly others: readonly { readonly value: V; readonly words: string }[];
  readonly onSet: (value: V | ProfileId) => unknown;
}) {
  const profiles = sortedEntries(plan.profiles).filter(([, profile]) => profile.kind === kind);
  // A profile could be named like one of the other answers: its value carries a mark that no id has.
  const marked = (id: string): string => `:${id}`;
  const standing = others.some((each) => each.value === value) ? value : marked(value);
  return (
    <Choice<string>
      label={label}
      value={standing}
      of={[
        ...others,
        ...profiles.map(([id, { name }]) => ({ value: marked(id), words: name === '' ? id : name })),
      ]}
      onSet={(chosen) => onSet((chosen.startsWith(':') ? chosen.slice(1) : chosen) as V | ProfileId)}
    />
  );
}

export function Readings({
  what,
  figures,
  readings,
  down = false,
  onSet,
}: {
  readonly what: string;
  readonly figures: Figures;
  readonly readings: readonly Reading[];
  /** Heights are typed as they are read: down from the laser. */
  readonly down?: boolean;
  readonly onSet: (readings: readonly Reading[]) => unknown;
}) {
  const [next, setNext] = useState<{ at: number | null; height: number | null; turn: number }>({
    at: null,
    height: null,
    turn: 0,
  });
  const turned = (height: number): number => (down && height !== 0 ? -height : height);
  const [at, high] = down ? ['from the left', 'down'] : ['at', 'height'];
  const put = (index: number, change: Partial<Reading>): unknown =>
    onSet(readings.map((each, at) => (at === index ? { ...each, ...change } : each)));
  const add = (part: { at?: number | null; height?: number | null }): unknown => {
    const now = { ...next, ...part };
    if (now.at === null || now.height === null) {
      setNext(now);
      return true;
    }
    const done = onSet([...readings, { at: now.at, height: turned(now.height) }]);
    if (done !== false) setNext({ at: null, height: null, turn: next.turn + 1 });
    return done;
  };
  return (
    <fieldset className="ticket-readings">
      <legend className="unseen">{what}</legend>
      {readings.map(({ at: place, height }, index) => (
        <div className="ticket-reading" key={index}>
          <FigureField
            label={`${what} ${index + 1}, ${at}`}
            figures={figures}
            takes="length"
            value={place}
            onSet={(value) => put(index, { at: value! })}
          />
          <FigureField
            label={`${what} ${index + 1}, ${high}`}
            figures={figures}
            takes="length"
            value={turned(height)}
            shown={figures.fine(turned(height))}
            onSet={(value) => put(index, { height: turned(value!) })}
          />
          <button
            type="button"
            className="plain"
            aria-label={`Remove ${what} ${index + 1}`}
            title="Remove this reading"
            onClick={() => onSet(readings.filter((_, each) => each !== index))}
          >
            ×
          </button>
        </div>
      ))}
      <div className="ticket-reading ticket-reading-next" key={`next ${next.turn}`}>
        <FigureField
          label={`Next ${what}, ${at}`}
          figures={figures}
          takes="length"
          value={next.at}
          placeholder={at}
          mayBeEmpty
          onSet={(value) => add({ at: value })}
        />
        <FigureField
          label={`Next ${what}, ${high}`}
          figures={figures}
          takes="length"
          value={next.height}
          placeholder={high}
          mayBeEmpty
          onSet={(height) => add({ height })}
        />
        <span />
      </div>
    </fieldset>
  );
}
