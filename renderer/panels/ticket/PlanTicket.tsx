// Nothing is chosen: the plan and the level that is shown, and what the job comes to.

import { capital } from '../../../core/fit/say.ts';
import { LINE_NAMES } from '../../../core/plan/kinds.ts';
import { knownSum, orderSums, type Solved, sumWords } from '../../../core/report/index.ts';
import { ticksFromMm } from '../../../core/units/index.ts';
import { usePicked } from '../../state/react.ts';
import { Choice } from '../kit/Choice.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { ABOVE_ZERO, STUD_SPACING } from '../kit/range.ts';
import { TextField } from '../kit/TextField.tsx';
import { YearField } from '../kit/YearField.tsx';
import { LINE_ORDER } from './lines.ts';
import { Fact, Head, Part, type TicketContext, Why } from './parts.tsx';
import { counted, levelWords } from './say.ts';

export function PlanTicket({
  context,
  solved,
}: {
  readonly context: TicketContext;
  readonly solved: Solved | null;
}) {
  const { app, shown, plan, figures, level } = context;
  const plain = level.walk.level;
  const { totals } = shown.report;
  const { rooms } = level.walk;
  const count = { stop: 0, fix: 0, look: 0 };
  for (const { severity } of shown.findings) count[severity] += 1;
  const sums = orderSums(solved?.report.purchase ?? []).boards;
  const pending = usePicked(({ solution }) => solution.state === 'pending');
  const stage = usePicked((state) => state.stage);
  const parts = (
    <>
      <Part title="Plan">
        <TextField
          label="Title"
          value={plan.title}
          onSet={(title) => app.commit({ type: 'setPlan', set: { title } })}
        />
        <YearField
          value={plan.builtYear ?? null}
          onSet={(builtYear) => app.commit({ type: 'setPlan', set: { builtYear } })}
        />
        <Choice<'imperial' | 'metric'>
          label="Units"
          value={plan.units}
          of={[
            { value: 'imperial', words: 'feet and inches' },
            { value: 'metric', words: 'millimetres' },
          ]}
          onSet={(units) => app.commit({ type: 'setPlan', set: { units } })}
        />
        <FigureField
          label="Stud spacing"
          range={STUD_SPACING}
          figures={figures}
          takes="length"
          value={plan.studs?.spacing ?? null}
          placeholder="not known"
          mayBeEmpty
          onSet={(spacing) =>
            app.commit({ type: 'setPlan', set: { studs: spacing === null ? null : { spacing } } })
          }
        />
      </Part>
      <Part title={`Level: ${levelWords(shown, level)}`}>
        <TextField
          label="Name"
          value={plain.name}
          onSet={(name) => app.commit({ type: 'changeLevel', level: plain.id, set: { name } })}
        />
        <FigureField
          label="Ceiling height"
          range={ABOVE_ZERO}
          figures={figures}
          takes="length"
          value={plain.ceilingHeight}
          onSet={(height) =>
            app.commit({ type: 'changeLevel', level: plain.id, set: { ceilingHeight: height! } })
          }
        />
        <Fact label="Drawn">
          {counted(Object.keys(plain.walls).length, 'wall')}, {counted(rooms.length, 'room')},{' '}
          {counted(Object.keys(plain.openings).length, 'opening')}
        </Fact>
      </Part>
      <Part title="The whole job">
        {LINE_ORDER.flatMap((line) => {
          const total = totals[line];
          if (typeof total !== 'object' || total.pieces === 0) return [];
          return [
            <Fact key={line} label={capital(LINE_NAMES[line])}>
              {counted(total.pieces, 'board')}, {figures.length(ticksFromMm(total.lengthMm))}
            </Fact>,
          ];
        })}
        {shown.report.pieces.length === 0 ? <p className="soft">No trim yet: give rooms a base.</p> : null}
        {solved === null ? (
          <Fact label="Boards to buy">{pending ? 'being worked out…' : 'not worked out'}</Fact>
        ) : (
          <Fact label="Boards to buy">
            {solved.report.purchase.reduce((sum, each) => sum + each.count, 0)}
            {(knownSum(sums) ?? 0) > 0 ? `, ${sumWords(sums)}` : ''}
          </Fact>
        )}
        <Fact label="Red pencil">
          {count.stop} stop, {count.fix} fix, {count.look} look
        </Fact>
        {plan.builtYear === undefined ? (
          <Why>Without the year the house was built, the cautions for old paint and floors stay.</Why>
        ) : null}
      </Part>
    </>
  );
  // In the survey it stands back: there the figures of the room are what is worked at.
  return (
    <>
      <Head
        title="The plan"
        under="Choose something on the sheet or in the walk to see what is known of it."
      />
      {stage === 'measure' ? (
        <details className="ticket-back">
          <summary>Its title, year, units, level and totals</summary>
          {parts}
        </details>
      ) : (
        parts
      )}
    </>
  );
}
