// The import check is only worth something if it saw every module and can fail.

import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const cruise = (...folders: string[]) => ['depcruise', '--config', '.dependency-cruiser.cjs', ...folders];

function sources(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name) && !name.endsWith('.d.ts'))
    .map((name) => join(folder, name));
}

describe('who may import whom', () => {
  it('the check sees every source file', () => {
    const out = execFileSync('npx', [...cruise('core', 'electron', 'renderer'), '--output-type', 'json'], {
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    });
    const seen = new Set(
      (JSON.parse(out) as { modules: { source: string }[] }).modules.map((each) => each.source),
    );
    const missed = [...sources('core'), ...sources('electron'), ...sources('renderer')].filter(
      (path) => !seen.has(path),
    );
    expect(missed).toEqual([]);
  });

  it('the check fails when units imports a later folder, when core imports node:, when services import electron, and when the window imports more than core and contract', () => {
    const broken: [folder: string, text: string][] = [
      ['core/units', "import { derive } from '../../report/index.ts';\nexport const x = derive;\n"],
      ['core/trim', "import { readFileSync } from 'node:fs';\nexport const x = readFileSync;\n"],
      ['electron/services', "import electron from 'electron';\nexport const x = electron;\n"],
      ['renderer/state', "import { ipcRenderer } from 'electron';\nexport const x = ipcRenderer;\n"],
      ['renderer/state', "import { join } from 'node:path';\nexport const x = join;\n"],
      [
        'renderer/state',
        "import { openDesk } from '../../../electron/services/index.ts';\nexport const x = openDesk;\n",
      ],
      [
        'renderer/state',
        "import { writePdf } from '../../../core/sheets/pdf/index.ts';\nexport const x = writePdf;\n",
      ],
    ];
    for (const [folder, text] of broken) {
      const temporary = mkdtempSync(join(folder, 'layers-'));
      try {
        writeFileSync(join(temporary, 'broken.ts'), text);
        const run = spawnSync('npx', cruise(temporary), { encoding: 'utf8' });
        expect(run.status, `${folder}: ${run.stdout}`).not.toBe(0);
      } finally {
        rmSync(temporary, { recursive: true });
      }
    }
  });
});
