import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axe, bringIn, judgeSample, saved, startApp, type UnderTest } from './app-under-test.ts';

let app: UnderTest;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.end());

const sideways = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
/** Where something stands in the window. */
const boxOf = (page: Page, what: string): Promise<{ top: number; bottom: number; width: number }> =>
  page.evaluate((selector) => {
    const box = document.querySelector(selector)?.getBoundingClientRect();
    if (box === undefined) throw new Error(`there is no ${selector}`);
    const { top, bottom, width } = box;
    return { top, bottom, width };
  }, what);

/** Says what is fitted and what a millimetre does, and waits for the advice. */
async function filledCard(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Set the relief' }).click();
  await page.getByRole('heading', { name: 'What is fitted now?' }).waitFor();
  await page.getByLabel('Shims in it').fill('1.00 + 0.45');
  await page.getByLabel('One mm gives').first().fill('33');
  for (const [index, text] of ['0.50', '3', '1.00', '4'].entries()) {
    if (index % 2 === 0) await page.getByRole('button', { name: 'Add a thickness' }).click();
    await page.locator('.stock input').nth(index).fill(text);
  }
  await page.getByRole('button', { name: 'Keep', exact: true }).click();
  await page.locator('.relief-row.best').waitFor();
}

describe('the foot of the run sheet at 768', () => {
  it.each(['Five over the band', 'Gauge noisier than the band'])('is one row: %s', async (name) => {
    const { page, context } = await app.open({ width: 768, height: 1024 });
    await judgeSample(page, name);
    const tops = await page.evaluate(() =>
      [...document.querySelectorAll('.run-foot > *')].map((each) => {
        const { top, bottom } = each.getBoundingClientRect();
        return (top + bottom) / 2;
      }),
    );
    expect(tops.length).toBeGreaterThan(3);
    expect(Math.max(...tops) - Math.min(...tops)).toBeLessThan(6);
    expect(await sideways(page)).toBe(0);
    await context.close();
  });
});

describe('the strip of an undecided run with long names', () => {
  it('stands with its read-out above the foot at 1280 × 800', async () => {
    const { page, context } = await app.open({ width: 1280, height: 800 });
    await judgeSample(page, 'Gauge noisier than the band');
    expect((await boxOf(page, '.form-line')).bottom).toBeGreaterThan(120);
    const tab = await boxOf(page, '.strip-tab');
    expect(tab.bottom).toBeLessThanOrEqual((await boxOf(page, '.foot')).top);
    await context.close();
  });
});

describe('names and notes that are one long word, at 420', () => {
  it('break before the page scrolls sideways', async () => {
    const { page, context } = await app.open({
      width: 420,
      height: 800,
      before: 'delete window.showSaveFilePicker;',
    });
    const long = 'W'.repeat(160);
    await bringIn(page, { name: `${long}.csv`, content: 'no,table' });
    await page.getByRole('heading', { level: 1, name: 'It could not be read' }).waitFor();
    expect(await sideways(page)).toBe(0);
    const rows = Array.from({ length: 1200 }, (_, i) => `${i},${i < 30 ? 0 : 410 + (i % 3) / 10}`);
    await bringIn(page, { name: `${long}.csv`, content: ['time_s,pressure (psi)', ...rows].join('\n') });
    await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
    expect(await sideways(page)).toBe(0);
    const toBook = (): Promise<void> =>
      page.getByRole('link', { name: 'Bench book', exact: true }).first().click();
    await toBook();
    const waiting = page.getByRole('link', { name: /^Bring in WWW/u });
    await waiting.waitFor();
    expect(await sideways(page)).toBe(0);
    await waiting.click();
    await page.getByRole('radio', { name: 'No limits' }).check();
    await page.getByLabel('Serial of the unit').fill('B-1');
    await page.getByRole('button', { name: 'Judge this run' }).click();
    await page.locator('h1#verdict').waitFor();
    await page.getByText('in this browser’s book').waitFor();
    expect(await sideways(page)).toBe(0);
    await toBook();
    const copy = await saved(page, () =>
      page.getByRole('button', { name: 'Put a copy aside', exact: true }).click(),
    );
    await page.locator('a.book-line').click();
    await page.locator('.run-notes summary').click();
    await page.getByLabel('Note on this run').fill(long);
    await page.getByRole('button', { name: 'Keep', exact: true }).first().click();
    await page.getByText(/^Note on WWW.* kept/u).waitFor();
    expect(await sideways(page)).toBe(0);
    await toBook();
    await page
      .getByLabel('A copy of a book')
      .setInputFiles({ name: `${long}.zip`, mimeType: 'application/zip', buffer: copy.bytes });
    await page.getByRole('heading', { name: /would change/u }).waitFor();
    expect(await sideways(page)).toBe(0);
    await context.close();
  });
});

