// The user's preferences: one small file in the program's own folder. RULES: SK12.

import { z } from 'zod';
import type { Env } from './env.ts';
import { type SmallFile, smallFile } from './small-file.ts';

const side = z.number().int().min(-100_000).max(100_000);

/** Keys of a later version are left out, not an error: a preference is no plan. */
export const PreferencesSchema = z.object({
  units: z.enum(['imperial', 'metric']).default('imperial'),
  theme: z.enum(['system', 'light', 'dark']).default('system'),
  /** Seconds after the last edit until the plan is saved by itself; null: only by hand. */
  autosaveSeconds: z.number().int().min(5).max(3600).nullable().default(null),
  /** Walls that are drawn snap to multiples of it; 0: to none. */
  angleStepDeg: z.number().min(0).max(90).default(15),
  /** Spacing of the grid; null: what is usual in a plan's units. */
  gridMm: z.number().min(1).max(10_000).nullable().default(null),
  /** Where the window was, in screen pixels; null: wherever the system puts it. */
  window: z
    .object({
      x: side,
      y: side,
      width: z.number().int().min(200).max(100_000),
      height: z.number().int().min(200).max(100_000),
      maximised: z.boolean(),
    })
    .nullable()
    .default(null),
});
export type Preferences = z.output<typeof PreferencesSchema>;

/** `preferences.json`. */
export function preferencesFile(env: Env): SmallFile<Preferences> {
  return smallFile(env, 'preferences.json', PreferencesSchema, PreferencesSchema.parse({}));
}
