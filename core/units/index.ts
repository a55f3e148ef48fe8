// Lengths, angles and areas: exact ticks, reading what people type, printing.

export { parseAngle } from './angle.ts';
export { formatAngle, formatArea, formatLength, formatSaw, type LengthStyle } from './format.ts';
export { LONGEST_LENGTH, parseLength, type UnitSystem } from './length.ts';
export type { Refusal } from './numbers.ts';
export * from './ticks.ts';
