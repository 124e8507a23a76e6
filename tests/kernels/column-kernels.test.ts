import { expect, it } from 'vitest';
import { inPieces, withColumnKernels, withKernelsAnyway } from '#kernels/column-kernels.ts';
import { runningMedian } from '#signal/running-median.ts';

const time_s = Float64Array.from({ length: 10_000 }, (_, i) => i / 10);
const values = Float64Array.from(time_s, (_, i) => (i * i) % 97);
const median = (): Float64Array => runningMedian(time_s, values, [], { width_s: 3, samples: 3 });

it('rows go in by pieces that are all of them, in order', () => {
  const seen: number[] = [];
  inPieces(5, 10_000, (from, to) => {
    for (let row = from; row < to; row++) seen.push(row);
  });
  expect(seen).toEqual(Array.from({ length: 9995 }, (_, i) => i + 5));
});

it('a few rows are not worth it', () => {
  expect(withColumnKernels(100, () => 1)).toBeNull();
  expect(withColumnKernels(100_000, () => 1)).toBe(1);
});

it('who asks while they are lent goes the script’s way, and the one who has them is not disturbed', () => {
  const before = median();
  const within = withKernelsAnyway((kernels) => {
    kernels.values.set(values.subarray(0, 4096));
    expect(withKernelsAnyway(() => 1)).toBeNull();
    expect(median()).toEqual(before);
    return kernels.values.slice(0, 4096);
  });
  expect(within).toEqual(values.slice(0, 4096));
  expect(median()).toEqual(before);
});

it('a memory that somebody failed over is used no more', () => {
  const before = median();
  expect(() =>
    withKernelsAnyway((kernels) => {
      kernels.counts.fill(7);
      throw new Error('on the way');
    }),
  ).toThrow('on the way');
  expect(withKernelsAnyway(() => 1)).toBeNull();
  expect(median()).toEqual(before);
});
