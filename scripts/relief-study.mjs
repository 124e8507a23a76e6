// Prints how good the relief advice is on invented units: node scripts/relief-study.mjs [units] [seed]
import { runnerImport } from 'vite';

const [units = '3000', seed = '1'] = process.argv.slice(2);
const { module } = await runnerImport(new URL('relief-study.ts', import.meta.url).pathname, {
  logLevel: 'error',
});
for (const line of module.studyLines(module.studyRelief(Number(units), Number(seed)))) console.log(line);
