// The licences of what the program is built with, from a list that the build makes beside this file. Where it is not there,
// there is nothing to show, and the dialog says so.

export interface Licence {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly text: string;
}

const LISTS = import.meta.glob<{ readonly default: unknown }>('./licences.json');

export async function readLicences(): Promise<readonly Licence[] | null> {
  const load = LISTS['./licences.json'];
  if (load === undefined) return null;
  const { default: list } = await load();
  return Array.isArray(list) ? list.flatMap(licenceOf) : null;
}

function licenceOf(each: unknown): Licence[] {
  if (typeof each !== 'object' || each === null) return [];
  const field = (name: string): string => {
    const value = (each as Record<string, unknown>)[name];
    return typeof value === 'string' ? value : '';
  };
  const name = field('name');
  if (name === '') return [];
  return [{ name, version: field('version'), licence: field('licence'), text: field('text') }];
}
