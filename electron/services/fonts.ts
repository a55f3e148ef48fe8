// The bytes of the fonts that are embedded in the PDF, by role: in the build from the folder beside it, else from the font
// package. Whole files: they hold the true fractions and primes that web subsets lack. Core is handed the bytes.

import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { FontName } from '../../core/sheets/items.ts';

/** Where each is in the package. */
export const FONT_FILES: Readonly<Record<FontName, string>> = {
  regular: '400Regular/Inter_400Regular.ttf',
  semibold: '600SemiBold/Inter_600SemiBold.ttf',
  bold: '700Bold/Inter_700Bold.ttf',
  italic: '400Regular_Italic/Inter_400Regular_Italic.ttf',
};

function pathOf(file: string): string {
  const beside = fileURLToPath(new URL(`./fonts/${basename(file)}`, import.meta.url));
  return existsSync(beside) ? beside : fontInPackage(file);
}

/** The path of a font in its package. Throws where the package is not there. */
export function fontInPackage(file: string): string {
  return createRequire(import.meta.url).resolve(`@expo-google-fonts/inter/${file}`);
}

/** The four fonts of the sheets. Throws where a file of theirs cannot be read. */
export async function loadFonts(): Promise<Record<FontName, Uint8Array>> {
  const read = async (name: FontName): Promise<Uint8Array> =>
    new Uint8Array(await readFile(pathOf(FONT_FILES[name])));
  const [regular, semibold, bold, italic] = await Promise.all([
    read('regular'),
    read('semibold'),
    read('bold'),
    read('italic'),
  ]);
  return { regular, semibold, bold, italic };
}
