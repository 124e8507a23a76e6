import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { unzipSync } from 'fflate';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  axe,
  bringIn,
  judgeAndKeep,
  ownFolder,
  saved,
  startApp,
  typeBand,
  understood,
  unjudgedKept,
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

const two = (value: number): string => String(value).padStart(2, '0');
const clock = (t: number): string =>
  `2026-03-06T${two(8 + Math.floor(t / 3600))}:${two(Math.floor(t / 60) % 60)}:${two(t % 60)}`;
const readings = (t: number): string => {
  const engaged = t > 120 && t < 10_500;
  return `${engaged ? (410 + ((t * 7) % 5) / 10).toFixed(1) : '0.0'},${(61 + (t % 3) / 10).toFixed(1)}`;
};
/** One hour, or what is left of it, of a run whose logger begins a file each hour; 90 s are lost between two. */
function hour(number: number, time: (t: number) => string = clock): string {
  const rows = Array.from({ length: 3510 }, (_, i) => 3600 * (number - 1) + i).map(
    (t) => `${time(t)},${readings(t)}`,
  );
  return ['time,pressure (psi),oil (°C)', ...rows, ''].join('\n');
}
const file = (number: number): { name: string; content: string } => ({
  name: `hour-${number}.csv`,
  content: hour(number),
});
const hours = [1, 2, 3].map(file);
const inPlace = (name: string, content: string): string => {
  const file = path.join(folder.path, name);
  writeFileSync(file, content);
  return file;
};

/** Files or a folder from the disk, dropped as a hand would. */
async function dropOn(page: Page, ...files: string[]): Promise<void> {
  const session = await page.context().newCDPSession(page);
  for (const type of ['dragEnter', 'dragOver', 'drop'] as const)
    await session.send('Input.dispatchDragEvent', {
      type,
      x: 400,
      y: 300,
      data: { items: [], files, dragOperationsMask: 1 },
    });
  await session.detach();
}
const names = (page: Page, list: string): Promise<string[]> =>
  page.getByRole('list', { name: list }).getByRole('listitem').locator('span:first-child').allInnerTexts();
const verdictFile = (page: Page): Promise<{ name: string; bytes: Buffer }> =>
  saved(page, () => page.getByRole('button', { name: 'Save the assessment as JSON' }).click());

