import { readFileSync } from 'node:fs';
import { unzipSync } from 'fflate';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axe, bringIn, startApp, type Opened, type UnderTest } from './app-under-test.ts';

let app: UnderTest;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.end());

/** A run of an hour that stands at a pressure, and falls away for a while where it is asked to. */
function log(pressure: number, seed = 0, sagFrom = Infinity, sagTo = Infinity): string {
  const rows = Array.from({ length: 3600 }, (_, i) => {
    const engaged = i > 30 && i < 3570;
    const sag = i >= sagFrom && i < sagTo ? 40 : 0;
    return `${i},${engaged ? (pressure - sag + ((i * 7 + seed) % 5) / 10).toFixed(1) : '0.0'},61.0`;
  });
  return ['time_s,pressure (psi),oil (°C)', ...rows].join('\n');
}
/** The browser's own place for files stands for a folder that somebody chooses: the same interface, without a window to click in. */
const OWN_FOLDER =
  'delete window.showSaveFilePicker; window.showDirectoryPicker = async () => (await navigator.storage.getDirectory()).getDirectoryHandle("bench book", { create: true });';
const open = (options: Parameters<UnderTest['open']>[0] = {}): Promise<Opened> =>
  app.open({ before: OWN_FOLDER, ...options });

async function sayBand(page: Page): Promise<void> {
  await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
  await page.getByRole('radio', { name: 'A band' }).check();
  await page.getByLabel('from (left empty').fill('400');
  await page.getByLabel('to (left empty').fill('420');
  await page.locator('.band-fields select').first().selectOption('psi');
}
async function judge(page: Page, serial: string): Promise<void> {
  const field = page.getByLabel('Serial of the unit');
  if ((await field.count()) > 0) await field.fill(serial);
  await page.getByRole('button', { name: 'Judge this run' }).click();
  await page.locator('h1#verdict').waitFor();
  await page.getByText('in this browser’s book').waitFor();
}
const toBook = (page: Page): Promise<void> =>
  page.getByRole('link', { name: 'Bench book', exact: true }).first().click();
const lines = (page: Page): Promise<string[]> =>
  page.locator('a.book-line').evaluateAll((all) => all.map((each) => each.textContent));
/** What lies in the chosen folder, by path. */
const folder = (page: Page): Promise<Record<string, string>> =>
  page.evaluate(async () => {
    const found: Record<string, string> = {};
    async function gather(at: FileSystemDirectoryHandle, before: string): Promise<void> {
      for await (const [name, handle] of at.entries()) {
        if (handle.kind === 'directory') await gather(await at.getDirectoryHandle(name), `${before}${name}/`);
        else found[before + name] = await (await (await at.getFileHandle(name)).getFile()).text();
      }
    }
    await gather(await (await navigator.storage.getDirectory()).getDirectoryHandle('bench book'), '');
    return found;
  });

