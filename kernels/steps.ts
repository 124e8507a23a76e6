// Steps from row to row (src/statistics/steps.ts), and the walk along a log's times (src/log/time-axis.ts).
import { VALUES } from './places';

let before: f64 = 0;
let usual: f64 = 0;
let falls: i32 = 0;
let shared: i32 = 0;
let shorter: i32 = 0;
let equal: i32 = 0;
let longer: i32 = 0;

/** @param first the row before the first that will be looked at */
export function beginSteps(first: f64, usualStep: f64): void {
  before = first;
  usual = usualStep;
  falls = shared = shorter = equal = longer = 0;
}
/** Steps to some rows in VALUES more. */
export function addSteps(count: i32): void {
  const guess = usual;
  let last = before,
    down = falls,
    same = shared,
    less = shorter,
    more = longer,
    alike = equal;
  for (let p: usize = VALUES; p < VALUES + ((<usize>count) << 3); p += 8) {
    const now = load<f64>(p),
      step = now - last;
    if (now < last) down++;
    if (now == last) same++;
    if (!(step <= 0)) {
      if (step < guess) less++;
      else if (step > guess) more++;
      else alike++;
    }
    last = now;
  }
  before = last;
  falls = down;
  shared = same;
  shorter = less;
  longer = more;
  equal = alike;
}
export function stepsBack(): i32 {
  return falls;
}
export function stepsOfNothing(): i32 {
  return shared;
}
export function shorterSteps(): i32 {
  return shorter;
}
export function usualSteps(): i32 {
  return equal;
}
export function longerSteps(): i32 {
  return longer;
}

let lastTick: f64 = 0;
let axis: f64 = 0;

/**
 * Goes over times in VALUES as long as they follow one another as in every steady log, and puts each on the axis, in seconds.
 * @returns how many rows it came; they stand in VALUES
 */
export function walkTimes(
  count: i32,
  last: f64,
  axisBefore: f64,
  shift: f64,
  median: f64,
  gapTicks: f64,
  ticksPerSecond: f64,
): i32 {
  let i: i32 = 0;
  lastTick = last;
  axis = axisBefore;
  for (; i < count; i++) {
    const p = VALUES + ((<usize>i) << 3),
      now = load<f64>(p),
      interval = now - lastTick,
      next = now + shift;
    if (!(interval >= 0 && interval <= gapTicks && (next - axis < gapTicks || median <= 0))) break;
    lastTick = now;
    axis = next;
    store<f64>(p, next / ticksPerSecond);
  }
  return i;
}
export function walkedTo(): f64 {
  return lastTick;
}
export function walkedAxis(): f64 {
  return axis;
}
