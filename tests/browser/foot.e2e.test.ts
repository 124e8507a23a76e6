import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { judgeSample, startApp, type UnderTest } from './app-under-test.ts';

let app: UnderTest;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.end());

/** By how many px something reaches under the foot of the sheet, as the window stands. */
const underFoot = (page: Page, what: string): Promise<number> =>
  page.evaluate((selector) => {
    const box = document.querySelector(selector)?.getBoundingClientRect();
    const foot = document.querySelector('.foot')?.getBoundingClientRect();
    if (box === undefined || foot === undefined) throw new Error(`no ${selector} or no foot`);
    return Math.round(box.bottom - foot.top);
  }, what);

describe('the foot of the run sheet', () => {
  it('leaves the whole run in view that stands beneath a part of it', async () => {
    const { page, context } = await app.open({ width: 1280, height: 800 });
    await judgeSample(page, 'Twenty minutes below');
    await page.keyboard.press('+');
    await page.locator('.strip-whole').waitFor();
    expect(await underFoot(page, '.strip-whole')).toBeLessThanOrEqual(0);
    await page.keyboard.press('0');
    await page.locator('.strip-whole').waitFor({ state: 'detached' });
    expect(await underFoot(page, '.strip-tab')).toBeLessThanOrEqual(0);
    await context.close();
  });

  it('in the hand leaves the whole read-out to be read, however many rows it has', async () => {
    const { page, context } = await app.open({ width: 420, height: 900 });
    await judgeSample(page, 'Twenty minutes below');
    for (const [width, height] of [
      [420, 900],
      [360, 740],
      [600, 900],
    ] as const) {
      await page.setViewportSize({ width, height });
      await page.evaluate(() => document.querySelector('.strip-paper')?.scrollIntoView());
      await expect.poll(() => underFoot(page, '.strip-tab'), { message: `${width}` }).toBeLessThanOrEqual(0);
    }
    await context.close();
  });
});
