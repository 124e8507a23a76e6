import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bringIn, saved, startApp, steadyLog, type UnderTest } from './app-under-test.ts';

let app: UnderTest;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.end());

/** A run of an hour that stands at 410 psi. */
const log = steadyLog(410, 3600);

async function bookOfOneUnit(page: Page): Promise<void> {
  await bringIn(page, { name: 'run.csv', content: log });
  await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
  await page.getByRole('radio', { name: 'A band' }).check();
  await page.getByLabel('from (left empty').fill('400');
  await page.getByLabel('to (left empty').fill('420');
  await page.locator('.band-fields select').first().selectOption('psi');
  await page.getByLabel('Serial of the unit').fill('B-1');
  await page.getByRole('button', { name: 'Judge this run' }).click();
  await page.locator('h1#verdict').waitFor();
  await page.getByText('in this browser’s book').waitFor();
  await page.getByRole('link', { name: 'Bench book', exact: true }).first().click();
}

/** What has the keyboard, in words; the page's body is what must never have it. */
const has = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const { activeElement: each } = document;
    const name = each?.getAttribute('aria-label') ?? each?.textContent ?? '';
    return `${each?.tagName} ${name.replaceAll(/\s+/gu, ' ').trim().slice(0, 60)}`;
  });
const press = async (page: Page, name: string | RegExp): Promise<void> => {
  const button = page.getByRole('button', { name, exact: typeof name === 'string' }).first();
  await button.focus();
  await page.keyboard.press('Enter');
};

describe('choices', () => {
  it('that open a file chooser do so when they are pressed, not when the arrow keys go over them', async () => {
    const { page, context } = await app.open();
    await bringIn(page, { name: 'run.csv', content: log });
    await page.getByRole('radio', { name: 'No limits' }).focus();
    let choosers = 0;
    page.on('filechooser', () => choosers++);
    await page.keyboard.press('ArrowLeft');
    const file = page.getByRole('radio', { name: 'A spec file' });
    await expect.poll(() => file.evaluate((each) => each === document.activeElement)).toBe(true);
    await page.waitForTimeout(300);
    expect(choosers).toBe(0);
    const chooser = page.waitForEvent('filechooser');
    await page.keyboard.press('Space');
    await (await chooser).setFiles('sample-runs/specs/example-400-420.json');
    await expect.poll(() => file.count()).toBe(0);
    await page.getByRole('radio', { name: 'example-400-420.json', checked: true }).waitFor();
    await context.close();
  });
});

describe('the keyboard, where what had it goes', () => {
  it('comes to what stands in its place, to what opened it, or to the heading of what is left', async () => {
    const { page, context, complaints } = await app.open({ before: 'delete window.showSaveFilePicker;' });
    await bookOfOneUnit(page);
    const { bytes: copy } = await saved(page, () => press(page, 'Put a copy aside'));
    // The button is busy meanwhile and keeps the keyboard.
    expect(await has(page)).toBe('BUTTON Put a copy aside');

    // The list of what a copy would change goes when it is left: back to the button that asked for it.
    await page.getByRole('button', { name: 'Bring a copy back' }).focus();
    await page
      .getByLabel('A copy of a book')
      .setInputFiles({ name: 'copy.zip', mimeType: 'application/zip', buffer: copy });
    await page.getByRole('heading', { name: 'What copy.zip would change' }).waitFor();
    expect(await has(page)).toBe('H2 What copy.zip would change');
    await press(page, 'Close');
    await expect.poll(() => has(page)).toBe('BUTTON Bring a copy back');

    // A field's button that can no longer be pressed: back to the field.
    await page.locator('a.book-line').first().click();
    await page.locator('.run-notes summary').click();
    await page.getByLabel('Note on this run').fill('oil was new');
    await press(page, 'Keep');
    await expect
      .poll(() => page.evaluate(() => document.activeElement instanceof HTMLTextAreaElement))
      .toBe(true);
    // What was told can be put back: once done, what is told has it.
    await press(page, 'Put back Ctrl Z');
    await expect.poll(() => has(page)).toMatch(/^DIV Put back: Note on run\.csv kept/u);
    await press(page, 'Remove this run');
    await expect.poll(() => has(page)).toMatch(/^H2 Runs/u);

    // The bin: a question in place of a button, the button again, and the heading when a line of it goes.
    await page.getByRole('link', { name: 'Bench book', exact: true }).first().click();
    await press(page, 'Removed: 1');
    await expect.poll(() => has(page)).toBe('H2 Removed');
    await press(page, /^Empty: take/u);
    await expect.poll(() => has(page)).toMatch(/^DIV Their logs and verdicts/u);
    await page.keyboard.press('Tab');
    expect(await has(page)).toBe('BUTTON Take it out');
    await press(page, 'Leave it');
    await expect.poll(() => has(page)).toMatch(/^BUTTON Empty: take/u);
    await press(page, /^Put back Run/u);
    await expect.poll(() => has(page)).toBe('H2 Removed');

    // A copy with something in it, brought back.
    await page.locator('a.book-line').first().click();
    await press(page, 'Remove this unit');
    await page.getByRole('button', { name: 'Bring a copy back' }).focus();
    await page
      .getByLabel('A copy of a book')
      .setInputFiles({ name: 'copy.zip', mimeType: 'application/zip', buffer: copy });
    await page.getByRole('heading', { name: 'What copy.zip would change' }).waitFor();
    await press(page, /^Bring it back|^Close/u);
    await page.getByRole('heading', { name: 'What copy.zip would change' }).waitFor({ state: 'detached' });
    await expect.poll(() => has(page)).toBe('BUTTON Bring a copy back');
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('presses what it is on: Enter judges nothing from a button that does something else', async () => {
    const { page, context } = await app.open();
    const rows = log.split('\n');
    const half = (from: number): string => [rows[0], ...rows.slice(1 + from, 1801 + from)].join('\n');
    await bringIn(page, { name: '1.csv', content: half(0) }, { name: '2.csv', content: half(1800) });
    await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
    await page.getByRole('radio', { name: 'No limits' }).check();
    await page.getByRole('heading', { level: 1, name: 'Nothing to put right' }).waitFor();
    await press(page, 'Both are one run');
    await page.getByText('2 files are read as one run,').waitFor();
    await page.getByRole('heading', { level: 1, name: 'Nothing to put right' }).waitFor();
    await press(page, 'Put the files back');
    await page.getByText('was put back. Nothing of it is kept.').waitFor({ state: 'attached' });
    expect(await page.locator('h1#verdict').count()).toBe(0);
    await context.close();
  });

  it('is left alone where somebody clicks beside everything', async () => {
    const { page, context } = await app.open();
    await page.getByRole('button', { name: 'Try a sample run' }).click();
    await page.mouse.click(4, 300);
    expect(await has(page)).toMatch(/^BODY/u);
    await page.evaluate(() => document.querySelector('main')?.append(document.createElement('hr')));
    await page.waitForTimeout(200);
    expect(await has(page)).toMatch(/^BODY/u);
    await context.close();
  });
});
