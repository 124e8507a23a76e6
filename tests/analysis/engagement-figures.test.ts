import { describe, expect, it } from 'vitest';
import type { Spec } from '#formats/spec.ts';
import { analysed, codes } from './analysed.ts';
import {
  engagedBetween,
  evenTimes,
  gauge,
  makeLog,
  pressureColumn,
  rig,
  spec,
  type Column,
} from './synthetic-run.ts';

const made = (at: Column['at'], step_s: number, end_s: number, more: Column[] = []) =>
  makeLog({ times: evenTimes(end_s, step_s), columns: [pressureColumn(at, { decimals: 3 }), ...more] });
const figures = (
  at: Column['at'],
  step_s: number,
  end_s: number,
  more: Column[] = [],
  given: Partial<Spec> = {},
) => analysed(made(at, step_s, end_s, more), { spec: spec(given) }).quantities;
const LN9 = Math.log(9);

describe('rise and fall', () => {
  const cycle = engagedBetween(10, 40, () => 410, { rest: 20, rise_s: 0.5, fall_s: 0.8 });
  it('go from 10 % to 90 % of the step between the idle level and the plateau: τ · ln 9 for a first-order change', () => {
    const [first] = figures(cycle, 0.01, 60).engagements;
    expect(first?.rise_s).toBeCloseTo(0.5 * LN9, 2);
    expect(first?.fall_s).toBeCloseTo(0.8 * LN9, 2);
    expect(first?.plateau).toEqual({ value: 410, unit: 'psi' });
    expect(first?.riseAtMost_s).toBeNull();
    expect(first?.dip).toBeNull();
    expect(first?.reason).toBeUndefined();
  });
  it('are only bounded with under ten readings in between', () => {
    const [first] = figures(cycle, 0.5, 60).engagements;
    // Samples at 10.0 (the idle level) and every half second: 63 % at 10.5, 86 % at 11.0, 95 % at 11.5.
    expect(first).toMatchObject({ rise_s: null, riseAtMost_s: 1.5, overshoot: null });
    // From 40.0 (the plateau) to the first sample under 10 %, e^(−t/0.8) < 0.1 at 1.84 s: 42.0.
    expect(first).toMatchObject({ fall_s: null, fallAtMost_s: 2 });
    expect(first?.reason).toContain('only 2 readings within the rise');
  });
  it('begin at the last reading of the lower level: a pressure that falls back while it climbs gives no infinite rise', () => {
    // Up, back to 40 psi (under a tenth of the step) for two equal readings, then 10 psi a second from 240 at 14 s.
    const at = (t: number): number =>
      t < 10 ? 0 : t < 12 ? 250 : t < 14 ? 40 : Math.min(410, 240 + 10 * (t - 14));
    const [first] = figures(at, 1, 120).engagements;
    // 41 psi are crossed between 13 s (40) and 14 s (240), 369 psi at 26.9 s.
    expect(first?.rise_s).toBeCloseTo(26.9 - 13 - 1 / 200, 6);
  });
  it('start from the idle stretch before, and from 0 where there is none', () => {
    const twice = (t: number): number =>
      t < 50 ? cycle(t) : engagedBetween(80, 110, () => 410, { rest: 60, rise_s: 0.5, fall_s: 0.8 })(t);
    const [, second] = figures(twice, 0.01, 130).engagements;
    expect(second?.rise_s).toBeCloseTo(0.5 * LN9, 1);
  });
  it('are not told where the log begins or ends engaged', () => {
    const [only] = figures((t) => 410 + 0.1 * (Math.round(10 * t) % 3), 0.1, 60).engagements;
    expect(only).toMatchObject({ rise_s: null, riseAtMost_s: null, fall_s: null, fallAtMost_s: null });
    expect(only?.reason).toContain('begins engaged');
    expect(only?.reason).toContain('ends engaged');
  });
  it('need an engagement of ten seconds for a plateau', () => {
    const short = engagedBetween(10, 18, () => 410, { rest: 20, rise_s: 0.2 }),
      long = engagedBetween(60, 90, () => 410, { rest: 20, rise_s: 0.2 });
    const [first] = figures((t) => (t < 40 ? short(t) : long(t)), 0.1, 110).engagements;
    expect(first).toMatchObject({ rise_s: null, plateau: { value: null } });
    expect(first?.reason).toContain('less than 10 s');
  });
  it('fall to where the pressure comes to rest, where that is higher than where it came from', () => {
    // At rest 0 before, but 60 psi are left while the shaft turns: a tenth of the step from 0 is never reached.
    const at = (t: number): number =>
      t < 10 ? 0 : t < 40 ? 410 * (1 - Math.exp(-(t - 10) / 0.3)) : 60 + 350 * Math.exp(-(t - 40) / 0.8);
    const [first] = figures(at, 0.01, 100).engagements;
    expect(first?.fall_s).toBeCloseTo(0.8 * LN9, 1);
  });
  it('have no end where the median that tells engaging comes later than the change, or nothing fell: every figure is a number or none', () => {
    // Twenty readings a second, gone within one of them, with the readings either side equal to the digit.
    const step = (t: number): number => (t < 10 || t >= 40 ? 20 : 410);
    const [sudden] = figures(step, 0.05, 60).engagements;
    expect(sudden).toMatchObject({ rise_s: null, fall_s: null });
    expect(sudden?.riseAtMost_s).toBeCloseTo(0.05, 9);
    expect(sudden?.fallAtMost_s).toBeCloseTo(0.05, 9);
    // Switched off, the pressure stays where it was, a hair above its plateau: that is no fall to any level.
    const solenoid: Column = {
      column: 'I',
      role: 'solenoid-current',
      unit: 'A',
      at: (t) => (t >= 10 && t < 40 ? 0.8 : 0),
    };
    const stays = (t: number): number => (t < 10 ? 0 : t < 38 ? 410 : t < 39 ? 410.3 : t < 41 ? 409 : 411);
    const [first] = figures(stays, 0.05, 61, [solenoid]).engagements;
    expect(first?.fall_s ?? null).toBeNull();
    expect(first?.fallAtMost_s ?? null).toBeNull();
    expect(first?.fallAtLeast_s).toBeCloseTo(21, 1);
    const hangs = (t: number): number => (t < 10 ? 0 : t < 40 ? 410 + (t % 0.1) : 411 + (t % 0.1));
    const [second] = figures(hangs, 0.05, 61, [solenoid]).engagements;
    expect(second?.fall_s ?? null).toBeNull();
    expect(second?.fallAtMost_s ?? null).toBeNull();
  });
  it('say at least how long where the fall is not over when the record ends', () => {
    const at = (t: number): number =>
      t < 10 ? 0 : t < 40 ? 410 * (1 - Math.exp(-(t - 10) / 0.3)) : 410 * Math.exp(-(t - 40) / 60);
    const [first] = figures(at, 0.1, 100).engagements;
    expect(first).toMatchObject({ fall_s: null, fallAtMost_s: null });
    // Released under 180 psi, 60 s · ln(410/180) = 49.4 s after 40 s; watched to 100 s.
    expect(first?.fallAtLeast_s).toBeCloseTo(10.6, 0);
    expect(first?.reason).toContain('did not fall to a tenth');
  });
  it('take the plateau from five seconds after engaging to the end', () => {
    const steps = (t: number): number => (t < 10 ? 0 : t < 14.9 ? 430 : t < 40 ? 411 : 0);
    expect(figures(steps, 0.1, 60).engagements[0]?.plateau.value).toBe(411);
  });
});

