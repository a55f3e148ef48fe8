// Walls to half-edges, loops and offset faces: the public side of this folder.
export { SHORTEST_SEGMENT } from './drop.ts';
export { buildHalfEdges } from './half-edges.ts';
export { faceLoops, levelFaces } from './known.ts';
export { changedNear } from './near.ts';
export { once } from './once.ts';
export {
  along,
  cross,
  distance,
  dot,
  exactAreaSign,
  exactTurn,
  lengthOf,
  midpoint,
  minus,
  NO_CORNER_DEG,
  rightOf,
  roomAngleDeg,
  signedArea,
  turnDeg,
  unit,
} from './orientation.ts';
export { floorAt, type Held, type PolygonIndex, polygonIndex } from './polygon-index.ts';
export { sameList } from './same-list.ts';
export type {
  FaceCorner,
  FaceLoop,
  FacePart,
  FaceSegment,
  HalfEdge,
  HalfEdgeIndex,
  HalfEdges,
  LevelFaces,
  NarrowPlace,
  Point,
  WallComponent,
} from './types.ts';
