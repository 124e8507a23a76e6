import { smooth } from '#signal/smooth.ts';
import { sustainedMinimum } from '#signal/sustained-minimum.ts';
import { EXTENT_ROWS, extentsOf } from '#statistics/extents.ts';
import { windowOf } from './set-aside.ts';
import { applyLine, type ReadingLine } from './judged-pressure.ts';
import { at, GAP_INTERVALS, rowAfter, rowFrom, type Rows, type Timeline } from './timeline.ts';

/** Pressure counts for engaging and releasing as the median over 3 s or 5 samples, whichever is longer. */
const COUNTED_s = 3;
const COUNTED_SAMPLES = 5;
/** The sustained level is held for so long together. */
const SUSTAINED_s = 10;
/** Engaged from half of the level on. */
const ENGAGED_SHARE = 0.5;
/** Under this share of the band's low limit there is no engagement at all. */
const NO_ENGAGEMENT_SHARE = 0.1;

/**
 * Pressure as it counts for engaging and releasing.
 * @param values judged pressure, NaN where missing, fault or out of range
 */
export function countedPressure(timeline: Timeline, values: Float64Array): Float64Array {
  return smooth(
    timeline.time_s,
    values,
    { method: 'median', window_s: windowOf(timeline, COUNTED_s, COUNTED_SAMPLES) },
    timeline.gaps,
  );
}

/** Judged pressure as it counts for engaging, of some rows. */
export type CountedOver = (rows: Rows) => Float64Array;

/**
 * Works {@link countedPressure} out again for the rows that are asked for, the same to the bit: it is needed as a whole once, and later
 * about a few releases only, where a kept list would be as long as the log.
 */
export function countedOver(timeline: Timeline, values: Float64Array, line: ReadingLine): CountedOver {
  const { time_s } = timeline,
    reach_s = windowOf(timeline, COUNTED_s, COUNTED_SAMPLES);
  return ({ from, to }) => {
    if (to <= from) return new Float64Array(0);
    const first = Math.max(0, Math.min(rowFrom(time_s, at(time_s, from) - reach_s), from - COUNTED_SAMPLES)),
      end = Math.max(rowAfter(time_s, at(time_s, to - 1) + reach_s), to + COUNTED_SAMPLES);
    const part = { ...timeline, time_s: time_s.subarray(first, end) };
    return applyLine(countedPressure(part, values.subarray(first, end)), line).subarray(
      from - first,
      to - first,
    );
  };
}

/**
 * The highest value that a reading stays at or above for a time together, or for the whole stretch if that is shorter. O(n).
 * @param values NaN for no reading: passed over
 * @param overGaps readings on both sides of a gap count as together
 * @returns null without a reading
 */
export function sustainedLevel(
  timeline: Timeline,
  values: Float64Array,
  rows: Rows,
  atLeast_s = SUSTAINED_s,
  overGaps = false,
): number | null {
  const { time_s, medianInterval_s } = timeline;
  const gap_s = overGaps ? Infinity : GAP_INTERVALS * medianInterval_s;
  const { best, lowest } = sustainedMinimum({
    time_s,
    values,
    ...rows,
    interval_s: medianInterval_s,
    gap_s,
    atLeast_s,
  });
  if (best > -Infinity) return best;
  if (lowest === Infinity) return null;
  // A logger that writes in bursts shorter than that: what it stayed above from burst to burst.
  return overGaps ? lowest : sustainedLevel(timeline, values, rows, atLeast_s, true);
}

/**
 * A value that parts readings as a share of their {@link sustainedLevel} does, told without looking for that level: it lies between the
 * one of a single block of rows and the highest reading, and as a rule no reading lies where that leaves it open.
 * @param levelled readings that the level is of
 * @param values readings that are parted: of each it says whether it reaches the share
 * @returns null where it is not sure, or the level not above zero
 */
export function sureShareOfLevel(
  timeline: Timeline,
  { levelled, values }: { levelled: Float64Array; values: Float64Array },
  share: number,
  atLeast_s = SUSTAINED_s,
): number | null {
  const extents = extentsOf(levelled),
    highest = extents.of([timeline.part])?.max ?? NaN;
  let steadiest: Rows | null = null,
    most = 0;
  extents.inBlocks(timeline.part, (from, to, block) => {
    if (to - from < EXTENT_ROWS || !(extents.least(block) > most && extents.least(block) < Infinity)) return;
    most = extents.least(block);
    steadiest = { from, to };
  });
  if (steadiest === null) return null;
  const { time_s, medianInterval_s } = timeline;
  const { best } = sustainedMinimum({
    time_s,
    values: levelled,
    ...(steadiest as Rows),
    interval_s: medianInterval_s,
    gap_s: GAP_INTERVALS * medianInterval_s,
    atLeast_s,
  });
  if (!(best > 0)) return null;
  const open = share * best,
    end = share * highest;
  const all = extentsOf(values);
  let isSure = true;
  all.inBlocks({ from: 0, to: values.length }, (from, to, block) => {
    if (all.most(block) < open || all.least(block) >= end) return;
    for (let i = from; isSure && i < to; i++) {
      const value = values[i] ?? NaN;
      if (value >= open && value < end) isSure = false;
    }
  });
  return isSure ? end : null;
}

/** From which pressure on a unit counts as engaged, and the level that it was taken from. */
export interface EngagedLevel {
  sustained: number | null;
  /** null: there is no engagement. */
  level: number | null;
}

/**
 * Engaged level: half of the smaller of the band's low limit and the sustained level; without a low limit half of the sustained
 * level. None where the sustained level is under a tenth of the low limit, or not above zero.
 * @param low the band's low limit in the judged unit, null where there is none
 */
export function engagedLevel(sustained: number | null, low: number | null): EngagedLevel {
  if (sustained === null || sustained <= 0 || (low !== null && sustained < NO_ENGAGEMENT_SHARE * low))
    return { sustained, level: null };
  return { sustained, level: ENGAGED_SHARE * (low === null ? sustained : Math.min(low, sustained)) };
}
