// Whose program is at the other end of a connection on this machine, as far as the system tells: on Linux by its tables of
// TCP sockets (proc(5), /proc/net/tcp). Another account could read the one-time key where the browser is started, or hold
// the cookie of another port; neither lets it in.

import { readFileSync } from 'node:fs';
import type { Socket } from 'node:net';
import { endianness } from 'node:os';

/** 127.0.0.1 as the tables write it: four bytes in the machine's order, in hexadecimal. */
const LOOPBACK = endianness() === 'LE' ? '0100007F' : '7F000001';
/** The same in the table of IPv6 sockets, as an IPv4-mapped address. */
const MAPPED = `0000000000000000${endianness() === 'LE' ? 'FFFF0000' : '0000FFFF'}${LOOPBACK}`;

/** The state of a connection that stands, as the tables write it; one whose owner has closed it counts as nobody's. */
const ESTABLISHED = '01';

const TABLES = [
  ['/proc/net/tcp', LOOPBACK],
  ['/proc/net/tcp6', MAPPED],
] as const;

/**
 * The account of the socket on this machine's loopback that is at `port` and connected to `to`, by the lines of a table.
 * Null where there is none.
 */
export function ownerIn(table: string, address: string, port: number, to: number): number | null {
  const end = (at: number): string => `${address}:${at.toString(16).toUpperCase().padStart(4, '0')}`;
  for (const line of table.split('\n')) {
    const [, local, remote, state, , , , uid] = line.trim().split(/\s+/);
    if (state === ESTABLISHED && local === end(port) && remote === end(to)) return Number(uid);
  }
  return null;
}

/** Who must not be heard: another account of this machine, or nobody, where the other end is given up already. */
export type Stranger = 'another account' | 'nobody';

/**
 * Who a connection comes from, where that is not the account that this process runs for; null where it is, and where the
 * system does not tell (no such tables, as on Windows and macOS).
 */
export function strangerAt({ remotePort, localPort }: Socket): Stranger | null {
  const own = process.getuid?.();
  if (own === undefined || remotePort === undefined || localPort === undefined) return null;
  let told = false;
  for (const [path, address] of TABLES) {
    let table: string;
    try {
      table = readFileSync(path, 'latin1');
    } catch {
      continue;
    }
    told = true;
    const owner = ownerIn(table, address, remotePort, localPort);
    if (owner !== null) return owner === own ? null : 'another account';
  }
  return told ? 'nobody' : null;
}
