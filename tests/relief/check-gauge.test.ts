import { describe, expect, it } from 'vitest';
import { gaugeCheckSchema, type GaugeReadingsCheck } from '#formats/gauge-check.ts';
import { channelUncertainty } from '#formats/rig.ts';
import { problemSentence } from '#formats/problem.ts';
import { checkGauge, correctionAt, gaugeBandCheck, type GaugeReadings } from '#relief/check-gauge.ts';

function check(readings: GaugeReadings): GaugeReadingsCheck {
  const result = checkGauge(readings);
  if (!result.ok) throw new Error(result.problems.map(problemSentence).join());
  expect(gaugeCheckSchema.safeParse(result.value).error).toBeUndefined();
  return result.value;
}
const reference = [0, 100, 200, 300, 400, 500];

describe('a gauge that reads 2 % high and 1 psi off', () => {
  const found = check({ unit: 'psi', reference, reading: reference.map((p) => 1.02 * p + 1) });
  it('is put right by the correction for the rig file', () => {
    const line = found.rigChannel?.correction;
    for (const p of [0, 410, 500])
      expect((line?.slope ?? NaN) * (1.02 * p + 1) + (line?.offset ?? NaN)).toBeCloseTo(p, 8);
  });
  it('has its largest error at the end: 11 of 500 psi, class 2.5', () => {
    expect(found.largestErrorShareOfSpan).toBeCloseTo(0.022, 12);
    expect(found.accuracyClass).toBe(2.5);
  });
  it('needs its slope, so a constant is not proposed', () => {
    expect(found.remarks?.map(({ code }) => code)).not.toContain('a-constant-would-do');
  });
});

describe('up and down', () => {
  const found = check({
    unit: 'bar',
    reference: [0, 10, 20, 30, 30, 20, 10, 0],
    reading: [0, 10.1, 20.0, 30.2, 30.2, 20.4, 10.2, 0.1],
    direction: ['up', 'up', 'up', 'up', 'down', 'down', 'down', 'down'],
  });
  it('hysteresis is the largest difference at one reference', () => {
    expect(found.hysteresis).toBeCloseTo(0.4, 12);
  });
  it('gives the rig file a statement that the rig takes', () => {
    expect(channelUncertainty.safeParse(found.rigChannel?.uncertainty).error).toBeUndefined();
    const { expanded = NaN, coverageFactor = NaN } = found.rigChannel?.uncertainty ?? {};
    const s = found.residualStandardDeviation ?? NaN;
    const widest = Math.max(...[0, 30.2].map((t) => correctionAt(found, t).standardUncertainty ?? NaN));
    expect(expanded / coverageFactor).toBeCloseTo(Math.sqrt(s * s + widest * widest), 9);
  });
});

it('without directions there is no hysteresis, with the reason', () => {
  const found = check({ unit: 'psi', reference, reading: reference.map((p, i) => p + (i % 2)) });
  expect(found.hysteresis).toBeNull();
  expect(found.reason).toContain('rising or falling');
});
it('two points: a line without standard errors, with the reason', () => {
  const found = check({ unit: 'psi', reference: [0, 500], reading: [2, 498] });
  expect(found).toMatchObject({
    points: 2,
    slopeStandardUncertainty: null,
    correlation: null,
    rigChannel: null,
  });
  expect(correctionAt(found, 2).correction).toBeCloseTo(-2, 11);
  expect(correctionAt(found, 498)).toMatchObject({ standardUncertainty: null });
  expect(found.reason).toContain('two points give no standard errors');
});
it('a gauge worse than any class has none', () => {
  expect(check({ unit: 'psi', reference, reading: reference.map((p) => 1.05 * p) }).accuracyClass).toBeNull();
});
it('leaves out pairs that are not numbers', () => {
  expect(check({ unit: 'psi', reference: [0, 1, 2, NaN], reading: [0, 1, 2, 3] }).points).toBe(3);
});
describe('refused with a sentence', () => {
  it.each<[GaugeReadings, string]>([
    [{ unit: 'psi', reference: [1], reading: [1] }, 'two points or more'],
    [{ unit: 'psi', reference: [1, 2], reading: [1, 1] }, 'same at every point'],
    [{ unit: 'psi', reference: [1, 1], reading: [1, 2] }, 'same at every point'],
    [{ unit: 'A', reference: [1, 2], reading: [1, 2] }, 'pressure or temperature'],
  ])('%j', (readings, said) => {
    const result = checkGauge(readings, { file: 'readings.csv' });
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.problems.map(problemSentence).join()).toContain(said);
  });
});

describe('a gauge against a band, without readings', () => {
  const gauge = (high: number, accuracyPercentOfSpan: number): Parameters<typeof gaugeBandCheck>[0] => ({
    range: { low: 0, high, unit: 'psi' },
    accuracyPercentOfSpan,
  });
  const band = { low: 400, high: 420, unit: 'psi' as const };
  it('says what is left', () => {
    const found = gaugeBandCheck(gauge(600, 1), band);
    expect(gaugeCheckSchema.safeParse(found).error).toBeUndefined();
    expect(found.expandedUncertainty).toBeCloseTo(6.9282, 4);
    expect([found.passFrom, found.passTo]).toEqual([406.92820323, 413.07179677]);
  });
  it('gives nulls where nothing can pass, and what would do', () => {
    const found = gaugeBandCheck(gauge(1000, 1), band);
    expect(found).toMatchObject({ passFrom: null, passTo: null, canPass: false, accuracyThatWouldDo: 0.25 });
    expect(found.remarks?.[0]?.text).toContain('0.25 %');
  });
  it('sees a range that ends below the band', () => {
    // What the gauge cannot show cannot pass.
    const found = gaugeBandCheck(gauge(300, 1), band);
    expect(found.remarks?.map(({ code }) => code)).toEqual(['no-reading-can-pass', 'range-too-small']);
    expect(found.canPass).toBe(false);
  });
});
