// Prints how often the stated intervals hold the truth on invented runs: node scripts/coverage-study.mjs [runs], default 500.
import { runnerImport } from 'vite';

const [runs = '500'] = process.argv.slice(2);
const { module } = await runnerImport(new URL('coverage-study.ts', import.meta.url).pathname, {
  logLevel: 'error',
});
for (const line of module.coverageLines(Number(runs))) console.log(line);
