// Looking for spikes in a column of two levels, as a cycled solenoid makes it, against a steady one: as many readings, the same
// windows. A search that walks from level to level would take many times as long. The runs of the two are interleaved, each in a
// process of its own order; BENCH_ROWS takes fewer rows, BENCH_PAIRS more pairs.
import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'vite';

const ROWS = Number(process.env.BENCH_ROWS ?? 2_160_000);
const PAIRS = Number(process.env.BENCH_PAIRS ?? 5);
const RATE_Hz = 100;
const folder = mkdtempSync(path.join(os.tmpdir(), 'overdrive-bench-'));

/** Seeded noise between −1 and 1: a linear congruence is random enough to be looked through. */
function noise(seed) {
  let state = seed;
  return () => (state = (Math.imul(state, 1664525) + 1013904223) | 0) / 2 ** 31;
}
function column(value) {
  const next = noise(5);
  return Float64Array.from(
    { length: ROWS },
    (_, i) => Math.round(10 * (value(i / RATE_Hz) + next() + next())) / 10,
  );
}
const middle = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];

try {
  await build({
    configFile: false,
    logLevel: 'error',
    root: process.cwd(),
    build: {
      ssr: 'src/signal/hampel.ts',
      outDir: folder,
      emptyOutDir: true,
      target: 'node20',
      minify: false,
      rollupOptions: { output: { entryFileNames: 'hampel.mjs' } },
    },
    ssr: { noExternal: true },
  });
  const { hampel } = await import(pathToFileURL(path.join(folder, 'hampel.mjs')).href);
  const time_s = Float64Array.from({ length: ROWS }, (_, i) => i / RATE_Hz);
  // Ten seconds on, ten seconds off; the floor is the same, so that as many readings of each are looked at in full.
  const steady = column(() => 900),
    cycled = column((t) => (t % 20 < 10 ? 900 : 0));
  const take = (values) => {
    globalThis.gc?.();
    // A copy: what is known of a column that was looked through before does not count.
    const fresh = values.slice();
    const from = performance.now();
    hampel(time_s, fresh, { resolution: 0.1 });
    return performance.now() - from;
  };
  take(steady);
  take(cycled);
  const pairs = Array.from({ length: PAIRS }, () => ({ cycled: take(cycled), steady: take(steady) }));
  console.log(
    JSON.stringify({
      what: `despike of a column of two levels ÷ of a steady one (${ROWS} rows; goal ≤ 3)`,
      ratio: middle(pairs.map((pair) => pair.cycled / pair.steady)),
      of: `${Math.round(middle(pairs.map((pair) => pair.cycled)))} ms`,
      to: `${Math.round(middle(pairs.map((pair) => pair.steady)))} ms`,
      pairs: PAIRS,
    }),
  );
} finally {
  rmSync(folder, { recursive: true, force: true });
}
