// What sheet.ts runs in the page: frames of a gesture on the sheet, and the same frames on a bare canvas with the walls
// alone, culled to the same view. Each frame leaves a mark for the trace. These functions go to the page as text: they use
// nothing outside themselves.

/** Where a frame was looked at: as the window's state has it. */
export interface View {
  readonly centre: readonly [number, number];
  readonly pixelsPerTick: number;
  readonly width: number;
  readonly height: number;
}

export type Kind = 'pan' | 'zoom' | 'move' | 'still';

interface Block {
  readonly kind: Kind;
  /** Where the pointer is, CSS pixels of the page. */
  readonly x: number;
  readonly y: number;
  /** The number of the first frame: a gesture goes on from block to block. */
  readonly from: number;
  readonly count: number;
  /** Names the marks. */
  readonly tag: string;
}

/** Sends one event a frame and gives back where each frame looked. */
export async function sheetFrames({ kind, x, y, from, count, tag }: Block): Promise<readonly View[]> {
  const paper = document.querySelector<HTMLElement>('.sheet-paper')!;
  // The window's state, through React's own tree: what the sheet shows is not for a page to ask.
  const key = Object.keys(paper).find((name) => name.startsWith('__reactFiber$'))!;
  type Fiber = { memoizedProps: { value?: { store?: { get(): { viewport: View } } } }; return: Fiber | null };
  let fiber: Fiber | null = (paper as unknown as Record<string, Fiber>)[key]!;
  while (fiber !== null && fiber.memoizedProps?.value?.store === undefined) fiber = fiber.return;
  const { store } = fiber!.memoizedProps.value!;
  const next = () => new Promise<number>((done) => requestAnimationFrame(done));
  const common = { bubbles: true, cancelable: true, pointerId: 1 };
  const views: View[] = [];
  await next();
  for (let i = from; i < from + count; i++) {
    const turn = (i / 60) * 2 * Math.PI;
    const swing =
      kind === 'pan'
        ? [220 * Math.sin(turn), 140 * Math.sin(2 * turn)]
        : [60 * Math.sin(turn), 25 * Math.sin(2 * turn)];
    const at = { clientX: x + swing[0]!, clientY: y + swing[1]! };
    if (kind === 'zoom')
      paper.dispatchEvent(
        new WheelEvent('wheel', { ...common, clientX: x, clientY: y, deltaY: i % 60 < 30 ? -20 : 20 }),
      );
    else if (kind !== 'still')
      paper.dispatchEvent(
        new PointerEvent('pointermove', { ...common, ...at, buttons: kind === 'pan' ? 4 : 1 }),
      );
    await next();
    performance.mark(`${tag}:sheet`);
    views.push(store!.get().viewport);
  }
  return views;
}

/** The same walls on a canvas of their own: a path for each, filled and outlined, those out of sight left out. */
export async function bareFrames({
  views,
  tag,
}: {
  readonly views: readonly View[];
  readonly tag: string;
}): Promise<number> {
  const paper = document.querySelector('.sheet-paper')!.getBoundingClientRect();
  const { bareWalls: walls } = globalThis as unknown as { bareWalls: readonly (readonly number[])[] };
  let canvas = document.querySelector<HTMLCanvasElement>('#bare-canvas');
  if (canvas === null) {
    canvas = document.createElement('canvas');
    canvas.id = 'bare-canvas';
    canvas.width = paper.width * devicePixelRatio;
    canvas.height = paper.height * devicePixelRatio;
    document.body.append(canvas);
  }
  canvas.style.cssText = `position:fixed;left:${paper.left}px;top:${paper.top}px;width:${paper.width}px;height:${paper.height}px;z-index:99`;
  const context = canvas.getContext('2d')!;
  const next = () => new Promise<number>((done) => requestAnimationFrame(done));
  let drawn = 0;
  await next();
  for (const { centre, pixelsPerTick: by, width, height } of views) {
    const [dx, dy] = [width / 2 - centre[0] * by, height / 2 - centre[1] * by];
    context.setTransform(devicePixelRatio, 0, 0, devicePixelRatio, 0, 0);
    context.fillStyle = '#fffdf7';
    context.fillRect(0, 0, width, height);
    context.fillStyle = '#8b8273';
    context.strokeStyle = '#26241f';
    context.lineWidth = 1.25;
    drawn = 0;
    for (const q of walls) {
      const [x0, y0, x1, y1] = [q[0]! * by + dx, q[1]! * by + dy, q[4]! * by + dx, q[5]! * by + dy];
      if (
        Math.max(x0, x1) < -8 ||
        Math.max(y0, y1) < -8 ||
        Math.min(x0, x1) > width + 8 ||
        Math.min(y0, y1) > height + 8
      )
        continue;
      drawn++;
      context.beginPath();
      context.moveTo(x0, y0);
      context.lineTo(q[2]! * by + dx, q[3]! * by + dy);
      context.lineTo(x1, y1);
      context.lineTo(q[6]! * by + dx, q[7]! * by + dy);
      context.closePath();
      context.fill();
      context.stroke();
    }
    await next();
    performance.mark(`${tag}:bare`);
  }
  canvas.style.display = 'none';
  return drawn;
}