describe('overshoot', () => {
  it('is the peak of the first seconds over the level after it, as a share of the step', () => {
    // First-order rise with an overshoot of 40 psi on a step of 400.
    const at = (t: number): number =>
      t < 10 ? 10 : t < 60 ? 10 + 400 * (1 - Math.exp(-(t - 10) / 0.3)) + (t > 12 && t < 13 ? 40 : 0) : 10;
    const [first] = figures(at, 0.02, 80).engagements;
    expect(first?.overshoot).toBeCloseTo(0.1, 2);
    expect(first?.peak.value).toBeCloseTo(450, 0);
  });
  it('is not the cold oil of a long warm-up', () => {
    const at = engagedBetween(10, 3000, (t) => 410 + 40 * Math.exp(-t / 600), { rest: 10, rise_s: 0.3 });
    expect(figures(at, 0.05, 3010).engagements[0]?.overshoot).toBeLessThan(0.01);
  });
});

describe('peak pressure', () => {
  it('is the highest level that three readings together reached, anywhere in the log', () => {
    const at = (t: number): number =>
      t < 100 ? 0 : t === 500 || t === 501 ? 700 : t >= 800 && t <= 802 ? 480 + (t - 800) : 411;
    // Two readings at 700 are none; of 480, 481, 482 all three reach 480.
    expect(figures(at, 1, 1000).peakPressure).toEqual({ value: 480, unit: 'psi', at_s: 800 });
  });
  it('passes over rows without a reading, and never reaches over a gap', () => {
    const at = (t: number): number | null =>
      t < 100 ? 0 : t === 800 || t === 802 || t === 804 ? 480 : t === 801 || t === 803 ? null : 411;
    expect(figures(at, 1, 1000).peakPressure.value).toBe(480);
  });
  it('is not known where three readings together stood at the end of the range, only that it was at least that', () => {
    const log = (at: Column['at']) =>
      analysed(made(at, 1, 1000), {
        spec: spec({}),
        rig: rig(gauge({ range: { low: 0, high: 600 } })),
      }).quantities.peakPressure;
    const stuckShut = (t: number): number => (t < 100 ? 0 : t >= 300 && t < 320 ? 600 : 411);
    expect(log(stuckShut)).toEqual({
      value: null,
      unit: 'psi',
      atLeast: 600,
      at_s: 300,
      reason: "the pressure stood at the end of the gauge's range (600 psi): how high it went is not known",
    });
    // A little above its end the sensor stands at it too; single readings there are electrical, and a fault level is no pressure.
    expect(log((t) => (stuckShut(t) === 600 ? 606 : stuckShut(t))).atLeast).toBe(600);
    expect(log((t) => (t < 100 ? 0 : t % 100 === 50 ? 600 : 411)).value).toBe(411);
    expect(log((t) => (stuckShut(t) === 600 ? 9999 : stuckShut(t))).value).toBe(411);
  });
});

