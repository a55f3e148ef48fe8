// Trim on a walked level: angles, joints, which board is worked, pieces and casings.

export { ANGLE_TOLERANCE_DEG, cornerAngles } from './angles.ts';
export { casingsOf, type EarlierCasings } from './casings.ts';
export * from './lengths.ts';
export { sayLength } from './say.ts';
export { longestStock, stockLengths } from './scarfs.ts';
export { bandOf, profileOn } from './stretches.ts';
export { trimRoom } from './trim-room.ts';
export * from './types.ts';
export { type Aim, type Chain, chooseWorked, type JunctionOption, puttingUp, type Worked } from './worked.ts';
