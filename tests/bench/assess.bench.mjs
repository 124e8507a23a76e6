// The whole command as a user starts it: a six-hour run at one reading a second with its record, and one at a hundred (2.16 million
// rows), each against reading the same bytes alone (node:fs and SHA-256), the least that any program must do. Where PEER_DIR names a
// folder with generate-log.mjs, peer.py and peer.R, also against those scripts on the same log, in time and in memory; and how time
// grows with ten times the rows.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';

const RUNS = Number(process.env.BENCH_RUNS ?? 5);
const folder = mkdtempSync(path.join(os.tmpdir(), 'overdrive-bench-'));
const peer = process.env.PEER_DIR;
const middle = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];
const say = (found) => console.log(JSON.stringify(found));

/**
 * Runs a program to its end: wall time in milliseconds and largest memory in MiB, as the system counts it for the child alone.
 * @returns null where it does not run or fails
 */
function timed(program, parameters) {
  const from = performance.now();
  const { status, stderr, stdout } = spawnSync(program, parameters, { encoding: 'utf8' });
  const ms = performance.now() - from;
  if (status === null || status > 2) return null;
  return { ms, stdout, MiB: Number(/peak (\d+)/u.exec(stderr)?.[1]) / 1024 };
}
/** Tells the largest memory of its own process at its end. */
const tellsPeak = path.join(folder, 'tells-peak.cjs');
writeFileSync(
  tellsPeak,
  `if (require('node:worker_threads').isMainThread)
  process.on('exit', () => process.stderr.write('peak ' + process.resourceUsage().maxRSS + '\\n'));
`,
);
const node = (...parameters) => {
  const found = timed(process.execPath, ['--require', tellsPeak, ...parameters]);
  if (found === null) throw new Error('the command does not run');
  return found;
};
/** The command as a user starts it, from the checkout. */
const assess = (log, more) =>
  node('bin/overdrive-bench.mjs', 'assess', log, ...more, '--json', path.join(folder, 'out.json'));
function readAlone(log) {
  const from = performance.now();
  createHash('sha256').update(readFileSync(log)).digest('hex');
  return performance.now() - from;
}
function measure(what, log, more) {
  assess(log, more);
  readAlone(log);
  const runs = Array.from({ length: RUNS }, () => ({ ours: assess(log, more), bytes: readAlone(log) }));
  const ours = middle(runs.map((run) => run.ours.ms));
  say({ what, value: Math.round(ours), unit: 'ms' });
  say({
    what: `${what}: largest memory`,
    value: Math.round(middle(runs.map((run) => run.ours.MiB))),
    unit: 'MiB',
  });
  say({
    what,
    ratio: middle(runs.map((run) => run.ours.ms / run.bytes)),
    of: `the command ${Math.round(ours)} ms`,
    to: `reading and hashing the bytes ${middle(runs.map((run) => run.bytes)).toFixed(1)} ms`,
  });
}

