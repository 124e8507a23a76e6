import { SetAside, type Channel } from '#formats/log.ts';
import { shareLevels } from '#signal/levels.ts';
import { median } from '#statistics/median.ts';
import { copyOf } from '#statistics/like.ts';
import { eachMarked } from './marked-rows.ts';
import { at, without, type Rows, type Timeline } from './timeline.ts';

/** A range's end counts as met within this share of the span: raw signals are scaled, and the last bits differ. */
const END_TOLERANCE = 1e-9;
/** So many readings at the range's end are no chance: the sensor is clipped (definitions, "Readings set aside"). */
const CLIPPED_FROM = 3;
/** A zero that wanders by less than this share of the span below the range's low end is a zero, not a fault. Common practice, no source. */
const ZERO_SHARE = 0.01;
/** One value for so long, and for so many samples, is stuck. */
const STUCK_s = 60;
const STUCK_SAMPLES = 60;
/** …but only where the run's typical stretch of that many samples shows at least so many different values. */
const LIVELY_VALUES = 5;
/** …and turns back and forth so often (white noise does in two of three readings). */
const LIVELY_TURNS = 10;
/** Stretches looked at to find the typical one. */
const STRETCHES_LOOKED_AT = 400;

/** Readings at an end of the range that were set aside, by end. */
export interface Clipped {
  upper: number;
  lower: number;
}

/**
 * Sets `outOfRange` for readings beyond the rig's stated range and for readings that stand at its ends.
 * Above the upper end, or more than 1 % of the span below the lower end: always. At the upper end: where three or more do. At the
 * lower end, or just below it: where three or more do and the unit at rest reads more than 1 % of the span above it (an idle gauge
 * at 0 is not clipped).
 * @param flags changed in place; readings set aside before are left
 * @param range in the column's unit
 * @param atRest reading at rest in the column's unit, null where it is not known (then nothing is clipped at the lower end)
 */
export function flagOutOfRange(
  channel: Channel,
  flags: Uint8Array,
  range: { low: number; high: number },
  atRest: number | null,
): Clipped {
  const span = range.high - range.low,
    top = range.high - END_TOLERANCE * span,
    above = range.high + END_TOLERANCE * span,
    bottom = range.low + END_TOLERANCE * span,
    below = range.low - ZERO_SHARE * span;
  let upper = 0,
    lower = 0;
  for (let i = 0; i < flags.length; i++) {
    if (flags[i] !== SetAside.kept) continue;
    const value = channel.values[i] ?? NaN;
    if (value > above || value < below) flags[i] = SetAside.outOfRange;
    else if (value >= top) upper++;
    else if (value <= bottom) lower++;
  }
  const clipsUpper = upper >= CLIPPED_FROM,
    clipsLower = lower >= CLIPPED_FROM && atRest !== null && atRest > range.low + ZERO_SHARE * span;
  if (clipsUpper || clipsLower)
    for (let i = 0; i < flags.length; i++) {
      if (flags[i] !== SetAside.kept) continue;
      const value = channel.values[i] ?? NaN;
      if ((clipsUpper && value >= top) || (clipsLower && value <= bottom)) flags[i] = SetAside.outOfRange;
    }
  return { upper: clipsUpper ? upper : 0, lower: clipsLower ? lower : 0 };
}

/** Readings so little above the range's end, as a share of the span, stand at it; what lies higher is a fault level. Common practice, no source. */
const END_SHARE = 0.05;
/**
 * Whether a reading stands at the upper end of a range: how high it was is not known, but that it was there.
 * @param beyond share of the span above the end that still counts as it; 0: to the digit
 */
export function isAtUpperEnd(
  value: number,
  { low, high }: { low: number; high: number },
  beyond: number,
): boolean {
  const span = high - low;
  return value >= high - END_TOLERANCE * span && value <= high + Math.max(END_TOLERANCE, beyond) * span;
}

/**
 * Readings with those that were set aside at the upper end of the range put back as that end: what was there was at least so much.
 * The array itself where there are none.
 * @param read any readings of the channel, NaN where set aside
 * @param end the range's upper end in their unit, corrected as they are
 * @param beyond as in {@link isAtUpperEnd}
 */
