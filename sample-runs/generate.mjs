// Rebuilds every invented run in this folder, byte for byte: `node sample-runs/generate.mjs` (add `--check` to compare only).
// All of it is made up: an invented shop, invented serials, seeded noise. Only + − × ÷ and Math.sqrt are used, so that every
// engine writes the same digits. What is odd about each run and what must come out stands in README.md and expected.json.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { tidyRuns } from './tidy-runs.mjs';
import { untidyRuns } from './untidy-runs.mjs';

const runs = { ...tidyRuns, ...untidyRuns };
const folder = fileURLToPath(new URL('./logs/', import.meta.url));
if (process.argv[1] === fileURLToPath(import.meta.url)) {
  mkdirSync(folder, { recursive: true });
  const check = process.argv.includes('--check');
  let differing = 0;
  for (const [name, make] of Object.entries(runs)) {
    const text = make();
    if (!check) writeFileSync(folder + name, text);
    else if (readFileSync(folder + name, 'utf8') !== text) {
      differing++;
      console.error(`${name} differs`);
    }
  }
  if (differing > 0) process.exitCode = 1;
}
