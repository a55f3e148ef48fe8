// Events to the window as one stream of server-sent events, to every page that listens; and since when none listens.

import type { ServerResponse } from 'node:http';

/** So that a connection that is gone is noticed. */
const BEAT_MS = 15_000;

export interface EventStreams {
  /** Takes a response over as a stream. */
  add(response: ServerResponse): void;
  send(event: string, data: unknown): void;
  count(): number;
  end(): void;
}

/** `changed` is told whenever a page comes or goes. */
export function eventStreams(changed: () => void): EventStreams {
  const streams = new Set<ServerResponse>();
  const beat = setInterval(() => {
    for (const stream of streams) stream.write(':\n\n');
  }, BEAT_MS);
  beat.unref();
  return {
    add: (response) => {
      response.writeHead(200, { 'content-type': 'text/event-stream' });
      response.write(':\n\n');
      streams.add(response);
      response.on('close', () => {
        streams.delete(response);
        changed();
      });
      changed();
    },
    // JSON has no raw line ends, so an event is one line of data.
    send: (event, data) => {
      for (const stream of streams) stream.write(`event: ${event}\ndata: ${JSON.stringify(data)}\n\n`);
    },
    count: () => streams.size,
    end: () => {
      clearInterval(beat);
      for (const stream of streams) stream.end();
    },
  };
}
