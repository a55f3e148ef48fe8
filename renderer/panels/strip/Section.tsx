// The section: base and casing, or two boards in a corner, cut level and seen from above, and the base cut plumb against
// the old line and the floor. Both in true proportion, so that proud is seen and not only read.

import { capital } from '../../../core/fit/say.ts';
import type { Plan } from '../../../core/plan/index.ts';
import { sayLength } from '../../../core/trim/index.ts';
import { formatSaw } from '../../../core/units/index.ts';
import type { AtCorner, AtOpening, PlanSection, Upright } from './section.ts';

type Spot = readonly [x: number, y: number];

const WIDE = 260;
const HIGH = 150;

function path(spots: readonly Spot[], put: (spot: Spot) => Spot, closed = true): string {
  const all = spots.map((spot) =>
    put(spot)
      .map((each) => each.toFixed(2))
      .join(' '),
  );
  return all.length === 0 ? '' : `M${all.join('L')}${closed ? 'Z' : ''}`;
}

export function PlanSectionView({ plan, section }: { readonly plan: Plan; readonly section: PlanSection }) {
  return (
    <figure className="section">
      <figcaption>
        <strong>
          {section.kind === 'corner'
            ? capital(section.name)
            : `${section.base === null ? 'Casing' : 'Base and casing'} at ${section.name}`}
        </strong>
        <span className="soft"> from above</span>
      </figcaption>
      {section.kind === 'opening' ? (
        <OpeningDrawing plan={plan} section={section} />
      ) : (
        <CornerDrawing section={section} />
      )}
      <p className={section.kind === 'opening' && section.verdict === 'proud' ? 'wrong' : ''}>
        {section.words}
      </p>
      {section.kind === 'opening' ? <OpeningFigures plan={plan} section={section} /> : null}
      {section.kind === 'corner' && section.joint !== null ? (
        <CornerFigures plan={plan} section={section} />
      ) : null}
    </figure>
  );
}

