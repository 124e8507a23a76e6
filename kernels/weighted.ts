// Sums by weight: a row stands for the time to the next one, or for one usual interval where that is a gap or the log ends
// (src/analysis/timeline.ts). TIMES holds the time of each row and, behind them, that of the next; NaN where there is none.
import { MARKS, TIMES, VALUES } from './places';

let usual_s: f64 = 0;
let gap_s: f64 = 0;
let reference: f64 = 0;
let weight: f64 = 0;
let sum: f64 = 0;
let lowest: f64 = Infinity;
let highest: f64 = -Infinity;
let least: f64 = 0;
let most: f64 = 0;
let above: f64 = 0;
let below: f64 = 0;

/** @param usual one interval, `gap` the interval from which on it is a gap @param from the sums are of differences from it */
export function beginWeighted(usual: f64, gap: f64, from: f64): void {
  usual_s = usual;
  gap_s = gap;
  reference = from;
  weight = sum = above = below = 0;
  lowest = Infinity;
  highest = -Infinity;
}
export function setBand(low: f64, high: f64): void {
  least = low;
  most = high;
}
export function weightFound(): f64 {
  return weight;
}
export function weightedSumFound(): f64 {
  return sum;
}
export function weightedLowest(): f64 {
  return lowest;
}
export function weightedHighest(): f64 {
  return highest;
}
export function weightAbove(): f64 {
  return above;
}
export function weightBelow(): f64 {
  return below;
}

export function weightOf(interval: f64): f64 {
  return interval < gap_s ? interval : usual_s;
}
export function weightAt(p: usize): f64 {
  return weightOf(load<f64>(TIMES + p + 8) - load<f64>(TIMES + p));
}

/** Weight and sum of the readings in VALUES, the lowest and the highest of them. */
export function addWeighted(count: i32): void {
  const from = reference;
  let all = weight,
    total = sum,
    low = lowest,
    high = highest;
  for (let p: usize = 0; p < (<usize>count) << 3; p += 8) {
    const value = load<f64>(VALUES + p);
    if (value != value) continue;
    const w = weightAt(p);
    all += w;
    total += w * (value - from);
    if (value < low) low = value;
    if (value > high) high = value;
  }
  weight = all;
  sum = total;
  lowest = low;
  highest = high;
}

/** Weight of the readings in VALUES, of those above the band and of those below it. */
export function addShares(count: i32): void {
  const low = least,
    high = most;
  let all = weight,
    over = above,
    under = below;
  for (let p: usize = 0; p < (<usize>count) << 3; p += 8) {
    const value = load<f64>(VALUES + p);
    if (value != value) continue;
    const w = weightAt(p);
    all += w;
    if (value > high) over += w;
    else if (value < low) under += w;
  }
  weight = all;
  above = over;
  below = under;
}

/** Weight of the rows whose mark is the one or the other. */
export function addMarked(count: i32, one: i32, other: i32): void {
  let all = weight;
  for (let i = 0; i < count; i++) {
    const mark = <i32>load<u8>(MARKS + <usize>i);
    if (mark == one || mark == other) all += weightAt((<usize>i) << 3);
  }
  weight = all;
}

/** A value of a list that begins with any: differences are from its first value. */
export function takeReference(value: f64): f64 {
  if (reference != reference) reference = value;
  return reference;
}
export function weightedReference(): f64 {
  return reference;
}
/** Sums that somebody went on with, and the lowest and highest value that he met. */
export function keepWeighted(all: f64, total: f64, low: f64, high: f64): void {
  weight = all;
  sum = total;
  if (low < lowest) lowest = low;
  if (high > highest) highest = high;
}
