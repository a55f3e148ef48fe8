export { csvFiles } from './csv.ts';
export { type CutThing, cutOutline, cutThings } from './cut-things.ts';
export {
  type Item,
  SHEET_SIZES,
  type Sheet,
  type SheetSet,
  type SheetSize,
  type TextMeasure,
} from './items.ts';
export { textItems } from './kit.ts';
export { fontMetrics } from './measure.ts';
export { sheetSet } from './sheetset.ts';
export { CASING_PARTS, nameOr, OPENING_KINDS } from './words.ts';
