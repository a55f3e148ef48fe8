// A point where walls meet: its place on the sheet, typed as its other way to be moved, and the walls that end there.

import { lookup, type NodeId } from '../../../core/plan/index.ts';
import { FigureField } from '../kit/FigureField.tsx';
import { Fact, Head, Part, ThingLink, type TicketContext } from './parts.tsx';
import { counted } from './say.ts';
import { wallsAt } from './WallTicket.tsx';

export function NodeTicket({ context, id }: { readonly context: TicketContext; readonly id: NodeId }) {
  const { app, figures, level } = context;
  const plain = level.walk.level;
  const at = lookup(plain.nodes, id);
  if (at === undefined) return null;
  const walls = wallsAt(plain, id);
  const corners = level.walk.rooms.flatMap((room) =>
    room.loops.flatMap((loop) =>
      loop.corners.filter(({ node }) => node === id).map((corner) => ({ corner, room })),
    ),
  );
  const move = (to: readonly [number, number]): boolean =>
    app.commit({ type: 'moveNode', level: plain.id, node: id, to });
  return (
    <>
      <Head
        title={walls.length === 1 ? `Free end ${id}` : `Point ${id}`}
        under={`${counted(walls.length, 'wall')} ${walls.length === 1 ? 'ends' : 'end'} here`}
      />
      <Part title="Place on the sheet">
        <FigureField
          label="Across"
          figures={figures}
          takes="length"
          value={at[0]}
          onSet={(x) => move([x!, at[1]])}
        />
        <FigureField
          label="Down"
          figures={figures}
          takes="length"
          value={at[1]}
          onSet={(y) => move([at[0], y!])}
        />
      </Part>
      <Part title="Here">
        <Fact label="Walls">
          {walls.map((wall) => (
            <ThingLink key={wall} to={{ kind: 'wall', level: plain.id, id: wall }}>
              {wall}
            </ThingLink>
          ))}
        </Fact>
        {corners.length > 0 ? (
          <Fact label="Corners">
            {corners.map(({ corner, room }) => (
              <ThingLink key={corner.key} to={{ kind: 'corner', level: plain.id, id: corner.key }}>
                {corner.number ?? '–'} in {room.name}
              </ThingLink>
            ))}
          </Fact>
        ) : null}
      </Part>
      {walls.length === 2 ? (
        <div className="ticket-do row">
          <button
            type="button"
            title="Makes one wall of two that go straight on and are alike"
            onClick={() => app.commit({ type: 'joinWalls', level: plain.id, node: id }, { select: [] })}
          >
            Join {walls.join(' and ')}
          </button>
        </div>
      ) : null}
    </>
  );
}
