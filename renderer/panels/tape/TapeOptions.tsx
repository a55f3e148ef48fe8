// What is set for drawing, beside the tape bar's figures: which line of the wall is drawn, how thick, what kind of thing.

import { COMMAND_ROWS } from '../../../electron/menu.ts';
import type { AppState } from '../../state/app-state.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { openingSizes } from '../../tools/sizes.ts';
import type { DrawingOptions, ToolContext, ToolId } from '../../tools/types.ts';
import { CommandButton } from '../kit/CommandButton.tsx';
import { FigureField } from '../kit/FigureField.tsx';

const ALONG = [
  ['inside', 'Inside'],
  ['centre', 'Middle'],
  ['outside', 'Outside'],
] as const;

const OPENINGS = [
  ['door', 'Door'],
  ['cased', 'Cased opening'],
  ['window', 'Window'],
  ['sliding', 'Sliding door'],
  ['pocket', 'Pocket door'],
  ['passage', 'Passage'],
] as const;

const BUILT_INS = [
  ['cabinet', 'Cabinet'],
  ['hearth', 'Hearth'],
  ['tub', 'Tub'],
  ['stair', 'Stair'],
  ['radiator', 'Radiator'],
  ['column', 'Column'],
] as const;

const MARKS = [
  ['outlet', 'Outlet'],
  ['register', 'Register'],
] as const;

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
  readonly of: readonly (readonly [V, string])[];
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
      {of.map(([id, words]) => (
        <option key={id} value={id}>
          {words}
        </option>
      ))}
    </select>
  );
}
