// The page as the state has it, at once. Whoever moves the focus to what an edit brings calls it first: the next key is
// then read there, however fast it comes.

import { flushSync } from 'react-dom';

export function drawNow(): void {
  flushSync(() => undefined);
}