describe('a shop’s book', () => {
  it('has a sample shop to look at, which goes without a trace', async () => {
    const { page, context, complaints } = await open();
    await page.getByRole('button', { name: 'Look at a sample shop' }).click();
    await page.getByText('The sample shop is in the book: 9 invented runs.').waitFor({ timeout: 90_000 });
    const all = await lines(page);
    expect(all).toHaveLength(7);
    expect(all.find((line) => line.includes('B-0402'))).toMatch(/2 runs.*Passes/u);
    expect(await axe(page)).toEqual([]);
    // A run that lies far below its limits leaves no empty strip.
    await page.locator('a.book-line').filter({ hasText: 'B-0402' }).click();
    const arrow = page.locator('.strip-away');
    await arrow.waitFor({ state: 'attached' });
    expect(await arrow.count()).toBe(1);
    expect(await arrow.evaluate((each) => getComputedStyle(each).fill)).toMatch(/^rgb/u);
    await toBook(page);
    // Records of a day's units in one go.
    await page.getByRole('button', { name: 'Records of a day' }).click();
    const day = page.getByRole('region', { name: 'Records of a day' });
    // It opens beneath seven units: it comes into view, with the keyboard in it.
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('day-records');
    const top = await day.getByRole('heading').evaluate((each) => each.getBoundingClientRect().top);
    expect(top).toBeGreaterThanOrEqual(0);
    expect(top).toBeLessThan(400);
    await page.keyboard.press('Tab');
    expect(await day.evaluate((each) => each.contains(document.activeElement))).toBe(true);
    const wanted = day.getByRole('button', { name: /Save \d+ records? as a zip/u });
    const count = await day.getByRole('checkbox').count();
    expect(count).toBeGreaterThan(0);
    expect(await axe(page)).toEqual([]);
    const download = page.waitForEvent('download');
    await wanted.click();
    const zip = unzipSync(new Uint8Array(readFileSync(await (await download).path())));
    expect(Object.keys(zip)).toHaveLength(count);
    for (const bytes of Object.values(zip))
      expect(Buffer.from(bytes.subarray(0, 8)).toString()).toBe('%PDF-1.7');
    await page.getByText(`${count === 1 ? '1 record' : `${count} records`}, `).waitFor();
    await day.getByRole('checkbox').first().uncheck();
    expect(await wanted.textContent()).toContain(count === 2 ? 'Save 1 record' : `Save ${count - 1} records`);
    await page.getByRole('button', { name: 'Take the sample shop out' }).click();
    await page.getByRole('button', { name: 'Take it out', exact: true }).click();
    await page.getByRole('heading', { name: 'still empty' }).waitFor();
    await page.reload();
    await page.getByRole('heading', { name: 'still empty' }).waitFor();
    expect(await page.getByRole('button', { name: /^Removed/u }).count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('keeps limits under a name, in versions; a run keeps the version that it was judged by', async () => {
    const { page, context } = await open();
    await bringIn(page, { name: 'first.csv', content: log(410) });
    await sayBand(page);
    await page.getByLabel('Keep these limits for later as').fill('Type R');
    await page.locator('.keep-limits').getByRole('button', { name: 'Keep' }).click();
    await page.getByText('Kept as “Type R”.').waitFor();
    await judge(page, 'B-1');
    await bringIn(page, { name: 'second.csv', content: log(425, 1) });
    await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
    await page.getByRole('radio', { name: 'Type R' }).check();
    expect(await axe(page)).toEqual([]);
    await judge(page, 'B-2');
    expect(await page.locator('h1#verdict').innerText()).toBe('Fails');
    // Wider limits under the same name: a second version, and what was judged stays as it was.
    await bringIn(page, { name: 'third.csv', content: log(425, 2) });
    await sayBand(page);
    await page.getByLabel('to (left empty').fill('430');
    await page.getByLabel('Keep these limits for later as').fill('type r');
    await page.getByRole('button', { name: 'Keep as version 2' }).click();
    await judge(page, 'B-3');
    expect(await page.locator('h1#verdict').innerText()).toBe('Passes');
    await toBook(page);
    await expect
      .poll(async () => (await lines(page)).find((line) => line.includes('B-2')))
      .toContain('Fails');
    await page.getByRole('button', { name: 'Limits and benches' }).click();
    await page.getByText('2 versions').click();
    await page.getByText('Version 1,').waitFor();
    await page.getByRole('button', { name: 'Remove type r' }).click();
    await page.getByText('None yet. Bring in a log, and keep').waitFor();
    await page.keyboard.press('Control+z');
    await page.getByText('2 versions').waitFor();
    await context.close();
  });

  it('several logs at once become several runs, each of its unit; one that came twice is recognised', async () => {
    const { page, context } = await open();
    await bringIn(
      page,
      { name: 'a.csv', content: log(410, 1) },
      { name: 'b.csv', content: log(411, 2) },
      { name: 'a again.csv', content: log(410, 1) },
    );
    await sayBand(page);
    await judge(page, 'B-1');
    await page.getByRole('button', { name: 'Next: b.csv' }).click();
    await sayBand(page);
    await judge(page, 'B-2');
    await page.getByRole('button', { name: 'Next: a again.csv' }).click();
    await page.getByText('This very log is in the book already').waitFor();
    await page.getByRole('button', { name: 'Put the file back' }).click();
    await toBook(page);
    await expect
      .poll(async () => (await lines(page)).toSorted())
      .toEqual([expect.stringMatching(/^B-1.*1 run/u), expect.stringMatching(/^B-2.*1 run/u)]);
    await context.close();
  });

  it('keeps a folder up to date: what is kept and changed lies there, nothing is taken out of it', async () => {
    const { page, context } = await open();
    await bringIn(page, { name: 'a.csv', content: log(410) });
    await sayBand(page);
    await judge(page, 'B-1');
    await toBook(page);
    await page.getByRole('button', { name: 'Keep a folder up to date' }).click();
    await page.getByText('The folder “bench book” is up to date with the book.').waitFor();
    const first = await folder(page);
    expect(
      Object.keys(first)
        .map((path) => path.replace(/[\w-]{36}/u, 'ID'))
        .toSorted(),
    ).toEqual([
      'book.json',
      'runs/ID/assessment-1.json',
      'runs/ID/log.gz',
      'runs/ID/run.json',
      'units/ID.json',
    ]);
    await page.locator('a.book-line').first().click();
    await page.getByRole('button', { name: 'It has gone out' }).click();
    const unit = Object.keys(first).find((path) => path.startsWith('units/')) ?? '';
    await expect.poll(async () => (await folder(page))[unit]).toMatch(/"goneOutOn": "\d{4}-/u);
    // After a reload it goes on by itself.
    await page.reload();
    await page.getByRole('button', { name: 'It is on the bench again' }).click();
    await expect.poll(async () => (await folder(page))[unit]).toMatch(/"goneOutOn": null/u);
    // A verdict that was made in the folder: offered, and brought here as a copy is.
    const entry = Object.keys(first).find((path) => path.endsWith('run.json')) ?? '';
    await page.evaluate(async (path) => {
      const root = await (await navigator.storage.getDirectory()).getDirectoryHandle('bench book');
      const [runs = '', id = ''] = path.split('/');
      const at = await (await root.getDirectoryHandle(runs)).getDirectoryHandle(id);
      const read = async (name: string): Promise<string> =>
        (await (await at.getFileHandle(name)).getFile()).text();
      const write = async (name: string, text: string): Promise<void> => {
        const file = await (await at.getFileHandle(name, { create: true })).createWritable();
        await file.write(text);
        await file.close();
      };
      const verdict = `${await read('assessment-1.json')}\n`;
      const hash = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(verdict));
      const sha256 = [...new Uint8Array(hash)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
      const run = JSON.parse(await read('run.json')) as { assessments: Record<string, unknown>[] };
      const at2 = new Date(Date.now() + 60_000).toISOString();
      run.assessments.push({
        ...run.assessments[0],
        decidedAt: at2,
        sha256,
        file: 'assessment-2.json',
      });
      await write('assessment-2.json', verdict);
      await write('run.json', JSON.stringify({ ...run, changedAt: at2 }));
    }, entry);
    await page.getByText('Verdict, note').click();
    await page.getByLabel('Note on this run').fill('seen here');
    await page.locator('.run-notes').getByRole('button', { name: 'Keep' }).click();
    await page.getByText(/is newer in the folder|has a verdict that this book has not/u).waitFor();
    await page.getByRole('button', { name: 'Look at what would come from there' }).click();
    await page.getByRole('heading', { name: 'What the folder “bench book” would change' }).waitFor();
    expect(await axe(page)).toEqual([]);
    await page.getByRole('button', { name: 'Bring it back' }).click();
    await page.getByText('2 verdicts, note').waitFor();
    await page.getByText('The folder “bench book” is up to date with the book.').waitFor();
    await expect.poll(() => page.getByRole('button', { name: 'Look at what would come' }).count()).toBe(0);
    await page.getByRole('button', { name: 'Remove this unit' }).click();
    await page.getByRole('button', { name: 'Removed: 2' }).click();
    await page.getByRole('button', { name: /^Empty/u }).click();
    await page.getByRole('button', { name: 'Take all 2 out' }).click();
    await page.getByText('The bin is empty.').waitFor();
    expect(Object.keys(await folder(page)).toSorted()).toEqual(
      [...Object.keys(first), entry.replace('run.json', 'assessment-2.json')].toSorted(),
    );
    await context.close();
  });
});

describe('reviewing a run', () => {
  it('leaves a span out by hand, with who and why, put back in one step', async () => {
    const { page, context } = await open();
    await bringIn(page, { name: 'sags.csv', content: log(410, 0, 2000, 2400) });
    await sayBand(page);
    await judge(page, 'B-1');
    const before = await page.locator('.verdict .sentence').first().innerText();
    const bar = page.getByRole('region', { name: 'A part of the run' });
    await bar.getByLabel('from').fill('0:33');
    await bar.getByLabel('to').fill('0:40:20');
    await bar.getByRole('button', { name: 'Leave it out' }).click();
    await page.getByText('Left out by hand').waitFor();
    await page.getByRole('textbox', { name: 'Why' }).fill('supply hose kinked');
    await page.getByRole('textbox', { name: 'Who' }).fill('E. Example');
    await page.getByRole('button', { name: 'Keep', exact: true }).click();
    await page.getByText('supply hose kinked').waitFor();
    await expect.poll(() => page.locator('.verdict .sentence').first().innerText()).not.toBe(before);
    expect(await axe(page)).toEqual([]);
    // It outlasts a reload, as judged; and goes in one step.
    await page.reload();
    await page.getByText('supply hose kinked').waitFor();
    await page.getByRole('button', { name: /^Put back 0:33/u }).click();
    await expect.poll(() => page.locator('.verdict .sentence').first().innerText()).toBe(before);
    await page.keyboard.press('Control+z');
    await page.getByText('supply hose kinked').waitFor();
    await context.close();
  });

  it('tries another smoothing and rule without touching the verdict; opens a limit to its numbers; looks at a named span', async () => {
    const { page, context, complaints } = await open();
    await bringIn(page, { name: 'run.csv', content: log(410) });
    await sayBand(page);
    await judge(page, 'B-1');
    await page.getByText('Try another smoothing or rule').click();
    await page.getByLabel('over, in seconds').fill('120');
    await page.getByText('A trial, not kept: passes').waitFor();
    await page.getByText('The strip shows a trial').waitFor();
    expect(await page.locator('h1#verdict').innerText()).toBe('Passes');
    await page.getByRole('button', { name: 'End the trial' }).click();
    await page.getByText('The strip shows a trial').waitFor({ state: 'detached' });
    await page.getByText('How it was worked out').first().click();
    await page.getByText('Mean by time of the valid readings of the hold.').waitFor();
    await page.getByRole('button', { name: 'Show it on the strip' }).first().click();
    await page.getByLabel('Look at').selectOption('the last ten minutes');
    await expect
      .poll(() => page.getByLabel('from', { exact: true }).inputValue())
      .toMatch(/^0:49:0\d$|^0:48:/u);
    await page.getByRole('button', { name: 'Whole run' }).waitFor();
    expect(await axe(page)).toEqual([]);
    // The trial left no second verdict behind.
    await toBook(page);
    await page.locator('a.book-line').first().click();
    await page.getByText('Verdict, note').waitFor();
    expect(await page.getByText('2 verdicts').count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('lays another run over, from engaging, and takes it off again', async () => {
    const { page, context, complaints } = await open();
    for (const [name, pressure] of [
      ['first.csv', 425],
      ['second.csv', 410],
    ] as const) {
      await bringIn(page, { name, content: log(pressure) });
      await sayBand(page);
      await judge(page, 'B-1');
    }
    const ink = (): Promise<string> =>
      page
        .locator('.strip-plot canvas')
        .first()
        .evaluate((canvas) => (canvas as HTMLCanvasElement).toDataURL());
    const before = await ink();
    await page.getByRole('combobox', { name: 'Lay another run over' }).selectOption({ index: 1 });
    await page.getByText(/^Laid over, from engaging: Test, /u).waitFor({ state: 'attached' });
    await expect.poll(ink).not.toBe(before);
    // Named where its line ends, too.
    const named = page.locator('.strip-label').filter({ hasText: /^Test/u });
    await expect.poll(() => named.count()).toBe(1);
    expect(await axe(page)).toEqual([]);
    await page.getByRole('button', { name: /^Take off Test/u }).click();
    await expect.poll(ink).toBe(before);
    expect(await page.locator('h1#verdict').innerText()).toBe('Passes');
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('a run whose log is damaged is not laid over, said, and keeps no other one off', async () => {
    const { page, context } = await open();
    for (const [seed, name] of ['first.csv', 'second.csv', 'third.csv'].entries()) {
      await bringIn(page, { name, content: log(410, seed) });
      await sayBand(page);
      await judge(page, 'B-1');
    }
    const choice = page.getByRole('combobox', { name: 'Lay another run over' });
    const values = await choice
      .locator('option')
      .evaluateAll((all) => all.map((each) => (each as HTMLOptionElement).value));
    expect(values).toHaveLength(3);
    const [, whole = '', damaged = ''] = values;
    await page.evaluate(
      (path) =>
        new Promise<void>((resolve) => {
          const asked = indexedDB.open('overdrive-bench');
          asked.onsuccess = () => {
            const change = asked.result.transaction('files', 'readwrite');
            change.objectStore('files').put(new Uint8Array([0x1f, 0x8b, 8, 0, 1]), path);
            change.oncomplete = () => {
              asked.result.close();
              resolve();
            };
          };
        }),
      `runs/${damaged}/log.gz`,
    );
    await choice.selectOption(damaged);
    await page.getByText(/log\.gz cannot be read/u).waitFor();
    await choice.selectOption(whole);
    await page.getByText(/^Laid over, from engaging: Re-test, /u).waitFor({ state: 'attached' });
    expect(await page.getByRole('button', { name: /^Take off/u }).count()).toBe(1);
    await context.close();
  });

  it('a newer version’s verdict stands beside the older one, and both are kept', async () => {
    const { page, context } = await open();
    await bringIn(page, { name: 'run.csv', content: log(410) });
    await sayBand(page);
    await judge(page, 'B-1');
    // By then the page has written its list of the book, too, and writes nothing over what comes now.
    await toBook(page);
    await page.locator('a.book-line').first().waitFor();
    await page.goBack();
    await page.locator('.strip-tab').waitFor({ state: 'attached' });
    // As if an older version had come to another verdict.
    await page.evaluate(async () => {
      const database = await new Promise<IDBDatabase>((resolve) => {
        const asked = indexedDB.open('overdrive-bench');
        asked.onsuccess = () => resolve(asked.result);
      });
      const files = database.transaction(['entries', 'files'], 'readwrite');
      const store = files.objectStore('entries');
      await new Promise((resolve) => {
        const cursor = store.openCursor();
        cursor.onsuccess = () => {
          const at = cursor.result;
          if (at === null) return resolve(null);
          if (typeof at.key === 'string' && at.key.startsWith('runs/')) {
            const [kept] = at.value.assessments;
            at.update({
              ...at.value,
              assessments: [
                {
                  ...kept,
                  programVersion: '0.0.9',
                  verdict: 'fail',
                  operatingPressure: 431,
                  sha256: 'older',
                },
              ],
            });
          }
          at.continue();
        };
      });
      files.objectStore('files').delete('~list');
      await new Promise((resolve) => (files.oncomplete = resolve));
      database.close();
    });
    await page.reload();
    await page.getByRole('heading', { name: 'A newer version comes to another verdict' }).waitFor();
    const table = await page.locator('.versions table').innerText();
    expect(table).toMatch(/version 0\.0\.9/u);
    expect(table).toMatch(/Fails\s+Passes/u);
    expect(await axe(page)).toEqual([]);
    await toBook(page);
    await page.locator('a.book-line').first().click();
    await page.getByText('2 verdicts').click();
    await page.getByText('this one counts, the earlier ones stay').waitFor();
    await context.close();
  });
});
