// Dialogs that are a list to open from: recent plans, demo houses, earlier versions of the open plan.

import { useEffect, useState } from 'react';
import { DEMO_HOUSES, type RecentPlan, type VersionNote } from '../../../electron/contract.ts';
import { useApp, usePicked } from '../../state/react.ts';
import { DialogBox } from '../kit/DialogBox.tsx';
import { DEMOS, DRAWING } from './demos.ts';
import { openDemo, openRecent, openVersion, refreshStart, whenWords } from './opening.ts';
import { called } from './saving.ts';

const NO_RECENT: readonly RecentPlan[] = [];

export function RecentList() {
  const app = useApp();
  const recent = usePicked(({ start }) => start?.recent ?? NO_RECENT);
  if (recent.length === 0) return <p className="soft">Plans you open or save are listed here.</p>;
  return (
    <ul className="files-list">
      {recent.map(({ id, name, folder }) => (
        <li key={id}>
          <button type="button" onClick={() => void openRecent(app, id)}>
            <span>{name}</span>
            <span className="soft">{folder}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}

export function RecentDialog() {
  const app = useApp();
  const any = usePicked(({ start }) => (start?.recent.length ?? 0) > 0);
  useEffect(() => void refreshStart(app), [app]);
  return (
    <DialogBox
      title="Open a recent plan"
      foot={
        <button
          type="button"
          disabled={!any}
          onClick={() => void called(app, () => app.bridge.clearRecent({})).then(() => refreshStart(app))}
        >
          Clear this list
        </button>
      }
    >
      <RecentList />
    </DialogBox>
  );
}

export function DemoList() {
  const app = useApp();
  return (
    <ul className="files-list demo-list">
      {DEMO_HOUSES.map((house) => (
        <li key={house}>
          <button type="button" className="demo" onClick={() => void openDemo(app, house)}>
            <svg viewBox={`0 0 ${DRAWING.width} ${DRAWING.height}`} aria-hidden="true">
              <path className="demo-walls" d={DEMOS[house].walls} />
              <path className="demo-openings" d={DEMOS[house].openings} />
            </svg>
            <span>
              <span className="demo-name">{DEMOS[house].name}</span>
              <span className="soft">{DEMOS[house].about}</span>
            </span>
          </button>
        </li>
      ))}
    </ul>
  );
}

export function DemoDialog() {
  return (
    <DialogBox title="Open a demo house">
      <p className="files-said">An invented house to try things on. It opens as a plan without a file.</p>
      <DemoList />
    </DialogBox>
  );
}

export function VersionsDialog() {
  const app = useApp();
  const handle = usePicked(({ open }) => open?.view.handle ?? null);
  const [versions, setVersions] = useState<readonly VersionNote[] | null>(null);
  useEffect(() => {
    if (handle === null) return;
    void called(app, () => app.bridge.versions({ handle })).then((answer) => setVersions(answer ?? []));
  }, [app, handle]);
  return (
    <DialogBox title="Earlier versions">
      <p className="files-said">
        Kept at every save. One opens as a plan without a file; the file stays as it is.
      </p>
      {versions === null ? <p className="soft">Looking…</p> : null}
      {versions?.length === 0 ? <p className="soft">There are none yet.</p> : null}
      <ul className="files-list">
        {versions?.map(({ id, at }) => (
          <li key={id}>
            <button type="button" onClick={() => void openVersion(app, id)}>
              <span>{whenWords(at)}</span>
            </button>
          </li>
        ))}
      </ul>
    </DialogBox>
  );
}
