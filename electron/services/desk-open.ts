// The calls that bring a plan to the window: new, from a file, a demo house, a version, what a crash left; and what there
// is to choose from.

import type { OpenAnswer, RecoveryOffer } from '../contract.ts';
import type { DeskState } from './desk-state.ts';
import type { DeskCalls } from './desk-types.ts';
import type { OpenDocument } from './document-types.ts';
import { nameOf } from './file-names.ts';
import { placeAt } from './places.ts';
import { readPlanFile } from './plan-file.ts';
import { demoPath } from './program.ts';

const refused = (message: string): OpenAnswer => ({ outcome: 'refused', message, lastGood: null });

export function openCalls(state: DeskState) {
  const { options, documents, recent, ids, answered } = state;
  /** The plan that was named at the start: opened once, told until the window has another. */
  let first: Promise<OpenAnswer> | null = null;

  async function openPath(path: string): Promise<OpenAnswer> {
    await state.begun;
    return answered(await documents.open(path), path);
  }

  async function openId(id: string, how: (path: string) => Promise<OpenAnswer>): Promise<OpenAnswer> {
    const path = ids.thingOf(id);
    return path === null ? refused('This file is no longer offered; choose it again.') : how(path);
  }

  async function offers(): Promise<readonly RecoveryOffer[]> {
    return (await documents.offers()).map(({ path, ...offer }) => ({
      ...offer,
      name: path === null ? null : nameOf(path),
    }));
  }

  function again(document: OpenDocument): OpenAnswer {
    const view = document.view();
    const history = state.historyOf(view.handle);
    return { outcome: 'opened', view, plan: document.plan(), notes: [], history };
  }

  /** What this window shows: after it was loaded again, the plan opened last. */
  async function opened(): Promise<OpenAnswer | null> {
    if (first === null && options.file !== null) {
      first = openPath(options.file);
      return first;
    }
    await first;
    const last = documents.all().at(-1);
    return last === undefined ? null : again(last);
  }

  const calls = {
    start: async () => {
      await state.begun;
      const now = await opened();
      return {
        version: options.version,
        preferences: await state.preferences.read(),
        recent: await recent.list(),
        offers: await offers(),
        opened: now,
      };
    },
    newPlan: async ({ units }) => answered(documents.create(units), null),
    openDemo: async ({ house }) => {
      const path = demoPath(house);
      const { bytes } = await readPlanFile(path, options.env.calls);
      return answered(await documents.openBytes(nameOf(path), bytes, false), null);
    },
    open: async () => {
      if (options.chooser === null) return { outcome: 'choose' };
      const path = await options.chooser.openFile(state.lastFolder());
      return path === null ? { outcome: 'cancelled' } : openPath(path);
    },
    openRecent: async ({ id }) => {
      const path = await recent.pathOf(id);
      return path === null ? refused('This file is no longer in the list.') : openPath(path);
    },
    openPlace: ({ id }) => openId(id, openPath),
    openPlaceCopy: ({ id }) => openId(id, async (path) => answered(await documents.openCopy(path), null)),
    openText: async ({ name, text }) =>
      answered(
        await documents.openBytes(nameOf(name) || 'This file', new TextEncoder().encode(text), true),
        null,
      ),
    openVersion: async ({ id }) => {
      const version = ids.thingOf(id);
      if (version === null) return refused('This version is no longer offered; choose it again.');
      return answered(await documents.openVersion(version), null);
    },
    recover: async ({ id }) => answered(await documents.recover(id), null),
    discardRecovery: (offer) => documents.discard(offer),
    offers,
    versions: async ({ handle }) =>
      (await documents.versions(handle)).map(({ id, at }) => ({ id: ids.give(id), at })),
    places: async ({ id }) => {
      await state.begun;
      if (id === null) {
        const place = await placeAt(state.lastFolder(), ids);
        return place.outcome === 'place' ? place : placeAt(options.home, ids);
      }
      const path = ids.thingOf(id);
      if (path !== null) return placeAt(path, ids);
      return { outcome: 'refused', message: 'This folder is no longer offered; start again.' };
    },
  } satisfies Partial<DeskCalls>;
  return { calls, openPath };
}
