import { describe, expect, it } from 'vitest';
import type { Assessment } from '#formats/assessment.ts';
import { comparisonSchema, type Comparison } from '#formats/comparison.ts';
import { problemSentence } from '#formats/problem.ts';
import { compare, type ComparedRun } from '#comparison/compare.ts';
import { band, statedGauge, tidyQuantities } from '../decision/sample-quantities.ts';
import { assessedAt, assessmentOf, readAt } from '../relief/sample-assessment.ts';

function compared(runs: (Assessment | ComparedRun)[]): Comparison {
  const result = compare(runs.map((run) => ('assessment' in run ? run : { assessment: run })));
  if (!result.ok) throw new Error(result.problems.map(problemSentence).join());
  expect(comparisonSchema.safeParse(result.value).error).toBeUndefined();
  return result.value;
}
const ten = [409, 411, 410, 412, 408, 410, 411, 409, 410, 410];

describe('rows', () => {
  it('hold verdict, pressure with U, drift and settling, in the order given', () => {
    const found = compared([assessedAt(425.1), assessedAt(410)]);
    expect(found.runs.map(({ verdict }) => verdict)).toEqual(['fail', 'pass']);
    expect(found.runs[0]?.operatingPressure).toEqual({ value: 425.1, expandedUncertainty: 3.5, unit: 'psi' });
    expect(found.runs[0]?.drift).toMatchObject({ overHold: -2.17, trend: 'falling' });
    expect(found.runs[0]?.settling).toEqual({ time_s: 2710 });
  });
  it('carry the reason where a run has no value, and leave it out of the limits', () => {
    const cold = tidyQuantities();
    cold.operatingPressure = { ...cold.operatingPressure, value: null, reason: 'the oil never got warm' };
    const found = compared([assessedAt(410), assessmentOf(cold, band(400, 420)), assessedAt(412)]);
    expect(found.runs[1]?.operatingPressure.reason).toBe('the oil never got warm');
    expect(found.limits).toMatchObject({ center: 411, meanMovingRange: 2, runs: 2 });
    expect(found.remarks.map(({ code }) => code)).toContain('runs-without-a-value');
  });
});

it('leaves out a pressure that is in doubt, with the reason of its criterion', () => {
  const facts = { ...statedGauge(3.5), grave: [{ reach: 'pressure' as const, reason: 'bar for psi' }] };
  const found = compared([
    assessedAt(410),
    assessmentOf(readAt(28, 0.1), band(400, 420), facts),
    assessedAt(412),
  ]);
  expect(found.runs[1]?.operatingPressure).toMatchObject({ value: null, reason: 'bar for psi' });
  expect(found.limits?.runs).toBe(2);
});

describe('limits', () => {
  it('name the run beyond them', () => {
    const found = compared([...ten, 418].map((value) => assessedAt(value)));
    // centre 410.727, mean moving range 2.3 (ten neighbours, 23 psi in all), limits ± 6.1; the last jump of 8 over 3.267 · 2.3
    expect(found.limits?.center).toBeCloseTo(4518 / 11, 9);
    expect(found.limits?.meanMovingRange).toBeCloseTo(2.3, 12);
    expect(found.runs.map(({ beyond }) => beyond)).toEqual([...Array(10).fill(null), 'both']);
  });
  it('are not there for one run', () => {
    expect(compared([assessedAt(410)]).limits).toBeNull();
  });
});

describe('capability', () => {
  it('from ten runs on, by mean and sample standard deviation', () => {
    const found = compared(ten.map((value) => assessedAt(value)));
    const s = Math.sqrt(12 / 9); // deviations −1 1 0 2 −2 0 1 −1 0 0
    expect(found.capability.standardDeviation).toBeCloseTo(s, 10);
    expect(found.capability.cp).toBeCloseTo(20 / (6 * s), 10);
    expect(found.capability.cpk).toBeCloseTo(10 / (3 * s), 10);
  });
  it('not from nine, with the reason', () => {
    const found = compared(ten.slice(1).map((value) => assessedAt(value)));
    expect(found.capability).toMatchObject({ cp: null, cpk: null, runs: 9 });
    expect(found.capability.reason).toContain('from 10 on');
  });
  it('one-sided: Cpk alone, with the reason', () => {
    const found = compared(ten.map((value) => assessedAt(value, 1, 0, band(400, null))));
    expect(found.capability.cp).toBeNull();
    expect(found.capability.cpk).toBeGreaterThan(1);
    expect(found.capability.reason).toContain('one-sided');
  });
  it('equal runs: null, with the reason', () => {
    expect(compared(ten.map(() => assessedAt(410))).capability.reason).toContain('same operating pressure');
  });
});

describe('passed at first test', () => {
  it('counts a unit once, by its first run', () => {
    const found = compared([
      { assessment: assessedAt(425.1), serial: 'B-1' },
      { assessment: assessedAt(410), serial: 'B-1' },
      { assessment: assessedAt(411), serial: 'B-2' },
      { assessment: assessedAt(409), serial: null },
    ]);
    expect(found.passedAtFirstTest).toEqual({ share: 0.666666666667, passed: 2, units: 3 });
    expect(found.runs.map(({ reTest }) => reTest)).toEqual([false, true, false, false]);
  });
});

describe('refused', () => {
  it.each<[string, Assessment[], string]>([
    ['no run', [], 'two logs or more'],
    ['no limits', [assessmentOf(readAt(410, 1), null)], 'one set of limits'],
    ['two bands', [assessedAt(410), assessedAt(410, 1, 0, band(400, 421))], 'another band'],
  ])('%s', (_, list, said) => {
    const result = compare(list.map((assessment) => ({ assessment })));
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.problems.map(problemSentence).join()).toContain(said);
  });
});
it('says when the oil was not equally warm', () => {
  const cooler = readAt(410, 1.75);
  cooler.holdTemperature = { ...cooler.holdTemperature, mean: 50 };
  const found = compared([assessedAt(410), assessmentOf(cooler, band(400, 420), statedGauge(3.5))]);
  expect(found.remarks.find(({ code }) => code === 'not-equally-warm')?.text).toContain('11 °C apart');
});
