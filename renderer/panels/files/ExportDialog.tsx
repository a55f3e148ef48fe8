// Handing the plan over as files: what on, which date, how far it is, where it went. The host writes; what it is sent is
// the revision shown here, so that nothing stale is handed over.

import { useEffect, useRef, useState } from 'react';
import type { SheetSize } from '../../../core/sheets/index.ts';
import type { Answer, Events, ExportKind } from '../../../electron/contract.ts';
import type { AppState, ExportWish } from '../../state/app-state.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { hasAllBoards } from '../../state/selectors.ts';
import { Choice } from '../kit/Choice.tsx';
import { DialogBox } from '../kit/DialogBox.tsx';
import { Problem } from '../kit/Problem.tsx';
import { useSheetChoice } from '../kit/sheet-choice.ts';
import { SHEET_CHOICES, scaleChoices, today } from '../kit/sheets.ts';
import { stemFor } from './names.ts';
import { PlacePicker } from './PlacePicker.tsx';
import type { PutAnswer } from './places.ts';
import { called, LOST, settled } from './saving.ts';

const KINDS: Readonly<Record<ExportKind, { title: string; about: string; ending: string }>> = {
  pdf: {
    title: 'Hand over as PDF',
    about:
      'One file for the crew: cover, plans, a sheet for every room, cut list, boards, labels, site sheet.',
    ending: '.pdf',
  },
  csv: {
    title: 'Export tables (CSV)',
    about: 'A folder with one table each for boards, casings, corners, findings and the order.',
    ending: '',
  },
  report: {
    title: 'Export report (JSON)',
    about: 'Everything worked out from the plan, for other programs to read.',
    ending: '.report.json',
  },
};

/** Whether the boards that the window shows are not worked out to the end, and will not be by themselves. */
function isStoppedShort(state: AppState): boolean {
  return state.solution.state === 'stopped' && !hasAllBoards(state);
}

type Step =
  | { readonly at: 'wishes' }
  | { readonly at: 'place' }
  | {
      readonly at: 'written';
      readonly id: string;
      readonly names: readonly string[];
      readonly note: string | null;
    };

