// A wall as it is drawn: length, thickness, height, its two faces and what they look at across their rooms. Clear distances
// are typed here; the wall is split, joined or taken away.

import { useState } from 'react';
import { type Edit, idGiver } from '../../../core/edit/index.ts';
import {
  type FaceSurface,
  type Level,
  lookup,
  type NodeId,
  type Side,
  type WallId,
} from '../../../core/plan/index.ts';
import { runCommand } from '../../app/commands.ts';
import { Choice } from '../kit/Choice.tsx';
import { FigureField } from '../kit/FigureField.tsx';
import { ABOVE_ZERO, WALL_THICKNESS } from '../kit/range.ts';
import { segmentsOfWall } from './find.ts';
import { Fact, Head, Part, ThingLink, type TicketContext, Why } from './parts.tsx';
import { type Clear, clearDistances, clearEdit } from './places.ts';

export const SURFACES: readonly { readonly value: FaceSurface; readonly words: string }[] = [
  { value: 'drywall', words: 'drywall' },
  { value: 'plaster', words: 'plaster' },
  { value: 'masonry', words: 'masonry' },
  { value: 'wood', words: 'wood' },
];

export function WallTicket({ context, id }: { readonly context: TicketContext; readonly id: WallId }) {
  const { app, figures, level } = context;
  const plain = level.walk.level;
  const on = plain.id;
  const [moves, setMoves] = useState<'own' | 'other'>('own');
  const wall = lookup(plain.walls, id);
  if (wall === undefined) return null;
  const [from, to] = [lookup(plain.nodes, wall.from)!, lookup(plain.nodes, wall.to)!];
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const faces = segmentsOfWall(level, id);
  const clears = clearDistances(level, id);
  const set = (change: Extract<Edit, { type: 'changeWalls' }>['set']): boolean =>
    app.commit({ type: 'changeWalls', level: on, walls: [id], set: change });
  const ends = ([wall.from, wall.to] as const).filter((node) => wallsAt(plain, node).length === 2);
  return (
    <>
      <Head title={`Wall ${id}`} under={`${figures.length(length)} along its middle`} />
      <Part title="Wall">
        <FigureField
          label="Thickness"
          range={WALL_THICKNESS}
          figures={figures}
          takes="length"
          value={wall.thickness}
          shown={figures.fine(wall.thickness)}
          onSet={(thickness) => set({ thickness: thickness! })}
        />
        <FigureField
          label="Height"
          range={ABOVE_ZERO}
          figures={figures}
          takes="length"
          value={wall.height ?? null}
          placeholder={`to the ceiling, ${figures.length(plain.ceilingHeight)}`}
          mayBeEmpty
          onSet={(height) => set({ height })}
        />
        <Fact label="Ends">
          {[wall.from, wall.to].map((node) => (
            <ThingLink key={node} to={{ kind: 'node', level: on, id: node }}>
              {node}
            </ThingLink>
          ))}
        </Fact>
        {(['left', 'right'] as const).map((side) => (
          <Choice<FaceSurface>
            key={side}
            label={`Face in ${roomOf(faces, id, side)}`}
            value={wall.faces?.[side] ?? 'drywall'}
            of={SURFACES}
            onSet={(surface) => set({ faces: { [side]: surface } })}
          />
        ))}
      </Part>
      {clears.length > 0 ? (
        <Part title="Clear distances, face to face">
          <Choice<'own' | 'other'>
            label="Moves"
            value={moves}
            of={[
              { value: 'own', words: 'this wall' },
              { value: 'other', words: 'the wall across' },
            ]}
            onSet={setMoves}
          />
          {clears.map((clear) => (
            <FigureField
              key={`${clear.across.segment.key} ${clear.to.key}`}
              label={clearWords(clear)}
              range={ABOVE_ZERO}
              figures={figures}
              takes="length"
              value={clear.distance}
              onSet={(distance) => app.commit(clearEdit(on, clear, moves, distance!))}
            />
          ))}
        </Part>
      ) : null}
      <Part title="Faces in rooms">
        {faces.length === 0 ? <p className="soft">No room looks at this wall.</p> : null}
        {faces.map(({ segment, room, left, right }) => (
          <Fact key={segment.key} label={room.name}>
            <ThingLink to={{ kind: 'segment', level: on, id: segment.key }}>
              {figures.length(segment.drawn)}, corner {left.number ?? '–'} to {right.number ?? '–'}
            </ThingLink>
          </Fact>
        ))}
      </Part>
      <Part title="Split, join, take away">
        <FigureField
          key={`${id} split`}
          label="Split at"
          range={ABOVE_ZERO}
          figures={figures}
          takes="length"
          value={null}
          placeholder="from its first end"
          mayBeEmpty
          onSet={(at) => (at === null ? true : app.commit(splitEdit(plain, id, at)))}
        />
        <div className="ticket-do row">
          <button
            type="button"
            title="Split in the middle"
            onClick={() => app.commit(splitEdit(plain, id, length / 2))}
          >
            Split in the middle
          </button>
          {ends.map((node) => {
            const other = wallsAt(plain, node).find((each) => each !== id)!;
            return (
              <button
                key={node}
                type="button"
                title="Makes one wall of two that go straight on and are alike"
                onClick={() => app.commit({ type: 'joinWalls', level: on, node }, { select: [] })}
              >
                Join with {other}
              </button>
            );
          })}
          <button
            type="button"
            title="Delete the wall and what stands on it (Del)"
            onClick={() => runCommand(app, 'edit.delete')}
          >
            Delete
          </button>
        </div>
        {ends.length > 0 ? <Why>Walls that turn at a corner, or differ, stay two.</Why> : null}
      </Part>
    </>
  );
}

/** The walls that end at a node. */
export function wallsAt(level: Level, node: NodeId): readonly WallId[] {
  return (Object.keys(level.walls) as WallId[]).filter((id) => {
    const wall = lookup(level.walls, id);
    return wall?.from === node || wall?.to === node;
  });
}

function splitEdit(level: Level, wall: WallId, at: number): Edit {
  return {
    type: 'splitWall',
    level: level.id,
    wall,
    at,
    node: idGiver<NodeId>('n', Object.keys(level.nodes))(),
    newWall: idGiver<WallId>('w', Object.keys(level.walls))(),
  };
}

function roomOf(faces: ReturnType<typeof segmentsOfWall>, wall: WallId, side: Side): string {
  const found = faces.find(({ segment }) =>
    segment.parts.some((part) => part.wall === wall && part.side === side),
  );
  return found?.room.name ?? 'no room';
}

function clearWords({ across, to, other }: Clear): string {
  const corner = across.room.loops[to.loop]?.corners[to.index]?.number;
  return `${across.room.name}, to ${corner == null ? other.wall : `wall ${leftNumber(across, to) ?? '–'} to ${corner}`}`;
}

function leftNumber({ room }: Clear['across'], to: Clear['to']): number | null {
  const corners = room.loops[to.loop]?.corners ?? [];
  return corners[(to.index + corners.length - 1) % corners.length]?.number ?? null;
}
