// Thickness, height, crowding, scribing, cautions: what the user should know about the trim of a level.

export type { EngineModel, EngineModelData, SparseEngine } from './engine.ts';
export { solverOn } from './engine.ts';
export { mendedFinding, planFindings } from './house.ts';
export type { FoundLevel, LevelBundle, LevelFindings } from './level.ts';
export { findingsByRoom, findingsOf, levelFindings, sortFindings } from './level.ts';
export type { Caution, RoomNotes } from './notes.ts';
export { jobCautions, roomNotes } from './notes.ts';
export type { Picked } from './picker.ts';
export { pickProfiles } from './picker.ts';
export { UNTOUCHED } from './scribe-board.ts';
export { scribeFindings, scribeWords } from './scribe-findings.ts';
export type { RunStation, ScribeBar, ScribeRun } from './scribe-run.ts';
export { scribeRuns } from './scribe-run.ts';
export { solveScribe } from './scribe-solve.ts';
export * from './types.ts';
