import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { expect } from 'vitest';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright';
import { browserArguments, findBrowser } from '../../scripts/find-browser.mjs';

const require = createRequire(import.meta.url);
const axeSource = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');

export const freePort = (): Promise<number> =>
  new Promise((resolve) => {
    const probe = net.createServer();
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });

/** The built app as `npm start` serves it, its policy included, and a browser. */
export interface UnderTest {
  address: string;
  browser: Browser;
  /**
   * A page in a browser profile in which nothing was kept; what it said and asked for is gathered. Closing the
   * profile clears it and lends it to the next, which finds the program loaded before but nothing else.
   */
  open: (options?: OpenOptions) => Promise<Opened>;
  end: () => Promise<void>;
}
export interface OpenOptions {
  width?: number;
  height?: number;
  night?: boolean;
  /** Runs in the page before anything of the app does. */
  before?: string;
  /** The profile of a page that is open. */
  context?: BrowserContext;
  /** A profile that has never seen the app: for what is proved of a first visit. */
  never?: boolean;
}
export interface Opened {
  page: Page;
  context: BrowserContext;
  /** Everything that a page should not say: errors, refusals of the policy, failed requests. */
  complaints: string[];
  /** Addresses that were asked for, of the page and its workers. */
  asked: string[];
}

export async function startApp(): Promise<UnderTest> {
  const port = await freePort();
  const server = spawn(process.execPath, ['scripts/start.mjs', '--no-open', '--port', String(port)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  await says(server, 'is open at');
  const executablePath = findBrowser() ?? undefined;
  if (executablePath === undefined) throw new Error('no Chrome or Chromium was found');
  const browser = await chromium.launch({ executablePath, args: browserArguments() });
  const address = `http://127.0.0.1:${port}/`;
  const cleared = new Map<string, BrowserContext[]>();
  /** A profile of that window. A new one costs as much as a short test: all its code is fetched and compiled again. */
  async function profile(
    width: number,
    height: number,
    night: boolean,
    never: boolean,
  ): Promise<BrowserContext> {
    const kind = `${width} ${height} ${night}`;
    const free = never ? undefined : cleared.get(kind)?.pop();
    if (free !== undefined) return free;
    const context = await browser.newContext({
      viewport: { width, height },
      colorScheme: night ? 'dark' : 'light',
      reducedMotion: 'reduce',
      acceptDownloads: true,
      timezoneId: 'UTC',
      // Keeping the whole program is a test of its own; here it would only cost time.
      serviceWorkers: 'block',
    });
    if (never) return context;
    // An empty page stays open: what others kept is cleared through it once they are closed and can write no more.
    const empty = await context.newPage();
    const session = await context.newCDPSession(empty);
    // A test that fails closes nothing, and its profile is not used again.
    context.close = async () => {
      context.removeAllListeners('request');
      await Promise.all(
        context
          .pages()
          .filter((page) => page !== empty)
          .map((page) => page.close()),
      );
      await context.unrouteAll({ behavior: 'ignoreErrors' });
      await context.setOffline(false);
      const { origin } = new URL(address);
      await session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'all' });
      cleared.set(kind, [...(cleared.get(kind) ?? []), context]);
    };
    return context;
  }
  return {
    address,
    browser,
    async open({ width = 1280, height = 800, night = false, before, context: given, never = false } = {}) {
      const context = given ?? (await profile(width, height, night, never));
      const page = await context.newPage();
      const complaints: string[] = [];
      const asked: string[] = [];
      page.on('console', (message) => {
        // Blocked above, by us.
        if (message.text().includes('Service Worker registration blocked')) return;
        if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
      });
      page.on('pageerror', (error) => complaints.push(error.message));
      // What the page itself gives up, as when it is loaded anew, is no failure.
      page.on('requestfailed', (request) => {
        if (request.failure()?.errorText !== 'net::ERR_ABORTED') complaints.push(`${request.url()} failed`);
      });
      context.on('request', (request) => asked.push(request.url()));
      if (before !== undefined) await page.addInitScript(before);
      await page.goto(address);
      return { page, context, complaints, asked };
    },
    async end() {
      await browser.close();
      const closed = new Promise((resolve) => server.on('close', resolve));
      server.kill('SIGTERM');
      await closed;
    },
  };
}

