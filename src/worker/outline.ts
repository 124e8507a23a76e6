import { SetAside, type Log } from '#formats/log.ts';
import type { RunTrace } from './messages.ts';

/** A channel's whole run as a thin line: the lowest and highest kept reading of equal spans of time; null where there is none. */
export interface Outline {
  low: (number | null)[];
  high: (number | null)[];
}

/**
 * @param time_s ascending
 * @param columns how many spans the run is cut into
 */
export function outline(
  time_s: Float64Array,
  values: Float64Array,
  flags: Uint8Array,
  columns: number,
): Outline {
  const low = new Float64Array(columns).fill(Infinity),
    high = new Float64Array(columns).fill(-Infinity);
  const first = time_s[0] ?? 0;
  const span = (time_s[time_s.length - 1] ?? 0) - first;
  const perSecond = span > 0 ? columns / span : 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? NaN;
    if (flags[i] !== SetAside.kept || value !== value) continue;
    const column = Math.min(columns - 1, Math.floor(((time_s[i] ?? first) - first) * perSecond));
    if (value < (low[column] ?? 0)) low[column] = value;
    if (value > (high[column] ?? 0)) high[column] = value;
  }
  const found = (values: Float64Array): (number | null)[] =>
    Array.from(values, (value) => (Number.isFinite(value) ? value : null));
  return { low: found(low), high: found(high) };
}

const MOST_TRACE_COLUMNS = 584,
  FEWEST_TRACE_COLUMNS = 12;

/**
 * The run's pressure as the file has it, for a first look while the rest is worked out; without a pressure column the first one that is
 * used. null: there is none.
 */
export function runTrace({ channels, time_s }: Log): RunTrace | null {
  const shown =
    channels.find(({ role }) => role === 'pressure') ?? channels.find(({ role }) => role !== 'ignored');
  if (shown === undefined) return null;
  const { column, role, unit, values, flags } = shown;
  // Two readings a column at least, where they are evenly spaced: a column without any breaks the line.
  const columns = Math.max(FEWEST_TRACE_COLUMNS, Math.min(MOST_TRACE_COLUMNS, values.length >> 1));
  return {
    column,
    role,
    unit,
    end_s: time_s[time_s.length - 1] ?? 0,
    ...outline(time_s, values, flags, columns),
  };
}
