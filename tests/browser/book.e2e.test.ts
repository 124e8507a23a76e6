import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { execFileSync } from 'node:child_process';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeArchive } from '#book/archive.ts';
import { memoryTree, treeStore } from '#book/tree-store.ts';
import type { BookUnit } from '#formats/book.ts';
import { madeRun, madeUnit } from '../book/made-book.ts';
import {
  axe,
  bringIn,
  judgeAndKeep,
  ownFolder,
  startApp,
  steadyLog,
  typeBand,
  understood,
  type Opened,
  type UnderTest,
} from './app-under-test.ts';

let app: UnderTest;
const folder = ownFolder();
beforeAll(async () => {
  app = await startApp();
});
afterAll(async () => {
  await app.end();
  folder.remove();
});

/** A short run that stands at a pressure; another seed gives other bytes. */
const log = (pressure: number, seed = 0): string => steadyLog(pressure, 1500, seed);
/** Another serial than the made unit's. */
const unitNamed = (serial: string): Pick<BookUnit, 'record'> => ({
  record: { format: 'overdrive-bench/unit-record', version: 1, unit: { serial } },
});
/** A browser without a place to choose: a copy is offered as a download. */
const NO_CHOOSING = 'delete window.showSaveFilePicker;';
const open = (options: Parameters<UnderTest['open']>[0] = {}): Promise<Opened> =>
  app.open({ before: NO_CHOOSING, ...options });

/** Brings a log in, judges it by 400 to 420 psi, and waits until it is kept. */
async function judge(page: Page, name: string, content: string, serial: string | null): Promise<void> {
  await bringIn(page, { name, content });
  await understood(page);
  await typeBand(page);
  if (serial !== null) await page.getByLabel('Serial of the unit').fill(serial);
  await judgeAndKeep(page);
}
const toBook = (page: Page): Promise<void> =>
  page.getByRole('link', { name: 'Bench book', exact: true }).first().click();
const lines = (page: Page): Promise<string[]> =>
  page.locator('a.book-line').evaluateAll((all) => all.map((each) => each.textContent));
async function putCopyAside(page: Page, name: string): Promise<string> {
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Put a copy aside', exact: true }).click();
  const place = path.join(folder.path, name);
  await (await download).saveAs(place);
  return place;
}

/** In the page: its clock goes ten times as fast, so that what is said after a second of work is said of work that lasts less. */
function quickClock(): void {
  const start = Date.now();
  const { now } = Date;
  const quick = (): number => start + 10 * (now() - start);
  globalThis.Date = new Proxy(Date, {
    construct: (real, given: [] | [number]) => (given.length === 0 ? new real(quick()) : new real(...given)),
    get: (real, name) => (name === 'now' ? quick : (Reflect.get(real, name) as unknown)),
  });
}

/** A copy of a book of so many units and runs. */
async function largeCopy(name: string, unitCount: number, runCount: number): Promise<string> {
  const made = treeStore(memoryTree());
  const units = Array.from({ length: unitCount }, (_, i) => madeUnit(`u${i}`, unitNamed(`N-${1000 + i}`)));
  // Counted are entries: their logs are as short as logs can be.
  const some = Array.from({ length: runCount }, (_, i) => madeRun(`r${i}`, `u${i}`, steadyLog(410, 90, i)));
  await made.write(
    [...units, ...some.map(({ run }) => run)],
    some.flatMap((each) => each.files),
  );
  const pieces: Uint8Array[] = [];
  await writeArchive(made, async (piece) => void pieces.push(piece.slice()));
  const place = path.join(folder.path, name);
  writeFileSync(place, Buffer.concat(pieces));
  return place;
}

