// Findings by what they are about, for one level: how many, and the worst of them.

import type { Finding, Severity } from '../../../core/fit/index.ts';
import { SEVERITIES } from '../../../core/fit/index.ts';
import type { Ref } from '../../state/refs.ts';

export interface Marked {
  readonly count: number;
  readonly worst: Severity | null;
}

export interface MarkedLevel {
  room(id: string): Marked;
  /** By a name that findings use: `corner 7`, an opening's id, a board's. */
  about(name: string): Marked;
  /** All that is said of things in a room, as one text: where it is the same, so are the marks. */
  said(room: string): string;
}

const NONE: Marked = { count: 0, worst: null };

export function markedBy(findings: readonly Finding[]): ReadonlyMap<string, MarkedLevel> {
  const levels = new Map<string, Gathered>();
  for (const { level, room, about, severity } of findings) {
    if (level === null) continue;
    const here = levels.get(level) ?? { rooms: new Map(), about: new Map(), said: new Map() };
    levels.set(level, here);
    if (room !== null) add(here.rooms, room, severity);
    for (const name of about) add(here.about, name, severity);
    const where = room ?? '';
    here.said.set(where, `${here.said.get(where) ?? ''}${severity} ${about.join(' ')};`);
  }
  return new Map(
    [...levels].map(([id, { rooms, about, said }]) => [
      id,
      {
        room: (room) => rooms.get(room) ?? NONE,
        about: (name) => about.get(name) ?? NONE,
        said: (room) => `${said.get(room) ?? ''}|${said.get('') ?? ''}`,
      },
    ]),
  );
}

interface Gathered {
  readonly rooms: Map<string, Marked>;
  readonly about: Map<string, Marked>;
  readonly said: Map<string, string>;
}

export const NOTHING_MARKED: MarkedLevel = { room: () => NONE, about: () => NONE, said: () => '' };

function add(to: Map<string, Marked>, key: string, severity: Severity): void {
  const { count, worst } = to.get(key) ?? NONE;
  const worse = worst === null || SEVERITIES.indexOf(severity) < SEVERITIES.indexOf(worst) ? severity : worst;
  to.set(key, { count: count + 1, worst: worse });
}

/** The findings that name a thing. `corner`: its number. */
export function findingsAbout(
  findings: readonly Finding[],
  ref: Ref,
  cornerNumber: number | null,
): readonly Finding[] {
  const name =
    ref.kind === 'corner' ? `corner ${cornerNumber}` : ref.kind === 'casing' ? ref.opening : ref.id;
  return findings.filter(
    ({ level, room, about }) =>
      level === ref.level && (ref.kind === 'room' ? room === ref.id : about.includes(name)),
  );
}
