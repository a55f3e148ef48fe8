// A button for a command of the table: its words, its key in the tooltip, its reason where it cannot be had now. It stays
// focusable then, so that the reason can be read.

import type { ReactNode } from 'react';
import type { CommandId } from '../../../electron/menu.ts';
import { COMMAND_ROWS } from '../../../electron/menu.ts';
import { actionOf, runCommand } from '../../app/commands.ts';
import { withKey } from '../../app/keys.ts';
import { useApp, usePicked } from '../../state/react.ts';

/** Tooltips with keys: `const tip = useTip(); <button title={tip('edit.undo')}>`. */
export function useTip(): (id: CommandId, words?: string) => string {
  const { bridge } = useApp();
  return (id, words) => withKey(id, bridge, words);
}

export interface CommandButtonProps {
  readonly id: CommandId;
  /** What stands on it; the command's own words where not given. */
  readonly children?: ReactNode;
  readonly className?: string;
  /** Its name, where what stands on it does not say it all. */
  readonly label?: string;
  readonly before?: () => void;
}

export function CommandButton({ id, children, className, label, before }: CommandButtonProps) {
  const app = useApp();
  const tip = useTip();
  const action = actionOf(id);
  const why = usePicked((state) => action?.unavailable?.(state) ?? null);
  const on = usePicked((state) => action?.checked?.(state));
  const words = usePicked((state) => action?.words?.(state) ?? COMMAND_ROWS[id].words);
  return (
    <button
      type="button"
      className={className}
      title={why === null ? tip(id, words) : `${tip(id, words)}. ${why}`}
      aria-label={label}
      aria-disabled={why !== null || undefined}
      aria-pressed={on}
      onClick={() => {
        before?.();
        runCommand(app, id);
      }}
    >
      {children ?? words.replace(/…$/, '')}
    </button>
  );
}
