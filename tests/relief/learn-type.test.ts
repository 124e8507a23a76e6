import { describe, expect, it } from 'vitest';
import type { Adjustments, Relief, TrailedAdjustment } from '#formats/relief.ts';
import { earlierPredictions, earlierSummaryOf } from '#relief/earlier.ts';
import { learnType } from '#relief/learn-type.ts';
import type { Change } from '#relief/learn.ts';
import { sensitivityOf } from '#relief/sensitivity.ts';

const change = (serial: string, change_mm: number, difference: number, standardUncertainty = 1): Change => ({
  date: undefined,
  serial,
  change_mm,
  difference,
  standardUncertainty,
});

describe('what other units of a type tell of one more', () => {
  it('is the plain ratio, no spread known, from one unit', () => {
    expect(learnType([change('A', 0.5, 11, 1.5)])).toMatchObject({
      value: 22,
      standardUncertainty: 3,
      units: 1,
      betweenUnits: null,
    });
  });
  it('takes the spread from unit to unit into the uncertainty, by hand for two units', () => {
    // Slopes 18 and 26, u = 1 each: Q = 2 · 16 = 32, room = 2 − 2/2 = 1, spread² = 31; mean 22; u² = (1 + 31)/2 + 31 = 47.
    const found = learnType([change('A', 1, 18), change('B', 1, 26)]);
    expect(found?.betweenUnits).toBeCloseTo(Math.sqrt(31), 12);
    expect(found?.value).toBeCloseTo(22, 12);
    expect(found?.standardUncertainty).toBeCloseTo(Math.sqrt(47), 12);
    expect(found?.degreesOfFreedom).toBe(1);
  });
  it('finds no spread where the units agree within what is stated', () => {
    const found = learnType([change('A', 1, 21), change('B', 1, 22), change('C', 0.5, 11)]);
    expect(found).toMatchObject({ betweenUnits: 0, degreesOfFreedom: Infinity });
  });
  it('names an outlier and leaves it out, never silently', () => {
    const found = learnType([
      ...['A', 'B', 'C', 'D', 'E'].map((serial, i) => change(serial, 0.5, 11 + 0.2 * (i - 2))),
      change('F', 0.5, 31),
    ]);
    expect(found?.outliers.map((outlier) => outlier.change.serial)).toEqual(['F']);
    expect(found?.value).toBeCloseTo(22, 6);
  });
  it('has nothing to say without a change', () => {
    expect(learnType([])).toBeNull();
    expect(learnType([change('A', 0, 3)])).toBeNull();
  });
});

const relief: Relief = { format: 'overdrive-bench/relief', version: 1, fitted_mm: [0.5], stock: [] };
const step = (
  serial: string | undefined,
  before: number,
  after: number,
  more: Partial<TrailedAdjustment> = {},
): TrailedAdjustment => ({
  ...(serial === undefined ? {} : { serial }),
  before_mm: [0.5],
  after_mm: [0.5, 0.5],
  pressureBefore: { value: before, unit: 'psi', standardUncertainty: 0.7 },
  pressureAfter: { value: after, unit: 'psi', standardUncertainty: 0.7 },
  ...more,
});
const trail = (serial: string | undefined, ...adjustments: TrailedAdjustment[]): Adjustments => ({
  format: 'overdrive-bench/adjustments',
  version: 1,
  ...(serial === undefined ? {} : { serial }),
  adjustments,
});
const type = [step('A', 400, 409), step('B', 400, 413), step('C', 400, 411), step('D', 400, 408)];

describe("this unit's changes over the type's", () => {
  it('counts changes without a serial as the unit’s own, as before', () => {
    const { sensitivity } = sensitivityOf(relief, trail(undefined, step(undefined, 400, 411)), 'psi');
    expect(sensitivity).toMatchObject({ from: 'history', adjustmentsUsed: 1, value: 22 });
  });
  it('uses the type where the unit has none', () => {
    const { sensitivity, remarks } = sensitivityOf(relief, trail('X', ...type), 'psi');
    expect(sensitivity).toMatchObject({ from: 'type', adjustmentsUsed: 4 });
    expect(sensitivity?.value).toBeCloseTo(20.5, 1);
    expect(remarks.map(({ code }) => code)).toContain('units-differ');
  });
  it('draws to the unit’s own once it has one, and further with more', () => {
    const own = step('X', 400, 415, { date: '2026-03-01' });
    const one = sensitivityOf(relief, trail('X', ...type, own), 'psi').sensitivity;
    const three = sensitivityOf(relief, trail('X', ...type, own, own, own), 'psi').sensitivity;
    expect(one?.from).toBe('history and type');
    expect(one?.value).toBeGreaterThan(26);
    expect(three?.value).toBeGreaterThan(one?.value ?? Infinity);
    expect(three?.value).toBeLessThan(30);
  });
  it('says when it rests on one other unit', () => {
    const { remarks } = sensitivityOf(relief, trail('X', step('A', 400, 409)), 'psi');
    expect(remarks.map(({ code }) => code)).toContain('from-one-other-unit');
  });
});

describe('predicted against found', () => {
  it('takes the prediction that was kept, else what the rest tells', () => {
    const history = trail(
      'X',
      ...type,
      step('X', 400, 411.4, { predicted: { value: 410, standardUncertainty: 2, unit: 'psi' } }),
    );
    const { learned } = sensitivityOf(relief, history, 'psi');
    const earlier = earlierPredictions(relief, history, learned, 'psi');
    expect(earlier).toHaveLength(5);
    const kept = earlier.find((each) => each.kept);
    expect(kept?.predicted).toBe(410);
    expect(kept?.standardUncertainty).toBeCloseTo(Math.sqrt(4 + 0.49), 12);
    expect(earlier[0]).not.toHaveProperty('kept');
    expect(earlier[0]?.serial).toBe('A');
  });
  it('sums up: mean, spread, how many outside', () => {
    const said = (after: number) =>
      step('X', 400, after, { predicted: { value: 410, standardUncertainty: 0.5, unit: 'psi' } });
    const history = trail('X', said(411), said(409), said(415));
    const { learned } = sensitivityOf(relief, history, 'psi');
    expect(earlierSummaryOf(earlierPredictions(relief, history, learned, 'psi'), 'psi')).toEqual({
      changes: 3,
      outside: 1,
      meanDifference: 5 / 3,
      standardDeviation: expect.closeTo(Math.sqrt((1 + 1 + 25 - 25 / 3) / 2), 12) as number,
      unit: 'psi',
    });
    expect(earlierSummaryOf([], 'psi')).toBeNull();
  });
});