export function ExportDialog({ of }: { readonly of: unknown }) {
  const app = useApp();
  const { kind } = of as ExportWish;
  const { title, about, ending } = KINDS[kind];
  const plan = usePicked(({ open }) => open?.plan ?? null);
  const stopped = usePicked(isStoppedShort);
  const units = plan?.units ?? 'imperial';
  const { sheet, scale, askedScale, setSheet, setScale } = useSheetChoice(units);
  const [date, setDate] = useState(today);
  const [step, setStep] = useState<Step>({ at: 'wishes' });
  const [running, setRunning] = useState(false);
  const [progress, setProgress] = useState<Events['progress'] | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => app.bridge.on('progress', setProgress), [app]);

  /** One call, whichever of the two; null where it cannot be made. */
  async function run(call: (wish: Wish) => Promise<Answer<'export'>>): Promise<Answer<'export'> | null> {
    setProblem(null);
    setProgress(null);
    if (!(await settled(app))) return null;
    const { open } = app.store.get();
    if (open === null) return null;
    const { handle, revision } = open.view;
    setRunning(true);
    // The file is worked out to the end; the window is to come to the same boards.
    if (isStoppedShort(app.store.get())) app.solving.ask();
    try {
      return await call({ handle, revision, kind, sheet, date, scale: askedScale });
    } catch {
      return { outcome: 'refused', message: LOST };
    } finally {
      setRunning(false);
    }
  }

  async function start(): Promise<void> {
    if (!/^\d{4}-\d{2}-\d{2}$/.test(date)) {
      setProblem('Give the date that is to stand on the sheets.');
      return;
    }
    const answer = await run((wish) => app.bridge.export(wish));
    if (answer?.outcome === 'written') setStep({ ...answer, at: 'written' });
    else {
      setStep({ at: answer?.outcome === 'choose' ? 'place' : 'wishes' });
      if (answer?.outcome === 'refused' || answer?.outcome === 'exists') setProblem(answer.message);
    }
  }

  async function put(place: string, name: string, over: boolean): Promise<PutAnswer> {
    const answer = await run((wish) => app.bridge.exportPlace({ ...wish, place, name, over }));
    if (answer?.outcome === 'written') {
      setStep({ ...answer, at: 'written' });
      return { done: true };
    }
    if (answer?.outcome === 'exists') return { exists: answer.message };
    return { message: answer?.outcome === 'refused' ? answer.message : 'Nothing was written.' };
  }

  const cancel = (): void => void app.bridge.cancelExport({}).catch(() => undefined);
  const close = (): void => {
    if (running) cancel();
    app.show(null);
  };
  const name = stemFor(plan?.title ?? '') + (kind === 'csv' ? ' tables' : '');

  return (
    <DialogBox
      title={title}
      onClose={close}
      foot={
        step.at === 'place' && !running ? undefined : (
          <ExportFoot
            step={step}
            kind={kind}
            running={running}
            onStart={() => void start()}
            onCancel={cancel}
            onClose={close}
          />
        )
      }
    >
      {step.at === 'wishes' && !running ? (
        <>
          <p className="files-said">{about}</p>
          {stopped ? (
            <p className="files-said">
              Work on the boards was stopped. For what is handed over they are worked out to the end, and the
              window then shows the same.
            </p>
          ) : null}
          {kind === 'pdf' ? (
            <>
              <Choice label="Sheet" value={sheet} of={SHEET_CHOICES} onSet={setSheet} />
              <Choice label="Floor plans at" value={scale} of={scaleChoices(units)} onSet={setScale} />
            </>
          ) : null}
          {kind === 'report' ? null : (
            <div className="field">
              <label htmlFor="export-date">Date on the sheets</label>
              <span className="field-input">
                <input
                  id="export-date"
                  type="date"
                  value={date}
                  onChange={({ target }) => setDate(target.value)}
                />
              </span>
            </div>
          )}
        </>
      ) : null}
      {step.at === 'place' ? (
        <div hidden={running}>
          <PlacePicker
            wish={{ kind: 'save', title, name: name + ending, ending, put }}
            onCancel={() => setStep({ at: 'wishes' })}
          />
        </div>
      ) : null}
      {running ? (
        <p className="files-said">
          {progress === null ? 'Working it out…' : `${progress.words} (${progress.done} of ${progress.all})`}
          <progress max={progress?.all ?? 1} value={progress?.done} aria-label="How far it is" />
        </p>
      ) : null}
      {step.at === 'written' ? (
        <div id="export-written">
          <p className="files-said">
            {step.names.length === 1 ? 'Written:' : `${step.names.length} files written:`}
          </p>
          <ul className="files-names">
            {step.names.map((each) => (
              <li key={each}>{each}</li>
            ))}
          </ul>
          {step.note === null ? null : <p className="files-said">{step.note}</p>}
        </div>
      ) : null}
      <Problem words={problem} />
    </DialogBox>
  );
}

interface Wish {
  readonly handle: string;
  readonly revision: number;
  readonly kind: ExportKind;
  readonly sheet: SheetSize;
  readonly date: string;
  readonly scale: string | undefined;
}

interface ExportFootProps {
  readonly step: Step;
  readonly kind: ExportKind;
  readonly running: boolean;
  readonly onStart: () => void;
  readonly onCancel: () => void;
  readonly onClose: () => void;
}

function ExportFoot({ step, kind, running, onStart, onCancel, onClose }: ExportFootProps) {
  const app = useApp();
  const written = step.at === 'written' && !running;
  const view = (): void => {
    if (step.at !== 'written') return;
    void called(app, () => app.bridge.openExport({ id: step.id })).then((problem) => {
      if (typeof problem === 'string') app.say(problem, 'problem');
    });
  };
  const done = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (written) done.current?.focus();
  }, [written]);
  if (running)
    return (
      <button type="button" onClick={onCancel}>
        Stop
      </button>
    );
  if (written)
    return (
      <>
        {app.bridge.form === 'desktop' ? (
          <button type="button" onClick={() => void app.bridge.showExport({ id: step.id })}>
            Show in its folder
          </button>
        ) : null}
        {app.bridge.form === 'desktop' && kind === 'pdf' ? (
          <button type="button" title="Opens the PDF in the system's viewer, to print it" onClick={view}>
            Open to print
          </button>
        ) : null}
        <button ref={done} type="button" className="main" aria-describedby="export-written" onClick={onClose}>
          Done
        </button>
      </>
    );
  return (
    <>
      <button type="button" onClick={onClose}>
        Cancel
      </button>
      <button type="button" className="main" data-first onClick={onStart}>
        Choose where…
      </button>
    </>
  );
}
