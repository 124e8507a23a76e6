import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axe, bringIn, ownFolder, saved, startApp, type UnderTest } from './app-under-test.ts';

let app: UnderTest;
const folder = ownFolder();
beforeAll(async () => {
  app = await startApp();
});
afterAll(async () => {
  await app.end();
  folder.remove();
});

/** The command line's assessment of the same log; exits 1 and 2 are verdicts, not failures. */
function assessment(log: string, rig: string, band: string): string {
  const output = path.join(folder.path, 'by-command.json');
  try {
    execFileSync(
      process.execPath,
      ['bin/overdrive-bench.mjs', 'assess', log, '--rig', rig, '--band', band, '--json', output],
      { stdio: 'ignore' },
    );
  } catch (error) {
    const { status } = error as { status: number | null };
    if (status !== 1 && status !== 2) throw error;
  }
  return readFileSync(output, 'utf8');
}

const two = (value: number): string => String(value).padStart(2, '0');
const clock = (t: number): string =>
  `${two(8 + Math.floor(t / 3600))}:${two(Math.floor(t / 60) % 60)}:${two(t % 60)}`;
const engaged = (t: number): number => (t > 30 && t < 1170 ? 28.3 + (t % 7) * 0.01 : 0.1);
/** A logger of a comma-decimal country: a date that reads both ways, no unit, no word that says what is what. */
const strange = (day: string): string =>
  [
    'Messung Nr. 7',
    'Wann;Kanal 1;Kanal 2',
    ...Array.from(
      { length: 1200 },
      (_, t) =>
        `${day} ${clock(t)};${engaged(t).toFixed(2).replace('.', ',')};${(61 + (t % 3) / 10).toFixed(1).replace('.', ',')}`,
    ),
    '',
  ].join('\n');

async function typeBand(page: Page): Promise<void> {
  await page.getByRole('radio', { name: 'A band' }).check();
  await page.getByLabel('from (left empty: none)').fill('400');
  await page.getByLabel('to (left empty: none)').fill('420');
  await page.locator('.band-fields select').filter({ hasText: 'kgf' }).first().selectOption('psi');
}
async function unfold(page: Page): Promise<void> {
  await page.locator('details.layout > summary').click();
  await page.getByRole('region', { name: 'The first rows as read' }).waitFor();
}
const changes = (page: Page): Promise<string> => page.locator('.what-changes').innerText();

