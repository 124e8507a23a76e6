import { withColumnKernels, type ColumnKernels } from '#kernels/column-kernels.ts';
import { cos } from '#statistics/elementary.ts';
import { transformInPlace, twiddlesOf, type Complex } from './fft.ts';

/** A one-sided spectrum: frequencies in hertz and the density at each. */
export interface Spectrum {
  frequency_Hz: Float64Array;
  /** One-sided density: value² per hertz; its sum × the frequency step is the variance of the readings. */
  density: Float64Array;
  segments: number;
}

/**
 * Power spectral density by Welch's method: means of the periodograms of half-overlapping segments, each less its mean, under
 * a (periodic) Hann window. Same conventions as scipy.signal.welch with its defaults.
 * Source: Welch (1967), IEEE Trans. Audio Electroacoust. 15, 70–73 (from memory).
 * @param values evenly spaced; segments with a NaN in them are left out
 * @param rate_Hz samples a second
 * @param segment samples a segment, any number of 2 or more
 * @returns null where no whole segment is there
 * @example welch(x, 100, 200)?.frequency_Hz[1] // 0.5
 */
export function welch(values: Float64Array, rate_Hz: number, segment: number): Spectrum | null {
  if (segment < 2) return null;
  const window = new Float64Array(segment);
  let power = 0;
  for (let i = 0; i < segment; i++) {
    window[i] = 0.5 - 0.5 * cos((2 * Math.PI * i) / segment);
    power += (window[i] ?? NaN) * (window[i] ?? NaN);
  }
  const bins = (segment >> 1) + 1;
  const { squares: density, segments } =
    withColumnKernels(values.length, (kernels) => powersByKernel(kernels, values, window)) ??
    powersByScript(values, window);
  if (segments === 0) return null;
  const frequency_Hz = new Float64Array(bins);
  for (let k = 0; k < bins; k++) {
    // All but the mean and (of an even length) the highest stand for their mirror image too.
    const sides = k === 0 || 2 * k === segment ? 1 : 2;
    density[k] = ((density[k] ?? NaN) * sides) / (segments * rate_Hz * power);
    frequency_Hz[k] = (k * rate_Hz) / segment;
  }
  return { frequency_Hz, density, segments };
}

/** Squares of the transforms of all segments, added up, up to half the sampling rate; segments that counted. */
interface Powers {
  squares: Float64Array;
  segments: number;
}

/** @returns null where the segments are of no length that the kernels take */
export function powersByKernel(
  kernels: ColumnKernels,
  values: Float64Array,
  window: Float64Array,
): Powers | null {
  const n = window.length;
  if (n > kernels.rows || (n & (n - 1)) !== 0) return null;
  const { cosines, sines } = twiddlesOf(n),
    from = 2 * n,
    to = from + (n >> 1) + 1;
  const { table } = kernels;
  table.set(window);
  table.set(cosines, n);
  table.set(sines, n + (n >> 1));
  table.fill(0, from, to);
  let segments = 0;
  for (let start = 0; start + n <= values.length; start += n >> 1) {
    kernels.values.set(values.subarray(start, start + n));
    segments += kernels.addPower(n);
  }
  return { squares: table.slice(from, to), segments };
}

/** The same for segments of any length. */
export function powersByScript(values: Float64Array, window: Float64Array): Powers {
  const segment = window.length,
    squares = new Float64Array((segment >> 1) + 1);
  let segments = 0;
  // The same arrays for every segment: thousands of new ones would be memory that nobody needs.
  const work = { re: new Float64Array(segment), im: new Float64Array(segment) };
  for (let start = 0; start + segment <= values.length; start += segment - (segment >> 1))
    if (addPower(values.subarray(start, start + segment), window, work, squares)) segments++;
  return { squares, segments };
}

/** Adds the squares of one segment's transform; false for a segment with a NaN in it. */
function addPower(
  readings: Float64Array,
  window: Float64Array,
  { re, im }: Complex,
  squares: Float64Array,
): boolean {
  let sum = 0;
  for (let i = 0; i < readings.length; i++) sum += readings[i] ?? NaN;
  if (Number.isNaN(sum)) return false;
  const centre = sum / readings.length;
  for (let i = 0; i < readings.length; i++) re[i] = (window[i] ?? NaN) * ((readings[i] ?? NaN) - centre);
  im.fill(0);
  transformInPlace({ re, im });
  for (let k = 0; k < squares.length; k++) {
    const a = re[k] ?? NaN;
    const b = im[k] ?? NaN;
    squares[k] = (squares[k] ?? NaN) + a * a + b * b;
  }
  return true;
}
