import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axe, judgeSample, startApp, type UnderTest } from './app-under-test.ts';

let app: UnderTest;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.end());

describe('numbers and dates', () => {
  it('are shown as the reader’s browser has them, or as the reader chooses, which is remembered', async () => {
    const context = await app.browser.newContext({
      viewport: { width: 1280, height: 800 },
      locale: 'de-DE',
      reducedMotion: 'reduce',
      timezoneId: 'UTC',
      serviceWorkers: 'block',
    });
    const { page, complaints } = await app.open({ context });
    await judgeSample(page, 'Five over the band');
    const sheet = page.locator('article.sheet');
    await expect.poll(() => sheet.innerText()).toMatch(/425,\d/u);
    expect(await sheet.innerText()).not.toMatch(/\d\.\d psi/u);
    // The sentences of limits and remarks, too.
    const reasons = await page.locator('.reasons').innerText();
    expect(reasons).toMatch(/5,\d\spsi above the band/u);
    expect(reasons).not.toMatch(/\d\.\d/u);

    await page.getByRole('button', { name: 'Numbers and dates' }).click();
    const dialog = page.getByRole('dialog', { name: 'Numbers and dates' });
    await dialog.waitFor();
    expect(await dialog.innerText()).toContain('425,1 psi, 31.12.2026');
    expect(await axe(page)).toEqual([]);
    await page.getByRole('radio', { name: 'point, 425.1' }).check();
    await page.getByRole('radio', { name: 'year-month-day' }).check();
    expect(await dialog.innerText()).toContain('425.1 psi, 2026-12-31');
    await page.keyboard.press('Escape');
    await expect.poll(() => sheet.innerText()).toMatch(/425\.\d/u);
    // Focus goes back to where it came from, and a reload keeps the choice.
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('Numbers and dates');
    await page.reload();
    await expect.poll(() => sheet.innerText()).toMatch(/425\.\d/u);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
