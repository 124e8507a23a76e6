import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bringIn, judgeSample, startApp, understandSample, type UnderTest } from './app-under-test.ts';

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
  it('leaves the time of day whole under the times of a part', async () => {
    const { page, context } = await app.open({ width: 1280, height: 800 });
    await judgeSample(page, 'Clean pass');
    await page.keyboard.press('+');
    await page.locator('.strip-whole').waitFor();
    const tab = await page.locator('.strip-tab').boundingBox();
    const times = await page.getByText(/^\d{2}:\d{2}:00$/u).all();
    expect(times.length).toBeGreaterThan(2);
    for (const time of times) {
      const box = await time.boundingBox();
      expect((box?.y ?? NaN) + (box?.height ?? NaN)).toBeLessThanOrEqual(tab?.y ?? NaN);
    }
    await context.close();
  });

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
    // A shelf from edge to edge that stands on the foot, which is one row: nothing of the strip shows beside it or between.
    await page.setViewportSize({ width: 420, height: 900 });
    await page.evaluate(() => window.scrollTo(0, 100));
    await expect.poll(() => underFoot(page, '.strip-tab-row')).toBe(0);
    const shelf = await page.locator('.strip-tab-row').boundingBox();
    expect(shelf).toMatchObject({ x: 0, width: 420 });
    expect((await page.locator('.foot').boundingBox())?.height).toBeLessThan(90);
    await context.close();
  });

  it('as a slip that asks for the reason leaves the strip in view, with its read-out', async () => {
    const { page, context } = await app.open({ width: 1280, height: 800 });
    await judgeSample(page, 'Five over the band');
    await page.keyboard.press(']');
    await page.keyboard.press('Shift+ArrowRight');
    await page.locator('.slip').waitFor();
    expect(await underFoot(page, '.strip-tab')).toBeLessThanOrEqual(0);
    await context.close();
  });

  it('leaves the list of what was set aside in view, beneath the strip that it points into', async () => {
    for (const [width, height] of [
      [1280, 800],
      [420, 900],
    ] as const) {
      const { page, context } = await app.open({ width, height });
      await judgeSample(page, 'Spikes and dropouts');
      await page.getByRole('button', { name: '63 set aside' }).click();
      const list = page.getByRole('group', { name: 'Readings set aside' });
      await list.getByText('12 fault tokens').click();
      await expect.poll(() => underFoot(page, '.strip-set-aside')).toBeLessThanOrEqual(0);
      await list.getByRole('button').nth(8).click();
      await expect
        .poll(() =>
          page
            .locator('.strip-tab')
            .innerText()
            .then((text) => text.includes('set aside: fault')),
        )
        .toBe(true);
      // The cursor stands where it can be seen: its hairline lies between the window's top and the read-out.
      const line = width > 640 ? '.u-cursor-x' : '.u-cursor-x, .u-cursor-y';
      const seen = await page.evaluate((selector) => {
        const boxes = [...document.querySelectorAll(`.strip ${selector}`)].map((each) =>
          each.getBoundingClientRect(),
        );
        const tab = document.querySelector('.strip-tab')?.getBoundingClientRect();
        return boxes.some((box) => box.top >= 0 && tab !== undefined && box.top <= tab.top);
      }, line);
      expect(seen, String(width)).toBe(true);
      await context.close();
    }
  });

  it('leads to the concession where a limit failed; given, it stands under the verdict, which stays', async () => {
    const { page, context, complaints } = await app.open();
    await judgeSample(page, 'Clean pass');
    expect(await page.getByRole('button', { name: 'Deliver with a concession' }).count()).toBe(0);
    await page.getByRole('link', { name: 'Bench book' }).click();
    await judgeSample(page, 'Five over the band');
    await page.getByRole('button', { name: 'Deliver with a concession' }).waitFor();
    await page.keyboard.press('c');
    const why = page.getByLabel('Why it goes out all the same');
    await expect.poll(() => why.evaluate((each) => each === document.activeElement)).toBe(true);
    await page.keyboard.type('customer wants it firm');
    await page.getByLabel('Agreed by').fill('E. Example');
    await page.getByLabel('Agreed on').fill('2026-03-09');
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the record as PDF' }).click();
    await download;
    await page.getByRole('button', { name: 'Back to the run sheet' }).click();
    await page
      .getByText(/^Delivered with a concession: customer wants it firm, E\. Example, March 9/u)
      .waitFor();
    expect(await page.locator('h1#verdict').innerText()).toBe('Fails');
    // One step puts it back, and makes it again; the book follows.
    const given = page.locator('.concession');
    await page.keyboard.press('Control+z');
    await given.waitFor({ state: 'detached' });
    await page.keyboard.press('Control+Shift+z');
    await given.waitFor();
    await page.getByText('in this browser’s book').waitFor();
    await page.reload();
    await given.waitFor();
    // After a reload it is taken back by its own button, and that is a step too.
    await given.getByRole('button', { name: 'Take it back' }).click();
    await given.waitFor({ state: 'detached' });
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('verdict');
    await page.keyboard.press('Control+z');
    await given.waitFor();
    await page.keyboard.press('Control+Shift+z');
    await given.waitFor({ state: 'detached' });
    await page.getByText('in this browser’s book').waitFor();
    await page.reload();
    await page.locator('h1#verdict').waitFor();
    expect(await given.count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });
});

