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
    const found = medianOfMany(values.length, blocksOf(values));
    if (found !== null) return found;
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
  const list = new Float64Array(BLOCK_ROWS);
  const some = (from: number, to: number): Float64Array => {
    distances(values, others, from, to, list);
    return list.subarray(0, to - from);
  };
  const found = values.length >= MANY ? medianOfMany(values.length, some) : null;
  if (found !== null) return found;
  const all = new Float64Array(values.length);
  distances(values, others, 0, values.length, all);
  return median(all);
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

function blocksOf(values: ArrayLike<number>): Blocks {
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
function medianOfMany(length: number, blocks: Blocks): number | null {
  const ends: Ends = { count: 0, lowest: Infinity, highest: -Infinity };
  inBlocks(0, length, (from, to) => lookFor(blocks(from, to), ends));
  const { count, lowest, highest } = ends;
  const scale = (BUCKETS - 1) / (highest - lowest);
  if (!(scale > 0 && scale < Infinity)) return null;
  const held = new Int32Array(BUCKETS + 1);
  inBlocks(0, length, (from, to) => countInto(held, blocks(from, to), lowest, scale));
  const upper = count >> 1;
  let bucket = 0;
  let below = 0;
  for (; bucket < held.length && below + (held[bucket] ?? 0) <= upper; bucket++) below += held[bucket] ?? 0;
  const inside = held[bucket] ?? 0;
  if (inside > count / 4) return null;
  const middle: Middle = { bucket, kept: new Float64Array(inside), next: 0, largestBelow: -Infinity };
  inBlocks(0, length, (from, to) => takeOut(middle, blocks(from, to), lowest, scale));
  const high = selected(middle.kept, upper - below);
  if (count % 2 === 1) return high;
  return ((upper > below ? largestBefore(middle.kept, upper - below) : middle.largestBelow) + high) / 2;
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
