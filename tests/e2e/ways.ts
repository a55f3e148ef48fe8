// What a person does with the window, said once and done in two ways: with the pointer (by-pointer.ts) and with the keyboard
// alone (by-keyboard.ts). `Hands` is what differs between the browser form and the desktop form: menus, file dialogs, files.

import type { Page } from 'playwright';
import { COMMAND_ROWS, type CommandId } from '../../electron/menu.ts';
import type { NewWall } from './house.ts';

/** Figures as people write them, by the labels of their fields. */
export type Figures = Readonly<Record<string, string>>;

export interface Way {
  readonly page: Page;
  /** A command of the menus. */
  command(id: CommandId): Promise<void>;
  /** Chooses a row of the walk by what it is called. */
  choose(row: RegExp): Promise<void>;
  /** Types figures into fields of the tape bar, by their labels, and gives them. */
  tape(figures: Figures): Promise<void>;
  /** Draws one wall between places on walls that stand, with nothing else in hand afterwards. */
  wall(wall: NewWall): Promise<void>;
  /** Types into a field of the open dialog, or of the ticket where none is open, and takes it. */
  type(label: string, text: string): Promise<void>;
  /** Chooses in a list of the open dialog, or of the ticket, what begins with these words. */
  pick(label: string, words: string): Promise<void>;
  /** Presses a button of the open dialog; without one, of the part of the window that a selector names. */
  press(button: string | RegExp, within?: string): Promise<void>;
  /** Opens the finding whose line has these words. */
  openFinding(words: string): Promise<void>;
  undo(times: number): Promise<void>;
  redo(times: number): Promise<void>;
}

export interface Hands {
  /** Does a menu's command by pointer. */
  menu(id: CommandId): Promise<void>;
  /** Saves as a new file through the form's own dialog; gives the file's text. */
  saveAs(way: Way, stem: string): Promise<string>;
  /** Hands over as PDF through the form's own dialog; gives the file. */
  exportPdf(way: Way, stem: string): Promise<Uint8Array>;
}

export const tree = (page: Page) => page.getByRole('tree', { name: 'The walk' });
/** The row of the walk whose whole name fits; it may be folded away. */
export const row = (page: Page, name: RegExp) => tree(page).getByRole('treeitem', { name });
export const dialogOpen = (page: Page) => page.locator('dialog[open]');

export const menuOf = (id: CommandId): { readonly menu: string; readonly words: string } => COMMAND_ROWS[id];
