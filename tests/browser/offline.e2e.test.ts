import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import type { Server } from 'node:http';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createAppServer } from '../../scripts/app-server.mjs';
import { buildSingleFile } from '../../scripts/build-single-file.mjs';
import { freePort, judgeSample, ownFolder, saved, startApp, type UnderTest } from './app-under-test.ts';

let app: UnderTest;
const folder = ownFolder();
beforeAll(async () => {
  app = await startApp();
});
afterAll(async () => {
  await app.end();
  folder.remove();
});

const emptyBook = (page: Page): Promise<void> =>
  page.getByRole('heading', { name: 'The book is still empty' }).waitFor();
/** Everything that a shop does with a run, each part of it loaded when it is first asked for. */
async function judgesAndSaves(page: Page): Promise<void> {
  await judgeSample(page, 'Five over the band');
  expect(await page.locator('h1#verdict').innerText()).toBe('Fails');
  await page.getByRole('button', { name: 'Make the delivery record' }).click();
  await page.getByRole('img', { name: 'Page 1 of' }).waitFor();
  const record = await saved(page, () =>
    page.getByRole('button', { name: 'Save the record as PDF' }).click(),
  );
  expect(record.bytes.subarray(0, 5).toString('latin1')).toBe('%PDF-');
  const png = await saved(page, () =>
    page.getByRole('button', { name: 'Save the chart as PNG', exact: true }).click(),
  );
  expect(png.bytes.subarray(1, 4).toString('latin1')).toBe('PNG');
}

/** What the browser has of the program: `activated` when all of it is kept, `waiting` when a newer one is. */
const keeping = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    return registration?.waiting ? 'waiting' : (registration?.active?.state ?? 'nothing');
  });
const untilKept = (page: Page, state: string): Promise<void> =>
  expect.poll(() => keeping(page), { timeout: 30_000 }).toBe(state);

/** A copy of the app on a server of its own, which can be changed and stopped. */
async function ownServer(): Promise<{ address: string; files: string; stop: () => Promise<void> }> {
  const files = path.join(folder.path, `app-${Math.random()}`);
  cpSync('dist/app', files, { recursive: true });
  const port = await freePort();
  const server: Server = createAppServer(files, port);
  await new Promise<void>((ready) => server.listen(port, '127.0.0.1', () => ready()));
  return {
    address: `http://127.0.0.1:${port}/`,
    files,
    stop: () =>
      new Promise((ended) => {
        server.closeAllConnections();
        server.close(() => ended());
      }),
  };
}

describe('without the server', () => {
  it('opens, judges a sample run and makes its record and pictures after one visit', async () => {
    const { address, stop } = await ownServer();
    const context = await app.browser.newContext({ acceptDownloads: true });
    const page = await context.newPage();
    await page.goto(address);
    await emptyBook(page);
    await untilKept(page, 'activated');
    await stop();
    await page.goto('about:blank');
    await page.goto(address);
    await judgesAndSaves(page);
    await context.close();
  });

  it('can be installed: named, with marks, and a start of its own', async () => {
    const { address, stop } = await ownServer();
    const context = await app.browser.newContext();
    const page = await context.newPage();
    await page.goto(address);
    const session = await context.newCDPSession(page);
    const { errors, url } = await session.send('Page.getAppManifest');
    expect(errors).toEqual([]);
    expect(url).toBe(`${address}manifest.webmanifest`);
    const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
    // A profile that is thrown away installs nothing; that is all it may find.
    expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual(
      [],
    );
    await context.close();
    await stop();
  });
});

describe('a newer program', () => {
  it('never loads a page anew that is in use; it comes once no page is open any more', async () => {
    const { address, files, stop } = await ownServer();
    const context = await app.browser.newContext();
    const page = await context.newPage();
    await page.goto(address);
    await emptyBook(page);
    await untilKept(page, 'activated');
    await page.reload();
    await judgeSample(page, 'Five over the band');
    await page.evaluate(() => Object.assign(globalThis, { mark: 'in use' }));

    // The server has another version: its page says so in its title.
    const html = path.join(files, 'index.html');
    writeFileSync(html, readFileSync(html, 'utf8').replace('<body>', '<body data-version="newer">'));
    const keeper = path.join(files, 'sw.js');
    writeFileSync(
      keeper,
      readFileSync(keeper, 'utf8').replace(/(url:"index\.html",revision:")\w+/u, '$1newer'),
    );
    await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
    await untilKept(page, 'waiting');
    expect(await page.evaluate(() => (globalThis as unknown as { mark?: string }).mark)).toBe('in use');
    await page.getByRole('link', { name: 'Bench book' }).click();
    await page.getByText('A newer version comes once this page is closed and opened again.').waitFor();

    // A second page leaves the first alone.
    const second = await context.newPage();
    await second.goto(address);
    await second.getByRole('button', { name: 'Night paper' }).waitFor();
    expect(await second.locator('body').getAttribute('data-version')).toBeNull();
    expect(await page.evaluate(() => (globalThis as unknown as { mark?: string }).mark)).toBe('in use');
    await second.close();

    // Loaded anew it is still the same program, whole.
    await page.reload();
    await page.getByText('five-over-the-band').first().waitFor();
    expect(await page.locator('body').getAttribute('data-version')).toBeNull();

    // Closed, and opened again; the browser may need a moment to see that no page is open.
    await page.close();
    const again = async (): Promise<string | null> => {
      const next = await context.newPage();
      await next.goto(address);
      await next.getByText('five-over-the-band').first().waitFor();
      const version = await next.locator('body').getAttribute('data-version');
      await next.close();
      return version;
    };
    await expect.poll(again, { timeout: 60_000, interval: 500 }).toBe('newer');
    await context.close();
    await stop();
  });
});

describe('the app as one file', () => {
  it('opens from the disk, asks for nothing, judges, saves, and keeps its book over a reload', async () => {
    const file = path.join(folder.path, 'overdrive-bench.html');
    await buildSingleFile(file);
    const context = await app.browser.newContext({ acceptDownloads: true });
    const page = await context.newPage();
    const complaints: string[] = [];
    const asked: string[] = [];
    page.on('console', (message) => {
      if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(error.message));
    context.on('request', (request) => asked.push(request.url()));
    const address = pathToFileURL(file).href;
    await page.goto(address);
    await emptyBook(page);
    await judgesAndSaves(page);
    await page.reload();
    await page.getByRole('link', { name: 'Bench book' }).click();
    await page.getByText('five-over-the-band').first().waitFor();
    expect(complaints).toEqual([]);
    expect(asked.filter((url) => !/^(?:blob|data):/u.test(url))).toEqual([address, address]);
    await context.close();
  });
});
