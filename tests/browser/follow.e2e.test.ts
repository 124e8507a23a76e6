import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axe, bringIn, startApp, type UnderTest } from './app-under-test.ts';

let app: UnderTest;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.end());

const NAME = 'growing.csv';
const heading = 'time_s,pressure (psi),oil (°C)\n';
function rows(from: number, to: number): string {
  let text = '';
  for (let t = from; t < to; t++) {
    const pressure = t < 30 ? 0 : 408 + t / 1000 + (((t * 7) % 5) - 2) / 10;
    text += `${t},${pressure.toFixed(1)},${(60 + ((t * 3) % 7) / 10).toFixed(1)}\n`;
  }
  return text;
}

/**
 * The browser's chooser needs a hand on the system's own window: in its place stands one that gives a true file handle of the
 * browser's private file system, which grows as any other.
 */
const chooser = `window.showOpenFilePicker = async () => {
  const folder = await navigator.storage.getDirectory();
  return [await folder.getFileHandle('${NAME}')];
};`;

/** Writes at the file's end, or anew. */
const write = (page: Page, text: string, anew = false): Promise<void> =>
  page.evaluate(
    async ([name, content, fresh]) => {
      const folder = await navigator.storage.getDirectory();
      const handle = await folder.getFileHandle(name, { create: true });
      const { size } = await handle.getFile();
      const writing = await handle.createWritable({ keepExistingData: !fresh });
      await writing.write({ type: 'write', position: fresh ? 0 : size, data: content });
      await writing.close();
    },
    [NAME, text, anew] as const,
  );

async function understood(page: Page): Promise<void> {
  await bringIn(page, { name: NAME, content: heading + rows(0, 900) });
  await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
  await page.getByRole('radio', { name: 'A band' }).check();
  await page.getByLabel('from (left empty: none)').fill('400');
  await page.getByLabel('to (left empty: none)').fill('420');
  await page.locator('.band-fields select').first().selectOption('psi');
}

describe('a log that is still being written, in the app', () => {
  it('is looked at again and again, shown as it comes, stopped, and read as a whole', async () => {
    const { page, complaints } = await app.open({ before: chooser });
    await write(page, heading + rows(0, 900), true);
    await understood(page);
    await page.getByRole('button', { name: 'Follow this file' }).click();
    await page.getByRole('heading', { level: 1, name: 'Following' }).waitFor();
    await page.getByText('This is no alarm and no safety device').waitFor();
    await page.getByText('Now 408.').waitFor();
    await page.getByText('14 min run', { exact: false }).first().waitFor();

    await write(page, `${rows(900, 2400)}2400,41`);
    await page.getByText('39 min run', { exact: false }).first().waitFor({ timeout: 20_000 });
    await expect.poll(() => page.locator('.follow-now').innerText()).toMatch(/Drift 3\.\d+.psi\/h, rising/u);
    const limits = page.getByRole('region', { name: 'Each limit, and why' });
    expect(await limits.innerText()).toMatch(/Not assessed[^]*So far: 4\d\d[^]*the run is still going on/u);
    expect(await axe(page)).toEqual([]);
    // Looked at in another unit, the sentences too; judged as it was.
    await page.getByRole('radio', { name: 'bar', exact: true }).check();
    await page.getByRole('radio', { name: '°F' }).check();
    await page.getByText('Shown in bar, judged in psi.').waitFor();
    const now = await page.locator('.follow-now').innerText();
    expect(now).toMatch(/^Now 28\.\d\d.bar, oil 14\d\.\d.°F/u);
    expect(now).toMatch(/Drift 0\.\d+.bar\/h, rising/u);
    expect(now).not.toContain('psi');
    expect(await limits.innerText()).toMatch(/27\.579 to 28\.958.bar/u);
    await page.keyboard.press('u');
    await page.getByText('Shown in kPa, judged in psi.').waitFor();

    // Another run in its place is said.
    await write(page, heading + rows(0, 600), true);
    await page.getByText('The file was begun anew').waitFor({ timeout: 20_000 });
    await page.getByRole('button', { name: 'Stop following' }).click();
    await page.getByRole('heading', { level: 1, name: 'Followed until here' }).waitFor();

    await write(page, rows(600, 700));
    await page.getByRole('button', { name: 'Read the whole log' }).click();
    await page.getByText('700 rows').waitFor();
    await page.getByRole('button', { name: 'Judge this run' }).click();
    await page.locator('h1#verdict').waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('says why not where the browser cannot, and what can', async () => {
    const { page } = await app.open({ before: 'delete window.showOpenFilePicker;' });
    await understood(page);
    await page.getByRole('button', { name: 'Follow this file' }).click();
    await page.getByText('does not let a page look at a file again').waitFor();
    await page.getByText('overdrive-bench assess --follow').waitFor();
    await page.context().close();
  });

  it('leaves everything as it is where the chooser was closed', async () => {
    const before = `window.showOpenFilePicker = () => Promise.reject(new DOMException('closed', 'AbortError'));`;
    const { page, complaints } = await app.open({ before });
    await understood(page);
    await page.getByRole('button', { name: 'Follow this file' }).click();
    expect(await page.locator('#follow-says').innerText()).toBe('');
    await page.getByRole('button', { name: 'Judge this run' }).waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
