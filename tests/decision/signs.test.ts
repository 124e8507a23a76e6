import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Engagement, Quantities } from '#formats/assessment.ts';
import type { Spec } from '#formats/spec.ts';
import type { SignFacts } from '#decision/sign.ts';
import { signsOf } from '#decision/signs.ts';
import { at, band, tidyQuantities } from './sample-quantities.ts';

const ids = (quantities: Quantities, spec: Spec | null = band(400, 420), facts: SignFacts = {}): string[] =>
  signsOf(quantities, spec, facts).map(({ id }) => id);
const tidy = tidyQuantities({
  drift: { ...tidyQuantities().drift, temperatureCorrectedSlope: 0, trend: 'none' },
});
const change = (part: Partial<Quantities>): Quantities => ({ ...tidy, ...part });
const engagement = (part: Partial<Engagement> = {}): Engagement => ({
  start_s: 0,
  end_s: 100,
  rise_s: 1,
  plateau: { value: 411, unit: 'psi' },
  peak: { value: 431, unit: 'psi' },
  overshoot: 0,
  fall_s: 4,
  dip: 0.2,
  recovery_s: 1,
  ...part,
});

it('sees nothing in a tidy run', () => {
  expect(signsOf(tidy, band(400, 420))).toEqual([]);
  expect(signsOf(tidy, null)).toEqual([]);
});

