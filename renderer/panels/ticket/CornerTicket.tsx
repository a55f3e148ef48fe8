// A corner: its angle as drawn, measured and used, and for each line of trim the joint, the board that is worked, how the
// saw is set and why.

import { capital } from '../../../core/fit/say.ts';
import type { JointChoice } from '../../../core/plan/index.ts';
import { LINE_NAMES } from '../../../core/plan/kinds.ts';
import { JOINT_WORDS } from '../../../core/sheets/words.ts';
import { formatAngle, formatSaw } from '../../../core/units/index.ts';
import { COMMAND_ROWS } from '../../../electron/menu.ts';
import { Choice } from '../kit/Choice.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { CORNER_ANGLE } from '../kit/range.ts';
import { type CornerLine, cornerLines } from './corner-lines.ts';
import { backToRule, setCoped, setJoint, swapCope } from './edits.ts';
import type { CornerFound } from './find.ts';
import { Fact, Head, Part, ThingLink, type TicketContext, Why } from './parts.tsx';
import { cornerWords, roomWords } from './say.ts';

const JOINTS: readonly JointChoice[] = ['cope', 'mitre', 'butt', 'block'];

export function CornerTicket({
  context,
  found,
}: {
  readonly context: TicketContext;
  readonly found: CornerFound;
}) {
  const { app, shown, figures, level } = context;
  const { corner, angles, room } = found;
  const on = level.walk.levelId;
  const ref = { kind: 'corner', level: on, id: corner.key } as const;
  const lines = cornerLines(level, found);
  const ruled = backToRule(shown, [ref]);
  const swap = swapCope(shown, [ref]);
  const { measured, drawn, allowance, used } = angles;
  return (
    <>
      <Head
        title={`${capital(cornerWords(corner))}, ${corner.kind}`}
        under={<ThingLink to={{ kind: 'room', level: on, id: room.id }}>{roomWords(room)}</ThingLink>}
        sign={{ words: String(corner.number ?? '–'), square: corner.kind === 'outside' }}
      />
      <Part title="Angle, as the angle finder reads it">
        <Fact label="Drawn">{formatAngle(drawn)}</Fact>
        <FigureField
          label="Measured"
          range={CORNER_ANGLE}
          figures={figures}
          takes="angle"
          value={measured}
          placeholder="not measured"
          mayBeEmpty
          onSet={(value) =>
            app.commit({ type: 'setCorner', level: on, corner: corner.key, set: { measured: value } })
          }
        />
        {allowance === 0 ? null : (
          <Fact label="Build-up allowed">
            {allowance > 0 ? '+' : ''}
            {formatAngle(allowance)}
          </Fact>
        )}
        <Fact label={allowance === 0 ? 'Used' : 'Used for mitre, cope'}>
          <strong>{formatAngle(used)}</strong>
        </Fact>
        {allowance === 0 ? null : (
          <Why>
            Nobody measured it, and compound builds up in drywall corners. A measured angle is used as it is.
          </Why>
        )}
      </Part>
      {lines.length === 0 ? (
        <Part title="Joint">
          <p className="soft">No trim comes to this corner.</p>
        </Part>
      ) : null}
      {lines.map((line) => (
        <LinePart key={line.line} context={context} found={found} line={line} />
      ))}
      <div className="ticket-do row">
        <button
          type="button"
          disabled={swap === null}
          title={`Cope or butt the other board (${COMMAND_ROWS['trim.swapCope'].keys?.[0] ?? ''})`}
          onClick={() => swap !== null && app.commit(swap)}
        >
          {COMMAND_ROWS['trim.swapCope'].words}
        </button>
        <button
          type="button"
          disabled={ruled === null}
          title={`Forget what you chose here (${COMMAND_ROWS['edit.backToRule'].keys?.[0] ?? ''})`}
          onClick={() => ruled !== null && app.commit(ruled)}
        >
          {COMMAND_ROWS['edit.backToRule'].words}
        </button>
      </div>
    </>
  );
}

function LinePart({
  context: { app, level },
  found: { corner },
  line: { line, joint, before, after, why, unmade, chosen, ends },
}: {
  readonly context: TicketContext;
  readonly found: CornerFound;
  readonly line: CornerLine;
}) {
  const on = level.walk.levelId;
  const rule =
    joint === null
      ? 'by the rule'
      : `by the rule${chosen.joint === undefined ? `: ${JOINT_WORDS[joint.joint]}` : ''}`;
  const board = (id: string | null) => (id === null ? 'the board there' : `board ${id}`);
  const works = joint !== null && joint.coped !== null;
  return (
    <Part
      title={capital(LINE_NAMES[line])}
      aside={joint?.chosenBy === 'user' ? <span className="ticket-yours">set by you</span> : null}
    >
      <Choice<JointChoice | 'rule'>
        label="Joint"
        value={chosen.joint ?? 'rule'}
        of={[
          { value: 'rule', words: rule },
          ...JOINTS.map((value) => ({ value, words: JOINT_WORDS[value] })),
        ]}
        onSet={(value) => app.commit(setJoint(on, corner.key, line, value === 'rule' ? null : value))}
      />
      {works || chosen.coped !== undefined ? (
        <Choice<'before' | 'after' | 'rule'>
          label={joint?.joint === 'butt' ? 'Butts' : 'Coped'}
          value={chosen.coped ?? 'rule'}
          of={[
            {
              value: 'rule',
              words:
                works && chosen.coped === undefined
                  ? `by the rule: ${board(joint.coped === 'before' ? before : after)}`
                  : 'by the rule',
            },
            { value: 'before', words: `${board(before)}, left` },
            { value: 'after', words: `${board(after)}, right` },
          ]}
          onSet={(value) => app.commit(setCoped(on, corner.key, line, value === 'rule' ? null : value))}
        />
      ) : null}
      {joint === null || joint.joint === 'block' ? null : (
        <Fact label="Saw">
          <strong>{formatSaw(joint.sawDeg)}</strong>{' '}
          {joint.joint === 'mitre' ? 'off square, both boards' : 'off square'}
        </Fact>
      )}
      {[before, after].some((id) => id !== null) ? (
        <Fact label="Boards">
          {[before, after].map((id, index) =>
            id === null ? null : (
              <span key={id}>
                {index === 1 && before !== null ? ' and ' : ''}
                <ThingLink to={{ kind: 'piece', level: on, id }}>{id}</ThingLink>
              </span>
            ),
          )}
        </Fact>
      ) : null}
      {why === null ? null : <Why>{why}</Why>}
      {joint === null ? <Why>{ends}</Why> : null}
      {unmade === null ? null : <p className="wrong">{unmade}</p>}
    </Part>
  );
}
