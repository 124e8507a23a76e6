import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';
import { sampleRunsInside } from './vite.sample-runs.ts';

const require = createRequire(import.meta.url);
const pdfkit = path.join(path.dirname(require.resolve('pdfkit')), 'pdfkit.browser.mjs');
const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
const here = (file: string): string => path.resolve(import.meta.dirname, file);

/** All that the file needs lies in itself: anything else is refused by the browser. */
const POLICY = [
  "default-src 'none'",
  "script-src 'unsafe-inline' 'wasm-unsafe-eval' blob: data:",
  'worker-src blob: data:',
  "style-src 'unsafe-inline'",
  'img-src data: blob:',
  'font-src data:',
  'connect-src data: blob:',
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');
/** Put in as text: as an attribute of a tag its quotes would be written as entities, which not every reader undoes. */
function headInside(): Plugin {
  const icon = `data:image/svg+xml,${encodeURIComponent(readFileSync('src/app/favicon.svg', 'utf8').trim())}`;
  return {
    name: 'head-inside',
    transformIndexHtml: {
      order: 'pre',
      handler: (html) =>
        html
          .replace('<head>', `<head>\n    <meta http-equiv="Content-Security-Policy" content="${POLICY}" />`)
          .replace('./src/app/favicon.svg', icon),
    },
  };
}

/** The app as one HTML file that is opened from the disk. */
export default defineConfig({
  base: './',
  define: { PROGRAM_VERSION: JSON.stringify(version) },
  resolve: {
    alias: [
      { find: 'pdfkit', replacement: pdfkit },
      // Files beside the page are another site's for a page from the disk: the worker and the sample runs lie inside.
      { find: /^\.\/begin-worker\.ts$/u, replacement: here('src/worker/begin-worker-inside.ts') },
      { find: /^\.\/sample-files\.ts$/u, replacement: here('src/app/sample-files-inside.ts') },
    ],
  },
  plugins: [react(), sampleRunsInside(), headInside(), viteSingleFile({ removeViteModuleLoader: true })],
  // A module from a blob: address is refused in a page from the disk; a classic script is not.
  worker: { format: 'iife' },
  build: {
    outDir: 'dist/single-file',
    emptyOutDir: true,
    target: 'es2023',
    assetsInlineLimit: Infinity,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 20_000,
  },
});
