// Why an edit cannot be done, and the small checks that every kind of edit makes on its ids and places. Ticks. RULES: ED8.

import type { Point } from '../graph/index.ts';
import { roundHalfAway } from '../units/ticks.ts';
import { FARTHEST_TICKS } from './limits.ts';
import type { EditFailure, EditFailureCode } from './types.ts';

const ID = /^[A-Za-z][A-Za-z0-9_-]{0,39}$/;

export function failure(code: EditFailureCode, message: string): EditFailure {
  return { ok: false, code, message };
}

export function isFailure(value: object): value is EditFailure {
  return 'ok' in value && value.ok === false;
}

export function noWall(id: string): EditFailure {
  return failure('no-wall', `There is no wall ${id} on this level.`);
}

export function noNode(id: string): EditFailure {
  return failure('no-node', `There is no node ${id} on this level.`);
}

/** Why `id` cannot be given to something new, or null. `where`: on this level, in this plan. */
export function newIdFault(id: string, taken: boolean, where: string): EditFailure | null {
  if (!ID.test(id)) {
    const said = JSON.stringify(id);
    return failure('bad-id', `${said} is no id: a letter, then up to 39 letters, digits, _ or -.`);
  }
  return taken ? failure('id-taken', `The id ${id} is in use ${where}.`) : null;
}

/** Why `id` cannot be given to something new on a level, or null. */
export function idFault(id: string, taken: ReadonlyMap<string, unknown>): EditFailure | null {
  return newIdFault(id, taken.has(id), 'on this level');
}

/** A place in whole ticks, or why it is none. */
export function wholePoint(at: Point): Point | EditFailure {
  const [x, y] = [roundHalfAway(at[0]), roundHalfAway(at[1])];
  if (Math.abs(x) <= FARTHEST_TICKS && Math.abs(y) <= FARTHEST_TICKS) return [x, y];
  return failure(
    'bad-number',
    'That place lies off the sheet, which reaches 1 km (3,280 ft) from its origin.',
  );
}
