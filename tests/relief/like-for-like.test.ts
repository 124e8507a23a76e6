import { describe, expect, it } from 'vitest';
import type { Assessment } from '#formats/assessment.ts';
import type { Rig } from '#formats/rig.ts';
import { predictChange, advise } from '#relief/advise.ts';
import { checkGauge, correctedGaugeBand } from '#relief/check-gauge.ts';
import { unlikeness } from '#relief/like-for-like.ts';
import { assessedAt, relief } from './sample-assessment.ts';

const run = assessedAt(425.1);
const warm = (mean: number): Assessment => ({
  ...run,
  quantities: { ...run.quantities, holdTemperature: { ...run.quantities.holdTemperature, mean } },
});
const read = (identification: string): Assessment => ({
  ...run,
  rig: {
    format: 'overdrive-bench/rig',
    version: 1,
    name: 'bench',
    channels: [{ column: 'P', role: 'pressure', identification }],
  } satisfies Rig,
});

describe('test and re-test', () => {
  it('are alike where nothing tells them apart', () => {
    expect(unlikeness(warm(61), warm(66))).toBeNull();
    expect(unlikeness(read('G-07'), read('G-07'))).toBeNull();
  });
  it('are not where oil, or gauge, is another', () => {
    expect(unlikeness(warm(62), warm(49))).toBe('the oil was 13 °C colder at the re-test');
    expect(unlikeness(read('G-07'), read('G-09'))).toBe('read by gauge G-07, then by G-09');
  });
});

describe('a change that is not among the options', () => {
  it('is predicted as an option of the same size is', () => {
    const input = { assessment: run, relief: relief(), history: null };
    const advised = advise(input);
    if (!advised.ok) throw new Error('not advised');
    const option = advised.value.options.find(({ leave }) => !leave);
    expect(option).toBeDefined();
    expect(predictChange(input, option?.change_mm ?? 0)).toEqual({
      value: option?.predicted.value,
      unit: 'psi',
      standardUncertainty: option?.predicted.standardUncertainty,
    });
  });
  it('is not where advice is held back', () => {
    const cold = {
      ...run,
      quantities: {
        ...run.quantities,
        operatingPressure: { ...run.quantities.operatingPressure, value: null },
      },
    };
    expect(predictChange({ assessment: cold, relief: relief(), history: null }, -0.5)).toBeNull();
  });
});

describe('a gauge that was checked', () => {
  const points = [0, 100, 200, 300, 400, 500];
  const check = (off: (p: number, index: number) => number) => {
    const found = checkGauge({
      unit: 'psi',
      reference: points,
      reading: points.map((p, i) => p + off(p, i)),
    });
    if (!found.ok) throw new Error('not checked');
    return found.value;
  };
  it('leaves of a band what its corrected uncertainty leaves', () => {
    const found = check((_, index) => 3 + (index % 2 === 0 ? 1 : -1));
    const left = correctedGaugeBand(found, { low: 400, high: 420, unit: 'psi' });
    const U = found.rigChannel?.uncertainty.expanded ?? NaN;
    expect(left?.passFrom).toBeCloseTo(400 + U, 9);
    expect(left?.passTo).toBeCloseTo(420 - U, 9);
  });
  it('says when nothing is left', () => {
    const found = check((_, index) => (index % 2 === 0 ? 12 : -12));
    expect(correctedGaugeBand(found, { low: 400, high: 420, unit: 'psi' })).toMatchObject({
      canPass: false,
      passFrom: null,
      passTo: null,
      room: null,
    });
  });
});
