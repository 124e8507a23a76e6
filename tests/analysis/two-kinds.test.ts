import { describe, expect, it } from 'vitest';
import { SetAside } from '#formats/log.ts';
import { analysed } from './analysed.ts';
import { evenTimes, makeLog, noise, pressureColumn, seeded, spec, type Column } from './synthetic-run.ts';

/** One made variant: either kind of unit, with or without a solenoid channel. */
interface Variant {
  seed: number;
  held: boolean;
  withSolenoid: boolean;
  step_s: number;
  level: number;
  instants: number[];
  on_s: number;
  /** Held-charged: share lost at engaging and time constant of coming back. */
  depth: number;
  back_s: number;
  /** Raised on engage: time constants up and down, and pressure when released. */
  rise_s: number;
  fall_s: number;
  rest: number;
  noise: number;
}

function variant(seed: number): Variant {
  const random = seeded(seed);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const on_s = between(20, 60),
    count = 2 + Math.floor(random() * 4);
  return {
    seed,
    held: seed % 2 === 0,
    withSolenoid: seed % 4 < 2,
    step_s: [0.05, 0.1, 0.2][seed % 3] ?? 0.1,
    level: between(380, 520),
    instants: Array.from({ length: count }, (_, k) => 60 + k * 120 + between(0, 10)),
    on_s,
    depth: between(0.18, 0.6),
    back_s: between(0.8, 4),
    rise_s: between(0.1, 1.5),
    fall_s: between(0.2, 1.5),
    rest: between(0, 30),
    noise: between(0.2, 1.2),
  };
}

function log(v: Variant): ReturnType<typeof makeLog> {
  const random = noise(v.seed, 0.3);
  let p = v.held ? 0 : v.rest;
  const on = (t: number): boolean => v.instants.some((instant) => t >= instant && t < instant + v.on_s);
  const pressure = (t: number): number => {
    if (v.held) {
      if (t < 20) return 0.3;
      const last = v.instants.filter((instant) => t >= instant).at(-1);
      return v.level * (1 - (last === undefined ? 0 : v.depth * Math.exp(-(t - last) / v.back_s)));
    }
    const target = on(t) ? v.level : v.rest;
    p += (target - p) * (1 - Math.exp(-v.step_s / (on(t) ? v.rise_s : v.fall_s)));
    return p;
  };
  const columns: Column[] = [pressureColumn((t) => pressure(t) + v.noise * random(), { decimals: 1 })];
  if (v.withSolenoid)
    columns.push({ column: 'I', role: 'solenoid-current', unit: 'A', at: (t) => (on(t) ? 0.82 : 0) });
  return makeLog({ times: evenTimes(60 + v.instants.length * 120 + 60, v.step_s), columns });
}

describe('two hundred made units of either kind', () => {
  const variants = Array.from({ length: 200 }, (_, k) => variant(k + 1));
  it.each(variants)('seed $seed: held $held, solenoid $withSolenoid, every $step_s s', (v) => {
    const analysis = analysed(log(v), {
      spec: spec({ pressureBehaviour: v.held ? 'held-charged' : 'raised-on-engage' }),
    });
    const { engagements } = analysis.quantities;
    expect(engagements).toHaveLength(v.instants.length);
    engagements.forEach((engagement, k) => {
      const instant = v.instants[k] ?? NaN;
      // The instant: to a sample where the solenoid gives it; else where the pressure crosses its level.
      const late_s = v.withSolenoid ? 1.01 * v.step_s : v.held ? 3 * v.step_s : 0.9 * v.rise_s + 1.6;
      expect(Math.abs(engagement.start_s - instant)).toBeLessThanOrEqual(late_s + v.step_s);
      if (v.held) {
        // The lowest reading comes up to one sample after the instant; noise of 4 standard deviations.
        const slack = v.depth * (1 - Math.exp(-v.step_s / v.back_s)) + (5 * v.noise) / v.level;
        expect(Math.abs((engagement.dip ?? NaN) - v.depth)).toBeLessThanOrEqual(slack);
        const back_s = v.back_s * Math.log(v.depth / 0.05);
        expect(Math.abs((engagement.recovery_s ?? NaN) - back_s)).toBeLessThanOrEqual(
          3 * v.step_s + (v.back_s * 6 * v.noise) / (0.05 * v.level),
        );
        expect(engagement.rise_s).toBeNull();
      } else {
        expect(engagement.dip).toBeNull();
        const rise_s = v.rise_s * Math.log(9);
        if (engagement.rise_s === null) expect(engagement.riseAtMost_s).toBeGreaterThan(rise_s - v.step_s);
        else expect(Math.abs(engagement.rise_s - rise_s)).toBeLessThanOrEqual(0.1 * rise_s + v.step_s);
        expect(engagement.plateau.value).toBeCloseTo(v.level, -1);
      }
    });
    // No reading of a dip or an edge was taken for a spike.
    const flags = analysis.series.pressure?.flags ?? new Uint8Array(0);
    const times = analysis.series.time_s;
    for (const instant of v.instants) {
      const from = times.findIndex((t) => t >= instant);
      expect(flags.slice(from, from + Math.ceil(5 / v.step_s)).includes(SetAside.spike)).toBe(false);
    }
  });
});
