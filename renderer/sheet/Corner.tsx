// The corner of the sheet: how large the plan is shown, with a bar to measure it by, and the buttons for the view.

import { useEffect, useRef } from 'react';
import { scaleBar } from '../../core/sheets/scale.ts';
import { CommandButton } from '../panels/kit/CommandButton.tsx';
import { usePicked } from '../state/react.ts';
import { REAL_SIZE } from '../state/viewport.ts';
import { paintWith } from './paint-items.ts';
import { paletteOf } from './palette.ts';
import { POINT_PX } from './steps.ts';
import { zoomWords } from './view-moves.ts';
import { useCalmly, useMeasure, usePaper, usePixelRatio } from './watch.ts';

/** Of the bar with its figures at most, pixels of the sheet. */
const [WIDTH, HEIGHT] = [190, 26];

export function Corner() {
  const stage = usePicked((state) => state.stage);
  return (
    <div className="sheet-corner">
      <ScaleBar />
      {stage === 'measure' ? (
        <p className="sheet-note">
          <b>Bold</b>: measured. (In brackets): only drawn.
        </p>
      ) : null}
      <div className="sheet-buttons">
        <CommandButton id="view.zoomOut" label="Zoom out">
          −
        </CommandButton>
        <CommandButton id="view.fitAll" label="Fit the whole plan">
          Fit
        </CommandButton>
        <CommandButton id="view.zoomIn" label="Zoom in">
          +
        </CommandButton>
      </div>
    </div>
  );
}

function ScaleBar() {
  const canvas = useRef<HTMLCanvasElement>(null);
  const textScale = usePicked((state) => state.textScale);
  const zoom = useCalmly((state) => state.viewport.pixelsPerTick * state.textScale);
  const units = usePicked((state) => state.open?.plan.units ?? 'imperial');
  const palette = paletteOf(usePaper());
  const ratio = usePixelRatio() * textScale;
  const measure = useMeasure();
  useEffect(() => {
    const board = canvas.current;
    const context = board?.getContext('2d');
    if (!board || !context) return;
    const spec = {
      at: [3, 3] as const,
      width: (WIDTH - 8) / POINT_PX,
      ratio: REAL_SIZE / (zoom / textScale),
      units,
    };
    const bar = scaleBar(measure, spec);
    const width = Math.min(WIDTH, Math.ceil(bar.width * POINT_PX) + 10);
    board.width = Math.round(width * ratio);
    board.height = Math.round(HEIGHT * ratio);
    board.style.width = `${width * textScale}px`;
    context.setTransform(POINT_PX * ratio, 0, 0, POINT_PX * ratio, 0, 0);
    paintWith(context, bar.items, palette);
  }, [zoom, units, palette, ratio, textScale, measure]);
  return (
    <div className="sheet-scale">
      <canvas ref={canvas} width={WIDTH} height={HEIGHT} style={{ height: HEIGHT * textScale }} />
      <span>{zoomWords(zoom, units)}</span>
    </div>
  );
}
