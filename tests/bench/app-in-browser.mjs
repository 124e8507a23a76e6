// The built app, served by the program's own way, and a Chromium to look at it with.
import { spawn } from 'node:child_process';
import net from 'node:net';
import { chromium } from 'playwright';
import { buildApp, isStale } from '../../scripts/build-app.mjs';
import { browserArguments, findBrowser } from '../../scripts/find-browser.mjs';

const freePort = () =>
  new Promise((resolve) => {
    const probe = net.createServer();
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });

/** Builds the app where that is due, serves it and starts a browser; `end` stops both. */
export async function appInBrowser() {
  if (isStale()) await buildApp({ quiet: true });
  const port = await freePort();
  const server = spawn(process.execPath, ['scripts/start.mjs', '--no-open', '--port', String(port)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  await new Promise((resolve, reject) => {
    server.stdout.on('data', (chunk) => String(chunk).includes('is open at') && resolve());
    server.on('close', () => reject(new Error('the app did not start')));
  });
  const executablePath = findBrowser() ?? undefined;
  const browser = await chromium.launch({ executablePath, args: browserArguments() });
  return {
    address: `http://127.0.0.1:${port}/`,
    browser,
    end: async () => {
      await browser.close();
      server.kill('SIGTERM');
    },
  };
}
