// The sheet: the plan on paper, in three layers. What lies still, its labels, and what moves over both. A frame paints what
// the screen shows; a layer is painted again only when something it shows has changed.

import type Konva from 'konva';
import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { Layer, Shape, Stage } from 'react-konva';
import type { Point } from '../../core/graph/index.ts';
import type { DerivedLevel } from '../../core/report/index.ts';
import { useApp, usePicked } from '../state/react.ts';
import { derivedLevelOf, levelOf, shownOf } from '../state/selectors.ts';
import { pictureOf } from '../tools/run.ts';
import { paintBoards } from './boards.ts';
import { Corner } from './Corner.tsx';
import { paintGrid } from './grid.ts';
import { groundOf } from './ground.ts';
import { labelBook } from './label-book.ts';
import { openFlag } from './open-flag.ts';
import { paintOverlay } from './overlay.ts';
import { notePainted } from './painted.ts';
import { paletteOf } from './palette.ts';
import { paintPinned } from './pinned.ts';
import { listenToPointer } from './pointer.ts';
import { wordsOf } from './sheet-words.ts';
import { fittedTo } from './view-moves.ts';
import { followSize, useMeasure, usePaper, usePixelRatio } from './watch.ts';
import './sheet.css';

/** How long a frame may place labels, ms: the rest of it is for painting. */
const PLACING_MS = 5;
const NO_FINDINGS: readonly never[] = [];

export function Sheet() {
  const app = useApp();
  const element = useRef<HTMLDivElement>(null);
  const top = useRef<Konva.Layer>(null);
  const pointer = useRef<Point | null>(null);
  const [hand, setHand] = useState<'grab' | 'grabbing' | null>(null);
  const level = usePicked(derivedLevelOf);
  const name = usePicked((state) => levelOf(state)?.name ?? '');
  const cursor = usePicked((state) => pictureOf(state)?.cursor ?? 'default');
  const over = usePicked((state) => state.hover?.kind);
  const sized = usePicked((state) => state.viewport.width > 0);
  const handle = usePicked((state) => state.open?.view.handle ?? null);

  useEffect(() => {
    const own = element.current;
    if (own === null) return;
    const ends = [
      followSize(app, own),
      listenToPointer(app, own, {
        at: (place) => {
          pointer.current = place;
          if (app.store.get().stage === 'draw') top.current?.batchDraw();
        },
        hand: setHand,
        pressed: (place) => openFlag(app, place),
      }),
    ];
    return () => {
      for (const end of ends) end();
    };
  }, [app]);

  // A plan that is opened is shown whole; after that the view is the user's.
  useEffect(() => {
    if (!sized || handle === null || app.store.get().shownWhole === handle) return;
    app.change((state) => ({
      shownWhole: handle,
      viewport: fittedTo(state.viewport, derivedLevelOf(state)),
    }));
  }, [app, sized, handle]);

  return (
    <div className="sheet">
      <div
        ref={element}
        className="sheet-paper"
        role="application"
        aria-label={name === '' ? 'The sheet' : `The sheet: ${name}`}
        aria-describedby="sheet-twin"
        aria-details="frame-walk"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the drawing takes keys; its text twin is the walk
        tabIndex={0}
        data-focus
        data-keys="sheet"
        data-over={over}
        style={{ cursor: hand ?? (cursor === 'default' && over !== undefined ? 'pointer' : cursor) }}
      >
        {level === null || !sized ? null : <Layers level={level} top={top} pointer={pointer} />}
      </div>
      <p id="sheet-twin" className="unseen">
        The plan as drawn. The walk lists the same house as text, and everything can be done from there.
      </p>
      <Corner />
    </div>
  );
}

interface LayersProps {
  readonly level: DerivedLevel;
  readonly top: React.RefObject<Konva.Layer | null>;
  readonly pointer: React.RefObject<Point | null>;
}

