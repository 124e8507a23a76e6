// Normal and Student's t against an independent implementation and against figures computed at 40 digits (mpmath).
import jStat from 'jstat';
import { describe, expect, it } from 'vitest';
import { normalCdf, normalQuantile } from '#statistics/normal.ts';
import { studentTCdf, studentTQuantile } from '#statistics/student-t.ts';
import { matchingDigits } from '../certified/matching-digits.ts';

describe('normal distribution', () => {
  it('agrees with the oracle in the middle', () => {
    for (let z = -5; z <= 5; z += 0.0625)
      expect(Math.abs(normalCdf(z) - jStat.normal.cdf(z, 0, 1))).toBeLessThan(1e-8);
  });
  it.each([
    [-1.96, 0.024997895148220435],
    [-2, 0.02275013194817921],
    [-3, 0.0013498980316300946],
    [-6, 9.86587645037698e-10],
    [-20, 2.7536241186062337e-89],
    [-37, 5.725571222524577e-300],
  ])('Φ(%d)', (z, share) => {
    expect(matchingDigits(normalCdf(z), share)).toBeGreaterThan(12.5);
    expect(normalCdf(-z)).toBeCloseTo(1 - share, 15);
  });
  it('series and continued fraction meet', () => {
    expect(matchingDigits(normalCdf(-2 + 1e-12), normalCdf(-2 - 1e-12))).toBeGreaterThan(11);
  });
  it.each([1e-300, 1e-100, 1e-10, 1e-3, 0.025, 0.3, 0.4999, 0.5, 0.7, 0.975, 0.99999])(
    'quantile and back: %d',
    (p) => {
      expect(matchingDigits(normalCdf(normalQuantile(p)), p)).toBeGreaterThan(12);
    },
  );
  it('ends', () => {
    expect([normalQuantile(0), normalQuantile(1), normalCdf(-Infinity), normalCdf(Infinity)]).toEqual([
      -Infinity,
      Infinity,
      0,
      1,
    ]);
    expect([normalQuantile(-0.1), normalQuantile(NaN), normalCdf(NaN)]).toEqual([NaN, NaN, NaN]);
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 14);
  });
});

describe("Student's t", () => {
  it('agrees with the oracle', () => {
    for (const nu of [1, 2, 3, 4.5, 8, 17.3, 60, 400])
      for (let t = -6; t <= 6; t += 0.25)
        expect(Math.abs(studentTCdf(t, nu) - jStat.studentt.cdf(t, nu))).toBeLessThan(1e-7);
    for (const nu of [2, 5, 9, 16.76, 30, 100])
      for (const p of [0.6, 0.9, 0.97725, 0.995])
        expect(studentTQuantile(p, nu)).toBeCloseTo(jStat.studentt.inv(p, nu), 6);
  });
  it('one and two degrees of freedom have closed forms', () => {
    for (const t of [0.1, 1, 3, 12, 500]) {
      expect(matchingDigits(studentTCdf(-t, 1), Math.atan(1 / t) / Math.PI)).toBeGreaterThan(13);
      const root = Math.sqrt(2 + t * t);
      expect(matchingDigits(studentTCdf(-t, 2), 1 / (root * (root + t)))).toBeGreaterThan(13);
    }
  });
  it.each([
    [0.975, 10, 2.2281388519862744],
    [0.97725, 8, 2.3664194997430665],
    [0.97725, 16.76, 2.1607016290992567],
    [0.995, 2, 9.92484320091829],
    [0.6, 1.5, 0.3007453925697954],
    [0.9999, 3, 22.203742273205002],
    [0.975, 250, 1.9694983934211532],
    [0.999999999, 5, 98.93722520824214],
  ])('quantile(%d, ν = %d)', (p, nu, t) => {
    expect(matchingDigits(studentTQuantile(p, nu), t)).toBeGreaterThan(12);
  });
  it('goes over into the normal distribution', () => {
    expect(studentTQuantile(0.97725, Infinity)).toBe(normalQuantile(0.97725));
    expect(matchingDigits(studentTQuantile(0.975, 1e9), normalQuantile(0.975))).toBeGreaterThan(8.5);
    expect(studentTCdf(1.2, Infinity)).toBe(normalCdf(1.2));
  });
  it('ends and nonsense', () => {
    expect([studentTCdf(Infinity, 3), studentTCdf(-Infinity, 3), studentTCdf(0, 3)]).toEqual([1, 0, 0.5]);
    expect([studentTQuantile(0, 3), studentTQuantile(1, 3), studentTQuantile(0.5, 3)]).toEqual([
      -Infinity,
      Infinity,
      0,
    ]);
    expect([
      studentTCdf(1, 0),
      studentTCdf(NaN, 3),
      studentTQuantile(2, 3),
      studentTQuantile(0.9, -1),
    ]).toEqual([NaN, NaN, NaN, NaN]);
  });
});
