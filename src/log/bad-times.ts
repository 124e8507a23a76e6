import { stepsOf } from '#statistics/steps.ts';
import { medianPositiveStep } from './time-axis.ts';

/** So many rows in a row may have a bad time between two that agree with each other. */
const MOST_IN_A_ROW = 3;
/** A bad time lies further than so many usual steps from both sides; less is a clock that was corrected. */
const FAR_STEPS = 10;
/** Rows on either side agree where no more than so many steps are missing beyond the bad rows: less than a gap. */
const SLACK_STEPS = 4;
/** In a shorter log a last row far behind the others is not told from the end of a pause. */
const ROWS_FOR_LAST = 10;

/** A row and the time that it had. */
export interface BadTime {
  row: number;
  time: number;
}

/**
 * Finds rows whose time is absurd beside its neighbours, which agree with each other: a cut or garbled number, no jump of a clock.
 * Such a row gets its forerunner's time, so that nothing reaches out to it. A last row further behind the others than they reach
 * is one too.
 * @param times in any unit, NaN for none; changed in place
 * @returns them in order, with the time that they had; none in every sound log. O(n)
 */
export function takeBadTimes(times: Float64Array): BadTime[] {
  const n = times.length;
  const bad: BadTime[] = [];
  let usual = NaN;
  // In every sound log no row is earlier than the one before.
  for (let i = stepsOf(times).falls > 0 ? 1 : n; i < n; i++) {
    const now = times[i] ?? NaN;
    if (!(now < (times[i - 1] ?? NaN))) continue;
    if (Number.isNaN(usual)) usual = medianPositiveStep(times);
    const found = badAbout(times, i, usual);
    if (found === null) continue;
    for (let row = found.from; row < found.to; row++) {
      bad.push({ row, time: times[row] ?? NaN });
      times[row] = times[found.from - 1] ?? NaN;
    }
    i = Math.max(i, found.to - 1);
  }
  const last = times[n - 1] ?? NaN,
    before = times[n - 2] ?? NaN;
  if (n >= ROWS_FOR_LAST && last - before > before - (times[0] ?? NaN)) {
    if (Number.isNaN(usual)) usual = medianPositiveStep(times);
    if (last - before > FAR_STEPS * usual) {
      bad.push({ row: n - 1, time: last });
      times[n - 1] = before;
    }
  }
  return bad;
}

/** Rows before a fall that stand too high, or from it on that stand too low. */
function badAbout(times: Float64Array, fall: number, usual: number): { from: number; to: number } | null {
  for (let k = 1; k <= MOST_IN_A_ROW; k++) {
    if (isBad(times, fall - k, fall, usual)) return { from: fall - k, to: fall };
    if (isBad(times, fall, fall + k, usual)) return { from: fall, to: fall + k };
  }
  return null;
}

function isBad(times: Float64Array, from: number, to: number, usual: number): boolean {
  const before = times[from - 1] ?? NaN,
    after = times[to] ?? NaN;
  const apart = after - before;
  if (!(apart > 0 && apart <= (to - from + 1 + SLACK_STEPS) * usual)) return false;
  for (let row = from; row < to; row++) {
    const time = times[row] ?? NaN;
    if (!(before - time > FAR_STEPS * usual || time - after > FAR_STEPS * usual)) return false;
  }
  return true;
}
