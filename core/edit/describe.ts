// An edit in plain words, as undo and redo name it: 'move wall', 'cope corner 7 the other way'. The plan is the one
// before the edit. Changes nothing. RULES: ED23.

import { LINE_NAMES, OPENING_KINDS } from '../plan/kinds.ts';
import { lookup, sortedEntries } from '../plan/maps.ts';
import { type BuiltIn, type Level, LINES, type Mark, type Opening, type Plan } from '../plan/schema.ts';
import type { Edit } from './edits.ts';
import type { SetCorner, SetFace, SetTrim } from './record-edits.ts';

/** What an edit does, in a few words, without a capital and without a full stop. Requires nothing of the edit's ids. */
export function describe(edit: Edit, plan: Plan): string {
  const level = 'level' in edit ? plan.levels.find(({ id }) => id === edit.level) : undefined;
  switch (edit.type) {
    case 'addWall':
      return 'draw wall';
    case 'moveNode':
      return 'move wall end';
    case 'moveWall':
      return 'move wall';
    case 'splitWall':
      return 'split wall';
    case 'joinWalls':
      return 'join walls';
    case 'deleteWall':
      return edit.also === undefined ? 'delete wall' : 'delete walls';
    case 'changeWalls':
      return wallWords(edit);
    case 'moveNodes':
      return (edit.turnDeg ?? 0) === 0 ? 'move walls' : 'turn walls';
    case 'setClearDistance':
      return 'set distance between walls';
    case 'pasteWalls':
      return edit.place.mirror === true ? 'paste walls mirrored' : 'paste walls';
    case 'placeWalls':
      return placeWords(edit);
    case 'addChain':
      return edit.closed ? 'draw room' : 'draw walls';
    case 'addRoomByCorners':
      return 'draw room';
    case 'addOpening':
      return `add ${OPENING_KINDS[edit.record.kind]}`;
    case 'changeOpening':
      return moved(edit.set, openingWord(level, edit.opening));
    case 'deleteOpening':
      return `delete ${openingWord(level, edit.opening)}`;
    case 'addBuiltIn':
      return `add ${edit.record.kind}`;
    case 'changeBuiltIn':
      return moved(edit.set, lookup(level?.builtIns ?? {}, edit.builtIn)?.kind ?? 'built-in');
    case 'deleteBuiltIn':
      return `delete ${lookup(level?.builtIns ?? {}, edit.builtIn)?.kind ?? 'built-in'}`;
    case 'addMark':
      return `add ${edit.record.kind}`;
    case 'changeMark':
      return moved(edit.set, lookup(level?.marks ?? {}, edit.mark)?.kind ?? 'mark');
    case 'deleteMark':
      return `delete ${lookup(level?.marks ?? {}, edit.mark)?.kind ?? 'mark'}`;
    case 'addRoom':
      return `name room ${edit.record.name}`;
    case 'changeRoom':
      return roomWords(edit.set, roomName(level, edit.room));
    case 'deleteRoom':
      return `forget room ${roomName(level, edit.room)}`;
    case 'setTrim':
      return trimWords(edit, level, plan);
    case 'setCorner':
      return cornerWords(edit, level);
    case 'setFace':
      return faceWords(edit);
    case 'addLevel':
      return `add level ${edit.record.name}`;
    case 'changeLevel':
      if (edit.set.name === undefined) return 'set ceiling height';
      return edit.set.ceilingHeight === undefined ? 'rename level' : 'change level';
    case 'moveLevel':
      return `move level ${level?.name ?? edit.level}`;
    case 'deleteLevel':
      return `delete level ${level?.name ?? edit.level}`;
    case 'addProfile':
      return `add profile ${edit.record.name}`;
    case 'changeProfile':
      return `change profile ${profileName(plan, edit.profile)}`;
    case 'renameProfile':
      return `rename profile ${edit.profile}`;
    case 'deleteProfile':
      return `delete profile ${profileName(plan, edit.profile)}`;
    case 'setSettings':
      return Object.values(edit.set).every((value) => value === null)
        ? 'settings back to the rule'
        : 'change settings';
    case 'setPlan':
      return planWords(Object.keys(edit.set));
    case 'setStockOnHand':
      return `boards on hand of ${profileName(plan, edit.profile)}`;
    case 'holdBoard':
      return `hold board of ${edit.board.pieces.join(', ')}`;
    case 'letGoBoard':
      return `let go of board of ${edit.piece}`;
    case 'letGoBoards':
      return `let go of all boards of ${profileName(plan, edit.profile)}`;
    case 'several':
      return edit.words ?? (edit.edits.length === 1 ? describe(edit.edits[0]!, plan) : 'several changes');
    case 'patch':
      return 'change plan';
  }
}

function openingWord(level: Level | undefined, id: string): string {
  const kind = lookup(level?.openings ?? {}, id)?.kind;
  return kind === undefined ? 'opening' : OPENING_KINDS[kind];
}

