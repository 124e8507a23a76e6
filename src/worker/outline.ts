import { SetAside } from '#formats/log.ts';

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
  const low = Array.from<number | null>({ length: columns }).fill(null);
  const high = [...low];
  const first = time_s[0] ?? 0;
  const span = (time_s[time_s.length - 1] ?? 0) - first;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? NaN;
    if (flags[i] !== SetAside.kept || Number.isNaN(value)) continue;
    const share = span > 0 ? ((time_s[i] ?? first) - first) / span : 0;
    const column = Math.min(columns - 1, Math.floor(share * columns));
    const lowest = low[column] ?? null,
      highest = high[column] ?? null;
    if (lowest === null || value < lowest) low[column] = value;
    if (highest === null || value > highest) high[column] = value;
  }
  return { low, high };
}
