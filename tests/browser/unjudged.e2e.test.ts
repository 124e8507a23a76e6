import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  bringIn,
  judgeAndKeep,
  startApp,
  steadyLog,
  typeBand,
  understood,
  unjudgedKept,
  type UnderTest,
} from './app-under-test.ts';

let app: UnderTest;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.end());

/** A short run at a pressure. */
const log = (pressure: number): string => steadyLog(pressure, 1500);

describe('a log that is not judged yet', () => {
  it('is there again after a reload, with what was said of it', async () => {
    const { page, context, complaints } = await app.open();
    await bringIn(page, { name: 'second.csv', content: log(411) });
    await understood(page);
    await page.getByLabel('Serial of the unit').fill('B-0417');
    await typeBand(page);
    await unjudgedKept(page);
    await page.reload();
    await understood(page);
    await page.getByText('second.csv').first().waitFor();
    expect(await page.getByLabel('Serial of the unit').inputValue()).toBe('B-0417');
    expect(await page.getByLabel('from (left empty').inputValue()).toBe('400');
    await judgeAndKeep(page);
    // Judged, it waits no more.
    await unjudgedKept(page);
    await page.reload();
    await page.locator('h1#verdict').waitFor();
    expect(await page.getByRole('link', { name: 'Bring in' }).count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('is offered by a page that is opened later, and gone once it was put back', async () => {
    const { page, context } = await app.open();
    await bringIn(page, { name: 'second.csv', content: log(411) });
    await understood(page);
    await unjudgedKept(page);
    await page.close();
    const { page: later } = await app.open({ context });
    await later.getByRole('heading', { name: 'still empty' }).waitFor();
    await later.getByRole('link', { name: 'Bring in second.csv' }).click();
    await understood(later);
    await later.getByRole('button', { name: 'Put the file back' }).click();
    await later.getByRole('heading', { name: 'still empty' }).waitFor();
    await unjudgedKept(later);
    await later.reload();
    await later.getByRole('button', { name: 'Choose a file' }).waitFor();
    await later.waitForTimeout(500);
    expect(await later.getByRole('link', { name: 'Bring in' }).count()).toBe(0);
    await context.close();
  });

  it('waits with the others that came with it, also where one of them was judged', async () => {
    const { page, context } = await app.open();
    await bringIn(
      page,
      { name: 'one.csv', content: log(410) },
      { name: 'two.csv', content: log(411) },
      { name: 'three.csv', content: log(412) },
    );
    await understood(page);
    await typeBand(page);
    await judgeAndKeep(page);
    await unjudgedKept(page);
    await page.reload();
    await page.locator('h1#verdict').waitFor();
    await page.getByRole('link', { name: 'Bring in two.csv' }).click();
    await understood(page);
    const batch = page.getByRole('list', { name: 'Files brought in together' });
    await expect
      .poll(async () =>
        (await batch.getByRole('listitem').allInnerTexts()).map((text) => text.replaceAll('\n', ' ')),
      )
      .toEqual([
        expect.stringMatching(/one\.csv.*Passes/u),
        'two.csv this one',
        'three.csv waits part of this run',
      ]);
    await context.close();
  });

  it('is asked about before the page is left, where the browser keeps nothing', async () => {
    const { page, context } = await app.open({
      before: "IDBFactory.prototype.open = function () { throw new DOMException('no', 'SecurityError'); };",
    });
    await bringIn(page, { name: 'second.csv', content: log(411) });
    await understood(page);
    const asked: string[] = [];
    page.on('dialog', (dialog) => {
      asked.push(dialog.type());
      void dialog.accept();
    });
    // A browser asks only where somebody has touched the page.
    await page.getByLabel('Serial of the unit').fill('B-0417');
    await page.reload();
    await page.getByRole('button', { name: 'Choose a file' }).waitFor();
    expect(asked).toEqual(['beforeunload']);
    await context.close();
  });
});
