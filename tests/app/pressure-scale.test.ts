import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { FOLD_PX, pressureScale, type PressureFacts } from '../../src/app/chart/pressure-scale.ts';

/** A unit set 5 psi over its band: 0 to 450 psi in the log. */
const facts: PressureFacts = {
  low: 400,
  high: 420,
  lowest: 0,
  highest: 450,
  judged: { lowest: 422, highest: 431 },
  value: 425.1,
};
const SIZE = 240;

describe('folded', () => {
  const scale = pressureScale(facts, 1, SIZE, true);

  test('half a band beyond the far limit, one and a half beyond the nearer one', () => {
    expect(scale.fold).toEqual({ from: 0, to: 390 });
    expect([scale.bottom, scale.top]).toEqual([390, 450]);
  });
  test('zero at the foot, the crease 28 px up, the top at the top, equal steps between', () => {
    const step = (SIZE - FOLD_PX) / 60;
    for (const [value, px] of [
      [0, 0],
      [195, FOLD_PX / 2],
      [390, FOLD_PX],
      [400, FOLD_PX + 10 * step],
      [420, FOLD_PX + 30 * step],
      [450, SIZE],
      [470, SIZE + 20 * step],
    ] as const)
      expect(scale.px(value)).toBeCloseTo(px, 9);
  });
  test('every place leads back to its value', () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 600, noNaN: true }), (value) => {
        expect(scale.value(scale.px(value))).toBeCloseTo(value, 8);
      }),
    );
  });
  test('a higher pressure is never drawn lower', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 600, noNaN: true }),
        fc.double({ min: 0.001, max: 100, noNaN: true }),
        (value, more) => {
          expect(scale.px(value + more)).toBeGreaterThan(scale.px(value));
        },
      ),
    );
  });
});

test('unfolded it is one straight scale from zero', () => {
  const scale = pressureScale(facts, 1, SIZE, false);
  expect(scale.fold).toBeNull();
  expect(scale.foldable).toBe(true);
  expect(scale.px(0)).toBe(0);
  expect(scale.px(scale.top / 2)).toBeCloseTo(SIZE / 2, 9);
});

test('the reading on the other side turns the window round', () => {
  const scale = pressureScale({ ...facts, value: 396, judged: { lowest: 395, highest: 399 } }, 1, SIZE, true);
  expect([scale.bottom, scale.top]).toEqual([370, 430]);
});

test('the window holds all of the judged part', () => {
  const scale = pressureScale({ ...facts, judged: { lowest: 377, highest: 431 } }, 1, SIZE, true);
  expect(scale.bottom).toBeLessThanOrEqual(377);
});

test('a unit far below its band is not folded: nothing would be gained', () => {
  const low = { ...facts, highest: 152, value: 148, judged: { lowest: 146, highest: 150 } };
  expect(pressureScale(low, 1, SIZE, true).foldable).toBe(false);
});

test('a band of a quarter of the scale needs no fold', () => {
  expect(pressureScale({ ...facts, low: 300, high: 430 }, 1, SIZE, true).foldable).toBe(false);
});

test('ticks are round in the unit for viewing, limits are where they were', () => {
  const perPsi = 0.0689475729317831;
  const scale = pressureScale(facts, perPsi, SIZE, true);
  for (const { shown } of scale.ticks) expect(Math.abs(shown * 2 - Math.round(shown * 2))).toBeLessThan(1e-9);
  const psi = pressureScale(facts, 1, SIZE, true);
  // Another window, but the same value at a place that both give.
  for (const value of [400, 410, 420]) {
    expect(scale.value(scale.px(value))).toBeCloseTo(value, 9);
    expect(psi.value(psi.px(value))).toBeCloseTo(value, 9);
  }
});

test('one limit alone: the window hangs on it', () => {
  const scale = pressureScale({ ...facts, low: null, high: 420 }, 1, SIZE, true);
  expect(scale.fold).not.toBeNull();
  expect(scale.bottom).toBeLessThan(420);
  expect(scale.top).toBeGreaterThan(420);
});

test('an idle gauge that trembles under zero does not move the foot; a real negative pressure does', () => {
  expect(pressureScale({ ...facts, lowest: -0.4 }, 1, SIZE, false).px(0)).toBe(0);
  expect(pressureScale({ ...facts, lowest: -60 }, 1, SIZE, false).px(0)).toBeGreaterThan(10);
});
