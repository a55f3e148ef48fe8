// Keys of the table against what keyboards send: layouts, Macs, the key for third signs.

import { describe, expect, test } from 'vitest';
import { COMMAND_IDS, COMMAND_ROWS } from '../../../electron/menu.ts';
import {
  commandOf,
  isPlain,
  type KeyboardForm,
  type KeyPlace,
  type KeyPress,
  keysOf,
  keyWords,
  readChord,
  withKey,
} from '../../../renderer/app/keys.ts';

const linux: KeyboardForm = { platform: 'linux', form: 'browser' };
const mac: KeyboardForm = { platform: 'mac', form: 'desktop' };
const press = (key: string, held: Partial<KeyPress> = {}): KeyPress => ({
  key,
  code: '',
  ctrl: false,
  meta: false,
  alt: false,
  shift: false,
  altGraph: false,
  ...held,
});
const commandFor = (sent: KeyPress, form = linux, place: KeyPlace = 'keys') =>
  commandOf(sent, { ...form, place });

describe('reading a key of the table', () => {
  test('a plus sign is a key like any other', () => {
    expect(readChord('Mod++')).toEqual({ mod: true, shift: false, alt: false, key: '+' });
    expect(readChord('+')).toEqual({ mod: false, shift: false, alt: false, key: '+' });
    expect(readChord('Mod+Shift+Z')).toEqual({ mod: true, shift: true, alt: false, key: 'Z' });
  });

  test('every key of the table, sent as a keyboard sends it, gives its own command', () => {
    for (const id of COMMAND_IDS)
      for (const text of COMMAND_ROWS[id].keys ?? []) {
        const { mod, shift, alt, key } = readChord(text);
        const sent = /^[A-Z]$/.test(key) && !shift ? key.toLowerCase() : key;
        expect(commandFor(press(sent, { ctrl: mod, shift, alt })), text).toBe(id);
        expect(commandFor(press(sent, { meta: mod, shift, alt }), mac), text).toBe(id);
      }
  });
});

describe('where a key works', () => {
  test('a letter is a command only where keys are; with Ctrl, with Alt and the F keys are everywhere', () => {
    for (const place of ['field', 'elsewhere'] as const) {
      expect(commandFor(press('w'), linux, place)).toBeNull();
      expect(commandFor(press('Escape'), linux, place)).toBeNull();
      expect(commandFor(press('s', { ctrl: true }), linux, place)).toBe('file.save');
      expect(commandFor(press('2', { alt: true }), linux, place)).toBe('view.draw');
      expect(commandFor(press('F6'), linux, place)).toBe('view.walk');
    }
    expect(isPlain(readChord('Shift+W'))).toBe(true);
  });

  test('of the keys that type a sign or do something by themselves, only ? is a command on a button; in a field it is typed', () => {
    const plain = COMMAND_IDS.flatMap((id) => COMMAND_ROWS[id].keys ?? [])
      .map(readChord)
      .filter(isPlain);
    const works = plain.filter(({ key, shift }) => commandFor(press(key, { shift }), linux, 'elsewhere'));
    expect(works.map(({ key }) => key)).toEqual(['?']);
    expect(commandFor(press('?', { shift: true }), linux, 'elsewhere')).toBe('help.keys');
    expect(commandFor(press('?', { shift: true }), linux, 'field')).toBeNull();
  });

  test('Shift with a letter is another key; with a sign it is how the layout types it', () => {
    expect(commandFor(press('w'))).toBe('draw.wall');
    expect(commandFor(press('W', { shift: true }))).toBe('draw.halfWall');
    expect(commandFor(press('?', { shift: true }))).toBe('help.keys');
    expect(commandFor(press('+', { shift: true, ctrl: true }))).toBe('view.zoomIn');
  });

  test('capitals lock does not change a letter', () => {
    expect(commandFor(press('W'))).toBe('draw.wall');
  });

  test('the key for third signs types, and is neither Ctrl nor Alt', () => {
    const german = press(']', { ctrl: true, alt: true, altGraph: true, code: 'Digit9' });
    expect(commandFor(german)).toBe('trim.nextCorner');
    expect(commandFor(press('@', { ctrl: true, alt: true, altGraph: true, code: 'KeyQ' }))).toBeNull();
  });

  test('where the layout has other letters, the place of the key counts', () => {
    expect(commandFor(press('я', { ctrl: true, code: 'KeyZ' }))).toBe('edit.undo');
    expect(commandFor(press('z', { ctrl: true, code: 'KeyY' }))).toBe('edit.undo');
    expect(commandFor(press('&', { alt: true, code: 'Digit1' }))).toBe('view.measure');
  });

  test('on a Mac Cmd counts and Ctrl does not', () => {
    expect(commandFor(press('z', { meta: true }), mac)).toBe('edit.undo');
    expect(commandFor(press('z', { ctrl: true }), mac)).toBeNull();
    expect(commandFor(press('z', { meta: true }), linux)).toBeNull();
  });
});

describe('keys in words', () => {
  test('they are named as the system names them', () => {
    expect(keyWords('Mod+Shift+Z', linux)).toBe('Ctrl+Shift+Z');
    expect(keyWords('Mod+Shift+Z', mac)).toBe('⇧⌘Z');
    expect(keyWords('Escape', linux)).toBe('Esc');
    expect(keyWords('Mod++', linux)).toBe('Ctrl++');
  });

  test('a tooltip has the words and the first key', () => {
    expect(withKey('edit.undo', linux)).toBe('Undo (Ctrl+Z)');
    expect(withKey('file.open', linux)).toBe('Open (Ctrl+O)');
    expect(withKey('file.demo', linux)).toBe('Open a demo house');
  });

  test('a browser keeps some keys for itself, and the window does not promise them', () => {
    expect(keysOf('file.new', linux)).toEqual([]);
    expect(keysOf('file.new', { ...linux, form: 'desktop' })).toEqual(['Ctrl+N']);
  });
});
