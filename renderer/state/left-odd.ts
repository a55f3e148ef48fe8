// What an edit does to figures that nobody touched, in words for the user. Measured lengths that a change of walls leaves at
// odds with the drawing are facts of the house and stay (RULES: ED8): the red pencil names each with what can be done about
// it. What fits nothing any more is gone (RULES: ED6, ED7), and taking the step back brings it back.

import type { MendNote } from '../../core/edit/index.ts';
import { lookup } from '../../core/plan/index.ts';
import type { Derived } from '../../core/report/index.ts';

type Finding = Derived['findings'][number];

/** How many of `after` are odd that were not before, though nothing else was said about them: their record is the same object. */
export function leftOdd(before: Derived, after: Derived): number {
  if (before.plan.levels === after.plan.levels) return 0;
  const was = new Set(before.findings.filter(isOdd).map(nameOf));
  return after.findings.filter((each) => isOdd(each) && !was.has(nameOf(each)) && isOld(each, before, after))
    .length;
}

export function leftOddWords(count: number): string {
  const what = count === 1 ? 'One measured length no longer fits' : `${count} measured lengths no longer fit`;
  const each = count === 1 ? 'It stays' : 'They stay';
  const it = count === 1 ? 'it' : 'each';
  return `${what} the drawing. ${each} as measured; the red pencil can forget ${it}.`;
}

const isOdd = ({ code }: Finding): boolean => code === 'length-odd';

const nameOf = ({ level, about }: Finding): string => [level, ...about].join(' ');

function isOld({ level, about: [face] }: Finding, before: Derived, after: Derived): boolean {
  const recordIn = ({ plan }: Derived) =>
    lookup(plan.levels.find(({ id }) => id === level)?.faces ?? {}, face ?? '');
  const record = recordIn(before);
  return record !== undefined && record === recordIn(after);
}

/** What an edit took away of what the user had typed or chosen; null where it took nothing. */
export function lostWords(notes: readonly MendNote[]): string | null {
  const lost = notes.filter(({ loses }) => loses !== undefined);
  const [first, ...more] = [...lost].sort((a, b) => Number(b.loses === true) - Number(a.loses === true));
  if (first === undefined) return null;
  const others = more.length === 0 ? '' : ` And ${more.length} more.`;
  const back = first.loses === true ? ` Undo brings ${more.length === 0 ? 'it' : 'them'} back.` : '';
  return `${first.message}${others}${back}`;
}