const says = (child: ChildProcess, words: string): Promise<void> =>
  new Promise((resolve, reject) => {
    let text = '';
    child.stdout?.on('data', (chunk) => {
      text += String(chunk);
      if (text.includes(words)) resolve();
    });
    child.on('close', () => reject(new Error(`ended without "${words}": ${text}`)));
  });

/** What axe-core finds against WCAG 2.2 AA, one line a finding. */
export async function axe(page: Page): Promise<string[]> {
  // Evaluated, not added as a script: the page's policy refuses that, as it should. Once a page: it is half a megabyte, and quicker the second time.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axeSource);
  return page.evaluate(async () => {
    // What the foot happens to lie on can be scrolled out from under it; for axe it would be a target too small.
    const foot = document.querySelector<HTMLElement>('.foot');
    if (foot !== null) foot.style.position = 'static';
    const { axe } = globalThis as unknown as {
      axe: {
        run: (
          options: object,
        ) => Promise<{ violations: { id: string; nodes: { target: string[]; failureSummary: string }[] }[] }>;
      };
    };
    const result = axe.run({
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    });
    const { violations } = await result;
    foot?.style.removeProperty('position');
    return violations.flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id}: ${target.join(' ')}: ${failureSummary}`),
    );
  });
}

/** A folder of this test file's own. */
export function ownFolder(): { path: string; remove: () => void } {
  const place = mkdtempSync(path.join(os.tmpdir(), 'app-e2e-'));
  return { path: place, remove: () => rmSync(place, { recursive: true, force: true }) };
}

/** Opens a sample run and waits until it was understood. */
export async function understandSample(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Try a sample run' }).click();
  await page.getByRole('button', { name }).click();
  await page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
}
/** … and judges it. */
export async function judgeSample(page: Page, name: string): Promise<void> {
  await understandSample(page, name);
  await page.getByRole('button', { name: 'Judge this run' }).click();
  await page.locator('h1#verdict').waitFor();
  // The verdict stands first; the strip is built under it, and keys that move it count from then on.
  await page.locator('.strip-tab').waitFor({ state: 'attached' });
}

/** Chooses logs as the file chooser would. */
export async function bringIn(
  page: Page,
  ...files: { name: string; content: string | Buffer }[]
): Promise<void> {
  await page
    .locator('input[aria-label="Logs to bring in"]')
    .setInputFiles(
      files.map(({ name, content }) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(content) })),
    );
}

/** The bytes that a click saves. */
export async function saved(
  page: Page,
  click: () => Promise<void>,
): Promise<{ name: string; bytes: Buffer }> {
  const download = page.waitForEvent('download');
  await click();
  const file = await download;
  return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
}

/** Until what was brought in stands there with its questions. */
export const understood = (page: Page): Promise<void> =>
  page.getByRole('heading', { level: 1, name: 'to put right' }).waitFor();
/** Types the band of 400 to 420 psi. */
export async function typeBand(page: Page): Promise<void> {
  await page.getByRole('radio', { name: 'A band' }).check();
  await page.getByLabel('from (left empty').fill('400');
  await page.getByLabel('to (left empty').fill('420');
  await page.locator('.band-fields select').first().selectOption('psi');
}
/** Judges what was brought in, and waits until it is kept. */
export async function judgeAndKeep(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Judge this run' }).click();
  await page.locator('h1#verdict').waitFor();
  await page.getByText('in this browser’s book').waitFor();
}
/** Until the browser has on its disk what was said of logs that are not judged. */
export const unjudgedKept = (page: Page): Promise<void> =>
  expect
    .poll(() => page.evaluate(() => window.dispatchEvent(new Event('beforeunload', { cancelable: true }))), {
      timeout: 20_000,
    })
    .toBe(true);

/** A log at a reading a second whose unit stands at a pressure from the first half minute to the last. */
export function steadyLog(pressure_psi: number, rows: number, seed = 0): string {
  const lines = Array.from({ length: rows }, (_, i) => {
    const engaged = i > 30 && i < rows - 30;
    return `${i},${engaged ? (pressure_psi + ((i * 7 + seed) % 5) / 10).toFixed(1) : '0.0'},61.0`;
  });
  return ['time_s,pressure (psi),oil (°C)', ...lines].join('\n');
}
