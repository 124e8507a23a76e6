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
import { ownFolder, run } from './run-command.ts';

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
