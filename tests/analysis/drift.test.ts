import { describe, expect, it } from 'vitest';
import { analysed, codes } from './analysed.ts';
import {
  evenTimes,
  gauge,
  makeLog,
  noise,
  oilColumn,
  pressureColumn,
  rig,
  spec,
  type Column,
} from './synthetic-run.ts';

const wide = { settling: { tolerance: 100, unit: 'psi' as const } };
const engaged = (at: (t: number) => number, end_s = 21_700, step_s = 1, oil?: Column['at']) =>
  makeLog({
    times: evenTimes(end_s, step_s),
    columns: [
      pressureColumn((t) => (t < 100 ? 0 : at(t)), { decimals: 3 }),
      ...(oil ? [oilColumn(oil, { decimals: 2 })] : []),
    ],
  });
const drift = (at: (t: number) => number, end_s?: number, step_s?: number) =>
  analysed(engaged(at, end_s, step_s), { spec: spec(wide) }).quantities.drift;

describe('drift', () => {
  it('is the slope of the hold, and slope times the length of the hold', () => {
    const random = noise(1);
    const found = drift((t) => 413 - (2 * t) / 3600 + random());
    expect(found.slope).toBeCloseTo(-2, 1);
    expect(found.low).toBeLessThan(-2);
    expect(found.high).toBeGreaterThan(-2);
    // The hold goes from 105 s to 21,700 s.
    expect(found.overHold.value).toBeCloseTo(((found.slope ?? NaN) * 21_595) / 3600, 9);
    expect(found).toMatchObject({ trend: 'falling', confidence: 0.95, unit: 'psi/h' });
  });
  it('is none under twenty minutes of hold, or with fewer than ten blocks', () => {
    expect(drift(() => 411, 1290)).toMatchObject({
      slope: null,
      trend: null,
      reason: 'the hold is shorter than 20 min',
    });
    expect(drift(() => 411, 1320).slope).toBe(0);
    // One reading in 15 min for two hours: nine readings.
    expect(drift(() => 411, 7200, 900)).toMatchObject({ slope: null });
  });
  it('is not bent by outliers and excursions', () => {
    const random = noise(2);
    const found = drift((t) => 411 + 0.5 * random() + (t > 18_000 && t < 19_200 ? -20 : 0));
    expect(Math.abs(found.slope ?? NaN)).toBeLessThan(0.1);
  });
  it('hides in the steps of a coarse indication, also where the rig file states a finer one', () => {
    const random = noise(9, 0.95);
    // 1.2 psi an hour in steps of 5 psi: 415, 410 for four hours, 405.
    const stepped = engaged((t) => 5 * Math.round((414 - (1.2 * t) / 3600 + 0.6 * random()) / 5));
    const found = analysed(stepped, { spec: spec(wide), rig: rig(gauge({ resolution: 0.1 })) }).quantities;
    expect(found.drift.low).toBeLessThan(-1.2);
    expect(found.drift.high).toBeGreaterThan(-1.2);
    expect(found.operatingPressure.budget.find(({ source }) => source === 'resolution')?.size).toBe(2.5);
  });
  it('says when the line leaves the band, 0 where it is outside, nothing without a trend', () => {
    const random = noise(3);
    // At the hold's end the line stands at 415 − 2·6 = 403: 3 psi above the limit, 1.5 h at 2 psi an hour.
    expect(drift((t) => 415 - (2 * (t - 100)) / 3600 + 0.2 * random()).bandExit_h).toBeCloseTo(1.5, 1);
    expect(drift((t) => 410 - (2 * (t - 100)) / 3600 + 0.2 * random()).bandExit_h).toBe(0);
    expect(drift(() => 411 + 0.2 * random())).toMatchObject({ bandExit_h: null, trend: 'none' });
    // 0.02 psi an hour: 400 hours, far beyond ten hold lengths.
    expect(drift((t) => 411 - (0.02 * t) / 3600 + 0.001 * random()).bandExit_h).toBeNull();
  });
  it('keeps the bend of a warm-up from passing for noise', () => {
    const random = noise(4, 0.5);
    const at = (t: number): number =>
      411 + 6 * Math.exp(-t / 1500) + (2 * Math.max(0, t - 7200)) / 3600 + 1.1 * random();
    const found = analysed(
      engaged(at, 21_700, 5, (t) => (t < 2000 ? 20 : 60)),
      { spec: spec({ ...wide, operatingTemperature: { low: 50, unit: 'degC' } }) },
    ).quantities.drift;
    // 2 psi an hour for two thirds of the hold.
    expect(found.low).toBeGreaterThan(1);
    expect(found.trend).toBe('rising');
  });
});

