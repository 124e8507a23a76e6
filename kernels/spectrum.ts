// The squares of Fourier transforms of segments, added up (src/signal/welch.ts, src/signal/fft.ts). A segment of readings stands in VALUES;
// the transform is worked out in RESULTS and TIMES. In TABLE stand, one behind the other: the window,
// the cosines and the sines (half as many each), the squares.
import { RESULTS, TABLE, TIMES, VALUES } from './places';

/** One segment more. @param n readings, a power of two @returns false for a segment with a NaN in it */
export function addPower(n: i32): bool {
  const bytes = (<usize>n) << 3,
    squares = TABLE + 2 * bytes;
  let sum: f64 = 0;
  for (let p: usize = 0; p < bytes; p += 8) sum += load<f64>(VALUES + p);
  if (sum != sum) return false;
  const centre = sum / <f64>n;
  memory.fill(TIMES, 0, bytes);
  let j: i32 = 0;
  // Each goes to the place that its number has with its bits the other way round.
  for (let i = 0; i < n; i++) {
    const p = (<usize>i) << 3;
    store<f64>(RESULTS + ((<usize>j) << 3), load<f64>(TABLE + p) * (load<f64>(VALUES + p) - centre));
    let bit = n >> 1;
    for (; (j & bit) != 0; bit >>= 1) j ^= bit;
    j ^= bit;
  }
  for (let size = 2; size <= n; size <<= 1) stage(n, size);
  for (let p: usize = 0; p <= bytes >> 1; p += 8) {
    const a = load<f64>(RESULTS + p),
      b = load<f64>(TIMES + p);
    store<f64>(squares + p, load<f64>(squares + p) + a * a + b * b);
  }
  return true;
}

/**
 * Puts halves together to transforms of a size. Which pair comes first does not matter, since none needs another: the inner loop is the
 * longer one of those along a half and from half to half.
 */
function stage(n: i32, size: i32): void {
  const half = size >> 1,
    halves = n / size,
    along = half >= halves,
    apart = (<usize>half) << 3,
    turn = (<usize>halves) << 3,
    sines = (<usize>n) << 2;
  const outer = along ? halves : half,
    inner = along ? half : halves,
    toNext: usize = along ? 8 : apart << 1,
    turnToNext: usize = along ? turn : 0;
  for (let o = 0; o < outer; o++) {
    let a: usize = along ? <usize>o * (apart << 1) : (<usize>o) << 3,
      cosine = TABLE + ((<usize>n) << 3) + (along ? 0 : <usize>o * turn);
    for (let i = 0; i < inner; i++) {
      const b = a + apart,
        c = load<f64>(cosine),
        s = load<f64>(cosine + sines),
        br = load<f64>(RESULTS + b),
        bi = load<f64>(TIMES + b),
        tr = br * c - bi * s,
        ti = br * s + bi * c,
        ar = load<f64>(RESULTS + a),
        ai = load<f64>(TIMES + a);
      store<f64>(RESULTS + b, ar - tr);
      store<f64>(TIMES + b, ai - ti);
      store<f64>(RESULTS + a, ar + tr);
      store<f64>(TIMES + a, ai + ti);
      a += toNext;
      cosine += turnToNext;
    }
  }
}
