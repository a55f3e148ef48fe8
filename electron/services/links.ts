// The program's outside links. A window asks for one by its id; no other address is ever opened.

export const LINKS: Readonly<Record<string, string>> = {
  /** The text of the licence, at the registry of licence names. */
  licence: 'https://spdx.org/licenses/MIT.html',
};
