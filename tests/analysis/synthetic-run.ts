import type { Channel, ClockStep, Gap, Log, Role } from '#formats/log.ts';
import { SetAside } from '#formats/log.ts';
import type { Rig, RigChannel } from '#formats/rig.ts';
import type { Spec } from '#formats/spec.ts';
import type { UnitName } from '#units/unit.ts';

/** Seeded uniform numbers in [0, 1): a 32-bit mixing generator. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Normal noise with standard deviation 1 (Box–Muller) and correlation `rho` from one value to the next. */
export function noise(seed: number, rho = 0): () => number {
  const random = seeded(seed);
  let last = NaN;
  return () => {
    const fresh = Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    last = Number.isNaN(last) ? fresh : rho * last + Math.sqrt(1 - rho * rho) * fresh;
    return last;
  };
}

/** One column of a made log: a reading, null for an empty cell, or a fault token. */
export interface Column {
  column: string;
  role: Role | null;
  unit: UnitName | null;
  unitFrom?: Channel['unitFrom'];
  at: (t_s: number, row: number) => number | null | 'fault';
  /** Digits after the decimal mark, as a logger writes them; default 2. */
  decimals?: number;
}

export interface LogOptions {
  times: number[];
  columns: Column[];
  clockSteps?: ClockStep[];
  fileName?: string;
}

/** Rows from 0 on, one each `step_s`. */
export function evenTimes(duration_s: number, step_s = 1): number[] {
  return Array.from({ length: Math.floor(duration_s / step_s + 1e-9) + 1 }, (_, i) => i * step_s);
}

/** A log as the reader would give it. Gaps are found as definitions say: five median intervals or more. */
export function makeLog({ times, columns, clockSteps = [], fileName = 'made.csv' }: LogOptions): Log {
  const time_s = Float64Array.from(times);
  const intervals = times
    .slice(1)
    .map((t, i) => t - (times[i] ?? NaN))
    .filter((interval) => interval > 0)
    .sort((a, b) => a - b);
  const half = intervals.length >> 1;
  const medianInterval_s =
    intervals.length === 0
      ? 0
      : intervals.length % 2 === 1
        ? (intervals[half] ?? NaN)
        : 0.5 * ((intervals[half - 1] ?? NaN) + (intervals[half] ?? NaN));
  const gaps: Gap[] = [];
  for (let i = 1; i < times.length; i++)
    if ((times[i] ?? NaN) - (times[i - 1] ?? NaN) >= 5 * medianInterval_s)
      gaps.push({ start_s: times[i - 1] ?? NaN, end_s: times[i] ?? NaN });
  return {
    source: { fileName, bytes: 1, sha256: '0'.repeat(64) },
    parts: [],
    dialect: { encoding: 'utf-8', delimiter: ',', decimal: '.', headerLine: 1, unitLine: null },
    rows: times.length,
    skippedRowCount: 0,
    skippedRows: [],
    timeForm: 'elapsed-seconds',
    start: null,
    origin_s: 0,
    duration_s: (times.at(-1) ?? 0) - (times[0] ?? 0),
    medianInterval_s,
    time_s,
    gaps,
    clockSteps,
    channels: columns.map((column, position) => makeChannel(column, times, position)),
    timeColumns: ['t_s'],
    roleCandidates: [],
    remarks: [],
  };
}

function makeChannel(column: Column, times: number[], position: number): Channel {
  const values = new Float64Array(times.length),
    flags = new Uint8Array(times.length),
    decimals = column.decimals ?? 2;
  times.forEach((t, row) => {
    const reading = column.at(t, row);
    if (reading === null || reading === 'fault') {
      values[row] = NaN;
      flags[row] = reading === null ? SetAside.missing : SetAside.faultToken;
    } else values[row] = Number(reading.toFixed(decimals));
  });
  return {
    column: column.column,
    position,
    role: column.role,
    unit: column.unit,
    unitFrom: column.unit === null ? null : (column.unitFrom ?? 'header'),
    values,
    flags,
    faultTokens: [],
    decimals,
  };
}

export const pressureColumn = (at: Column['at'], more: Partial<Column> = {}): Column => ({
  column: 'P',
  role: 'pressure',
  unit: 'psi',
  at,
  ...more,
});
export const oilColumn = (at: Column['at'], more: Partial<Column> = {}): Column => ({
  column: 'Oil',
  role: 'oil-temperature',
  unit: 'degC',
  at,
  ...more,
});

/** Spec with a band of 400 to 420 psi and what else is given. */
export function spec(more: Partial<Spec> = {}): Spec {
  return {
    format: 'overdrive-bench/spec',
    version: 1,
    name: 'made up',
    pressureBand: { low: 400, high: 420, unit: 'psi' },
    ...more,
  };
}

export function rig(...channels: RigChannel[]): Rig {
  return { format: 'overdrive-bench/rig', version: 1, name: 'made up', channels };
}
export const gauge = (more: Partial<RigChannel> = {}): RigChannel => ({
  column: 'P',
  role: 'pressure',
  unit: 'psi',
  range: { low: 0, high: 600 },
  resolution: 0.1,
  uncertainty: { percentOfSpan: 0.25 },
  ...more,
});

/**
 * Pressure of a plain run: at rest, engaged from `from_s` to `to_s` with a first-order rise, released again.
 * @param level pressure while engaged, by time
 */
export function engagedBetween(
  from_s: number,
  to_s: number,
  level: (t_s: number) => number,
  { rest = 0.3, rise_s = 0.5, fall_s = 1 }: { rest?: number; rise_s?: number; fall_s?: number } = {},
): (t_s: number) => number {
  return (t) => {
    if (t < from_s) return rest;
    if (t < to_s) return rest + (level(t) - rest) * (1 - Math.exp(-(t - from_s) / rise_s));
    return rest + (level(to_s) - rest) * Math.exp(-(t - to_s) / fall_s);
  };
}