describe('the relief card', () => {
  it('says at the top which run it is for, gives its title the width at 768, and prints its limits', async () => {
    const { page, context, complaints } = await app.open({ width: 768, height: 1024, night: true });
    await judgeSample(page, 'Five over the band');
    await filledCard(page);
    const link = page.locator('.top-line a .run-name');
    expect(await link.innerText()).toMatch(/five-over-the-band\.csv$/u);
    expect((await boxOf(page, '.relief-head h1')).width).toBeGreaterThan(500);
    // The scale's words stand apart.
    const words = await page.evaluate(() =>
      [...document.querySelectorAll('.relief-axis .relief-pic > *')]
        .map((each) => each.getBoundingClientRect())
        .sort((a, b) => a.left - b.left)
        .map(({ left, right }) => [left, right] as const),
    );
    expect(words.length).toBeGreaterThan(2);
    for (const [index, [left]] of words.entries())
      if (index > 0) expect(left).toBeGreaterThan(words[index - 1]?.[1] ?? Infinity);
    expect(await sideways(page)).toBe(0);
    expect(await axe(page)).toEqual([]);

    await page.emulateMedia({ media: 'print' });
    const printed = (what: string): Promise<string> =>
      page
        .locator(what)
        .first()
        .evaluate((each) => getComputedStyle(each).printColorAdjust);
    expect(await printed('.ground-limit')).toBe('exact');
    expect(await printed('.relief-whisker .whisker')).toBe('exact');
    expect(await page.getByRole('button', { name: 'Fitted this' }).count()).toBe(0);
    expect(await page.getByText('Relief and shims kept.').isVisible()).toBe(false);
    await page.emulateMedia({ media: 'screen' });

    // A name that is too long gives way, and says all of itself when it is pointed at.
    await page.setViewportSize({ width: 420, height: 900 });
    expect(await sideways(page)).toBe(0);
    expect(await link.getAttribute('title')).toBe(await link.innerText());
    expect(complaints).toEqual([]);
    await context.close();
  });
});

describe('the foot of a place with little in it', () => {
  it.each([
    [1280, 800],
    [768, 1024],
    [420, 900],
  ])('stands at the lower edge of the window, %i × %i', async (width, height) => {
    const { page, context } = await app.open({ width, height });
    await judgeSample(page, 'Clean pass');
    await page.getByRole('link', { name: 'Bench book' }).click();
    await page.locator('a.book-line').first().waitFor();
    expect((await boxOf(page, '.foot')).bottom).toBeCloseTo(height, 0);
    const scrolls = await page.evaluate(
      () => document.documentElement.scrollHeight - document.documentElement.clientHeight,
    );
    expect(scrolls).toBe(0);
    await context.close();
  });
});

describe('the key table', () => {
  it.each([
    [420, 700],
    // 200 % zoom of a window of 1280.
    [640, 400],
  ])('opens at its top and can be called up by hand, %i wide', async (width, height) => {
    const { page, context } = await app.open({ width, height });
    await page.getByRole('button', { name: 'Keys' }).click();
    const title = page.getByRole('dialog').getByRole('heading', { name: 'Keys' });
    await title.waitFor();
    expect(await title.evaluate((each) => each === document.activeElement)).toBe(true);
    expect((await boxOf(page, 'dialog[open] h2')).top).toBeGreaterThan(0);
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('INPUT');
    expect(await axe(page)).toEqual([]);
    await context.close();
  });
});
