import type { ClockStep, Gap } from '#formats/log.ts';
import type { Remark } from '#formats/remark.ts';
import { withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import { stepsOf } from '#statistics/steps.ts';
import type { RawTime } from './raw-time.ts';

/** A log's time axis: never goes back; gaps and clock steps told (definitions, "Time"). */
export interface TimeAxis {
  time_s: Float64Array;
  /** Median of the positive intervals; 0 where there are none. */
  medianInterval_s: number;
  gaps: Gap[];
  clockSteps: ClockStep[];
  remarks: Remark[];
}

const GAP_FACTOR = 5;
/** Steps of the clock that get a sentence each. */
const STEPS_TOLD = 5;
const HOUR_S = 3600;
/** A whole hour is met within two sampling intervals, and within this at most. */
const WIDEST_TOLERANCE_S = 5;
/** Slower logs: every true gap would look like a clock set forward. */
const SLOWEST_FOR_FORWARD_S = 10;

/**
 * Makes the axis from the times as logged: clock steps by whole hours taken out, any other step back marked as a cut, the rest
 * left as it is; nothing is sorted. After a step the axis goes on one median interval after the last row.
 * @param record numbers that count the rows, one a row, or null: where they go on over a step back, the rows belong together
 */
export function timeAxis(raw: RawTime, record: Float64Array | null): TimeAxis {
  const { ticks, ticksPerSecond } = raw;
  const n = ticks.length;
  const median = medianPositiveStep(ticks);
  const hour = HOUR_S * ticksPerSecond;
  const tolerance = Math.min(2 * median, WIDEST_TOLERANCE_S * ticksPerSecond);
  const forwardCounts = raw.isClock && median <= SLOWEST_FOR_FORWARD_S * ticksPerSecond;
  const gapTicks = GAP_FACTOR * median;
  const gaps: Gap[] = [];
  const clockSteps: ClockStep[] = [];
  const remarks: Remark[] = [];
  let last = ticks[0] ?? 0,
    axis = 0,
    shift = -last;
  const state: Walked = { last, axis, shift };
  const usual: Usual = { ticksPerSecond, gapTicks, median };
  ticks[0] = 0;
  for (let i = 1; i < n; i++) {
    state.last = last;
    state.axis = axis;
    state.shift = shift;
    i = usualStretch(ticks, usual, state, i);
    if (i === n) break;
    last = state.last;
    axis = state.axis;
    const now = ticks[i] ?? 0;
    const interval = now - last;
    if (interval < 0 || (forwardCounts && interval >= hour - tolerance && interval > gapTicks)) {
      const step = interval - median;
      const hours = Math.round(step / hour);
      const whole = hours !== 0 && Math.abs(step - hours * hour) <= tolerance;
      const counted = record === null ? NaN : (record[i] ?? NaN) - (record[i - 1] ?? NaN);
      // Record numbers that jumped with the clock: the rows in between are missing, the clock was right.
      const trueGap = interval > 0 && counted > 1 && Math.abs(counted * median - interval) <= 0.1 * interval;
      if (interval < 0 || (whole && !trueGap)) {
        const goesOn = counted >= 1;
        const cuts = !whole && !goesOn;
        const at_s = axis / ticksPerSecond;
        shift = axis + median * (interval < 0 && goesOn ? counted : 1) - now;
        clockSteps.push({ at_s, step_s: step / ticksPerSecond, cuts });
        if (clockSteps.length <= STEPS_TOLD)
          remarks.push(stepRemark(at_s, step / ticksPerSecond, cuts, interval > 0, goesOn && !whole));
      }
    }
    last = now;
    const next = now + shift;
    if (median > 0 && next - axis >= gapTicks)
      gaps.push({ start_s: axis / ticksPerSecond, end_s: next / ticksPerSecond });
    axis = next;
    ticks[i] = next / ticksPerSecond;
  }
  const more = clockSteps.length - STEPS_TOLD;
  if (more > 0)
    remarks.push({
      code: 'clock-steps-more',
      text: `Jumps of the log's clock that are not named here: ${more}. A clock that does so cannot be relied on; look at the logger.`,
    });
  return { time_s: ticks, medianInterval_s: median / ticksPerSecond, gaps, clockSteps, remarks };
}

/** Rows that are gone over in one call: a function that is called often is compiled as a whole. */
const SOME_ROWS = 1024;

/** What is usual of a log's times. */
export interface Usual {
  readonly ticksPerSecond: number;
  readonly gapTicks: number;
  readonly median: number;
}

/** The last row's time as logged and on the axis, and what lies between the two. */
export interface Walked {
  last: number;
  axis: number;
  shift: number;
}

/** Goes over rows that follow one another as in every steady log. @returns the first row that does not; the log's end where all do */
function usualStretch(ticks: Float64Array, usual: Usual, state: Walked, from: number): number {
  const n = ticks.length;
  // Where the log stumbles again at once, handing rows over would be all that is done.
  let i = usualRows(ticks, usual, state, from, Math.min(n, from + SOME_ROWS));
  if (i < Math.min(n, from + SOME_ROWS)) return i;
  i = withColumnKernels(n - i, (kernels) => usualByKernel(kernels, ticks, usual, state, i)) ?? i;
  while (i < n) {
    const end = Math.min(n, i + SOME_ROWS);
    i = usualRows(ticks, usual, state, i, end);
    if (i < end) break;
  }
  return i;
}

/** The same to the bit as {@link usualRows}, up to the end. */
export function usualByKernel(
  kernels: ColumnKernels,
  ticks: Float64Array,
  { ticksPerSecond, gapTicks, median }: Usual,
  state: Walked,
  from: number,
): number {
  let i = from;
  for (let walked = true; walked && i < ticks.length;) {
    const some = ticks.subarray(i, i + kernels.rows);
    kernels.values.set(some);
    const rows = kernels.walkTimes(
      some.length,
      state.last,
      state.axis,
      state.shift,
      median,
      gapTicks,
      ticksPerSecond,
    );
    some.set(kernels.values.subarray(0, rows));
    state.last = kernels.walkedTo();
    state.axis = kernels.walkedAxis();
    walked = rows === some.length;
    i += rows;
  }
  return i;
}

/** Goes over some rows. @returns the first row that does not; `to` where all do */
export function usualRows(
  ticks: Float64Array,
  usual: Usual,
  state: Walked,
  from: number,
  to: number,
): number {
  const { ticksPerSecond, gapTicks, median } = usual,
    { shift } = state;
  let { last, axis } = state;
  let i = from;
  for (; i < to; i++) {
    const now = ticks[i] ?? 0,
      interval = now - last,
      next = now + shift;
    // Neither back nor so far forward that it is a gap or a clock that was set.
    if (!(interval >= 0 && interval <= gapTicks && (next - axis < gapTicks || median <= 0))) break;
    last = now;
    axis = next;
    ticks[i] = next / ticksPerSecond;
  }
  state.last = last;
  state.axis = axis;
  return i;
}

function stepRemark(at_s: number, step_s: number, cuts: boolean, forward: boolean, counted: boolean): Remark {
  const at = `At ${Math.round(at_s)} s after the first row`;
  const size =
    Math.abs(step_s) % HOUR_S === 0
      ? `${Math.abs(step_s) / HOUR_S} h`
      : `${Number(Math.abs(step_s).toPrecision(6))} s`;
  const way = forward ? 'forward' : 'back';
  if (cuts)
    return {
      code: 'clock-step-cuts',
      text: `${at} the log's clock goes ${way} by ${size}, not by whole hours: how long the pause was cannot be told, so the log is cut there.`,
    };
  if (counted)
    return {
      code: 'clock-step-joined',
      text: `${at} the log's clock goes ${way} by ${size}; the record numbers go on, so the run was joined.`,
    };
  return {
    code: 'clock-step-joined',
    text: `${at} the log's clock goes ${way} by ${size}: taken as a clock that was set, and the run was joined.${forward ? ' It may also have been a power cut of exactly that length; the judge file can say so ("gap-not-clock-step").' : ''}`,
  };
}

/** Median of the positive differences of neighbours; 0 without any. O(n) where one interval is in the majority, as in every steady log. */
export function medianPositiveStep(values: Float64Array): number {
  const n = values.length;
  const head: number[] = [];
  for (let i = 1; i < n && head.length < 500; i++) {
    const step = (values[i] ?? 0) - (values[i - 1] ?? 0);
    if (step > 0) head.push(step);
  }
  if (head.length === 0 && n <= 500) return 0;
  head.sort((a, b) => a - b);
  const guess = head[head.length >> 1] ?? 0;
  const { shorter: less, equal, longer: more } = stepsOf(values, guess);
  const count = less + equal + more;
  if (count === 0) return 0;
  const low = (count - 1) >> 1,
    high = count >> 1;
  if (low >= less && high < less + equal) return guess;
  const steps = new Float64Array(count);
  let at = 0;
  for (let i = 1; i < n; i++) {
    const step = (values[i] ?? 0) - (values[i - 1] ?? 0);
    if (step > 0) steps[at++] = step;
  }
  steps.sort();
  return ((steps[low] ?? 0) + (steps[high] ?? 0)) / 2;
}
