import { withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import { alongKernelWindows } from './kernel-windows.ts';
import { levelsOf } from './levels.ts';
import { MovingMedian } from './moving-median.ts';
import { WindowCursor, type TimeGap, type WindowSize } from './window.ts';

/** Half-open range of rows. */
export interface RowRange {
  from: number;
  to: number;
}
/** Windows, scale and protected rows of the identifier. */
export interface HampelOptions {
  /** Scale is never taken smaller: the gauge's resolution, else the smallest step between different readings. */
  resolution: number;
  gaps?: readonly TimeGap[];
  /** Rows where no reading is a spike: about engage and release instants the pressure really jumps. */
  protect?: readonly RowRange[];
  /** Distance from the median, in scales, beyond which a reading is a spike. Default 6. */
  threshold?: number;
  /** The window: so many readings or seconds, whichever is longer. Defaults 21 and 2. */
  samples?: number;
  width_s?: number;
}

/** Makes the median absolute deviation of normal noise its standard deviation: 1/Φ⁻¹(0.75), to the usual four decimals. */
export const MAD_SCALE = 1.4826;
/** With fewer readings in the window nothing is tested. */
const FEWEST = 5;
/** Rows whose lowest and highest reading are looked at together. */
const BLOCK_BITS = 6;
const BLOCK = 1 << BLOCK_BITS;

/**
 * Spikes by the Hampel identifier: readings further than threshold × scale from the median of a centred window, with
 * scale = max(1.4826 × median absolute deviation, resolution). Without that floor a quantised, quiet log has a deviation of
 * zero and every change is a spike.
 * @param time_s never falls
 * @param values same length; NaN for no reading (and for what is already set aside)
 * @returns a byte a row: 1 for a spike
 * Cost: about n; nothing but doubtful readings has its deviation worked out in full.
 * @example hampel(t, Float64Array.of(30, 30, 30, 31, 30, 45, 30, 30, 30), { resolution: 1 }) // only the 45
 */
export function hampel(time_s: Float64Array, values: Float64Array, options: HampelOptions): Uint8Array {
  const threshold = options.threshold ?? 6;
  const search: SpikeSearch = {
    time_s,
    values,
    threshold,
    floor: threshold * options.resolution,
    size: { width_s: options.width_s ?? 2, samples: options.samples ?? 21 },
    gaps: options.gaps ?? [],
    spikes: new Uint8Array(values.length),
  };
  const { spikes } = search,
    done = withColumnKernels(values.length, (kernels) => spikesByKernel(kernels, search)) ?? 0;
  if (done < values.length) spikesByScript(search, done);
  for (const range of options.protect ?? []) spikes.fill(0, Math.max(0, range.from), Math.max(0, range.to));
  return spikes;
}

/** A column whose spikes are looked for. */
export interface SpikeSearch {
  readonly time_s: Float64Array;
  readonly values: Float64Array;
  readonly threshold: number;
  /** Every spike is further from its window's median. */
  readonly floor: number;
  readonly size: WindowSize;
  readonly gaps: readonly TimeGap[];
  /** A byte a row, all 0 before; gets 1 for a spike. */
  readonly spikes: Uint8Array;
}

/** @returns the row that it came to, as {@link alongKernelWindows} */
export function spikesByKernel(kernels: ColumnKernels, search: SpikeSearch): number {
  const { values, threshold, floor, spikes } = search,
    levels = levelsOf(values);
  if (levels === null) return 0;
  kernels.setSpikes(threshold * MAD_SCALE, floor);
  const { rows: most, marks, doubts, results } = kernels;
  return alongKernelWindows(kernels, { ...search, levels }, true, (from, closed) => {
    const rows = kernels.nextSpikes(closed, most);
    if (kernels.spikesFound() > 0) spikes.set(marks.subarray(0, rows), from);
    for (let k = 0; k < kernels.doubtsFound(); k++) {
      const row = doubts[k] ?? 0,
        median = results[k] ?? NaN;
      const deviation = deviationOf(values, doubts[k + most] ?? 0, doubts[k + 2 * most] ?? 0, median);
      if (isFar(Math.abs((values[row] ?? NaN) - median), threshold, deviation)) spikes[row] = 1;
    }
    return rows;
  });
}

/** @param row from which on spikes are looked for */
export function spikesByScript(search: SpikeSearch, row: number): void {
  const { time_s, values, threshold, floor, size, gaps, spikes } = search;
  const { lowest, highest } = blockExtents(values);
  const cursor = new WindowCursor(time_s, gaps, size);
  const moving = new MovingMedian(time_s, values, gaps, size);
  for (let from = row; from < values.length; from += BLOCK) {
    const to = Math.min(from + BLOCK, values.length);
    cursor.moveTo(from);
    const first = cursor.from >> BLOCK_BITS;
    cursor.moveTo(to - 1);
    const last = (cursor.to - 1) >> BLOCK_BITS;
    const low = extreme(lowest, first, last, Math.min),
      high = extreme(highest, first, last, Math.max);
    // The median of any of these windows lies between low and high: a reading that is near to both is near to it.
    if (high - low > floor) testRows({ moving, values, threshold, floor }, from, to, { low, high }, spikes);
  }
}

function extreme(
  values: Float64Array,
  first: number,
  last: number,
  of: (a: number, b: number) => number,
): number {
  let found = values[first] ?? NaN;
  for (let block = first + 1; block <= last; block++) found = of(found, values[block] ?? NaN);
  return found;
}

/** Marks the spikes of some rows whose windows' medians lie between low and high. */
function testRows(
  { moving, values, threshold, floor }: Test,
  from: number,
  to: number,
  { low, high }: { low: number; high: number },
  spikes: Uint8Array,
): void {
  for (let row = from; row < to; row++) {
    const value = values[row] ?? NaN;
    if (!(value - low > floor || high - value > floor)) continue;
    moving.moveTo(row);
    if (isSpike(moving, values, value, threshold, floor)) spikes[row] = 1;
  }
}

interface Test {
  moving: MovingMedian;
  values: Float64Array;
  threshold: number;
  floor: number;
}

/** Lowest and highest reading of each block of rows. */
function blockExtents(values: Float64Array): { lowest: Float64Array; highest: Float64Array } {
  const blocks = (values.length + BLOCK - 1) >> BLOCK_BITS;
  const lowest = new Float64Array(blocks);
  const highest = new Float64Array(blocks);
  for (let block = 0; block < blocks; block++) {
    let low = Infinity;
    let high = -Infinity;
    const end = Math.min((block + 1) << BLOCK_BITS, values.length);
    for (let row = block << BLOCK_BITS; row < end; row++) {
      const value = values[row] ?? NaN;
      if (value < low) low = value;
      if (value > high) high = value;
    }
    lowest[block] = low;
    highest[block] = high;
  }
  return { lowest, highest };
}

function isSpike(
  { window, cursor }: MovingMedian,
  values: Float64Array,
  value: number,
  threshold: number,
  floor: number,
): boolean {
  if (window.size < FEWEST) return false;
  const median = window.median();
  const distance = Math.abs(value - median);
  if (!(distance > floor)) return false;
  // A spike where distance > threshold × 1.4826 × MAD: where the MAD lies under this. More than half of the readings nearer
  // to the median than a little less than it: surely. Not even half within a little more: surely not. Else by the letter.
  const least = distance / (threshold * MAD_SCALE);
  const sure = least * (1 - 1e-9);
  const possible = least * (1 + 1e-9);
  const half = window.size / 2;
  if (window.near(median, possible) < half) return false;
  let near = 0;
  let maybe = 0;
  for (let i = cursor.from; i < cursor.to; i++) {
    const deviation = Math.abs((values[i] ?? NaN) - median);
    if (deviation < possible) {
      maybe++;
      if (deviation < sure) near++;
    }
    if (near > half) return true;
  }
  return maybe >= half && isFar(distance, threshold, deviationOf(values, cursor.from, cursor.to, median));
}

/** The test by the letter. */
const isFar = (distance: number, threshold: number, deviation: number): boolean =>
  distance > threshold * MAD_SCALE * deviation;

/** Median of the distances from the median. */
function deviationOf(values: Float64Array, from: number, to: number, median: number): number {
  const distances = values
    .slice(from, to)
    .map((value) => Math.abs(value - median))
    .filter((distance) => !Number.isNaN(distance))
    .sort();
  const middle = distances.length >> 1;
  const upper = distances[middle] ?? NaN;
  return distances.length % 2 === 1 ? upper : 0.5 * ((distances[middle - 1] ?? NaN) + upper);
}
