import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changePoint, meanShift, pettitt } from '#statistics/change-point.ts';
import { normally } from './generator.ts';

/** First-order autoregressive noise of standard deviation 1. */
function alike(n: number, rho: number, seed: number): number[] {
  const noise = normally(seed);
  const values: number[] = [noise()];
  for (let i = 1; i < n; i++) values.push(rho * (values[i - 1] ?? 0) + Math.sqrt(1 - rho * rho) * noise());
  return values;
}

it('Pettitt: the largest sum of signs, by the plain way', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 4, maxLength: 25 }), (y) => {
      let largest = 0;
      for (let k = 1; k < y.length; k++) {
        let u = 0;
        for (let i = 0; i < k; i++)
          for (let j = k; j < y.length; j++) u += Math.sign((y[i] ?? 0) - (y[j] ?? 0));
        largest = Math.max(largest, Math.abs(u));
      }
      expect(Math.abs(pettitt(y)?.u ?? NaN)).toBe(largest);
    }),
  );
});

it('mean shift: no other place leaves a smaller sum of squares', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 4, maxLength: 25 }), (y) => {
      const shift = meanShift(y);
      for (let k = 2; k <= y.length - 2; k++) {
        const sum = (part: number[]): number => {
          const centre = part.reduce((a, b) => a + b, 0) / part.length;
          return part.reduce((a, b) => a + (b - centre) ** 2, 0);
        };
        expect(sum(y.slice(0, k)) + sum(y.slice(k))).toBeGreaterThanOrEqual(
          (shift?.residualSumOfSquares ?? NaN) - 1e-9,
        );
      }
    }),
  );
});

describe('a step that stays', () => {
  it('is found, and where', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const y = alike(120, 0.2, seed).map((value, i) => value + (i < 70 ? 0 : 3));
      const found = changePoint(y);
      expect(Math.abs((found?.index ?? 0) - 70)).toBeLessThanOrEqual(3);
    }
  });
  it('is not seen in a slope', () => {
    let seen = 0;
    for (let seed = 1; seed <= 40; seed++)
      if (changePoint(alike(120, 0.2, seed).map((value, i) => value + 0.08 * i))) seen++;
    expect(seen).toBe(0);
  });
  it.each([0, 0.3, 0.6, 0.9])('is rarely seen in noise alike by %d from value to value', (rho) => {
    let seen = 0;
    for (let seed = 1; seed <= 300; seed++) if (changePoint(alike(150, rho, seed))) seen++;
    expect(seen / 300).toBeLessThanOrEqual(0.04);
  });
  it('needs readings on both sides', () => {
    expect(changePoint([1, 1, 5])).toBeNull();
    expect(meanShift([1, 2, 3])).toBeNull();
    expect(pettitt([1, 2, 3])).toBeNull();
  });
});
