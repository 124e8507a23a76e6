import { readdirSync, readFileSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

const require = createRequire(import.meta.url);
// pdfkit's Node build cannot be bundled and writes other bytes than its browser build: the browser build is used everywhere.
const pdfkit = path.join(path.dirname(require.resolve('pdfkit')), 'pdfkit.browser.mjs');
const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };

interface SampleRun {
  log: string;
  spec: string;
  rig: string | null;
  odd: string;
  verdict: string;
}
/** Larger logs stay out of the app. */
const SAMPLE_AT_MOST_BYTES = 1_000_000;

/** Puts the sample runs, with a list of them, beside the app: they are the same files that the tests judge. */
function sampleRuns(): Plugin {
  return {
    name: 'sample-runs',
    apply: 'build',
    generateBundle() {
      const { runs } = JSON.parse(readFileSync('sample-runs/expected.json', 'utf8')) as { runs: SampleRun[] };
      const units = readdirSync('sample-runs/units').map((name) => ({
        name,
        text: readFileSync(`sample-runs/units/${name}`, 'utf8'),
      }));
      const emit = (fileName: string, source: string | Uint8Array): void =>
        void this.emitFile({ type: 'asset', fileName: `sample-runs/${fileName}`, source });
      const offered = runs.filter(
        (run) => statSync(`sample-runs/logs/${run.log}`).size <= SAMPLE_AT_MOST_BYTES,
      );
      const list = offered.map(({ log, spec, rig, odd, verdict }) => {
        const serial = /unit (\S+?),/u.exec(
          readFileSync(`sample-runs/logs/${log}`, 'utf8').slice(0, 200),
        )?.[1];
        const unit = serial === undefined ? null : units.find(({ text }) => text.includes(`"${serial}"`));
        return { log, spec, rig, unit: unit?.name ?? null, odd, verdict };
      });
      for (const name of new Set(list.map((run) => run.log)))
        emit(`logs/${name}`, readFileSync(`sample-runs/logs/${name}`));
      for (const name of new Set(list.map((run) => run.spec)))
        emit(`specs/${name}`, readFileSync(`sample-runs/specs/${name}`));
      for (const name of new Set(list.flatMap((run) => run.rig ?? [])))
        emit(`rigs/${name}`, readFileSync(`sample-runs/rigs/${name}`));
      for (const { name, text } of units) emit(`units/${name}`, text);
      emit('list.json', `${JSON.stringify({ runs: list }, null, 2)}\n`);
    },
  };
}

export default defineConfig({
  base: './',
  define: { PROGRAM_VERSION: JSON.stringify(version) },
  resolve: { alias: { pdfkit } },
  plugins: [react(), sampleRuns()],
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
