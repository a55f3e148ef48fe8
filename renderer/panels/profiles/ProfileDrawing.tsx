// A moulding in section, in true proportion: against the wall, with its sizes beside it.

import type { Plan, Profile } from '../../../core/plan/index.ts';
import { sayLength } from '../../../core/trim/index.ts';

const BOX = 190;
const PAD = 44;

export function ProfileDrawing({ plan, profile }: { readonly plan: Plan; readonly profile: Profile }) {
  const { kind, thickness, form } = profile;
  const shape =
    kind === 'crown' ? crownShape(profile) : kind === 'casing' ? casingShape(profile) : boardShape(profile);
  if (shape === null)
    return <p className="soft profile-none">Its section is drawn when its sizes are known.</p>;
  const scale = (BOX - 2 * PAD) / Math.max(shape.wide, shape.high);
  const [wide, high] = [shape.wide * scale, shape.high * scale];
  const left = (BOX - wide) / 2;
  const top = (BOX - high) / 2;
  const put = ([x, y]: readonly [number, number]) =>
    `${(left + x * scale).toFixed(2)} ${(top + y * scale).toFixed(2)}`;
  const d = `M${shape.points.map(put).join('L')}Z`;
  const across = kind === 'crown' ? profile.projection! : kind === 'casing' ? profile.width! : thickness;
  const down = kind === 'crown' ? profile.drop! : kind === 'casing' ? thickness : profile.height!;
  const words = `Section: ${sayLength(plan, across)} across, ${sayLength(plan, down)} ${kind === 'casing' ? 'thick' : 'high'}, ${form}`;
  return (
    <svg className="profile-drawing" viewBox={`0 0 ${BOX} ${BOX}`} role="img" aria-label={words}>
      {kind === 'casing' ? (
        <rect className="profile-wall" x={left - 12} y={top - 10} width={wide + 24} height={10} />
      ) : (
        <rect className="profile-wall" x={left - 10} y={top - 12} width={10} height={high + 24} />
      )}
      {kind === 'crown' ? (
        <rect className="profile-wall" x={left - 10} y={top - 12} width={wide + 24} height={12} />
      ) : null}
      <path className="profile-shape" d={d} />
      <text x={left + wide / 2} y={top + high + 22} textAnchor="middle">
        {sayLength(plan, across)}
      </text>
      <text x={left + wide + 8} y={top + high / 2 + 4}>
        {sayLength(plan, down)}
      </text>
    </svg>
  );
}

interface Shape {
  readonly wide: number;
  readonly high: number;
  readonly points: readonly (readonly [number, number])[];
}

/** Base, shoe, rails: the wall on the left, the top up. A shaped one is drawn with an eased top; its curve is not known. */
function boardShape({ height, thickness: t, form }: Profile): Shape | null {
  if (height === undefined) return null;
  const ease = Math.min(height * 0.25, t * 1.2);
  const points: readonly (readonly [number, number])[] =
    form === 'flat'
      ? [
          [0, 0],
          [t, 0],
          [t, height],
          [0, height],
        ]
      : [
          [0, 0],
          [t * 0.45, 0],
          [t * 0.62, ease * 0.35],
          [t * 0.9, ease * 0.7],
          [t, ease],
          [t, height],
          [0, height],
        ];
  return { wide: t, high: height, points };
}

/** A casing lies on the wall: jamb on the left, outer edge on the right. */
function casingShape({ width, thickness: t, edgeThickness, form }: Profile): Shape | null {
  if (width === undefined) return null;
  const edge = edgeThickness ?? t;
  const inner = form === 'flat' ? t : t * 0.6;
  const points: readonly (readonly [number, number])[] = [
    [0, 0],
    [0, inner],
    [width * (form === 'flat' ? 0.02 : 0.3), t],
    [width * 0.6, t],
    [width, edge],
    [width, 0],
  ];
  return { wide: width, high: Math.max(t, edge), points };
}

/** Crown: wall on the left, ceiling above; its back leans between them. */
function crownShape({ projection: p, drop: d, thickness: t }: Profile): Shape | null {
  if (p === undefined || d === undefined) return null;
  const slope = Math.hypot(p, d);
  const foot = Math.min(t * 0.5, d * 0.3);
  const lip = Math.min(t * 0.5, p * 0.3);
  const into = Math.min(t, (p * d) / slope / 1.5);
  const [nx, ny] = [d / slope, p / slope];
  const points: readonly (readonly [number, number])[] = [
    [0, d],
    [foot, d],
    [p * 0.3 + nx * into * 0.4, d * 0.7 + ny * into * 0.4],
    [p * 0.7 + nx * into * 0.4, d * 0.3 + ny * into * 0.4],
    [p, lip],
    [p, 0],
    [p - lip, 0],
    [0, d - foot],
  ];
  return { wide: p, high: d, points };
}