describe('a step that stays', () => {
  const random = noise(5);
  const stepped = engaged((t) => 413 + (t >= 12_000 ? -5 : 0) + 0.7 * random());
  const analysis = analysed(stepped, { spec: spec(wide) });
  it('is found with its place and levels', () => {
    const { changePoint } = analysis.quantities;
    expect(changePoint?.at_s).toBeGreaterThan(11_900);
    expect(changePoint?.at_s).toBeLessThan(12_100);
    expect(changePoint?.before).toBeCloseTo(413, 0);
    expect(changePoint?.after).toBeCloseTo(408, 0);
    expect(codes(analysis)).toContain('step-that-stays');
  });
  it('is found in the last quarter of an hour too, and counts for the change over the hold', () => {
    const fresh = noise(7, 0.9);
    const late = analysed(
      engaged((t) => (t < 20_800 ? 413 : 405) + 0.8 * fresh()),
      { spec: spec(wide) },
    );
    expect(codes(late)).toContain('step-that-stays');
    expect(late.quantities.drift.overHold.value).toBeCloseTo(-8, 0);
  });
  it('is not averaged into the slope, but counts for the change over the hold', () => {
    const { drift: found } = analysis.quantities;
    expect(Math.abs(found.slope ?? NaN)).toBeLessThan(0.15);
    expect(found.overHold.value).toBeCloseTo(-5, 0);
    expect(found.overHold.low).toBeLessThan(found.overHold.value ?? NaN);
  });
  it('is neither an excursion that comes back, nor a slope, nor a slow approach', () => {
    const none = (at: (t: number) => number): unknown => {
      const fresh = noise(6);
      return analysed(
        engaged((t) => at(t) + 0.7 * fresh()),
        { spec: spec(wide) },
      ).quantities.changePoint;
    };
    expect(none((t) => (t > 15_000 && t < 17_000 ? 405 : 411))).toBeUndefined();
    expect(none((t) => 420 - t / 2000)).toBeUndefined();
    expect(none((t) => 411 + 24 * Math.exp(-t / 1500))).toBeUndefined();
    expect(none((t) => 411 + 24 * Math.exp(-t / 6000))).toBeUndefined();
    expect(none(() => 411)).toBeUndefined();
  });
});

describe('pressure and heat', () => {
  const oil = (t: number): number => 20 + 42 * (1 - Math.exp(-t / 3000));
  it('are told apart: falls with heat, level at level heat', () => {
    const random = noise(7);
    const analysis = analysed(
      engaged((t) => 411 - 0.4 * (oil(t) - 62) + 0.5 * random(), 21_700, 1, oil),
      { spec: spec({ settling: { tolerance: 8, unit: 'psi' } }) },
    );
    const { temperatureSensitivity: found, drift: line } = analysis.quantities;
    expect(found).toMatchObject({ unit: 'psi/degC' });
    expect(found.value).toBeCloseTo(-0.4, 1);
    expect(found.low).toBeLessThan(-0.4);
    expect(found.high).toBeGreaterThan(-0.4);
    expect(Math.abs(line.temperatureCorrectedSlope ?? NaN)).toBeLessThan(0.1);
    expect(codes(analysis)).toContain('goes-with-heat');
    expect(codes(analysis)).not.toContain('falls-at-constant-heat');
  });
  it('are told apart: keeps falling at constant heat', () => {
    const random = noise(8);
    const analysis = analysed(
      engaged((t) => 419 - 0.4 * (oil(t) - 62) - (1.5 * t) / 3600 + 0.5 * random(), 21_700, 1, oil),
      { spec: spec({ settling: { tolerance: 12, unit: 'psi' } }) },
    );
    expect(analysis.quantities.drift.temperatureCorrectedSlope).toBeCloseTo(-1.5, 0);
    expect(codes(analysis)).toContain('falls-at-constant-heat');
  });
  it('are not told apart where the oil spans under 5 °C, or rises with time alone', () => {
    const at = (temperature: (t: number) => number) =>
      analysed(
        engaged(() => 411, 21_700, 1, temperature),
        { spec: spec(wide) },
      ).quantities.temperatureSensitivity;
    expect(at((t) => 60 + Math.sin(t / 1000))).toMatchObject({ value: null });
    expect(at((t) => 60 + Math.sin(t / 1000)).reason).toContain('less than 5 °C');
    expect(at((t) => 20 + t / 500).reason).toContain('cannot be told apart');
    expect(at((t) => 60 + 3 * Math.sin(t / 1000)).value).toBeCloseTo(0, 12);
  });
});