describe('each sign, with one run that shows it and one that does not', () => {
  const sensitivity = { value: -0.3, unit: 'psi/degC', low: -0.35, high: -0.25 };
  it.each<[string, Quantities, Quantities, Spec?, SignFacts?]>([
    [
      'sags-with-heat',
      change({ temperatureSensitivity: sensitivity, settling: { ...tidy.settling, time_s: 6000 } }),
      change({ temperatureSensitivity: sensitivity }),
    ],
    [
      'in-band-cold-below-hot',
      { ...at(392), drift: tidy.drift, temperatureSensitivity: sensitivity },
      { ...at(402), drift: tidy.drift, temperatureSensitivity: sensitivity },
    ],
    [
      'falls-at-level-heat',
      change({ drift: { ...tidy.drift, temperatureCorrectedSlope: -1, temperatureCorrectedHigh: -0.4 } }),
      change({
        drift: {
          ...tidy.drift,
          temperatureCorrectedSlope: -1,
          temperatureCorrectedHigh: 0.2,
          trend: 'falling',
        },
      }),
    ],
    [
      'creeps-up',
      change({ drift: { ...tidy.drift, slope: 1, low: 0.5, high: 1.5, trend: 'rising' } }),
      change({ drift: { ...tidy.drift, slope: 1, low: -0.5, high: 2.5, trend: 'none' } }),
    ],
    ['low-throughout', { ...at(380, 1), drift: tidy.drift }, { ...at(399, 1), drift: tidy.drift }],
    ['high-and-level', { ...at(430, 1), drift: tidy.drift }, { ...at(421, 1), drift: tidy.drift }],
    [
      'follows-speed',
      change({ speedDependence: { exponent: 0.97, low: 0.9, high: 1.04, kind: 'in-proportion' } }),
      change({ speedDependence: { exponent: 0.03, low: 0, high: 0.06, kind: 'level' } }),
    ],
    [
      'settles-late',
      change({ settling: { ...tidy.settling, time_s: 9000 } }),
      change({ settling: { ...tidy.settling, time_s: 7000 } }),
    ],
    [
      'never-settles',
      change({
        settling: { ...tidy.settling, time_s: null },
        drift: { ...tidy.drift, slope: -6, trend: 'falling' },
      }),
      change({
        settling: { ...tidy.settling, time_s: null, finalValue: null },
        drift: { ...tidy.drift, trend: 'falling' },
      }),
    ],
    [
      'rises-slowly',
      change({ engagements: [engagement({ rise_s: 3 })] }),
      change({ engagements: [engagement({ rise_s: 2 })] }),
    ],
    [
      'engages-slower-and-slower',
      change({ engagements: [1, 1.1, 1.3, 1.6, 1.8].map((rise_s) => engagement({ rise_s })) }),
      change({ engagements: [1, 1.4, 1.1, 1.2, 1.3].map((rise_s) => engagement({ rise_s })) }),
    ],
    [
      'dips-deep',
      change({ engagements: [engagement({ dip: 0.5 })] }),
      change({ engagements: [engagement({ dip: 0.25 })] }),
    ],
    [
      'recovers-slowly',
      change({ engagements: [engagement({ recovery_s: 3 })] }),
      change({ engagements: [engagement()] }),
    ],
    [
      'releases-slowly',
      change({ engagements: [engagement({ fall_s: 12 })] }),
      change({ engagements: [engagement({ fall_s: 9 })] }),
    ],
    [
      'releases-at-once',
      change({ engagements: [engagement({ fall_s: null, fallAtMost_s: 0.13 })] }),
      change({ engagements: [engagement({ fall_s: 1.1 })] }),
    ],
    [
      'pressure-left-when-released',
      change({ releasedPressure: { value: 50, unit: 'psi' } }),
      change({ releasedPressure: { value: 50, unit: 'psi' } }),
      band(400, 420, { releasedPressure: { atMost: 60, unit: 'psi' } }),
    ],
    [
      'ripples-once-a-turn',
      change({ ripple: { peakToPeak: 16, unit: 'psi', frequency_Hz: 16.7, order: 1 } }),
      change({ ripple: { peakToPeak: 16, unit: 'psi', frequency_Hz: 33, order: 2 } }),
    ],
    [
      'step-that-stays',
      change({ changePoint: { at_s: 9000, before: 411, after: 405, unit: 'psi', probability: 0.001 } }),
      tidy,
    ],
    [
      'plateaus-spread',
      change({
        plateauSpread: { value: 25, unit: 'psi', engagements: 4 },
        engagements: [engagement(), engagement()],
      }),
      change({
        plateauSpread: { value: 25, unit: 'psi', engagements: 2 },
        engagements: [engagement(), engagement()],
      }),
    ],
    ['leaks-down-quickly', change({ leakDown: { halfTime_s: 4 } }), change({ leakDown: { halfTime_s: 11 } })],
    [
      'solenoid-current-missing',
      change({ solenoidCurrent: { mean: 3, max: 5, unit: 'mA' }, engagements: [engagement()] }),
      change({ solenoidCurrent: { mean: 800, max: 900, unit: 'mA' }, engagements: [engagement()] }),
    ],
    [
      'zero-off-at-rest',
      change({ zeroAtRest: { value: -38, unit: 'psi' } }),
      change({ zeroAtRest: { value: 3, unit: 'psi' } }),
    ],
    [
      'would-not-get-warm',
      change({ warmUp: { ...tidy.warmUp, finalTemperature: 42 } }),
      change({ warmUp: { ...tidy.warmUp, finalTemperature: 51 } }),
      band(400, 420, { operatingTemperature: { low: 50, unit: 'degC' } }),
    ],
  ])('%s', (id, shows, doesNot, spec = band(400, 420)) => {
    expect(ids(shows, id === 'pressure-left-when-released' ? band(400, 420) : spec)).toContain(id);
    expect(ids(doesNot, spec)).not.toContain(id);
  });
  it('a fall that is too small to matter, or a step, is no fall at level heat', () => {
    const falling = (temperatureCorrectedSlope: number): Quantities =>
      change({ drift: { ...tidy.drift, temperatureCorrectedSlope, temperatureCorrectedHigh: -0.01 } });
    expect(ids(falling(-0.3))).toEqual([]); // 1.5 psi over a hold of 5.2 h
    expect(ids(falling(-0.5))).toEqual(['falls-at-level-heat']);
    const stepped = { at_s: 9000, before: 411, after: 405, unit: 'psi' as const, probability: 0.001 };
    expect(ids({ ...falling(-0.5), changePoint: stepped })).toEqual(['step-that-stays']);
  });
  it('the pressure that a unit still loses over the hold counts as sagging, one that rises does not', () => {
    const drifting = (value: number, trend: 'falling' | 'rising'): Quantities =>
      change({
        temperatureSensitivity: sensitivity,
        drift: { ...tidy.drift, trend, low: -1, overHold: { value, unit: 'psi' } },
        settling: { ...tidy.settling, time_s: trend === 'rising' ? 6000 : 2000 },
      });
    expect(ids(drifting(-4, 'falling'))).toEqual(['sags-with-heat']);
    expect(ids(drifting(-2, 'falling'))).toEqual([]);
    expect(ids(drifting(4, 'rising'))).toEqual([]);
  });
  it('solenoid-current-high needs a limit', () => {
    expect(ids(tidy, band(400, 420, { solenoidCurrent: { atMost: 900, unit: 'mA' } }))).toEqual([
      'solenoid-current-high',
    ]);
    expect(ids(tidy, band(400, 420, { solenoidCurrent: { atMost: 1, unit: 'A' } }))).toEqual([]);
  });
  it.each<[string, SignFacts, SignFacts]>([
    ['clipped-gauge', { clippedShare: 0.02 }, { clippedShare: 0 }],
    ['solenoid-current-missing', { commandsWithoutCurrent: 6 }, { commandsWithoutCurrent: 0 }],
    ['noise-without-a-period', { noise: 12 }, { noise: 4 }],
    ['steps-with-the-solenoid', { stepWithSolenoid: -14 }, { stepWithSolenoid: 2 }],
  ])('%s', (id, shows, doesNot) => {
    expect(ids(tidy, band(400, 420), shows)).toEqual([id]);
    expect(ids(tidy, band(400, 420), doesNot)).toEqual([]);
  });
  it('ripple once a turn that is small is the stroke of the pump, and no sign', () => {
    expect(ids(change({ ripple: { peakToPeak: 6.5, unit: 'psi', frequency_Hz: 16.7, order: 1 } }))).toEqual(
      [],
    );
  });
  it('a pressure that follows the shaft rises and falls with it, and that is no slow engaging', () => {
    const following = change({
      engagements: [engagement({ rise_s: 1200, fall_s: 1200 })],
      speedDependence: { exponent: 1, low: 0.95, high: 1.05, kind: 'in-proportion' },
    });
    expect(ids(following)).toEqual(['follows-speed']);
  });
  it('a pressure in doubt gives no signs of its own', () => {
    const late = change({
      settling: { ...tidy.settling, time_s: 9000 },
      zeroAtRest: { value: 38, unit: 'psi' },
    });
    expect(ids(late)).toEqual(['settles-late', 'zero-off-at-rest']);
    expect(ids(late, band(400, 420), { pressureInDoubt: true })).toEqual(['zero-off-at-rest']);
  });
  it('a saw-tooth once a turn takes the place of plain ripple', () => {
    const rippling = change({ ripple: { peakToPeak: 16, unit: 'psi', frequency_Hz: 16.7, order: 1 } });
    expect(ids(rippling, band(400, 420), { fallOverRise: 4 })).toEqual(['saw-tooth-once-a-turn']);
    expect(ids(rippling, band(400, 420), { fallOverRise: 1.2 })).toEqual(['ripples-once-a-turn']);
  });
});

