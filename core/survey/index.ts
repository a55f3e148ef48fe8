// Tape walks and how they close: the public side of this folder.
export { compassRule, isSquare, squareRule } from './closing.ts';
export { type TapeRoom, tapeEdit } from './tape-edit.ts';
export {
  type Misclosure,
  misclosureOf,
  type TapeEntry,
  type TapeWalk,
  turnOf,
  walkTape,
} from './tape-walk.ts';