function OpeningDrawing({ plan, section }: { readonly plan: Plan; readonly section: AtOpening }) {
  const { opening, base, edge, against } = section;
  const casing = opening.casing?.profile ?? null;
  const plinth = against === 'plinth' ? opening.opening.plinth : undefined;
  const { reveal } = opening;
  const wide = plinth?.width ?? casing?.width ?? 0;
  const thick = plinth?.thickness ?? casing?.thickness ?? 0;
  const out = plinth?.thickness ?? edge ?? thick;
  const t = base?.profile.thickness ?? 0;
  const start = against === 'open' || wide === 0 ? 0 : reveal + wide;
  const length = Math.max(50 * 320, start + 40 * 320);
  const deep = Math.max(thick, t, 12 * 320);
  const wall = 12.7 * 320;
  const scale = Math.min((WIDE - 24) / (length + 6 * 320), (HIGH - 40) / (deep + wall));
  const put = ([x, y]: Spot): Spot => [16 + x * scale, 14 + (y + wall) * scale];
  const rect = (x0: number, y0: number, x1: number, y1: number): readonly Spot[] => [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  const shoulder = reveal + wide * 0.6;
  const casingShape: readonly Spot[] = [
    [reveal, 0],
    [reveal, thick],
    [shoulder, thick],
    [reveal + wide, out],
    [reveal + wide, 0],
  ];
  const step = section.step ?? 0;
  const proud = section.step !== null && step < 0;
  const bottom = put([0, deep])[1] + 18;
  const [bx0] = put([start, 0]);
  const [bx1] = put([length, 0]);
  const high = bottom + (base === null || wide === 0 ? 10 : 25);
  return (
    <svg className="section-drawing" viewBox={`0 0 ${WIDE} ${high}`} role="img" aria-label={section.words}>
      <path className="section-wall" d={path(rect(0, -wall, length, 0), put)} />
      <path
        className="section-line"
        d={path(
          [
            [0, -wall],
            [0, 0],
            [length, 0],
          ],
          put,
          false,
        )}
      />
      {wide > 0 && against !== 'open' ? (
        <path
          className="section-casing"
          d={path(plinth === undefined ? casingShape : rect(reveal, 0, reveal + wide, thick), put)}
        />
      ) : null}
      {base === null ? null : <path className="section-base" d={path(rect(start, 0, length, t), put)} />}
      {proud ? <path className="section-proud" d={path(rect(start, t + step, length, t), put)} /> : null}
      {section.step === null || base === null ? null : (
        <path
          className={proud ? 'section-step wrong' : 'section-step'}
          d={path(
            [
              [start, Math.min(out, t)],
              [start, Math.max(out, t)],
            ],
            put,
            false,
          )}
        />
      )}
      {wide > 0 && against !== 'open' ? (
        <text x={(put([reveal, 0])[0] + put([reveal + wide, 0])[0]) / 2} y={bottom} textAnchor="middle">
          {plinth === undefined ? 'casing' : 'plinth'} {sayLength(plan, out)}
        </text>
      ) : null}
      {base === null ? null : (
        <text x={(bx0 + bx1) / 2} y={bottom + (wide > 0 ? 15 : 0)} textAnchor="middle">
          base {sayLength(plan, t)}
        </text>
      )}
    </svg>
  );
}

function OpeningFigures({ plan, section }: { readonly plan: Plan; readonly section: AtOpening }) {
  const { opening, base, edge, step } = section;
  const rows: readonly (readonly [string, string])[] = [
    ['Reveal', sayLength(plan, opening.reveal)],
    ...(opening.casing ? ([['Casing', opening.casing.profile.name || opening.casing.id]] as const) : []),
    ...(edge === null ? [] : ([['Stops the base with', sayLength(plan, edge)]] as const)),
    ...(base === null
      ? []
      : ([['Base', `${base.profile.name || base.id}, ${sayLength(plan, base.profile.thickness)}`]] as const)),
    ...(step === null ? [] : ([[step < 0 ? 'Proud by' : 'Step', sayLength(plan, step)]] as const)),
  ];
  return <Figures rows={rows} />;
}

function CornerDrawing({ section }: { readonly section: AtCorner }) {
  const all = [...section.before, ...section.after, ...section.faces];
  const xs = all.map(([x]) => x);
  const ys = all.map(([, y]) => y);
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  const [wide, high] = [Math.max(...xs) - left, Math.max(...ys) - top];
  const scale = Math.min((WIDE - 20) / Math.max(wide, 1), (HIGH - 20) / Math.max(high, 1));
  const put = ([x, y]: Spot): Spot => [
    (WIDE - wide * scale) / 2 + (x - left) * scale,
    (HIGH - high * scale) / 2 + (y - top) * scale,
  ];
  const worked = section.joint?.coped ?? null;
  const both = section.joint?.joint === 'mitre';
  const name = (side: 'before' | 'after') =>
    both || worked === side ? 'section-base worked' : 'section-base';
  return (
    <svg className="section-drawing" viewBox={`0 0 ${WIDE} ${HIGH}`} role="img" aria-label={section.words}>
      <path className={name('before')} d={path(section.before, put)} />
      <path className={name('after')} d={path(section.after, put)} />
      <path className="section-face" d={path(section.faces, put, false)} />
    </svg>
  );
}

function CornerFigures({ plan, section }: { readonly plan: Plan; readonly section: AtCorner }) {
  const joint = section.joint!;
  const rows: readonly (readonly [string, string])[] = [
    ['Joint', joint.joint === 'block' ? 'block, both boards square' : joint.joint],
    ['Saw', formatSaw(joint.sawDeg)],
    ['Board before', sayLength(plan, joint.before.profile.thickness)],
    ['Board after', sayLength(plan, joint.after.profile.thickness)],
  ];
  return (
    <>
      <Figures rows={rows} />
      {joint.coped === null ? null : (
        <p className="soft">The shaded board is worked; the other runs through.</p>
      )}
    </>
  );
}

export function UprightView({
  plan,
  upright,
  room,
}: {
  readonly plan: Plan;
  readonly upright: Upright;
  readonly room: string;
}) {
  const { base, bottom, top, floor, gap, oldFloor, oldLine, shoe, covers } = upright;
  const heights = [0, bottom, top, floor ?? 0, oldFloor ?? 0, oldLine ?? 0];
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const tall = high - low + 16 * 320;
  const scale = Math.min((HIGH - 16) / tall, 1.1 / 320);
  const yOf = (height: number): number => HIGH - 10 - (height - low) * scale;
  const wallX = 34;
  const t = base.thickness * scale;
  const short = covers !== null && covers < 0;
  const floorY = yOf(floor ?? bottom - gap);
  // Two names that would touch are drawn apart, the higher one up.
  const names: { at: number; y: number; words: string; line: string }[] = [];
  const say = (height: number | null, words: string, line: string): void => {
    if (height !== null) names.push({ at: yOf(height), y: yOf(height), words, line });
  };
  say(top, `top ${sayLength(plan, top)}`, 'section-line');
  say(oldLine, `old line ${sayLength(plan, oldLine ?? 0)}`, 'section-old');
  say(floor, `new floor ${sayLength(plan, floor ?? 0)}`, 'section-line');
  say(oldFloor === floor ? null : oldFloor, `old floor ${sayLength(plan, oldFloor ?? 0)}`, 'section-old');
  names.sort((a, b) => a.at - b.at);
  names.forEach((each, at) => {
    const before = names[at - 1];
    if (before !== undefined) each.y = Math.max(each.y, before.y + 15);
  });
  const spill = Math.max(0, (names.at(-1)?.y ?? 0) - (HIGH - 4));
  for (const each of names) each.y -= spill;
  return (
    <figure className="section">
      <figcaption>
        <strong>Base, old line and floor</strong>
        <span className="soft"> {room}, cut plumb</span>
      </figcaption>
      <svg className="section-drawing" viewBox={`0 0 ${WIDE} ${HIGH}`} role="img" aria-label={upright.words}>
        <rect className="section-wall" x={wallX - 16} y={0} width={16} height={HIGH} />
        <line className="section-line" x1={wallX} y1={0} x2={wallX} y2={HIGH} />
        <rect className="section-floor" x={wallX} y={floorY} width={96} height={Math.max(0, HIGH - floorY)} />
        <line className="section-line" x1={wallX} y1={floorY} x2={wallX + 96} y2={floorY} />
        <rect className="section-base" x={wallX} y={yOf(top)} width={t} height={yOf(bottom) - yOf(top)} />
        {shoe?.height === undefined ? null : (
          <rect
            className="section-casing"
            x={wallX + t}
            y={floorY - shoe.height * scale}
            width={shoe.thickness * scale}
            height={shoe.height * scale}
          />
        )}
        {short && oldLine !== null ? (
          <rect
            className="section-proud"
            x={wallX - 3}
            y={yOf(oldLine)}
            width={6}
            height={Math.max(1, yOf(top) - yOf(oldLine))}
          />
        ) : null}
        {names.map((each) => (
          <g key={each.words}>
            <path
              className={each.line}
              d={`M${wallX} ${each.at}L${wallX + 104} ${each.at}L${wallX + 116} ${each.y}`}
            />
            <text x={wallX + 120} y={each.y + 4}>
              {each.words}
            </text>
          </g>
        ))}
      </svg>
      <p className={short ? 'wrong' : ''}>{upright.words}</p>
      <Figures
        rows={[
          ['Base', `${base.name}, ${sayLength(plan, base.height ?? 0)} × ${sayLength(plan, base.thickness)}`],
          ...(gap > 0 ? ([['Gap under it', sayLength(plan, gap)]] as const) : []),
          ...(covers === null
            ? []
            : ([[covers < 0 ? 'Short by' : 'Covers by', sayLength(plan, covers)]] as const)),
        ]}
      />
    </figure>
  );
}

function Figures({ rows }: { readonly rows: readonly (readonly [string, string])[] }) {
  return (
    <dl className="section-figures">
      {rows.map(([name, figure]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{figure}</dd>
        </div>
      ))}
    </dl>
  );
}
