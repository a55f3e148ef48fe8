// A person's whole job, step by step, on whatever page shows the window: four rooms drawn to their typed sizes, named,
// fitted with doors, a half wall, cabinets and trim, checked, measured, taken back and done again, saved and handed over as
// a PDF that holds the lengths worked out by hand (house.ts). How a step is done is the way's, where files go the hands'.

import { strict as assert } from 'node:assert';
import type { Page } from 'playwright';
import { type ReadPdf, readPdf } from '../outside/lib/pdf-reader.ts';
import {
  BOARDS,
  CABINETS,
  DOORS,
  FACES,
  OUTER,
  PROFILES,
  READ,
  ROOMS,
  SAW_AT_READ,
  TAPED,
  WALLS,
} from './house.ts';
import { dialogOpen, type Hands, row, tree, type Way } from './ways.ts';

const PATIENCE_MS = 15_000;

/** Waits until what is read of the page is as it should be; says what it was last. */
async function until<T>(say: string, read: () => Promise<T>, holds: (now: T) => boolean): Promise<T> {
  const end = Date.now() + PATIENCE_MS;
  for (;;) {
    const now = await read();
    if (holds(now)) return now;
    if (Date.now() > end) throw new Error(`${say}: it stays at ${JSON.stringify(now)}`);
    await new Promise((done) => setTimeout(done, 50));
  }
}

const names = (page: Page): Promise<string[]> =>
  tree(page)
    .getByRole('treeitem')
    .evaluateAll((all) => all.map((each) => each.getAttribute('aria-label') ?? ''));
const hasRow = (page: Page, name: RegExp): Promise<number> =>
  until(
    `the walk has ${name}`,
    () => row(page, name).count(),
    (count) => count > 0,
  );
const begins = (words: string): RegExp => new RegExp(`^${words.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(,|$)`);

/** A new plan, its outer room and its partitions, each at its typed clear distance. */
export async function drawRooms(way: Way): Promise<void> {
  const { page } = way;
  await way.command('file.new');
  await page.locator('.sheet-paper').waitFor();
  assert.equal(await page.getByLabel('Title of the plan').count(), 1);
  await way.command('draw.room');
  await way.tape(OUTER);
  await hasRow(page, begins(`Wall, corner 1 to 2, 24' 4 1⁄2" measured`));
  await way.command('draw.select');
  for (const wall of WALLS) {
    await way.wall(wall);
    await way.choose(wall.face);
    await way.tape({ 'Clear across': wall.clear });
  }
}

/** Names every room, and looks that every clear size is the list's. */
export async function nameRooms(way: Way): Promise<void> {
  const { page } = way;
  for (const { corner, name } of ROOMS) {
    await way.choose(new RegExp(`^Corner ${corner},`));
    await way.command('edit.selectRoom');
    await way.type('Name', name);
    await hasRow(page, new RegExp(`^${name},`));
  }
  for (const { corner } of ROOMS) await way.choose(new RegExp(`^Corner ${corner},`));
  const faces = (await names(page)).filter((name) => name.startsWith('Wall'));
  for (const face of FACES)
    assert.ok(
      faces.some((name) => name.startsWith(`${face} `)),
      `${face} in: ${faces.join(' | ')}`,
    );
  assert.equal(faces.length, FACES.length, faces.join(' | '));
}

/** Doors and cabinets at typed places. */
export async function placeThings(way: Way): Promise<void> {
  for (const { face, figures, row: placed } of DOORS) {
    await way.choose(face);
    await way.command('draw.opening');
    await way.tape(figures);
    await hasRow(way.page, begins(placed));
    await way.command('draw.select');
  }
  for (const { face, figures, row: placed } of CABINETS) {
    await way.choose(face);
    await way.command('draw.builtIn');
    await way.tape(figures);
    await hasRow(way.page, begins(placed));
    await way.command('draw.select');
  }
}

