// Names that a file may have, and where the program keeps its own things.

import { readFile, writeFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openDocuments } from '../../../electron/services/documents.ts';
import { nameFault, nameOf, stemOf } from '../../../electron/services/file-names.ts';
import { opaqueIds } from '../../../electron/services/opaque-ids.ts';
import { placeAt } from '../../../electron/services/places.ts';
import { userDataFolder } from '../../../electron/services/program.ts';
import { recentFiles } from '../../../electron/services/recent.ts';
import { freshFolder, mustOpen, remove, retitle, textOf, wallEnv } from './helpers.ts';

describe('names for files', () => {
  it('marks that turn the direction of writing are refused by number, and left out of a proposal', () => {
    for (const mark of ['\u202e', '\u202a', '\u2066', '\u2069']) {
      const number = `U+${mark.codePointAt(0)!.toString(16).toUpperCase()}`;
      expect(nameFault(`house${mark}fdp.copewright.json`)).toBe(
        `A file name cannot hold the sign ${number}; leave it out.`,
      );
      expect(stemOf(null, `house${mark}fdp`)).toBe('house fdp');
    }
    expect(nameFault('a:b')).toBe('A file name cannot hold ":"; leave it out.');
    expect(nameFault('Grüner Hof – 2')).toBeNull();
  });

  it('of files that are there cannot break a line or turn a sentence round, wherever they are told', async () => {
    const folder = await freshFolder();
    try {
      const path = join(folder, 'oak\n\u202enosj.copewright.json');
      await writeFile(path, '{"format":"copewright-plan","version":99}');
      const documents = openDocuments(wallEnv(join(folder, 'user')));
      const shown = 'oak\ufffd\ufffdnosj.copewright.json';
      for (const outcome of [await documents.open(path), await documents.openCopy(path)])
        expect(outcome).toMatchObject({ message: expect.stringMatching(new RegExp(`^${shown}: version`)) });
      await writeFile(path, textOf('t0'));
      const { view, document } = mustOpen(await documents.open(path));
      expect(view.name).toBe(shown);
      const place = await placeAt(folder, opaqueIds());
      expect(place).toMatchObject({ place: { entries: [{ name: 'user' }, { name: shown, kind: 'plan' }] } });
      const recent = recentFiles(wallEnv(join(folder, 'user')));
      await recent.add(path);
      expect(await recent.list()).toMatchObject([{ name: shown }]);
      // It is still the file of that very name that is written.
      retitle(document, 't1');
      expect(await document.save('hand')).toMatchObject({ outcome: 'saved' });
      expect(await readFile(path, 'utf8')).toBe(textOf('t1'));
      expect(nameOf(path)).toBe(shown);
      await documents.closeAll();
    } finally {
      await remove(folder);
    }
  });

  it('a title of the greatest length, of dots, or of signs alone still gives a name that a disk takes', () => {
    for (const title of ['x'.repeat(200), '…'.repeat(200), '😀'.repeat(100), '...', '???', 'CON', ' ', '']) {
      const stem = stemOf(null, title);
      expect(nameFault(`${stem}.copewright.json`), title).toBeNull();
    }
  });

  it('know a plan by its ending, in large letters too', () => {
    expect(stemOf('HOUSE.COPEWRIGHT.JSON', 'other')).toBe('HOUSE');
    expect(stemOf('house.copewright.json', 'other')).toBe('house');
  });
});

describe.runIf(process.platform === 'linux')('the folder of the program’s own things', () => {
  it('is never one inside the folder that happens to be current', () => {
    const usual = join(homedir(), '.config', 'copewright', 'safe');
    expect(userDataFolder({})).toBe(usual);
    // The base directory specification: empty is not set, and what is not absolute is not heeded.
    expect(userDataFolder({ XDG_CONFIG_HOME: '' })).toBe(usual);
    expect(userDataFolder({ XDG_CONFIG_HOME: 'settings' })).toBe(usual);
    expect(userDataFolder({ XDG_CONFIG_HOME: '/tmp/settings' })).toBe('/tmp/settings/copewright/safe');
  });
});