describe('a unit that holds its charge', () => {
  const held: Partial<Spec> = { pressureBehaviour: 'held-charged' };
  /** Charged at 30 s; at each instant a dip that comes back with a time constant. */
  const dips =
    (instants: number[], depth: number, back_s: number) =>
    (t: number): number => {
      if (t < 30) return 0;
      const last = instants.filter((instant) => t >= instant).at(-1);
      return 400 * (1 - (last === undefined ? 0 : depth * Math.exp(-(t - last) / back_s)));
    };
  it('dips by a share of the level before, and is back within a twentieth of it', () => {
    const { engagements } = figures(dips([100, 200], 0.25, 2), 0.1, 300, [], held);
    expect(engagements).toHaveLength(2);
    expect(engagements[0]?.dip).toBeCloseTo(0.25, 2);
    // 0.25 · e^(−t/2) < 0.05 after 2 · ln 5 = 3.22 s.
    expect(engagements[0]?.recovery_s).toBeGreaterThan(3.1);
    expect(engagements[0]?.recovery_s).toBeLessThan(3.4);
    expect(engagements[0]).toMatchObject({ rise_s: null, fall_s: null, overshoot: null });
  });
  it('does not lose its dip to spike rejection', () => {
    const quick = figures(dips([100], 0.3, 0.15), 0.05, 300, [], held);
    expect(quick.engagements[0]?.dip).toBeCloseTo(0.3, 2);
  });
  it('has no dip to tell where the solenoid engages between two slow readings', () => {
    const on: Column = {
      column: 'On',
      role: 'solenoid-command',
      unit: '1',
      at: (t) => (t >= 100 && t < 200 ? 1 : 0),
    };
    const [first] = figures(dips([100.2], 0.25, 0.3), 1, 300, [on], held).engagements;
    expect(first).toMatchObject({ dip: null, recovery_s: null });
    expect(first?.reason).toContain('deeper than it looks');
  });
  it('says when it did not come back', () => {
    const on: Column = { column: 'On', role: 'solenoid-command', unit: '1', at: (t) => (t >= 100 ? 1 : 0) };
    const [first] = figures((t) => (t < 30 ? 0 : t < 100 ? 400 : 340), 0.1, 300, [on], held).engagements;
    expect(first?.dip).toBeCloseTo(0.15, 6);
    expect(first?.recovery_s).toBeNull();
    expect(first?.recoveryAtLeast_s).toBeCloseTo(60, 0);
    expect(first?.reason).toContain('not back within 5 %');
  });
  it('has no released pressure', () => {
    expect(figures(dips([100], 0.25, 2), 0.1, 300, [], held).releasedPressure.reason).toContain(
      'stays charged',
    );
  });
});

