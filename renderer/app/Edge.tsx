// The edge between a side panel and the sheet: dragged, or moved with the arrow keys, it gives the panel its width.

import { useRef } from 'react';
import { remPx } from './room.ts';

export interface EdgeProps {
  readonly label: string;
  /** Width of the panel, rem. */
  readonly width: number;
  readonly least: number;
  readonly most: number;
  /** Which way the panel grows: 1 to the right, -1 to the left. */
  readonly grows: 1 | -1;
  readonly onSet: (width: number) => void;
}

export function Edge({ label, width, least, most, grows, onSet }: EdgeProps) {
  const began = useRef<{ readonly x: number; readonly width: number; readonly rem: number } | null>(null);
  const set = (next: number): void => onSet(Math.min(most, Math.max(least, next)));
  return (
    // biome-ignore lint/a11y/useSemanticElements: a rule cannot be moved; a separator with a value can
    <div
      className={grows === 1 ? 'edge edge-right' : 'edge edge-left'}
      role="separator"
      tabIndex={0}
      aria-orientation="vertical"
      aria-label={label}
      aria-valuenow={Math.round(width)}
      aria-valuemin={least}
      aria-valuemax={most}
      title={`${label} (arrow keys)`}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        began.current = { x: event.clientX, width, rem: remPx() };
      }}
      onPointerMove={(event) => {
        const from = began.current;
        if (from !== null) set(from.width + (grows * (event.clientX - from.x)) / from.rem);
      }}
      onPointerUp={() => {
        began.current = null;
      }}
      onPointerCancel={() => {
        if (began.current !== null) set(began.current.width);
        began.current = null;
      }}
      onKeyDown={(event) => {
        const by = event.key === 'ArrowLeft' ? -grows : event.key === 'ArrowRight' ? grows : 0;
        if (by === 0) return;
        event.preventDefault();
        set(width + by);
      }}
    />
  );
}
