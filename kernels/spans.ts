// Highest less lowest reading of windows of equal time (src/signal/window-spans.ts).
import { RESULTS, TIMES, VALUES } from './places';

let length_s: f64 = 1;
let needed: f64 = 0;
let start_s: f64 = 0;
let windows: f64 = 0;
let readings: i32 = 0;
let low: f64 = Infinity;
let high: f64 = -Infinity;

/** @param fewest readings that a window must have; more than 0 */
export function beginSpans(window_s: f64, fewest: f64): void {
  length_s = window_s;
  needed = fewest;
}
/** The next row that comes begins the first window of a piece. */
export function startSpans(time_s: f64): void {
  start_s = time_s;
  windows = 1;
  nextSpan();
}
function nextSpan(): void {
  readings = 0;
  low = Infinity;
  high = -Infinity;
}

/** Spans of the windows that end within the rows in TIMES and VALUES, into RESULTS. @returns how many */
export function takeSpans(count: i32): i32 {
  let found: i32 = 0,
    n = readings,
    least = low,
    most = high,
    end_s = start_s + windows * length_s;
  for (let p: usize = 0; p < (<usize>count) << 3; p += 8) {
    const time_s = load<f64>(TIMES + p);
    if (time_s >= end_s) {
      const span = most - least;
      if (<f64>n >= needed && span >= 0) {
        store<f64>(RESULTS + ((<usize>found) << 3), span);
        found++;
      }
      do {
        windows += 1;
        end_s = start_s + windows * length_s;
      } while (time_s >= end_s);
      n = 0;
      least = Infinity;
      most = -Infinity;
    }
    const value = load<f64>(VALUES + p);
    if (value != value) continue;
    n++;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  readings = n;
  low = least;
  high = most;
  return found;
}
/** The span of the window that the piece ends with, if any; −1 where it has too few readings. */
export function lastSpan(): f64 {
  return <f64>readings >= needed ? high - low : -1;
}
