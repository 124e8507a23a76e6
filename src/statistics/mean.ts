import { inPieces, withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import { sampleStandardDeviation as deviationOf } from 'simple-statistics';
import { finite } from './finite.ts';
import { inBlocks } from './in-blocks.ts';

/**
 * Mean of the readings, by Neumaier's compensated summation; without a copy, since whole channels come here.
 * @param values NaN for no reading
 * @param leftOut a byte a value, other than 0 where it does not count; none without
 * @returns NaN where there is none
 * @example mean([1, 2, NaN, 6]) // 3
 */
export function mean(values: ArrayLike<number>, leftOut: Uint8Array | null = null): number {
  return (
    (values instanceof Float64Array
      ? withColumnKernels(values.length, (kernels) => meanByKernel(kernels, values, leftOut))
      : null) ?? meanByScript(values, leftOut)
  );
}

/** The mean by kernels, and by the script: the same to the bit. */
export function meanByKernel(
  kernels: ColumnKernels,
  values: Float64Array,
  leftOut: Uint8Array | null,
): number {
  kernels.beginSums(0);
  inPieces(0, values.length, (from, to) => {
    kernels.values.set(values.subarray(from, to));
    if (leftOut !== null) kernels.marks.set(leftOut.subarray(from, to));
    kernels.addUp(to - from, leftOut !== null);
  });
  return (kernels.sumFound() + kernels.sumLost()) / kernels.sumCount();
}

/** See {@link meanByKernel}. */
export function meanByScript(values: ArrayLike<number>, leftOut: Uint8Array | null): number {
  const all = { sum: 0, lost: 0, count: 0 };
  inBlocks(0, values.length, (from, to) => {
    let { sum, lost, count } = all;
    for (let i = from; i < to; i++) {
      const value = values[i] ?? NaN;
      // Neither NaN nor infinite.
      if (value - value !== 0 || (leftOut !== null && leftOut[i] !== 0)) continue;
      const next = sum + value;
      lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
      sum = next;
      count++;
    }
    all.sum = sum;
    all.lost = lost;
    all.count = count;
  });
  return all.count === 0 ? NaN : (all.sum + all.lost) / all.count;
}

/**
 * Sample standard deviation (n − 1 in the denominator) of the readings, in two passes.
 * @param values NaN for no reading
 * @returns NaN below two readings
 * @example sampleStandardDeviation([1, 2, 3]) // 1
 */
export function sampleStandardDeviation(values: ArrayLike<number>): number {
  const kept = finite(values);
  return kept.length < 2 ? NaN : deviationOf(kept);
}
