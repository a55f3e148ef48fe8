// The bytes of the fonts that are embedded in the PDF, by role, from the font package. Whole files: they hold the true
// fractions and primes that web subsets lack. Core is handed the bytes; it never reads the disk.

import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { FontName } from '../../core/sheets/items.ts';

const FILES: Readonly<Record<FontName, string>> = {
  regular: '400Regular/Inter_400Regular.ttf',
  semibold: '600SemiBold/Inter_600SemiBold.ttf',
  bold: '700Bold/Inter_700Bold.ttf',
  italic: '400Regular_Italic/Inter_400Regular_Italic.ttf',
};

/** The four fonts of the sheets. Throws where a file of the font package cannot be read. */
export async function loadFonts(): Promise<Record<FontName, Uint8Array>> {
  const find = createRequire(import.meta.url);
  const read = async (name: FontName): Promise<Uint8Array> =>
    new Uint8Array(await readFile(find.resolve(`@expo-google-fonts/inter/${FILES[name]}`)));
  const [regular, semibold, bold, italic] = await Promise.all([
    read('regular'),
    read('semibold'),
    read('bold'),
    read('italic'),
  ]);
  return { regular, semibold, bold, italic };
}
