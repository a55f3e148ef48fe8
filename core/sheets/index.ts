export { csvFiles } from './csv.ts';
export { cutName, openingNameOf, roomNameOf } from './cut-names.ts';
export { type CutThing, cutOutline, cutThings, laidThings } from './cut-things.ts';
export { INKS } from './inks.ts';
export {
  type Item,
  SHEET_SIZES,
  type Sheet,
  type SheetSet,
  type SheetSize,
  type TextMeasure,
} from './items.ts';
export { fontMetrics } from './measure.ts';
export { type SawGroup, sawGroups } from './saw-groups.ts';
export { PLAN_SCALE_KEYS, PLAN_SCALES } from './scale.ts';
export { textItems } from './sheet-faults.ts';
export { type SetOptions, scaleFault, sheetSet } from './sheetset.ts';
export { unprinted } from './unprinted.ts';
export { CASING_PARTS, nameOr } from './words.ts';
