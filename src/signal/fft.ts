import { cos, sin } from '#statistics/elementary.ts';

/** A complex series, real and imaginary parts apart. */
export interface Complex {
  re: Float64Array;
  im: Float64Array;
}

/**
 * Discrete Fourier transform X_k = Σ x_j e^(−2πi jk/n), of any length.
 * Powers of two by Cooley and Tukey's halving, other lengths by Bluestein's chirp through a power of two.
 * @returns new arrays of the same length, not scaled: Σ|X|² = n Σ|x|² (Parseval)
 * Cost: n log n.
 */
export function fourierTransform({ re, im }: Complex): Complex {
  const copy = { re: re.slice(), im: im.slice() };
  transformInPlace(copy);
  return copy;
}

/** The same without new arrays where the length is a power of two. */
export function transformInPlace(series: Complex): void {
  const n = series.re.length;
  if (n < 2) return;
  if ((n & (n - 1)) === 0) return halving(series);
  const { re, im } = bluestein(series);
  series.re.set(re);
  series.im.set(im);
}

/** cos and −sin of 2π·turns/of; the fraction is exact, so that no angle is large. */
function twiddle(turns: number, of: number): [number, number] {
  const angle = (2 * Math.PI * (turns % of)) / of;
  return [cos(angle), -sin(angle)];
}

/** Those of one length; a spectrum takes hundreds of transforms of the same. */
let twiddles = { of: 0, cosines: new Float64Array(0), sines: new Float64Array(0) };

/** cos and −sin of 2πk/n for each k below n/2. */
export function twiddlesOf(n: number): { cosines: Float64Array; sines: Float64Array } {
  if (twiddles.of === n) return twiddles;
  const cosines = new Float64Array(n >> 1);
  const sines = new Float64Array(n >> 1);
  for (let k = 0; k < n >> 1; k++) [cosines[k], sines[k]] = twiddle(k, n);
  twiddles = { of: n, cosines, sines };
  return twiddles;
}

/** In place; length a power of two. */
function halving({ re, im }: Complex): void {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; (j & bit) !== 0; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      const re_i = re[i] ?? NaN;
      const im_i = im[i] ?? NaN;
      re[i] = re[j] ?? NaN;
      im[i] = im[j] ?? NaN;
      re[j] = re_i;
      im[j] = im_i;
    }
  }
  const { cosines, sines } = twiddlesOf(n);
  for (let size = 2; size <= n; size *= 2) {
    const half = size >> 1;
    const stride = n / size;
    for (let start = 0; start < n; start += size)
      for (let k = 0; k < half; k++) {
        const a = start + k;
        const b = a + half;
        const c = cosines[k * stride] ?? NaN;
        const s = sines[k * stride] ?? NaN;
        const br = re[b] ?? NaN;
        const bi = im[b] ?? NaN;
        const tr = br * c - bi * s;
        const ti = br * s + bi * c;
        const ar = re[a] ?? NaN;
        const ai = im[a] ?? NaN;
        re[b] = ar - tr;
        im[b] = ai - ti;
        re[a] = ar + tr;
        im[a] = ai + ti;
      }
  }
}

function bluestein({ re, im }: Complex): Complex {
  const n = re.length;
  let size = 1;
  while (size < 2 * n - 1) size *= 2;
  // jk = (j² + k² − (k − j)²)/2: a convolution with the chirp e^(iπ j²/n); j² is taken modulo 2n, exactly.
  const chirpRe = new Float64Array(n);
  const chirpIm = new Float64Array(n);
  for (let j = 0; j < n; j++) [chirpRe[j], chirpIm[j]] = twiddle((j * j) % (2 * n), 2 * n);
  const a: Complex = { re: new Float64Array(size), im: new Float64Array(size) };
  const b: Complex = { re: new Float64Array(size), im: new Float64Array(size) };
  for (let j = 0; j < n; j++) {
    const c = chirpRe[j] ?? NaN;
    const s = chirpIm[j] ?? NaN;
    a.re[j] = (re[j] ?? NaN) * c - (im[j] ?? NaN) * s;
    a.im[j] = (re[j] ?? NaN) * s + (im[j] ?? NaN) * c;
    b.re[j] = c;
    b.im[j] = -s;
    if (j > 0) {
      b.re[size - j] = c;
      b.im[size - j] = -s;
    }
  }
  halving(a);
  halving(b);
  for (let k = 0; k < size; k++) {
    const ar = a.re[k] ?? NaN;
    const ai = a.im[k] ?? NaN;
    const br = b.re[k] ?? NaN;
    const bi = b.im[k] ?? NaN;
    // Conjugated, so that the same transform goes back.
    a.re[k] = ar * br - ai * bi;
    a.im[k] = -(ar * bi + ai * br);
  }
  halving(a);
  const result: Complex = { re: new Float64Array(n), im: new Float64Array(n) };
  for (let k = 0; k < n; k++) {
    const c = chirpRe[k] ?? NaN;
    const s = chirpIm[k] ?? NaN;
    const xr = (a.re[k] ?? NaN) / size;
    const xi = -(a.im[k] ?? NaN) / size;
    result.re[k] = xr * c - xi * s;
    result.im[k] = xr * s + xi * c;
  }
  return result;
}
