// The command line from the outside: a file in, standard output, standard error and the exit code out.

import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ReportSchema } from '../../core/report/schema.ts';
import { ownMark } from '../../electron/services/process-mark.ts';
import { BROKEN_KINDS } from '../core/plan/broken-plans.ts';
import { cases, random } from '../seeds.ts';
import { bundledCli } from './bundled-cli.ts';
import { smallDisk } from './services/helpers.ts';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const cottage = join(root, 'demo-data', 'thimble-cottage.copewright.json');

describe('the command line', () => {
  let folder: string;
  let bundled: string;

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'copewright-cli-'));
    bundled = bundledCli('cli');
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const run = (...words: string[]) => {
    const { status, stdout, stderr } = spawnSync('node', [bundled, ...words], {
      encoding: 'utf8',
      maxBuffer: 1 << 28,
      cwd: folder,
    });
    return { status, stdout, stderr };
  };

  it('runs from the sources with no build step: report --json keeps to its schema and prints nothing else', () => {
    const text = execFileSync('npm', ['run', '-s', 'copewright', '--', 'report', cottage, '--json'], {
      cwd: root,
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    });
    expect(
      ReportSchema.parse(JSON.parse(text))
        .rooms.map((room) => room.name)
        .sort(),
    ).toEqual(['Bath', 'Bedroom', 'Sitting room']);
  });

  it('writes over no other plan, by its name or a link, and says so', () => {
    const other = join(folder, 'other.copewright.json');
    copyFileSync(cottage, other);
    const was = readFileSync(other, 'utf8');
    symlinkSync(other, join(folder, 'sheets.pdf'));
    for (const output of ['other.copewright.json', 'OTHER.Copewright.JSON', 'sheets.pdf']) {
      const refused = run('pdf', cottage, '-o', output);
      expect(refused.stderr).toBe(`${output} leads to a plan; choose another name.\n`);
      expect(refused.status).toBe(2);
    }
    mkdirSync(join(folder, 'linked'));
    symlinkSync(other, join(folder, 'linked', 'order.csv'));
    expect(run('csv', cottage, '-o', 'linked').status).toBe(2);
    expect(readdirSync(join(folder, 'linked'))).toEqual(['order.csv']);
    expect(readFileSync(other, 'utf8')).toBe(was);
  });

  it('standard output that takes no more ends it quietly, one that is full with a sentence', () => {
    const through = (to: string) =>
      spawnSync('sh', ['-c', `node '${bundled}' report '${cottage}' --json ${to}`], { encoding: 'utf8' });
    expect(through('| head -c 1').stderr).toBe('');
    const full = through('> /dev/full');
    expect(full.stderr).toBe(
      'Standard output does not fit: the disk is full; free some space or choose another disk.\n',
    );
    expect(full.status).toBe(2);
    // Where even that cannot be said the exit code is that of bad input, not of a job that is stopped.
    expect(spawnSync('sh', ['-c', `node '${bundled}' check nowhere 2> /dev/full`]).status).toBe(2);
  });

  it('prints findings with exit 1 where one stops the job', () => {
    const checked = run('check', cottage);
    expect(checked.stderr).toBe('');
    expect(checked.status).toBe(1);
    expect(checked.stdout).toMatch(/^stop {2}base-proud {2}/m);
  });

  it('writes a PDF that a checker finds clean, twice the same bytes, and never touches the plan', () => {
    const before = readFileSync(cottage);
    for (const name of ['one.pdf', 'two.pdf']) {
      const made = run('pdf', cottage, '-o', name, '--sheet', 'a4', '--date', '2026-01-31');
      expect([made.status, made.stdout, made.stderr]).toEqual([0, '', '']);
    }
    const one = readFileSync(join(folder, 'one.pdf'));
    expect(one.equals(readFileSync(join(folder, 'two.pdf')))).toBe(true);
    execFileSync('qpdf', ['--check', join(folder, 'one.pdf')]);
    expect(readFileSync(cottage).equals(before)).toBe(true);
  });

  it('refuses to write a result over the plan itself, by its name, by another spelling and through links', () => {
    const plan = join(folder, 'mine.copewright.json');
    const bytes = readFileSync(cottage);
    writeFileSync(plan, bytes);
    symlinkSync(plan, join(folder, 'soft.pdf'));
    linkSync(plan, join(folder, 'hard.pdf'));
    mkdirSync(join(folder, 'sheets'));
    linkSync(plan, join(folder, 'sheets', 'boards.csv'));
    for (const words of [
      ['pdf', plan, '-o', plan],
      ['pdf', plan, '-o', './sheets/../mine.copewright.json'],
      ['pdf', plan, '-o', 'soft.pdf'],
      ['pdf', plan, '-o', 'hard.pdf'],
      ['csv', plan, '-o', 'sheets'],
    ]) {
      const refused = run(...words);
      expect([words, refused.status, refused.stdout]).toEqual([words, 2, '']);
      expect(refused.stderr).toContain('is the plan itself');
      expect(readFileSync(plan).equals(bytes)).toBe(true);
    }
  });

  it('writes tables as CSV', () => {
    expect(run('csv', cottage, '-o', 'tables').status).toBe(0);
    const names = readdirSync(join(folder, 'tables')).sort();
    expect(names).toEqual(
      expect.arrayContaining(['boards.csv', 'casings.csv', 'corners.csv', 'findings.csv']),
    );
    expect(readFileSync(join(folder, 'tables', 'boards.csv'), 'utf8')).toMatch(/^\uFEFFboard,level,room/);
  });

  it('writes all tables or none: what stands in the way of one leaves all as they are, and no folder is made in vain', () => {
    const at = join(folder, 'half');
    const names = ['boards', 'casings', 'corners', 'cuts', 'findings', 'order'].map((name) => `${name}.csv`);
    const old = (): void => {
      rmSync(at, { recursive: true, force: true });
      mkdirSync(at);
      for (const name of names) writeFileSync(join(at, name), 'old');
    };
    const lastInTheWay: readonly [RegExp, (last: string) => void][] = [
      [
        /^\S*half\/order\.csv is not an ordinary file; [^\n]*\.\n$/,
        (last) => [rmSync(last), mkdirSync(last)],
      ],
      [/^\S*half\/order\.csv is read-only; [^\n]*\.\n$/, (last) => chmodSync(last, 0o444)],
    ];
    for (const [words, happen] of lastInTheWay) {
      old();
      happen(join(at, 'order.csv'));
      const refused = run('csv', cottage, '-o', 'half');
      expect([refused.status, refused.stdout]).toEqual([2, '']);
      expect(refused.stderr).toMatch(words);
      expect(readdirSync(at)).toEqual(names);
      for (const name of names.filter((each) => each !== 'order.csv'))
        expect(readFileSync(join(at, name), 'utf8'), name).toBe('old');
    }

    const disk = smallDisk(join(folder, 'full'), '16k', {
      fault: 'tables on a full disk',
      instead: 'write-whole.test.ts, each operation made to fail',
    });
    if (disk === null) return;
    try {
      // Some of them find room, the others do not.
      const none = run('csv', cottage, '-o', 'full/new/tables');
      expect([none.status, none.stderr]).toEqual([2, expect.stringContaining('the disk is full')]);
      expect(readdirSync(join(folder, 'full'))).toEqual([]);
    } finally {
      disk.gone();
    }
  });

  it('[SK5] takes away what a run that was killed left beside its result', () => {
    const { host } = ownMark();
    mkdirSync(join(folder, 'swept'));
    const left = join(folder, 'swept', `.copewright-${host}-999999999-1-${'1'.repeat(16)}.tmp`);
    for (const words of [
      ['csv', cottage, '-o', 'swept'],
      ['pdf', cottage, '-o', 'swept/a.pdf', '--date', '2026-01-31'],
    ]) {
      writeFileSync(left, 'half a result');
      expect(run(...words).status, words[0]).toBe(0);
      expect(existsSync(left), words[0]).toBe(false);
    }
  });

  it.skipIf(process.platform !== 'linux')(
    'a folder that the system lets nobody make is told in a sentence',
    () => {
      const { status, stderr } = spawnSync('node', [bundled, 'csv', cottage, '-o', '/proc/zz'], {
        encoding: 'utf8',
        timeout: 30_000,
      });
      expect([status, stderr]).toEqual([2, '/proc/zz cannot be made there; choose another folder.\n']);
      const behind = run('csv', cottage, '-o', `${cottage}/tables`);
      expect(behind.stderr).toBe(
        `${cottage}/tables lies in something that is not a folder; check the path.\n`,
      );
      expect(run('csv', cottage, '-o', cottage).stderr).toBe(
        `${cottage} is in the way; choose another name.\n`,
      );
    },
  );

  it('prints the JSON Schemas that assets/ publishes', () => {
    for (const which of ['plan', 'report']) {
      const printed = run('schema', which);
      expect(printed.status).toBe(0);
      expect(printed.stdout).toBe(
        readFileSync(join(root, 'assets', 'schemas', `${which}.schema.json`), 'utf8'),
      );
    }
  });

  it('a PDF that cannot be written leaves the old file whole, says why and exits 2', () => {
    const old = join(folder, 'old.pdf');
    writeFileSync(old, 'the old one', { mode: 0o444 });
    const refused = run('pdf', cottage, '-o', old);
    expect(refused.status).toBe(2);
    expect(refused.stdout).toBe('');
    expect(refused.stderr).toMatch(/^\S*old\.pdf .*\.\n$/);
    expect(readFileSync(old, 'utf8')).toBe('the old one');
    expect(run('pdf', cottage, '-o', join(folder, 'missing', 'x.pdf')).status).toBe(2);

    const small = join(folder, 'small');
    const disk = smallDisk(small, '32k', {
      fault: 'a PDF on a full disk',
      instead: 'services/disk.test.ts, limit on file size',
    });
    if (disk === null) return;
    try {
      const target = join(small, 'a.pdf');
      writeFileSync(target, 'the old one');
      const full = run('pdf', cottage, '-o', target);
      expect(full.status).toBe(2);
      expect(full.stderr).toContain('the disk is full');
      expect(readFileSync(target, 'utf8')).toBe('the old one');
      expect(readdirSync(small)).toEqual(['a.pdf']);
    } finally {
      disk.gone();
    }
  });

  it('an empty name is told as one, for the plan and for what is to be written', () => {
    for (const [what, words] of [
      ["command-argument value '' is invalid for argument 'plan'", ['report', '']],
      ["command-argument value '' is invalid for argument 'plan'", ['csv', '', '-o', 'tables']],
      ["option '-o, --output <folder>' argument '' is invalid", ['csv', cottage, '-o', '']],
      ["option '-o, --output <file>' argument '' is invalid", ['pdf', cottage, '-o', '']],
    ] as const) {
      const refused = run(...words);
      expect(refused.stderr).toBe(`error: ${what}. it is empty; write a name.\n`);
      expect([refused.status, refused.stdout]).toEqual([2, '']);
    }
  });

  it('wrong words, wrong dates, files that are not there and folders each give exit 2 and say so on standard error', () => {
    for (const words of [
      [],
      ['draw'],
      ['report'],
      ['report', 'nothing.json'],
      ['report', folder],
      ['pdf', cottage],
      ['pdf', cottage, '-o', `${join(folder, 'new')}/`],
      ['pdf', cottage, '-o', 'x.pdf', '--sheet', 'b5'],
      ['pdf', cottage, '-o', 'x.pdf', '--scale', '1/5'],
      ['pdf', cottage, '-o', 'x.pdf', '--date', '2026-02-30'],
      ['schema', 'house'],
      ['report', cottage, '--loud'],
    ]) {
      const refused = run(...words);
      expect([words, refused.status, refused.stdout]).toEqual([words, 2, '']);
      expect(refused.stderr.length, words.join(' ')).toBeGreaterThan(10);
      expect(refused.stderr).not.toMatch(/^\s+at /m);
    }
    expect(run('--help').status).toBe(0);
  });

  it('[SH8, SH38] a scale that is none gets one sentence with those there are; what cannot be printed is said and is no fault', () => {
    const wrong = run('pdf', cottage, '-o', 'x.pdf', '--scale', '1/5');
    expect(wrong.stderr).toMatch(/^"1\/5" is no scale [^\n]* 1\/2, 3\/8, 1\/4, [^\n]*\.\n$/);
    expect(existsSync(join(folder, 'x.pdf'))).toBe(false);
    const plan = JSON.parse(readFileSync(cottage, 'utf8')) as { title: string };
    const path = join(folder, 'named.copewright.json');
    writeFileSync(path, JSON.stringify({ ...plan, title: '\u5c45\u9593' }));
    const made = run('pdf', path, '-o', 'named.pdf', '--scale', '1/8', '--date', '2026-01-31');
    expect([made.status, made.stdout]).toEqual([0, '']);
    expect(made.stderr).toMatch(/^“\u5c45” and “\u9593” are not in the font [^\n]* pages? [^\n]*\.\n$/);
    expect(existsSync(join(folder, 'named.pdf'))).toBe(true);
  });

  it('broken plan files give exit 2 and one sentence with the place; no stack trace, no output', () => {
    const seed = 90_210;
    const next = random(seed);
    const kinds = Object.keys(BROKEN_KINDS);
    const total = Math.max(kinds.length, cases(200));
    const path = join(folder, 'broken.copewright.json');
    for (let k = 0; k < total; k += 1) {
      const kind = kinds[k % kinds.length]!;
      writeFileSync(path, BROKEN_KINDS[kind]!(next));
      const size = statSync(path).size;
      const refused = run('report', path, '--json');
      const label = `${kind}, case ${k}`;
      expect(refused.status, label).toBe(2);
      expect(refused.stdout, label).toBe('');
      expect(refused.stderr.startsWith(`${path}: `), label).toBe(true);
      expect(refused.stderr, label).toMatch(/^[^\n]+\.\n$/);
      expect(refused.stderr, label).toMatch(/\d+:\d+/);
      expect(statSync(path).size, label).toBe(size);
    }
    console.log(`broken plans on the command line: seed ${seed}, ${total} files of ${kinds.length} kinds`);
  });
});
