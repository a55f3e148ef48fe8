// What the sheet's tests share: a demo house derived, a measure of type that needs no browser, a context that writes down
// what is painted.

import { readFileSync } from 'node:fs';
import { readPlan } from '../../../core/plan/index.ts';
import { type Derived, type DerivedLevel, derive } from '../../../core/report/index.ts';
import type { TextMeasure } from '../../../core/sheets/items.ts';

export function demoHouse(house: 'larkspur-house' | 'thimble-cottage'): Derived {
  const file = new URL(`../../../demo-data/${house}.copewright.json`, import.meta.url);
  const read = readPlan(readFileSync(file, 'utf8'));
  if (!read.ok) throw new Error(read.error.message);
  return derive(read.plan);
}

export function groundFloor(house: 'larkspur-house' | 'thimble-cottage' = 'larkspur-house'): DerivedLevel {
  return demoHouse(house).levels[0]!;
}

/** Wider than the real type, so that what is clear here is clear there. */
export const plainMeasure: TextMeasure = {
  width: (text, _font, size) => text.length * size * 0.62,
  ascent: (_font, size) => size * 0.8,
  descent: (_font, size) => size * 0.25,
};

export interface Painted {
  readonly context: CanvasRenderingContext2D;
  /** Names of the calls, in order. */
  readonly calls: readonly string[];
  /** Words, with the colour they were painted in. */
  readonly words: readonly (readonly [text: string, colour: string])[];
  /** Saves that were not restored. */
  depth(): number;
}

/** A context that paints nothing and remembers. */
export function paintedOn(): Painted {
  const calls: string[] = [];
  const words: (readonly [string, string])[] = [];
  let depth = 0;
  const own: Record<string, unknown> = { fillStyle: '', strokeStyle: '', lineWidth: 1, font: '' };
  const context = new Proxy(own, {
    get: (target, name) => {
      if (typeof name !== 'string' || name in target) return target[name as string];
      return (...given: unknown[]) => {
        calls.push(name);
        if (name === 'save') depth += 1;
        if (name === 'restore') depth -= 1;
        if (name === 'fillText') words.push([given[0] as string, String(target.fillStyle)]);
        if (name === 'measureText') return { width: (given[0] as string).length * 60 };
        return undefined;
      };
    },
    set: (target, name, value) => {
      target[name as string] = value;
      return true;
    },
  }) as unknown as CanvasRenderingContext2D;
  return { context, calls, words, depth: () => depth };
}