describe('the bench book', () => {
  it('holds every unit with its runs in order, found by serial and word, the whole line its link', async () => {
    const { page, context, complaints } = await open();
    await judge(page, 'first.csv', log(425), 'B-0417');
    await judge(page, 'second.csv', log(410), 'b-0417 ');
    await judge(page, 'other.csv', log(412), 'A-1186');
    await toBook(page);
    await expect.poll(() => lines(page)).toHaveLength(2);
    const [newest, older] = await lines(page);
    expect(newest).toMatch(/A-1186.*1 run.*Passes/u);
    expect(older).toMatch(/B-0417.*2 runs.*Passes/u);
    await page.keyboard.press('/');
    await page.keyboard.type('0471');
    await page.getByText('No unit matches ‘0471’. Nearest: B-0417').waitFor();
    await page.getByLabel('Find a unit').fill('b-04');
    await expect.poll(() => lines(page)).toHaveLength(1);
    expect(await page.locator('a.book-line mark').innerText()).toBe('B-04');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { level: 1, name: 'B-0417' }).waitFor();
    const runs = await lines(page);
    expect(runs[0]).toMatch(/first\.csv.*Fails/u);
    expect(runs[1]).toMatch(/Re-test.*second\.csv.*Passes/u);
    expect(await axe(page)).toEqual([]);
    // The address leads to the same unit after a reload.
    await page.reload();
    await page.getByRole('heading', { level: 1, name: 'B-0417' }).waitFor();
    await page.locator('a.book-line').first().click();
    await expect.poll(() => page.locator('h1#verdict').innerText()).toBe('Fails');
    await page.reload();
    await expect.poll(() => page.locator('h1#verdict').innerText()).toBe('Fails');
    await toBook(page);
    await expect.poll(() => lines(page)).toHaveLength(2);
    expect(await axe(page)).toEqual([]);
    // A reload breaks off what the page was still asking for; its icon is the last that it asks.
    expect(complaints.filter((text) => !/favicon[^ ]* failed$/u.test(text))).toEqual([]);
    await context.close();
  });

  it('recognises a log that comes twice, and keeps it once', async () => {
    const { page, context } = await open();
    await judge(page, 'run.csv', log(410), 'B-0417');
    await bringIn(page, { name: 'the same under another name.csv', content: log(410) });
    await page.getByText('This very log is in the book already').waitFor();
    await page.getByRole('button', { name: 'Open it' }).click();
    await page.locator('h1#verdict').waitFor();
    await toBook(page);
    expect(await lines(page)).toEqual([expect.stringMatching(/B-0417.*1 run/u)]);
    await context.close();
  });

  it('removes, gives to another unit, notes, marks as gone out: each put back by Ctrl Z', async () => {
    const { page, context } = await open();
    await judge(page, 'run.csv', log(410), 'B-0417');
    await toBook(page);
    await page.locator('a.book-line').click();
    await page.getByRole('button', { name: 'It has gone out' }).click();
    await page.getByText('B-0417 has gone out.').waitFor();
    await page.locator('h1').click();
    await page.keyboard.press('Control+z');
    await page.getByText('On the bench.', { exact: true }).waitFor();
    await page.getByText('Verdict, note').click();
    await page.getByLabel('Note on this run').fill('lock nut was loose');
    await page.getByRole('button', { name: 'Keep', exact: true }).first().click();
    await page.getByText('Note on run.csv kept.').waitFor();
    await page.reload();
    await page.getByText('lock nut was loose').first().waitFor();
    // Instruments belong to the unit's record; a date that is none is said where it was typed, and kept nowhere.
    const instruments = page.getByLabel('Instruments, one a line');
    const keep = page.locator('.unit-form').getByRole('button', { name: 'Keep' });
    await instruments.fill('Gauge; G-07; 2026-02-30');
    await page.getByText('“2026-02-30” is no date').waitFor();
    expect(await keep.isDisabled()).toBe(true);
    await instruments.fill('Gauge; G-07; 2026-01-20');
    await keep.click();
    await page.getByText('B-0417 changed.').waitFor();
    await page.reload();
    await expect.poll(() => instruments.inputValue()).toBe('Gauge; G-07; 2026-01-20');
    await page.getByRole('button', { name: 'Remove this unit' }).click();
    await page.getByRole('heading', { name: 'still empty' }).waitFor();
    await page.getByRole('button', { name: 'Removed: 2' }).click();
    await page.getByRole('button', { name: 'Put back Unit B-0417' }).click();
    await expect.poll(() => lines(page)).toEqual([expect.stringMatching(/B-0417.*1 run/u)]);
    await context.close();
  });

  it('takes what was removed out for good only when the bin is emptied', async () => {
    const { page, context } = await open();
    await judge(page, 'run.csv', log(410), 'B-0417');
    await toBook(page);
    await page.locator('a.book-line').click();
    await page.getByRole('button', { name: 'Remove this unit' }).click();
    await page.getByRole('button', { name: 'Removed: 2' }).click();
    await page.getByRole('button', { name: 'Empty: take all 2 out for good' }).click();
    await page.getByRole('button', { name: 'Leave them' }).click();
    await page.getByRole('button', { name: 'Empty: take all 2 out for good' }).click();
    await page.getByRole('button', { name: 'Take all 2 out' }).click();
    await page.getByText('The bin is empty.').waitFor();
    await page.reload();
    await page.getByRole('heading', { name: 'still empty' }).waitFor();
    expect(await page.getByRole('button', { name: /^Removed/u }).count()).toBe(0);
    await context.close();
  });
});

