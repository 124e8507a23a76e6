import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { learn, tooScattered, type Change } from '#relief/learn.ts';

const change = (change_mm: number, difference: number, standardUncertainty = 1): Change => ({
  date: undefined,
  change_mm,
  difference,
  standardUncertainty,
});

describe('through the origin', () => {
  it('is the plain ratio for one change', () => {
    expect(learn([change(0.5, 11, 1.5)])).toMatchObject({
      value: 22,
      standardUncertainty: 3,
      degreesOfFreedom: Infinity,
    });
  });
  it('weighs by the uncertainties: Σxy/u² ÷ Σx²/u²', () => {
    const found = learn([change(1, 20, 1), change(1, 22, 2)]);
    expect(found?.value).toBeCloseTo((20 + 22 / 4) / 1.25, 12);
    expect(found?.standardUncertainty).toBeCloseTo(1 / Math.sqrt(1.25), 12);
  });
  it('finds the slope that made the changes, whatever they were', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 500, noNaN: true }),
        fc.array(fc.double({ min: 0.01, max: 3, noNaN: true }), { minLength: 1, maxLength: 12 }),
        (slope, sizes) => {
          const found = learn(
            sizes.map((x, index) => change(index % 2 === 0 ? x : -x, slope * (index % 2 === 0 ? x : -x))),
          );
          expect(found?.value).toBeCloseTo(slope, 7);
          expect(found?.outliers).toEqual([]);
        },
      ),
    );
  });
  it('has no use for a refitting without a change', () => {
    expect(learn([change(0, 3)])).toBeNull();
    expect(learn([change(0, 3), change(0.5, 11)])?.used).toHaveLength(1);
  });
});

describe('a reading that ends one change and begins the next', () => {
  /** Changes of one unit in a row, every reading with u = 1. */
  const inARow = (...readings: [stack_mm: number, pressure: number][]): Change[] =>
    readings.slice(1).map(([stack, pressure], index) => {
      const [from = NaN, before = NaN] = readings[index] ?? [];
      return {
        ...change(stack - from, pressure - before, Math.SQRT2),
        readings: {
          before: { value: before, standardUncertainty: 1 },
          after: { value: pressure, standardUncertainty: 1 },
        },
      };
    });
  it('there and back: √1.5 of what two independent changes would give', () => {
    // By hand: y = (p1 − p0, p2 − p1), x = (1, −1): slope (2 p1 − p0 − p2) ÷ 2, variance (4 + 1 + 1) ÷ 4.
    expect(learn(inARow([1, 400], [2, 422], [1, 399]))?.standardUncertainty).toBeCloseTo(Math.sqrt(1.5), 12);
  });
  it('up, back and up again: as the plain formula of the four readings', () => {
    // x = (1, −1, 1): slope (−p0 + 2 p1 − 2 p2 + p3) ÷ 3, variance (1 + 4 + 4 + 1) ÷ 9.
    const found = learn(inARow([1, 400], [2, 422], [1, 399], [2, 420]));
    expect(found?.standardUncertainty).toBeCloseTo(Math.sqrt(10 / 9), 12);
  });
  it('one way: no surer than independent changes', () => {
    expect(learn(inARow([1, 400], [2, 422], [3, 444]))?.standardUncertainty).toBeCloseTo(1, 12);
  });
  it('only of the same unit', () => {
    const [up, back] = inARow([1, 400], [2, 422], [1, 399]);
    if (up === undefined || back === undefined) throw new Error('two changes');
    expect(learn([up, { ...back, serial: 'other' }])?.standardUncertainty).toBeCloseTo(1, 12);
  });
});

describe('scatter', () => {
  it('beyond what is stated widens the uncertainty by √(χ²/ν)', () => {
    const list = [change(1, 10, 0.1), change(1, 30, 0.1)];
    const found = learn(list);
    expect(found?.widened).toBeCloseTo(Math.sqrt(20000), 8); // two residuals of 100 u each, one degree of freedom
    expect(found).toMatchObject({ value: 20, degreesOfFreedom: 1 });
  });
  it('within what is stated does not', () => {
    expect(learn([change(1, 19, 1), change(1, 21, 1)])).toMatchObject({
      widened: 1,
      degreesOfFreedom: Infinity,
    });
  });
  it('gives the uncertainty where nothing is stated', () => {
    const found = learn([change(1, 19, 0), change(1, 21, 0), change(1, 20, 0)]);
    expect(found?.standardUncertainty).toBeCloseTo(1 / Math.sqrt(3), 12);
    expect(found?.degreesOfFreedom).toBe(2);
    expect(learn([change(1, 19, 0)])?.standardUncertainty).toBe(0);
  });
  it('one change without a statement takes the largest of the others', () => {
    expect(learn([change(1, 20, 2), change(1, 20, 0)])?.standardUncertainty).toBeCloseTo(
      2 / Math.sqrt(2),
      12,
    );
  });
  // upper 5 % points of chi-squared, from a numerical library
  it.each([
    [1, 3.841],
    [2, 5.991],
    [5, 11.07],
    [10, 18.307],
  ])('the 5 %% point of chi-squared with %d degrees of freedom is about %d', (nu, point) => {
    expect(tooScattered(point * 1.03, nu)).toBe(true);
    expect(tooScattered(point * 0.96, nu)).toBe(false);
  });
});

describe('outliers', () => {
  const good = [change(0.25, 5.6), change(0.5, 10.8), change(-0.5, -11.3), change(1, 22.4)];
  it('one is named and left out', () => {
    const odd = { ...change(0.5, 40), date: '2026-02-11' };
    const found = learn([...good, odd]);
    expect(found?.outliers.map(({ change: { date } }) => date)).toEqual(['2026-02-11']);
    expect(found?.used).toHaveLength(4);
    expect(found?.value).toBeCloseTo(learn(good)?.value ?? NaN, 12);
    expect(found?.outliers[0]?.expected).toBeCloseTo(0.5 * (learn(good)?.value ?? NaN), 12);
  });
  it('none is named where fewer than four can tell', () => {
    expect(learn([change(1, 20, 0.1), change(1, 20, 0.1), change(1, 40, 0.1)])?.outliers).toEqual([]);
  });
  it('none is named among changes that scatter as stated', () => {
    expect(learn(good)?.outliers).toEqual([]);
  });
});
