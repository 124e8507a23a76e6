import { describe, expect, it } from 'vitest';
import type { Criterion, CriterionId, Engagement, Quantities } from '#formats/assessment.ts';
import { specSchema } from '#formats/spec.ts';
import { decide } from '#decision/decide.ts';
import { band, statedGauge, tidyQuantities } from './sample-quantities.ts';

const spec = specSchema.parse(
  band(400, 420, {
    timeInBand: { atLeast: 0.98 },
    drift: { atMost: 5, unit: 'psi' },
    settling: { within_min: 60 },
    runLength: { atLeast_h: 6 },
    operatingTemperature: { low: 50, high: 80, unit: 'degC' },
    peakPressure: { atMost: 480, unit: 'psi' },
    engagementRise: { atMost_s: 2 },
    solenoidCurrent: { atMost: 1, unit: 'A' },
    recordCoverage: { atLeast: 0.98 },
  }),
);
const engagement = (rise_s: number): Engagement => ({
  start_s: 61,
  end_s: 4000,
  rise_s,
  plateau: { value: 411, unit: 'psi' },
  peak: { value: 431, unit: 'psi' },
  overshoot: 0.05,
  fall_s: 6,
  dip: null,
  recovery_s: null,
});
const following = (change: Partial<Quantities>): ReturnType<typeof decide> =>
  decide(tidyQuantities(change), spec, statedGauge(3, { complete: false }));
function one(id: CriterionId, change: Partial<Quantities> = {}): Criterion {
  const found = following(change).criteria.find((criterion) => criterion.id === id);
  if (!found) throw new Error(`no ${id}`);
  return found;
}

describe('a run that is still going on', () => {
  it('passes nothing that time can still change, whatever it reads now', () => {
    const { criteria, verdict } = following({ runLength: { length_s: 7200 } });
    expect(criteria.filter((criterion) => criterion.verdict !== 'not-assessed')).toEqual([]);
    expect(verdict).toBe('not-assessed');
  });
  it('gives the value so far and how it stands', () => {
    expect(one('operating-pressure')).toMatchObject({ value: 411.2, expandedUncertainty: 2.2 });
    expect(one('operating-pressure').probabilityOfConformity).toBeNull();
    expect(one('operating-pressure').reason).toBe(
      'so far: 411.2 ± 2.2 psi, band 400 to 420 psi: clear of the nearer limit by 8.8 psi; the run is still going on',
    );
    expect(one('time-in-band').reason).toContain('99.7 % of the hold');
  });
  it('does not fail what may still come into its limits', () => {
    const low = { ...tidyQuantities().operatingPressure, value: 380 };
    expect(one('operating-pressure', { operatingPressure: low })).toMatchObject({
      verdict: 'not-assessed',
      value: 380,
    });
    // The final value that a pressure settles to is not known before the end.
    expect(
      one('settling', { settling: { time_s: null, tolerance: 5, unit: 'psi', finalValue: 411 } }).verdict,
    ).toBe('not-assessed');
    expect(one('record-coverage', { recordCoverage: { share: 0.9 } }).verdict).toBe('not-assessed');
  });
  it('says at once what nothing can mend any more', () => {
    expect(one('peak-pressure', { peakPressure: { value: 500, unit: 'psi' } }).verdict).toBe('fail');
    expect(one('solenoid-current', { solenoidCurrent: { mean: 1, max: 1.4, unit: 'A' } }).verdict).toBe(
      'fail',
    );
    expect(following({ peakPressure: { value: 500, unit: 'psi' } }).verdict).toBe('fail');
  });
  it('says at once that the run is long enough', () => {
    expect(one('run-length', { runLength: { length_s: 6 * 3600 } }).verdict).toBe('pass');
  });
  it('fails an engagement that another one followed; the last one may still be measured otherwise', () => {
    expect(one('engagement-rise', { engagements: [engagement(3), engagement(1)] }).verdict).toBe('fail');
    expect(one('engagement-rise', { engagements: [engagement(1), engagement(3)] }).verdict).toBe(
      'not-assessed',
    );
  });
});
