// A room: its name, area and entry, the trim it carries, the old base and floor and the new, and what the red pencil says
// of the old paint line.

import { capital } from '../../../core/fit/say.ts';
import { LINES, type OpeningId } from '../../../core/plan/index.ts';
import { LINE_NAMES } from '../../../core/plan/kinds.ts';
import type { RoomTrim } from '../../../core/trim/index.ts';
import { formatArea } from '../../../core/units/index.ts';
import { Choice } from '../kit/Choice.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { TextField } from '../kit/TextField.tsx';
import { ProfileChoice } from './fields.tsx';
import { lineVerdict } from './line-verdict.ts';
import { NotLaidOut } from './NotLaidOut.tsx';
import { Fact, Head, Part, Tick, type TicketContext, Why } from './parts.tsx';
import { RoomHeight } from './RoomHeight.tsx';
import { nameRoom, roomEdit, roomHeight, roomLine } from './room-edits.ts';
import { counted, openingWords } from './say.ts';

export function RoomTicket({
  context,
  found,
}: {
  readonly context: TicketContext;
  readonly found: RoomTrim;
}) {
  const { app, shown, plan, figures, level } = context;
  const { room } = found;
  const { record } = room;
  const doIt = (edit: Parameters<typeof app.commit>[0] | null): boolean => {
    if (edit !== null) return app.commit(edit);
    app.say('No place for a name was found on this floor.', 'problem');
    return false;
  };
  const corners = room.loops.reduce((sum, { corners: each }) => sum + each.length, 0);
  const doors = [
    ...new Set(
      room.loops.flatMap(({ segments }) => segments.flatMap(({ openings }) => openings.map(({ id }) => id))),
    ),
  ];
  const verdict = lineVerdict(shown, level, found);
  return (
    <>
      <Head
        title={room.name}
        under={`${formatArea(room.area, plan.units)} · ${figures.length(room.perimeter)} round · ${counted(corners, 'corner')}`}
      />
      <Part title="Room">
        <TextField
          label="Name"
          value={record?.name ?? ''}
          placeholder={room.name}
          onSet={(name) =>
            record === undefined
              ? doIt(nameRoom(plan, room, name))
              : doIt(
                  roomEdit(plan, room, (id, on) => ({
                    type: 'changeRoom',
                    level: on,
                    room: id,
                    set: { name },
                  })),
                )
          }
        />
        <Choice<OpeningId | '-'>
          label="Entry"
          value={record?.entry ?? '-'}
          of={[
            { value: '-', words: 'none named' },
            ...doors.map((id) => ({ value: id, words: openingWords(level, id) })),
          ]}
          onSet={(entry) =>
            doIt(
              roomEdit(plan, room, (id, on) => ({
                type: 'changeRoom',
                level: on,
                room: id,
                set: { entry: entry === '-' ? null : entry },
              })),
            )
          }
        />
      </Part>
      <Part title="Trim">
        {LINES.map((line) => (
          <ProfileChoice<'none'>
            key={line}
            label={capital(LINE_NAMES[line])}
            plan={plan}
            kind={line}
            value={record?.trim?.[line] ?? 'none'}
            others={[{ value: 'none', words: 'none' }]}
            onSet={(choice) => doIt(roomLine(plan, room, line, choice === 'none' ? null : choice))}
          />
        ))}
        <NotLaidOut lines={LINES.filter((line) => record?.trim?.[line] != null)} />
        {Object.keys(plan.profiles).length === 0 ? (
          <button type="button" title="Profiles… (P)" onClick={() => app.show({ id: 'profiles' })}>
            Make a profile…
          </button>
        ) : null}
      </Part>
      <Part title="Old base and floor, above the subfloor">
        <RoomHeight context={context} found={found} which="old" field="baseHeight" label="Old base height" />
        <RoomHeight context={context} found={found} which="old" field="floor" label="Old floor" />
        <RoomHeight context={context} found={found} which="old" field="gap" label="Gap under old base" />
      </Part>
      <Part title="New floor, above the subfloor">
        <RoomHeight context={context} found={found} which="new" field="floor" label="New floor" />
        <RoomHeight context={context} found={found} which="new" field="gap" label="Gap under new base" />
        <Tick
          label="Carpet goes under it"
          on={record?.new?.carpet ?? false}
          onSet={(carpet) => doIt(roomHeight(plan, room, 'new', 'carpet', carpet ? true : null))}
        />
        <FigureField
          label="Laser zero"
          figures={figures}
          takes="length"
          value={record?.floorDatum ?? null}
          placeholder="assumed from the readings"
          mayBeEmpty
          onSet={(floorDatum) =>
            doIt(
              roomEdit(plan, room, (id, on) => ({
                type: 'changeRoom',
                level: on,
                room: id,
                set: { floorDatum },
              })),
            )
          }
        />
      </Part>
      {verdict === null ? null : (
        <Part title="The old paint line">
          <p className={verdict.bad ? 'wrong' : undefined}>{verdict.words}</p>
          {verdict.more === null ? null : <Why>{verdict.more}</Why>}
        </Part>
      )}
      {found.lines.some(({ runs }) => runs.length > 0) ? (
        <Part title="Boards">
          {found.lines.map(({ line, runs }) => {
            const pieces = runs.flatMap((run) => run.pieces);
            return pieces.length === 0 ? null : (
              <Fact key={line} label={capital(LINE_NAMES[line])}>
                {counted(pieces.length, 'board')} in {counted(runs.length, 'run')}
              </Fact>
            );
          })}
        </Part>
      ) : null}
    </>
  );
}