describe('a log that nobody has seen before', () => {
  it('is put right column by column, remembered, recognised, and read so by the command line too', async () => {
    const { page, complaints } = await app.open();
    const name = 'strange.csv',
      content = strange('03/04/2026');
    await bringIn(page, { name, content });
    await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
    await page.getByRole('heading', { name: 'Which comes first, day or month?' }).waitFor();
    await page.getByRole('radio', { name: 'Day first' }).check();
    await page.getByRole('radio', { name: 'Kanal 1' }).check();
    await page.getByRole('radio', { name: /^bar/u }).check();
    await page.getByLabel('What column Kanal 2 means').selectOption('oil temperature');
    await page.getByRole('radio', { name: /^°C/u }).check();
    await unfold(page);
    await expect.poll(() => changes(page)).toMatch(/Kanal 2 is: oil temperature, was not known/u);
    expect(await changes(page)).toMatch(/Starts at: 2026-04-03 08:00:00, was no date/u);
    expect(await changes(page)).toMatch(/Unit of Kanal 1: bar, was none/u);
    expect(await axe(page)).toEqual([]);

    // What cannot be read so is said where it was asked for, and put back in one step; a change shows in the first rows at once.
    await page.getByLabel('decimal mark').selectOption('point');
    await page.locator('details.layout').getByRole('alert').waitFor();
    await page.getByRole('button', { name: 'Put back: as the file shows it' }).click();
    await page.getByLabel('heading in line').fill('0');
    await expect
      .poll(() => changes(page))
      .toMatch(/Columns: column 1, column 2, column 3, was Wann, Kanal 1, Kanal 2/u);
    expect(await page.getByRole('region', { name: 'The first rows as read' }).innerText()).toContain(
      'column 2',
    );
    await page.getByRole('button', { name: 'Put back: as the file shows it' }).click();
    await expect.poll(() => changes(page)).not.toMatch(/Columns/u);
    await page.getByRole('radio', { name: 'Day first' }).check();

    await typeBand(page);
    await page.getByLabel('name of the logger or bench').fill('Comma logger');
    await page.getByRole('button', { name: 'Remember for this logger' }).click();
    await page.locator('.remember-logger').getByText('Remembered for Comma logger').waitFor();
    const rig = await saved(page, () => page.getByRole('button', { name: 'Save as a rig file' }).click());
    expect(rig.name).toBe('Comma logger rig.json');
    expect(JSON.parse(rig.bytes.toString())).toEqual({
      format: 'overdrive-bench/rig',
      version: 1,
      name: 'Comma logger',
      time: { dateOrder: 'day-month-year' },
      channels: [
        { column: 'Kanal 2', role: 'oil-temperature', unit: 'degC' },
        { column: 'Kanal 1', role: 'pressure', unit: 'bar' },
      ],
    });
    await page.getByRole('button', { name: 'Judge this run' }).click();
    await page.locator('h1#verdict').waitFor();
    await page.keyboard.press('d');
    const json = await saved(page, () =>
      page.getByRole('button', { name: 'Save the assessment as JSON' }).click(),
    );
    const [log, rigFile] = [path.join(folder.path, name), path.join(folder.path, 'rig.json')];
    writeFileSync(log, content);
    writeFileSync(rigFile, rig.bytes);
    expect(json.bytes.toString()).toBe(assessment(log, rigFile, '400..420 psi'));

    // Another day, the same logger: nothing is asked any more but what the shop wants to hold it against.
    await bringIn(page, { name: 'next.csv', content: strange('05/06/2026') });
    await page.locator('details.layout').getByText('Recognised by its heading: Comma logger.').waitFor();
    await expect.poll(() => page.locator('h1').innerText()).toMatch(/One thing|Nothing/u);
    expect(await page.getByLabel('Unit of column Kanal 1').inputValue()).toBe('bar');
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('asks only for the orders in which a date reads: a named month leaves day and year', async () => {
    const { page, context } = await app.open();
    const rows = Array.from({ length: 900 }, (_, t) => `14-Mar-26,${clock(t)},${engaged(t).toFixed(2)}`);
    await bringIn(page, { name: 'named.csv', content: ['Date,Time,Pressure (bar)', ...rows].join('\n') });
    await page.getByRole('heading', { name: 'In which order does the date stand?' }).waitFor();
    expect(await page.getByRole('radio', { name: 'Month first' }).count()).toBe(0);
    await page.getByRole('radio', { name: 'Year first' }).check();
    await page.getByRole('radio', { name: 'Day first' }).check();
    await typeBand(page);
    await page.getByRole('button', { name: 'Judge this run' }).click();
    await page.getByText('March 14, 2026, 08:00').first().waitFor();
    await context.close();
  });

  it('without a heading and without a time: columns by position, and how far apart the rows are, are asked', async () => {
    const { page } = await app.open();
    const name = 'bare.txt';
    const content = Array.from(
      { length: 600 },
      (_, t) => `${(engaged(t) * 14.5).toFixed(1)},${(61.25 + (t % 3) / 4).toFixed(2)}\n`,
    ).join('');
    await bringIn(page, { name, content });
    await page.getByRole('heading', { name: 'How far apart are the rows?' }).waitFor();
    await page.getByRole('button', { name: 'Judge this run' }).focus();
    await page.getByText('First say how far apart the rows are.').waitFor();
    await page.getByLabel('or seconds between rows').fill('2');
    await page.getByRole('radio', { name: 'column 1' }).check();
    await page.getByRole('radio', { name: /^psi/u }).check();
    await typeBand(page);
    await unfold(page);
    await page.getByLabel('name of the logger or bench').fill('Bare');
    const rig = await saved(page, () => page.getByRole('button', { name: 'Save as a rig file' }).click());
    await page.getByRole('button', { name: 'Judge this run' }).click();
    await page.locator('h1#verdict').waitFor();
    await page.keyboard.press('d');
    const json = await saved(page, () =>
      page.getByRole('button', { name: 'Save the assessment as JSON' }).click(),
    );
    const [log, rigFile] = [path.join(folder.path, name), path.join(folder.path, 'bare.json')];
    writeFileSync(log, content);
    writeFileSync(rigFile, rig.bytes);
    const wanted = assessment(log, rigFile, '400..420 psi');
    expect(json.bytes.toString()).toBe(wanted);
    expect(JSON.parse(wanted)).toMatchObject({ log: { timeForm: 'sample-number', duration_s: 1198 } });
    await page.context().close();
  });
});
