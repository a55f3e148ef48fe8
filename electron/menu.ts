// Every command of the window, once: its id, its words, its keys and its place in a menu. The native menus, the window's
// own menus, its keys, its tooltips and its command finder are all made from this table; what a command does is the
// window's. Part of the contract: plain data, no behaviour.

/** Menus in their order. */
export const MENUS = ['File', 'Edit', 'View', 'Draw', 'Trim', 'Help'] as const;
export type MenuName = (typeof MENUS)[number];

export interface CommandRow {
  /** What it does, as a menu says it. */
  readonly words: string;
  readonly menu: MenuName;
  /** Rows of one menu with the same group stand together between lines. */
  readonly group: number;
  /**
   * `Mod+Z`: Ctrl, or Cmd on a Mac. The first is shown; all work. A key without Mod or Alt works only while the sheet or
   * the walk has the focus, never in a field; F keys work everywhere.
   */
  readonly keys?: readonly string[];
}

const rows = {
  'file.new': { words: 'New plan', menu: 'File', group: 1, keys: ['Mod+N'] },
  'file.open': { words: 'Open…', menu: 'File', group: 1, keys: ['Mod+O'] },
  'file.recent': { words: 'Open a recent plan…', menu: 'File', group: 1, keys: ['Mod+Shift+O'] },
  'file.demo': { words: 'Open a demo house…', menu: 'File', group: 1 },
  'file.save': { words: 'Save', menu: 'File', group: 2, keys: ['Mod+S'] },
  'file.saveAs': { words: 'Save as…', menu: 'File', group: 2, keys: ['Mod+Shift+S'] },
  'file.versions': { words: 'Earlier versions…', menu: 'File', group: 2 },
  'file.exportPdf': { words: 'Hand over as PDF…', menu: 'File', group: 3, keys: ['Mod+P'] },
  'file.exportCsv': { words: 'Export tables (CSV)…', menu: 'File', group: 3 },
  'file.exportReport': { words: 'Export report (JSON)…', menu: 'File', group: 3 },
  'file.preferences': { words: 'Preferences…', menu: 'File', group: 4, keys: ['Mod+,'] },
  'file.close': { words: 'Close plan', menu: 'File', group: 5, keys: ['Mod+W'] },

  'edit.undo': { words: 'Undo', menu: 'Edit', group: 1, keys: ['Mod+Z'] },
  'edit.redo': { words: 'Redo', menu: 'Edit', group: 1, keys: ['Mod+Y', 'Mod+Shift+Z'] },
  'edit.copy': { words: 'Copy', menu: 'Edit', group: 2, keys: ['Mod+C'] },
  'edit.paste': { words: 'Paste', menu: 'Edit', group: 2, keys: ['Mod+V'] },
  'edit.duplicate': { words: 'Duplicate', menu: 'Edit', group: 2, keys: ['Mod+D'] },
  'edit.mirror': { words: 'Mirror left to right', menu: 'Edit', group: 3 },
  'edit.turn': { words: 'Turn a quarter', menu: 'Edit', group: 3, keys: ['Mod+R'] },
  'edit.delete': { words: 'Delete', menu: 'Edit', group: 4, keys: ['Delete', 'Backspace'] },
  'edit.selectAll': { words: 'Select all walls', menu: 'Edit', group: 5, keys: ['Mod+A'] },
  'edit.selectRoom': { words: 'Select the whole room', menu: 'Edit', group: 5, keys: ['Mod+Shift+A'] },
  'edit.selectNext': { words: 'Select what lies under it', menu: 'Edit', group: 5, keys: ['N'] },
  'edit.backToRule': { words: 'Back to the rule', menu: 'Edit', group: 6, keys: ['R'] },

  'view.measure': { words: 'Stage: Measure', menu: 'View', group: 1, keys: ['Alt+1'] },
  'view.draw': { words: 'Stage: Draw', menu: 'View', group: 1, keys: ['Alt+2'] },
  'view.trim': { words: 'Stage: Trim', menu: 'View', group: 1, keys: ['Alt+3'] },
  'view.cut': { words: 'Stage: Cut & hand over', menu: 'View', group: 1, keys: ['Alt+4'] },
  'view.fitAll': { words: 'Fit the whole plan', menu: 'View', group: 2, keys: ['Mod+0', 'F'] },
  'view.fitSelection': { words: 'Fit the selection', menu: 'View', group: 2, keys: ['Shift+F'] },
  'view.zoomIn': { words: 'Zoom in', menu: 'View', group: 2, keys: ['Mod+=', 'Mod++', '+', '='] },
  'view.zoomOut': { words: 'Zoom out', menu: 'View', group: 2, keys: ['Mod+-', '-'] },
  'view.zoomReal': { words: 'Zoom to real size', menu: 'View', group: 2, keys: ['Mod+1'] },
  'view.walk': { words: 'Go to the walk', menu: 'View', group: 3, keys: ['F6'] },
  'view.sheet': { words: 'Go to the sheet', menu: 'View', group: 3, keys: ['F7'] },
  'view.ticket': { words: 'Go to the ticket', menu: 'View', group: 3, keys: ['F8'] },
  'view.tape': { words: 'Go to the tape bar', menu: 'View', group: 3, keys: ['T', 'F9'] },
  'view.pencil': { words: 'Go to the red pencil', menu: 'View', group: 3, keys: ['F10'] },
  'view.strip': { words: 'Show or hide the strip and section', menu: 'View', group: 4, keys: ['Alt+S'] },
  'view.grid': { words: 'Grid on or off', menu: 'View', group: 4, keys: ['G'] },
  'view.snapping': { words: 'Snapping on or off', menu: 'View', group: 4, keys: ['S'] },
  'view.theme': { words: 'Light or dark', menu: 'View', group: 5 },

  'draw.select': { words: 'Choose and move', menu: 'Draw', group: 1, keys: ['V', 'Escape'] },
  'draw.wall': { words: 'Draw walls', menu: 'Draw', group: 1, keys: ['W'] },
  'draw.room': { words: 'Draw a room by two corners', menu: 'Draw', group: 1, keys: ['B'] },
  'draw.halfWall': { words: 'Draw a half wall', menu: 'Draw', group: 1, keys: ['Shift+W'] },
  'draw.opening': { words: 'Place a door, window or opening', menu: 'Draw', group: 2, keys: ['D'] },
  'draw.builtIn': { words: 'Place a built-in', menu: 'Draw', group: 2, keys: ['C'] },
  'draw.mark': { words: 'Place an outlet or register', menu: 'Draw', group: 2, keys: ['O'] },
  'draw.measure': { words: 'Measure between two points', menu: 'Draw', group: 3, keys: ['M'] },
  'draw.tapeWalk': {
    words: 'Tape walk: a room from its measurements…',
    menu: 'Draw',
    group: 3,
    keys: ['Mod+T'],
  },
  'draw.split': { words: 'Split the wall', menu: 'Draw', group: 4, keys: ['X'] },
  'draw.join': { words: 'Join two walls', menu: 'Draw', group: 4, keys: ['J'] },
  'draw.close': { words: 'Close walls that nearly meet', menu: 'Draw', group: 4, keys: ['K'] },
  'draw.level': { words: 'Levels…', menu: 'Draw', group: 5 },

  'trim.profiles': { words: 'Profiles…', menu: 'Trim', group: 1, keys: ['P'] },
  'trim.rooms': { words: 'What goes where: room by room…', menu: 'Trim', group: 1, keys: ['Shift+P'] },
  'trim.picker': { words: 'Which profile fits…', menu: 'Trim', group: 1 },
  'trim.settings': { words: 'Job settings…', menu: 'Trim', group: 1 },
  'trim.swapCope': { words: 'Cope the other board', menu: 'Trim', group: 2, keys: ['E'] },
  'trim.nextCorner': { words: 'Next corner', menu: 'Trim', group: 2, keys: [']'] },
  'trim.previousCorner': { words: 'Previous corner', menu: 'Trim', group: 2, keys: ['['] },
  'trim.nextFinding': { words: 'Next finding', menu: 'Trim', group: 2, keys: ['.'] },
  'trim.stock': { words: 'Stock on hand…', menu: 'Trim', group: 3 },

  'help.finder': { words: 'Find a command…', menu: 'Help', group: 1, keys: ['Mod+K'] },
  'help.keys': { words: 'List of keys', menu: 'Help', group: 1, keys: ['?', 'F1'] },
  'help.licences': { words: 'Licences', menu: 'Help', group: 2 },
  'help.about': { words: 'About Copewright', menu: 'Help', group: 2 },
} as const satisfies Record<string, CommandRow>;

export type CommandId = keyof typeof rows;
export const COMMAND_ROWS: Readonly<Record<CommandId, CommandRow>> = rows;
export const COMMAND_IDS = Object.keys(rows) as readonly CommandId[];