try {
  // Builds what is not built, so that no run pays for it.
  spawnSync(process.execPath, ['bin/overdrive-bench.mjs', '--version'], { stdio: ['ignore', 2, 2] });
  const six = 'sample-runs/logs/five-over-the-band.csv';
  const limits = [
    '--spec',
    'sample-runs/specs/example-400-420.json',
    '--rig',
    'sample-runs/rigs/bench-1.json',
  ];
  const rows = readFileSync(six, 'latin1').split('\n').length - 2;
  measure(`assess, ${rows} rows, words alone`, six, limits);
  measure(`assess, ${rows} rows, with the record as PDF`, six, [
    ...limits,
    '--record',
    path.join(folder, 'out.pdf'),
  ]);

  if (peer === undefined || !existsSync(path.join(peer, 'generate-log.mjs')))
    console.error(
      'PEER_DIR names no folder with generate-log.mjs: the run of 2.16 million rows is left out.',
    );
  else {
    const log = path.join(folder, 'hundred.csv');
    spawnSync(process.execPath, [path.join(peer, 'generate-log.mjs'), '100', '6', log], { stdio: 'inherit' });
    const band = ['--band', '400..420 psi'];
    const what = `assess, 2.16 million rows, ${Math.round(statSync(log).size / 1e6)} MB`;
    measure(what, log, band);
    againstScripts(what, log, band);
    memoryARow(what, log, band);
    const tenth = path.join(folder, 'ten.csv');
    spawnSync(process.execPath, [path.join(peer, 'generate-log.mjs'), '10', '6', tenth], {
      stdio: 'inherit',
    });
    growth(log, tenth, band);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

/** The first of some programs that runs a line of code; null where none does. */
function thatRuns(programs, parameters) {
  return programs.find((program) => spawnSync(program, parameters, { stdio: 'ignore' }).status === 0) ?? null;
}

/** Interleaved with the same work as scripts of the usual libraries, whole process each. */
function againstScripts(what, log, band) {
  const picture = path.join(folder, 'peer.png');
  // A python of the user's own may come first on the path and lack the libraries.
  const python = thatRuns(['python3', '/usr/bin/python3'], ['-c', 'import pandas, scipy, matplotlib']);
  const r = thatRuns(['Rscript'], ['-e', 'library(data.table)']);
  const scripts = [
    {
      name: 'peer.py',
      program: python,
      needs: 'a python3 with pandas, scipy and matplotlib',
      goal: '≤ 0.25',
    },
    { name: 'peer.R', program: r, needs: 'Rscript with data.table', goal: '≤ 0.5' },
  ];
  for (const { name, program, needs, goal } of scripts) {
    const file = path.join(peer, name);
    if (program === null || !existsSync(file)) {
      console.error(
        `${name} is left out: there is no ${program === null ? needs : `${name} in PEER_DIR`} here.`,
      );
      continue;
    }
    const first = timed(program, [file, log, picture]);
    if (first === null) {
      console.error(`${name} is left out: it breaks off here.`);
      continue;
    }
    assess(log, band);
    const pairs = Array.from({ length: RUNS }, () => ({
      ours: assess(log, band),
      theirs: timed(program, [file, log, picture]),
    }));
    const ours = pairs.map((pair) => pair.ours.ms),
      theirs = pairs.map((pair) => pair.theirs.ms);
    say({
      what: `${what} ÷ ${name} (goal ${goal})`,
      ratio: middle(pairs.map((pair) => pair.ours.ms / pair.theirs.ms)),
      ofTheFastest: Math.min(...ours) / Math.min(...theirs),
      of: `the command ${Math.round(middle(ours))} ms`,
      to: `${name} ${Math.round(middle(theirs))} ms`,
      pairs: RUNS,
    });
    // The scripts tell their own largest memory, as the system counts it.
    const theirPeak = JSON.parse(first.stdout.trim().split('\n').at(-1)).rss_mb;
    const ourPeak = middle(pairs.map((pair) => pair.ours.MiB));
    say({
      what: `${what}: largest memory ÷ ${name}'s${name === 'peer.py' ? ' (goal ≤ 0.35)' : ''}`,
      ratio: ourPeak / theirPeak,
      of: `${Math.round(ourPeak)} MiB`,
      to: `${theirPeak} MiB`,
    });
  }
}

/** Largest memory above that of a Node that does nothing, by row. */
function memoryARow(what, log, band) {
  const bare = middle(Array.from({ length: RUNS }, () => node('-e', '').MiB));
  const ours = middle(Array.from({ length: RUNS }, () => assess(log, band).MiB));
  say({
    what: `${what}: memory above bare Node (${Math.round(bare)} MiB; goal ≤ 100, wanted 80)`,
    value: Math.round(((ours - bare) * 2 ** 20) / rowsOf(log)),
    unit: 'bytes a row',
  });
}

/** Ten times the rows, interleaved; a Node that does nothing is taken off both, since its start does not grow. */
function growth(log, tenth, band) {
  const start = Math.min(...Array.from({ length: RUNS }, () => node('-e', '').ms));
  const pairs = Array.from({ length: RUNS }, () => ({
    ten: assess(log, band).ms - start,
    one: assess(tenth, band).ms - start,
  }));
  say({
    what: `assess, growth with ${(rowsOf(log) / rowsOf(tenth)).toFixed(0)} times the rows, start of Node taken off (goal ≤ 11)`,
    ratio: middle(pairs.map((pair) => pair.ten / pair.one)),
    of: `${Math.round(middle(pairs.map((pair) => pair.ten)))} ms`,
    to: `${Math.round(middle(pairs.map((pair) => pair.one)))} ms`,
  });
}

function rowsOf(log) {
  const bytes = readFileSync(log);
  let lines = 0;
  for (const byte of bytes) if (byte === 10) lines++;
  return lines - 1;
}