describe('plateau spread', () => {
  it('is the highest less the lowest plateau', () => {
    const level = [411, 408.5, 412.2];
    const at = (t: number): number => (t % 100 >= 40 && t < 300 ? (level[Math.floor(t / 100)] ?? 0) : 10);
    expect(figures(at, 0.5, 310).plateauSpread).toEqual({
      value: expect.closeTo(3.7, 9),
      unit: 'psi',
      engagements: 3,
    });
  });
  it('needs two', () => {
    expect(figures((t) => (t > 40 ? 411 : 0), 1, 300).plateauSpread).toMatchObject({
      value: null,
      engagements: 1,
    });
  });
});

describe('released pressure and rest', () => {
  const shaft = (from: number, to: number): Column => ({
    column: 'n',
    role: 'shaft-speed',
    unit: 'rpm',
    at: (t) => (t >= from && t < to ? 1000 : 0),
  });
  const at = (t: number): number => (t < 20 ? 2 : t < 60 ? 30 : t < 300 ? 411 : t < 400 ? 18 : 1);
  it('is the median while the shaft turns and nothing is engaged', () => {
    // 40 readings at 30 psi before engaging, 95 at 18 after the first five seconds of the release: the median is 18.
    expect(figures(at, 1, 500, [shaft(20, 400)]).releasedPressure.value).toBe(18);
    expect(figures(at, 1, 500, [shaft(20, 400)]).zeroAtRest.value).toBe(2);
  });
  it('is that of the idle stretches after the first engagement where no shaft speed is logged', () => {
    // 95 readings at 18 psi and 101 at 1 psi.
    expect(figures(at, 1, 500).releasedPressure.value).toBe(1);
    expect(figures(at, 1, 450).releasedPressure.value).toBe(18);
  });
  it('has no rest to tell where the shaft turns from the first row, or the log begins with pressure', () => {
    expect(figures(at, 1, 500, [shaft(0, 400)]).zeroAtRest.reason).toContain('turns from the first reading');
    expect(figures((t) => (t < 300 ? 411 : 18), 1, 400).zeroAtRest.reason).toContain('begins with pressure');
  });
});

