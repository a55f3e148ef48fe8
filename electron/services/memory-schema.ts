// The plan file's schema turned to how records are in memory and in edits: any finite number where the file has a length in
// millimetres with a range, absent where the file may have null. Shapes and choices stay; ranges are asked by core once
// the edit is done. A kind of schema that is not known here is an error at the start, not a field that goes unchecked.

import { z } from 'zod';

/** What we look at inside a schema. */
interface Inside {
  readonly type: string;
  readonly innerType?: z.core.$ZodType;
  readonly in?: z.core.$ZodType;
  readonly shape?: Readonly<Record<string, z.core.$ZodType>>;
  readonly element?: z.core.$ZodType;
  readonly items?: readonly z.core.$ZodType[];
  readonly valueType?: z.core.$ZodType;
  readonly options?: readonly z.core.$ZodType[];
}

function loose(schema: z.core.$ZodType): z.ZodType {
  const inside = schema._zod.def as Inside;
  switch (inside.type) {
    case 'optional':
      return loose(inside.innerType!).optional();
    case 'nullable':
      return loose(inside.innerType!).nullable();
    case 'default':
      return loose(inside.innerType!);
    case 'pipe': {
      // The file's null means absent, so in memory there is none.
      const file = inside.in!._zod.def as Inside;
      return loose(file.type === 'nullable' ? file.innerType! : inside.in!);
    }
    case 'number':
      return z.number();
    case 'string':
      return z.string();
    case 'object':
      return z.strictObject(looseShape(inside.shape!));
    case 'array':
      return z.array(loose(inside.element!));
    case 'tuple':
      return z.tuple(inside.items!.map(loose) as [z.ZodType, ...z.ZodType[]]);
    case 'record':
      return z.record(z.string(), loose(inside.valueType!));
    case 'union':
      return z.union(inside.options!.map(loose));
    case 'enum':
    case 'literal':
    case 'boolean':
      return schema as z.ZodType;
    default:
      throw new Error(`no shape in memory is known for a schema of the kind ${inside.type}`);
  }
}

function looseShape(shape: Readonly<Record<string, z.core.$ZodType>>): Record<string, z.ZodType> {
  return Object.fromEntries(Object.entries(shape).map(([key, field]) => [key, loose(field)]));
}

/** A record as an edit carries it. */
export function inMemory(record: z.ZodObject): z.ZodType {
  return loose(record);
}

/** Changes to such a record: every field may be left out, and null takes it away. */
export function changesOf(record: z.ZodObject): z.ZodObject {
  const fields = Object.entries(looseShape(record.shape)).map(([key, field]) => [
    key,
    field.optional().nullable().optional(),
  ]);
  return z.strictObject(Object.fromEntries(fields));
}
