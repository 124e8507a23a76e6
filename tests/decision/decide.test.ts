import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  criterionIds,
  type Criterion,
  type CriterionId,
  type Engagement,
  type Quantities,
} from '#formats/assessment.ts';
import { specSchema, type Spec } from '#formats/spec.ts';
import { decide, overallVerdict } from '#decision/decide.ts';
import { factsWithoutRig, type DecisionFacts } from '#decision/facts.ts';
import { at, band, statedGauge, tidyQuantities } from './sample-quantities.ts';

const everyLimit: Partial<Spec> = {
  timeInBand: { atLeast: 0.98 },
  drift: { atMost: 5, unit: 'psi' },
  settling: { within_min: 60 },
  runLength: { atLeast_h: 5.9 },
  operatingTemperature: { low: 50, high: 80, unit: 'degC' },
  peakPressure: { atMost: 480, unit: 'psi' },
  ripple: { atMost: 15, unit: 'psi' },
  engagementRise: { atMost_s: 2 },
  engagementDip: { atMost: 0.4, recovered_s: 2 },
  fallAfterRelease: { atMost_s: 20 },
  releasedPressure: { atMost: 30, unit: 'psi' },
  leakDown: { halfTimeAtLeast_s: 20 },
  plateauSpread: { atMost: 6, unit: 'psi' },
  solenoidCurrent: { atMost: 1, unit: 'A' },
  recordCoverage: { atLeast: 0.98 },
};
const engagement = (change: Partial<Engagement> = {}): Engagement => ({
  start_s: 61,
  end_s: 21541,
  rise_s: 1.4,
  plateau: { value: 411, unit: 'psi' },
  peak: { value: 431, unit: 'psi' },
  overshoot: 0.05,
  fall_s: 6,
  dip: 0.2,
  recovery_s: 1,
  ...change,
});
function one(id: CriterionId, quantities: Quantities, spec: Spec, facts: DecisionFacts): Criterion {
  const found = decide(quantities, spec, facts).criteria.find((criterion) => criterion.id === id);
  if (!found) throw new Error(`no criterion ${id}`);
  return found;
}

describe('which criteria there are', () => {
  it('gives the band alone one criterion', () => {
    expect(decide(tidyQuantities(), band(400, 420), factsWithoutRig()).criteria.map(({ id }) => id)).toEqual([
      'operating-pressure',
    ]);
  });
  it('gives each limit of a full spec its criterion, in the listed order, with the unit of its key', () => {
    const spec = specSchema.parse(band(400, 420, everyLimit));
    const { criteria } = decide(tidyQuantities({ engagements: [engagement()] }), spec, statedGauge(2));
    expect(criteria.map(({ id }) => id)).toEqual([...criterionIds]);
    expect(Object.fromEntries(criteria.map(({ id, unit }) => [id, unit]))).toMatchObject({
      settling: 'min',
      'run-length': 'h',
      'engagement-rise': 's',
      'time-in-band': '1',
      'engagement-dip': '1',
      'hold-temperature': 'degC',
      'solenoid-current': 'A',
    });
    for (const criterion of criteria) {
      expect(criterion.reason.length).toBeGreaterThan(10);
      expect(criterion.reason).not.toMatch(/NaN|undefined|null|Infinity/);
    }
  });
  it('leaves settling out when the spec gives only a tolerance', () => {
    const spec = band(400, 420, { settling: { tolerance: 5, unit: 'psi' } });
    expect(decide(tidyQuantities(), spec, factsWithoutRig()).criteria).toHaveLength(1);
  });
});