describe('leak-down', () => {
  const shaft: Column = {
    column: 'n',
    role: 'shaft-speed',
    unit: 'rpm',
    at: (t) => (t >= 20 && t < 600 ? 1000 : 0),
  };
  const leaking =
    (half_s: number) =>
    (t: number): number =>
      t < 30 ? 0 : t < 600 ? 400 : 400 * Math.exp((-Math.LN2 * (t - 600)) / half_s);
  it('is the time from the stop of the shaft to half of the pressure', () => {
    expect(
      figures(leaking(120), 0.5, 900, [shaft], { pressureBehaviour: 'held-charged' }).leakDown.halfTime_s,
    ).toBeCloseTo(120, 0);
  });
  it('is at least as long as it was watched', () => {
    expect(
      figures(leaking(1000), 0.5, 900, [shaft], { pressureBehaviour: 'held-charged' }).leakDown,
    ).toMatchObject({
      halfTime_s: null,
      halfTimeAtLeast_s: 300,
    });
  });
  it('needs a shaft that stops with pressure up', () => {
    expect(figures(leaking(120), 0.5, 900).leakDown.reason).toContain('no shaft speed');
    const released = (t: number): number => (t >= 30 && t < 500 ? 411 : 10);
    expect(figures(released, 0.5, 900, [shaft]).leakDown.reason).toContain('did not stop with pressure up');
  });
  it('is none where the pressure is gone by the first reading after the stop, or the unit was switched off with it', () => {
    const gone = (t: number): number => (t >= 30 && t < 600 ? 411 : 0.3);
    expect(figures(gone, 2, 900, [shaft]).leakDown).toMatchObject({ halfTime_s: null });
    expect(figures(gone, 2, 900, [shaft]).leakDown.reason).toContain('released with the stop');
    const solenoid: Column = {
      column: 'I',
      role: 'solenoid-current',
      unit: 'A',
      at: (t) => (t >= 30 && t < 602 ? 0.8 : 0),
    };
    expect(figures(leaking(4), 0.5, 900, [shaft, solenoid]).leakDown.reason).toContain(
      'released with the stop',
    );
    expect(figures(leaking(4), 0.5, 900, [shaft]).leakDown.halfTime_s).toBeCloseTo(4, 0);
  });
});

describe('solenoid current', () => {
  const pressure = (t: number): number => (t >= 100 && t < 500 ? 411 : 0);
  it('is the mean and the highest of the smoothed current while engaged', () => {
    const current: Column = {
      column: 'I',
      role: 'solenoid-current',
      unit: 'mA',
      at: (t) => (t < 100 || t >= 500 ? 0 : t === 300 ? 5000 : t < 300 ? 820 : 800),
    };
    const { solenoidCurrent } = figures(pressure, 1, 600, [current]);
    expect(solenoidCurrent.unit).toBe('mA');
    expect(solenoidCurrent.max).toBe(820);
    expect(solenoidCurrent.mean).toBeCloseTo(810, 0);
  });
  it('is not told without the channel', () => {
    expect(figures(pressure, 1, 600).solenoidCurrent).toMatchObject({ mean: null, max: null });
  });
});

describe('ripple', () => {
  const wave =
    (f_Hz: number, half: number) =>
    (t: number): number =>
      t < 5 ? 0 : 411 + half * Math.sin(2 * Math.PI * f_Hz * t);
  const shaft = (rpm: number): Column => ({ column: 'n', role: 'shaft-speed', unit: 'rpm', at: () => rpm });
  it('is the median peak-to-peak within a second, with its frequency and its order', () => {
    const { ripple } = figures(wave(16.7, 3), 0.01, 120, [shaft(1002)]);
    expect(ripple.peakToPeak).toBeCloseTo(6, 1);
    expect(ripple.frequency_Hz).toBeCloseTo(16.7, 2);
    expect(ripple.order).toBeCloseTo(1, 3);
    expect(ripple.unit).toBe('psi');
  });
  it('is not told below twenty readings a second', () => {
    const { ripple } = figures(wave(3, 3), 0.1, 120);
    expect(ripple).toMatchObject({ peakToPeak: null, frequency_Hz: null, order: null });
    expect(ripple.reason).toContain('ripple needs 20');
  });
  it('has no frequency where the shaft turns too fast for the sampling: it would be an alias', () => {
    // 20 readings a second, 16.7 turns: 2.5 × 16.7 = 41.8.
    const { ripple } = figures(wave(16.7, 3), 0.05, 120, [shaft(1002)]);
    expect(ripple.peakToPeak).not.toBeNull();
    expect(ripple).toMatchObject({ frequency_Hz: null, order: null });
    expect(ripple.reason).toContain('alias');
  });
  it('may be an alias without a shaft speed, and says so', () => {
    const analysis = analysed(made(wave(16.7, 3), 0.01, 120), { spec: spec() });
    expect(analysis.quantities.ripple).toMatchObject({ order: null });
    expect(analysis.quantities.ripple.frequency_Hz).toBeCloseTo(16.7, 2);
    expect(codes(analysis)).toContain('ripple-may-be-aliased');
  });
  it('has no frequency where none stands out', () => {
    const { ripple } = figures((t) => (t < 5 ? 0 : 411 + ((t * 7919) % 1)), 0.01, 60, [shaft(1000)]);
    expect(ripple.peakToPeak).not.toBeNull();
  });
});

