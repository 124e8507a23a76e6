import { weightedShares } from '#signal/weighted-sums.ts';
import { inBlocks } from '#statistics/in-blocks.ts';
import type { Hold } from './hold.ts';
import { kernelWeights } from './pieces.ts';
import { weight_s, type Timeline } from './timeline.ts';

/** Limits in the judged unit; null for an open side. */
export interface Band {
  low: number | null;
  high: number | null;
}

/** Shares of the hold's recorded time. */
export interface BandShares {
  inside: number;
  above: number;
  below: number;
}

/**
 * Shares of the hold's recorded time with the smoothed pressure inside, above and below limits that belong to the band.
 * @param smoothed NaN for none: such rows do not count
 * @returns null where nothing is recorded
 */
export function bandShares(
  timeline: Timeline,
  hold: Hold,
  smoothed: Float64Array,
  { low, high }: Band,
): BandShares | null {
  const most = high ?? Infinity,
    least = low ?? -Infinity;
  const { total, above, below } =
    kernelWeights(timeline, (weights) =>
      weightedShares({ ...weights, values: smoothed, rows: hold.pieces }, least, most),
    ) ?? sharesByScript(timeline, hold, smoothed, least, most);
  if (!(total > 0)) return null;
  return { inside: (total - above - below) / total, above: above / total, below: below / total };
}

/** Weight inside and outside of the limits by the script's own loop; kernels give the same bits. */
export function sharesByScript(
  timeline: Timeline,
  hold: Hold,
  smoothed: Float64Array,
  least: number,
  most: number,
): { total: number; above: number; below: number } {
  const all = { total: 0, above: 0, below: 0 };
  for (const piece of hold.pieces)
    inBlocks(piece.from, piece.to, (from, to) => addShares(timeline, smoothed, least, most, all, from, to));
  return all;
}

/** Some rows more. */
function addShares(
  timeline: Timeline,
  smoothed: Float64Array,
  least: number,
  most: number,
  all: { total: number; above: number; below: number },
  from: number,
  to: number,
): void {
  let { total, above, below } = all;
  for (let i = from; i < to; i++) {
    const value = smoothed[i] ?? NaN;
    if (value !== value) continue;
    const w = weight_s(timeline, i);
    total += w;
    // A band drawn in until it is empty has its low limit above its high one: such a reading counts once.
    if (value > most) above += w;
    else if (value < least) below += w;
  }
  all.total = total;
  all.above = above;
  all.below = below;
}
