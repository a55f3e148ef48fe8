// The body of a request, whole, up to a limit; what is longer is not read.

import type { IncomingMessage } from 'node:http';

/** The bytes; null where there are more than `limit`. */
export function bodyOf(request: IncomingMessage, limit: number): Promise<Buffer | null> {
  const said = request.headers['content-length'];
  if (said !== undefined && !(Number(said) <= limit)) return Promise.resolve(null);
  return new Promise((resolve, reject) => {
    const parts: Buffer[] = [];
    let length = 0;
    request.on('data', (part: Buffer) => {
      length += part.length;
      if (length > limit) {
        request.pause();
        resolve(null);
      } else parts.push(part);
    });
    request.on('end', () => resolve(Buffer.concat(parts)));
    request.on('error', reject);
  });
}
