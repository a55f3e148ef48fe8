// All tools by their id.

import { halfWallTool, wallTool } from './chain.ts';
import { measureTool } from './measure.ts';
import { roomTool } from './room.ts';
import { selectTool } from './select.ts';
import { builtInTool, markTool, openingTool } from './standing.ts';
import type { Tool, ToolId } from './types.ts';

const ALL: Readonly<Record<ToolId, Tool<unknown>>> = {
  select: selectTool,
  wall: wallTool,
  room: roomTool,
  halfWall: halfWallTool,
  opening: openingTool,
  builtIn: builtInTool,
  mark: markTool,
  measure: measureTool,
};

/** A tool with its state hidden: hand it only states that it gave. */
export function toolOf(id: ToolId): Tool<unknown> {
  return ALL[id];
}