function Layers({ level, top, pointer }: LayersProps) {
  const viewport = usePicked((state) => state.viewport);
  const ratio = usePixelRatio();
  const stage = useRef<Konva.Stage>(null);
  useEffect(() => {
    for (const layer of stage.current?.getLayers() ?? []) {
      layer.getCanvas().setPixelRatio(ratio);
      layer.batchDraw();
    }
  }, [ratio]);
  return (
    <Stage
      ref={stage}
      width={viewport.width}
      height={viewport.height}
      listening={false}
      className="sheet-canvas"
    >
      <GroundLayer level={level} />
      <LabelLayer level={level} />
      <TopLayer level={level} layer={top} pointer={pointer} />
    </Stage>
  );
}

/** The browser's own context of a layer, in CSS pixels. */
function bare(context: Konva.Context): CanvasRenderingContext2D {
  return context._context as CanvasRenderingContext2D;
}

function GroundLayer({ level }: { readonly level: DerivedLevel }) {
  const viewport = usePicked((state) => state.viewport);
  const stage = usePicked((state) => state.stage);
  const grid = usePicked((state) => state.snapping.grid);
  const palette = paletteOf(usePaper());
  const paint = useCallback(
    (konva: Konva.Context) => {
      const context = bare(konva);
      context.fillStyle = palette.ground;
      context.fillRect(0, 0, viewport.width, viewport.height);
      if (grid !== null) paintGrid(context, viewport, grid, palette);
      groundOf(level).paint(context, viewport, palette);
      if (stage === 'trim') paintBoards(context, level.trims, viewport, palette);
    },
    [level, viewport, stage, grid, palette],
  );
  return (
    <Layer listening={false} clearBeforeDraw={false}>
      <Shape sceneFunc={paint} listening={false} perfectDrawEnabled={false} />
    </Layer>
  );
}

function LabelLayer({ level }: { readonly level: DerivedLevel }) {
  const viewport = usePicked((state) => state.viewport);
  const stage = usePicked((state) => state.stage);
  const findings = usePicked((state) => shownOf(state)?.findings ?? NO_FINDINGS);
  const words = usePicked(({ open }) => (open === null ? null : wordsOf(open.plan)));
  const measure = useMeasure();
  const palette = paletteOf(usePaper());
  const layer = useRef<Konva.Layer>(null);
  const changing = usePicked((state) => pictureOf(state)?.preview != null);
  // Figures of what is being moved are those of before: they stand back until it is done.
  useEffect(() => {
    const own = layer.current?.getNativeCanvasElement();
    if (own) own.style.opacity = changing ? '0.3' : '1';
  }, [changing]);
  const book = useMemo(() => labelBook(measure, () => performance.now()), [measure]);
  const paint = useCallback(
    (konva: Konva.Context) => {
      if (words === null) return;
      const context = bare(konva);
      const asked = { level, findings, stage, viewport, words };
      const { labels, more } = book.labels(asked, performance.now() + PLACING_MS);
      const ratio = context.getTransform().a;
      paintPinned(context, labels, viewport, palette, ratio);
      notePainted(level, stage, labels);
      if (more) requestAnimationFrame(() => layer.current?.batchDraw());
    },
    [level, findings, stage, viewport, words, palette, book],
  );
  return (
    <Layer ref={layer} listening={false}>
      <Shape sceneFunc={paint} listening={false} perfectDrawEnabled={false} />
    </Layer>
  );
}

function TopLayer({
  level,
  layer,
  pointer,
}: {
  readonly level: DerivedLevel;
  readonly layer: React.RefObject<Konva.Layer | null>;
  readonly pointer: React.RefObject<Point | null>;
}) {
  const viewport = usePicked((state) => state.viewport);
  const stage = usePicked((state) => state.stage);
  const selection = usePicked((state) => state.selection);
  const hover = usePicked((state) => state.hover);
  const picture = usePicked(pictureOf);
  const palette = paletteOf(usePaper());
  const paint = useCallback(
    (konva: Konva.Context) => {
      const context = bare(konva);
      const asked = { level, stage, selection, hover, picture, pointer: pointer.current };
      paintOverlay(context, asked, viewport, palette);
    },
    [level, viewport, stage, selection, hover, picture, palette, pointer],
  );
  return (
    <Layer ref={layer} listening={false}>
      <Shape sceneFunc={paint} listening={false} perfectDrawEnabled={false} />
    </Layer>
  );
}
