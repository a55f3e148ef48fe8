// The calls that put a plan into a file. A plan without a file is asked where it is to go: by the system's dialog where
// there is one, else by the window, which then names a folder by its id and a name.

import { dirname, join } from 'node:path';
import type { SaveAnswer } from '../contract.ts';
import type { DeskState } from './desk-state.ts';
import type { DeskCalls } from './desk-types.ts';
import { EXTENSION, type OpenDocument } from './document-types.ts';
import { nameFault, nameOf, stemOf, withEnding } from './file-names.ts';
import type { SaveOutcome } from './save.ts';

const refused = (message: string, elsewhere: boolean): SaveAnswer => ({
  outcome: 'refused',
  message,
  elsewhere,
});
const CLOSED = refused('This plan is no longer open.', false);

export function saveCalls(state: DeskState) {
  const { options, documents, ids } = state;

  async function answered(outcome: SaveOutcome): Promise<SaveAnswer> {
    if (outcome.outcome !== 'saved') return outcome;
    const { realPath } = outcome.file;
    await state.used(realPath);
    return { outcome: 'saved', name: nameOf(realPath) };
  }

  async function saveAs(document: OpenDocument): Promise<SaveAnswer> {
    if (options.chooser === null) return { outcome: 'choose' };
    const { name, title } = document.view();
    const own = document.realPath();
    const folder = own === null ? state.lastFolder() : dirname(own);
    const chosen = await options.chooser.saveFile(`${stemOf(name, title)}${EXTENSION}`, folder);
    if (chosen === null) return { outcome: 'cancelled' };
    // The dialog asked about the name it was given, and no other.
    const path = withEnding(chosen, EXTENSION);
    return answered(await document.saveAs(path, path === chosen));
  }

  const withDocument = async (
    handle: string,
    action: (document: OpenDocument) => Promise<SaveAnswer>,
  ): Promise<SaveAnswer> => {
    const document = documents.get(handle);
    return document === null ? CLOSED : action(document);
  };

  return {
    save: ({ handle }) =>
      withDocument(handle, async (document) =>
        document.realPath() === null ? saveAs(document) : answered(await document.save('hand')),
      ),
    saveAs: ({ handle }) => withDocument(handle, saveAs),
    savePlace: async ({ handle, place, name, over }) => {
      const document = documents.get(handle);
      const folder = ids.thingOf(place);
      if (document === null) return CLOSED;
      if (folder === null) return refused('This folder is no longer offered; choose it again.', true);
      const file = withEnding(name.trim(), EXTENSION);
      const fault = nameFault(file);
      if (fault !== null) return refused(fault, true);
      const path = join(folder, file);
      const there = await options.env.calls.lstat(path).catch(() => null);
      if (there !== null && !over) return { outcome: 'exists', message: `${file} is there already.` };
      return answered(await document.saveAs(path, over));
    },
    saveBeside: ({ handle }) =>
      withDocument(handle, async (document) => answered(await document.saveBeside())),
    keepMine: ({ handle, theirs }) =>
      withDocument(handle, async (document) => answered(await document.keepMine(theirs))),
  } satisfies Partial<DeskCalls>;
}
