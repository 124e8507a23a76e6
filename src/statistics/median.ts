import { inPieces, withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import { BLOCK_ROWS, inBlocks } from './in-blocks.ts';
import { largestBefore, packed, selected } from './selection.ts';

/** From so many readings on they are counted into buckets first. */
const MANY = 16_384;
const BUCKETS = 8192;

/**
 * Middle value of the readings; of an even number, the mean of the two middle ones.
 * @param values unsorted, NaN for no reading
 * @returns NaN where there is none
 * Cost: about n.
 * @example median([3, NaN, 1, 2]) // 2
 */
export function median(values: ArrayLike<number>): number {
  if (values.length >= MANY) {
    const found = values instanceof Float64Array ? manyInKernel(values, null) : NOT_TRIED;
    const told = found === NOT_TRIED ? medianOfMany(values.length, blocksOf(values)) : found;
    if (told !== null) return told;
  }
  const kept = packed(values);
  if (kept.length === 0) return NaN;
  const upper = kept.length >> 1;
  const high = selected(kept, upper);
  return kept.length % 2 === 1 ? high : (largestBefore(kept, upper) + high) / 2;
}

/**
 * Median of the distances of readings from others of the same places; of many, without a list of all distances.
 * @param others same length, NaN for none
 * @returns NaN where there is none
 * @example medianDistance(Float64Array.of(1, 5, 9), Float64Array.of(2, 5, 2)) // 1
 */
export function medianDistance(values: Float64Array, others: Float64Array): number {
  if (values.length >= MANY) {
    const near = withColumnKernels(values.length, (kernels) => distanceBySample(kernels, values, others));
    if (near !== null) return near;
    const found = manyInKernel(values, others);
    const told = found === NOT_TRIED ? medianOfManyDistances(values, others) : found;
    if (told !== null) return told;
  }
  const all = new Float64Array(values.length);
  distances(values, others, 0, values.length, all);
  return median(all);
}

/** Readings that a sample looks at, and how many of them on either side of its middle are sure to hold that of all. */
const SAMPLED = 4096;
const EITHER_SIDE = 150;

/**
 * The same in one pass, by kernels: a sample tells limits between which the middle lies, and only what is between them is taken out and
 * searched. (A sample's median strays by half the root of its size, here 32 places.)
 * @returns null where the sample misled, or where too much lies between the limits
 */
export function distanceBySample(
  kernels: ColumnKernels,
  values: Float64Array,
  others: Float64Array,
): number | null {
  const sampled = Math.min(SAMPLED, values.length),
    sample = new Float64Array(sampled);
  for (let k = 0; k < sampled; k++) {
    const place = Math.floor((k * values.length) / sampled);
    sample[k] = Math.abs((values[place] ?? NaN) - (others[place] ?? NaN));
  }
  const sorted = packed(sample).sort(),
    centre = sorted.length >> 1,
    least = sorted[centre - EITHER_SIDE] ?? NaN,
    most = sorted[centre + EITHER_SIDE] ?? NaN;
  if (!(least <= most)) return null;
  const kept = new Float64Array(values.length >> 2);
  let inside = 0;
  kernels.beginBetween();
  inPieces(0, values.length, (from, to) => {
    if (inside > kept.length) return;
    kernels.values.set(values.subarray(from, to));
    kernels.times.set(others.subarray(from, to));
    kernels.takeDistances(to - from);
    const taken = kernels.takeBetween(to - from, least, most);
    if (inside + taken <= kept.length) kept.set(kernels.results.subarray(0, taken), inside);
    inside += taken;
  });
  if (inside > kept.length) return null;
  const count = kernels.manyCount(),
    place = (count >> 1) - kernels.manyUnder();
  // Both middle ones of an even number.
  if (place < 1 || place >= inside) return null;
  return middleOf(kept.subarray(0, inside), -Infinity, kernels.manyUnder(), count);
}

function medianOfManyDistances(values: Float64Array, others: Float64Array): number | null {
  const list = new Float64Array(BLOCK_ROWS);
  return medianOfMany(values.length, (from, to) => {
    distances(values, others, from, to, list);
    return list.subarray(0, to - from);
  });
}

function distances(
  values: Float64Array,
  others: Float64Array,
  from: number,
  to: number,
  list: Float64Array,
): void {
  for (let i = from; i < to; i++) list[i - from] = Math.abs((values[i] ?? NaN) - (others[i] ?? NaN));
}

/** Readings of some places in a list of their own, good until the next call. */
type Blocks = (from: number, to: number) => ArrayLike<number>;

/** Blocks of a list that is there. */
export function blocksOf(values: ArrayLike<number>): Blocks {
  return values instanceof Float64Array
    ? (from, to) => values.subarray(from, to)
    : (from, to) =>
        Array.prototype.slice.call<ArrayLike<number>, [number, number], number[]>(values, from, to);
}

/** Of the readings that count; of the bucket in the middle, and the largest reading below it. */
interface Ends {
  count: number;
  lowest: number;
  highest: number;
}
interface Middle {
  readonly bucket: number;
  readonly kept: Float64Array;
  next: number;
  largestBelow: number;
}

/**
 * The median of many readings, counted into buckets of equal width: rounding never puts a larger reading into a lower bucket, so that
 * the middle is in the bucket that the counts say. Only that bucket's readings are copied and searched.
 * @returns null where the buckets tell too little: a far outlier, readings all alike
 */
export function medianOfMany(length: number, blocks: Blocks): number | null {
  const ends: Ends = { count: 0, lowest: Infinity, highest: -Infinity };
  inBlocks(0, length, (from, to) => lookFor(blocks(from, to), ends));
  const { count, lowest, highest } = ends;
  const scale = (BUCKETS - 1) / (highest - lowest);
  if (!(scale > 0 && scale < Infinity)) return null;
  const held = new Int32Array(BUCKETS + 1);
  inBlocks(0, length, (from, to) => countInto(held, blocks(from, to), lowest, scale));
  const found = bucketOf(held, count);
  if (found === null) return null;
  const middle: Middle = {
    bucket: found.bucket,
    kept: new Float64Array(found.inside),
    next: 0,
    largestBelow: -Infinity,
  };
  inBlocks(0, length, (from, to) => takeOut(middle, blocks(from, to), lowest, scale));
  return middleOf(middle.kept, middle.largestBelow, found.below, count);
}

/** No kernel was there, or it had something else to do. */
const NOT_TRIED = 'not tried';

function manyInKernel(values: Float64Array, others: Float64Array | null): number | null | typeof NOT_TRIED {
  let found: number | null | typeof NOT_TRIED = NOT_TRIED;
  withColumnKernels(values.length, (kernels) => {
    found = medianOfManyByKernel(kernels, values, others);
  });
  return found;
}

/**
 * {@link medianOfMany} by kernels.
 * @param others of the distances from these; null for the readings themselves
 */
export function medianOfManyByKernel(
  kernels: ColumnKernels,
  values: Float64Array,
  others: Float64Array | null,
): number | null {
  const along = (over: (rows: number) => void): void => {
    inPieces(0, values.length, (from, to) => {
      kernels.values.set(values.subarray(from, to));
      if (others !== null) {
        kernels.times.set(others.subarray(from, to));
        kernels.takeDistances(to - from);
      }
      over(to - from);
    });
  };
  kernels.beginMany();
  along((rows) => kernels.lookAtMany(rows));
  const count = kernels.manyCount(),
    scale = (BUCKETS - 1) / (kernels.manyHighest() - kernels.manyLowest());
  if (!(scale > 0 && scale < Infinity)) return null;
  along((rows) => kernels.countMany(rows, scale));
  const held = kernels.counts.slice(0, BUCKETS + 1);
  kernels.counts.fill(0, 0, BUCKETS + 1);
  const found = bucketOf(held, count);
  if (found === null) return null;
  const kept = new Float64Array(found.inside);
  let next = 0;
  along((rows) => {
    const taken = kernels.takeBucket(rows, scale, found.bucket);
    kept.set(kernels.results.subarray(0, taken), next);
    next += taken;
  });
  return middleOf(kept, kernels.manyBelow(), found.below, count);
}

/** The bucket that holds the middle, its readings, and those below it; null where it holds too many to be of use. */
function bucketOf(held: Int32Array, count: number): { bucket: number; inside: number; below: number } | null {
  const upper = count >> 1;
  let bucket = 0;
  let below = 0;
  for (; bucket < held.length && below + (held[bucket] ?? 0) <= upper; bucket++) below += held[bucket] ?? 0;
  const inside = held[bucket] ?? 0;
  return inside > count / 4 ? null : { bucket, inside, below };
}

/** @param kept the readings of the bucket, changed in place @param largestBelow the largest of those below it */
function middleOf(kept: Float64Array, largestBelow: number, below: number, count: number): number {
  const place = (count >> 1) - below,
    high = selected(kept, place);
  if (count % 2 === 1) return high;
  return ((place > 0 ? largestBefore(kept, place) : largestBelow) + high) / 2;
}

function lookFor(list: ArrayLike<number>, ends: Ends): void {
  let { count, lowest, highest } = ends;
  for (let i = 0; i < list.length; i++) {
    const value = list[i] ?? NaN;
    // Neither NaN nor infinite.
    if (value - value !== 0) continue;
    count++;
    if (value < lowest) lowest = value;
    if (value > highest) highest = value;
  }
  ends.count = count;
  ends.lowest = lowest;
  ends.highest = highest;
}

function countInto(held: Int32Array, list: ArrayLike<number>, lowest: number, scale: number): void {
  for (let i = 0; i < list.length; i++) {
    const value = list[i] ?? NaN;
    if (value - value !== 0) continue;
    const bucket = ((value - lowest) * scale) | 0;
    held[bucket] = (held[bucket] ?? 0) + 1;
  }
}

function takeOut(middle: Middle, list: ArrayLike<number>, lowest: number, scale: number): void {
  const { bucket, kept } = middle;
  let { next, largestBelow } = middle;
  for (let i = 0; i < list.length; i++) {
    const value = list[i] ?? NaN;
    if (value - value !== 0) continue;
    const its = ((value - lowest) * scale) | 0;
    if (its < bucket) largestBelow = value > largestBelow ? value : largestBelow;
    else if (its === bucket) kept[next++] = value;
  }
  middle.next = next;
  middle.largestBelow = largestBelow;
}
