// The rows of a room's survey: a corner's angle, a wall's length and its stretches, each drawn beside measured with the
// difference; readings along a wall; the casings of its openings.

import type { ReactNode } from 'react';
import { lookup } from '../../../core/plan/index.ts';
import { formatAngle } from '../../../core/units/index.ts';
import { type Ref, refKey } from '../../state/refs.ts';
import { FigureField } from '../kit/FigureField.tsx';
import { ABOVE_ZERO, CORNER_ANGLE } from '../kit/range.ts';
import { setCasing, setReadings, setStretch } from '../ticket/edits.ts';
import { ProfileChoice, Readings } from '../ticket/fields.tsx';
import type { TicketContext } from '../ticket/parts.tsx';
import type { Survey, SurveyFace } from './survey.ts';

export function Round({
  context,
  survey,
  floors,
  lines,
  down,
}: {
  readonly context: TicketContext;
  readonly survey: Survey;
  readonly floors: boolean;
  readonly lines: boolean;
  readonly down: boolean;
}) {
  const { app, level, figures } = context;
  const on = level.walk.levelId;
  return survey.items.map((item) => {
    if (item.kind === 'corner') {
      const off = item.measured === null ? null : item.measured - item.drawn;
      return (
        <SurveyRow
          key={item.corner.key}
          of={{ kind: 'corner', level: on, id: item.corner.key }}
          sign={String(item.corner.number ?? '–')}
          words={item.corner.kind}
          drawn={formatAngle(item.drawn)}
          off={off === null ? null : signed(formatAngle(Math.abs(off)), off)}
          odd={item.odd}
        >
          <FigureField
            label={`${item.words}, angle`}
            range={CORNER_ANGLE}
            figures={figures}
            takes="angle"
            value={item.measured}
            mayBeEmpty
            onSet={(measured) =>
              app.commit({ type: 'setCorner', level: on, corner: item.corner.key, set: { measured } })
            }
          />
        </SurveyRow>
      );
    }
    const { segment } = item;
    const ref: Ref = { kind: 'segment', level: on, id: segment.key };
    return (
      <div key={segment.key} className="measure-wall">
        <LengthRow
          context={context}
          of={ref}
          item={item}
          label={`${item.words}, corner to corner`}
          onSet={(measured) =>
            app.commit({ type: 'setFace', level: on, face: segment.key, set: { measured } })
          }
        />
        {item.stretches.map((each) => (
          <LengthRow
            key={each.key}
            context={context}
            of={ref}
            item={each}
            label={each.words}
            inner
            onSet={(measured) => app.commit(setStretch(on, segment.key, each.key, measured))}
          />
        ))}
        {floors && !item.narrow ? <Along context={context} item={item} which="floor" down={down} /> : null}
        {lines && !item.narrow ? <Along context={context} item={item} which="line" down={false} /> : null}
      </div>
    );
  });
}

function Along({
  context: { app, figures, level },
  item: { segment, words },
  which,
  down,
}: {
  readonly context: TicketContext;
  readonly item: SurveyFace;
  readonly which: 'floor' | 'line';
  readonly down: boolean;
}) {
  return (
    <div className="measure-along">
      <span className="soft">{which === 'floor' ? 'floor' : 'old line'}</span>
      <Readings
        what={`${words}, ${which === 'floor' ? 'floor' : 'old line'}`}
        figures={figures}
        readings={segment.record?.[which] ?? []}
        down={down}
        onSet={(readings) => app.commit(setReadings(level.walk.levelId, segment.key, which, readings))}
      />
    </div>
  );
}

function LengthRow({
  context: { figures },
  of,
  item,
  label,
  inner = false,
  onSet,
}: {
  readonly context: TicketContext;
  readonly of: Ref;
  readonly item: {
    readonly drawn: number;
    readonly measured: number | null;
    readonly odd: boolean;
    readonly words: string;
  };
  readonly label: string;
  readonly inner?: boolean;
  readonly onSet: (value: number | null) => boolean;
}) {
  const off = item.measured === null ? null : item.measured - item.drawn;
  return (
    <SurveyRow
      of={of}
      words={item.words}
      inner={inner}
      drawn={figures.length(item.drawn)}
      off={off === null ? null : signed(figures.fine(Math.abs(off)), off)}
      odd={item.odd}
    >
      <FigureField
        range={ABOVE_ZERO}
        label={label}
        figures={figures}
        takes="length"
        value={item.measured}
        mayBeEmpty
        onSet={onSet}
      />
    </SurveyRow>
  );
}

const signed = (words: string, value: number): string =>
  /[1-9¼½¾]/.test(words) ? `${value < 0 ? '−' : '+'}${words}` : '0';

function SurveyRow({
  of,
  sign,
  words,
  inner = false,
  drawn,
  off,
  odd,
  children,
}: {
  readonly of: Ref;
  readonly sign?: string;
  readonly words: string;
  readonly inner?: boolean;
  readonly drawn: string;
  readonly off: string | null;
  readonly odd: boolean;
  readonly children: ReactNode;
}) {
  return (
    <div className={`measure-row${inner ? ' measure-inner' : ''}`} data-of={refKey(of)}>
      <span className="measure-name">
        {sign === undefined ? null : <span className="measure-sign">{sign}</span>}
        {words}
      </span>
      <span className="measure-drawn">{drawn}</span>
      {children}
      <span className={odd ? 'measure-off measure-odd' : 'measure-off'}>
        {off}
        {odd ? <span className="unseen">, differs much from the drawing</span> : null}
      </span>
    </div>
  );
}

export function Casings({ context, survey }: { readonly context: TicketContext; readonly survey: Survey }) {
  const { app, plan, figures, level } = context;
  const used = [
    ...new Map(
      survey.casings.flatMap(({ on }) =>
        on.casing == null ? [] : [[on.casing.id, on.casing.profile] as const],
      ),
    ),
  ];
  if (survey.casings.length === 0) return null;
  return (
    <>
      <h3>Casings</h3>
      {survey.casings.map(({ id, side, words, on }) => (
        <ProfileChoice<'unknown' | 'none'>
          key={`${id}.${side}`}
          label={words}
          plan={plan}
          kind="casing"
          value={on.casing === undefined ? 'unknown' : (on.casing?.id ?? 'none')}
          others={[
            { value: 'unknown', words: 'not known yet' },
            { value: 'none', words: 'none' },
          ]}
          onSet={(choice) => {
            const opening = lookup(level.walk.level.openings, id);
            if (opening !== undefined)
              app.commit(setCasing(level.walk.levelId, id, opening, side, choice as never));
          }}
        />
      ))}
      {used.map(([id, profile]) => (
        <FigureField
          key={id}
          label={`${profile.name === '' ? id : profile.name}, outer edge thick`}
          range={ABOVE_ZERO}
          figures={figures}
          takes="length"
          value={profile.edgeThickness ?? profile.thickness}
          shown={figures.fine(profile.edgeThickness ?? profile.thickness)}
          onSet={(edgeThickness) =>
            app.commit({ type: 'changeProfile', profile: id, set: { edgeThickness: edgeThickness! } })
          }
        />
      ))}
    </>
  );
}
