import { describe, expect, it } from 'vitest';
import { classWithin, gaugeAgainstBand, halfWidthFor, expandedFrom } from '#decision/gauge-against-band.ts';

const band = { low: 400, high: 420, unit: 'psi' as const };
const gauge = (high: number, accuracyPercentOfSpan: number): Parameters<typeof gaugeAgainstBand>[0] => ({
  range: { low: 0, high, unit: 'psi' },
  accuracyPercentOfSpan,
});

describe('what a gauge leaves of 400 to 420 psi', () => {
  // Computed by hand: a/√3, k = 2, the gauge alone.
  it.each([
    [500, 1, 5.8, 8.5, 405.8, 414.2],
    [600, 1, 6.9, 6.1, 406.9, 413.1],
    [1000, 0.5, 5.8, 8.5, 405.8, 414.2],
    [500, 0.25, 1.4, 17.1, 401.4, 418.6],
  ])('0 to %d psi, %d %%: U %d, room %d', (high, percent, expanded, room, from, to) => {
    const found = gaugeAgainstBand(gauge(high, percent), band);
    expect(found.expandedUncertainty).toBeCloseTo(expanded, 1);
    expect(found.room).toBeCloseTo(room, 1);
    expect(found.passFrom).toBeCloseTo(from, 1);
    expect(found.passTo).toBeCloseTo(to, 1);
    expect(found.canPass).toBe(true);
  });
  it('0 to 1000 psi, 1 %: nothing can pass, and a quarter per cent would do', () => {
    const found = gaugeAgainstBand(gauge(1000, 1), band);
    expect(found).toMatchObject({
      passFrom: null,
      passTo: null,
      canPass: false,
      room: 0,
      classThatWouldDo: 0.25,
    });
    expect(found.expandedUncertainty).toBeCloseTo(11.547, 3);
  });
  it('a gauge in bar against a band in psi', () => {
    const found = gaugeAgainstBand(
      { range: { low: 0, high: 40, unit: 'bar' }, accuracyPercentOfSpan: 1 },
      band,
    );
    expect(found.expandedUncertainty).toBeCloseTo((2 * 0.4 * 14.503773773020923) / Math.sqrt(3), 9);
  });
  it('a gauge that ends below the band leaves nothing, one that ends inside it no more than it shows', () => {
    expect(gaugeAgainstBand(gauge(300, 1), band)).toMatchObject({
      passFrom: null,
      passTo: null,
      canPass: false,
      room: 0,
      classThatWouldDo: null,
    });
    expect(gaugeAgainstBand(gauge(300, 1), { low: 400, high: null, unit: 'psi' }).canPass).toBe(false);
    expect(gaugeAgainstBand(gauge(410, 0.1), band)).toMatchObject({ passTo: 410, canPass: true });
    expect(gaugeAgainstBand(gauge(410, 0.1), band).room).toBeCloseTo(410 - 400.473, 3);
  });
  it('a one-sided band keeps its open side', () => {
    expect(gaugeAgainstBand(gauge(500, 1), { low: 400, high: null, unit: 'psi' })).toMatchObject({
      passTo: null,
      canPass: true,
      room: null,
      classThatWouldDo: null,
    });
  });
  it('a guard of one and a half U takes more', () => {
    expect(gaugeAgainstBand(gauge(500, 1), band, 1.5).room).toBeCloseTo(2.68, 2);
  });
});

it('half-width and expanded uncertainty undo each other', () => {
  expect(halfWidthFor(expandedFrom(3.7))).toBeCloseTo(3.7, 14);
});
it.each([
  [6, 600, 1],
  [5.99, 600, 0.6],
  [0.1, 600, null],
])('the coarsest class within ± %d of %d is %s', (halfWidth, span, found) => {
  expect(classWithin(halfWidth, span)).toBe(found);
});
