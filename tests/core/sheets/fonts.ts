// The fonts and the measure that every sheet test uses, loaded once per test file.

import { fontMetrics } from '../../../core/sheets/measure.ts';
import { loadFonts } from '../../../electron/services/fonts.ts';

export const fonts = await loadFonts();
export const measure = fontMetrics(fonts);
