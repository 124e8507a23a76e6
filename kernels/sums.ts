// Sums over readings, by Neumaier's compensated summation (src/statistics/mean.ts).
import { MARKS, TIMES, VALUES } from './places';

let sum: f64 = 0;
let lost: f64 = 0;
let summed: i32 = 0;
let origin_s: f64 = 0;
let times: f64 = 0;
let readings: i32 = 0;

/** @param start where times are counted from */
export function beginSums(start: f64): void {
  sum = lost = times = 0;
  summed = readings = 0;
  origin_s = start;
}
/** Sum of the readings that are neither NaN nor infinite, what rounding took from it, and how many they are. */
export function sumFound(): f64 {
  return sum;
}
export function sumLost(): f64 {
  return lost;
}
export function sumCount(): i32 {
  return summed;
}
/** Of {@link addTimes} and {@link addBlock}: the readings that are there, and the sum of their times. */
export function readingsFound(): i32 {
  return readings;
}
export function timesFound(): f64 {
  return times;
}

/** Some readings in VALUES more. @param marked whether those do not count that have a mark other than 0 */
export function addUp(count: i32, marked: bool): void {
  let all = sum,
    off = lost,
    n = summed;
  for (let i = 0; i < count; i++) {
    const value = load<f64>(VALUES + ((<usize>i) << 3));
    if (value - value != 0 || (marked && load<u8>(MARKS + <usize>i) != 0)) continue;
    const next = all + value;
    off += abs(all) >= abs(value) ? all - next + value : value - next + all;
    all = next;
    n++;
  }
  sum = all;
  lost = off;
  summed = n;
}

/** Times in TIMES of the readings in VALUES that are there. */
export function addTimes(count: i32): void {
  const start = origin_s;
  let all = times,
    n = readings;
  for (let p: usize = 0; p < (<usize>count) << 3; p += 8) {
    const value = load<f64>(VALUES + p);
    if (value != value) continue;
    n++;
    all += load<f64>(TIMES + p) - start;
  }
  times = all;
  readings = n;
}

/** {@link addTimes} and, of all readings, {@link addUp}. */
export function addBlock(count: i32): void {
  const start = origin_s;
  let t = times,
    there = readings,
    all = sum,
    off = lost,
    n = summed;
  for (let p: usize = 0; p < (<usize>count) << 3; p += 8) {
    const value = load<f64>(VALUES + p);
    if (value != value) continue;
    there++;
    t += load<f64>(TIMES + p) - start;
    if (value - value != 0) continue;
    const next = all + value;
    off += abs(all) >= abs(value) ? all - next + value : value - next + all;
    all = next;
    n++;
  }
  times = t;
  readings = there;
  sum = all;
  lost = off;
  summed = n;
}
