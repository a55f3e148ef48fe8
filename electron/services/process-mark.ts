// Which process on which machine: host, process id and when it started, so that a number given again to another process
// is not taken for the first. The start is counted from boot where the system tells it, so setting the clock changes nothing.

import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';

/** Where the system does not tell when a process started, or nobody noted it. */
export const UNKNOWN_START = '0';

export interface ProcessMark {
  /** 8 hex, from the machine's name. */
  readonly host: string;
  readonly pid: number;
  /** Hex; `UNKNOWN_START` where it cannot be known. */
  readonly start: string;
}

function short(text: string): string {
  return createHash('sha256').update(text).digest('hex').slice(0, 8);
}

/** When a process started; null when there is no such process, or it has ended and only waits to be collected. */
function startOf(pid: number): string | null {
  if (process.platform === 'linux') return linuxStart(pid);
  if (!answers(pid)) return null;
  if (process.platform !== 'darwin') return UNKNOWN_START;
  try {
    const text = execFileSync('ps', ['-o', 'lstart=', '-p', String(pid)], {
      encoding: 'utf8',
      timeout: 2000,
    });
    return short(text.trim());
  } catch {
    return UNKNOWN_START;
  }
}

function linuxStart(pid: number): string | null {
  let line: string;
  try {
    line = readFileSync(`/proc/${pid}/stat`, 'latin1');
  } catch {
    return answers(pid) ? UNKNOWN_START : null;
  }
  // After the name in brackets, which may hold anything: state is field 3, the start field 22 (proc(5)).
  const fields = line.slice(line.lastIndexOf(')') + 2).split(' ');
  if (fields[0] === 'Z' || fields[0] === 'X') return null;
  let boot = '';
  try {
    boot = readFileSync('/proc/sys/kernel/random/boot_id', 'latin1');
  } catch {
    // Without it the start alone has to do.
  }
  return short(`${boot} ${fields[19]}`);
}

function answers(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** This process. */
export function ownMark(): ProcessMark {
  return { host: short(hostname()), pid: process.pid, start: startOf(process.pid) ?? UNKNOWN_START };
}

/** `alive` or `dead` on this machine; `elsewhere` when another machine left the mark, which cannot be asked. */
export function stateOf(mark: ProcessMark): 'alive' | 'dead' | 'elsewhere' {
  if (mark.host !== short(hostname())) return 'elsewhere';
  const start = startOf(mark.pid);
  if (start === null) return 'dead';
  return start === mark.start || start === UNKNOWN_START || mark.start === UNKNOWN_START ? 'alive' : 'dead';
}
