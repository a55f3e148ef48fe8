// The checks turned round: which of the plan's profiles would do in a room, and why each other one would not. One click
// puts one there.

import { useMemo, useState } from 'react';
import { pickProfiles } from '../../../core/fit/index.ts';
import { bareName } from '../../../core/fit/say.ts';
import { type LevelId, lookup, type ProfileId, type TrimLine } from '../../../core/plan/index.ts';
import { LINE_NAMES } from '../../../core/plan/kinds.ts';
import { useKeptRef } from '../../state/kept-ref.ts';
import { useApp, usePicked } from '../../state/react.ts';
import type { Ref } from '../../state/refs.ts';
import { Choice } from '../kit/Choice.tsx';
import { DialogBox } from '../kit/DialogBox.tsx';
import { figuresOf } from '../kit/figures.ts';
import { levelFound, roomsHolding } from '../ticket/find.ts';
import { roomLine } from '../ticket/room-edits.ts';
import './profiles.css';

/** Lines whose boards are reckoned, and so can be checked: of the others nothing could be said. */
const CHECKED_LINES: readonly TrimLine[] = ['base', 'shoe'];

/** What the dialog may be opened with; without a room it opens for the one that holds what is chosen. */
interface Asked {
  readonly level?: LevelId;
  readonly room?: string;
  readonly line?: TrimLine;
  /** Back to the table of rooms when it is closed. */
  readonly back?: boolean;
}

export function PickerDialog({ of }: { readonly of: unknown }) {
  const app = useApp();
  const asked = (of ?? {}) as Asked;
  const derived = usePicked(({ open }) => open?.derived ?? null);
  const here = usePicked((state) => state.level);
  const selected = usePicked((state) => state.selection[0] ?? null);
  const [at, keep] = useKeptRef(derived, () => {
    if (asked.level !== undefined && asked.room !== undefined) return roomRef(asked.level, asked.room);
    const level = selected === null || derived === null ? null : levelFound(derived, selected.level);
    const [room] = level === null ? [] : roomsHolding(level, selected!);
    return room === undefined ? null : roomRef(selected!.level, room);
  });
  const [line, setLine] = useState<TrimLine>(asked.line ?? 'base');
  const rooms = derived?.levels.flatMap(({ walk }) => walk.rooms) ?? [];
  const room =
    rooms.find((each) => each.level === at?.level && each.id === at.id) ??
    rooms.find((each) => each.level === here) ??
    rooms[0];
  const level = derived?.levels.find(({ walk }) => walk.levelId === room?.level);
  const picked = useMemo(
    () =>
      derived === null || level === undefined || room === undefined
        ? []
        : pickProfiles(derived.plan, level, room.id, line),
    [derived, level, room, line],
  );
  if (derived === null) return null;
  const { plan } = derived;
  const close = () => app.show(asked.back ? { id: 'rooms' } : null);
  const figures = figuresOf(plan);
  const now = room?.record?.trim?.[line];
  const sorted = [...picked].sort((a, b) => Number(b.passes) - Number(a.passes));
  const fitting = picked.filter((each) => each.passes).length;

  function use(profile: ProfileId): void {
    if (room === undefined) return;
    const edit = roomLine(plan, room, line, profile);
    if (edit !== null) app.commit(edit);
  }

  return (
    <DialogBox
      title="Which profile fits"
      onClose={close}
      foot={
        <button type="button" className="main" onClick={close}>
          Done
        </button>
      }
    >
      {room === undefined ? (
        <p className="soft">There is no room yet: draw walls until they go round one.</p>
      ) : (
        <>
          <Choice
            label="Room"
            value={`${rooms.indexOf(room)}`}
            of={rooms.map((each, index) => ({
              value: `${index}`,
              words:
                derived.levels.length > 1
                  ? `${each.name}, ${derived.levels.find(({ walk }) => walk.levelId === each.level)?.walk.level.name}`
                  : each.name,
            }))}
            onSet={(index) => {
              const chosen = rooms[Number(index)];
              if (chosen !== undefined) keep(roomRef(chosen.level, chosen.id));
            }}
          />
          <Choice
            label="Line"
            value={line}
            of={CHECKED_LINES.map((each) => ({ value: each, words: LINE_NAMES[each] }))}
            onSet={setLine}
          />
          <p className="picker-sum">
            {picked.length === 0
              ? `The plan has no ${LINE_NAMES[line]} profile yet.`
              : `${fitting} of ${picked.length} pass every check in ${room.name}.`}
          </p>
          <ul className="picker">
            {sorted.map(({ profile: id, passes, why }) => {
              const profile = lookup(plan.profiles, id);
              if (profile === undefined) return null;
              const isNow = now === id;
              return (
                <li key={id} className={passes ? 'passes' : 'fails'}>
                  <div className="picker-line">
                    <span className="picker-mark" aria-hidden="true">
                      {passes ? '✓' : '×'}
                    </span>
                    <strong>{bareName(id, profile)}</strong>
                    <span className="soft">
                      {[profile.height, profile.thickness]
                        .flatMap((each) => (each === undefined ? [] : [figures.inches(each)]))
                        .join(' × ')}
                    </span>
                    <span className={passes ? 'picker-verdict good' : 'picker-verdict wrong'}>
                      {passes ? 'fits' : 'does not fit'}
                    </span>
                    <button
                      type="button"
                      aria-disabled={isNow || undefined}
                      title={isNow ? 'The room has it' : `Use ${bareName(id, profile)} in ${room.name}`}
                      onClick={() => {
                        if (!isNow) use(id);
                      }}
                    >
                      {isNow ? 'In use' : 'Use'}
                      <span className="unseen"> {bareName(id, profile)}</span>
                    </button>
                  </div>
                  {why.length === 0 ? null : (
                    <ul className="picker-why">
                      {[...new Set(why)].map((words) => (
                        <li key={words}>{words}</li>
                      ))}
                    </ul>
                  )}
                </li>
              );
            })}
          </ul>
        </>
      )}
    </DialogBox>
  );
}

const roomRef = (level: LevelId, id: string): Ref => ({ kind: 'room', level, id });
