import { readFileSync } from 'node:fs';
import { expect, test, vi } from 'vitest';
import { kernelProgram } from '../../scripts/build-kernels.mjs';

test('the program that is kept is what the kernels compile to: else run "npm run kernels"', async () => {
  expect(await kernelProgram()).toBe(readFileSync('src/kernels/program.ts', 'utf8'));
}, 60_000);

test('each load has a memory of its own, as large as was asked for', async () => {
  const { loadKernels } = await import('#kernels/load.ts');
  const one = loadKernels(300_000),
    other = loadKernels(10);
  expect(one?.memory.buffer.byteLength).toBeGreaterThanOrEqual(300_000);
  expect(other?.memory.buffer).not.toBe(one?.memory.buffer);
});

test.each([
  ['lacks it', undefined],
  [
    'may not use it',
    {
      Module: function refused() {
        throw new Error('refused by the policy of the page');
      },
    },
  ],
])('an engine that %s gets none', async (_, machine) => {
  vi.resetModules();
  vi.stubGlobal('WebAssembly', machine);
  try {
    const { loadKernels } = await import('#kernels/load.ts');
    expect(loadKernels(10)).toBeNull();
  } finally {
    vi.unstubAllGlobals();
  }
});
