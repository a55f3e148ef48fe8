// The plan that the plan file's description shows, whole enough to be read: its references resolve.

/** A fresh copy of the example, as it stands in a file (millimetres, null for absent). */
export function exampleFile() {
  return {
    format: 'copewright-plan',
    version: 1,
    title: 'Harrow Lane, ground floor',
    units: 'imperial',
    builtYear: 1962,
    settings: {},
    profiles: {
      'base-a': {
        kind: 'base',
        name: 'Tall eased base',
        height: 139.7,
        thickness: 12.7,
        form: 'shaped',
        material: 'primed pine',
        stock: [{ length: 3657.6, price: 21.4, onHand: null }],
        scarf: true,
      },
      'case-a': {
        kind: 'casing',
        name: 'Plain casing',
        width: 69.85,
        thickness: 17.4625,
        edgeThickness: 14.2875,
        form: 'flat',
        material: 'poplar',
        stock: [],
      },
    },
    levels: [
      {
        id: 'L1',
        name: 'Ground floor',
        ceilingHeight: 2438.4,
        nodes: { n1: [0, 0], n2: [4267.2, 0] },
        walls: {
          w1: {
            from: 'n1',
            to: 'n2',
            thickness: 114.3,
            height: null,
            faces: { left: 'drywall', right: 'drywall' },
          },
        },
        openings: {
          o1: {
            wall: 'w1',
            at: 1200,
            width: 812.8,
            height: 2032,
            sill: 0,
            kind: 'door',
            reveal: 4.7625,
            casing: { left: 'case-a', right: 'case-a' },
            plinth: null,
            pocket: null,
          },
        },
        builtIns: {
          b1: {
            wall: 'w1',
            side: 'right',
            at: 2400,
            width: 600,
            bottom: 0,
            top: 900,
            depth: 600,
            kind: 'cabinet',
            ends: 'square',
          },
        },
        marks: {
          k1: { wall: 'w1', side: 'right', at: 500, kind: 'outlet', bottom: 300, top: 415, width: 70 },
        },
        rooms: {
          r1: {
            name: 'Hall',
            at: [2000, 1500],
            entry: 'o1',
            trim: { base: 'base-a', shoe: null, crown: null, chairRail: null, pictureRail: null },
            old: { baseHeight: 88.9, floor: 19.05, gap: 0 },
            new: { floor: 12.7, gap: 0, carpet: false },
            floorDatum: null,
          },
        },
        corners: {
          'n2:w1>w2': { number: 7, measured: 91.5, lines: { base: { joint: 'cope', coped: 'after' } } },
        },
        faces: {
          'w1:right': {
            measured: 4070,
            stretches: { 'corner..o1': 1140, 'o1..corner': 2050 },
            floor: [
              { at: 0, height: 0 },
              { at: 1200, height: -3 },
            ],
            line: [],
            trim: { base: null },
          },
        },
      },
    ],
    stockOnHand: { 'base-a': [{ length: 1830, count: 2 }] },
    studs: { spacing: 406.4 },
    counters: { corner: 12 },
  };
}

/** The example's file text. */
export function exampleText(): string {
  return JSON.stringify(exampleFile(), null, 2);
}
