// On what the plan is to be handed over: one choice, whether it is made at the preview or in a dialog.

import type { SheetSize } from '../../../core/sheets/index.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { AS_FITS, askedScale, type ScaleChoice, usualSheet } from './sheets.ts';

export interface SheetChoice {
  readonly sheet: SheetSize;
  readonly scale: ScaleChoice;
  /** The scale as calls take it; undefined: each plan as large as fits. */
  readonly askedScale: string | undefined;
  readonly setSheet: (sheet: SheetSize) => void;
  readonly setScale: (scale: ScaleChoice) => void;
}

export function useSheetChoice(units: 'imperial' | 'metric'): SheetChoice {
  const app = useApp();
  const { sheet, scale } = usePicked((state) => state.sheets);
  const asked = askedScale(scale ?? AS_FITS, units);
  return {
    sheet: sheet ?? usualSheet(units),
    scale: asked ?? AS_FITS,
    askedScale: asked,
    setSheet: (chosen) => app.change(({ sheets }) => ({ sheets: { ...sheets, sheet: chosen } })),
    setScale: (chosen) => app.change(({ sheets }) => ({ sheets: { ...sheets, scale: chosen } })),
  };
}