describe('operating pressure against its band', () => {
  it.each([
    [400, 'pass'],
    [420, 'pass'],
    [399.999999999, 'fail'],
    [420.000000001, 'fail'],
    [420.0000000000001, 'pass'], // beyond the twelfth digit: engines may differ there, so it is the limit itself
  ] as const)('simple: %d → %s, the limits belong to the band', (value, verdict) => {
    expect(one('operating-pressure', at(value), band(400, 420), factsWithoutRig()).verdict).toBe(verdict);
  });
  it.each([
    [403.5, 'pass'],
    [416.5, 'pass'],
    [403.49, 'undecided'],
    [416.51, 'undecided'],
    [396.5, 'undecided'],
    [423.5, 'undecided'],
    [396.49, 'fail'],
    [423.51, 'fail'],
    [425.1, 'fail'],
  ] as const)('guarded with U 3.5: %d → %s', (value, verdict) => {
    const criterion = one('operating-pressure', at(value, 1.75), band(400, 420), statedGauge(3.4));
    expect(criterion.verdict).toBe(verdict);
    expect(criterion.decisionRule).toBe('guarded');
  });
  it.each([
    [0.5, 401.75, 'pass'],
    [0.5, 401.74, 'undecided'],
    [2, 407, 'pass'],
    [2, 406.99, 'undecided'],
    [2, 392.99, 'fail'],
  ] as const)('guarded with %d times U: %d → %s', (guardFactor, value, verdict) => {
    const spec = band(400, 420, { guardFactor });
    expect(one('operating-pressure', at(value, 1.75), spec, statedGauge(3.4)).verdict).toBe(verdict);
  });
  it.each([
    [400, null, 403.5, 'pass'],
    [400, null, 9000, 'pass'],
    [400, null, 396, 'fail'],
    [null, 420, 416.5, 'pass'],
    [null, 420, 0, 'pass'],
    [null, 420, 424, 'fail'],
    [null, 420, 421, 'undecided'],
  ] as const)('one-sided %s to %s: %d → %s', (low, high, value, verdict) => {
    expect(one('operating-pressure', at(value, 1.75), band(low, high), statedGauge(3.4)).verdict).toBe(
      verdict,
    );
  });
  it('is not assessed under the guarded rule without an uncertainty, and says why', () => {
    const quantities = at(411);
    quantities.operatingPressure.reason = 'fewer than 8 of 10 batches are recorded';
    const criterion = one('operating-pressure', quantities, band(400, 420), statedGauge(3.4));
    expect(criterion.verdict).toBe('not-assessed');
    expect(criterion.reason).toContain('fewer than 8 of 10 batches are recorded');
  });
  it('guarded by the spec without a stated gauge: U from scatter and resolution, with the remark, no probability', () => {
    const decision = decide(at(411, 0.5, 8), band(400, 420, { decisionRule: 'guarded' }), factsWithoutRig());
    expect(decision.criteria[0]).toMatchObject({ verdict: 'pass', probabilityOfConformity: null });
    expect(decision.remarks.map(({ code }) => code)).toContain('gauge-uncertainty-not-stated');
  });
  it('reads a log in bar by a band in psi', () => {
    const quantities = at(28.35);
    quantities.operatingPressure.unit = 'bar';
    const criterion = one('operating-pressure', quantities, band(400, 420), factsWithoutRig());
    expect(criterion).toMatchObject({ verdict: 'pass', unit: 'psi' });
    expect(criterion.value).toBeCloseTo(28.35 * 14.503773773020923, 8);
  });
  it('takes the probability from Student t where the degrees of freedom are few', () => {
    const wide =
      one('operating-pressure', at(416, 2, 3), band(400, 420), statedGauge(1)).probabilityOfConformity ?? 0;
    const sure =
      one('operating-pressure', at(416, 2, null), band(400, 420), statedGauge(1)).probabilityOfConformity ??
      0;
    expect(sure).toBeCloseTo(0.977249868, 8); // Φ(2), upper limit alone; JCGM 106 Eq. 11
    expect(wide).toBeCloseTo(0.92829872695, 10); // t with 3 degrees of freedom between −8 and 2 (numerical library)
  });
});

describe('what always holds', () => {
  const reading = fc.double({ min: 380, max: 440, noNaN: true });
  const size = fc.double({ min: 0.01, max: 20, noNaN: true });
  it('never passes a value outside the band, by any rule', () => {
    fc.assert(
      fc.property(
        reading,
        size,
        fc.constantFrom('simple', 'guarded'),
        fc.double({ min: 0.1, max: 3, noNaN: true }),
        (y, u, decisionRule, guardFactor) => {
          const found = one(
            'operating-pressure',
            at(y, u),
            band(400, 420, { decisionRule, guardFactor }),
            statedGauge(2 * u),
          );
          if ((found.value ?? 0) < 400 || (found.value ?? 0) > 420) expect(found.verdict).not.toBe('pass');
          else expect(found.verdict).not.toBe('fail');
        },
      ),
    );
  });
  it('gives the same verdict mirrored about the middle of the band', () => {
    fc.assert(
      fc.property(reading, size, (y, u) => {
        const here = one('operating-pressure', at(y, u), band(400, 420), statedGauge(2 * u)).verdict;
        const there = one('operating-pressure', at(820 - y, u), band(400, 420), statedGauge(2 * u)).verdict;
        expect(there).toBe(here);
      }),
    );
  });
  it('keeps the probability between 0 and 1, and at one half or below outside the band', () => {
    fc.assert(
      fc.property(reading, size, fc.option(fc.integer({ min: 1, max: 200 }), { nil: null }), (y, u, nu) => {
        const found = one('operating-pressure', at(y, u, nu), band(400, 420), statedGauge(2 * u));
        const p = found.probabilityOfConformity ?? NaN;
        expect(p).toBeGreaterThanOrEqual(0);
        expect(p).toBeLessThanOrEqual(1);
        if ((found.value ?? 0) < 400 || (found.value ?? 0) > 420) expect(p).toBeLessThanOrEqual(0.5);
      }),
    );
  });
});