/** The command line finds a copy whole, and nothing in it that belongs to no entry. */
function expectWhole(copy: string): void {
  const said = execFileSync(process.execPath, ['bin/overdrive-bench.mjs', 'book', 'verify', copy]).toString();
  expect(said).toMatch(/every log and every verdict is as it was kept\.\n$/u);
  expect(said).not.toContain('belongs to no entry');
}

describe('kept safely', () => {
  it('a copy of a filled book comes back into an empty one, the logs equal to the byte', async () => {
    const { page, context } = await open();
    const contents = { 'a.csv': log(425), 'b.csv': log(410), 'c.csv': log(399, 3) };
    for (const [name, content] of Object.entries(contents)) await judge(page, name, content, `S-${name[0]}`);
    await toBook(page);
    await expect.poll(() => lines(page)).toHaveLength(3);
    const before = await lines(page);
    const copy = await putCopyAside(page, 'copy.zip');
    await page.getByText(/^Copy put aside, \d+ kB/u).waitFor();
    const other = await open();
    await other.page.getByRole('heading', { name: 'still empty' }).waitFor();
    await other.page.getByLabel('A copy of a book').setInputFiles(copy);
    await other.page.getByText('Would come in: 6').waitFor();
    expect(await lines(other.page)).toEqual([]);
    await other.page.getByRole('button', { name: 'Bring it back' }).click();
    await expect.poll(() => lines(other.page)).toEqual(before);
    const again = await putCopyAside(other.page, 'again.zip');
    expect(readFileSync(again).equals(readFileSync(copy))).toBe(true);
    // The command line reads the same archive, finds it whole, and unpacks the very bytes.
    const said = execFileSync(process.execPath, ['bin/overdrive-bench.mjs', 'book', 'verify', copy]);
    expect(said.toString()).toMatch(/^3 runs checked: every log/u);
    // One changed byte in the copy: what is whole comes, the rest is named.
    const harmed = readFileSync(copy);
    const at = harmed.indexOf(Buffer.from([0x1f, 0x8b])) + 40;
    harmed.writeUInt8((harmed[at] ?? 0) ^ 1, at);
    const harmedPlace = path.join(folder.path, 'harmed.zip');
    writeFileSync(harmedPlace, harmed);
    const third = await open();
    await third.page.getByRole('heading', { name: 'still empty' }).waitFor();
    await third.page.getByLabel('A copy of a book').setInputFiles(harmedPlace);
    await third.page.getByText(/Damaged in the copy, and left out: \d/u).waitFor();
    // By what the run is called, not by a path that says nothing to anybody.
    await third.page.getByText(/^run .*\.csv: runs\/.*log\.gz/u).waitFor({ state: 'attached' });
    await third.page.getByRole('button', { name: 'Bring it back' }).click();
    await expect.poll(() => lines(third.page)).toHaveLength(3);
    expect((await lines(third.page)).filter((line) => line.includes('No run yet'))).toHaveLength(1);
    for (const each of [context, other.context, third.context]) await each.close();
  });

  it('a copy that was brought back is put back in one step, and after a reload by name, asked before', async () => {
    const { page, context } = await open();
    await judge(page, 'run.csv', log(410), 'B-0417');
    await toBook(page);
    const unit = page.locator('a.book-line');
    await unit.click();
    await page.getByRole('button', { name: 'It has gone out' }).click();
    await page.getByText('B-0417 has gone out.').waitFor();
    await toBook(page);
    const copy = await putCopyAside(page, 'gone.zip');
    // Another book of its own, which knows nothing of the first; the copy comes into it.
    const other = await open();
    await judge(other.page, 'own.csv', log(411), 'A-1');
    await toBook(other.page);
    await expect.poll(() => lines(other.page)).toHaveLength(1);
    const before = await lines(other.page);
    const bring = async (): Promise<void> => {
      await other.page.getByLabel('A copy of a book').setInputFiles(copy);
      await other.page.getByText('one step puts back what was before').waitFor();
      await other.page.getByRole('button', { name: 'Bring it back' }).click();
      await other.page.getByText('Copy brought back: gone.zip. 2 entries came in.').waitFor();
      await expect.poll(() => lines(other.page)).toHaveLength(2);
    };
    await bring();
    expect(await axe(other.page)).toEqual([]);
    // Whoever asks for it from the foot of a list sees what it would change, and after it what was done.
    await other.page.setViewportSize({ width: 420, height: 420 });
    await other.page.evaluate(() => window.scrollTo(0, document.documentElement.scrollHeight));
    await other.page.getByLabel('A copy of a book').setInputFiles(copy);
    const title = other.page.getByRole('heading', { name: 'What gone.zip would change' });
    await title.waitFor();
    const seen = await title.evaluate((each) => each.getBoundingClientRect());
    expect(seen.top).toBeGreaterThanOrEqual(0);
    expect(seen.bottom).toBeLessThanOrEqual(420);
    expect(await title.evaluate((each) => each === document.activeElement)).toBe(true);
    await other.page.getByRole('button', { name: 'Close' }).click();
    await other.page.evaluate(() => window.scrollTo(0, document.documentElement.scrollHeight));
    await putCopyAside(other.page, 'seen.zip');
    const told = other.page.getByText(/^Copy put aside/u);
    await told.waitFor();
    const line = await told.evaluate((each) => each.getBoundingClientRect());
    expect(line.top).toBeGreaterThanOrEqual(0);
    expect(line.bottom).toBeLessThanOrEqual(420);
    await other.page.setViewportSize({ width: 1280, height: 800 });
    await other.page.locator('h1').click();
    await other.page.keyboard.press('Control+z');
    await other.page
      .getByText('Put back as before the copy: 2 entries of gone.zip went out again.')
      .waitFor();
    await expect.poll(() => lines(other.page)).toEqual(before);
    await other.page.keyboard.press('Control+Shift+z');
    await expect.poll(() => lines(other.page)).toHaveLength(2);
    await other.page.reload();
    const asks = other.page.getByRole('button', { name: 'Put back as before gone.zip' });
    await asks.click();
    await other.page.getByRole('button', { name: 'Leave it' }).click();
    expect(await lines(other.page)).toHaveLength(2);
    await asks.click();
    expect(await axe(other.page)).toEqual([]);
    await other.page.getByRole('button', { name: 'Put it back', exact: true }).click();
    await expect.poll(() => lines(other.page)).toEqual(before);
    await other.page.reload();
    await expect.poll(() => lines(other.page)).toEqual(before);
    expect(await asks.count()).toBe(0);
    expect(await other.page.getByRole('button', { name: /^Removed/u }).count()).toBe(0);
    for (const each of [context, other.context]) await each.close();
  });

  it('a serial of which each book made a unit of its own is said, and its runs can be put together', async () => {
    const { page, context } = await open();
    await judge(page, 'one.csv', log(410), 'B-0417');
    await toBook(page);
    const copy = await putCopyAside(page, 'one.zip');
    const other = await open();
    await judge(other.page, 'two.csv', log(411, 1), 'b-0417');
    await toBook(other.page);
    await other.page.getByLabel('A copy of a book').setInputFiles(copy);
    await other.page.getByText('Would stand on two units: 1').waitFor();
    expect(await axe(other.page)).toEqual([]);
    await other.page.getByRole('button', { name: 'Bring it back' }).click();
    await other.page.getByText(/2 entries came in\. b-0417 now stands on two units/iu).waitFor();
    await expect.poll(() => lines(other.page)).toHaveLength(2);
    await other.page
      .locator('a.book-line')
      .filter({ hasText: /b-0417/u })
      .click();
    const unit = other.page.getByRole('heading', { level: 1, name: 'b-0417', exact: true });
    await unit.waitFor();
    expect(await axe(other.page)).toEqual([]);
    // All runs at once to the other: one step, and one step back.
    await other.page.getByRole('button', { name: 'Put the run of this one to it' }).click();
    await other.page.getByText('1 run given to the other B-0417.').waitFor();
    await other.page.getByText('This one has no run: if they are one unit').waitFor();
    await other.page.getByRole('button', { name: 'Open the other, with 2 runs' }).waitFor();
    expect(await axe(other.page)).toEqual([]);
    await other.page.keyboard.press('Control+z');
    await other.page.getByRole('button', { name: 'Open the other, with 1 run' }).waitFor();
    await other.page.keyboard.press('Control+Shift+z');
    await other.page.getByRole('button', { name: 'Open the other, with 2 runs' }).waitFor();
    await other.page.keyboard.press('Control+z');
    await other.page.getByRole('button', { name: 'Open the other, with 1 run' }).click();
    await other.page.getByRole('heading', { level: 1, name: 'B-0417' }).waitFor();
    await other.page.locator('.run-notes summary').click();
    await other.page.locator('.give-to input').fill('b-0417');
    await other.page.getByRole('button', { name: 'Give it to that unit' }).click();
    await other.page.getByText('one.csv given to b-0417.').waitFor();
    await other.page.getByRole('button', { name: 'Remove this unit' }).click();
    await expect.poll(() => lines(other.page)).toEqual([expect.stringMatching(/b-0417.*2 runs/u)]);
    for (const each of [context, other.context]) await each.close();
  });

  it('a whole copy mends a damaged log: shown first, done, and taken back', async () => {
    const { page, context, complaints } = await open();
    await judge(page, 'run.csv', log(410), 'B-0417');
    await toBook(page);
    const copy = await putCopyAside(page, 'whole.zip');
    // A disk that wrote other bytes than it was given.
    await page.evaluate(
      () =>
        new Promise<void>((resolve) => {
          const asked = indexedDB.open('overdrive-bench');
          asked.onsuccess = () => {
            const change = asked.result.transaction('files', 'readwrite');
            const files = change.objectStore('files');
            const keys = files.getAllKeys();
            keys.onsuccess = () => {
              for (const key of keys.result)
                if (typeof key === 'string' && key.endsWith('log.gz'))
                  files.put(new Uint8Array([0x1f, 0x8b, 8, 0, 1]), key);
            };
            change.oncomplete = () => {
              asked.result.close();
              resolve();
            };
          };
        }),
    );
    const verified = async (name: string): Promise<string> => {
      const place = await putCopyAside(page, name);
      try {
        return execFileSync(process.execPath, [
          'bin/overdrive-bench.mjs',
          'book',
          'verify',
          place,
        ]).toString();
      } catch (error) {
        return String((error as { stdout: Buffer }).stdout);
      }
    };
    expect(await verified('damaged.zip')).toContain('log.gz cannot be unpacked');
    await page.getByLabel('A copy of a book').setInputFiles(copy);
    await page.getByText('Is damaged here and would be mended: 1').waitFor();
    await page.getByText('run run.csv: the log is damaged here and comes whole').waitFor();
    expect(await axe(page)).toEqual([]);
    await page.getByRole('button', { name: 'Bring it back' }).click();
    await page
      .getByText('Copy brought back: whole.zip. 1 that was damaged or missing here is whole again.')
      .waitFor();
    expect(await verified('mended.zip')).toMatch(/^1 run checked: every log/u);
    await page.keyboard.press('Control+z');
    await page.getByText('Put back as before the copy: 1 is as before.').waitFor();
    expect(await verified('damaged-again.zip')).toContain('log.gz cannot be unpacked');
    await page.keyboard.press('Control+Shift+z');
    await page.getByText('1 that was damaged or missing here is whole again.').waitFor();
    expect(await verified('mended-again.zip')).toMatch(/^1 run checked: every log/u);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('bringing a large copy back says how far it is, stops when told to, and leaves the book whole', async () => {
    const copy = await largeCopy('large.zip', 1000, 20);
    const { page, context, complaints } = await open({
      before: `${NO_CHOOSING}(${quickClock.toString()})()`,
    });
    await page.getByRole('heading', { name: 'still empty' }).waitFor();
    await page.getByLabel('A copy of a book').setInputFiles(copy);
    await page.getByText('Would come in: 1020').waitFor({ timeout: 60_000 });
    await page.getByRole('button', { name: 'Bring it back' }).click();
    const line = page.getByText(/^Bringing large\.zip back: \d+ of 1020 entries written/u);
    await line.waitFor();
    await expect.poll(() => line.innerText(), { timeout: 20_000 }).toMatch(/about \d+ s left/u);
    await page.getByRole('button', { name: 'Stop', exact: true }).click();
    const told = page.getByText(
      /^Stopped\. Of large\.zip \d+ entries came in; \d+ entries were not brought back/u,
    );
    await told.waitFor();
    const [came = 0, left = 0] = [...(await told.innerText()).matchAll(/\d+(?= entr)/gu)].map(([n]) =>
      Number(n),
    );
    expect(came).toBeGreaterThan(0);
    expect(left).toBeGreaterThan(0);
    expect(came + left).toBe(1020);
    const half = await putCopyAside(page, 'half.zip');
    expectWhole(half);
    // What came can be taken back; a killed page half way leaves the same.
    await page.locator('h1').click();
    await page.keyboard.press('Control+z');
    await page.getByRole('heading', { name: 'still empty' }).waitFor({ timeout: 60_000 });
    await page.getByLabel('A copy of a book').setInputFiles(copy);
    await page.getByRole('button', { name: 'Bring it back' }).click();
    await line.waitFor();
    await page.close({ runBeforeUnload: false });
    const { page: again } = await open({ context });
    await expect.poll(() => lines(again)).not.toHaveLength(0);
    await again.getByRole('button', { name: 'Put back as before large.zip' }).click();
    await again.getByRole('button', { name: 'Put it back', exact: true }).click();
    await again.getByRole('heading', { name: 'still empty' }).waitFor({ timeout: 60_000 });
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('what a later version of the program wrote is said to be that, and not offered to be mended', async () => {
    const { page, context } = await open();
    await judge(page, 'run.csv', log(410), 'B-0417');
    await toBook(page);
    const copy = await putCopyAside(page, 'before-later.zip');
    await page.evaluate(
      () =>
        new Promise<void>((resolve) => {
          const asked = indexedDB.open('overdrive-bench');
          asked.onsuccess = () => {
            const change = asked.result.transaction(['entries', 'files'], 'readwrite');
            const entries = change.objectStore('entries');
            // The packed list goes too, as a later version would have made its own.
            change.objectStore('files').delete('~list');
            const rows = entries.getAll();
            rows.onsuccess = () => {
              for (const row of rows.result as { format: string; id: string }[])
                if (row.format.endsWith('book-unit'))
                  entries.put({ ...row, version: 2 }, `units/${row.id}.json`);
            };
            change.oncomplete = () => {
              asked.result.close();
              resolve();
            };
          };
        }),
    );
    await page.reload();
    await page.getByText('One entry of the book was written by a later version of this program').waitFor();
    // Its run is still to be found.
    await page.getByText('run.csv').first().waitFor();
    expect(await axe(page)).toEqual([]);
    await page.getByLabel('A copy of a book').setInputFiles(copy);
    await page.getByText('was written by a later version of this program, and stays').waitFor();
    await page.getByText('There is nothing in it to bring back.').waitFor();
    await context.close();
  });

  it('two windows that bring one copy back at once bring it once; a disk that gets full half way is told, with what came', async () => {
    const copy = await largeCopy('some.zip', 150, 30);
    const { page, context, complaints } = await open();
    const { page: second } = await open({ context });
    for (const each of [page, second]) {
      await each.getByRole('heading', { name: 'still empty' }).waitFor();
      await each.getByLabel('A copy of a book').setInputFiles(copy);
      await each.getByText('Would come in: 180').waitFor();
    }
    await Promise.all(
      [page, second].map((each) => each.getByRole('button', { name: 'Bring it back' }).click()),
    );
    const told = async (): Promise<string[]> =>
      (await Promise.all([page, second].map((each) => each.locator('.told').first().innerText())))
        .map((text) => text.replace(/ Put back.*/u, ''))
        .toSorted();
    await expect
      .poll(told, { timeout: 30_000 })
      .toEqual([
        'Copy brought back: some.zip. 180 entries came in.',
        'Everything in some.zip is in the book already.',
      ]);
    // The one that brought it takes it back.
    await second.getByRole('button', { name: 'Put back as before some.zip' }).click();
    await second.getByRole('button', { name: 'Put it back', exact: true }).click();
    await page.getByRole('heading', { name: 'still empty' }).waitFor({ timeout: 30_000 });
    expect(complaints).toEqual([]);
    await second.close();
    let puts = 0;
    await page.route('**/*worker*.js', async (route) => {
      puts++;
      const response = await route.fetch();
      const body = `{ const put = IDBObjectStore.prototype.put; let left = 80; IDBObjectStore.prototype.put = function (...given) { if (left-- <= 0) throw new DOMException('full', 'QuotaExceededError'); return put.apply(this, given); }; }\n${await response.text()}`;
      await route.fulfill({ response, body });
    });
    await page.reload();
    await page.getByLabel('A copy of a book').setInputFiles(copy);
    await page.getByRole('button', { name: 'Bring it back' }).click();
    await page
      .getByText(/is full\..*Before that, of some\.zip \d+ entries came in; \d+ entries were not/u)
      .waitFor();
    expect(puts).toBeGreaterThan(0);
    await page.unroute('**/*worker*.js');
    await page.reload();
    const half = await putCopyAside(page, 'half-full.zip');
    expectWhole(half);
    await context.close();
  });

  it('the sample shop says how far it is, and stops between two runs', async () => {
    const { page, context } = await open();
    await page.getByRole('button', { name: 'Look at a sample shop' }).click();
    await page.getByText(/^The sample shop comes in: [1-9] of 9 runs/u).waitFor({ timeout: 60_000 });
    await page.getByRole('button', { name: 'Stop', exact: true }).click();
    await page.getByText(/^Stopped\. \d of 9 invented runs are in the book\./u).waitFor({ timeout: 60_000 });
    await expect.poll(() => lines(page)).not.toHaveLength(0);
    const copy = await putCopyAside(page, 'some-samples.zip');
    expectWhole(copy);
    await page.getByRole('button', { name: 'Take the sample shop out' }).click();
    await page.getByRole('button', { name: 'Take it out', exact: true }).click();
    await page.getByRole('heading', { name: 'still empty' }).waitFor();
    await context.close();
  });

  it('two windows: the second shows what the first did, and an edit on an older state is told, not lost', async () => {
    const { page, context } = await open();
    await judge(page, 'run.csv', log(410), 'B-0417');
    await toBook(page);
    const { page: second } = await open({ context });
    await expect.poll(() => lines(second)).toHaveLength(1);
    await second.locator('a.book-line').click();
    await second.getByRole('heading', { level: 1, name: 'B-0417' }).waitFor();
    await page.locator('a.book-line').click();
    await page.getByRole('button', { name: 'It has gone out' }).click();
    await second.getByText(/^Gone out /u).waitFor();
    // The second window no longer hears of changes, as if it had slept.
    await second.evaluate(() => (BroadcastChannel.prototype.postMessage = () => undefined));
    await page.evaluate(() => (BroadcastChannel.prototype.postMessage = () => undefined));
    await page.getByLabel('Customer').fill('First Window');
    await page
      .getByRole('region', { name: 'The unit' })
      .or(page.locator('.unit-form'))
      .getByRole('button', { name: 'Keep' })
      .first()
      .click();
    await page.getByText('B-0417 changed.').waitFor();
    await second.getByLabel('Customer').fill('Second Window');
    await second.locator('.unit-form').getByRole('button', { name: 'Keep' }).click();
    await second.getByText('changed in another window').waitFor();
    await second.getByText('Customer was changed elsewhere to “First Window”').waitFor();
    // Nothing that was typed is lost, not even by a reload; said again, it is written.
    expect(await second.getByLabel('Customer').inputValue()).toBe('Second Window');
    await second.reload();
    await second.waitForTimeout(300);
    expect(await second.getByLabel('Customer').inputValue()).toBe('Second Window');
    await second.locator('.unit-form').getByRole('button', { name: 'Keep' }).click();
    await second.getByText('B-0417 changed.').waitFor();
    await page.reload();
    await expect.poll(() => page.getByLabel('Customer').inputValue()).toBe('Second Window');
    await context.close();
  });

  it('a page that is killed while it keeps a run leaves the book whole: the old state or the new', async () => {
    const { page, context } = await open();
    await judge(page, 'first.csv', log(410), 'B-0417');
    for (let wait = 0; wait <= 60; wait += 20) {
      const { page: dying } = await open({ context });
      await bringIn(dying, { name: `killed-${wait}.csv`, content: log(411, 1 + wait / 20) });
      await dying.getByRole('radio', { name: 'No limits' }).check();
      await dying.getByLabel('Serial of the unit').fill(`K-${wait}`);
      await dying.getByRole('button', { name: 'Judge this run' }).click();
      await dying.locator('h1#verdict').waitFor();
      await dying.waitForTimeout(wait);
      await dying.close({ runBeforeUnload: false });
    }
    await page.reload();
    await toBook(page);
    await expect.poll(() => lines(page)).not.toHaveLength(0);
    for (const line of await lines(page)) expect(line).not.toContain('No run yet');
    const copy = await putCopyAside(page, 'after-kill.zip');
    expectWhole(copy);
    await context.close();
  });

  it('a reload before a run is judged keeps nothing half, and what was kept before stays', async () => {
    const { page, context } = await open();
    await judge(page, 'first.csv', log(410), 'B-0417');
    await bringIn(page, { name: 'second.csv', content: log(411) });
    await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
    // Kept as soon as the browser has written it; before that it asks whether the page may be left.
    await expect
      .poll(() =>
        page.evaluate(
          () =>
            new Promise<number>((resolve, reject) => {
              const asked = indexedDB.open('overdrive-bench-unjudged');
              asked.addEventListener('error', () => reject(new Error('not opened')));
              asked.addEventListener('success', () => {
                const count = asked.result.transaction('logs').objectStore('logs').count();
                count.addEventListener('success', () => {
                  asked.result.close();
                  resolve(count.result);
                });
              });
            }),
        ),
      )
      .toBe(1);
    await page.reload();
    // It is asked about again, and is no run of the book.
    await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
    await toBook(page);
    await expect.poll(() => lines(page)).toEqual([expect.stringMatching(/B-0417.*1 run/u)]);
    await context.close();
  });

  it('says what is not kept where the disk is full, and the run stays on its sheet', async () => {
    const { page, context } = await open();
    await page.route('**/*worker*.js', async (route) => {
      const response = await route.fetch();
      const body = `IDBObjectStore.prototype.put = function () { throw new DOMException('full', 'QuotaExceededError'); };\n${await response.text()}`;
      await route.fulfill({ response, body });
    });
    await page.reload();
    await bringIn(page, { name: 'run.csv', content: log(410) });
    await page.getByRole('radio', { name: 'No limits' }).check();
    await page.getByRole('button', { name: 'Judge this run' }).click();
    await page.locator('h1#verdict').waitFor();
    await page.getByText('The run could not be kept: the disk').waitFor();
    await context.close();
  });

  it('says when the browser gives no word that the book will stay, and asks for a copy after 14 days', async () => {
    // To a page that is visited often the browser may give its word.
    const { page, context } = await open({ never: true });
    await judge(page, 'run.csv', log(410), 'B-0417');
    await toBook(page);
    const mayClear = page.getByText('which may clear it when the disk gets full');
    await mayClear.waitFor();
    // Nor does it say more on the next visit, before anything is kept anew.
    await page.reload();
    await mayClear.waitFor();
    await page.evaluate(() => localStorage.setItem('overdrive-bench-copy', '2020-01-01T00:00:00.000Z'));
    await page.reload();
    await page.getByText('The last copy of the book is over 14 days old.').waitFor();
    await context.close();
  });
});
