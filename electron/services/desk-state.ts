// What all calls of a desk share: open plans, recent files, preferences, ids, the folder used last, and the way back of
// what was done since a plan was opened, so that a window that is loaded again can still undo.

import { dirname } from 'node:path';
import type { z } from 'zod';
import type { OpenAnswer, OpenedPlan, PreferencesPatchSchema, WindowPreferences } from '../contract.ts';
import type { DeskOptions } from './desk-types.ts';
import { type Documents, type OpenOutcome, openDocuments } from './documents.ts';
import { type OpaqueIds, opaqueIds } from './opaque-ids.ts';
import { type Preferences, PreferencesSchema, preferencesFile } from './preferences.ts';
import { type Recent, recentFiles } from './recent.ts';

/** So many steps can be taken back after the window was loaded again. */
const MOST_STEPS = 1000;

type Done = OpenedPlan['history'][number];

interface DeskPreferences {
  read(): Promise<WindowPreferences>;
  set(patch: z.output<typeof PreferencesPatchSchema>): Promise<WindowPreferences>;
}

export interface DeskState {
  readonly options: DeskOptions;
  readonly documents: Documents;
  readonly recent: Recent;
  readonly preferences: DeskPreferences;
  /** For paths, and for versions. */
  readonly ids: OpaqueIds;
  /** When the preferences are read; what ended processes left is being swept. */
  readonly begun: Promise<void>;
  /** Where the next dialog starts. */
  lastFolder(): string;
  /** Takes note of a file that was opened or saved. */
  used(path: string): Promise<void>;
  /** An outcome of the services as the window is told; notes what was opened. */
  answered(outcome: OpenOutcome, path: string | null): Promise<OpenAnswer>;
  remember(handle: string, done: Done): void;
  historyOf(handle: string): readonly Done[];
  forget(handle: string): void;
}

/** All but where the window was, which is the host's own. */
const shown = ({ window: _window, ...rest }: Preferences): WindowPreferences => rest;

export function openDeskState(options: DeskOptions): DeskState {
  const { env, emit } = options;
  const file = preferencesFile(env);
  let preferences: Preferences = PreferencesSchema.parse({});
  const documents = openDocuments(env, {
    autosaveSeconds: () => preferences.autosaveSeconds,
    changed: (view) => emit('changed', view),
  });
  const recent = recentFiles(env);
  const ids = opaqueIds();
  const histories = new Map<string, Done[]>();
  let folder = options.home;

  async function begin(): Promise<void> {
    preferences = await file.read();
    const paths = await recent.paths();
    if (paths[0] !== undefined) folder = dirname(paths[0]);
    // Not waited for: one of these folders may be on a drive that is gone, which some systems find out after minutes.
    void documents.sweep(paths.map((path) => dirname(path)));
  }

  async function used(path: string): Promise<void> {
    folder = dirname(path);
    // A list of what was used last is no reason to fail what was asked.
    await recent.add(path).catch(() => undefined);
  }

  async function answered(outcome: OpenOutcome, path: string | null): Promise<OpenAnswer> {
    switch (outcome.outcome) {
      case 'opened': {
        const { document, view, plan, notes, history } = outcome;
        histories.set(view.handle, history.slice(-MOST_STEPS));
        const realPath = document.realPath();
        if (realPath !== null) await used(realPath);
        return { outcome: 'opened', view, plan, notes, history };
      }
      case 'held':
        return { ...outcome, id: path === null ? null : ids.give(path) };
      case 'refused': {
        const { lastGood } = outcome;
        return { ...outcome, lastGood: lastGood && { id: ids.give(lastGood.id), at: lastGood.at } };
      }
      case 'shown':
        return outcome;
    }
  }

  return {
    options,
    documents,
    recent,
    ids,
    begun: begin(),
    preferences: {
      read: async () => shown(preferences),
      set: async (patch) => {
        const set = Object.fromEntries(Object.entries(patch).filter(([, value]) => value !== undefined));
        preferences = { ...preferences, ...set };
        if ('autosaveSeconds' in set) for (const document of documents.all()) document.autosaveAnew();
        // Where they cannot be written they hold until the program ends.
        preferences = await file.change((now) => ({ ...now, ...set })).catch(() => preferences);
        return shown(preferences);
      },
    },
    lastFolder: () => folder,
    used,
    answered,
    remember: (handle, done) => {
      const history = histories.get(handle) ?? [];
      histories.set(handle, [...history, done].slice(-MOST_STEPS));
    },
    historyOf: (handle) => histories.get(handle) ?? [],
    forget: (handle) => void histories.delete(handle),
  };
}
