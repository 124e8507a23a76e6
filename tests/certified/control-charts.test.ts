// NIST/SEMATECH e-Handbook of Statistical Methods (doi:10.18434/M32189), results read second-hand in public repositories that reproduce its
// pages; 6.3.2.2: the ten flow rates themselves are from memory, but reproduce all four printed results. Constants for two values: exact
// ones derived (2/√π and so on), table values as printed.
import { expect, it } from 'vitest';
import { capability } from '#comparison/capability.ts';
import { controlLimits } from '#comparison/control-limits.ts';
import { matchingDigits } from './matching-digits.ts';

it('6.3.2.2, individuals: x̄ 50.81, MR̄ 1.8778, limits 45.8159 and 55.8041', () => {
  const found = controlLimits([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]);
  expect(found?.center.toFixed(2)).toBe('50.81');
  expect(found?.meanMovingRange.toFixed(4)).toBe('1.8778');
  expect(found?.high.toFixed(4)).toBe('55.8041');
  expect(found?.low.toFixed(4)).toBe('45.8159');
  expect(matchingDigits(found?.high ?? NaN, 55.80408983)).toBeGreaterThan(9);
  expect(matchingDigits(found?.low ?? NaN, 45.81591017)).toBeGreaterThan(9);
});
it('6.1.6, capability: USL 20, LSL 8, x̄ 16, s 2: Cp 1.0, Cpk 0.6667, upper 0.6667, lower 1.3333', () => {
  const found = capability(16, 2, { low: 8, high: 20 });
  expect(found.cp).toBe(1);
  expect(found.cpk.toFixed(4)).toBe('0.6667');
  expect(capability(16, 2, { low: null, high: 20 })).toEqual({ cp: null, cpk: found.cpk });
  expect(capability(16, 2, { low: 8, high: null }).cpk.toFixed(4)).toBe('1.3333');
});
it('the table constants are the exact ones to their digits: d2 = 2/√π, D4 = 1 + 3·d3/d2, d3 = √(2 − 4/π)', () => {
  const d2 = 2 / Math.sqrt(Math.PI),
    d3 = Math.sqrt(2 - 4 / Math.PI);
  const limits = controlLimits([0, 1]);
  expect(((3 * 1) / ((limits?.high ?? NaN) - (limits?.center ?? NaN))).toFixed(3)).toBe(d2.toFixed(3));
  expect((limits?.movingRangeHigh ?? NaN).toFixed(3)).toBe((1 + (3 * d3) / d2).toFixed(3));
});