export function withRangeEnd(
  { channel, flags }: { channel: Channel; flags: Uint8Array },
  range: { low: number; high: number },
  read: Float64Array,
  end: number,
  beyond = END_SHARE,
): Float64Array {
  let result = read;
  eachMarked(flags, 0, flags.length, (i) => {
    if (flags[i] !== SetAside.outOfRange || channel.flags[i] !== SetAside.kept) return;
    if (!isAtUpperEnd(channel.values[i] ?? NaN, range, beyond)) return;
    if (result === read) result = copyOf(read);
    result[i] = end;
  });
  return result;
}

/** What the search for a stuck sensor found. */
export interface Stuck {
  /** Readings set aside. */
  count: number;
  /** Longest stretch of one value in the engaged rows, seconds. */
  longest_s: number;
  /** The column is too coarse to tell a stuck sensor from a steady unit: nothing was set aside. */
  tooCoarse: boolean;
  /** The column holds one single value from the log's first to its last reading. */
  single: boolean;
}

/**
 * Sets `stuck` where a column reads one value, to the digit, for 60 s and 60 samples or more, counted from the second sample of
 * such a stretch; only in engaged rows (a gauge at rest is not stuck) and only where the typical 60-sample stretch is lively.
 * @param flags changed in place
 * @param pieces engaged rows without a break inside, in order
 */
export function flagStuck(
  timeline: Timeline,
  channel: Channel,
  flags: Uint8Array,
  pieces: readonly Rows[],
): Stuck {
  const found: { from: number; to: number }[] = [];
  let longest_s = 0;
  for (const piece of pieces)
    for (const stretch of sameValue(channel.values, flags, piece)) {
      const lasted_s = at(timeline.time_s, stretch.to - 1) - at(timeline.time_s, stretch.from);
      if (stretch.readings < STUCK_SAMPLES) continue;
      longest_s = Math.max(longest_s, lasted_s);
      if (lasted_s >= STUCK_s) found.push(stretch);
    }
  const single = isSingle(channel.values, flags);
  if (found.length === 0 || single) return { count: 0, longest_s, tooCoarse: false, single };
  if (typicalDifferent(channel.values, flags, without(pieces, found)) < LIVELY_VALUES)
    return { count: 0, longest_s, tooCoarse: true, single };
  let count = 0;
  for (const { from, to } of found) {
    let first = true;
    for (let i = from; i < to; i++) {
      if (flags[i] !== SetAside.kept) continue;
      if (!first) {
        flags[i] = SetAside.stuck;
        count++;
      }
      first = false;
    }
  }
  return { count, longest_s, tooCoarse: false, single };
}

type Stretch = Rows & { readings: number };

/**
 * Long stretches of kept readings with one value; readings set aside within them are passed over. Of rows so far apart that every such
 * stretch holds two neighbours of them, only those are looked about that read the same: nearly none does in a column that is alive.
 */
function sameValue(values: Float64Array, flags: Uint8Array, piece: Rows): Stretch[] {
  const stretches: Stretch[] = [];
  const apart = STUCK_SAMPLES >> 1;
  for (let row = piece.from; ;) {
    row = firstAlike(values, flags, row, piece.to, apart);
    if (row + apart >= piece.to) return stretches;
    let last = row + apart;
    while (last + apart < piece.to && firstAlike(values, flags, last, last + apart + 1, apart) === last)
      last += apart;
    const about = { from: Math.max(piece.from, row - apart + 1), to: Math.min(piece.to, last + apart) };
    stretches.push(...sameValueAbout(values, flags, about));
    row = last + apart;
  }
}

/** First of the rows so far apart that may have the value of the next of them; one without such a next for none. */
function firstAlike(
  values: Float64Array,
  flags: Uint8Array,
  from: number,
  to: number,
  apart: number,
): number {
  let row = from;
  for (; row + apart < to; row += apart)
    if (
      flags[row] !== SetAside.kept ||
      flags[row + apart] !== SetAside.kept ||
      values[row] === values[row + apart]
    )
      break;
  return row;
}

function sameValueAbout(values: Float64Array, flags: Uint8Array, piece: Rows): Stretch[] {
  const stretches: Stretch[] = [];
  let from = -1,
    last = -1,
    readings = 0;
  for (let i = piece.from; i < piece.to; i++) {
    if (flags[i] !== SetAside.kept) continue;
    if (last >= 0 && (values[i] ?? NaN) === (values[last] ?? NaN)) {
      readings++;
      last = i;
      continue;
    }
    if (readings >= STUCK_SAMPLES) stretches.push({ from, to: last + 1, readings });
    from = last = i;
    readings = 1;
  }
  if (readings >= STUCK_SAMPLES) stretches.push({ from, to: last + 1, readings });
  return stretches;
}

