// The figures of snapping, named once. Pixels are those of the screen. RULES: SN1, SN3, SN7.

/** A target is caught at this distance. */
export const CAUGHT_PX = 8;
/** A target that was caught is let go beyond this distance. */
export const LET_GO_PX = 12;
/** Another target of the same kind takes over when it is nearer by this. */
export const BEAT_PX = 3;
/** A direction from the start is caught within this, and let go beyond one and a half times this. */
export const CAUGHT_DEG = 3;
export const LET_GO_DEG = 4.5;
/** Angle steps from the start, where the query gives none. */
export const ANGLE_STEP_DEG = 15;
/** Guides run from this many nodes, the latest. */
export const RECENT_NODES = 8;
