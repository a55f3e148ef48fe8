// The sheet: the plan on paper, in two layers. What lies still with its labels, and what moves over it. A frame paints what
// the screen shows; a layer is painted again only when something it shows has changed.

import type Konva from 'konva';
import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { Layer, Shape, Stage } from 'react-konva';
import type { Point } from '../../core/graph/index.ts';
import type { DerivedLevel } from '../../core/report/index.ts';
import { flagFindings } from '../../core/sheets/plan-options.ts';
import { findingKey } from '../panels/pencil/findings.ts';
import type { App } from '../state/app.ts';
import { useApp, usePicked } from '../state/react.ts';
import { derivedLevelOf, levelOf, shownOf } from '../state/selectors.ts';
import { pictureOf } from '../tools/run.ts';
import { Corner } from './Corner.tsx';
import { labelBook } from './label-book.ts';
import { openFlag } from './open-flag.ts';
import { overlayShows, paintOverlay } from './overlay.ts';
import { type Overview, overviewOn } from './overview.ts';
import { paletteOf } from './palette.ts';
import { listenToPointer } from './pointer.ts';
import { wordsOf } from './sheet-words.ts';
import { stillPicture } from './still.ts';
import { fittedTo } from './view-moves.ts';
import { followSize, useMeasure, usePaper, usePixelRatio } from './watch.ts';
import './sheet.css';

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
  const { ground } = paletteOf(usePaper());
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
        style={{
          background: ground,
          cursor: hand ?? (cursor === 'default' && over !== undefined ? 'pointer' : cursor),
        }}
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
  const width = usePicked((state) => state.viewport.width);
  const height = usePicked((state) => state.viewport.height);
  const textScale = usePicked((state) => state.textScale);
  const ratio = usePixelRatio() * textScale;
  const stage = useRef<Konva.Stage>(null);
  const overview = useRef<Overview>(null);
  const under = useCallback((canvas: HTMLCanvasElement | null) => {
    overview.current = canvas && overviewOn(canvas);
  }, []);
  useEffect(() => {
    for (const layer of stage.current?.getLayers() ?? []) {
      layer.getCanvas().setPixelRatio(ratio);
      layer.batchDraw();
    }
  }, [ratio]);
  return (
    <div style={{ zoom: textScale }}>
      <Stage ref={stage} width={width} height={height} listening={false} className="sheet-canvas">
        <StillLayer level={level} overview={overview} />
        <TopLayer level={level} layer={top} pointer={pointer} />
      </Stage>
      <canvas ref={under} className="sheet-overview" />
    </div>
  );
}

/** The letter of the finding that the red pencil has open, where it is on this level. */
function useOpenLetter({ walk }: DerivedLevel): string | null {
  const key = usePicked((state) => state.finding);
  const shown = usePicked(shownOf);
  return useMemo(() => {
    if (key === null || shown === null) return null;
    const flagged = flagFindings(shown.findings, walk.levelId);
    return flagged.find(({ finding }) => findingKey(finding, shown) === key)?.letter ?? null;
  }, [key, shown, walk]);
}

/** The browser's own context of a layer, in pixels of the sheet. */
function bare(context: Konva.Context): CanvasRenderingContext2D {
  return context._context as CanvasRenderingContext2D;
}

function StillLayer({
  level,
  overview,
}: {
  readonly level: DerivedLevel;
  readonly overview: React.RefObject<Overview | null>;
}) {
  const app = useApp();
  const stage = usePicked((state) => state.stage);
  const grid = usePicked((state) => state.snapping.grid);
  const findings = usePicked((state) => shownOf(state)?.findings ?? NO_FINDINGS);
  const words = usePicked(({ open }) => (open === null ? null : wordsOf(open.plan)));
  // Also where what is moved is back where it was: the picture is not to change to and fro.
  const faint = usePicked(
    (state) => pictureOf(state)?.preview != null || pictureOf(state)?.cursor === 'grabbing',
  );
  const open = useOpenLetter(level);
  const measure = useMeasure();
  const palette = paletteOf(usePaper());
  const layer = useRef<Konva.Layer>(null);
  const still = useMemo(
    () =>
      stillPicture({
        book: labelBook(measure, () => performance.now()),
        view: () => app.store.get().viewport,
        again: () => layer.current?.batchDraw(),
        stretch: (transform, asked, viewport) => {
          const own = layer.current?.getNativeCanvasElement();
          if (own) own.style.transform = transform ?? '';
          if (transform === null) overview.current?.hide();
          else overview.current?.show(asked.level, asked.palette, viewport);
        },
        spare: (asked) => overview.current?.prepare(asked.level, asked.palette),
      }),
    [app, measure, overview],
  );
  useEffect(() => still.end, [still]);
  useViewMoves(app, layer, useRef(true));
  const paint = useCallback(
    (konva: Konva.Context) => {
      if (words !== null)
        still.paint(bare(konva), { level, findings, stage, open, words, grid, palette, faint });
    },
    [level, findings, stage, open, words, grid, palette, faint, still],
  );
  return (
    <Layer ref={layer} listening={false} clearBeforeDraw={false}>
      <Shape sceneFunc={paint} listening={false} perfectDrawEnabled={false} />
    </Layer>
  );
}

/** Draws a layer that shows something again whenever the view has changed: past React, which has nothing to change. */
function useViewMoves(
  app: App,
  layer: React.RefObject<Konva.Layer | null>,
  shows: React.RefObject<boolean>,
): void {
  useEffect(() => {
    let seen = app.store.get().viewport;
    return app.store.listen(() => {
      const { viewport } = app.store.get();
      if (viewport === seen) return;
      seen = viewport;
      if (shows.current) layer.current?.batchDraw();
    });
  }, [app, layer, shows]);
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
  const app = useApp();
  const stage = usePicked((state) => state.stage);
  const selection = usePicked((state) => state.selection);
  const hover = usePicked((state) => state.hover);
  const picture = usePicked(pictureOf);
  const palette = paletteOf(usePaper());
  const shows = useRef(false);
  useViewMoves(app, layer, shows);
  const paint = useCallback(
    (konva: Konva.Context) => {
      const asked = { level, stage, selection, hover, picture, pointer: pointer.current };
      shows.current = overlayShows(asked);
      if (shows.current) paintOverlay(bare(konva), asked, app.store.get().viewport, palette);
    },
    [app, level, stage, selection, hover, picture, palette, pointer],
  );
  return (
    <Layer ref={layer} listening={false}>
      <Shape sceneFunc={paint} listening={false} perfectDrawEnabled={false} />
    </Layer>
  );
}
