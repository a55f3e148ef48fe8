// Several things are chosen: what they have in common, changed for all of them as one step.

import type { Edit } from '../../../core/edit/index.ts';
import type { FaceSurface, JointChoice } from '../../../core/plan/index.ts';
import { JOINT_WORDS } from '../../../core/sheets/words.ts';
import { COMMAND_ROWS } from '../../../electron/menu.ts';
import { runCommand } from '../../app/commands.ts';
import type { Ref } from '../../state/refs.ts';
import { Choice } from '../kit/Choice.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { ABOVE_ZERO, WALL_THICKNESS } from '../kit/range.ts';
import { backToRule, setJoint, swapCope } from './edits.ts';
import { Head, Part, type TicketContext } from './parts.tsx';
import { counted } from './say.ts';
import { commonOfWalls, severalWords } from './several.ts';
import { SURFACES } from './WallTicket.tsx';

const DELETED: readonly Ref['kind'][] = ['wall', 'opening', 'builtIn', 'mark'];

export function SeveralTicket({
  context,
  refs,
}: {
  readonly context: TicketContext;
  readonly refs: readonly Ref[];
}) {
  const { app, shown, figures, level } = context;
  const plain = level.walk.level;
  const walls = commonOfWalls(plain, refs);
  const corners = refs.flatMap((ref) => (ref.kind === 'corner' ? [ref] : []));
  const ruled = backToRule(shown, refs);
  const swap = swapCope(shown, corners);
  const set = (change: Extract<Edit, { type: 'changeWalls' }>['set']): boolean =>
    app.commit({ type: 'changeWalls', level: plain.id, walls: walls!.ids, set: change });
  const words = severalWords(refs);
  return (
    <>
      <Head title={`${counted(refs.length, 'thing')} chosen`} under={words} />
      {walls === null ? null : (
        <Part title={counted(walls.ids.length, 'wall')}>
          <FigureField
            label="Thickness"
            range={WALL_THICKNESS}
            figures={figures}
            takes="length"
            value={walls.thickness}
            placeholder="they differ"
            {...(walls.thickness === null ? { mayBeEmpty: true } : {})}
            onSet={(thickness) => (thickness === null ? true : set({ thickness }))}
          />
          <FigureField
            label="Height"
            range={ABOVE_ZERO}
            figures={figures}
            takes="length"
            value={typeof walls.height === 'number' ? walls.height : null}
            placeholder={walls.height === 'ceiling' ? 'to the ceiling' : 'they differ'}
            mayBeEmpty
            onSet={(height) => set({ height })}
          />
          <Choice<FaceSurface | '-'>
            label="Faces"
            value={walls.surface ?? '-'}
            of={[
              ...(walls.surface === null ? [{ value: '-' as const, words: 'they differ' }] : []),
              ...SURFACES,
            ]}
            onSet={(surface) =>
              surface === '-' ? undefined : set({ faces: { left: surface, right: surface } })
            }
          />
        </Part>
      )}
      {corners.length === 0 ? null : (
        <Part title={counted(corners.length, 'corner')}>
          <Choice<JointChoice | '-' | 'rule'>
            label="Joint of the base"
            value="-"
            of={[
              { value: '-', words: 'choose for all' },
              { value: 'rule', words: 'by the rule' },
              ...(['cope', 'mitre', 'butt', 'block'] as const).map((value) => ({
                value,
                words: JOINT_WORDS[value],
              })),
            ]}
            onSet={(joint) => {
              if (joint === '-') return;
              app.commit({
                type: 'several',
                edits: corners.map(({ level: on, id }) =>
                  setJoint(on, id, 'base', joint === 'rule' ? null : joint),
                ),
                words: `joint of ${counted(corners.length, 'corner')}`,
              });
            }}
          />
          <button
            type="button"
            disabled={swap === null}
            title={`${COMMAND_ROWS['trim.swapCope'].words} (E)`}
            onClick={() => swap !== null && app.commit(swap)}
          >
            {COMMAND_ROWS['trim.swapCope'].words}
          </button>
        </Part>
      )}
      <div className="ticket-do row">
        {ruled === null ? null : (
          <button type="button" title="Forget what you chose for these (R)" onClick={() => app.commit(ruled)}>
            {COMMAND_ROWS['edit.backToRule'].words}
          </button>
        )}
        {refs.some(({ kind }) => DELETED.includes(kind)) ? (
          <button
            type="button"
            title="Delete what is chosen (Del)"
            onClick={() => runCommand(app, 'edit.delete')}
          >
            Delete
          </button>
        ) : null}
      </div>
    </>
  );
}