/** Mouldings with their sizes, one stock length and its price, then what goes in every room. */
export async function chooseTrim(way: Way): Promise<void> {
  const { page } = way;
  await way.command('trim.profiles');
  await page.getByRole('dialog', { name: 'Profiles' }).waitFor();
  for (const { kind, name, sizes, price } of PROFILES) {
    await way.pick('Kind of the new profile', kind);
    await way.press('Add');
    await way.type('Name', name);
    for (const [size, figure] of Object.entries(sizes)) await way.type(size, figure);
    await way.press(/^Add 12/);
    await way.type('Length 1', `16'`);
    await way.type('Price of length 1', price);
  }
  const listed = dialogOpen(page).locator('.profiles-name');
  assert.equal(await listed.count(), PROFILES.length);
  await way.press('Done');
  await way.command('trim.rooms');
  await page.getByRole('dialog', { name: 'What goes where' }).waitFor();
  await way.pick('base in every room', 'Heavy base');
  await way.pick('casing in every room', 'Door casing');
  await way.press('Done');
  await hasRow(page, /^Board 1A, .*13' 2"|^Board 1A, 158"/);
}

/** The base is proud of the casing: found in the red pencil, mended room by room with one click. */
export async function mendProudBase(way: Way): Promise<void> {
  const { page } = way;
  const proud = page.locator('.pencil [data-finding]').filter({ hasText: 'Base proud of casing' });
  const first = await until(
    'a base is proud',
    () => proud.count(),
    (count) => count > 0,
  );
  // Three doors, each seen from two rooms: 3/4 in of base against an edge of 5/8.
  assert.ok(first >= 4, `${first} findings say the base is proud`);
  for (let rooms = 0; rooms < ROOMS.length && (await proud.count()) > 0; rooms++) {
    const before = await proud.count();
    await way.openFinding('Base proud of casing');
    await page
      .locator('.pencil-remedies')
      .getByRole('button', { name: /^Use “Light base”/ })
      .first()
      .waitFor();
    await way.press(/^Use “Light base”/, '.pencil');
    await until(
      'the remedy clears it',
      () => proud.count(),
      (count) => count < before,
    );
  }
  assert.equal(await proud.count(), 0);
}

/** What is said at a corner about which board is coped. */
async function copedAt(page: Page, corner: number): Promise<string> {
  const name = await row(page, new RegExp(`^Corner ${corner},`))
    .first()
    .getAttribute('aria-label');
  return /cope: board (\w+) is coped/.exec(name ?? '')?.[1] ?? '';
}

/** A cope goes to the other board; an angle and a length are typed as they were read on site. */
export async function measureAndSwap(way: Way): Promise<void> {
  const { page } = way;
  await way.choose(/^Corner 1,/);
  const before = await copedAt(page, 1);
  assert.match(before, /^(1A|10B)$/);
  await way.command('trim.swapCope');
  await until(
    'the other board is coped',
    () => copedAt(page, 1),
    (now) => now !== before && now !== '',
  );

  await way.choose(new RegExp(`^Corner ${READ.corner},`));
  await way.type('Measured', READ.angle);
  await hasRow(page, new RegExp(`^Corner ${READ.corner}, inside ${READ.angle}°, cope`));
  const saw = page.locator('.ticket').getByText(`${SAW_AT_READ}°`, { exact: true });
  await saw.first().waitFor();

  await way.choose(TAPED.face);
  await way.type('Measured', TAPED.length);
  await hasRow(page, /^Board 3A, .*, measured$/);
}

/** Ten steps back are another plan; nine forward are not yet the same file, the tenth is. */
export async function backAndForth(way: Way, hands: Hands): Promise<void> {
  const whole = await hands.saveAs(way, 'job');
  await way.undo(10);
  const less = await hands.saveAs(way, 'ten back');
  assert.notEqual(less, whole);
  await way.redo(9);
  assert.notEqual(await hands.saveAs(way, 'nine forward'), whole);
  await way.redo(1);
  assert.equal(await hands.saveAs(way, 'ten forward'), whole);
}

/** Table rows of boards: each from its id down to the next one's, with what stands in it, line by line. */
function boardRows({ pages }: ReadPdf): ReadonlyMap<string, string[]> {
  const rows = new Map<string, string[]>();
  for (const { texts } of pages) {
    if (!texts.some(({ text }) => text.startsWith('left end, overall length'))) continue;
    const [column, head] = texts.find(({ text }) => text.trim() === 'board')!.at;
    const ids = texts
      .filter(
        ({ text, at }) => /^\d+[A-Z]$/.test(text.trim()) && Math.abs(at[0] - column) < 3 && at[1] < head,
      )
      .sort((a, b) => b.at[1] - a.at[1]);
    for (const [at, id] of ids.entries()) {
      const [top, under] = [id.at[1] + 6, ids[at + 1]?.at[1] ?? id.at[1] - 48];
      const name = id.text.trim();
      const within = texts.filter(({ at: [, y] }) => y < top && y > under + 6);
      // Back and face stand beside the overall length.
      const own = within.map(({ text }) => text.trim()).filter((text) => !/^(back|face|spring)\b/.test(text));
      rows.set(name, [...(rows.get(name) ?? []), ` ${own.join(' ')} `]);
    }
  }
  return rows;
}

interface CornerLine {
  readonly number: number;
  readonly line: string;
}

/** The lines of a room's table of corners, downwards: the number in its ring, and what stands beside it. */
function cornerLines({ pages }: ReadPdf, room: string): CornerLine[] {
  return pages
    .filter(({ texts }) => texts[0]?.text === room || texts[0]?.text === `${room}, continued`)
    .flatMap(({ texts }) => {
      const head = texts.find(({ text }) => text === 'Corners');
      if (head === undefined) return [];
      return texts
        .filter(({ text, at }) => /^\d+$/.test(text.trim()) && at[1] < head.at[1] && at[0] < head.at[0] + 30)
        .sort((a, b) => b.at[1] - a.at[1])
        .map(({ text, at }) => ({
          number: Number(text),
          line: texts
            .filter((each) => Math.abs(each.at[1] - at[1]) < 8)
            .map((each) => each.text)
            .join(' '),
        }));
    });
}

/** Both corners of a board's wall, as the sheets say it. */
function wallOf(id: string): string {
  const corner = Number.parseInt(id, 10);
  const { corners } = ROOMS.find((room) => (room.corners as readonly number[]).includes(corner))!;
  const all: readonly number[] = corners;
  return `${corner} to ${all[(all.indexOf(corner) + 1) % all.length]}`;
}

/** The PDF has each board at the length worked out by hand, drawn or measured, and the corners in their order. */
export async function readBack(way: Way, hands: Hands): Promise<void> {
  const pdf = await readPdf(await hands.exportPdf(way, 'job'));
  const rows = boardRows(pdf);
  assert.deepEqual([...rows.keys()].sort(), BOARDS.map(({ id }) => id).sort());
  for (const { id, length, from } of BOARDS) {
    const own = rows.get(id)!;
    // On the room's sheet and in the cut list.
    assert.equal(own.length, 2, `${id}: ${own.join('|')}`);
    for (const line of own) {
      assert.ok(line.includes(` ${length} `), `${id} is ${length}: ${line}`);
      assert.equal(line.includes('drawn: measure before cutting'), from === 'drawn', `${id}: ${line}`);
      assert.equal(line.includes(' measured '), from === 'measured', `${id}: ${line}`);
      // A board has the number of the corner it starts from; its wall goes on to the next corner of the walk.
      assert.ok(line.includes(` wall ${wallOf(id)} `), `${id} on wall ${wallOf(id)}: ${line}`);
    }
  }
  for (const { name, corners } of ROOMS) {
    const lines = cornerLines(pdf, name);
    assert.deepEqual(
      lines.map(({ number }) => number),
      [...corners].sort((a, b) => a - b),
      name,
    );
    const read = lines.find(({ number }) => number === READ.corner);
    if (read !== undefined) {
      assert.ok(read.line.includes(`${READ.angle}°`), read.line);
      assert.ok(read.line.split(' ').includes(`${SAW_AT_READ}°`), read.line);
    }
  }
}

/** The whole job. */
export async function wholeJob(way: Way, hands: Hands): Promise<void> {
  await drawRooms(way);
  await nameRooms(way);
  await placeThings(way);
  await chooseTrim(way);
  await mendProudBase(way);
  await measureAndSwap(way);
  await backAndForth(way, hands);
  await readBack(way, hands);
}
