// The ticket: everything known of what is chosen, to be changed in place, with the reason for each decision.

import { useMemo, useRef } from 'react';
import type { Derived, Solved } from '../../../core/report/index.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { type Ref, refKey } from '../../state/refs.ts';
import { levelOf, shownOf, solvedOf } from '../../state/selectors.ts';
import { figuresOf } from '../kit/figures.ts';
import { findingsAbout } from '../walk/marked.ts';
import { CornerTicket } from './CornerTicket.tsx';
import { FaceTicket } from './FaceTicket.tsx';
import { cornerFound, levelFound, pieceFound, roomFound, segmentFound, stillThere } from './find.ts';
import { NodeTicket } from './NodeTicket.tsx';
import { OpeningTicket } from './OpeningTicket.tsx';
import { PieceTicket } from './PieceTicket.tsx';
import { PlanTicket } from './PlanTicket.tsx';
import { Pencilled, type TicketContext, useTopOf } from './parts.tsx';
import { RoomTicket } from './RoomTicket.tsx';
import { SeveralTicket } from './SeveralTicket.tsx';
import { BuiltInTicket, MarkTicket } from './StandingTickets.tsx';
import { WallTicket } from './WallTicket.tsx';
import './ticket.css';

export function Ticket() {
  const shown = usePicked(shownOf);
  return shown === null ? null : <OpenTicket shown={shown} />;
}

function OpenTicket({ shown }: { readonly shown: Derived | Solved }) {
  const app = useApp();
  const solved = usePicked(solvedOf);
  const selection = usePicked((state) => state.selection);
  const level = usePicked(levelOf);
  const cameFrom = useRef<Element | null>(null);
  const figures = useMemo(() => figuresOf(shown.plan), [shown.plan]);
  const here = selection.filter((ref) => {
    const on = levelFound(shown, ref.level);
    return on !== null && stillThere(on.walk.level, on, ref);
  });
  const key = here.map((ref) => sheetKey(ref, shown)).join(' ');
  const box = useTopOf(key);
  const on = levelFound(shown, here[0]?.level ?? level?.id ?? '');
  if (on === null) return null;
  const context: TicketContext = { app, shown, plan: shown.plan, level: on, figures };
  return (
    <section
      className="ticket"
      aria-labelledby="ticket-title"
      ref={box}
      onFocus={({ relatedTarget, currentTarget }) => {
        if (relatedTarget !== null && !currentTarget.contains(relatedTarget))
          cameFrom.current = relatedTarget;
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || event.defaultPrevented) return;
        const back = cameFrom.current;
        if (back instanceof HTMLElement && back.isConnected) {
          event.preventDefault();
          back.focus();
        }
      }}
    >
      <div className="ticket-sheet" key={key === '' ? `plan ${on.walk.levelId}` : key}>
        <Shown context={context} solved={solved} selection={here} />
      </div>
    </section>
  );
}

/** What the ticket's sheet is for. A room's id changes with its first record: it is the one with this corner. */
function sheetKey(ref: Ref, shown: Derived | Solved): string {
  const level = ref.kind === 'room' ? levelFound(shown, ref.level) : null;
  const room = level === null ? null : roomFound(level, ref.id)?.room;
  return room == null ? refKey(ref) : `room ${ref.level} ${room.loops[0]?.corners[0]?.key}`;
}

function Shown({
  context,
  solved,
  selection,
}: {
  readonly context: TicketContext;
  readonly solved: Solved | null;
  readonly selection: readonly Parameters<typeof refKey>[0][];
}) {
  const { level, shown } = context;
  const [ref, ...more] = selection;
  if (ref === undefined) return <PlanTicket context={context} solved={solved} />;
  if (more.length > 0) return <SeveralTicket context={context} refs={selection} />;
  const corner = ref.kind === 'corner' ? cornerFound(level, ref.id) : null;
  const findings = findingsAbout(shown.findings, ref, corner?.corner.number ?? null);
  const ticket = () => {
    switch (ref.kind) {
      case 'corner':
        return corner === null ? null : <CornerTicket context={context} found={corner} />;
      case 'piece': {
        const found = pieceFound(level, ref.id);
        return found === null ? null : <PieceTicket context={context} found={found} solved={solved} />;
      }
      case 'segment': {
        const found = segmentFound(level, ref.id);
        return found === null ? null : <FaceTicket context={context} found={found} />;
      }
      case 'room': {
        const found = roomFound(level, ref.id);
        return found === null ? null : <RoomTicket context={context} found={found} />;
      }
      case 'wall':
        return <WallTicket context={context} id={ref.id} />;
      case 'node':
        return <NodeTicket context={context} id={ref.id} />;
      case 'opening':
        return <OpeningTicket context={context} id={ref.id} />;
      case 'casing':
        return <OpeningTicket context={context} id={ref.opening} />;
      case 'builtIn':
        return <BuiltInTicket context={context} id={ref.id} />;
      case 'mark':
        return <MarkTicket context={context} id={ref.id} />;
    }
  };
  return (
    <>
      {ticket()}
      <Pencilled findings={findings} />
    </>
  );
}
