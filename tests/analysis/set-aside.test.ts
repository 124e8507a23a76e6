import { describe, expect, it } from 'vitest';
import { SetAside } from '#formats/log.ts';
import { analysed, codes } from './analysed.ts';
import {
  engagedBetween,
  evenTimes,
  gauge,
  makeLog,
  noise,
  pressureColumn,
  rig,
  spec,
  type Column,
} from './synthetic-run.ts';

/** An hour and a half engaged at 411 with noise of half a psi, digits of a tenth. */
function log(
  change: (t: number, p: number) => ReturnType<Column['at']>,
  more: Partial<Column> = {},
  seed = 1,
) {
  const random = noise(seed),
    plain = engagedBetween(60, 5460, () => 411);
  return makeLog({
    times: evenTimes(5520),
    columns: [pressureColumn((t) => change(t, plain(t) + 0.5 * random()), { decimals: 1, ...more })],
  });
}
const counts = (made: ReturnType<typeof log>, options: Parameters<typeof analysed>[1] = {}) => {
  const { valid, missing, faultTokens, outOfRange, stuck, spikes, samples } =
    analysed(made, { spec: spec(), ...options }).channels[0] ?? {};
  expect(
    (valid ?? 0) + (missing ?? 0) + (faultTokens ?? 0) + (outOfRange ?? 0) + (stuck ?? 0) + (spikes ?? 0),
  ).toBe(samples);
  return { missing, faultTokens, outOfRange, stuck, spikes };
};
const none = { missing: 0, faultTokens: 0, outOfRange: 0, stuck: 0, spikes: 0 };

describe('readings set aside', () => {
  it('are none in a plain run', () => {
    expect(counts(log((_t, p) => p))).toEqual(none);
  });
  it('count missing cells, fault tokens and spikes under one heading each', () => {
    const made = log((t, p) =>
      t === 1000
        ? null
        : t === 1500 || t === 1501
          ? 'fault'
          : t % 700 === 350 && t > 300 && t < 5000
            ? p + 40
            : p,
    );
    // 350, 1050, 1750, 2450, 3150, 3850, 4550: seven spikes.
    expect(counts(made)).toEqual({ ...none, missing: 1, faultTokens: 2, spikes: 7 });
  });
  it('leave the log unchanged', () => {
    const made = log((t, p) => (t === 2000 ? 900 : p));
    const values = made.channels[0]?.values.slice(),
      flags = made.channels[0]?.flags.slice();
    analysed(made, { spec: spec(), rig: rig(gauge()) });
    expect(made.channels[0]?.values).toEqual(values);
    expect(made.channels[0]?.flags).toEqual(flags);
  });
});

describe('out of range', () => {
  it('is what lies beyond the stated range, and is no spike as well', () => {
    const made = log((t, p) => (t === 2000 ? 612 : t === 3000 ? -62.5 : p));
    expect(counts(made, { rig: rig(gauge()) })).toEqual({ ...none, outOfRange: 2 });
    // Without a stated range they are spikes.
    expect(counts(made)).toEqual({ ...none, spikes: 2 });
  });
  it('is clipped at the upper end from three readings on, by the digit', () => {
    const at = (times: number[]) => log((t, p) => (times.includes(t) ? 600 : p));
    expect(counts(at([2000, 2001, 2002]), { rig: rig(gauge()) }).outOfRange).toBe(3);
    expect(counts(at([2000, 3000]), { rig: rig(gauge()) })).toEqual({ ...none, spikes: 2 });
  });
  it('is not an idle gauge at 0, nor a zero that wanders just below it', () => {
    const made = log((t, p) => (t < 60 ? (t % 3 === 0 ? 0 : -0.2) : t > 5470 ? 0 : p));
    expect(counts(made, { rig: rig(gauge()) })).toEqual(none);
  });
  it('is a reading at the lower end where the gauge at rest reads more than 1 % of the span above it', () => {
    // At rest 9 psi; the wire opens for ten seconds while engaged and the gauge reads 0.
    const made = log((t, p) => (t >= 2000 && t < 2010 ? 0 : t < 60 || t > 5465 ? 9 : p));
    expect(counts(made, { rig: rig(gauge()) }).outOfRange).toBe(10);
  });
});