describe('drift', () => {
  const spec = band(400, 420, { drift: { atMost: 5, unit: 'psi' } });
  const drifting = (value: number, low: number, high: number): Quantities => {
    const tidy = tidyQuantities();
    return { ...tidy, drift: { ...tidy.drift, overHold: { value, low, high, unit: 'psi' } } };
  };
  it.each([
    [-2, -3, -1, 'pass'],
    [-4.5, -5, -4, 'pass'],
    [-4.5, -5.1, -4, 'undecided'],
    [-6, -8, -5.1, 'fail'],
    [6, 5.1, 8, 'fail'],
    [0, -6, 6, 'undecided'],
  ] as const)('guarded: %d (%d to %d) → %s', (value, low, high, verdict) => {
    expect(one('drift', drifting(value, low, high), spec, statedGauge(3)).verdict).toBe(verdict);
  });
  it.each([
    [-5, 'pass'],
    [-5.01, 'fail'],
    [5.01, 'fail'],
  ] as const)('simple: %d → %s whatever the interval', (value, verdict) => {
    const found = one('drift', drifting(value, -20, 20), spec, factsWithoutRig());
    expect(found).toMatchObject({ verdict, value, limits: { low: -5, high: 5 }, decisionRule: 'simple' });
  });
  it('gives the reason of the quantity where there is none', () => {
    const quantities = tidyQuantities();
    quantities.drift = {
      ...quantities.drift,
      slope: null,
      overHold: { value: null, unit: 'psi' },
      reason: 'the hold is shorter than 20 min',
    };
    expect(one('drift', quantities, spec, statedGauge(3))).toMatchObject({
      verdict: 'not-assessed',
      reason: 'the hold is shorter than 20 min',
    });
  });
});

describe('time in band', () => {
  const spec = band(400, 420, { timeInBand: { atLeast: 0.98 } });
  it.each([
    [0.985, 1, 'pass'],
    [0.98, 1, 'pass'],
    [0.9, 1, 'undecided'],
    [0.1, 0.979, 'fail'],
  ] as const)('guarded by the shares %d and %d → %s', (shareInNarrowedBand, shareInWidenedBand, verdict) => {
    const facts = statedGauge(3, { shareInNarrowedBand, shareInWidenedBand });
    expect(one('time-in-band', tidyQuantities(), spec, facts).verdict).toBe(verdict);
  });
  it('is simple by the share as read where the gauge is not stated', () => {
    expect(one('time-in-band', tidyQuantities(), spec, factsWithoutRig())).toMatchObject({
      verdict: 'pass',
      decisionRule: 'simple',
      value: 0.997,
    });
  });
});

describe('settling', () => {
  const spec = band(400, 420, { settling: { within_min: 60 } });
  const settled = (time_s: number | null, finalValue: number | null = 411): Quantities =>
    tidyQuantities({
      settling: {
        time_s,
        finalValue,
        tolerance: 8.2,
        unit: 'psi',
        ...(time_s === null ? { reason: 'no run' } : {}),
      },
    });
  it.each([
    [3600, 'pass'],
    [3600.1, 'fail'],
  ] as const)('%d s → %s', (time_s, verdict) => {
    expect(one('settling', settled(time_s), spec, statedGauge(3)).verdict).toBe(verdict);
  });
  it('never settled fails where the run outlasted the limit, else it is not assessed', () => {
    expect(one('settling', settled(null), spec, statedGauge(3, { runSpan_s: 3601 }))).toMatchObject({
      verdict: 'fail',
      value: null,
    });
    expect(one('settling', settled(null), spec, statedGauge(3, { runSpan_s: 3600 })).verdict).toBe(
      'not-assessed',
    );
  });
  it('is not assessed without a run', () => {
    expect(one('settling', settled(null, null), spec, factsWithoutRig())).toMatchObject({
      verdict: 'not-assessed',
      reason: 'no run',
    });
  });
});

