// The tape bar: one line that says what the tool expects and takes exact figures. What is typed is shown as understood;
// Enter gives it, Tab goes to the next figure, Escape leaves it. Its parts keep their places while the pointer moves.

import { type KeyboardEvent, useEffect, useRef } from 'react';
import { runCommand } from '../../app/commands.ts';
import { goToZone } from '../../app/zones.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { angleText } from '../../tools/directions.ts';
import { backOut, doDeed, giveTyped, readTexts, runKey, startTool, typeInto } from '../../tools/run.ts';
import type { TapeField, Tool, ToolContext } from '../../tools/types.ts';
import { useTip } from '../kit/CommandButton.tsx';
import { gapNear } from './gap.ts';
import { TapeOptions } from './TapeOptions.tsx';
import { useRunning } from './use-running.ts';
import './tape.css';

export function TapeBar() {
  const app = useApp();
  const tip = useTip();
  const stage = usePicked((state) => state.stage);
  const now = useRunning();
  const { tool: running } = app.store.get();
  const first = useRef<HTMLInputElement>(null);
  const asked = useRef(running.ask ?? 0);
  const ask = running.ask ?? 0;
  useEffect(() => {
    if (ask === asked.current) return;
    asked.current = ask;
    const input = first.current;
    input?.focus();
    input?.setSelectionRange(input.value.length, input.value.length);
  }, [ask]);
  // Where trim is looked at, nothing is drawn by a stray click.
  useEffect(() => {
    const { id } = app.store.get().tool;
    if ((stage === 'trim' || stage === 'cut') && id !== 'select' && id !== 'measure')
      startTool(app, 'select');
  }, [app, stage]);
  if (now === null || stage === 'cut') return <div className="tape" />;

  const { tool, state, context } = now;
  const texts = running.texts ?? {};
  const fields = tool.fields(state, context);
  const { figures, problems } = readTexts(tool, state, context, texts);
  const problem = Object.values(problems)[0];
  const understood = fields
    .filter(({ id }) => figures[id] !== undefined)
    .map(
      ({ label, takes, id }) =>
        `${label} ${takes === 'length' ? context.figures.length(figures[id]!) : angleText(figures[id]!)}`,
    )
    .join(', ');
  const busy = tool.busy(state);
  const gap = busy ? null : gapNear(context);

  const onKey = (event: KeyboardEvent<HTMLInputElement>): void => {
    const { key, shiftKey: shift, altKey: alt } = event;
    const mod = event.ctrlKey || event.metaKey;
    const empty = event.currentTarget.value === '';
    // What was given is done: the keys of the sheet are had again, and the next digit comes back here.
    if (key === 'Enter') {
      if (giveTyped(app)) goToZone(app, 'sheet');
    } else if (key === 'Escape') {
      if (Object.values(texts).some((text) => text !== '')) backOut(app);
      else goToZone(app, 'sheet');
    } else if (empty && !mod && !alt && (key === 'Backspace' || /^[a-z]$/i.test(key))) {
      // A key that is held on to empty the field is no key of the sheet.
      if (!event.repeat && !runKey(app, { key, shift, alt, mod })) return;
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <div className="tape">
      <div className="tape-give">
        <h2 className={fields.length > 0 ? 'unseen' : 'tape-tool'}>{tool.words}</h2>
        {fields.map((field, i) => (
          <Figure
            key={field.id}
            field={field}
            text={texts[field.id] ?? ''}
            wrong={problems[field.id] !== undefined}
            input={i === 0 ? first : null}
            onType={(text) => typeInto(app, field.id, text)}
            onKey={onKey}
          />
        ))}
      </div>
      <p
        id="tape-words"
        className={problem === undefined ? 'tape-words' : 'tape-words wrong'}
        title={problem ?? tool.hint(state, context)}
      >
        {problem ??
          (understood === '' ? tool.hint(state, context) : `Understood: ${understood}. Enter gives it.`)}
      </p>
      <div className="tape-deeds">
        {gap === null ? (
          <Deeds tool={tool} state={state} context={context} />
        ) : (
          <button
            type="button"
            title={tip('draw.close', gap)}
            onClick={() => {
              runCommand(app, 'draw.close');
              goToZone(app, 'sheet');
            }}
          >
            Close the gap
          </button>
        )}
        <TapeOptions tool={tool.id} context={context} />
      </div>
    </div>
  );
}

function Deeds({ tool, state, context }: { tool: Tool<unknown>; state: unknown; context: ToolContext }) {
  const app = useApp();
  return tool.deeds?.(state, context).map(({ words, more, key, keyWords, off, ends }) => (
    <button
      key={key}
      type="button"
      title={`${more} (${keyWords})`}
      disabled={off}
      onClick={() => {
        doDeed(app, key, ends === true);
        goToZone(app, 'sheet');
      }}
    >
      {words}
    </button>
  ));
}

interface FigureProps {
  readonly field: TapeField;
  readonly text: string;
  readonly wrong: boolean;
  readonly input: React.RefObject<HTMLInputElement | null> | null;
  readonly onType: (text: string) => void;
  readonly onKey: (event: KeyboardEvent<HTMLInputElement>) => void;
}

/** One figure. What is live stands in it until something is typed. */
function Figure({ field, text, wrong, input, onType, onKey }: FigureProps) {
  const id = `tape-${field.id}`;
  const example = field.takes === 'length' ? 'a length' : 'an angle in degrees';
  return (
    <span className="tape-figure">
      <label htmlFor={id}>{field.label}</label>
      <input
        ref={input}
        id={id}
        type="text"
        inputMode="text"
        autoComplete="off"
        spellCheck={false}
        title={`${field.more ?? field.label}: ${example}. Enter gives it, Tab goes on.`}
        className={field.takes === 'angle' ? 'tape-angle' : undefined}
        data-focus={input === null ? undefined : ''}
        data-empty={text === '' ? '' : undefined}
        value={text}
        placeholder={field.live}
        aria-invalid={wrong}
        aria-describedby="tape-words"
        onChange={({ target }) => onType(target.value)}
        onKeyDown={onKey}
      />
    </span>
  );
}
