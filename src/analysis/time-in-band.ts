import type { Hold } from './hold.ts';
import { at, weight_s, type Timeline } from './timeline.ts';

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
  let total = 0,
    above = 0,
    below = 0;
  for (const { from, to } of hold.pieces)
    for (let i = from; i < to; i++) {
      const value = at(smoothed, i);
      if (Number.isNaN(value)) continue;
      const w = weight_s(timeline, i);
      total += w;
      // A band drawn in until it is empty has its low limit above its high one: such a reading counts once.
      if (high !== null && value > high) above += w;
      else if (low !== null && value < low) below += w;
    }
  if (!(total > 0)) return null;
  return { inside: (total - above - below) / total, above: above / total, below: below / total };
}
