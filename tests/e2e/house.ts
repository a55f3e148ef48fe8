// The house of the whole job: what the carpenter was given, and what must come out, worked out by hand from the rules of
// the trade, never by the program. Lengths as people write them; x to the right and y down from the inside corner at the
// top left, in inches.
//
// Clear sizes (walls 4 1/2 in thick: 24' 4 1/2" = 13' 2" + 4 1/2" + 10' 10"; 20' = 11' + 4 1/2" + 8' 7 1/2"
// = 12' 4 1/4" + 4 1/2" + 7' 3 1/4"):
//
//        0         158 162.5       292.5
//      0 1-----------5   7-----------2
//        | Kitchen   |   | Living   17 at 70
//        |         (o1) (o1)   18===  half wall, 4' long, 4 1/2" thick
//        |           |   |     19===
//        |           |   |          20 at 74.5
//    132 10---(o3)---9   |           |
//  136.5 11---(o3)--12   14--(o2)---13  148.25
//        | Bedroom   |   15--(o2)---16  152.75
//        |           |   | Bath      |
//    240 4-----------6   8-----------3
//
// Corner numbers are given once, in walking order from the room's corner that lies furthest up, then left (WK9, ED10):
// the outer room 1 to 4; then what each partition brings, the room further up or left first.

export const OUTER = { Width: `24' 4 1/2`, Depth: `20'` } as const;

/** A wall to draw from the middle of a wall that stands: `from` and `to` in inches, for the pointer. */
export interface NewWall {
  readonly command: 'wall' | 'halfWall';
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** For the keyboard: the corner to begin at, then presses of the arrow keys, whole (6 in) and fine (1/4 in). */
  readonly corner: number;
  readonly presses: readonly (readonly [key: string, times: number])[];
  readonly length: string;
  readonly heading: string;
  /** The face that is then set, and the clear distance typed for it. */
  readonly face: RegExp;
  readonly clear: string;
}

// Arrow keys go by 6 in, with Shift by 1/4 in; half a wall is 9 fine steps.
export const WALLS: readonly NewWall[] = [
  {
    command: 'wall',
    from: [150, -2.25],
    to: [150, 242.25],
    corner: 1,
    presses: [
      ['Shift+ArrowUp', 9],
      ['ArrowRight', 25],
    ],
    length: `20' + 4 1/2`,
    heading: '90',
    face: /^Wall, corner 5 to 6/,
    clear: `13' 2`,
  },
  {
    command: 'wall',
    from: [-2.25, 140],
    to: [160.25, 140],
    corner: 5,
    presses: [
      ['Shift+ArrowRight', 9],
      ['ArrowDown', 23],
    ],
    length: `13' 2 + 4 1/2`,
    heading: '180',
    face: /^Wall, corner 9 to 10/,
    clear: `11'`,
  },
  {
    command: 'wall',
    from: [160.25, 160],
    to: [294.75, 160],
    corner: 7,
    presses: [
      ['Shift+ArrowLeft', 9],
      ['ArrowDown', 26],
    ],
    length: `10' 10 + 4 1/2`,
    heading: '0',
    face: /^Wall, corner 13 to 14/,
    clear: `12' 4 1/4`,
  },
  {
    command: 'halfWall',
    from: [294.75, 80],
    to: [244.5, 80],
    corner: 2,
    presses: [
      ['Shift+ArrowRight', 9],
      ['ArrowDown', 13],
    ],
    length: `4' + 2 1/4`,
    heading: '180',
    face: /^Wall, corner 17 to 18/,
    clear: `5' 10`,
  },
];

/** Rooms: a corner each holds, its name, and its corners in walking order from the lowest number. */
export const ROOMS = [
  { corner: 1, name: 'Kitchen', corners: [1, 5, 9, 10] },
  { corner: 2, name: 'Living', corners: [2, 17, 18, 19, 20, 13, 14, 7] },
  { corner: 4, name: 'Bedroom', corners: [4, 11, 12, 6] },
  { corner: 3, name: 'Bath', corners: [3, 8, 15, 16] },
] as const;

/** Clear sizes as the walk must say them once all is drawn, before anything stands on a wall. */
export const FACES = [
  `Wall, corner 1 to 5, 13' 2"`,
  `Wall, corner 5 to 9, 11' 0"`,
  `Wall, corner 9 to 10, 13' 2"`,
  `Wall, corner 10 to 1, 11' 0"`,
  `Wall, corner 7 to 2, 10' 10"`,
  `Wall, corner 2 to 17, 5' 10"`,
  `Wall, corner 17 to 18, 4' 0"`,
  `Wall end, corner 18 to 19, 4 1⁄2"`,
  `Wall, corner 19 to 20, 4' 0"`,
  `Wall, corner 20 to 13, 6' 1 3⁄4"`,
  `Wall, corner 13 to 14, 10' 10"`,
  `Wall, corner 14 to 7, 12' 4 1⁄4"`,
  `Wall, corner 11 to 12, 13' 2"`,
  `Wall, corner 12 to 6, 8' 7 1⁄2"`,
  `Wall, corner 6 to 4, 13' 2"`,
  `Wall, corner 4 to 11, 8' 7 1⁄2"`,
  `Wall, corner 15 to 16, 10' 10"`,
  `Wall, corner 16 to 3, 7' 3 1⁄4"`,
  `Wall, corner 3 to 8, 10' 10"`,
  `Wall, corner 8 to 15, 7' 3 1⁄4"`,
] as const;