it('carries the measured feature with its unit, several causes and what else would show it', () => {
  const [found] = signsOf(
    {
      ...at(392),
      drift: tidy.drift,
      temperatureSensitivity: { value: -0.3, unit: 'psi/degC', low: -0.35, high: -0.25 },
    },
    band(400, 420),
  );
  expect(found?.feature).toEqual({ value: 12.84, unit: 'psi' }); // 0.3 psi/°C over 61.0 − 18.2 °C
  expect(found?.mayPointTo.length).toBeGreaterThan(1);
  expect(found?.alsoShownBy).toContain('higher speed');
});

it('every sign has its words', () => {
  const words = readFileSync(new URL('../../src/formats/sign-text.ts', import.meta.url), 'utf8');
  const files = ['pressure', 'engagement', 'measurement'].map((name) =>
    readFileSync(new URL(`../../src/decision/${name}-signs.ts`, import.meta.url), 'utf8'),
  );
  const all = files.flatMap((text) => [...text.matchAll(/sign\(\s*'([a-z-]+)'/g)].map((match) => match[1]));
  expect(all.length).toBeGreaterThan(25);
  expect(all.filter((id) => !words.includes(`'${id}':`))).toEqual([]);
});

describe('one number on the record', () => {
  it('the slow rise of the sign is the worst one, which the limit judges', () => {
    const found = signsOf(
      change({ engagements: [engagement({ rise_s: 2.8 }), engagement({ rise_s: 2.9 })] }),
      band(400, 420),
    ).find(({ id }) => id === 'rises-slowly');
    expect(found?.feature.value).toBe(2.9);
  });
  it('settling late counts recorded time, and is no sign where the hold paused before it', () => {
    const late = change({ settling: { ...tidy.settling, time_s: 9000 } });
    expect(ids(late)).toContain('settles-late');
    expect(ids(late, band(400, 420), { settlingRecorded_s: 2000 })).not.toContain('settles-late');
    expect(ids(late, band(400, 420), { settlingRecorded_s: null })).not.toContain('settles-late');
  });
});
