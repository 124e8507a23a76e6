import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { playwright } from '@vitest/browser-playwright';
import { defineConfig } from 'vitest/config';
import { browserArguments, findBrowser } from './scripts/find-browser.mjs';

// pdfkit's Node build cannot be bundled and writes other bytes than its browser build: the browser build is used everywhere.
const pdfkit = path.join(
  path.dirname(createRequire(import.meta.url).resolve('pdfkit')),
  'pdfkit.browser.mjs',
);
const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };

/** A missing browser must fail the run: left out, it would be a green run with fewer tests. */
const NO_BROWSER = '/no Chrome or Chromium was found: install one or set CHROME_PATH';

export default defineConfig({
  define: { PROGRAM_VERSION: JSON.stringify(version) },
  resolve: { alias: { pdfkit } },
  test: {
    // Most of a browser test is waiting: two files at a time also where there are only two cores.
    maxWorkers: 2,
    projects: [
      {
        extends: true,
        test: {
          name: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**'],
          environment: 'node',
          testTimeout: 60_000,
          hookTimeout: 120_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.browser.test.{ts,tsx}'],
          testTimeout: 60_000,
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            provider: playwright({
              launchOptions: { executablePath: findBrowser() ?? NO_BROWSER, args: browserArguments() },
            }),
            instances: [{ browser: 'chromium' }],
          },
        },
      },
      {
        extends: true,
        test: {
          name: 'e2e',
          include: ['tests/browser/**/*.e2e.test.ts'],
          environment: 'node',
          globalSetup: './scripts/app-for-tests.mjs',
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
