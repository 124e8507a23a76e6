import type { Assessment, Criterion, Verdict } from '#formats/assessment.ts';
import { SetAside } from '#formats/log.ts';
import type { Series } from '#formats/series.ts';
import { assessmentOf } from './made-assessment.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';

/**
 * A run made to order for drawing tests: the shape of a record with any oddity, without the analysis. Figures are worked out plainly
 * from the readings made here (mean, lowest, highest), so that chart, tables and readings agree.
 */
export interface MadeRun {
  hours: number;
  interval_s: number;
  /** Pressure when warm, psi. */
  level: number;
  coldExcess: number;
  /** Standard deviation of the readings, psi. */
  noise: number;
  slopePerHour: number;
  band: { low: number | null; high: number | null } | null;
  unit: PressureUnit;
  expanded: number | null;
  rule: 'simple' | 'guarded';
  oil: boolean;
  warmAt_s: number;
  gap: { start_s: number; end_s: number } | null;
  spikes: { at_s: number; value: number }[];
  start: string | null;
  engagements: number;
  idle_s: number;
  hold: boolean;
  verdict: Verdict | null;
  extraCriteria: Criterion[];
}

const usual: MadeRun = {
  hours: 6,
  interval_s: 2,
  level: 411,
  coldExcess: 31,
  noise: 1.1,
  slopePerHour: -0.3,
  band: { low: 400, high: 420 },
  unit: 'psi',
  expanded: 2.2,
  rule: 'guarded',
  oil: true,
  warmAt_s: 2160,
  gap: null,
  spikes: [],
  start: '2026-03-04T08:15:00',
  engagements: 1,
  idle_s: 60,
  hold: true,
  verdict: null,
  extraCriteria: [],
};

/** Noise that is the same everywhere: Park and Miller's minimal standard generator (Comm. ACM 31, 1988), summed to near normal. */
function noiseFrom(seed: number): () => number {
  let state = seed;
  const uniform = (): number => (state = (state * 16807) % 2147483647) / 2147483647;
  return () => {
    let sum = -6;
    for (let k = 0; k < 12; k++) sum += uniform();
    return sum;
  };
}

export function madeRun(changes: Partial<MadeRun> = {}): { assessment: Assessment; series: Series } {
  const made = { ...usual, ...changes };
  const factor = pressureFactor('psi', made.unit);
  const rows = Math.round((made.hours * 3600 + 2 * made.idle_s) / made.interval_s) + 1;
  const time_s = Float64Array.from({ length: rows }, (_, i) => i * made.interval_s);
  const values = new Float64Array(rows),
    flags = new Uint8Array(rows),
    smoothed = new Float64Array(rows),
    oil = new Float64Array(rows);
  const noise = noiseFrom(4711);
  const from = made.idle_s,
    to = made.idle_s + made.hours * 3600;
  const piece_s = (to - from) / made.engagements;
  const released = (t: number): boolean => {
    if (t < from || t >= to) return true;
    const within = (t - from) % piece_s;
    return made.engagements > 1 && within > piece_s - Math.min(60, piece_s / 4);
  };
  let slow = 0;
  const levelAt = (t: number): number => {
    if (released(t)) return 17;
    const climb = Math.min(1, (t - from) / 2);
    return (
      climb *
      (made.level + made.coldExcess * Math.exp(-(t - from) / 700) + made.slopePerHour * ((t - from) / 3600))
    );
  };
  for (let i = 0; i < rows; i++) {
    const t = time_s[i] ?? 0;
    slow = 0.997 * slow + 0.05 * noise();
    values[i] = (levelAt(t) + slow + made.noise * noise()) * factor;
    smoothed[i] = (levelAt(t) + slow) * factor;
    oil[i] = 61 - 43 * Math.exp(-(Math.max(0, t - from) * Math.log(43 / 11)) / made.warmAt_s);
    if (made.gap && t > made.gap.start_s && t < made.gap.end_s) {
      values[i] = smoothed[i] = oil[i] = NaN;
      flags[i] = SetAside.missing;
    }
  }
  for (const { at_s, value } of made.spikes) {
    const i = Math.round(at_s / made.interval_s);
    values[i] = value * factor;
    flags[i] = SetAside.spike;
  }
  const kept = time_s.filter(
    (_, i) => !made.gap || (time_s[i] ?? 0) <= made.gap.start_s || (time_s[i] ?? 0) >= made.gap.end_s,
  );
  const pick = <T extends Float64Array | Uint8Array>(column: T): T =>
    column.filter(
      (_, i) => !made.gap || (time_s[i] ?? 0) <= made.gap.start_s || (time_s[i] ?? 0) >= made.gap.end_s,
    ) as T;
  const gaps = made.gap ? [made.gap] : [];
  const series: Series = {
    time_s: kept,
    start: made.start,
    medianInterval_s: made.interval_s,
    gaps,
    pressure: {
      column: 'P main',
      role: 'pressure',
      unit: made.unit,
      values: pick(values),
      flags: pick(flags),
      smoothed: pick(smoothed),
    },
    oil: made.oil
      ? {
          column: 'Oil',
          role: 'oil-temperature',
          unit: 'degC',
          values: pick(oil),
          flags: new Uint8Array(kept.length),
          smoothed: pick(oil),
        }
      : null,
    others: [],
  };
  return { assessment: assessmentOf(made, series, from, to, factor), series };
}
