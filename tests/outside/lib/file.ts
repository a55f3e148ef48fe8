// A plan file as plain JSON, as far as the outside checks write and read it: millimetres, degrees, x right, y down.
// Written apart from core's schema on purpose: the checks hand core a text and get a report back.

export type Vec = readonly [number, number];

export type SideName = 'left' | 'right';
export type LineName = 'base' | 'shoe' | 'crown' | 'chairRail' | 'pictureRail';

export interface FileWall {
  from: string;
  to: string;
  thickness: number;
  faces?: { left?: string; right?: string };
}

export interface FileOpening {
  wall: string;
  at: number;
  width: number;
  height: number;
  sill: number;
  kind: string;
  reveal?: number;
  casing?: { left?: string | null; right?: string | null };
}

export interface FileBuiltIn {
  wall: string;
  side: SideName;
  at: number;
  width: number;
  bottom: number;
  top: number;
  kind: string;
  ends: 'square' | 'scribe' | 'return';
}

export interface FileRoom {
  name: string;
  at: Vec;
  entry?: string | null;
  trim?: Partial<Record<LineName, string | null>>;
  old?: { baseHeight?: number; floor?: number; gap?: number };
  new?: { floor?: number; gap?: number; carpet?: boolean };
  floorDatum?: number | null;
}

export interface FileCorner {
  number?: number;
  measured?: number;
  lines?: Partial<Record<LineName, { joint?: string; coped?: 'before' | 'after' }>>;
}

export interface FileFace {
  measured?: number;
  stretches?: Record<string, number>;
  floor?: { at: number; height: number }[];
  line?: { at: number; height: number }[];
  trim?: Partial<Record<LineName, string | null>>;
}

export interface FileLevel {
  id: string;
  name: string;
  ceilingHeight: number;
  nodes: Record<string, Vec>;
  walls: Record<string, FileWall>;
  openings: Record<string, FileOpening>;
  builtIns: Record<string, FileBuiltIn>;
  rooms: Record<string, FileRoom>;
  corners: Record<string, FileCorner>;
  faces: Record<string, FileFace>;
}

export interface FileProfile {
  kind: string;
  name: string;
  height?: number;
  width?: number;
  thickness: number;
  edgeThickness?: number;
  form: 'flat' | 'shaped';
  material: string;
  stock: { length: number; price?: number }[];
}

export interface PlanJson {
  format: 'copewright-plan';
  version: 1;
  title: string;
  units: 'imperial' | 'metric';
  settings: Record<string, number>;
  profiles: Record<string, FileProfile>;
  levels: FileLevel[];
}

export function emptyLevel(id = 'L1'): FileLevel {
  return {
    id,
    name: id,
    ceilingHeight: 2438.4,
    nodes: {},
    walls: {},
    openings: {},
    builtIns: {},
    rooms: {},
    corners: {},
    faces: {},
  };
}

export function planOf(title: string, levels: FileLevel[]): PlanJson {
  return {
    format: 'copewright-plan',
    version: 1,
    title,
    units: 'metric',
    settings: {},
    profiles: {},
    levels,
  };
}

/** A length in mm at the nearest whole 1/320 mm, as a plan keeps it. */
export function tick(mm: number): number {
  return Math.round(mm * 320) / 320;
}
