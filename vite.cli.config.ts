import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { defineConfig } from 'vite';

// pdfkit's Node build cannot be bundled and writes other bytes than its browser build: the browser build is used everywhere.
const pdfkit = path.join(
  path.dirname(createRequire(import.meta.url).resolve('pdfkit')),
  'pdfkit.browser.mjs',
);
const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };

/** The command line as one file that needs nothing beside it. */
export default defineConfig({
  define: { PROGRAM_VERSION: JSON.stringify(version) },
  resolve: { alias: { pdfkit } },
  ssr: { noExternal: true },
  publicDir: false,
  build: {
    ssr: 'src/cli/main.ts',
    target: 'node20',
    minify: false,
    rolldownOptions: { output: { entryFileNames: 'overdrive-bench.mjs', codeSplitting: false } },
  },
});
