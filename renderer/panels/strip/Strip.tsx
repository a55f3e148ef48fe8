// The drawer under the sheet: the walls of one room unrolled in a line, and beside them the sections. It follows what is
// chosen; where nothing is, it keeps the room it had.

import { useState } from 'react';
import type { LevelId } from '../../../core/plan/index.ts';
import type { Derived, DerivedLevel } from '../../../core/report/index.ts';
import { useKeptRef } from '../../state/kept-ref.ts';
import { useApp, usePicked } from '../../state/react.ts';
import type { Ref } from '../../state/refs.ts';
import { shownOf } from '../../state/selectors.ts';
import { useTip } from '../kit/CommandButton.tsx';
import { figuresOf } from '../kit/figures.ts';
import { findingKey, refsOf } from '../pencil/findings.ts';
import { roomsOf } from './rooms-of.ts';
import { PlanSectionView, UprightView } from './Section.tsx';
import { StripCanvas } from './StripCanvas.tsx';
import { planSection, upright } from './section.ts';
import { STRIP_ZOOM } from './strip-drawing.ts';
import './strip.css';

const ZOOM_STEP = 1.25;

export function Strip() {
  const app = useApp();
  const tip = useTip();
  const shown = usePicked(shownOf);
  const levelId = usePicked((state) => state.level);
  const chosen = usePicked((state) => state.selection[0] ?? null);
  const finding = usePicked((state) => state.finding);
  const pending = usePicked(({ solution }) => solution.state === 'pending');
  const [kept, keep] = useKeptRef(shown, () => null);
  const [loop, setLoop] = useState(0);
  const [zoom, setZoom] = useState(36);

  const level: DerivedLevel | undefined = shown?.levels.find(({ walk }) => walk.levelId === levelId);
  if (shown === null || level === undefined || levelId === null) return null;
  const rooms = chosen === null ? [] : roomsOf(level, chosen);
  const keptHere = kept?.level === levelId ? kept.id : null;
  const roomId = roomFor(level, rooms, keptHere);
  if (roomId !== keptHere && roomId !== null) keep({ kind: 'room', level: levelId, id: roomId });
  const trim = level.trims.find(({ room }) => room.id === roomId);
  if (trim === undefined)
    return (
      <section className="strip" aria-label="Strip and section">
        <p className="strip-none soft">There is no room on this level yet: its walls do not close.</p>
      </section>
    );

  const { plan } = shown;
  const figures = figuresOf(plan);
  const loops = trim.room.loops;
  const at = loop < loops.length ? loop : 0;
  const subject = subjectOf(shown, levelId, trim.room.id, chosen, finding);
  const section = planSection(plan, trim, subject);
  const standing = upright(plan, trim, chosen);
  const step = (by: number) =>
    setZoom((now) => Math.min(STRIP_ZOOM.most, Math.max(STRIP_ZOOM.least, now * by)));

  return (
    <section className="strip" aria-label="Strip and section">
      <div className="strip-walls">
        <header className="strip-head">
          <h2>Strip</h2>
          <label>
            <span className="unseen">Room of the strip</span>
            <select
              value={roomId ?? ''}
              title="Which room’s walls are unrolled"
              onChange={({ target }) => {
                setLoop(0);
                const ref: Ref = { kind: 'room', level: levelId, id: target.value };
                keep(ref);
                app.select([ref]);
              }}
            >
              {level.walk.rooms.map((room) => (
                <option key={room.id} value={room.id}>
                  {room.name || room.id}
                </option>
              ))}
            </select>
          </label>
          {loops.length > 1 ? (
            <label>
              <span className="unseen">Which walls</span>
              <select value={at} title="Which walls" onChange={({ target }) => setLoop(Number(target.value))}>
                {loops.map((each, index) => (
                  <option key={each.corners[0]?.key ?? index} value={index}>
                    {each.kind === 'outer' ? 'Walls round the room' : `What stands free, ${index}`}
                  </option>
                ))}
              </select>
            </label>
          ) : null}
          <span className="strip-zoom">
            <button
              type="button"
              aria-label="Shorter strip"
              title="Shorter strip"
              onClick={() => step(1 / ZOOM_STEP)}
            >
              −
            </button>
            <button
              type="button"
              aria-label="Longer strip"
              title="Longer strip"
              onClick={() => step(ZOOM_STEP)}
            >
              +
            </button>
          </span>
          <button
            type="button"
            className="plain strip-close"
            aria-label="Close the strip"
            title={tip('view.strip', 'Close the strip')}
            onClick={() => app.change(() => ({ strip: false }))}
          >
            ×
          </button>
        </header>
        <StripCanvas
          shown={shown}
          trim={trim}
          level={levelId}
          loop={at}
          pixelsPerFoot={zoom}
          figures={figures}
          more={pending ? 'Floor shapes are being worked out.' : ''}
        />
      </div>
      <section
        className="strip-sections"
        aria-label="Sections"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, and keys must be able to
        tabIndex={0}
      >
        {section === null ? (
          <p className="soft">This room has no opening to cut through. Choose a corner to see its joint.</p>
        ) : (
          <PlanSectionView plan={plan} section={section} />
        )}
        {standing === null ? (
          <p className="soft">This room has no base of known height.</p>
        ) : (
          <UprightView plan={plan} upright={standing} room={trim.room.name} />
        )}
      </section>
    </section>
  );
}

const CUT: ReadonlySet<Ref['kind']> = new Set(['opening', 'casing', 'corner', 'piece']);

/** What is cut: what is chosen; else what the open finding is about, else the room's worst one. */
function subjectOf(
  shown: Derived,
  level: LevelId,
  room: string,
  chosen: Ref | null,
  finding: string | null,
): Ref | null {
  if (chosen !== null && CUT.has(chosen.kind)) return chosen;
  const here = shown.findings.filter((each) => each.level === level && each.room === room);
  const open = here.filter((each) => findingKey(each, shown) === finding);
  for (const each of [...open, ...here]) {
    const ref = refsOf(each, shown).find(({ kind }) => CUT.has(kind));
    if (ref !== undefined) return ref;
  }
  return chosen;
}

/** The room kept where what is chosen stands in it too; else the first it stands in; else the first there is. */
function roomFor({ walk }: DerivedLevel, rooms: readonly string[], kept: string | null): string | null {
  if (kept !== null && rooms.includes(kept)) return kept;
  if (rooms[0] !== undefined) return rooms[0];
  if (kept !== null && walk.rooms.some(({ id }) => id === kept)) return kept;
  return walk.rooms[0]?.id ?? null;
}
