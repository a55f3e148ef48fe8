// Edits of records as data: everything in the plan file but the walls themselves (edits.ts has those). New ids come with
// the edit. Lengths in ticks, angles in degrees. Nothing is done here. RULES: ED13 to ED17, ED28.

import type {
  BuiltIn,
  BuiltInId,
  CornerKey,
  FaceRecord,
  HeldBoard,
  JointChoice,
  Level,
  LevelId,
  Mark,
  MarkId,
  Opening,
  OpeningId,
  Plan,
  Profile,
  ProfileId,
  RoomId,
  RoomRecord,
  SegmentKey,
  TrimLine,
} from '../plan/schema.ts';
import type { Changes } from './fields.ts';

type On<T> = T & { readonly level: LevelId };

export type AddOpening = On<{
  readonly type: 'addOpening';
  readonly opening: OpeningId;
  readonly record: Opening;
}>;
/** Also moves it: along its wall with `at`, to another with `wall` and `at`. */
export type ChangeOpening = On<{
  readonly type: 'changeOpening';
  readonly opening: OpeningId;
  readonly set: Changes<Opening>;
}>;
export type DeleteOpening = On<{ readonly type: 'deleteOpening'; readonly opening: OpeningId }>;

export type AddBuiltIn = On<{
  readonly type: 'addBuiltIn';
  readonly builtIn: BuiltInId;
  readonly record: BuiltIn;
}>;
export type ChangeBuiltIn = On<{
  readonly type: 'changeBuiltIn';
  readonly builtIn: BuiltInId;
  readonly set: Changes<BuiltIn>;
}>;
export type DeleteBuiltIn = On<{ readonly type: 'deleteBuiltIn'; readonly builtIn: BuiltInId }>;

export type AddMark = On<{ readonly type: 'addMark'; readonly mark: MarkId; readonly record: Mark }>;
export type ChangeMark = On<{
  readonly type: 'changeMark';
  readonly mark: MarkId;
  readonly set: Changes<Mark>;
}>;
export type DeleteMark = On<{ readonly type: 'deleteMark'; readonly mark: MarkId }>;

/** Names a room: the one whose floor holds `record.at`. */
export type AddRoom = On<{ readonly type: 'addRoom'; readonly room: RoomId; readonly record: RoomRecord }>;
/** `old` and `new` are set as wholes. Trim has its own edit. */
export type ChangeRoom = On<{
  readonly type: 'changeRoom';
  readonly room: RoomId;
  readonly set: Changes<Omit<RoomRecord, 'trim'>>;
}>;
export type DeleteRoom = On<{ readonly type: 'deleteRoom'; readonly room: RoomId }>;

/** What trim a room or one face carries. `{ profile: null }`: none. `null`: back to the rule (a face takes its room's). */
export type SetTrim = On<{
  readonly type: 'setTrim';
  readonly of: { readonly room: RoomId } | { readonly face: SegmentKey };
  readonly lines: { readonly [L in TrimLine]?: { readonly profile: ProfileId | null } | null };
}>;

/** A corner's measured angle and the user's choices. `null`: back to the rule, or not measured. */
export type SetCorner = On<{
  readonly type: 'setCorner';
  readonly corner: CornerKey;
  readonly set: {
    readonly measured?: number | null;
    readonly lines?: { readonly [L in TrimLine]?: CornerChoice | null };
  };
}>;
/** `null` in a field: that one back to the rule. */
export interface CornerChoice {
  readonly joint?: JointChoice | null;
  readonly coped?: 'before' | 'after' | null;
}

/** What was measured on a face: each list is set as a whole; stretches one by one. */
export type SetFace = On<{
  readonly type: 'setFace';
  readonly face: SegmentKey;
  readonly set: Omit<Changes<FaceRecord>, 'trim' | 'stretches'> & {
    readonly stretches?: { readonly [stretch: string]: number | null };
  };
}>;

/** A level after those there are, or before the one now at `position`. */
export interface AddLevel {
  readonly type: 'addLevel';
  readonly level: LevelId;
  readonly record: Pick<Level, 'name' | 'ceilingHeight'>;
  readonly position?: number;
}
export type ChangeLevel = On<{
  readonly type: 'changeLevel';
  readonly set: Partial<Pick<Level, 'name' | 'ceilingHeight'>>;
}>;
export type MoveLevel = On<{ readonly type: 'moveLevel'; readonly position: number }>;
export type DeleteLevel = On<{ readonly type: 'deleteLevel' }>;

export interface AddProfile {
  readonly type: 'addProfile';
  readonly profile: ProfileId;
  readonly record: Profile;
}
export interface ChangeProfile {
  readonly type: 'changeProfile';
  readonly profile: ProfileId;
  readonly set: Changes<Profile>;
}
/** Another id; everything that names the old one names the new one. */
export interface RenameProfile {
  readonly type: 'renameProfile';
  readonly profile: ProfileId;
  readonly to: ProfileId;
}
/** Refused while something uses it, unless `instead` says what takes its place: another profile, or null for none. */
export interface DeleteProfile {
  readonly type: 'deleteProfile';
  readonly profile: ProfileId;
  readonly instead?: ProfileId | null;
}

/** `null`: back to the default. */
export interface SetSettings {
  readonly type: 'setSettings';
  readonly set: Changes<Plan['settings']>;
}
export interface SetPlan {
  readonly type: 'setPlan';
  readonly set: {
    readonly title?: string;
    readonly units?: Plan['units'];
    readonly builtYear?: number | null;
    readonly studs?: { readonly spacing: number } | null;
  };
}
/** Boards on hand of one profile, as a whole; an empty list takes the entry away. */
export interface SetStockOnHand {
  readonly type: 'setStockOnHand';
  readonly profile: ProfileId;
  readonly boards: readonly { readonly length: number; readonly count: number }[];
}

/** Holds a stock board as it is; boards that were held with a piece of it are held no more. */
export interface HoldBoard {
  readonly type: 'holdBoard';
  readonly profile: ProfileId;
  readonly board: HeldBoard;
}
/** Lets go of the held board that has this piece. */
export interface LetGoBoard {
  readonly type: 'letGoBoard';
  readonly profile: ProfileId;
  readonly piece: string;
}
/** Lets go of all held boards of a profile. */
export interface LetGoBoards {
  readonly type: 'letGoBoards';
  readonly profile: ProfileId;
}

/** Edits of records on one level. */
export type LevelRecordEdit =
  | AddOpening
  | ChangeOpening
  | DeleteOpening
  | AddBuiltIn
  | ChangeBuiltIn
  | DeleteBuiltIn
  | AddMark
  | ChangeMark
  | DeleteMark
  | AddRoom
  | ChangeRoom
  | DeleteRoom
  | SetTrim
  | SetCorner
  | SetFace;
/** Edits of the plan as a whole. */
export type PlanRecordEdit =
  | AddLevel
  | ChangeLevel
  | MoveLevel
  | DeleteLevel
  | AddProfile
  | ChangeProfile
  | RenameProfile
  | DeleteProfile
  | SetSettings
  | SetPlan
  | SetStockOnHand
  | HoldBoard
  | LetGoBoard
  | LetGoBoards;
