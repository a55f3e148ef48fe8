// What this is, and which version.

import { DialogBox } from '../panels/kit/DialogBox.tsx';
import { useApp, usePicked } from '../state/react.ts';
import { PROGRAM } from './title.ts';

export function About() {
  const app = useApp();
  const version = usePicked(({ start }) => start?.version ?? '');
  return (
    <DialogBox
      title={`About ${PROGRAM}`}
      foot={
        <button type="button" onClick={() => app.show({ id: 'licences' })}>
          Licences
        </button>
      }
    >
      <p className="files-said">
        <strong>
          {PROGRAM} {version}
        </strong>
      </p>
      <p className="files-said">Draw a house, see what its trim will do, and hand the crew one PDF.</p>
      <p className="soft">
        Check the first cut of every setting on a scrap. Free software under the MIT licence, without
        warranty.
      </p>
    </DialogBox>
  );
}
