// The red pencil's list: worst first, each finding with what it is about as something to choose, and the way from one to
// the next.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { prepare } from '../../../core/edit/index.ts';
import { FINDING_CODES } from '../../../core/fit/index.ts';
import { type Plan, readPlanBytes } from '../../../core/plan/index.ts';
import { type Derived, derive } from '../../../core/report/index.ts';
import {
  CODE_WORDS,
  findingKey,
  groupsOf,
  neighbour,
  placeWords,
  refsOf,
} from '../../../renderer/panels/pencil/findings.ts';
import { DOOR, inch, planOf, profiles } from '../../core/fit/house.ts';

function house(name: string): Derived {
  const read = readPlanBytes(readFileSync(`demo-data/${name}.copewright.json`));
  if (!read.ok) throw new Error(`${name} cannot be read`);
  return derived(read.plan);
}

function derived(plan: Plan): Derived {
  const ready = prepare(plan);
  if (!ready.ok) throw new Error(ready.message);
  return derive(ready.plan);
}

describe('the list of findings', () => {
  it('groups are worst first, hold every finding once and keep the order of the report', () => {
    const { findings } = house('larkspur-house');
    const groups = groupsOf(findings);
    expect(groups.map(({ severity }) => severity)).toEqual(['stop', 'fix', 'look']);
    expect(groups.flatMap((group) => group.findings)).toEqual(findings);
    expect(groupsOf([])).toEqual([]);
    const noStops = findings.filter(({ severity }) => severity !== 'stop');
    expect(groupsOf(noStops).map(({ severity }) => severity)).toEqual(['fix', 'look']);
  });

  it('every code has words of its own', () => {
    const words = FINDING_CODES.map((code) => CODE_WORDS[code]);
    expect(new Set(words).size).toBe(FINDING_CODES.length);
    for (const each of words) expect(each).toMatch(/^[A-Z]/);
  });

  it('what a finding is about can be chosen, and is there', () => {
    for (const name of ['larkspur-house', 'thimble-cottage']) {
      const shown = house(name);
      for (const finding of shown.findings) {
        const refs = refsOf(finding, shown);
        if (finding.level === null) expect(refs).toEqual([]);
        else expect(refs.length, `${finding.code} ${finding.about}`).toBeGreaterThan(0);
        for (const ref of refs) expect(ref.level).toBe(finding.level);
      }
    }
  });

  it('a base proud of a casing chooses the opening; a saw limit its corner and both boards', () => {
    const shown = house('larkspur-house');
    const proud = shown.findings.find(({ code }) => code === 'base-proud')!;
    expect(refsOf(proud, shown).map(({ kind }) => kind)).toEqual(['opening']);
    const saw = shown.findings.find(({ code }) => code === 'saw-limit')!;
    expect(refsOf(saw, shown).map(({ kind }) => kind)).toEqual(['corner', 'piece', 'piece']);
  });

  it('a finding of one name for an opening and a wall chooses what it means', () => {
    const walls = planOf().levels[0]!.walls;
    expect(Object.keys(walls)).toContain('w1');
    const shown = derived(
      planOf({ openings: { w1: DOOR }, plan: profiles({ base: { thickness: inch(0.75) } }) }),
    );
    const proud = shown.findings.find(({ code }) => code === 'base-proud')!;
    expect(refsOf(proud, shown)).toEqual([{ kind: 'opening', level: 'L1', id: 'w1' }]);
  });

  it('the place is told with its level only where that is not the one shown', () => {
    const shown = house('larkspur-house');
    const finding = shown.findings.find(({ level }) => level === 'L1')!;
    const [here, other] = shown.plan.levels;
    expect(placeWords(finding, shown, here!.id)).not.toContain(',');
    expect(placeWords(finding, shown, other!.id)).toContain(`, ${here!.name}`);
    const whole = shown.findings.find(({ level }) => level === null)!;
    expect(placeWords(whole, shown)).toBe('The whole plan');
  });

  it('next and previous go round, and start at either end', () => {
    const { findings } = house('thimble-cottage');
    expect(neighbour(findings, null, 1)).toBe(findings[0]);
    expect(neighbour(findings, null, -1)).toBe(findings.at(-1));
    let now = findings[0]!;
    for (let step = 0; step < findings.length; step += 1) now = neighbour(findings, now, 1)!;
    expect(now).toBe(findings[0]);
    expect(neighbour(findings, findings[0]!, -1)).toBe(findings.at(-1));
    expect(neighbour([], null, 1)).toBeNull();
  });

  it('a finding keeps its key when the profile changes, and a saw limit when a board is spared', () => {
    const shown = house('larkspur-house');
    const proud = shown.findings.find(({ code }) => code === 'base-proud')!;
    const [opening] = proud.about;
    expect(findingKey({ ...proud, about: [opening!, 'base-heavy'] }, shown)).toBe(findingKey(proud, shown));
    const saw = shown.findings.find(({ code }) => code === 'saw-limit')!;
    expect(findingKey({ ...saw, about: saw.about.slice(0, 2) }, shown)).toBe(findingKey(saw, shown));
    expect(findingKey({ ...saw, about: [saw.about[0]!, 'shoe-13A'] }, shown)).not.toBe(
      findingKey(saw, shown),
    );
  });
});