describe('the oil', () => {
  const warming =
    (final: number, tau: number) =>
    (t: number): number =>
      t < 100 ? 18 : final - (final - 18) * Math.exp(-(t - 100) / tau);
  const warmUp = (oil: (t: number) => number, operating?: number, end_s = 21_700) =>
    analysed(
      engaged(() => 411, end_s, 1, oil),
      {
        spec: spec({
          ...wide,
          ...(operating === undefined ? {} : { operatingTemperature: { low: operating, unit: 'degC' } }),
        }),
      },
    );
  it('has a time constant with its interval, a start and an end', () => {
    const random = noise(9);
    const noisy = (t: number): number => warming(62, 1500)(t) + 0.2 * random();
    const found = warmUp(noisy, 50).quantities.warmUp;
    expect(found.timeConstant_s).toBeGreaterThan(1485);
    expect(found.timeConstant_s).toBeLessThan(1515);
    expect(found.low_s).toBeLessThan(found.timeConstant_s ?? NaN);
    expect(found.startTemperature).toBeCloseTo(18, 0);
    expect(found.finalTemperature).toBeCloseTo(62, 0);
    // 1500 s · ln(44/12) = 1,949 s after engaging.
    expect(found.reachedOperating_s).toBeGreaterThan(1900);
    expect(found.reachedOperating_s).toBeLessThan(2000);
    expect(found.stillToGo_s).toBe(0);
  });
  it('says how long the run would have to go on', () => {
    const analysis = warmUp(warming(90, 10_000));
    // At the end, 21,600 s after engaging: 72 °C · e^(−2.16) = 8.30 °C to go; 10,000 s · ln 8.30 = 21,166 s to within a degree.
    expect(analysis.quantities.warmUp.stillToGo_s).toBeGreaterThan(21_000);
    expect(analysis.quantities.warmUp.stillToGo_s).toBeLessThan(21_350);
    expect(codes(analysis)).toContain('oil-still-warming');
  });
  it('has no time constant where its temperature does not bend, or does not move', () => {
    expect(warmUp((t) => 20 + t / 1000).quantities.warmUp).toMatchObject({ timeConstant_s: null });
    expect(warmUp(() => 60).quantities.warmUp.reason).toContain('did not change');
  });
  it('is fitted up to a break after which it is cooler', () => {
    const times = evenTimes(21_700).filter((t) => !(t > 9000 && t < 12_000));
    const oil = (t: number): number =>
      t < 12_000 ? warming(62, 1500)(t) : 62 - 30 * Math.exp(-(t - 12_000) / 1500);
    const log = makeLog({ times, columns: [pressureColumn((t) => (t < 100 ? 0 : 411)), oilColumn(oil)] });
    const found = analysed(log, { spec: spec() }).quantities.warmUp;
    expect(found.timeConstant_s).toBeCloseTo(1500, -1);
  });
  it('has its mean by weight over the hold, and its ends as smoothed', () => {
    const analysis = warmUp((t) => (t < 10_000 ? 60 : 64), 50);
    const { mean, min, max, unit } = analysis.quantities.holdTemperature;
    // 105 s to 10,000 s at 60 °C, then to 21,700 s at 64 °C.
    expect(mean).toBeCloseTo((60 * 9895 + 64 * 11_701) / 21_596, 6);
    expect([min, max, unit]).toEqual([60, 64, 'degC']);
  });
});
