import { describe, expect, it } from 'vitest';
import { analysed } from './analysed.ts';
import { evenTimes, makeLog, oilColumn, pressureColumn, spec, type Column } from './synthetic-run.ts';

const textOf = (code: string, at: Column['at'], end_s: number, ...more: Column[]): string | null =>
  analysed(makeLog({ times: evenTimes(end_s), columns: [pressureColumn(at), ...more] }), {
    spec: spec({ operatingTemperature: { low: 50, unit: 'degC' } }),
  }).remarks.find((remark) => remark.code === code)?.text ?? null;
/** The readings never repeat for a minute, so none is taken for stuck. */
const wobble = (t: number): number => 0.1 * ((t * 7) % 10);
const warm = oilColumn(() => 60);

describe('before the hold', () => {
  const late =
    (until_s: number, level: (t: number) => number) =>
    (t: number): number =>
      t < 60 ? 0 : (t < until_s ? level(t) : 411) + wobble(t);
  it('an hour above the band on warm oil is named, though the hold starts after it', () => {
    expect(
      textOf(
        'outside-before-hold',
        late(3660, () => 451),
        14_400,
        warm,
      ),
    ).toMatch(
      /warm the pressure stood above the band for 1 h before the hold, from 1 min to 1 h 1 min, at 451/u,
    );
  });
  it('so is a pressure that comes and goes, counted together', () => {
    const flaps = late(7260, (t) => (t % 1200 < 600 ? 451 : 411));
    expect(textOf('outside-before-hold', flaps, 14_400, warm)).toMatch(
      /for 59 min .* in 7 stretches|for 1 h .* in \d stretches/u,
    );
  });
  it('without an oil temperature it counts from half an hour after engaging', () => {
    expect(
      textOf(
        'outside-before-hold',
        late(3660, () => 451),
        14_400,
      ),
    ).toMatch(/for 30 min before the hold/u);
    expect(
      textOf(
        'outside-before-hold',
        late(1800, () => 451),
        14_400,
      ),
    ).toBeNull();
  });
  it('what it does on cold oil, or for ten minutes only, is none', () => {
    const cold = oilColumn((t) => (t < 3600 ? 30 : 60));
    expect(
      textOf(
        'outside-before-hold',
        late(3600, () => 451),
        14_400,
        cold,
      ),
    ).toBeNull();
    expect(
      textOf(
        'outside-before-hold',
        late(600, () => 451),
        14_400,
        warm,
      ),
    ).toBeNull();
  });
});

describe('within the hold', () => {
  const low = (from_s: number, to_s: number, level: number) => (t: number) =>
    (t < 60 ? 0 : t >= from_s && t < to_s ? level : 411) + wobble(t);
  it('the longest time outside the band is named, from when to when', () => {
    expect(textOf('outside-in-hold', low(9000, 10_200, 391), 14_400, warm)).toMatch(
      /time below the band within the hold: 20 min, from 2 h 30 min to 2 h (?:49|50) min, at 391/u,
    );
  });
  it('half a minute is not, nor a hold that is outside for most of its time', () => {
    expect(textOf('outside-in-hold', low(9000, 9030, 391), 14_400, warm)).toBeNull();
    expect(textOf('outside-in-hold', low(0, 14_500, 391), 14_400, warm)).toBeNull();
  });
});

describe('another engagement', () => {
  const two = (second: number, length_s: number) => (t: number) =>
    t < 60 ? 0 : t < 7260 ? 411 + wobble(t) : t >= 7500 && t < 7500 + length_s ? second + wobble(t) : 0;
  it('that stood outside the band is named, however much of the log is judged', () => {
    expect(textOf('other-engagement-outside', two(361, 6000), 13_600, warm)).toMatch(
      /Another engagement stood outside the band and is not judged: from 2 h 5 min to 3 h 4[45] min, at 361/u,
    );
  });
  it('is not where it stood in the band, or was shorter than a minute', () => {
    expect(textOf('other-engagement-outside', two(412, 6000), 13_600, warm)).toBeNull();
    expect(textOf('other-engagement-outside', two(361, 50), 13_600, warm)).toBeNull();
  });
});

describe('the mean of the hold', () => {
  it('is told where it lies outside the range, for dips that are smoothed away', () => {
    const dips = (t: number): number => (t < 60 ? 0 : (t % 100 < 9 ? 390 : 411) + wobble(t));
    expect(textOf('mean-outside-range', dips, 7200, warm)).toMatch(/lies below .* short dips/u);
    expect(textOf('mean-outside-range', (t) => (t < 60 ? 0 : 411 + wobble(t)), 7200, warm)).toBeNull();
  });
  it('is not told where less than a step of the indication parts them', () => {
    // One reading in three a tenth higher: the median stands at 411.0, the mean 0.03 psi above it.
    const steps = (t: number): number => (t < 60 ? 0 : t % 3 === 0 ? 411.1 : 411);
    expect(textOf('mean-outside-range', steps, 7200, warm)).toBeNull();
  });
  it('is told otherwise of a hold that is shorter than the smoothing', () => {
    const rising = (t: number): number => (t < 10 || t > 25 ? 0 : 410 - 390 * Math.exp(-(t - 10) / 1.8));
    expect(textOf('mean-outside-range', rising, 60)).toMatch(
      /^The hold lasts 8 s, less than the smoothing over 30 s: .* its mean, 407\.\d psi, lies outside of them\.$/u,
    );
  });
});
