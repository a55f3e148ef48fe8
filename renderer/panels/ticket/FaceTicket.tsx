// One face of a room from corner to corner: its length drawn and measured, each stretch, the floor and the old line read
// along it, studs, and the trim it carries.

import { capital } from '../../../core/fit/say.ts';
import { LINES, type ProfileId } from '../../../core/plan/index.ts';
import { LINE_NAMES } from '../../../core/plan/kinds.ts';
import { FigureField } from '../kit/FigureField.tsx';
import { ABOVE_ZERO } from '../kit/range.ts';
import { backToRule, setFaceLine, setReadings, setStretch } from './edits.ts';
import { ProfileChoice, Readings } from './fields.tsx';
import type { SegmentFound } from './find.ts';
import { NotLaidOut } from './NotLaidOut.tsx';
import { Fact, Head, Part, ThingLink, type TicketContext, Why } from './parts.tsx';
import { cornerWords, profileWords } from './say.ts';
import { stretchesOf } from './stretches.ts';

export function FaceTicket({
  context,
  found,
}: {
  readonly context: TicketContext;
  readonly found: SegmentFound;
}) {
  const { app, shown, plan, figures, level } = context;
  const { segment, left, right, room } = found;
  const on = level.walk.levelId;
  const { key, record } = segment;
  const all = stretchesOf(level, found);
  const stretches =
    all.length === 1 && all[0]!.key === 'corner..corner' && all[0]!.measured === null ? [] : all;
  const ruled = backToRule(shown, [{ kind: 'segment', level: on, id: key }]);
  const walls = [...new Set(segment.parts.map(({ wall }) => wall))];
  return (
    <>
      <Head
        title={`Wall from ${cornerWords(left)} to ${right.number ?? '–'}`}
        under={
          <>
            <ThingLink to={{ kind: 'room', level: on, id: room.id }}>{room.name}</ThingLink> ·{' '}
            <ThingLink to={{ kind: 'corner', level: on, id: left.key }}>{cornerWords(left)}</ThingLink> ·{' '}
            <ThingLink to={{ kind: 'corner', level: on, id: right.key }}>{cornerWords(right)}</ThingLink>
          </>
        }
      />
      <Part title="Length, corner to corner">
        <Fact label="Drawn">{figures.length(segment.drawn)}</Fact>
        <FigureField
          label="Measured"
          range={ABOVE_ZERO}
          figures={figures}
          takes="length"
          value={record?.measured ?? null}
          placeholder="not measured"
          mayBeEmpty
          onSet={(measured) => app.commit({ type: 'setFace', level: on, face: key, set: { measured } })}
        />
        {stretches.length > 0 && record?.measured !== undefined ? (
          <Why>
            Boards do not go from corner to corner here: this length is only compared with the drawing.
            Measure the stretches.
          </Why>
        ) : null}
        {stretches.map((each) => (
          <FigureField
            key={each.key}
            label={capital(each.words)}
            range={ABOVE_ZERO}
            figures={figures}
            takes="length"
            value={each.measured}
            placeholder={`drawn ${figures.length(each.drawn)}`}
            mayBeEmpty
            onSet={(value) => app.commit(setStretch(on, key, each.key, value))}
          />
        ))}
      </Part>
      <Part title="Trim on this wall">
        {LINES.map((line) => {
          const own = record?.trim?.[line];
          const ofRoom = room.record?.trim?.[line];
          const said = ofRoom == null ? 'none' : profileWords(plan, ofRoom);
          return (
            <ProfileChoice<'room' | 'none'>
              key={line}
              label={capital(LINE_NAMES[line])}
              plan={plan}
              kind={line}
              value={own === undefined ? 'room' : (own ?? 'none')}
              others={[
                { value: 'room', words: `as the room: ${said}` },
                { value: 'none', words: 'none' },
              ]}
              onSet={(choice) =>
                app.commit(setFaceLine(on, key, line, choice as 'room' | 'none' | ProfileId))
              }
            />
          );
        })}
        <NotLaidOut lines={LINES.filter((line) => record?.trim?.[line] != null)} />
        {ruled === null ? null : (
          <button type="button" title="All lines as the room has them (R)" onClick={() => app.commit(ruled)}>
            All as the room
          </button>
        )}
      </Part>
      <Part title="Floor read along it">
        <Why>From the left corner; height up from the laser's zero, so a reading down is negative.</Why>
        <Readings
          what="floor reading"
          figures={figures}
          readings={record?.floor ?? []}
          onSet={(readings) => app.commit(setReadings(on, key, 'floor', readings))}
        />
      </Part>
      <Part title="Old paint line">
        <Why>Only where it is not level: from the left corner, height above the subfloor.</Why>
        <Readings
          what="line reading"
          figures={figures}
          readings={record?.line ?? []}
          onSet={(readings) => app.commit(setReadings(on, key, 'line', readings))}
        />
      </Part>
      <Part title="Studs">
        <Studs context={context} found={found} />
      </Part>
      {walls.length > 0 ? (
        <Part title="What it stands on">
          <Fact label="Drawn walls">
            {walls.map((id) => (
              <ThingLink key={id} to={{ kind: 'wall', level: on, id }}>
                {id}
              </ThingLink>
            ))}
          </Fact>
          <Fact label="Face">
            {segment.surfaceLeft === segment.surfaceRight
              ? segment.surfaceLeft
              : `${segment.surfaceLeft} at the left, ${segment.surfaceRight} at the right`}
          </Fact>
        </Part>
      ) : null}
    </>
  );
}

function Studs({
  context: { app, plan, figures, level },
  found: { segment },
}: {
  readonly context: TicketContext;
  readonly found: SegmentFound;
}) {
  const studs = segment.record?.studs ?? [];
  const put = (next: readonly number[]): boolean =>
    app.commit({
      type: 'setFace',
      level: level.walk.levelId,
      face: segment.key,
      set: { studs: next.toSorted((a, b) => a - b) },
    });
  const every = plan.studs?.spacing;
  return (
    <>
      {studs.length === 0 ? (
        <p className="soft">
          {every === undefined
            ? 'Not known.'
            : `Every ${figures.length(every)} from the left corner, as for the whole plan.`}
        </p>
      ) : (
        <ul className="ticket-chips">
          {studs.map((at) => (
            <li key={at}>
              {figures.length(at)}
              <button
                type="button"
                className="plain"
                aria-label={`Remove the stud at ${figures.length(at)}`}
                title="Remove this stud"
                onClick={() => put(studs.filter((each) => each !== at))}
              >
                ×
              </button>
            </li>
          ))}
        </ul>
      )}
      <FigureField
        key={studs.join(' ')}
        label="Stud at"
        figures={figures}
        takes="length"
        value={null}
        placeholder="from the left corner"
        mayBeEmpty
        onSet={(at) => (at === null ? true : put([...studs, at]))}
      />
    </>
  );
}
