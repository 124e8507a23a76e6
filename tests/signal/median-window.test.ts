import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { levelsOf } from '#signal/levels.ts';
import { CountedWindow, SortedWindow, type MedianWindow } from '#signal/median-window.ts';
import { smallestStep } from '#signal/smallest-step.ts';

function trace(window: MedianWindow, values: Float64Array, width: number): number[] {
  const medians: number[] = [];
  for (let row = 0; row < values.length; row++) {
    window.add(values[row] ?? NaN);
    if (row >= width) window.remove(values[row - width] ?? NaN);
    medians.push(window.median());
  }
  return medians;
}
function both(values: Float64Array, width: number): void {
  const levels = levelsOf(values);
  if (!levels) throw new Error('no grid');
  expect(trace(new CountedWindow(levels), values, width)).toEqual(trace(new SortedWindow(), values, width));
}

describe('counts and sorted list give the same bits', () => {
  it('whatever the readings', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.integer({ min: -400, max: 41_000 }), fc.constant(NaN)), {
          minLength: 1,
          maxLength: 80,
        }),
        fc.integer({ min: 1, max: 20 }),
        fc.constantFrom(1, 10, 1000),
        (list, width, factor) => {
          if (list.every(Number.isNaN)) return;
          both(
            Float64Array.from(list, (k) => k / factor),
            width,
          );
        },
      ),
    );
  });
  it('0, 410, 0, 410, … (where plain counts walk the whole way each time)', () => {
    both(
      Float64Array.from({ length: 5000 }, (_, i) => (i % 2 === 0 ? 0 : 410.3)),
      1001,
    );
    both(
      Float64Array.from({ length: 5000 }, (_, i) => (i % 3 === 0 ? 2_800_000 : 0)),
      1000,
    );
  });
  it('near() may count too many, never too few', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 90 }), { minLength: 1, maxLength: 40 }),
        fc.double({ min: 0, max: 9, noNaN: true }),
        fc.double({ min: 0.01, max: 5, noNaN: true }),
        (list, centre, distance) => {
          const values = Float64Array.from(list, (k) => k / 10);
          const levels = levelsOf(values);
          if (!levels) throw new Error('no grid');
          let truly = 0;
          for (const value of values) if (Math.abs(value - centre) < distance) truly++;
          let atMost = 0;
          for (const value of values) if (Math.abs(value - centre) < distance + 0.001) atMost++;
          for (const window of [new CountedWindow(levels), new SortedWindow()]) {
            for (const value of values) window.add(value);
            expect(window.near(centre, distance)).toBeGreaterThanOrEqual(truly);
            expect(window.near(centre, distance)).toBeLessThanOrEqual(atMost);
          }
        },
      ),
    );
  });
});

describe('levels', () => {
  const back = (values: Float64Array): number[] => {
    const levels = levelsOf(values);
    return levels
      ? Array.from(values, (value) => (Number.isNaN(value) ? NaN : levels.valueOf(levels.levelOf(value))))
      : [];
  };
  it.each([
    ['tenths', [30.1, 29.9, NaN, 30.4]],
    ['thousandths', [0.001, -0.002, 410.003]],
    ['whole numbers of a large size', [2_826_850, 2_826_851, 2_820_000]],
    ['one value', [5.25, 5.25]],
    ['psi read as bar', [4101, 4102, 4107, 4099].map((k) => (k / 10) * 0.0689475729316836)],
  ])('%s come back to the last bit', (_, list) => {
    expect(back(Float64Array.from(list))).toEqual(list);
  });
  it('no grid, no levels', () => {
    expect(levelsOf(Float64Array.of(0.1, Math.PI, Math.E, 1e-9))).toBeNull();
    expect(levelsOf(Float64Array.of(NaN, NaN))).toBeNull();
    expect(levelsOf(Float64Array.of(0, 0.000001, 410))).toBeNull();
  });
});

describe('smallest step', () => {
  it.each([
    [[30, 30.2, 30.1], 0.1],
    [[30, 30.2, 30.4], 0.2],
    [[400, NaN, 410], 10],
    [[Math.PI, Math.E, 1e-9, Math.PI], Math.PI - Math.E],
  ])('of %j is %d', (list, step) => {
    expect(smallestStep(Float64Array.from(list))).toBeCloseTo(step, 12);
  });
  it('needs two different readings', () => {
    expect(smallestStep(Float64Array.of(4, 4, NaN))).toBeNull();
    expect(smallestStep(new Float64Array(0))).toBeNull();
  });
});
