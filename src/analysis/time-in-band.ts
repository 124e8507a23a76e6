import { extentsOf } from './extents.ts';
import type { Hold } from './hold.ts';
import { weightIn_s, type Timeline } from './timeline.ts';

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
  const total = recorded_s(timeline, hold, smoothed);
  if (!(total > 0)) return null;
  const all = { above: 0, below: 0 };
  const most = high ?? Infinity,
    least = low ?? -Infinity;
  const extents = extentsOf(smoothed);
  for (const piece of hold.pieces)
    extents.inBlocks(piece, (from, to, block) => {
      if (extents.most(block) > most || extents.least(block) < least)
        addOutside(timeline, smoothed, least, most, all, from, to);
    });
  const { above, below } = all;
  return { inside: (total - above - below) / total, above: above / total, below: below / total };
}

/** What was found of the smoothed pressure last looked at: limits drawn in and moved out are asked of the same hold. */
const known = new WeakMap<Float64Array, { hold: Hold; total_s: number }>();

/** Recorded time of a hold. */
function recorded_s(timeline: Timeline, hold: Hold, smoothed: Float64Array): number {
  const before = known.get(smoothed);
  if (before?.hold === hold) return before.total_s;
  const all = { total: 0 };
  for (const piece of hold.pieces)
    extentsOf(smoothed).inBlocks(piece, (from, to) => addRecorded(timeline, smoothed, all, from, to));
  known.set(smoothed, { hold, total_s: all.total });
  return all.total;
}

/** Some rows more. */
function addRecorded(
  timeline: Timeline,
  smoothed: Float64Array,
  all: { total: number },
  from: number,
  to: number,
): void {
  const { time_s, medianInterval_s, shared_s } = timeline;
  let { total } = all;
  for (let i = from; i < to; i++) {
    const value = smoothed[i] ?? NaN;
    if (value === value) total += weightIn_s(time_s, medianInterval_s, shared_s, i);
  }
  all.total = total;
}

/** Some rows more. */
function addOutside(
  timeline: Timeline,
  smoothed: Float64Array,
  least: number,
  most: number,
  all: { above: number; below: number },
  from: number,
  to: number,
): void {
  const { time_s, medianInterval_s, shared_s } = timeline;
  let { above, below } = all;
  for (let i = from; i < to; i++) {
    const value = smoothed[i] ?? NaN;
    // A band drawn in until it is empty has its low limit above its high one: such a reading counts once.
    if (value > most) above += weightIn_s(time_s, medianInterval_s, shared_s, i);
    else if (value < least) below += weightIn_s(time_s, medianInterval_s, shared_s, i);
  }
  all.above = above;
  all.below = below;
}
