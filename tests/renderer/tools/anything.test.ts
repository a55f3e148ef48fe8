// Whatever a hand does: no event throws, nothing changes before a gesture is finished, each step is taken back whole, and
// what cannot be done is said in a sentence.

import { describe, expect, it } from 'vitest';
import { sameButCounter } from '../../../core/edit/index.ts';
import { emptyPlan, mustLookup, type Plan } from '../../../core/plan/index.ts';
import type { Ref } from '../../../renderer/state/refs.ts';
import { toolActions } from '../../../renderer/tools/actions.ts';
import { pictureOf, runningOf } from '../../../renderer/tools/run.ts';
import { TOOLS } from '../../../renderer/tools/types.ts';
import { cases, random } from '../../seeds.ts';
import { demo, mm, type Program, program } from './program.ts';

const KEYS = [
  'Enter',
  'Backspace',
  'Escape',
  'a',
  'k',
  'h',
  'n',
  'ArrowLeft',
  'ArrowUp',
  'ArrowRight',
  'ArrowDown',
  '7',
];
const COMMANDS = [
  'edit.delete',
  'edit.duplicate',
  'edit.copy',
  'edit.paste',
  'edit.mirror',
  'edit.turn',
  'draw.split',
  'draw.join',
  'draw.close',
  'edit.selectRoom',
] as const;
const TEXTS = ['1200', '0', '-300', "3' 2", '90', '45.5', '', 'x', '1e9', '2500', '0.01'];

let done = 0;

describe('any row of events', () => {
  for (let seed = 1; seed <= cases(120, 12); seed++) {
    it(`keeps its promises (seed ${seed})`, () => {
      const rnd = random(seed);
      const pick = <T>(of: readonly T[]): T => of[Math.floor(rnd() * of.length)]!;
      const plan: Plan =
        seed % 3 === 0 ? demo('thimble-cottage') : emptyPlan(seed % 2 === 0 ? 'metric' : 'imperial');
      const own = program(plan);
      if (seed % 4 === 0) own.app.change(({ snapping }) => ({ snapping: { ...snapping, grid: 32_000 } }));
      if (seed % 3 !== 0) {
        own.tool('room');
        own.give('4m', '3m');
      }
      const trail: string[] = [];
      try {
        for (let i = 0; i < 60; i++) act(own, rnd, pick, trail);
        done += own.steps();
        everythingBack(own);
      } catch (error) {
        throw new Error(`seed ${seed}: ${trail.join(' | ')}`, { cause: error });
      }
    });
  }

  it('is not a row of nothing', () => expect(done).toBeGreaterThan(cases(120, 12) * 8));
});

function act(own: Program, rnd: () => number, pick: <T>(of: readonly T[]) => T, trail: string[]): void {
  const at = [Math.round((rnd() - 0.3) * 9000), Math.round((rnd() - 0.3) * 7000)] as const;
  const [before, steps] = [own.plan(), own.steps()];
  const notices = own.app.store.get().notices.length + (own.app.store.get().notices.at(-1)?.id ?? 0);
  const mods = { shift: rnd() < 0.15, alt: rnd() < 0.15, mod: rnd() < 0.15 };
  const choice = rnd();
  if (choice < 0.1) {
    const tool = pick(TOOLS);
    trail.push(`tool ${tool}`);
    own.tool(tool);
  } else if (choice < 0.25) {
    const kind = pick(['down', 'move', 'move', 'up', 'up', 'double', 'leave'] as const);
    trail.push(`${kind} ${at} ${JSON.stringify(mods)}`);
    own.pointer(kind, at, mods);
  } else if (choice < 0.4) {
    const on = rnd() < 0.7 ? somewhere(own, rnd, pick) : at;
    trail.push(`click ${on} ${JSON.stringify(mods)}`);
    own.click(on, mods);
  } else if (choice < 0.55) {
    const from = rnd() < 0.8 ? somewhere(own, rnd, pick) : at;
    const to = rnd() < 0.3 ? somewhere(own, rnd, pick) : at;
    trail.push(`drag ${from} to ${to} ${JSON.stringify(mods)}`);
    own.drag(from, to, mods);
  } else if (choice < 0.62) {
    const { id: level, walls, openings, nodes } = own.level();
    const ids = [
      ...Object.keys(walls).map((id) => ({ kind: 'wall', level, id })),
      ...Object.keys(openings).map((id) => ({ kind: 'opening', level, id })),
      ...Object.keys(nodes).map((id) => ({ kind: 'node', level, id })),
      ...rooms(own).map((id) => ({ kind: 'room', level, id })),
    ] as Ref[];
    if (ids.length > 0) own.choose(...Array.from({ length: 1 + Math.floor(rnd() * 3) }, () => pick(ids)));
    trail.push(`choose ${JSON.stringify(own.app.store.get().selection)}`);
  } else if (choice < 0.75) {
    const key = pick(KEYS);
    trail.push(`key ${key}`);
    own.key(key);
  } else if (choice < 0.9) {
    const { tool, state, context } = runningOf(own.app.store.get())!;
    const texts = tool.fields(state, context).map(() => pick(TEXTS));
    trail.push(`give ${JSON.stringify(texts)}`);
    if (!own.give(...texts) && texts.some((text) => text !== '')) {
      const { notices: all } = own.app.store.get();
      expect(all.length + (all.at(-1)?.id ?? 0), 'a refusal is said').toBeGreaterThan(notices);
    }
  } else if (choice < 0.93) {
    // Also in the middle of a gesture.
    const back = pick(['undo', 'undo', 'redo'] as const);
    trail.push(back);
    own[back]();
  } else {
    const id = pick(COMMANDS);
    trail.push(id);
    const action = toolActions[id]!;
    if ((action.unavailable?.(own.app.store.get()) ?? null) === null) action.run(own.app);
  }
  pictureOf(own.app.store.get());
  expect(own.hint()).toMatch(/[.?]$/);
  if (own.steps() === steps && !own.app.store.get().open!.done.at(-1)?.runs) expect(own.plan()).toBe(before);
}

const rooms = (own: Program) => own.app.store.get().open!.derived.levels[0]!.walk.rooms.map(({ id }) => id);

/** A place on a wall, at one of its ends or near it; the origin where there is none. Millimetres. */
function somewhere(
  own: Program,
  rnd: () => number,
  pick: <T>(of: readonly T[]) => T,
): readonly [number, number] {
  const { walls, nodes } = own.level();
  const all = Object.values(walls);
  if (all.length === 0) return [0, 0];
  const { from, to } = pick(all);
  const [a, b] = [mustLookup(nodes, from), mustLookup(nodes, to)];
  const share = pick([0, 0.5, 1, rnd()]);
  const off = pick([0, 0, 70, -300]);
  return [mm(a[0] + (b[0] - a[0]) * share) + off, mm(a[1] + (b[1] - a[1]) * share) + off];
}

/** Undoes all of it and does all of it again. */
function everythingBack(own: Program): void {
  const after = own.plan();
  const steps = own.steps();
  const trail: Plan[] = [];
  for (let i = 0; i < steps; i++) {
    trail.push(own.plan());
    own.app.undo();
  }
  expect(own.steps()).toBe(0);
  for (let i = 0; i < steps; i++) {
    own.app.redo();
    expect(sameButCounter(own.plan(), trail.at(-1 - i)!), `step ${i}`).toBe(true);
  }
  expect(sameButCounter(own.plan(), after)).toBe(true);
}
