// Licences of the libraries and fonts the program is built with.

import { useEffect, useState } from 'react';
import { DialogBox } from '../panels/kit/DialogBox.tsx';
import { type Licence, readLicences } from './licences.ts';

export function Licences() {
  const [list, setList] = useState<readonly Licence[] | 'reading' | null>('reading');
  useEffect(() => {
    readLicences().then(setList, () => setList(null));
  }, []);
  return (
    <DialogBox title="Licences" wide>
      <p className="files-said">
        The program is under the MIT licence. It is built with these libraries and fonts:
      </p>
      {list === 'reading' ? <p className="soft">Reading…</p> : null}
      {list === null ? (
        <p>The list was not made for this build. The licences lie beside the program, in node_modules.</p>
      ) : null}
      {Array.isArray(list)
        ? list.map(({ name, version, licence, text }: Licence) => (
            <details key={`${name} ${version}`} className="licence">
              <summary>
                {name} {version} <span className="soft">{licence}</span>
              </summary>
              <pre>{text}</pre>
            </details>
          ))
        : null}
    </DialogBox>
  );
}
