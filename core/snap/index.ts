// What a pointer means on the sheet: the public side of this folder.
export { type MeetOffer, nearlyMeeting } from './nearly-meeting.ts';
export { type Reference, type SnapIndex, snapIndex, wallReference } from './snap-index.ts';
export { NO_SNAP, snapPoint } from './snap-point.ts';
export type { SnapAnswer, SnapKind, SnapQuery, SnapState, SnapTarget } from './types.ts';
