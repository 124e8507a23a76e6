import { closeSync, openSync, readFileSync, statSync, writeFileSync, writeSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { beforeAll, expect, it } from 'vitest';
import { WORTH_A_THREAD_bytes } from '#cli/channel-reader.ts';
import { ownFolder, run, specOf, type Ended } from './run-command.ts';

const folder = ownFolder();
const log = path.join(folder, 'large.csv');
const bench = ['--spec', specOf('example-400-420'), '--json', '-'];
/** What a run printed, and how often a thread gave it something: channels and quantities, and rows. */
interface Judged extends Ended {
  answers: number;
  farRows: number;
}
/** Counts what is received from a thread. */
const counting = path.join(folder, 'counting.cjs');
writeFileSync(
  counting,
  `const threads = require('node:worker_threads');
const receive = threads.receiveMessageOnPort;
let answers = 0,
  farRows = 0;
threads.receiveMessageOnPort = (port) => {
  const received = receive(port);
  if (received?.message) answers++;
  return received;
};
const { Worker } = threads;
threads.Worker = class extends Worker {
  constructor(code, options) {
    super(process.env.BROKEN || code, options);
    this.on('message', ({ far, sha256 }) => {
      farRows += far?.table.rows ?? 0;
      if (sha256) answers++;
    });
  }
};
if (threads.isMainThread) process.on('exit', () => require('node:fs').writeFileSync(process.env.ANSWERS, JSON.stringify({ answers, farRows })));
`,
);
async function judged(
  name: string,
  {
    argv,
    stdin = '',
    before = [],
    broken = '',
  }: { argv: readonly string[]; stdin?: string | Uint8Array; before?: string[]; broken?: string },
): Promise<Judged> {
  const answers = path.join(folder, name);
  const [bin = path.resolve('bin', 'overdrive-bench.mjs'), ...more] = before;
  const ended = await run([...more, 'assess', ...argv], {
    bin,
    stdin,
    env: { NODE_OPTIONS: `--require ${counting}`, ANSWERS: answers, BROKEN: broken },
  });
  const counted = JSON.parse(readFileSync(answers, 'utf8')) as Pick<Judged, 'answers' | 'farRows'>;
  return { ...ended, ...counted };
}
const ROWS = 760_000;

/** Some two hours at 90 readings a second: warming up, with a spike in pressure, oil and speed now and then. */
beforeAll(() => {
  const out = openSync(log, 'w');
  writeSync(out, 'Time (s),Pressure (psi),Oil (°C),Shaft (rpm),Solenoid (mA)\n');
  let lines = '';
  for (let i = 0; i < ROWS; i++) {
    const t_s = i / 90,
      warm = Math.exp(-t_s / 900),
      odd = i % 50_021 === 50_020;
    const noise = ((i * 7919) % 1009) / 1009 - 0.5;
    const pressure = odd ? 250 : 409 + 20 * warm + noise,
      oil = odd ? 140 : 65 - 40 * warm + 0.3 * noise,
      speed = odd ? 900 : 1800 + 8 * noise;
    lines += `${t_s.toFixed(4)},${pressure.toFixed(4)},${oil.toFixed(4)},${speed.toFixed(4)},${(800 + 4 * noise).toFixed(4)}\n`;
    if (i % 10_000 === 9_999) {
      writeSync(out, lines);
      lines = '';
    }
  }
  writeSync(out, lines);
  closeSync(out);
});

let known: Promise<Judged> | null = null;
/** The same log from standard input, whose length nobody knows before. */
const withoutThread = (): Promise<Judged> =>
  (known ??= judged('alone', { argv: ['-', ...bench], stdin: readFileSync(log) }));

it('a large file is judged with a thread for its other channels, and comes out as without', async () => {
  expect(statSync(log).size).toBeGreaterThan(WORTH_A_THREAD_bytes);
  const apart = await judged('apart', { argv: [log, ...bench] });
  const alone = await withoutThread();
  // Two and a half hours are too short for the spec.
  expect({ code: apart.code, stderr: apart.stderr }).toEqual({ code: 1, stderr: '' });
  expect(alone.code).toBe(1);
  // The file's sum, shaft and oil, current and hold.
  expect([apart.answers, alone.answers]).toEqual([5, 0]);
  // About half of the rows.
  expect(apart.farRows).toBeGreaterThan(0.4 * ROWS);
  expect(apart.farRows).toBeLessThan(0.75 * ROWS);
  expect(alone.farRows).toBe(0);
  const named = apart.stdout.replace('"fileName": "large.csv"', '"fileName": null');
  expect(named).not.toBe(apart.stdout);
  expect(named).toBe(alone.stdout);
  // Each channel's spikes were found.
  expect([...apart.stdout.matchAll(/"spikes": (\d+)/gu)].map(([, count]) => count)).toEqual([
    '15',
    '15',
    '15',
    '0',
  ]);
}, 120_000);

it('its thread starts under any options of the process', async () => {
  const program = pathToFileURL(path.resolve('dist', 'cli', 'overdrive-bench.mjs')).href;
  const code = `
    process.argv.splice(1, 0, 'overdrive-bench');
    const { main } = await import(${JSON.stringify(program)});
    process.exitCode = await main(process.argv.slice(2));`;
  const apart = await judged('options', {
    argv: [log, ...bench],
    before: ['--input-type=module', '-e', code],
  });
  expect({ code: apart.code, answers: apart.answers }).toEqual({ code: 1, answers: 5 });
}, 120_000);

/** Leaves marks and readings of its own behind in the columns. */
const SCRIBBLE = `const { parentPort } = require('node:worker_threads');
parentPort.on('message', ({ far }) => {
  if (far === undefined) return;
  const { table } = far;
  for (const column of [...table.values, ...table.flags, table.time]) column.fill(1, table.row);`;

it.each([
  ['falls', 'throw new Error("no such thread")'],
  ['says nothing', 'setInterval(() => undefined, 1000)'],
  ['falls while it reads rows', `${SCRIBBLE} throw new Error('no such row'); });`],
  [
    'finds no rows and no channels',
    `${SCRIBBLE} parentPort.postMessage({ far: null }); parentPort.close(); });`,
  ],
])(
  'a thread that %s is done without',
  async (name, broken) => {
    const alone = await withoutThread();
    const apart = await judged(name, { argv: [log, ...bench], broken });
    expect({ code: apart.code, stderr: apart.stderr, answers: apart.answers }).toEqual({
      code: 1,
      stderr: '',
      answers: 0,
    });
    expect(apart.stdout.replace('"fileName": "large.csv"', '"fileName": null')).toBe(alone.stdout);
  },
  120_000,
);