describe('other levels on a gauge', () => {
  it('judges the released pressure with the UB of its own level', () => {
    const spec = band(400, 420, { releasedPressure: { atMost: 20, unit: 'psi' } });
    const found = (typeBAtReleased: number): Criterion =>
      one('released-pressure', tidyQuantities(), spec, statedGauge(6, { typeBAtReleased }));
    expect(found(2)).toMatchObject({ verdict: 'pass', expandedUncertainty: 2, decisionRule: 'guarded' });
    expect(found(2.01).verdict).toBe('undecided');
  });
  it('judges the oil by the simple rule where its uncertainty is not stated, and remarks it', () => {
    const spec = band(400, 420, { operatingTemperature: { low: 122, high: 176, unit: 'degF' } });
    const decision = decide(tidyQuantities(), spec, statedGauge(3));
    expect(decision.criteria[1]).toMatchObject({
      id: 'hold-temperature',
      decisionRule: 'simple',
      unit: 'degF',
      verdict: 'pass',
    });
    expect(decision.criteria[1]?.value).toBeCloseTo(141.8, 9);
    expect(decision.remarks.map(({ code }) => code)).toContain('oil-temperature-uncertainty-not-stated');
  });
  it('turns the uncertainty of a temperature by the interval, not by the point of the scale', () => {
    const spec = band(400, 420, { operatingTemperature: { low: 122, unit: 'degF' } });
    const facts = statedGauge(3, { oilTemperature: { stated: true, typeBExpanded: 2 } });
    expect(one('hold-temperature', tidyQuantities(), spec, facts).expandedUncertainty).toBeCloseTo(3.6, 12);
  });
  it('judges the highest solenoid current in the unit of the limit', () => {
    const spec = band(400, 420, { solenoidCurrent: { atMost: 900, unit: 'mA' } });
    expect(one('solenoid-current', tidyQuantities(), spec, factsWithoutRig())).toMatchObject({
      value: 920,
      verdict: 'fail',
    });
  });
});

describe('engagements', () => {
  const spec = band(400, 420, {
    engagementRise: { atMost_s: 2 },
    fallAfterRelease: { atMost_s: 20 },
    engagementDip: { atMost: 0.4 },
  });
  const rise = (...engagements: Engagement[]): Criterion =>
    one('engagement-rise', tidyQuantities({ engagements }), spec, factsWithoutRig());
  it('judges the worst and names it', () => {
    const found = rise(engagement(), engagement({ rise_s: 2.6, start_s: 4000 }), engagement({ rise_s: 1.9 }));
    expect(found).toMatchObject({ verdict: 'fail', value: 2.6 });
    expect(found.reason).toContain('number 2');
  });
  it('passes a bound that meets the limit, and never fails one that does not', () => {
    const bound = (riseAtMost_s: number): Engagement => engagement({ rise_s: null, riseAtMost_s });
    expect(rise(bound(2))).toMatchObject({ verdict: 'pass', value: null });
    expect(rise(bound(3)).verdict).toBe('not-assessed');
    expect(rise(engagement(), bound(3)).verdict).toBe('not-assessed');
    expect(rise(engagement({ rise_s: 2.5 }), bound(3))).toMatchObject({ verdict: 'fail', value: 2.5 });
    expect(rise(engagement({ rise_s: 1.5 }), bound(1.8)).verdict).toBe('pass');
  });
  it('says how many could not be measured', () => {
    expect(rise(engagement(), engagement({ rise_s: null, reason: 'shorter than 10 s' })).reason).toContain(
      '1 could not be measured',
    );
  });
  it('is not assessed without engagements, or with the reason of the one that could not be measured', () => {
    expect(rise()).toMatchObject({ verdict: 'not-assessed', reason: 'no engagement in this log' });
    expect(rise(engagement({ rise_s: null, reason: 'shorter than 10 s' })).reason).toBe('shorter than 10 s');
  });
});

describe('a log that still grows', () => {
  it('does not fail a run for a length that it has not reached yet', () => {
    const spec = band(400, 420, { runLength: { atLeast_h: 6 } });
    const quantities = tidyQuantities({ runLength: { length_s: 7200 } });
    const following = one('run-length', quantities, spec, statedGauge(3, { complete: false }));
    expect(following).toMatchObject({ verdict: 'not-assessed', value: 2 });
    expect(following.reason).toContain('still going on');
    expect(one('run-length', quantities, spec, statedGauge(3)).verdict).toBe('fail');
  });
});

