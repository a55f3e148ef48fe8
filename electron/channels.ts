// The names on the bridge, without their schemas: all that the preload needs, so that its bundle holds nothing else.

/** Every call; contract.ts says what is sent and what comes back. */
export const CALL_NAMES = [
  'start',
  'newPlan',
  'openDemo',
  'open',
  'openRecent',
  'openPlace',
  'openPlaceCopy',
  'openText',
  'openVersion',
  'recover',
  'discardRecovery',
  'offers',
  'versions',
  'plan',
  'edit',
  'save',
  'saveAs',
  'savePlace',
  'saveBeside',
  'keepMine',
  'takeTheirs',
  'look',
  'close',
  'places',
  'export',
  'exportPlace',
  'cancelExport',
  'showExport',
  'openExport',
  'editField',
  'stay',
  'setPreferences',
  'recent',
  'clearRecent',
  'openLink',
  'quit',
] as const;
export type CallName = (typeof CALL_NAMES)[number];

/** What comes to the window unasked. */
export const EVENT_NAMES = ['changed', 'command', 'opened', 'progress', 'closing'] as const;
export type EventName = (typeof EVENT_NAMES)[number];

/** The global the preload sets. */
export const BRIDGE_GLOBAL = 'copewright';
/** Opens a dropped file by its path; sent by the preload only, which has it from the system. */
export const DROP_CHANNEL = 'copewright:drop';
/** Channel names of the desktop form. */
export const callChannel = (name: CallName): string => `copewright:call:${name}`;
export const eventChannel = (name: EventName): string => `copewright:event:${name}`;
