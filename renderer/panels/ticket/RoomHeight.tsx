// One height of a room: of its old base and floor, or of the new. Typed in the room's ticket and in the survey.

import type { RoomRecord } from '../../../core/plan/index.ts';
import type { RoomTrim } from '../../../core/trim/index.ts';
import { FigureField } from '../kit/FigureField.tsx';
import { ZERO_UP } from '../kit/range.ts';
import type { TicketContext } from './parts.tsx';
import { roomHeight } from './room-edits.ts';

export function RoomHeight<W extends 'old' | 'new'>({
  context: { app, plan, figures },
  found: { room },
  which,
  field,
  label,
}: {
  readonly context: TicketContext;
  readonly found: RoomTrim;
  readonly which: W;
  readonly field: keyof NonNullable<RoomRecord[W]>;
  readonly label: string;
}) {
  const value = (room.record?.[which] as Readonly<Record<string, number | undefined>> | undefined)?.[
    field as string
  ];
  return (
    <FigureField
      label={label}
      figures={figures}
      takes="length"
      value={value ?? null}
      {...(value === undefined ? {} : { shown: figures.fine(value) })}
      placeholder={field === 'gap' ? '0' : 'not measured'}
      mayBeEmpty
      {...(field === 'floor' ? {} : { range: ZERO_UP })}
      onSet={(now) => {
        const edit = roomHeight(plan, room, which, field, now);
        return edit !== null && app.commit(edit);
      }}
    />
  );
}
