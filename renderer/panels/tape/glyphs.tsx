// The tools' own glyphs: small line drawings of what each puts on the sheet. 20 × 20, drawn with the text's colour.

import type { ReactNode } from 'react';
import type { ToolId } from '../../tools/types.ts';

function glyph(children: ReactNode): ReactNode {
  return (
    <svg
      viewBox="0 0 20 20"
      className="tools-glyph"
      fill="none"
      stroke="currentColor"
      strokeWidth="1.5"
      strokeLinecap="square"
      aria-hidden="true"
      focusable="false"
    >
      {children}
    </svg>
  );
}

export const GLYPHS: Readonly<Record<ToolId, ReactNode>> = {
  // A carpenter's pencil laid across the sheet, its point on what is chosen.
  select: glyph(
    <>
      <path d="M3.5 3.5 5 9l8.5 8.5 4-4L9 5Z" />
      <path d="M5 9l4-4" />
    </>,
  ),
  // Two faces of a wall going round a corner.
  wall: glyph(
    <>
      <path d="M2.5 3H17v14.5" />
      <path d="M2.5 7H13v10.5" />
    </>,
  ),
  // Four walls and the two corners that give them.
  room: glyph(
    <>
      <path d="M3 4h14v12H3Z" />
      <circle cx="3" cy="4" r="1.75" fill="currentColor" stroke="none" />
      <circle cx="17" cy="16" r="1.75" fill="currentColor" stroke="none" />
    </>,
  ),
  // A low wall seen from its end, its cap, and the floor.
  halfWall: glyph(
    <>
      <path d="M7.5 16.5V8.5h5v8" />
      <path d="M5.5 6.5h9" strokeWidth="2.5" />
      <path d="M2.5 17h15" />
    </>,
  ),
  // A gap in a wall and the swing of its door.
  opening: glyph(
    <>
      <path d="M1.5 15h3v3h-3M18.5 15h-3v3h3" />
      <path d="M4.5 15V4.5" />
      <path d="M4.5 4.5A10.8 10.8 0 0 1 15.5 15" strokeDasharray="1.5 3" />
    </>,
  ),
  // A box against a wall.
  builtIn: glyph(
    <>
      <path d="M2 3.5h16" strokeWidth="3" />
      <path d="M4.5 6v10.5h11V6" />
      <path d="M4.5 13h11" />
    </>,
  ),
  // A plate low on a wall.
  mark: glyph(
    <>
      <path d="M2.5 17h15" />
      <path d="M6.5 3.5h7v10h-7Z" />
      <path d="M8.75 7v1.5M11.25 7v1.5" />
    </>,
  ),
  // A tape between two ends.
  measure: glyph(
    <>
      <path d="M3 5.5v9M17 5.5v9" />
      <path d="M4 10h12" />
      <path d="M6.5 7.5 4 10l2.5 2.5M13.5 7.5 16 10l-2.5 2.5" />
    </>,
  ),
};
