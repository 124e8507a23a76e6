import { describe, expect, it } from 'vitest';
import { analysed, codes } from './analysed.ts';
import {
  engagedBetween,
  evenTimes,
  gauge,
  makeLog,
  noise,
  oilColumn,
  pressureColumn,
  rig,
  spec,
} from './synthetic-run.ts';

const run = engagedBetween(60, 5460, () => 411);
function made(at: (t: number, p: number) => number, oil: (t: number) => number = () => 60) {
  const random = noise(1);
  return makeLog({
    times: evenTimes(5520),
    columns: [pressureColumn((t) => at(t, run(t) + 0.5 * random()), { decimals: 1 }), oilColumn(oil)],
  });
}

describe('a sensor that gave nothing', () => {
  it('clipped: no figure is made of what is left of it, and its unit is not asked for', () => {
    const log = made((t, p) => (t < 60 || t > 5465 ? 30.4 : Math.min(400, p)));
    const analysis = analysed(log, { spec: spec(), rig: rig(gauge({ range: { low: 0, high: 400 } })) });
    const { quantities, grave } = analysis;
    expect(codes(analysis)).toContain('clipped');
    expect(codes(analysis)).not.toContain('unit-looks-wrong');
    const reason = grave.find(({ reach }) => reach === 'pressure')?.reason;
    expect(reason).toContain('end of the gauge');
    expect(quantities.peakPressure).toEqual({ value: null, unit: 'psi', reason });
    expect(quantities.releasedPressure).toEqual({ value: null, unit: 'psi', reason });
    expect(quantities.zeroAtRest.value).toBeNull();
    expect(quantities.engagements.every(({ peak }) => peak.value === null)).toBe(true);
  });
  it('the same leftovers of a gauge that is not clipped are asked for their unit', () => {
    const log = made((t) => (t < 60 || t > 5465 ? 0.3 : 28.3));
    expect(codes(analysed(log, { spec: spec() }))).toContain('unit-looks-wrong');
  });
  it('frozen for most of the hold: neither range nor drift', () => {
    const log = made((t, p) => (t >= 1000 && t < 5000 ? 411.2 : p));
    const { quantities, series, grave } = analysed(log, { spec: spec() });
    const reason = grave.find(({ reach }) => reach === 'pressure')?.reason;
    expect(reason).toContain('same to the digit');
    expect(quantities.holdRange).toEqual({ min: null, max: null, unit: 'psi', reason });
    expect(quantities.drift).toMatchObject({ slope: null, trend: null, reason });
    expect(quantities.operatingPressure).toMatchObject({ value: null, reason });
    expect(quantities.settling).toMatchObject({ time_s: null, reason });
    expect(series.driftLine).toBeUndefined();
    // The oil is another sensor.
    expect(quantities.holdTemperature.mean).toBeCloseTo(60, 1);
  });
  it('frozen for a little: they stay', () => {
    const { quantities } = analysed(
      made((t, p) => (t >= 1000 && t < 1200 ? 411.2 : p)),
      { spec: spec() },
    );
    expect(quantities.operatingPressure.value).toBeCloseTo(411, 0);
    expect(quantities.drift.slope).not.toBeNull();
  });
  it('an oil temperature that no oil has makes no heat of the hold', () => {
    const { quantities } = analysed(
      made(
        (_t, p) => p,
        () => 300,
      ),
      { spec: spec() },
    );
    expect(quantities.holdTemperature.mean).toBeNull();
    expect(quantities.holdTemperature.reason).toContain('no oil on a bench');
    expect(quantities.operatingPressure.value).toBeCloseTo(411, 0);
  });
});

describe('a gauge whose range ends below the unit', () => {
  it('is told, and is the reason that nothing is judged', () => {
    const analysis = analysed(
      made((_t, p) => p),
      { spec: spec(), rig: rig(gauge({ range: { low: 0, high: 380 } })) },
    );
    const said = analysis.remarks.find(({ code }) => code === 'out-of-range')?.text ?? '';
    expect(said).toContain('outside of the gauge’s range'.replace('’', "'"));
    expect(said).toContain('0 to 380');
    expect(analysis.grave.find(({ reach }) => reach === 'pressure')?.reason).toContain('outside of');
    expect(
      codes(
        analysed(
          made((_t, p) => p),
          { spec: spec(), rig: rig(gauge()) },
        ),
      ),
    ).not.toContain('out-of-range');
  });
});

describe('a sensor that leaves no hold', () => {
  const warm = spec({ operatingTemperature: { low: 50, unit: 'degC' } });
  it('the oil probe is the reason for all that is judged warm, not cold oil', () => {
    const random = noise(2);
    const log = makeLog({
      times: evenTimes(5520),
      columns: [
        pressureColumn((t) => run(t) + 0.5 * random()),
        oilColumn(() => 20),
        { column: 'Air', role: 'ambient-temperature', unit: 'degC', at: () => 20.3 },
      ],
    });
    const { quantities, grave, remarks } = analysed(log, { spec: warm });
    for (const reach of ['operating-pressure', 'time-in-band', 'drift', 'oil-temperature'])
      expect(grave.find((finding) => finding.reach === reach)?.reason).toContain('equals that of the air');
    expect(quantities.operatingPressure.reason).toContain('equals that of the air');
    expect(remarks.find(({ code }) => code === 'never-warm')?.text).toContain('not known');
  });
  it('oil that is cold stays the reason where the probe is sound', () => {
    const { grave, quantities } = analysed(
      made(
        (_t, p) => p,
        (t) => 20 + 0.1 * (t % 3),
      ),
      { spec: warm },
    );
    expect(grave).toEqual([]);
    expect(quantities.operatingPressure.reason).toContain('cold is not a result');
  });
  it('a mistaken unit is the reason for the oil over the hold, too', () => {
    const { grave, quantities } = analysed(
      made((t) => (t < 60 || t > 5465 ? 0.3 : 28.3)),
      { spec: warm },
    );
    expect(grave.find(({ reach }) => reach === 'hold-temperature')?.reason).toContain('as bar');
    expect(quantities.holdTemperature.reason).toContain('as bar');
  });
});
