// Welch's spectrum and the transform beneath it. Values run with scipy.signal.welch 1.10.1 (Hann, detrend constant, half overlap).
import { describe, expect, it } from 'vitest';
import { fourierTransform } from '#signal/fft.ts';
import { welch } from '#signal/welch.ts';
import { digitsReport } from './digits-report.ts';

const check = digitsReport('Spectrum');
const rate_Hz = 100;
const x = Float64Array.from(
  { length: 1000 },
  (_, n) =>
    30 +
    1.5 * Math.sin((2 * Math.PI * 12.5 * n) / rate_Hz) +
    0.5 * Math.cos((2 * Math.PI * 25 * n) / rate_Hz),
);
const at = (segment: number, frequency: number): number => {
  const spectrum = welch(x, rate_Hz, segment);
  return spectrum?.density[spectrum.frequency_Hz.indexOf(frequency)] ?? NaN;
};

describe('1.5 at 12.5 Hz and 0.5 at 25 Hz on 30, 1000 samples at 100 Hz', () => {
  it('segments of 200 (not a power of two)', () => {
    check('200: 12.5 Hz', at(200, 12.5), 1.5, 11);
    check('200: 12 Hz', at(200, 12), 0.375, 11);
    check('200: 13 Hz', at(200, 13), 0.375, 11);
    check('200: 25 Hz', at(200, 25), 1 / 6, 11);
  });
  it('segments of 256', () => {
    check('256: 12.5 Hz', at(256, 12.5), 1.92, 11);
    check('256: 12.109375 Hz', at(256, 12.109375), 0.48, 11);
    check('256: 25 Hz', at(256, 25), 0.21333333333333, 11);
    expect(welch(x, rate_Hz, 256)?.density).toHaveLength(129);
  });
  it.each([200, 256])('segments of %d: density × frequency step adds up to the variance', (segment) => {
    const spectrum = welch(x, rate_Hz, segment);
    let sum = 0;
    for (const value of spectrum?.density ?? []) sum += value;
    check(`${segment}: variance`, (sum * rate_Hz) / segment, 1.25, 11);
  });
  it('Parseval: the squares add up alike on both sides (901 250)', () => {
    const { re, im } = fourierTransform({ re: x, im: new Float64Array(x.length) });
    let sum = 0;
    re.forEach((value, k) => (sum += value * value + (im[k] ?? NaN) * (im[k] ?? NaN)));
    check('Parseval', sum / x.length, 901250, 12);
  });
});

it.each([
  [9, 10, 1],
  [12.5, 10, 2.5],
  [133.3, 50, 16.7],
])('a ripple of %d Hz sampled at %d Hz shows at %d Hz', (ripple, rate, alias) => {
  const slow = Float64Array.from({ length: 4000 }, (_, n) => Math.sin((2 * Math.PI * ripple * n) / rate));
  const spectrum = welch(slow, rate, 1000);
  const highest = spectrum?.density.indexOf(Math.max(...spectrum.density)) ?? -1;
  expect(spectrum?.frequency_Hz[highest]).toBeCloseTo(alias, 1);
});
