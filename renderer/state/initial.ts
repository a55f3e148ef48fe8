// The window's state before a plan is open, and the drawing options a plan starts with. Lengths in ticks.

import { ticksFromMm } from '../../core/units/index.ts';
import type { DrawingOptions } from '../tools/types.ts';
import type { AppState } from './app-state.ts';
import { REAL_SIZE } from './viewport.ts';

const mm = ticksFromMm;

/** What people draw most often, in round figures of either system. Common practice, no published source. */
export function drawingOptions(units: 'imperial' | 'metric'): DrawingOptions {
  const pick = (imperialMm: number, metricMm: number): number =>
    mm(units === 'imperial' ? imperialMm : metricMm);
  return {
    along: 'inside',
    thickness: pick(114.3, 115), // 2 × 4 stud and 1/2 in board on both sides: 4 1/2 in
    halfWallHeight: pick(1066.8, 1050),
    openingKind: 'door',
    openingWidth: pick(812.8, 810),
    openingHeight: pick(2032, 2030),
    openingSill: 0,
    builtInKind: 'cabinet',
    builtInWidth: pick(914.4, 900),
    builtInDepth: pick(609.6, 600),
    builtInBottom: 0,
    builtInTop: pick(914.4, 900),
    markKind: 'outlet',
  };
}

export function initialState(): AppState {
  return {
    start: null,
    open: null,
    solution: { state: 'none' },
    stage: 'draw',
    level: null,
    selection: [],
    hover: null,
    viewport: { centre: [0, 0], pixelsPerTick: REAL_SIZE / 40, width: 0, height: 0 },
    textScale: 1,
    covered: { left: 0, right: 0 },
    shownWhole: null,
    tool: { id: 'select', state: null },
    drawing: drawingOptions('imperial'),
    snapping: { on: true, grid: null, angleStepDeg: 15 },
    recent: [],
    strip: false,
    finding: null,
    panels: { walk: 'auto', side: 'auto' },
    theme: 'system',
    dialog: null,
    sheets: { sheet: null, scale: null },
    opening: false,
    notices: [],
    spoken: '',
    clipboard: null,
  };
}
