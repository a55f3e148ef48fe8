// A tape walk drawn small: the walk as typed, open where it misses its start, and the closed room as it would be drawn.

import type { Point } from '../../../core/graph/index.ts';
import { midpoint } from '../../../core/graph/index.ts';
import type { TapeWalk } from '../../../core/survey/index.ts';
import { boundsOfPoints } from '../../state/viewport.ts';

export interface TapeDrawingProps {
  readonly walk: TapeWalk | null;
  /** The closed room's corners on the sheet; null where there is none. */
  readonly shape: readonly Point[] | null;
  /** Where the walk's first point lies on the sheet. */
  readonly at: Point;
}

const SIZE = 220;
const MARGIN = 26;

export function TapeDrawing({ walk, shape, at }: TapeDrawingProps) {
  const own: readonly Point[] = shape?.map(([x, y]) => [x - at[0], y - at[1]]) ?? [];
  const points = walk?.points ?? [];
  const box = boundsOfPoints([...points, ...own]);
  if (walk === null || box === null)
    return (
      <svg className="tapewalk-drawing" viewBox={`0 0 ${SIZE} ${SIZE}`} aria-hidden="true">
        <text x={SIZE / 2} y={SIZE / 2} textAnchor="middle">
          The room is drawn here
        </text>
      </svg>
    );
  const scale = (SIZE - 2 * MARGIN) / Math.max(1, box[2] - box[0], box[3] - box[1]);
  const [left, top] = [(SIZE - (box[2] - box[0]) * scale) / 2, (SIZE - (box[3] - box[1]) * scale) / 2];
  const put = ([x, y]: Point): Point => [left + (x - box[0]) * scale, top + (y - box[1]) * scale];
  const line = (row: readonly Point[]): string =>
    row
      .map(put)
      .map((each) => each.map((part) => part.toFixed(1)).join())
      .join(' ');
  const [start, end] = [put(points[0]!), put(points.at(-1)!)];
  return (
    <svg
      className="tapewalk-drawing"
      viewBox={`0 0 ${SIZE} ${SIZE}`}
      role="img"
      aria-label={`The walk: ${points.length - 1} walls`}
    >
      {own.length > 2 ? <polygon className="tapewalk-room" points={line(own)} /> : null}
      <polyline className="tapewalk-line" points={line(points)} />
      {own.length > 2 ? (
        <line className="tapewalk-miss" x1={start[0]} y1={start[1]} x2={end[0]} y2={end[1]} />
      ) : null}
      <circle className="tapewalk-start" cx={start[0]} cy={start[1]} r="4" />
      <circle className="tapewalk-end" cx={end[0]} cy={end[1]} r="3" />
      {points.slice(1).map((to, i) => {
        const [x, y] = put(midpoint(points[i]!, to));
        return (
          <text key={i} x={x} y={y} textAnchor="middle" dominantBaseline="central">
            {i + 1}
          </text>
        );
      })}
    </svg>
  );
}
