// Savitzky–Golay and the Hampel identifier.
import { describe, expect, it } from 'vitest';
import { hampel } from '#signal/hampel.ts';
import { smooth } from '#signal/smooth.ts';
import { digitsReport } from './digits-report.ts';

const check = digitsReport('Smoothing');
const rows = (n: number): Float64Array => Float64Array.from({ length: n }, (_, i) => i);
const golay = (values: number[], window_s: number): Float64Array =>
  smooth(rows(values.length), Float64Array.from(values), { method: 'savitzky-golay', window_s }, []);

describe('Savitzky–Golay, degree 2 and 3', () => {
  // Savitzky & Golay (1964), Anal. Chem. 36, 1627–1639 (citation from memory); the fractions were computed with scipy.signal.savgol_coeffs.
  it.each([
    [5, [-3, 12, 17, 12, -3], 35],
    [7, [-2, 3, 6, 7, 6, 3, -2], 21],
    [9, [-21, 14, 39, 54, 59, 54, 39, 14, -21], 231],
    [11, [-36, 9, 44, 69, 84, 89, 84, 69, 44, 9, -36], 429],
  ])('weights of a window of %d', (width, numerators, denominator) => {
    // The response at the middle to a single 1 at each place of the window.
    const middle = 20;
    numerators.forEach((numerator, place) => {
      const impulse = Array.from({ length: 41 }, (_, i) => (i === middle - (width - 1) / 2 + place ? 1 : 0));
      check(
        `window ${width}, weight ${place}`,
        golay(impulse, width - 1)[middle] ?? NaN,
        numerator / denominator,
        11,
      );
    });
  });
  it('the example of the savgol_filter documentation (scipy): the middle; ends are a convention', () => {
    // There: 1.66, 3.17, 3.54, 2.86, 0.66, 0.17, 1, 4, 9, window 5, degree 2; first and last two from the parabola of the last whole
    // window. Here the ends are those of the parabola through what is left of the window, with fewer than five its mean.
    const result = golay([2, 2, 5, 2, 1, 0, 1, 4, 9], 4);
    [3.542857142857141, 2.857142857142856, 0.6571428571428564, 0.17142857142857082, 1].forEach((value, i) => {
      check(`documentation example, ${i + 2}`, result[i + 2] ?? NaN, value, 12);
    });
    expect(result[0]).toBeCloseTo(3, 12);
    expect(result[8]).toBeCloseTo(14 / 3, 12);
    expect(result[1]).toBeCloseTo(2.75, 12);
  });
});

describe('Hampel identifier', () => {
  // Vector run with own code and R's pracma::hampel: 3 scales, window of 5, scale 1.4826 × MAD.
  const vector = [30.1, 30, 30.2, 29.9, 45, 30.1, 30, 30.3, 12, 30.1, 30.2, 30];
  const spikesOf = (values: number[], resolution: number, threshold: number, samples: number): number[] =>
    Array.from(
      hampel(rows(values.length), Float64Array.from(values), {
        resolution,
        threshold,
        samples,
        width_s: 0,
      }).entries(),
    )
      .filter(([, spike]) => spike === 1)
      .map(([row]) => row);
  it('flags the fifth and the ninth reading', () => {
    expect(spikesOf(vector, 0, 3, 5)).toEqual([4, 8]);
    expect(spikesOf(vector, 0.1, 3, 7)).toEqual([4, 8]);
  });
  it('a quiet, quantised log: without a floor its one step is a spike, with one resolution step it is not', () => {
    const quiet = [30, 30, 30, 30, 31, 30, 30, 30, 30];
    expect(spikesOf(quiet, 0, 3, 5)).toEqual([4]);
    expect(spikesOf(quiet, 1, 3, 5)).toEqual([]);
    expect(spikesOf([30, 30, 30, 30, 34, 30, 30, 30, 30], 1, 3, 5)).toEqual([4]);
  });
});
