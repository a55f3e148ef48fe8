// `npm run build`: the window and what runs beside it, into dist/, where they are not current.

import { ensure, HOST, partFolder, WINDOW } from './build-parts.ts';

for (const part of [WINDOW, HOST]) await ensure(part, partFolder(part), (line) => console.log(line));
