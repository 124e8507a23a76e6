import { withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import { groupedMedian } from '#statistics/grouped-median.ts';
import { mean } from '#statistics/mean.ts';
import { median } from '#statistics/median.ts';
import { firstRowAt } from './window.ts';

/** How long the blocks are, and how full one must be. */
export interface BlockChoice {
  start_s: number;
  end_s: number;
  block_s: number;
  /** Blocks with fewer readings are left out; default 1. */
  atLeast?: number;
  /** Step that the readings are rounded to: medians then tell where within a step the middle lies. Default 0, plain medians. */
  step?: number;
}

/** One entry a block, in order of time. */
export interface Blocks {
  /** Mean time of the readings of the block. */
  time_s: Float64Array;
  values: Float64Array;
  /** Readings in the block. */
  counts: Int32Array;
}

/**
 * Medians over blocks of equal time, the first from `start_s`. A last block that is not half full in time is left out.
 * Neighbouring samples of a log are alike; medians of blocks that are long against that likeness may be treated as independent.
 * @param time_s never falls
 * @param values same length, NaN for no reading
 * @example blockMedians(Float64Array.of(0, 1, 2, 3), Float64Array.of(1, 2, 3, 4), { start_s: 0, end_s: 4, block_s: 2 }).values // 1.5, 3.5
 */
export function blockMedians(time_s: Float64Array, values: Float64Array, choice: BlockChoice): Blocks {
  return blocks(time_s, values, choice, medianStatistic(choice.step ?? 0));
}

/** Means over blocks of equal time; otherwise as {@link blockMedians}. */
export function blockMeans(time_s: Float64Array, values: Float64Array, choice: BlockChoice): Blocks {
  return blocks(time_s, values, choice, meanStatistic);
}

/** What is made of the readings of a block, of which there are some. */
export interface Statistic {
  script: (values: ArrayLike<number>) => number;
  /** Adds the times of rows up, for kernels that can do so on their way through the readings. */
  times: (kernels: ColumnKernels, rows: number) => void;
  /** The same of rows that are in the kernels' hands; may change their places. */
  kernel: (kernels: ColumnKernels, rows: number) => number;
}

/** @param step that the readings are rounded to; 0: the plain median */
export const medianStatistic = (step: number): Statistic => ({
  script: step > 0 ? (list) => groupedMedian(list, step) : median,
  times: (kernels, rows) => kernels.addTimes(rows),
  kernel: (kernels, rows) => (step > 0 ? kernels.groupedMedianOf(rows, step) : kernels.medianOf(rows)),
});
export const meanStatistic: Statistic = {
  script: mean,
  times: (kernels, rows) => kernels.addBlock(rows),
  kernel: (kernels) => (kernels.sumFound() + kernels.sumLost()) / kernels.sumCount(),
};

function blocks(
  time_s: Float64Array,
  values: Float64Array,
  choice: BlockChoice,
  statistic: Statistic,
): Blocks {
  return (
    withColumnKernels(values.length, (kernels) => blocksBy(time_s, values, choice, statistic, kernels)) ??
    blocksBy(time_s, values, choice, statistic, null)
  );
}

/** @param kernels null: the script's own way, the same to the bit */
export function blocksBy(
  time_s: Float64Array,
  values: Float64Array,
  { start_s, end_s, block_s, atLeast = 1 }: BlockChoice,
  statistic: Statistic,
  kernels: ColumnKernels | null,
): Blocks {
  const times: number[] = [];
  const results: number[] = [];
  const counts: number[] = [];
  const number = Math.round((end_s - start_s) / block_s);
  let from = firstRowAt(time_s, start_s);
  for (let block = 0; block < number && from < time_s.length; block++) {
    // On to the next block that holds a row: a gap may be as long as it likes.
    block = Math.max(
      block,
      Math.min(number - 1, Math.floor(((time_s[from] ?? NaN) - start_s) / block_s) - 1),
    );
    const until_s =
      block === number - 1 ? Math.min(end_s, start_s + number * block_s) : start_s + (block + 1) * block_s;
    const to = firstRowAt(time_s, until_s);
    const { readings, sum_s } =
      kernels !== null && to - from <= kernels.rows
        ? timesByKernel(kernels, statistic, { time_s, values, from, to, start_s })
        : timesByScript({ time_s, values, from, to, start_s });
    if (readings >= atLeast && readings > 0) {
      times.push(start_s + sum_s / readings);
      // The statistic passes over rows without a reading itself.
      results.push(
        kernels !== null && to - from <= kernels.rows
          ? statistic.kernel(kernels, to - from)
          : statistic.script(values.subarray(from, to)),
      );
      counts.push(readings);
    }
    from = to;
  }
  return {
    time_s: Float64Array.from(times),
    values: Float64Array.from(results),
    counts: Int32Array.from(counts),
  };
}

/** Readings of some rows, and the sum of their times from `start_s` on. */
interface Times {
  readings: number;
  sum_s: number;
}

interface Block {
  readonly time_s: Float64Array;
  readonly values: Float64Array;
  readonly from: number;
  readonly to: number;
  readonly start_s: number;
}

function timesByKernel(
  kernels: ColumnKernels,
  statistic: Statistic,
  { time_s, values, from, to, start_s }: Block,
): Times {
  kernels.times.set(time_s.subarray(from, to));
  kernels.values.set(values.subarray(from, to));
  kernels.beginSums(start_s);
  statistic.times(kernels, to - from);
  return { readings: kernels.readingsFound(), sum_s: kernels.timesFound() };
}

function timesByScript({ time_s, values, from, to, start_s }: Block): Times {
  let sum_s = 0;
  let readings = 0;
  for (let i = from; i < to; i++) {
    if (Number.isNaN(values[i] ?? NaN)) continue;
    readings++;
    sum_s += (time_s[i] ?? NaN) - start_s;
  }
  return { readings, sum_s };
}
