// The tools as a small rack of buttons on the sheet's edge, each with its own glyph, name and key.

import { Toolbar, ToolbarItem, ToolbarProvider } from '@ariakit/react';
import type { ReactNode } from 'react';
import type { CommandId } from '../../../electron/menu.ts';
import { COMMAND_ROWS } from '../../../electron/menu.ts';
import { runCommand } from '../../app/commands.ts';
import { useApp, usePicked } from '../../state/react.ts';
import type { ToolId } from '../../tools/types.ts';
import { useTip } from '../kit/CommandButton.tsx';
import { GLYPHS } from './glyphs.tsx';
import './tape.css';

const RACK: readonly (readonly [CommandId, ToolId])[][] = [
  [['draw.select', 'select']],
  [
    ['draw.wall', 'wall'],
    ['draw.room', 'room'],
    ['draw.halfWall', 'halfWall'],
  ],
  [
    ['draw.opening', 'opening'],
    ['draw.builtIn', 'builtIn'],
    ['draw.mark', 'mark'],
  ],
  [['draw.measure', 'measure']],
];

export function ToolButtons() {
  const app = useApp();
  const tip = useTip();
  const tool = usePicked((state) => state.tool.id);
  const button = ([command, id]: readonly [CommandId, ToolId]): ReactNode => (
    <ToolbarItem
      key={id}
      type="button"
      className="tools-button"
      title={tip(command)}
      aria-label={COMMAND_ROWS[command].words}
      aria-pressed={tool === id}
      onClick={() => runCommand(app, command)}
    >
      {GLYPHS[id]}
    </ToolbarItem>
  );
  return (
    <ToolbarProvider orientation="vertical">
      <Toolbar className="tools" aria-label="Tools">
        {RACK.map((group) => (
          <div key={group[0]![1]} className="tools-group">
            {group.map(button)}
          </div>
        ))}
      </Toolbar>
    </ToolbarProvider>
  );
}
