// The decimal grid that a column's readings lie on, in one pass (src/signal/levels.ts says what it is for).
import { VALUES } from './places';

/** Added to a number of a size below 2^51 and taken off again this leaves it rounded to a whole one. */
const TO_WHOLE: f64 = 6755399441055744.0;
/** Levels from zero stay within what 32 bits hold. */
const MOST: f64 = 2147483647;
const MOST_FACTOR: f64 = 1e6;

let factor: f64 = 1;
let low: f64 = Infinity;
let high: f64 = -Infinity;

export function beginGrid(): void {
  factor = 1;
  low = Infinity;
  high = -Infinity;
}
/** Levels a unit, the lowest and the highest reading in steps of the grid. */
export function gridFactor(): f64 {
  return factor;
}
export function gridLow(): f64 {
  return low;
}
export function gridHigh(): f64 {
  return high;
}

/**
 * Looks at some readings in VALUES more. A whole number of steps is ten times as many steps of the next finer grid, and the very same
 * double: who was looked at need not be looked at again when the grid becomes finer.
 * @returns false once there is no grid
 */
export function lookForGrid(count: i32): bool {
  let f = factor,
    least = low,
    most = high;
  const end = VALUES + ((<usize>count) << 3);
  for (let p = VALUES; p < end; p += 8) {
    const value = load<f64>(p);
    if (value != value) continue;
    let steps = value * f + TO_WHOLE - TO_WHOLE;
    // Division rounds correctly, so that k ÷ 10^d is the very double that the decimal text was read as.
    while (steps / f != value || abs(steps) > MOST) {
      // What is too large here is larger still on a finer grid.
      if (f == MOST_FACTOR || abs(steps) > MOST) return false;
      f *= 10;
      least *= 10;
      most *= 10;
      steps = value * f + TO_WHOLE - TO_WHOLE;
    }
    if (steps < least) least = steps;
    if (steps > most) most = steps;
  }
  factor = f;
  low = least;
  high = most;
  return least > most || (abs(least) <= MOST && abs(most) <= MOST);
}
