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

/** The program file and the cache that the first run made, kept apart from where the tests harm them. */
const untouched = path.join(path.dirname(folder), 'untouched');

let expected: Ended;
beforeAll(async () => {
  mkdirSync(folder);
  writeFileSync(log, shortRun(1800));
  writeFileSync(
    starter,
    `import { loadProgram } from ${JSON.stringify(pathToFileURL(path.resolve('scripts', 'load-program.mjs')).href)};
const { main, compiled } = loadProgram(${JSON.stringify(program)});
if (process.env.TELL) process.stderr.write(compiled);
process.exitCode = await main(process.argv.slice(2));\n`,
  );
  cpSync(path.resolve('dist', 'cli', 'overdrive-bench.mjs'), program);
  expected = await judge();
  expect(expected.code).toBe(0);
  cpSync(folder, untouched, { recursive: true });
});
/** As after the first run: nothing in the cache hangs on where or when it was written, and the first test shows what lies there. */
function afterTheFirstRun(): void {
  rmSync(folder, { recursive: true });
  cpSync(untouched, folder, { recursive: true });
}

describe('what the engine compiled', () => {
  beforeEach(afterTheFirstRun);

  it('is kept by the first run that judges, and taken by the next', async () => {
    expect(inFolder()).toEqual([path.basename(program), path.basename(cache)]);
    const before = readFileSync(cache);
    expect(await judge({ TELL: '1' })).toEqual({ ...expected, stderr: 'before' });
    expect(readFileSync(cache).equals(before)).toBe(true);
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
    expect(readFileSync(cache).equals(before)).toBe(true);
  });
  it('is not needed where none can be written, and nothing is left there', async () => {
    rmSync(cache);
    mkdirSync(path.join(cache, 'in the way'), { recursive: true });
    try {
      expect(await judge({ TELL: '1' })).toEqual({ ...expected, stderr: 'now' });
      expect(inFolder()).toEqual([path.basename(program), path.basename(cache)]);
    } finally {
      rmSync(cache, { recursive: true });
    }
  });
  // Nothing is read-only to the superuser.
  // The system lets root write there all the same; the cache that cannot be put in place, above, fails for root too.
  it.skipIf(process.getuid?.() === 0)('is not needed in a folder that cannot be written', async () => {
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

describe('a program file', () => {
  const other = path.join(path.dirname(folder), 'other.mjs');
  const runs = (code: string, length = code.length): Promise<Ended> => {
    writeFileSync(other, `// made by a test\n/* program, in ${length} bytes:\n${code}*/\n`, 'latin1');
    const start = path.join(path.dirname(folder), 'start-other.mjs');
    writeFileSync(
      start,
      `import { loadProgram } from ${JSON.stringify(pathToFileURL(path.resolve('scripts', 'load-program.mjs')).href)};
process.exitCode = await loadProgram(${JSON.stringify(other)}).main(process.argv.slice(2));\n`,
    );
    return run(['x'], { bin: start });
  };
  const program = (body: string): string =>
    `(function (exports, require, __filename) { /* a comment *\x1f\n exports.main = async (argv) => {\n${body}\n}; })\n`;

  it('may load modules when it needs them, by either way', async () => {
    const { code, stdout, stderr } = await runs(
      program(`const path = await import('node:path');
        process.stdout.write([argv[0], path === require('node:path'), path.basename(__filename)].join());
        return 0;`),
    );
    expect({ code, stdout }).toEqual({ code: 0, stdout: 'x,false,other.mjs' });
    // This Node may call that an experiment; the built program has no such import left.
    expect(stderr.replace(/^.*ExperimentalWarning.*\n.*--trace-warnings.*\n/u, '')).toBe('');
  });
  it('names its own lines where a mistake happened', async () => {
    const { code, stderr } = await runs(program(`throw new Error('on purpose');`));
    expect(code).not.toBe(0);
    const line = readFileSync(other, 'latin1')
      .split('\n')
      .findIndex((text) => text.includes('on purpose'));
    expect(stderr).toContain(`${other}:${line + 1}:`);
  });
  it('that is cut off is not run', async () => {
    const { code, stderr } = await runs(program('return 0;'), 10_000);
    expect(code).not.toBe(0);
    expect(stderr).toContain('The program file is not whole');
  });
});
