// Keys as the command table writes them ('Mod+Shift+Z') to what a keyboard sends, and to words for people. Letters are
// matched by what they mean and, where the layout has other letters, by where they lie. Pure: no DOM.

import { COMMAND_IDS, COMMAND_ROWS, type CommandId, type CommandRow } from '../../electron/menu.ts';

export interface Chord {
  readonly mod: boolean;
  readonly shift: boolean;
  readonly alt: boolean;
  /** As `KeyboardEvent.key` has it; letters in capitals. */
  readonly key: string;
}

/** What is read of a keyboard event. `altGraph`: the key that types third signs; it counts as neither Ctrl nor Alt. */
export interface KeyPress {
  readonly key: string;
  readonly code: string;
  readonly ctrl: boolean;
  readonly meta: boolean;
  readonly alt: boolean;
  readonly shift: boolean;
  readonly altGraph: boolean;
}

export interface KeyboardForm {
  readonly platform: 'linux' | 'mac' | 'windows';
  readonly form: 'desktop' | 'browser';
}

/** Keys that a browser keeps for its own tabs and windows: a page never sees them. */
const KEPT_BY_BROWSERS: readonly string[] = ['Mod+N', 'Mod+T', 'Mod+W'];

const LETTER = /^[A-Z]$/;
const DIGIT = /^[0-9]$/;
const FUNCTION_KEY = /^F\d+$/;

export function readChord(text: string): Chord {
  const own = text.endsWith('+') ? '+' : text.slice(text.lastIndexOf('+') + 1);
  const before = text.slice(0, text.length - own.length).split('+');
  return {
    mod: before.includes('Mod'),
    shift: before.includes('Shift'),
    alt: before.includes('Alt'),
    key: own.length === 1 ? own.toUpperCase() : own,
  };
}

/** Where the focus is: where every key is a command (the sheet, the walk), in a field, or elsewhere, as on a button. */
export type KeyPlace = 'keys' | 'field' | 'elsewhere';

/** Signs that no button and no list takes, only a field. */
const ONLY_TYPED: readonly string[] = ['?'];

/** Whether it works only while the sheet or the walk has the focus: it would be typing elsewhere. */
export function isPlain(chord: Chord): boolean {
  return !chord.mod && !chord.alt && !FUNCTION_KEY.test(chord.key);
}

function worksAt(place: KeyPlace, chord: Chord): boolean {
  if (place === 'keys' || !isPlain(chord)) return true;
  return place === 'elsewhere' && ONLY_TYPED.includes(chord.key);
}

export function matches(
  chord: Chord,
  press: KeyPress,
  { platform }: Pick<KeyboardForm, 'platform'>,
): boolean {
  const [mod, other] = platform === 'mac' ? [press.meta, press.ctrl] : [press.ctrl, press.meta];
  const held = press.altGraph ? { mod: false, alt: false } : { mod, alt: press.alt };
  if (held.mod !== chord.mod || held.alt !== chord.alt || (other && !press.altGraph)) return false;
  const { key } = chord;
  if (LETTER.test(key)) {
    if (press.shift !== chord.shift) return false;
    const sent = press.key.toUpperCase();
    return sent === key || (!LETTER.test(sent) && press.code === `Key${key}`);
  }
  if (DIGIT.test(key))
    return press.shift === chord.shift && (press.key === key || press.code === `Digit${key}`);
  // Where a sign lies, and whether Shift types it, is the layout's business.
  if (key.length === 1) return press.key === key;
  return press.key === key && press.shift === chord.shift;
}

const rowOf = (id: CommandId): CommandRow => COMMAND_ROWS[id];

/** The command that a key press means where the focus is. */
export function commandOf(
  press: KeyPress,
  where: KeyboardForm & { readonly place: KeyPlace },
): CommandId | null {
  const id = COMMAND_IDS.find((each) =>
    (rowOf(each).keys ?? []).some((text) => {
      const chord = readChord(text);
      return worksAt(where.place, chord) && matches(chord, press, where);
    }),
  );
  return id ?? null;
}

const NAMES: Readonly<Record<string, string>> = { Escape: 'Esc' };

/** A key in words: 'Ctrl+Shift+Z', '⇧⌘Z'. */
export function keyWords(text: string, { platform }: Pick<KeyboardForm, 'platform'>): string {
  const { mod, shift, alt, key } = readChord(text);
  const name = NAMES[key] ?? key;
  if (platform === 'mac') return `${alt ? '⌥' : ''}${shift ? '⇧' : ''}${mod ? '⌘' : ''}${name}`;
  return `${mod ? 'Ctrl+' : ''}${alt ? 'Alt+' : ''}${shift ? 'Shift+' : ''}${name}`;
}

/** All keys of a command that work in this form, in words; the first is the one to show. */
export function keysOf(id: CommandId, form: KeyboardForm): readonly string[] {
  return (rowOf(id).keys ?? [])
    .filter((text) => form.form === 'desktop' || !KEPT_BY_BROWSERS.includes(text))
    .map((text) => keyWords(text, form));
}

/** A tooltip: what a command does, and its key: 'Undo (Ctrl+Z)'. */
export function withKey(id: CommandId, form: KeyboardForm, words?: string): string {
  const said = (words ?? rowOf(id).words).replace(/…$/, '');
  const key = keysOf(id, form)[0];
  return key === undefined ? said : `${said} (${key})`;
}
