import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exp } from '#statistics/elementary.ts';
import { fitExponentialApproach } from '#statistics/fit-exponential-approach.ts';
import { fitLine } from '#statistics/fit-line.ts';
import { leastSquares } from '#statistics/least-squares.ts';
import { normally } from './generator.ts';

const finite = fc.double({ min: -100, max: 100, noNaN: true });

describe('least squares', () => {
  it('the residuals stand at right angles to every column', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(finite, finite, finite), { minLength: 6, maxLength: 30 }), (rows) => {
        const columns = [rows.map(() => 1), rows.map(([a]) => a), rows.map(([, b]) => b)];
        const y = rows.map(([, , c]) => c);
        const fit = leastSquares(columns, y);
        if (!fit || Math.max(...fit.varianceInflation.slice(1)) > 1e8) return;
        for (const column of columns) {
          let dot = 0;
          let size = 0;
          column.forEach((value, i) => {
            dot += value * (fit.residuals[i] ?? NaN);
            size += Math.abs(value) * 100;
          });
          expect(Math.abs(dot)).toBeLessThanOrEqual(1e-7 * Math.max(1, size));
        }
      }),
    );
  });
  it('gives none where a coefficient is beyond a double', () => {
    const tiny = [0, 5e-324, 0, 0, 5e-324, 0];
    expect(leastSquares([tiny.map(() => 1), tiny], [1, 90, 2, 3, 80, 1])).toBeNull();
  });
  it('a line is the same by either way', () => {
    const noise = normally(3);
    const x = Array.from({ length: 50 }, (_, i) => i / 7);
    const y = x.map((value) => 4 - 0.3 * value + noise());
    const line = fitLine(x, y);
    const fit = leastSquares([x.map(() => 1), x], y);
    expect(fit?.coefficients[0]).toBeCloseTo(line?.intercept ?? NaN, 12);
    expect(fit?.coefficients[1]).toBeCloseTo(line?.slope ?? NaN, 12);
    expect(fit?.standardErrors[0]).toBeCloseTo(line?.interceptStandardError ?? NaN, 12);
    expect(fit?.standardErrors[1]).toBeCloseTo(line?.slopeStandardError ?? NaN, 12);
    expect(
      (fit?.covariance[1] ?? NaN) / ((fit?.standardErrors[0] ?? NaN) * (fit?.standardErrors[1] ?? NaN)),
    ).toBeCloseTo(line?.correlation ?? NaN, 12);
    expect(fit?.varianceInflation[1]).toBeCloseTo(1, 12);
    expect(fit?.varianceInflation[0]).toBeNaN();
  });
  it('inflation is 1/(1 − R²) of a column on the other', () => {
    const a = [1, 2, 3, 4, 5, 6];
    const b = [1, 2.2, 2.9, 4.3, 4.8, 6.1];
    const fit = leastSquares([a.map(() => 1), a, b], [0, 1, 0, 1, 0, 1]);
    const line = fitLine(a, b);
    let total = 0;
    b.forEach((value) => (total += (value - (line?.meanY ?? NaN)) ** 2));
    expect(fit?.varianceInflation[1]).toBeCloseTo(total / (line?.residualSumOfSquares ?? NaN), 8);
    expect(fit?.varianceInflation[2]).toBeCloseTo(total / (line?.residualSumOfSquares ?? NaN), 8);
  });
  it('no answer where a column is a combination of the others, or rows are too few', () => {
    const a = [1, 2, 3, 4, 5];
    expect(leastSquares([a.map(() => 1), a, a.map((value) => 3 - 2 * value)], a)).toBeNull();
    expect(leastSquares([a.map(() => 1), a.map(() => 0)], a)).toBeNull();
    expect(
      leastSquares(
        [
          [1, 1],
          [1, 2],
        ],
        [1, 2],
      ),
    ).toBeNull();
    expect(leastSquares([], a)).toBeNull();
  });
  it('a row with a hole in it is left out', () => {
    const x = [0, 1, 2, NaN, 4, 5];
    const fit = leastSquares([x.map(() => 1), x], [1, 3, NaN, 7, 9, 11]);
    expect(fit?.coefficients[1]).toBeCloseTo(2, 12);
    expect(fit?.degreesOfFreedom).toBe(2);
    expect(Array.from(fit?.residuals ?? []).map((value) => Number.isNaN(value))).toEqual([
      false,
      false,
      true,
      true,
      false,
      false,
    ]);
  });
});

