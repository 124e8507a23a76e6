import { closeSync, mkdirSync, openSync, readdirSync, readFileSync, statSync, writeSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import { WORTH_A_THREAD_bytes } from '#cli/channel-reader.ts';
import { ownFolder, run, specOf, type Ended } from './run-command.ts';

const folder = ownFolder();
const log = path.join(folder, 'large.csv');
const bench = ['--spec', specOf('example-400-420'), '--json', '-'];
interface Judged extends Ended {
  threads: number;
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

it('a large file is judged with a thread for its other channels, and comes out as without', async () => {
  expect(statSync(log).size).toBeGreaterThan(WORTH_A_THREAD_bytes);
  // The engine writes a profile for each thread.
  const profiled = async (
    name: string,
    argv: readonly string[],
    stdin = new Uint8Array(),
  ): Promise<Judged> => {
    const place = path.join(folder, name);
    mkdirSync(place);
    const bin = path.resolve('bin', 'overdrive-bench.mjs');
    const ended = await run([`--cpu-prof-dir=${place}`, bin, ...argv], { bin: '--cpu-prof', stdin });
    return { ...ended, threads: readdirSync(place).length };
  };
  const apart = await profiled('two', ['assess', log, ...bench]);
  const alone = await profiled('one', ['assess', '-', ...bench], readFileSync(log));
  // Two and a half hours are too short for the spec.
  expect({ code: apart.code, stderr: apart.stderr }).toEqual({ code: 1, stderr: '' });
  expect(alone.code).toBe(1);
  expect([apart.threads, alone.threads]).toEqual([2, 1]);
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
