import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { icons } from './vite.icons.ts';
import { sampleRunsBeside } from './vite.sample-runs.ts';

const require = createRequire(import.meta.url);
// pdfkit's Node build cannot be bundled and writes other bytes than its browser build: the browser build is used everywhere.
const pdfkit = path.join(path.dirname(require.resolve('pdfkit')), 'pdfkit.browser.mjs');
const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };

export default defineConfig({
  base: './',
  define: { PROGRAM_VERSION: JSON.stringify(version) },
  resolve: { alias: { pdfkit } },
  plugins: [
    react(),
    sampleRunsBeside(),
    icons(),
    // Everything is kept at the first visit, so that the app opens without the server. It is registered by src/app/offline.ts.
    VitePWA({
      registerType: 'prompt',
      injectRegister: false,
      manifest: {
        name: 'Overdrive bench book',
        short_name: 'Bench book',
        description:
          'Judges the runs of rebuilt overdrive units against their pressure band, and keeps them.',
        lang: 'en',
        start_url: './',
        display: 'standalone',
        background_color: '#e4e9e2',
        theme_color: '#e4e9e2',
        icons: [
          { src: 'icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: 'icon-512.png', sizes: '512x512', type: 'image/png' },
        ],
      },
      workbox: {
        globPatterns: ['**/*.{js,css,html,svg,png,woff,wasm,icc,json,csv}'],
        maximumFileSizeToCacheInBytes: 8_000_000,
        cleanupOutdatedCaches: true,
      },
    }),
  ],
  worker: { format: 'es' },
  build: {
    outDir: 'dist/app',
    emptyOutDir: true,
    target: 'es2023',
    // Letters and pictures stay files: a data: address is neither a style's nor a request's business under the page's policy.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 1200,
  },
});
