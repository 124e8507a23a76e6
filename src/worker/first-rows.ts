import type { Log } from '#formats/log.ts';

/** A row of a log as it was read: its time, and its readings in the order of the channels. */
export interface ReadRow {
  /** Seconds from the first row. */
  at_s: number;
  /** null: no reading. */
  values: (number | null)[];
}

/** The first rows of a log, as numbers. */
export function firstRows(log: Log, count: number): ReadRow[] {
  return Array.from({ length: Math.min(count, log.rows) }, (_, row) => ({
    at_s: log.time_s[row] ?? 0,
    values: log.channels.map(({ values }) => {
      const value = values[row] ?? NaN;
      return Number.isNaN(value) ? null : value;
    }),
  }));
}