describe('line', () => {
  it('is exact on a line, and has none through one x', () => {
    expect(fitLine([0, 1, 2], [1, 3, 5])).toMatchObject({
      slope: 2,
      intercept: 1,
      residualStandardDeviation: 0,
    });
    expect(fitLine([2, 2, 2], [1, 3, 5])).toBeNull();
    expect(fitLine([1, 2], [1, 2])).toBeNull();
  });
});

describe('exponential approach', () => {
  it('finds what was put in, rising or falling, at any scale of time', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }).filter((change) => Math.abs(change) > 0.01),
        fc.integer({ min: -3, max: 4 }),
        (share, start, change, decade) => {
          const scale = 10 ** decade;
          const t = Array.from({ length: 60 }, (_, i) => i * scale);
          const timeConstant = 60 * scale * share;
          const fit = fitExponentialApproach(
            t,
            t.map((s) => start + change * (1 - exp(-s / timeConstant))),
          );
          expect(fit.ok).toBe(true);
          if (!fit.ok) return;
          expect(fit.timeConstant / timeConstant).toBeCloseTo(1, 6);
          expect(fit.final).toBeCloseTo(start + change, 5);
          expect(fit.start).toBeCloseTo(start, 6);
        },
      ),
    );
  });
  it('its answer is no worse than any near it', () => {
    const noise = normally(11);
    const t = Array.from({ length: 80 }, (_, i) => 30 * i);
    const y = t.map((s) => 80 - 55 * Math.exp(-s / 700) + 0.4 * noise());
    const fit = fitExponentialApproach(t, y);
    if (!fit.ok) throw new Error(fit.reason);
    const sum = (start: number, final: number, tau: number): number =>
      y.reduce(
        (total, value, i) => total + (value - final + (final - start) * Math.exp(-(t[i] ?? NaN) / tau)) ** 2,
        0,
      );
    expect(sum(fit.start, fit.final, fit.timeConstant)).toBeCloseTo(fit.residualSumOfSquares, 9);
    for (const [a, b, c] of [
      [1e-4, 0, 0],
      [0, 1e-4, 0],
      [0, 0, 1e-4],
      [-1e-4, 1e-4, 1e-4],
    ] as const)
      for (const sign of [1, -1])
        expect(
          sum(fit.start * (1 + sign * a), fit.final * (1 + sign * b), fit.timeConstant * (1 + sign * c)),
        ).toBeGreaterThan(fit.residualSumOfSquares);
  });
  it('noise alone, or a line under noise, gives no time constant', () => {
    const t = Array.from({ length: 120 }, (_, i) => 60 * i);
    let answered = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const noise = normally(seed);
      if (
        fitExponentialApproach(
          t,
          t.map((s) => 0.001 * s + noise()),
        ).ok
      )
        answered++;
    }
    // Chance bends a few lines enough for a standard error of at most half the constant.
    expect(answered).toBeLessThanOrEqual(15);
  });
  it('a hole in the data is left out', () => {
    const t = Array.from({ length: 40 }, (_, i) => i);
    const y = t.map((s) => 5 - 3 * exp(-s / 8));
    y[3] = NaN;
    const fit = fitExponentialApproach(t, y);
    expect(fit.ok && fit.timeConstant).toBeCloseTo(8, 8);
    expect(fit.ok && fit.degreesOfFreedom).toBe(36);
  });
});
