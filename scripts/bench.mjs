// Runs the measurements in tests/bench and keeps what they say, with day and machine, in bench-results.jsonl (not committed: they
// belong to the machine). Nothing here passes or fails: times are for people to read.
//   npm run bench               all of them
//   npm run bench -- parse      those whose name contains "parse"
//
// A measurement is a script *.bench.mjs that prints one JSON object a line: { "what", "ratio", "of", "to", … } or { "what", "value", "unit" }.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { appendFileSync, existsSync, readdirSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { root } from './built-program.mjs';

process.chdir(root);
const folder = path.join('tests', 'bench');
const results = 'bench-results.jsonl';
const wanted = process.argv[2] ?? '';
const scripts = (existsSync(folder) ? readdirSync(folder) : [])
  .filter((name) => name.endsWith('.bench.mjs') && name.includes(wanted))
  .sort();
if (scripts.length === 0) {
  console.log(wanted === '' ? 'There are no measurements yet.' : `No measurement is called ${wanted}.`);
  process.exit(wanted === '' ? 0 : 4);
}
const machine = {
  on: new Date().toISOString().slice(0, 10),
  cpu: os.cpus()[0]?.model ?? 'unknown',
  cores: os.cpus().length,
  memory_GiB: Math.round(os.totalmem() / 2 ** 30),
  system: `${os.platform()} ${os.release()}`,
  node: process.version,
};
console.log(
  `${machine.cpu}, ${machine.cores} cores, ${machine.memory_GiB} GiB, ${machine.system}, Node ${machine.node}\n`,
);

let broken = 0;
for (const name of scripts) {
  const measuring = spawn(process.execPath, ['--expose-gc', path.join(folder, name)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const ended = once(measuring, 'close');
  // Each figure is kept as soon as it is there: a set that is broken off has not been for nothing.
  for await (const line of createInterface({ input: measuring.stdout })) {
    if (!line.startsWith('{')) continue;
    const found = JSON.parse(line);
    appendFileSync(results, `${JSON.stringify({ ...machine, script: name, ...found })}\n`);
    console.log(sentence(found));
  }
  const [status] = await ended;
  if (status !== 0) {
    broken++;
    console.log(`${name} broke off (${status})`);
  }
}
console.log(`\nKept in ${results}.`);
process.exitCode = broken > 0 ? 1 : 0;

function sentence({ what, ratio, of, to, value, unit }) {
  if (ratio !== undefined) return `${what}: ${ratio.toPrecision(3)}${of && to ? ` (${of} ÷ ${to})` : ''}`;
  return `${what}: ${value} ${unit ?? ''}`.trim();
}