describe('grave findings', () => {
  const spec = band(400, 420, everyLimit);
  const reached = (reach: DecisionFacts['grave'][number]['reach']): CriterionId[] =>
    decide(
      tidyQuantities({
        engagements: [engagement()],
        ripple: { peakToPeak: 4, unit: 'psi', frequency_Hz: null, order: null },
      }),
      spec,
      statedGauge(2, { grave: [{ reach, reason: 'the gauge was at its end for most of the hold' }] }),
    )
      .criteria.filter(
        ({ verdict, value, reason }) =>
          verdict === 'not-assessed' && value === null && reason.startsWith('the gauge was'),
      )
      .map(({ id }) => id);
  it('about the pressure stop everything the pressure carries, and leave clock and oil alone', () => {
    expect(reached('pressure')).toEqual(
      criterionIds.filter(
        (id) => !['run-length', 'hold-temperature', 'solenoid-current', 'record-coverage'].includes(id),
      ),
    );
  });
  it('about the oil or one criterion stop only that', () => {
    expect(reached('oil-temperature')).toEqual(['hold-temperature']);
    expect(reached('drift')).toEqual(['drift']);
  });
});

describe('overall', () => {
  it.each([
    [[], 'not-assessed'],
    [['pass'], 'pass'],
    [['pass', 'undecided'], 'undecided'],
    [['undecided', 'not-assessed', 'pass'], 'not-assessed'],
    [['pass', 'not-assessed', 'undecided', 'fail'], 'fail'],
  ] as const)('%j → %s', (list, verdict) => {
    expect(overallVerdict(list.map((each) => ({ verdict: each })))).toBe(verdict);
  });
});

describe('remarks', () => {
  const codes = (y: number, u: number, change: Partial<Spec> = {}, facts = statedGauge(2 * u)): string[] =>
    decide(at(y, u), band(400, 420, change), facts).remarks.map(({ code }) => code);
  it('says when no reading can pass, exactly from 2gU beyond the band', () => {
    expect(codes(410, 5)).toEqual([]);
    expect(codes(410, 5.01)).toEqual(['no-reading-can-pass']);
    expect(codes(410, 4, { guardFactor: 1.3 })).toEqual(['no-reading-can-pass']);
  });
  it('says which gauge would decide an undecided reading', () => {
    const [remark] = decide(at(415.3, 2.9), band(400, 420), statedGauge(5.8)).remarks;
    // 4.7 psi to the limit: ± a with 2a/√3 ≤ 4.7 is 4.07 psi; 0.6 % of 600 psi is 3.6
    expect(remark?.code).toBe('gauge-that-would-decide');
    expect(remark?.text).toContain('± 4 psi or better');
    expect(remark?.text).toContain('0.6 %');
  });
  it('says that no gauge would help where the scatter alone is too wide', () => {
    const [remark] = decide(at(418, 3), band(400, 420), statedGauge(1)).remarks;
    expect(remark?.text).toMatch(/No gauge would decide/);
  });
  it('tells a remark by the rule when the gauge is not stated', () => {
    expect(codes(410, 1, {}, factsWithoutRig())).toEqual(['gauge-uncertainty-not-stated']);
  });
});

describe('too little to pass on', () => {
  const judged = (value: number, facts: Partial<DecisionFacts>): Criterion =>
    one(
      'operating-pressure',
      tidyQuantities({ operatingPressure: { ...tidyQuantities().operatingPressure, value } }),
      specSchema.parse(band(400, 420)),
      { ...factsWithoutRig(), ...facts },
    );
  it('one reading passes nothing, whatever the rule', () => {
    const { verdict, reason, value } = judged(411, { holdReadings: 1, holdRecorded_s: 1 });
    expect(verdict).toBe('not-assessed');
    expect(reason).toContain('only 1 valid reading;');
    expect(value).toBe(411);
  });
  it('nor do many readings of an instant', () => {
    expect(judged(411, { holdReadings: 300, holdRecorded_s: 3 }).verdict).toBe('not-assessed');
    expect(judged(411, { holdReadings: 20, holdRecorded_s: 5 }).verdict).toBe('pass');
  });
  it('out of the band a unit fails on little, too', () => {
    expect(judged(425, { holdReadings: 1, holdRecorded_s: 1 }).verdict).toBe('fail');
  });
});
