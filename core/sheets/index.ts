export { csvFiles } from './csv.ts';
export { SHEET_SIZES, type Sheet, type SheetSet, type SheetSize } from './items.ts';
export { fontMetrics } from './measure.ts';
export { sheetSet } from './sheetset.ts';