describe('a run that its logger wrote in several files', () => {
  it('is joined, judged, recorded and kept as one, and says what the command line says', async () => {
    // A browser without a place to choose: a copy is offered as a download.
    const { page, context, complaints } = await app.open({ before: 'delete window.showSaveFilePicker;' });
    // As a folder may give them.
    await bringIn(page, file(3), file(1), file(2));
    await understood(page);
    expect(await names(page, 'Files brought in together')).toEqual([
      'hour-3.csv',
      'hour-1.csv',
      'hour-2.csv',
    ]);
    await typeBand(page);
    await page.getByLabel('Serial of the unit').fill('B-0611');
    await page.getByRole('button', { name: 'All are one run' }).click();
    await page.getByText('The 3 files of the run hold 10 530 rows'.replace(' 530', '\u00a0530')).waitFor();
    await page.getByText('3 files are read as one run, put in order by their dates.').waitFor();
    expect(await names(page, 'Files of this run')).toEqual(['hour-1.csv', 'hour-2.csv', 'hour-3.csv']);
    expect(await page.getByRole('list', { name: 'Files brought in together' }).count()).toBe(0);
    // What was said before they were joined still holds.
    expect(await page.getByLabel('from (left empty').inputValue()).toBe('400');
    expect(await axe(page)).toEqual([]);
    await judgeAndKeep(page);
    expect(await page.locator('h1#verdict').innerText()).toBe('Passes');
    await page.getByText('Part 3 of 3').waitFor({ state: 'attached' });

    // The same bytes as the command line's, whichever order it was given them in.
    await page.keyboard.press('d');
    await page.getByLabel('Issued on').fill('2026-03-07');
    const json = await verdictFile(page);
    const pdf = await saved(page, () => page.getByRole('button', { name: 'Save the record as PDF' }).click());
    const out = (name: string): string => path.join(folder.path, name);
    const given = [file(2), file(3), file(1)].map(({ name, content }) => inPlace(name, content));
    const unit = inPlace(
      'unit.json',
      '{ "format": "overdrive-bench/unit-record", "version": 1, "unit": { "serial": "B-0611" } }',
    );
    const judged = `--band|400..420 psi|--date|2026-03-07|--unit-record|${unit}`.split('|');
    const asked = ['assess', ...given, ...judged, '--json', out('run.json'), '--record', out('run.pdf')];
    execFileSync(process.execPath, ['bin/overdrive-bench.mjs', ...asked]);
    expect(json.bytes.toString()).toBe(readFileSync(out('run.json'), 'utf8'));
    expect(pdf.bytes.equals(readFileSync(out('run.pdf')))).toBe(true);
    const said = execFileSync(process.execPath, [
      'bin/overdrive-bench.mjs',
      'verify',
      out('run.pdf'),
      ...given,
    ]);
    expect(said.toString()).toMatch(/^Record, log and numbers agree/u);

    // It is there again after a reload, the same to the byte.
    await page.reload();
    await page.getByRole('button', { name: 'Save the record as PDF' }).waitFor();
    expect((await verdictFile(page)).bytes.toString()).toBe(json.bytes.toString());

    // A day's records take it along; a copy of the book holds every file as it came.
    await page.getByRole('link', { name: 'Bench book' }).click();
    await page.locator('a.book-line').waitFor();
    expect(await page.locator('a.book-line').count()).toBe(1);
    const copy = await saved(page, () =>
      page.getByRole('button', { name: 'Put a copy aside', exact: true }).click(),
    );
    const zip = unzipSync(new Uint8Array(copy.bytes));
    const packed = Object.keys(zip).filter((name) => /\/log(-\d)?\.gz$/u.test(name));
    expect(packed.map((name) => path.basename(name)).sort()).toEqual(['log-2.gz', 'log-3.gz', 'log.gz']);
    writeFileSync(out('copy.zip'), copy.bytes);
    const verified = execFileSync(process.execPath, [
      'bin/overdrive-bench.mjs',
      'book',
      'verify',
      out('copy.zip'),
    ]);
    expect(verified.toString()).toMatch(/^1 run checked: every log/u);
    // Wherever the book names it, it is not the run of the first hour alone.
    await page.getByRole('button', { name: 'Records of a day' }).click();
    await page.getByText('B-0611, hour-1.csv and 2 more').waitFor();
    await page.locator('a.book-line').click();
    await page.getByRole('link', { name: 'hour-1.csv and 2 more' }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('is known when its files come again, and one of them alone is a run of its own, said', async () => {
    const { page, context } = await app.open();
    await bringIn(page, ...hours);
    await understood(page);
    await typeBand(page);
    await page.getByRole('button', { name: 'All are one run' }).click();
    await page.getByText('files of the run hold').waitFor();
    await judgeAndKeep(page);
    await bringIn(page, file(1));
    await understood(page);
    await page.getByText('A run in the book was made of this file and others').waitFor();
    // A file that belongs to it is added from the chooser.
    await page
      .getByLabel('Other files of this run')
      .setInputFiles(
        hours
          .slice(1)
          .map(({ name, content }) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(content) })),
      );
    await page.getByText('3 files are read as one run').waitFor();
    await page.getByText('This very log is in the book already').waitFor();
    await context.close();
  });

  it('waits with all its files over a reload, and is parted again', async () => {
    const { page, context } = await app.open();
    await bringIn(page, ...hours);
    await understood(page);
    await page.getByRole('button', { name: 'hour-3.csv is a part of this run' }).click();
    await page.getByText('The 2 files of the run hold').waitFor();
    expect(await names(page, 'Files of this run')).toEqual(['hour-1.csv', 'hour-3.csv']);
    expect(await names(page, 'Files brought in together')).toEqual(['hour-1.csv and 1 more', 'hour-2.csv']);
    await unjudgedKept(page);
    await page.reload();
    await page.getByText('The 2 files of the run hold').waitFor();
    expect(await names(page, 'Files of this run')).toEqual(['hour-1.csv', 'hour-3.csv']);
    await page.getByRole('button', { name: 'hour-1.csv is a run of its own' }).click();
    await page.getByText('hour-3.csv holds').waitFor();
    expect(await names(page, 'Files brought in together')).toEqual([
      'hour-3.csv',
      'hour-1.csv',
      'hour-2.csv',
    ]);
    // Another that is chosen meanwhile pushes none of them out.
    await bringIn(page, { name: 'other.csv', content: hour(1) });
    await page.getByText('other.csv holds').waitFor();
    expect(await names(page, 'Files brought in together')).toEqual([
      'other.csv',
      'hour-3.csv',
      'hour-1.csv',
      'hour-2.csv',
    ]);
    await context.close();
  });

  it('says why files are no parts of one run, and lets them be parted', async () => {
    const { page, context } = await app.open();
    await bringIn(page, file(1), { name: 'hour-2.csv', content: hour(2, String) });
    await understood(page);
    await page.getByRole('button', { name: 'Both are one run' }).click();
    await page.getByRole('heading', { level: 1, name: 'It could not be read' }).waitFor();
    await page.getByText('hour-2.csv').first().waitFor();
    expect(await page.locator('.trouble').innerText()).toMatch(
      /hour-2\.csv.*its time is a count from its start/su,
    );
    await page.getByRole('button', { name: 'hour-2.csv is a run of its own' }).click();
    await page.getByText('hour-1.csv holds').waitFor();
    await context.close();
  });

  it('with many files lists them folded, and the keyboard is on the heading beneath', async () => {
    const { page, context } = await app.open();
    const many = Array.from({ length: 9 }, (_, i) => ({ name: `${i + 1}.csv`, content: hour(i + 1) }));
    await bringIn(page, ...many);
    await understood(page);
    const onHeading = (): Promise<unknown> =>
      expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe('H1');
    await onHeading();
    await page.getByRole('button', { name: 'All are one run' }).click();
    await page.getByText('The 9 files of the run hold').waitFor();
    await onHeading();
    await page.getByText('Show all 9 files').click();
    expect(await names(page, 'Files of this run')).toHaveLength(9);
    await context.close();
  });

  it('whose files count from nought is joined in the order that is said', async () => {
    const { page, context } = await app.open();
    const counted = (n: number): { name: string; content: string } => ({
      name: `${n}.csv`,
      content: hour(n, (t) => String(t - 3600 * (n - 1))),
    });
    await bringIn(page, counted(2), counted(1));
    await understood(page);
    await page.getByRole('button', { name: 'Both are one run' }).click();
    await page.getByText('in the order in which they stand here').waitFor();
    expect(await names(page, 'Files of this run')).toEqual(['1.csv', '2.csv']);
    await page.getByRole('button', { name: '2.csv one earlier' }).click();
    await expect.poll(() => names(page, 'Files of this run')).toEqual(['2.csv', '1.csv']);
    await page.getByText('its count begins again').waitFor();
    await context.close();
  });

  it('may be dropped as the folder that its logger wrote; a folder without a log is said to be that', async () => {
    const { page, context } = await app.open();
    const place = path.join(folder.path, 'bench 2');
    mkdirSync(path.join(place, 'older'), { recursive: true });
    for (const number of [10, 9]) writeFileSync(path.join(place, `h${number}.csv`), hour(number));
    writeFileSync(path.join(place, 'notes.pdf'), 'no log');
    writeFileSync(path.join(place, 'older', 'h1.csv'), hour(1));
    await dropOn(page, path.join(place, 'older', 'h1.csv'));
    await page.getByText('h1.csv holds').waitFor();
    await page.getByRole('button', { name: 'Put the file back' }).click();
    await dropOn(page, place);
    await page.getByText('h9.csv holds').waitFor();
    expect(await names(page, 'Files brought in together')).toEqual(['h9.csv', 'h10.csv']);
    const bare = path.join(folder.path, 'bare');
    mkdirSync(bare);
    await dropOn(page, bare);
    await page.getByText('In the folder bare no log was found').waitFor();
    expect(await axe(page)).toEqual([]);
    await page.getByRole('link', { name: 'Bench book' }).click();
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(await page.getByText('no log was found').count()).toBe(0);
    await context.close();
  });
});
