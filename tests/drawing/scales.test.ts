import { describe, expect, test } from 'vitest';
import {
  graduation,
  oilScale,
  paneScale,
  PANE_HEIGHT,
  roundStepAtLeast,
  stripScale,
  timeScale,
} from '#drawing/scales.ts';

describe('scale of the large pane', () => {
  test('a band of 20 psi stands 20 mm tall in the middle of 50', () => {
    expect(paneScale({ low: 400, high: 420 }, 411, null)).toEqual({
      perMillimetre: 1,
      bottom: 385,
      top: 435,
    });
  });
  test('the band takes at most half of the pane', () => {
    for (const width of [0.4, 1, 3, 20, 25, 26, 138, 900, 4000]) {
      const pane = paneScale({ low: 5000, high: 5000 + width }, null, null);
      expect(width / pane.perMillimetre).toBeLessThanOrEqual(25);
      expect(pane.top - pane.bottom).toBeCloseTo(PANE_HEIGHT * pane.perMillimetre, 9);
    }
  });
  test('it does not hang on the readings while the average lies in it', () => {
    const one = paneScale({ low: 400, high: 420 }, 386, { min: 380, max: 392 });
    const other = paneScale({ low: 400, high: 420 }, 434, { min: 425, max: 440 });
    expect(one).toEqual(other);
  });
  test('an average beyond it makes it coarser until it is in', () => {
    expect(paneScale({ low: 400, high: 420 }, 440, null)).toEqual({
      perMillimetre: 2,
      bottom: 360,
      top: 460,
    });
    const low = paneScale({ low: 400, high: 420 }, 148, null);
    expect(low.bottom).toBeLessThanOrEqual(148);
    expect(low.top).toBeGreaterThan(420);
  });
  test('far below the band it starts at zero, never below', () => {
    expect(paneScale({ low: 400, high: 420 }, 148, null)).toEqual({ perMillimetre: 10, bottom: 0, top: 500 });
  });
  test('a single limit stands 15 mm from the forbidden edge', () => {
    const upper = paneScale({ low: null, high: 420 }, 411, null);
    expect((upper.top - 420) / upper.perMillimetre).toBeCloseTo(15, 9);
    const lower = paneScale({ low: 400, high: null }, 411, null);
    expect((400 - lower.bottom) / lower.perMillimetre).toBeCloseTo(15, 9);
  });
  test('without limits it holds the range of the hold and a fifth more on either side', () => {
    const pane = paneScale({ low: null, high: null }, 410, { min: 405, max: 415 });
    expect(pane.bottom).toBeLessThanOrEqual(403);
    expect(pane.top).toBeGreaterThanOrEqual(417);
  });
  test('a constant pressure still has a pane', () => {
    const pane = paneScale({ low: null, high: null }, 0, { min: 0, max: 0 });
    expect(pane.top).toBeGreaterThan(pane.bottom);
  });
});

test('round steps are 1, 2, 5 times a power of ten', () => {
  expect([0.8, 1, 1.01, 2.1, 5.5, 43].map(roundStepAtLeast)).toEqual([1, 1, 2, 5, 10, 50]);
});

test('the strip holds zero to the highest reading', () => {
  expect(stripScale(442, 20)).toBe(25);
  expect(stripScale(501, 20)).toBe(40);
  expect(stripScale(442, 10)).toBe(50);
  expect(stripScale(30.4, 20)).toBe(2);
});

test('the time scale is the largest whole one that fits', () => {
  expect(timeScale(6.05, 131)).toBe(20);
  expect(timeScale(7.6, 114)).toBe(15);
  expect(timeScale(24, 131)).toBe(5);
  expect(timeScale(0.5, 131)).toBe(240);
  for (const hours of [0.001, 0.1, 1, 5.9, 11, 30, 200, 2000])
    expect(hours * timeScale(hours, 131)).toBeLessThanOrEqual(131);
});

test('graduations: ten minutes, half hours and hours at six hours; every tick at least half a millimetre from the next', () => {
  expect(graduation(20)).toEqual({ short_s: 600, middle_s: 1800, long_s: 3600, figure_s: 3600, unit: 'h' });
  expect(graduation(5)).toMatchObject({ short_s: 1800, figure_s: 7200 });
  for (const scale of [36000, 3600, 1200, 240, 60, 20, 8, 5, 2, 0.5]) {
    const { short_s, middle_s, long_s } = graduation(scale);
    expect((short_s / 3600) * scale).toBeGreaterThanOrEqual(0.5);
    expect(middle_s % short_s < 1e-9 || short_s - (middle_s % short_s) < 1e-9).toBe(true);
    expect(long_s).toBeGreaterThanOrEqual(middle_s);
  }
});

test('oil: 0 to 80 °C in 16 mm, coarser when hotter, lower when below zero', () => {
  expect(oilScale(18, 62, 'degC')).toEqual({ perMillimetre: 5, bottom: 0, top: 80 });
  expect(oilScale(18, 95, 'degC')).toEqual({ perMillimetre: 10, bottom: 0, top: 160 });
  expect(oilScale(-6, 50, 'degC')).toEqual({ perMillimetre: 5, bottom: -20, top: 60 });
  expect(oilScale(60, 150, 'degF')).toEqual({ perMillimetre: 10, bottom: 0, top: 160 });
});