/**
 * Median number of different values among 60 neighbouring kept readings, where no stretch of one value lies: a sensor that is stuck
 * for most of a run must not make its own column pass for coarse. A pressure that climbs, comes back or leaks down shows many values
 * however steady the unit is: readings that scatter turn back and forth as well. 0 where there are no such 60 readings.
 */
function typicalDifferent(values: Float64Array, flags: Uint8Array, pieces: readonly Rows[]): number {
  let total = 0;
  for (const { from, to } of pieces) total += to - from;
  const stride = Math.max(STUCK_SAMPLES, Math.floor(total / STRETCHES_LOOKED_AT));
  const counts: number[] = [];
  for (const piece of pieces)
    for (let from = piece.from; from + STUCK_SAMPLES <= piece.to; from += stride) {
      const seen = new Set<number>();
      let turns = 0,
        last = NaN,
        direction = 0;
      for (let i = from; i < from + STUCK_SAMPLES; i++) {
        if (flags[i] !== SetAside.kept) continue;
        const value = at(values, i);
        seen.add(value);
        if (value !== last && !Number.isNaN(last)) {
          const now = value > last ? 1 : -1;
          if (now === -direction) turns++;
          direction = now;
        }
        last = value;
      }
      counts.push(turns >= LIVELY_TURNS ? seen.size : 1);
    }
  counts.sort((a, b) => a - b);
  return counts[counts.length >>> 1] ?? 0;
}

function isSingle(values: Float64Array, flags: Uint8Array): boolean {
  let first = NaN,
    readings = 0;
  for (let i = 0; i < values.length; i++) {
    if (flags[i] !== SetAside.kept) continue;
    readings++;
    if (Number.isNaN(first)) first = values[i] ?? NaN;
    else if ((values[i] ?? NaN) !== first) return false;
  }
  return readings >= STUCK_SAMPLES;
}

/** Makes the median of absolute differences of neighbours the standard deviation of white noise: 1.4826/√2. */
const DIFFERENCE_SCALE = 1.4826 / Math.sqrt(2);
/** Differences looked at. */
const DIFFERENCES = 20_000;

/**
 * The least scale of the spike test: one step of the indication, or the column's usual noise if that is more: a window
 * that happens to be quiet does not make its neighbours spikes (six times the deviation of 21 readings of white noise flags a few in
 * ten thousand of them).
 * @param resolution null where none is known
 * @param pieces rows to take the noise from; all without one
 */
export function spikeFloor(
  values: Float64Array,
  flags: Uint8Array,
  resolution: number | null,
  pieces: readonly Rows[] = [],
): number {
  const where = pieces.length > 0 ? pieces : [{ from: 0, to: values.length }];
  const total = where.reduce((sum, { from, to }) => sum + to - from, 0),
    stride = Math.max(1, Math.floor(total / DIFFERENCES));
  const differences = new Float64Array(Math.ceil(total / stride));
  let found = 0;
  for (const rows of where) found = addDifferences(values, flags, rows, stride, differences, found);
  const usual = found === 0 ? 0 : DIFFERENCE_SCALE * median(differences.subarray(0, found));
  return Math.max(resolution ?? 0, usual);
}

/** Distances of kept neighbours, some rows apart, into a list from a place on. @returns the place behind the last */
function addDifferences(
  values: Float64Array,
  flags: Uint8Array,
  { from, to }: Rows,
  stride: number,
  list: Float64Array,
  place: number,
): number {
  let found = place;
  for (let i = from + 1; i < to; i += stride)
    if (flags[i] === SetAside.kept && flags[i - 1] === SetAside.kept)
      list[found++] = Math.abs((values[i] ?? NaN) - (values[i - 1] ?? NaN));
  return found;
}

/** Readings that still count: the others become NaN. The array itself where nothing was set aside. */
export function keptValues(values: Float64Array, flags: Uint8Array): Float64Array {
  let result = values;
  eachMarked(flags, 0, flags.length, (row) => {
    // A reading that is missing is NaN already.
    if (result === values && flags[row] === SetAside.missing) return;
    if (result === values) result = copyOf(values);
    result[row] = NaN;
  });
  if (result !== values) shareLevels(result, values);
  return result;
}

/** A stretch of seconds in rows, at least `samples`: for windows that are said in both. */
export function windowOf(timeline: Timeline, seconds: number, samples: number): number {
  return Math.max(seconds, samples * timeline.medianInterval_s);
}
