// The published JSON Schema, held against a validator other than the reader's (ajv, JSON Schema 2020-12).

import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import {
  emptyPlan,
  planJsonSchema,
  planJsonSchemaText,
  readPlan,
  writePlan,
} from '../../../core/plan/index.ts';
import { exampleFile, exampleText } from './example.ts';

type Loose = Record<string, unknown>;
type Example = ReturnType<typeof exampleFile>;
const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(planJsonSchema());

describe('the published JSON Schema of plans', () => {
  it('[PL8] the committed file is what the code makes', () => {
    const file = new URL('../../../assets/schemas/plan.schema.json', import.meta.url);
    expect(readFileSync(file, 'utf8')).toBe(planJsonSchemaText());
  });

  it('[PL8] accepts the example and everything that is written', () => {
    const plan = readPlan(exampleText());
    if (!plan.ok) throw new Error(plan.error.message);
    for (const document of [
      exampleFile(),
      JSON.parse(writePlan(plan.plan)),
      JSON.parse(writePlan(emptyPlan('imperial'))),
      JSON.parse(writePlan(emptyPlan('metric'))),
    ]) {
      expect(validate(document), JSON.stringify(validate.errors)).toBe(true);
    }
  });

  it.each<[string, (file: Example) => void]>([
    ['a wrong type', (f) => Object.assign(f.levels[0]!.walls.w1, { thickness: 'x' })],
    ['a missing key', (f) => delete (f.levels[0]!.walls.w1 as Loose).from],
    ['an unknown key', (f) => Object.assign(f.levels[0]!.walls.w1, { colour: 1 })],
    ['an unknown key at the top', (f) => Object.assign(f, { colour: 1 })],
    ['a bad id', (f) => Object.assign(f.levels[0]!.nodes, { '1n': [0, 0] })],
    ['a bad corner key', (f) => Object.assign(f.levels[0]!.corners, { n1: {} })],
    ['half a position', (f) => Object.assign(f.levels[0]!.nodes, { n1: [0] })],
    ['too much of a position', (f) => Object.assign(f.levels[0]!.nodes, { n1: [0, 0, 0] })],
    ['a length beyond 1 km', (f) => Object.assign(f.levels[0]!.nodes, { n1: [0, 1_000_001] })],
    ['a newer version', (f) => Object.assign(f, { version: 2 })],
    ['a setting outside its list', (f) => Object.assign(f.settings, { roundIn: 7 })],
    ['two lines in a title', (f) => Object.assign(f, { title: 'a\nb' })],
  ])('[PL8] refuses %s, as the reader does', (_name, change) => {
    const file = exampleFile();
    change(file);
    expect(validate(file)).toBe(false);
    expect(readPlan(JSON.stringify(file)).ok).toBe(false);
  });
});
