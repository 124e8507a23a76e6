import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axe, bringIn, startApp, steadyLog, type UnderTest } from './app-under-test.ts';

let app: UnderTest;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.end());

/** A run of an hour that stands at 425 psi. */
const log = steadyLog(425, 3600);

async function limits(page: Page, low: string, high: string): Promise<void> {
  await page.getByRole('radio', { name: 'A band' }).check();
  await page.getByLabel('from (left empty').fill(low);
  await page.getByLabel('to (left empty').fill(high);
  await page.locator('.band-fields select').first().selectOption('psi');
}

/** Brings the run in, keeps limits that it meets as "Type R", and asks for others that it fails. */
async function bringInWithLimitsKept(page: Page): Promise<void> {
  await bringIn(page, { name: 'run.csv', content: log });
  await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
  await limits(page, '420', '440');
  await page.getByLabel('Keep these limits for later as').fill('Type R');
  await page.locator('.keep-limits').getByRole('button', { name: 'Keep' }).click();
  await page.getByText('Kept as “Type R”.').waitFor();
  await limits(page, '400', '420');
}

const NONE = 'no limits, nothing is judged';

describe('a run of the book under other limits', () => {
  it('is judged again by limits that are kept, both verdicts stay, and one step puts the first back', async () => {
    const { page, context, complaints } = await app.open();
    await bringInWithLimitsKept(page);
    await page.getByLabel('Serial of the unit').fill('B-1');
    await page.getByRole('button', { name: 'Judge this run' }).click();
    const verdict = page.locator('h1#verdict');
    await expect.poll(() => verdict.innerText()).toBe('Fails');
    await page.getByText('in this browser’s book').waitFor();
    // From the book, as another day: the sheet is not the one that judged it.
    await page.getByRole('link', { name: 'Bench book', exact: true }).first().click();
    await page.reload();
    await page.locator('a.book-line').first().click();
    await page.locator('a.book-line').first().click();
    await expect.poll(() => verdict.innerText()).toBe('Fails');
    await page.getByRole('heading', { name: 'Judge by other limits' }).click();
    await page.getByLabel('limits of the book').selectOption({ index: 1 });
    expect(await axe(page)).toEqual([]);
    await page.getByRole('button', { name: 'Judge by these' }).click();
    await expect.poll(() => verdict.innerText()).toBe('Passes');
    await page.getByText('Judged by “Type R”, 420 to 440 psi.').waitFor();
    await page.getByText('in this browser’s book').waitFor();
    // It outlasts a reload, and the first verdict is still there.
    await page.reload();
    await expect.poll(() => verdict.innerText()).toBe('Passes');
    await page.getByRole('link', { name: 'Bench book', exact: true }).first().click();
    await page.locator('a.book-line').first().click();
    await page.getByText('2 verdicts').click();
    await page.getByText('this one counts, the earlier ones stay').waitFor();
    await page.locator('a.book-line').first().click();
    await expect.poll(() => verdict.innerText()).toBe('Passes');
    // What it is judged by already is offered no second time.
    await page.getByRole('heading', { name: 'Judge by other limits' }).click();
    // Those that were typed by hand are kept nowhere but in the first verdict: they can be chosen again.
    const choice = page.getByLabel('limits of the book');
    await expect
      .poll(() => choice.locator('option').allInnerTexts())
      .toEqual(['choose', expect.stringMatching(/400 to 420 psi, of an earlier verdict$/u), NONE]);
    expect(await axe(page)).toEqual([]);
    await choice.selectOption({ index: 1 });
    await page.getByRole('button', { name: 'Judge by these' }).click();
    await expect.poll(() => verdict.innerText()).toBe('Fails');
    await page.getByText('in this browser’s book').waitFor();
    await expect
      .poll(() => choice.locator('option').allInnerTexts())
      .toEqual(['choose', expect.stringMatching(/^Type R, 420 to 440 psi/u), NONE]);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('goes back to no limits, after a reload too', async () => {
    const { page, context, complaints } = await app.open();
    await bringInWithLimitsKept(page);
    await page.getByRole('radio', { name: 'No limits' }).check();
    await page.getByRole('button', { name: 'Judge this run' }).click();
    const verdict = page.locator('h1#verdict');
    await expect.poll(() => verdict.innerText()).toBe('Not assessed');
    await page.getByText('in this browser’s book').waitFor();
    const choice = page.getByLabel('limits of the book');
    await page.getByRole('heading', { name: 'Judge by other limits' }).click();
    // By none it is looked at already.
    expect(await choice.locator('option').allInnerTexts()).not.toContain(NONE);
    await choice.selectOption({ index: 1 });
    await page.getByRole('button', { name: 'Judge by these' }).click();
    await expect.poll(() => verdict.innerText()).toBe('Passes');
    await page.getByText('in this browser’s book').waitFor();
    await page.reload();
    await expect.poll(() => verdict.innerText()).toBe('Passes');
    await page.getByRole('heading', { name: 'Judge by other limits' }).click();
    await choice.selectOption(NONE);
    await page.getByRole('button', { name: 'Only look at it' }).click();
    await page.getByText('The run was only looked at, by no limits.').waitFor();
    await expect.poll(() => verdict.innerText()).toBe('Not assessed');
    await page.keyboard.press('Control+z');
    await expect.poll(() => verdict.innerText()).toBe('Passes');
    await page.keyboard.press('Control+Shift+z');
    await expect.poll(() => verdict.innerText()).toBe('Not assessed');
    await page.getByText('in this browser’s book').waitFor();
    await page.reload();
    await expect.poll(() => verdict.innerText()).toBe('Not assessed');
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('goes back in one step of Ctrl Z', async () => {
    const { page, context } = await app.open();
    await bringInWithLimitsKept(page);
    await page.getByRole('button', { name: 'Judge this run' }).click();
    const verdict = page.locator('h1#verdict');
    await expect.poll(() => verdict.innerText()).toBe('Fails');
    await page.getByRole('heading', { name: 'Judge by other limits' }).click();
    await page.getByLabel('limits of the book').selectOption({ index: 1 });
    await page.getByRole('button', { name: 'Judge by these' }).click();
    await expect.poll(() => verdict.innerText()).toBe('Passes');
    await verdict.focus();
    await page.keyboard.press('Control+z');
    await expect.poll(() => verdict.innerText()).toBe('Fails');
    await context.close();
  });
});
