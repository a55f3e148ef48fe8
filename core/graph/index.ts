// Walls to half-edges, loops and offset faces: the public side of this folder.
export { SHORTEST_SEGMENT } from './drop.ts';
export { faceLoops, levelFaces } from './faces.ts';
export { buildHalfEdges } from './half-edges.ts';
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
export { type Held, type PolygonIndex, polygonIndex } from './polygon-index.ts';
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
