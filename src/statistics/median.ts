import { inBlocks } from './in-blocks.ts';
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
    const found = medianOfMany(values);
    if (found !== null) return found;
  }
  const kept = packed(values);
  if (kept.length === 0) return NaN;
  const upper = kept.length >> 1;
  const high = selected(kept, upper);
  return kept.length % 2 === 1 ? high : (largestBefore(kept, upper) + high) / 2;
}

/**
 * The same, counted into buckets of equal width: rounding never puts a larger reading into a lower bucket, so that the middle is in
 * the bucket that the counts say. Only that bucket's readings are copied and searched.
 * @returns null where the buckets tell too little: a far outlier, readings all alike
 */
function medianOfMany(values: ArrayLike<number>): number | null {
  const all = { count: 0, lowest: Infinity, highest: -Infinity };
  inBlocks(0, values.length, (from, to) => {
    let { count, lowest, highest } = all;
    for (let i = from; i < to; i++) {
      const value = values[i] ?? NaN;
      // Neither NaN nor infinite.
      if (value - value !== 0) continue;
      count++;
      if (value < lowest) lowest = value;
      if (value > highest) highest = value;
    }
    all.count = count;
    all.lowest = lowest;
    all.highest = highest;
  });
  const { count, lowest, highest } = all;
  const scale = (BUCKETS - 1) / (highest - lowest);
  if (!(scale > 0 && scale < Infinity)) return null;
  const held = new Int32Array(BUCKETS + 1);
  inBlocks(0, values.length, (from, to) => {
    for (let i = from; i < to; i++) {
      const value = values[i] ?? NaN;
      if (value - value !== 0) continue;
      const its = ((value - lowest) * scale) | 0;
      held[its] = (held[its] ?? 0) + 1;
    }
  });
  const upper = count >> 1;
  let bucket = 0;
  let below = 0;
  for (; bucket < held.length && below + (held[bucket] ?? 0) <= upper; bucket++) below += held[bucket] ?? 0;
  const inside = held[bucket] ?? 0;
  if (inside > count / 4) return null;
  const kept = new Float64Array(inside);
  const found = { next: 0, largestBelow: -Infinity };
  const middle = bucket;
  inBlocks(0, values.length, (from, to) => {
    let { next, largestBelow } = found;
    for (let i = from; i < to; i++) {
      const value = values[i] ?? NaN;
      if (value - value !== 0) continue;
      const its = ((value - lowest) * scale) | 0;
      if (its < middle) largestBelow = value > largestBelow ? value : largestBelow;
      else if (its === middle) kept[next++] = value;
    }
    found.next = next;
    found.largestBelow = largestBelow;
  });
  const high = selected(kept, upper - below);
  if (count % 2 === 1) return high;
  return ((upper > below ? largestBefore(kept, upper - below) : found.largestBelow) + high) / 2;
}
