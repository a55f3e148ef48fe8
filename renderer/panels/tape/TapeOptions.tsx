// What is set for drawing, beside the tape bar's figures: which line of the wall is drawn, how thick, what kind of thing.

import { BUILT_IN_KINDS, OPENING_KINDS } from '../../../core/plan/kinds.ts';
import { COMMAND_ROWS } from '../../../electron/menu.ts';
import type { AppState } from '../../state/app-state.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { openingSizes } from '../../tools/sizes.ts';
import type { DrawingOptions, ToolContext, ToolId } from '../../tools/types.ts';
import { kindOptions, type Option } from '../kit/Choice.tsx';
import { CommandButton } from '../kit/CommandButton.tsx';
import { FigureField } from '../kit/FigureField.tsx';

const ALONG = kindOptions({ inside: 'inside', centre: 'middle', outside: 'outside' });

const OPENINGS = kindOptions(OPENING_KINDS);
const BUILT_INS = kindOptions(BUILT_IN_KINDS);
const MARKS = kindOptions({ outlet: 'outlet', register: 'register' });

export function TapeOptions({ tool, context }: { readonly tool: ToolId; readonly context: ToolContext }) {
  const app = useApp();
  const drawing = usePicked((state: AppState) => state.drawing);
  const set = (some: Partial<DrawingOptions>): void =>
    app.change((now) => ({ drawing: { ...now.drawing, ...some } }));
  const length = (label: string, of: NumberOption) => (
    <FigureField
      label={label}
      figures={context.figures}
      takes="length"
      value={drawing[of]}
      onSet={(value) => {
        const least = of === 'builtInBottom' || of === 'openingSill' ? 0 : 1;
        if (value === null) return;
        if (value < least) app.say(`${label} cannot be ${context.figures.length(value)}.`, 'problem');
        else set({ [of]: value });
      }}
    />
  );
  const walls = tool === 'wall' || tool === 'room' || tool === 'halfWall';
  return (
    <div className="tape-options">
      {walls ? (
        <>
          <Pick
            label="Drawn along"
            title="Which line of the wall you draw (A)"
            of={ALONG}
            value={drawing.along}
            onSet={(along) => set({ along })}
          />
          {length('Thick', 'thickness')}
        </>
      ) : null}
      {tool === 'halfWall' ? length('High', 'halfWallHeight') : null}
      {tool === 'opening' ? (
        <>
          <Pick
            label="Kind"
            title="What is placed"
            of={OPENINGS}
            value={drawing.openingKind}
            onSet={(openingKind) => set({ openingKind, ...openingSizes(openingKind, context.plan.units) })}
          />
          {length('High', 'openingHeight')}
          {drawing.openingKind === 'window' ? length('Sill', 'openingSill') : null}
        </>
      ) : null}
      {tool === 'builtIn' ? (
        <>
          <Pick
            label="Kind"
            title="What is placed"
            of={BUILT_INS}
            value={drawing.builtInKind}
            onSet={(builtInKind) => set({ builtInKind })}
          />
          {length('Deep', 'builtInDepth')}
          {length('Top', 'builtInTop')}
        </>
      ) : null}
      {tool === 'mark' ? (
        <Pick
          label="Kind"
          title="What is placed"
          of={MARKS}
          value={drawing.markKind}
          onSet={(markKind) => set({ markKind })}
        />
      ) : null}
      <CommandButton id="view.snapping" className="tape-snap" label={COMMAND_ROWS['view.snapping'].words}>
        Snap
      </CommandButton>
    </div>
  );
}

type NumberOption = {
  [K in keyof DrawingOptions]: DrawingOptions[K] extends number ? K : never;
}[keyof DrawingOptions];

interface PickProps<V extends string> {
  readonly label: string;
  readonly title: string;
  readonly of: readonly Option<V>[];
  readonly value: V;
  readonly onSet: (value: V) => void;
}

function Pick<V extends string>({ label, title, of, value, onSet }: PickProps<V>) {
  return (
    <select
      className="tape-pick"
      aria-label={label}
      title={title}
      value={value}
      onChange={({ target }) => onSet(target.value as V)}
    >
      {of.map((each) => (
        <option key={each.value} value={each.value}>
          {each.words}
        </option>
      ))}
    </select>
  );
}