describe('pressure against shaft speed', () => {
  const rpm = (t: number): number => 600 + 200 * Math.floor((t % 3000) / 600);
  const sweep = (at: (n: number) => number) =>
    figures((t) => (t < 20 ? 0 : at(rpm(t))), 2, 6000, [
      { column: 'n', role: 'shaft-speed', unit: 'rpm', at: (t) => rpm(t) },
    ]).speedDependence;
  it('is level where the relief is in control, in proportion where it is not', () => {
    expect(sweep(() => 411)).toMatchObject({ kind: 'level', exponent: expect.closeTo(0, 6) });
    expect(sweep((n) => 0.41 * n)).toMatchObject({ kind: 'in-proportion', exponent: expect.closeTo(1, 4) });
    expect(sweep((n) => 411 * Math.sqrt(n / 1000))).toMatchObject({
      kind: 'between',
      exponent: expect.closeTo(0.5, 4),
    });
  });
  it('in proportion leaves no plateau for a rise, a fall or an overshoot', () => {
    const steps = [600, 800, 1000, 1200, 1400, 1400, 1200, 1000, 800, 600];
    const rpm = (t: number): number => (t < 60 ? 0 : (steps[Math.floor((t - 60) / 300)] ?? 0));
    const log = figures((t) => 0.41 * rpm(t), 2, 3100, [
      { column: 'n', role: 'shaft-speed', unit: 'rpm', at: rpm },
    ]);
    expect(log.speedDependence?.kind).toBe('in-proportion');
    expect(log.engagements[0]).toMatchObject({
      rise_s: null,
      riseAtMost_s: null,
      fall_s: null,
      overshoot: null,
    });
    expect(log.engagements[0]?.reason).toContain('goes with the shaft speed');
  });
  it('is not told without a sweep, and absent without a speed channel', () => {
    const steady: Column = { column: 'n', role: 'shaft-speed', unit: 'rpm', at: () => 1000 };
    expect(figures((t) => (t < 20 ? 0 : 411), 2, 3000, [steady]).speedDependence).toMatchObject({
      exponent: null,
      kind: null,
    });
    expect(figures((t) => (t < 20 ? 0 : 411), 2, 3000).speedDependence).toBeUndefined();
  });
});

describe('engaging that takes longer from time to time', () => {
  it('is said from five measured engagements on', () => {
    const cycles =
      (growth: number) =>
      (t: number): number => {
        const k = Math.floor(t / 40),
          since = t - 40 * k - 10;
        if (since < 0 || k > 6) return 10;
        return since < 20
          ? 10 + 400 * (1 - Math.exp(-since / (0.2 + growth * k)))
          : 10 + 400 * Math.exp(-(since - 20) / 0.2);
      };
    const found = (growth: number) => codes(analysed(made(cycles(growth), 0.02, 290), { spec: spec() }));
    expect(found(0.1)).toContain('engages-more-slowly');
    expect(found(0)).not.toContain('engages-more-slowly');
    // Medians of the first and last three of seven rises: ln 9 · 0.3 s and ln 9 · 0.7 s, as the sign takes them.
    const text = analysed(made(cycles(0.1), 0.02, 290), { spec: spec() }).remarks.find(
      ({ code }) => code === 'engages-more-slowly',
    )?.text;
    expect(text).toMatch(/0\.6[5-7] s in the median of the first 3, 1\.5[2-5] s in that of the last 3 of 7/u);
  });
});
