// The line through the readings of a hold, by weight, and what it leaves by batch (src/analysis/operating-pressure.ts). Weights are those of
// kernels/weighted.ts, which is begun first; times and readings stand in TIMES and VALUES as there.
import { RESULTS, TIMES, VALUES } from './places';
import { weightAt } from './weighted';

let middle_s: f64 = 0;
let reference: f64 = 0;
let readings: i32 = 0;
let weight: f64 = 0;
let sumT: f64 = 0;
let sumP: f64 = 0;
let meanT: f64 = 0;
let mean: f64 = 0;
let tt: f64 = 0;
let tp: f64 = 0;
let slope: f64 = 0;
let held_s: f64 = 0;
let batches: i32 = 0;

/** @param middle where times are counted from @param from what readings are counted from */
export function beginLine(middle: f64, from: f64): void {
  middle_s = middle;
  reference = from;
  readings = 0;
  weight = sumT = sumP = 0;
}
/** Readings, their weight, and the sums by weight of their times and of themselves. */
export function addLineSums(count: i32): void {
  const middle = middle_s,
    from = reference;
  let n = readings,
    all = weight,
    t = sumT,
    p = sumP;
  for (let at: usize = 0; at < (<usize>count) << 3; at += 8) {
    const value = load<f64>(VALUES + at);
    if (value != value) continue;
    const w = weightAt(at);
    n++;
    all += w;
    t += w * (load<f64>(TIMES + at) - middle);
    p += w * (value - from);
  }
  readings = n;
  weight = all;
  sumT = t;
  sumP = p;
}
export function lineReadings(): i32 {
  return readings;
}
export function lineWeight(): f64 {
  return weight;
}
export function lineTimes(): f64 {
  return sumT;
}
export function linePressures(): f64 {
  return sumP;
}

/** @param time mean of the times from the middle @param value mean of the readings */
export function beginAbout(time: f64, value: f64): void {
  meanT = time;
  mean = value;
  tt = tp = 0;
}
/** Sums of squares and of products about the means. */
export function addAbout(count: i32): void {
  const middle = middle_s,
    timeMean = meanT,
    valueMean = mean;
  let squares = tt,
    products = tp;
  for (let at: usize = 0; at < (<usize>count) << 3; at += 8) {
    const value = load<f64>(VALUES + at);
    if (value != value) continue;
    const w = weightAt(at),
      t = load<f64>(TIMES + at) - middle - timeMean;
    squares += w * t * t;
    products += w * t * (value - valueMean);
  }
  tt = squares;
  tp = products;
}
export function aboutSquares(): f64 {
  return tt;
}
export function aboutProducts(): f64 {
  return tp;
}

/** Batches of a hold of so many seconds; their sums stand in RESULTS, and behind all of them their weights. */
export function beginBatches(line: f64, held: f64, number: i32): void {
  slope = line;
  held_s = held;
  batches = number;
  memory.fill(RESULTS, 0, (<usize>number) << 4);
}
/** What the line leaves, by batch. @param earlier seconds held before this piece @param start its first time */
export function addToBatches(count: i32, earlier: f64, start: f64): void {
  const middle = middle_s,
    timeMean = meanT,
    valueMean = mean,
    rise = slope,
    held = held_s,
    number = batches,
    last = <f64>(number - 1);
  for (let at: usize = 0; at < (<usize>count) << 3; at += 8) {
    const value = load<f64>(VALUES + at);
    if (value != value) continue;
    const t = load<f64>(TIMES + at),
      share = (<f64>number * (earlier + t - start)) / held;
    // Times before the piece, and a hold without length, are of no batch.
    if (!(share >= 0)) continue;
    const batch = <i32>(share < last ? share : last),
      place = RESULTS + ((<usize>batch) << 3),
      w = weightAt(at);
    store<f64>(place, load<f64>(place) + w * (value - valueMean - rise * (t - middle - timeMean)));
    const heavy = place + ((<usize>number) << 3);
    store<f64>(heavy, load<f64>(heavy) + w);
  }
}
