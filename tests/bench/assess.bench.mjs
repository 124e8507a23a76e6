// The whole command as a user starts it: a six-hour run at one reading a second with its record, and one at a hundred (2.16 million
// rows), each against reading the same bytes alone (node:fs and SHA-256), the least that any program must do. Where PEER_DIR names a
// folder with generate-log.mjs and peer.py, also against that script on the same log.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';

const RUNS = Number(process.env.BENCH_RUNS ?? 5);
const folder = mkdtempSync(path.join(os.tmpdir(), 'overdrive-bench-'));
const peer = process.env.PEER_DIR;
const middle = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];
const say = (found) => console.log(JSON.stringify(found));

/** Wall time in milliseconds and largest memory in MiB of the command. */
function assess(log, more) {
  const code = `
    process.on('exit', () => process.stderr.write('peak ' + process.resourceUsage().maxRSS + '\\n'));
    process.argv.splice(1, 0, 'overdrive-bench');
    const { main } = await import(${JSON.stringify(path.resolve('dist/cli/overdrive-bench.mjs'))});
    process.exitCode = await main(process.argv.slice(2));`;
  const from = performance.now();
  const { status, stderr } = spawnSync(
    process.execPath,
    ['--input-type=module', '-e', code, 'assess', log, ...more, '--json', path.join(folder, 'out.json')],
    { encoding: 'utf8' },
  );
  const ms = performance.now() - from;
  if (status > 2) throw new Error(stderr);
  return { ms, MiB: Number(/peak (\d+)/u.exec(stderr)?.[1]) / 1024 };
}
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
    const script = (file) => {
      const from = performance.now();
      const { status } = spawnSync('python3', [file, log, path.join(folder, 'peer.png')], {
        encoding: 'utf8',
      });
      return status === 0 ? performance.now() - from : null;
    };
    const file = path.join(peer, 'peer.py');
    if (script(file) === null)
      console.error('peer.py does not run here: the comparison with it is left out.');
    else {
      const pairs = Array.from({ length: RUNS }, () => ({
        ours: assess(log, [...band, '--record', path.join(folder, 'out.svg')]).ms,
        theirs: script(file),
      }));
      say({
        what: `${what}, with the chart`,
        ratio: middle(pairs.map((pair) => pair.ours / pair.theirs)),
        of: `the command ${Math.round(middle(pairs.map((pair) => pair.ours)))} ms`,
        to: `a script of the usual libraries ${Math.round(middle(pairs.map((pair) => pair.theirs)))} ms`,
      });
    }
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