/** What stands on walls: the face, the gap to one of its corners, the width. */
export const DOORS = [
  { face: /^Wall, corner 5 to 9/, figures: { 'From left': `2'`, Width: `2' 8` }, row: 'Door o1' },
  { face: /^Wall, corner 13 to 14/, figures: { 'From right': `1' 6`, Width: `2' 8` }, row: 'Door o2' },
  { face: /^Wall, corner 9 to 10/, figures: { 'From right': `3' 1 1/2`, Width: `2' 6` }, row: 'Door o3' },
] as const;
export const CABINETS = [
  { face: /^Wall, corner 10 to 1/, figures: { 'From left': `2'`, Width: `3'` }, row: 'Cabinet b1' },
  { face: /^Wall, corner 10 to 1/, figures: { 'From left': `5'`, Width: `2'` }, row: 'Cabinet b2' },
] as const;

/** Mouldings. Names begin with different letters, so that one key finds each in a list. */
export const PROFILES = [
  { kind: 'Base', name: 'Heavy base', sizes: { Height: '3 1/2', Thickness: '3/4' }, price: '16.40' },
  { kind: 'Base', name: 'Light base', sizes: { Height: '3 1/2', Thickness: '1/2' }, price: '12.75' },
  {
    kind: 'Casing',
    name: 'Door casing',
    sizes: { Width: '2 1/4', Thickness: '11/16', 'Edge thickness': '5/8' },
    price: '9.90',
  },
] as const;

/** The angle finder's reading at corner 3. */
export const READ = { corner: 3, angle: '92' } as const;
/** The tape's reading along the bath's wall 3 to 8, drawn 10' 10". */
export const TAPED = { face: /^Wall, corner 3 to 8/, length: `10' 9 7/8` } as const;

export interface WantedBoard {
  readonly id: string;
  /** Overall, to the sixteenth, as a tape reads and the sheets print. */
  readonly length: string;
  readonly from: 'drawn' | 'measured';
}

// Overall = L + the larger of back and face at either end (domain, 'Lengths'). L is the stretch:
// - corner to corner it is the clear length. At an inside corner the board that runs through has offset 0; a coped one has
//   back 0 and face −(t₂/sin α + t·cot α), less than its back: so neither changes the overall length.
// - beside a door it ends at the casing: gap − reveal 3/16 − casing 2 1/4, that is gap − 2 7/16. Square: offset 0.
// - beside a cabinet it ends at the cabinet. Square: offset 0.
// - an outside mitre adds t·tan m on the face. Half wall, drawn 90°, less the build-up allowance 1.5°: α = 88.5°,
//   m = (180 − 88.5) / 2 = 45.75°; t = 1/2: 1/2 · tan 45.75° = 0.5133.
const drawn = (id: string, length: string): WantedBoard => ({ id, length, from: 'drawn' });
export const BOARDS: readonly WantedBoard[] = [
  // Kitchen.
  drawn('1A', '158″'), //          13' 2" = 158
  drawn('5A', '21 9⁄16″'), //      o1, 24 from corner 5: 24 − 2 7/16
  drawn('5B', '73 9⁄16″'), //      132 − 24 − 32 = 76; 76 − 2 7/16
  drawn('9A', '88 1⁄16″'), //      o3, 37 1/2 from corner 10: 158 − 37 1/2 − 30 = 90 1/2; − 2 7/16
  drawn('9B', '35 1⁄16″'), //      37 1/2 − 2 7/16
  drawn('10A', '24″'), //          to the first cabinet
  drawn('10B', '48″'), //          132 − 24 − 36 − 24, from the second cabinet
  // Living.
  drawn('7A', '130″'), //          10' 10"
  drawn('2A', '70″'), //           5' 10", to the half wall
  drawn('17A', '48 1⁄2″'), //      48 + 0.5133 at its outside corner: 48 8/16
  drawn('18A', '5 1⁄2″'), //       4 1/2 + 2 · 0.5133 = 5.5265: 5 8/16
  drawn('19A', '48 1⁄2″'), //      as 17A
  drawn('20A', '73 3⁄4″'), //      148 1/4 − 70 − 4 1/2
  drawn('13A', '77 9⁄16″'), //     o2, 18 from corner 14: 130 − 18 − 32 = 80; − 2 7/16
  drawn('13B', '15 9⁄16″'), //     18 − 2 7/16
  drawn('14A', '89 13⁄16″'), //    o1 from the other side: 148 1/4 − 24 − 32 = 92 1/4; − 2 7/16
  drawn('14B', '21 9⁄16″'), //     24 − 2 7/16
  // Bedroom.
  drawn('11A', '35 1⁄16″'), //     o3 from the other side
  drawn('11B', '88 1⁄16″'),
  drawn('12A', '103 1⁄2″'), //     8' 7 1/2"
  drawn('6A', '158″'),
  drawn('4A', '103 1⁄2″'),
  // Bath.
  drawn('15A', '15 9⁄16″'), //     o2 from the other side
  drawn('15B', '77 9⁄16″'),
  drawn('16A', '87 1⁄4″'), //      7' 3 1/4"
  { id: '3A', length: '129 7⁄8″', from: 'measured' }, // as the tape said; the drawing says 130
  drawn('8A', '87 1⁄4″'),
];

/** At corner 3, read as 92°: a cope is cut first as an inside mitre, (180 − 92) / 2 off square. */
export const SAW_AT_READ = 44;
