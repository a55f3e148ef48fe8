// What the drawing and editing commands do: tools taken in hand, and edits of what is chosen.

import type { CommandAction, CommandActions } from '../app/command-types.ts';
import { showRefs } from '../sheet/show.ts';
import type { App } from '../state/app.ts';
import type { AppState } from '../state/app-state.ts';
import type { Ref } from '../state/refs.ts';
import { type Clip, type Copied, clipOf, doubled, mirroredInPlace, pasted, turned } from './copies.ts';
import { deletion } from './delete.ts';
import { backOut, contextOf, runKey, startTool } from './run.ts';
import { lastClickOf } from './select.ts';
import type { ToolContext, ToolId } from './types.ts';
import { closing, joining, splitting } from './wall-commands.ts';

const NO_PLAN = 'Open a plan first, or start a new one.';
const NOT_HERE = 'The sheet is not shown at this stage.';

const noPlan = ({ open }: AppState): string | null => (open === null ? NO_PLAN : null);

const onSheet = ({ open, stage }: AppState): string | null =>
  open === null ? NO_PLAN : stage === 'cut' ? NOT_HERE : null;

/** Takes a tool in hand. What draws is done at the Draw stage, or while measuring: from elsewhere it goes there. */
function tool(id: ToolId): CommandAction {
  const draws = id !== 'select' && id !== 'measure';
  return {
    run: (app) => {
      const { stage } = app.store.get();
      if (draws && (stage === 'trim' || stage === 'cut')) app.setStage('draw');
      startTool(app, id);
    },
    unavailable: draws ? noPlan : onSheet,
    checked: (state) => state.tool.id === id,
  };
}

/** A command that makes one edit of what is chosen, or says why it cannot. */
function editing(make: (context: ToolContext, app: App) => Copied): CommandAction {
  return {
    run: (app) => {
      const context = contextOf(app.store.get());
      if (context === null) return;
      const made = make(context, app);
      if ('why' in made) {
        app.say(made.why);
        return;
      }
      const { edit, words, select, say } = made;
      const done = app.commit(edit, {
        ...(words === undefined ? {} : { words }),
        ...(select === undefined ? {} : { select }),
      });
      // A copy may stand out of sight.
      if (done && select !== undefined) showRefs(app, select);
      if (done && say !== undefined) app.say(say);
    },
    unavailable: noPlan,
  };
}

const chosen = (state: AppState): string | null =>
  state.open === null ? NO_PLAN : state.selection.length === 0 ? 'Choose something first.' : null;

export const toolActions: CommandActions = {
  'draw.select': {
    run: (app) => {
      if (app.store.get().tool.id !== 'select') startTool(app, 'select');
      else backOut(app);
    },
    unavailable: noPlan,
    checked: (state) => state.tool.id === 'select',
  },
  'draw.wall': tool('wall'),
  'draw.room': tool('room'),
  'draw.halfWall': tool('halfWall'),
  'draw.opening': tool('opening'),
  'draw.builtIn': tool('builtIn'),
  'draw.mark': tool('mark'),
  'draw.measure': tool('measure'),
  'draw.tapeWalk': {
    run: (app) => app.show({ id: 'tapeWalk' }),
    unavailable: noPlan,
  },
  'draw.split': {
    ...editing((context, app) => splitting(context, lastClickOf(app.store.get().tool))),
    unavailable: chosen,
  },
  'draw.join': { ...editing(joining), unavailable: chosen },
  'draw.close': editing(closing),

  'edit.copy': {
    run: (app) => {
      const context = contextOf(app.store.get());
      const clip = context === null ? null : clipOf(context);
      if (clip === null) {
        app.say('Choose walls, a room or a thing on a wall to copy.');
        return;
      }
      app.change(() => ({ clipboard: clip }));
      app.say(clip.kind === 'walls' ? `Copied ${counted(Object.keys(clip.part.walls).length)}.` : 'Copied.');
    },
    unavailable: chosen,
  },
  'edit.paste': {
    ...editing((context, app) => {
      const { clipboard, tool: now } = app.store.get();
      return pasted(clipboard as Clip, now.cursor?.at ?? null, context);
    }),
    unavailable: ({ open, clipboard }) =>
      open === null ? NO_PLAN : clipboard === null ? 'Nothing has been copied yet.' : null,
  },
  'edit.duplicate': { ...editing(doubled), unavailable: chosen },
  'edit.mirror': { ...editing(mirroredInPlace), unavailable: chosen },
  'edit.turn': { ...editing((context) => turned(context)), unavailable: chosen },
  'edit.delete': {
    ...editing((context) => {
      const made = deletion(context);
      return 'why' in made ? made : { ...made, select: [] };
    }),
    unavailable: chosen,
  },
  'edit.selectAll': {
    run: (app) => {
      const context = contextOf(app.store.get());
      if (context === null) return;
      const { id: level, walls } = context.level;
      app.select(Object.keys(walls).map((id) => ({ kind: 'wall', level, id }) as Ref));
    },
    unavailable: noPlan,
  },
  'edit.selectRoom': {
    run: (app) => {
      const context = contextOf(app.store.get());
      const room = context === null ? null : roomOfSelection(context);
      if (room === null) app.say('Choose something in a room first.');
      else app.select([room]);
    },
    unavailable: chosen,
  },
  'edit.selectNext': {
    run: (app) => void runKey(app, { key: 'n', shift: false, alt: false, mod: false }),
    unavailable: onSheet,
  },
};

function counted(walls: number): string {
  return walls === 1 ? 'one wall' : `${walls} walls`;
}

/** The room that what is chosen belongs to: the first whose loops hold it. */
function roomOfSelection({ selection, walk, level }: ToolContext): Ref | null {
  for (const ref of selection) {
    if (ref.kind === 'room') return ref;
    const room = walk.rooms.find(({ loops }) =>
      loops.some(
        ({ segments, corners }) =>
          segments.some(
            ({ key, parts, openings, builtIns, marks }) =>
              (ref.kind === 'segment' && key === ref.id) ||
              (ref.kind === 'wall' && parts.some(({ wall }) => wall === ref.id)) ||
              (ref.kind === 'opening' && openings.some(({ id }) => id === ref.id)) ||
              (ref.kind === 'builtIn' && builtIns.some(({ id }) => id === ref.id)) ||
              (ref.kind === 'mark' && marks.some(({ id }) => id === ref.id)),
          ) ||
          corners.some(
            ({ key, node }) =>
              (ref.kind === 'corner' && key === ref.id) || (ref.kind === 'node' && node === ref.id),
          ),
      ),
    );
    if (room !== undefined) return { kind: 'room', level: level.id, id: room.id };
  }
  return null;
}
