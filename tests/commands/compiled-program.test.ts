import {
  chmodSync,
  cpSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { ownFolder, run, shortRun, type Ended } from './run-command.ts';

/** The program file in a folder of its own, so that its cache is this test's alone. */
const folder = path.join(ownFolder(), 'program');
const program = path.join(folder, 'overdrive-bench.mjs');
const cache = `${program}.${process.version}-${process.arch}.cache`;
const starter = path.join(path.dirname(folder), 'start.mjs');
const log = path.join(path.dirname(folder), 'log.csv');
const judge = (env: Record<string, string> = {}): Promise<Ended> =>
  run(['assess', log, '--band', '400..420 psi', '--json', '-'], {
    bin: starter,
    env,
  });
const inFolder = (): string[] => readdirSync(folder).toSorted();

let expected: Ended;
beforeAll(() => {
  mkdirSync(folder);
  writeFileSync(log, shortRun(1800));
  writeFileSync(
    starter,
    `import { loadProgram } from ${JSON.stringify(pathToFileURL(path.resolve('scripts', 'load-program.mjs')).href)};
const { main, compiled } = loadProgram(${JSON.stringify(program)});
if (process.env.TELL) process.stderr.write(compiled);
process.exitCode = await main(process.argv.slice(2));\n`,
  );
});
beforeEach(async () => {
  for (const name of inFolder()) rmSync(path.join(folder, name));
  cpSync(path.resolve('dist', 'cli', 'overdrive-bench.mjs'), program);
  expected = await judge();
  expect(expected.code).toBe(0);
});

describe('what the engine compiled', () => {
  it('is kept by the first run that judges, and taken by the next', async () => {
    expect(inFolder()).toEqual([path.basename(program), path.basename(cache)]);
    const before = readFileSync(cache);
    expect(await judge({ TELL: '1' })).toEqual({ ...expected, stderr: 'before' });
    expect(readFileSync(cache)).toEqual(before);
  });
  it.each([
    ['is empty', (): Buffer => Buffer.alloc(0)],
    ['is cut off', (whole: Buffer): Buffer => whole.subarray(0, whole.length >> 1)],
    [
      'has one bit turned',
      (whole: Buffer): Buffer => {
        const other = Buffer.from(whole);
        other[other.length >> 1] = (other[other.length >> 1] ?? 0) ^ 4;
        return other;
      },
    ],
    ['is no cache', (): Buffer => Buffer.from('not what the engine wrote\n'.repeat(100))],
  ])('is made anew where it %s', async (_, damaged) => {
    const whole = readFileSync(cache);
    writeFileSync(cache, damaged(whole));
    expect(await judge({ TELL: '1' })).toEqual({ ...expected, stderr: 'now' });
    expect(await judge({ TELL: '1' })).toEqual({ ...expected, stderr: 'before' });
  });
  it('is not taken for a program that says something else in as many letters', async () => {
    const text = readFileSync(program, 'latin1');
    const other = text.replaceAll('Judges a run:', 'Weighs a run:');
    expect(other.length).toBe(text.length);
    writeFileSync(program, other, 'latin1');
    const { code, stdout, stderr } = await run(['assess', '--help'], { bin: starter, env: { TELL: '1' } });
    expect({ code, stderr }).toEqual({ code: 0, stderr: 'now' });
    expect(stdout).toMatch(/^Weighs a run:/u);
  });
  it('is left out where the engine refuses it, and stays for the others', async () => {
    const before = readFileSync(cache);
    // Without compiled code the engine may say on standard error what else it leaves out.
    const other = await judge({ TELL: '1', NODE_OPTIONS: '--jitless' });
    expect({ ...other, stderr: '' }).toEqual(expected);
    expect(other.stderr).toMatch(/now$/u);
    expect(readFileSync(cache)).toEqual(before);
  });
  it('is not needed in a folder that cannot be written', async () => {
    writeFileSync(cache, 'damaged');
    chmodSync(cache, 0o444);
    chmodSync(folder, 0o555);
    try {
      expect(await judge({ TELL: '1' })).toEqual({ ...expected, stderr: 'now' });
    } finally {
      chmodSync(folder, 0o755);
    }
  });
  it('is whole after several first runs at once', async () => {
    writeFileSync(cache, 'damaged');
    const all = await Promise.all([judge(), judge(), judge()]);
    expect(all).toEqual([expected, expected, expected]);
    expect(inFolder()).toEqual([path.basename(program), path.basename(cache)]);
    expect(statSync(cache).size).toBeGreaterThan(100_000);
    expect(await judge({ TELL: '1' })).toEqual({ ...expected, stderr: 'before' });
  });
});