describe('a key that is pressed as soon as the verdict can be read', () => {
  it('is done once the strip under it stands', async () => {
    const { page, context } = await app.open();
    await understandSample(page, 'Five over the band');
    // In the very task in which the verdict comes, before anything is built under it.
    await page.evaluate(() => {
      new MutationObserver((_changes, observer) => {
        if (document.getElementById('verdict') === null) return;
        observer.disconnect();
        Object.assign(globalThis, { early: document.querySelector('.strip') === null });
        for (const key of ['+', '+'])
          document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
      }).observe(document.body, { childList: true, subtree: true });
    });
    await page.getByRole('button', { name: 'Judge this run' }).click();
    await page.locator('.strip-whole').waitFor();
    expect(await page.evaluate(() => Reflect.get(globalThis, 'early'))).toBe(true);
    // Two steps closer: a quarter of six hours or less.
    const from = await page.getByLabel('from', { exact: true }).inputValue(),
      to = await page.getByLabel('to', { exact: true }).inputValue();
    const hours = (text: string): number =>
      text.split(':').reduce((sum, part, index) => sum + Number(part) / 60 ** index, 0);
    expect(hours(to) - hours(from)).toBeLessThan(2);
    await context.close();
  });

  it('goes to the place that was asked for just before, while that is being built', async () => {
    const { page, context } = await app.open();
    await judgeSample(page, 'Five over the band');
    // A book with a search line.
    await page.getByRole('link', { name: 'Bench book' }).click();
    await page.getByLabel('Find a unit').waitFor();
    await page.goBack();
    await page.locator('h1#verdict').waitFor();
    // Typed faster than any place is built: to the book, to its search line, a serial.
    const found = await page.evaluate(async () => {
      const old = document.getElementById('verdict');
      const press = (key: string): boolean =>
        document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
      press('b');
      // What the page does at once is done, nothing of what it does bit by bit.
      for (let turn = 0; turn < 20; turn++) await Promise.resolve();
      const stood = old?.isConnected === true;
      press('/');
      const search = document.activeElement?.getAttribute('type') ?? '';
      return { stood, left: old?.isConnected === false, search };
    });
    expect(found).toEqual({ stood: true, left: true, search: 'search' });
    await context.close();
  });
});

describe('a log that was begun', () => {
  it('is the next one on the run sheet, and a second press does nothing more', async () => {
    const { page, context } = await app.open();
    await judgeSample(page, 'Five over the band');
    const content = await page.evaluate(async () => (await fetch('sample-runs/logs/clean-pass.csv')).text());
    const short = content.split('\n').slice(0, 4000).join('\n');
    await bringIn(page, ...['a', 'b', 'c'].map((name) => ({ name: `${name}.csv`, content: short })));
    await page.getByText(/^a\.csv holds/u).waitFor();
    await page.goBack();
    await page.getByRole('button', { name: 'Next: a.csv' }).evaluate(async (button: HTMLElement) => {
      for (let press = 0; press < 2; press++) {
        button.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true }));
        button.click();
        // What the page does at once is done, nothing of what it does bit by bit.
        for (let turn = 0; turn < 20; turn++) await Promise.resolve();
      }
    });
    await page.getByText(/^a\.csv holds/u).waitFor();
    const list = await page.locator('main').innerText();
    expect(list).toMatch(/a\.csv\s+this one\s+b\.csv\s+waits/u);
    await context.close();
  });
});
