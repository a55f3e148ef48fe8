// The bridge over loopback HTTP, for the browser form: one POST per call, events over one stream. The cookie that the
// server set on the way in is the key; nothing here holds one.

import {
  type Answer,
  type Bridge,
  CALL_NAMES,
  type CallName,
  type EventName,
  type Events,
  MAX_PAYLOAD_BYTES,
  type OpenAnswer,
  type Sent,
} from '../../electron/contract.ts';

/** Header that a form or an image on another page cannot send. */
const OURS = { 'content-type': 'application/json', 'x-copewright': '1' };

async function call<C extends CallName>(name: C, sent: Sent<C>): Promise<Answer<C>> {
  const reply = await fetch(`./call/${name}`, { method: 'POST', headers: OURS, body: JSON.stringify(sent) });
  if (!reply.ok) throw new Error(`${name}: ${reply.status} ${await reply.text()}`);
  return (await reply.json()) as Answer<C>;
}

const refused = (message: string): OpenAnswer => ({ outcome: 'refused', message, lastGood: null });

/** A dropped file's text as it stands: nothing is mended on the way, so what is wrong with it is told. */
async function textOf(file: File): Promise<{ readonly text: string } | { readonly refusal: string }> {
  // In JSON, quotes and line ends take two bytes each.
  if (2 * file.size > MAX_PAYLOAD_BYTES)
    return { refusal: `${file.name} is too large to be dropped here; open it from its folder.` };
  try {
    const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
    return { text: decoder.decode(await file.arrayBuffer()) };
  } catch {
    return { refusal: `${file.name} is not a file of UTF-8 text, as every plan is.` };
  }
}

export function loopbackBridge(): Bridge {
  const source = new EventSource('./events');
  const calls = Object.fromEntries(
    CALL_NAMES.map((name) => [name, (sent: Sent<typeof name>) => call(name, sent)]),
  ) as unknown as { readonly [C in CallName]: (sent: Sent<C>) => Promise<Answer<C>> };
  const agent = navigator.userAgent;
  return {
    ...calls,
    form: 'browser',
    platform: agent.includes('Mac') ? 'mac' : agent.includes('Windows') ? 'windows' : 'linux',
    openFile: async (file) => {
      const text = await textOf(file);
      return 'refusal' in text ? refused(text.refusal) : calls.openText({ name: file.name, ...text });
    },
    on: <E extends EventName>(event: E, listener: (data: Events[E]) => void) => {
      const hear = (message: MessageEvent<string>): void => listener(JSON.parse(message.data) as Events[E]);
      source.addEventListener(event, hear);
      return () => source.removeEventListener(event, hear);
    },
  };
}
