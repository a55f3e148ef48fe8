// The colours of the drawing, apart from the window's: paper in daylight, the same paper at night, and white paper as it
// comes out of a printer. Every mark also reads without its colour: shape first, letter second.

import { INKS } from '../../core/sheets/index.ts';
import type { Ink } from '../../core/sheets/items.ts';

export type Paper = 'paper' | 'light' | 'dark';

/** Inks of a drawing as data, by role, and what the sheet on the screen needs beside them. */
export interface Palette {
  readonly inks: Readonly<Record<Ink, string>>;
  /** The sheet itself, and the floor of a room on it. */
  readonly ground: string;
  readonly floor: string;
  readonly grid: string;
  readonly gridBold: string;
  /** The cut through a wall, and the one through a wall that stops short of the ceiling. */
  readonly wall: string;
  /** The strokes of its shading. */
  readonly wallStroke: string;
  readonly halfWall: string;
  /** What the user set or measured. */
  readonly set: string;
  /** Chosen, under the pointer, and the wash over what is chosen. */
  readonly chosen: string;
  readonly chosenWash: string;
  readonly roomWash: string;
  readonly hover: string;
  /** Guides, and what is caught. */
  readonly guide: string;
  /** A wash that lets what is beneath be guessed: what an edit would take away. */
  readonly veil: string;
}

const LIGHT: Palette = {
  inks: {
    graphite: '#5c554a',
    ink: '#26241f',
    pencil: '#a92a1c',
    faint: '#8c8272',
    paper: '#fffdf7',
    wash: '#efe8da',
    washPencil: '#f8e2de',
  },
  ground: '#f6f1e5',
  floor: '#fffdf7',
  grid: '#ece5d4',
  gridBold: '#e0d7c2',
  wall: '#8f8677',
  wallStroke: '#776e60',
  halfWall: '#d9d0bf',
  set: '#1d4b73',
  chosen: '#0b5cad',
  chosenWash: 'rgb(11 92 173 / 22%)',
  roomWash: 'rgb(11 92 173 / 9%)',
  hover: '#0b5cad',
  guide: '#2c6a66',
  veil: 'rgb(255 253 247 / 78%)',
};

const DARK: Palette = {
  inks: {
    graphite: '#b8ae9b',
    ink: '#efe9dc',
    pencil: '#ff9585',
    faint: '#888173',
    paper: '#302d27',
    wash: '#3b372f',
    washPencil: '#4a2520',
  },
  ground: '#24221e',
  floor: '#302d27',
  grid: '#2d2a25',
  gridBold: '#38342d',
  wall: '#847b6e',
  wallStroke: '#9c9282',
  halfWall: '#5a5448',
  set: '#93c4ea',
  chosen: '#7ab8f5',
  chosenWash: 'rgb(122 184 245 / 26%)',
  roomWash: 'rgb(122 184 245 / 11%)',
  hover: '#7ab8f5',
  guide: '#8accc4',
  veil: 'rgb(48 45 39 / 80%)',
};

/** As core/sheets prints it. */
const PRINTED: Palette = {
  ...LIGHT,
  inks: INKS,
  set: INKS.ink,
  ground: '#ffffff',
  floor: '#ffffff',
  veil: 'rgb(255 255 255 / 78%)',
};

const PALETTES: Readonly<Record<Paper, Palette>> = { paper: PRINTED, light: LIGHT, dark: DARK };

export function paletteOf(paper: Paper): Palette {
  return PALETTES[paper];
}