describe('stuck', () => {
  it('is one value for 60 s and 60 samples, counted from its second sample', () => {
    const made = log((t, p) => (t >= 2000 && t <= 2060 ? 411.2 : p));
    expect(counts(made).stuck).toBe(60);
    expect(counts(log((t, p) => (t >= 2000 && t < 2060 ? 411.2 : p))).stuck).toBe(0);
  });
  it('needs 60 samples, not 60 s alone', () => {
    const random = noise(3);
    const made = makeLog({
      times: evenTimes(20000, 5),
      columns: [
        pressureColumn((t) => (t < 60 ? 0.3 : t >= 5000 && t < 5200 ? 411.2 : 411 + 0.5 * random()), {
          decimals: 1,
        }),
      ],
    });
    expect(counts(made).stuck).toBe(0);
  });
  it('is not a gauge at rest', () => {
    expect(counts(log((t, p) => (t < 60 || t > 5470 ? 0.3 : p))).stuck).toBe(0);
    const resting = makeLog({
      times: evenTimes(3000),
      columns: [pressureColumn((t) => (t < 1000 ? 0.3 : 411 + ((t * 7) % 10) / 10), { decimals: 1 })],
    });
    expect(counts(resting).stuck).toBe(0);
  });
  it('cannot be told on a coarse column: a remark, and the steadiest unit keeps its hold', () => {
    const made = log((t, p) => (t < 60 || t > 5460 ? 0 : Math.round(p / 5) * 5), { decimals: 0 });
    expect(counts(made).stuck).toBe(0);
    const analysis = analysed(made, { spec: spec() });
    expect(codes(analysis)).toContain('resolution-too-coarse');
    expect(analysis.quantities.operatingPressure.value).toBeCloseTo(410, 1);
  });
  it('is not a steady unit on a coarse column that leaks down later, through many values', () => {
    const made = log((t) => (t < 60 ? 0 : t < 3000 ? 411 : Math.round(411 - (t - 3000) / 12)), {
      decimals: 0,
    });
    expect(counts(made).stuck).toBe(0);
  });
  it('is told although the sensor is stuck for most of the run', () => {
    const made = log((t, p) => (t >= 1500 && t < 5400 ? 411.2 : t === 1499 || t === 5400 ? 411.5 : p));
    expect(counts(made).stuck).toBe(3899);
    expect(analysed(made, { spec: spec() }).grave.map(({ reach }) => reach)).toContain('pressure');
  });
  it('is a column with one single value from first to last: not assessed', () => {
    const analysis = analysed(
      log(() => 411),
      { spec: spec() },
    );
    expect(codes(analysis)).toContain('single-value');
    expect(analysis.grave.map(({ reach }) => reach)).toContain('pressure');
  });
});

describe('spikes', () => {
  it('are never readings about an engage or release instant', () => {
    // A single reading far below, two samples after engaging, and one at the same distance an hour later.
    const made = log((t, p) => (t === 63 || t === 3000 ? 200 : p));
    const flags = analysed(made, { spec: spec() }).series.pressure?.flags;
    expect(flags?.[63]).toBe(SetAside.kept);
    expect(flags?.[3000]).toBe(SetAside.spike);
  });
  it('are told from the resolution step where the readings do not scatter', () => {
    // Steps of 1 psi: one step is no spike, seven are.
    const made = log(
      (t) => (t < 60 || t > 5460 ? 0 : t === 2000 ? 412 : t === 3010 ? 418 : t % 50 < 25 ? 411 : 410),
      {
        decimals: 0,
      },
    );
    expect(counts(made)).toMatchObject({ spikes: 1 });
  });
  it('do not take a dip of three samples on a unit that holds its charge, but take one of two', () => {
    const made = log((t, p) => (t >= 2000 && t < 2003 ? 300 : t >= 3000 && t < 3002 ? 300 : p));
    const analysis = analysed(made, { spec: spec({ pressureBehaviour: 'held-charged' }) });
    const flags = analysis.series.pressure?.flags;
    expect([2000, 2001, 2002].map((row) => flags?.[row])).toEqual([0, 0, 0]);
    expect([3000, 3001].map((row) => flags?.[row])).toEqual([SetAside.spike, SetAside.spike]);
    expect(analysis.quantities.engagements).toHaveLength(1);
  });
});