function moved(set: { readonly [K in keyof (Opening | BuiltIn | Mark)]?: unknown }, what: string): string {
  const fields = Object.keys(set);
  const places = ['at', 'wall', 'side'];
  if (fields.length === 0 || !fields.every((field) => places.includes(field))) return `change ${what}`;
  return fields.includes('wall') ? `move ${what} to another wall` : `move ${what}`;
}

function wallWords({ walls, set }: Extract<Edit, { type: 'changeWalls' }>): string {
  const what = walls.length === 1 ? 'wall' : 'walls';
  const fields = Object.keys(set);
  if (fields.length !== 1) return `change ${what}`;
  if (fields[0] === 'thickness') return `set thickness of ${what}`;
  return fields[0] === 'height' ? `set height of ${what}` : `set faces of ${what}`;
}

function placeWords({
  place: { mirror = false, turnDeg = 0 },
}: Extract<Edit, { type: 'placeWalls' }>): string {
  if (mirror) return turnDeg === 0 ? 'mirror walls' : 'mirror and turn walls';
  return turnDeg === 0 ? 'move walls' : 'turn walls';
}

function roomName(level: Level | undefined, id: string): string {
  return lookup(level?.rooms ?? {}, id)?.name ?? id;
}

function roomWords(set: Extract<Edit, { type: 'changeRoom' }>['set'], name: string): string {
  const fields = Object.keys(set);
  if (fields.length !== 1) return `change room ${name}`;
  if (set.name != null) return `rename room ${name} to ${set.name}`;
  if (fields[0] === 'entry') return `set entry of ${name}`;
  if (fields[0] === 'at') return `move the name of ${name}`;
  return fields[0] === 'old' ? `old base and floor of ${name}` : `floor of ${name}`;
}

function profileName(plan: Plan, id: string): string {
  return lookup(plan.profiles, id)?.name ?? id;
}

function trimWords({ of, lines }: SetTrim, level: Level | undefined, plan: Plan): string {
  const where = 'room' in of ? roomName(level, of.room) : faceName(of.face);
  const named = LINES.filter((line) => lines[line] !== undefined);
  const [only] = named;
  if (only === undefined || named.length > 1) return `set trim of ${where}`;
  const choice = lines[only];
  if (choice == null) return `${LINE_NAMES[only]} of ${where} back to the rule`;
  const what = choice.profile === null ? `no ${LINE_NAMES[only]}` : profileName(plan, choice.profile);
  return `${what} ${'room' in of ? 'in' : 'on'} ${where}`;
}

function cornerWords({ corner, set }: SetCorner, level: Level | undefined): string {
  const number = lookup(level?.corners ?? {}, corner)?.number;
  const name = number === undefined ? 'corner' : `corner ${number}`;
  const lines = sortedEntries((set.lines ?? {}) as Record<string, object | null>).filter(
    ([, choice]) => choice !== undefined,
  );
  if (lines.length === 0) return set.measured == null ? `${name} not measured` : `measured angle of ${name}`;
  if (set.measured !== undefined) return `change ${name}`;
  // The lines of a corner are told together where they are set alike; the boards of two lines may be worked differently.
  const told = new Set(lines.map(([, choice]) => choiceWords(choice, name)));
  return told.size === 1 ? [...told][0]! : `change ${name}`;
}

function choiceWords(set: object | null, name: string): string {
  const choice = set as { joint?: string | null; coped?: string | null } | null;
  const values = choice === null ? [] : [choice.joint, choice.coped].filter((value) => value !== undefined);
  if (values.every((value) => value === null)) return `${name} back to the rule`;
  if (choice?.joint == null) return `cope ${name} the other way`;
  return choice.joint === 'block' ? `block at ${name}` : `${choice.joint} ${name}`;
}

function faceWords({ face, set }: SetFace): string {
  const fields = Object.keys(set);
  if (fields.length !== 1) return `change what is known of ${faceName(face)}`;
  const words: Readonly<Record<string, string>> = {
    measured: 'measured length',
    stretches: 'measured stretch',
    floor: 'floor readings',
    line: 'old line readings',
    studs: 'studs',
  };
  return `${words[fields[0]!] ?? 'change'} of ${faceName(face)}`;
}

/** A face as the user knows it: by its wall, or by the node where a wall ends or two walls make a step. */
function faceName(key: string): string {
  const [name, side] = key.split(':');
  return side === 'left' || side === 'right'
    ? `the ${side} face of wall ${name}`
    : `the wall’s end at ${name}`;
}

function planWords(fields: readonly string[]): string {
  if (fields.length !== 1) return 'change plan';
  const words: Readonly<Record<string, string>> = {
    title: 'rename plan',
    units: 'change units',
    builtYear: 'set year built',
    studs: 'set stud spacing',
  };
  return words[fields[0]!] ?? 'change plan';
}
