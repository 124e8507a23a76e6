// Advice, from the assessment of a run and a trail of settings: what the relief card waits for beside the reading of the log.
import { runnerImport } from 'vite';

const root = new URL('../../', import.meta.url).pathname;
const from = async (file) => (await runnerImport(`${root}${file}`, { logLevel: 'error' })).module;
const { advise } = await from('src/relief/advise.ts');
const { assessedAt } = await from('tests/relief/sample-assessment.ts');
const RUNS = Number(process.env.BENCH_RUNS ?? 7);
const middle = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];

const relief = (kinds, count) => ({
  format: 'overdrive-bench/relief',
  version: 1,
  pressurePerShim: { value: 22, unit: 'psi/mm', standardUncertainty: 1.2 },
  repeatability: { standardUncertainty: 1.5, unit: 'psi' },
  fitted_mm: [1, 0.45],
  stock: Array.from({ length: kinds }, (_, i) => ({ thickness_mm: (10 + 5 * i) / 100, count })),
  stackAtMost_mm: 2,
});
const psi = (value) => ({ value, unit: 'psi', standardUncertainty: 0.7 });
/** A tenth of the changes is the unit's own, the rest of forty others of its type. */
const trail = (changes) => ({
  format: 'overdrive-bench/adjustments',
  version: 1,
  serial: 'own',
  adjustments: Array.from({ length: changes }, (_, i) => ({
    serial: i % 10 === 0 ? 'own' : `other-${i % 40}`,
    before_mm: [0.5],
    after_mm: [0.5, 0.25],
    pressureBefore: psi(400),
    pressureAfter: psi(405.5 + ((i * 7) % 11) / 5),
  })),
});

for (const [what, stock, history] of [
  ['advice: 6 kinds of shim, no trail', relief(6, 4), null],
  ['advice: 6 kinds of shim, 20 changes', relief(6, 4), trail(20)],
  ['advice: 12 kinds of shim, 100 changes', relief(12, null), trail(100)],
  ['advice: 12 kinds of shim, 300 changes', relief(12, null), trail(300)],
]) {
  const input = { assessment: assessedAt(425.1), relief: stock, history };
  if (!advise(input).ok) throw new Error('not advised');
  const times = Array.from({ length: RUNS }, () => {
    const start = performance.now();
    advise(input);
    return performance.now() - start;
  });
  console.log(JSON.stringify({ what, value: Number(middle(times).toPrecision(2)), unit: 'ms' }));
}
