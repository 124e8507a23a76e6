import {
  cpSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { ownFolder, run, sample } from './run-command.ts';

/** A checkout of its own, as after `npm ci --ignore-scripts`: sources and tools, nothing built. */
const checkout = path.join(ownFolder(), 'checkout');
const bin = path.join(checkout, 'bin', 'overdrive-bench.mjs');
const built = path.join(checkout, 'dist', 'cli', 'overdrive-bench.mjs');
const schemaSource = path.join(checkout, 'src', 'cli', 'schema-command.ts');

beforeAll(() => {
  mkdirSync(checkout);
  for (const name of ['bin', 'scripts', 'src', 'package.json', 'vite.cli.config.ts', 'tsconfig.json'])
    cpSync(name, path.join(checkout, name), { recursive: true });
  symlinkSync(path.resolve('node_modules'), path.join(checkout, 'node_modules'));
});

describe('the first start', () => {
  it('builds the program, also twice at once, and keeps standard output clean', async () => {
    const both = await Promise.all([run(['schema', 'spec'], { bin }), run(['schema', 'spec'], { bin })]);
    for (const { code, stdout, stderr } of both) {
      expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
      expect(() => void JSON.parse(stdout)).not.toThrow();
    }
    // A checkout without samples: nothing was judged yet, so nothing is kept compiled.
    expect(readdirSync(path.dirname(built))).toEqual(['overdrive-bench.mjs']);
  });
  it('is not repeated for sources whose times alone are new, as in a copied checkout', async () => {
    const before = readFileSync(built, 'utf8');
    const later = new Date(Date.now() + 60_000);
    utimesSync(schemaSource, later, later);
    writeFileSync(built, `${before}\n// not built again\n`);
    expect((await run(['--version'], { bin })).code).toBe(0);
    expect(readFileSync(built, 'utf8')).toContain('// not built again');
  });
  it('is repeated when a source says something else', async () => {
    const source = readFileSync(schemaSource, 'utf8');
    writeFileSync(schemaSource, source.replace('Prints the JSON Schema', 'Shows the JSON Schema'));
    const later = new Date(Date.now() + 60_000);
    utimesSync(schemaSource, later, later);
    expect((await run(['schema', '--help'], { bin })).stdout).toMatch(/^Shows the JSON Schema/u);
  });
  it('says what to do where it cannot be built, with exit 70 and no stack', async () => {
    writeFileSync(schemaSource, 'export const = ;\n');
    const later = new Date(Date.now() + 120_000);
    utimesSync(schemaSource, later, later);
    const { code, stdout, stderr } = await run(['--version'], { bin });
    expect({ code, stdout }).toEqual({ code: 70, stdout: '' });
    expect(stderr).toContain('could not be built again');
    expect(stderr).not.toMatch(/\n\s+at /u);
  });
});

describe('the one program file, copied to a place of its own', () => {
  const alone = path.join(ownFolder(), 'alone');
  const copy = path.join(alone, 'overdrive-bench.mjs');
  const starter = path.join(alone, 'start.mjs');
  const record = (name: string): string[] => [
    'assess',
    sample('five-over-the-band'),
    '--band',
    '400..420 psi',
    '--record',
    path.join(alone, name),
  ];
  beforeAll(() => {
    mkdirSync(alone);
    cpSync(path.resolve('dist', 'cli', 'overdrive-bench.mjs'), copy);
    writeFileSync(
      starter,
      "const { main } = await import('./overdrive-bench.mjs');\nprocess.exitCode = await main(process.argv.slice(2));\n",
    );
  });

  it('makes pictures as in the checkout: fonts and renderer are carried in it', async () => {
    expect((await run(record('copied.png'), { bin: starter })).code).toBe(1);
    expect((await run(record('checkout.png'))).code).toBe(1);
    const [copied, checkout] = ['copied.png', 'checkout.png'].map((name) =>
      readFileSync(path.join(alone, name)),
    );
    expect(copied?.subarray(1, 4).toString()).toBe('PNG');
    expect(copied?.equals(checkout ?? Buffer.alloc(0))).toBe(true);
  });
  it('judges when its end is cut off, and makes no record of half a font', async () => {
    const whole = readFileSync(copy, 'utf8');
    writeFileSync(copy, `${whole.slice(0, whole.lastIndexOf('/* carried'))}\n`);
    expect(
      (await run(['assess', sample('five-over-the-band'), '--band', '400..420 psi'], { bin: starter })).code,
    ).toBe(1);
    const { code, stderr } = await run(record('none.png'), { bin: starter });
    expect(code).toBe(70);
    expect(stderr).toContain('does not carry');
    expect(readdirSync(alone)).not.toContain('none.png');
  });
});
