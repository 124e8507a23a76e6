import * as fc from 'fast-check';

export interface MadeColumn {
  time_s: Float64Array;
  values: Float64Array;
  gaps: { start_s: number; end_s: number }[];
}
/** A short column at uneven times, with holes, gaps and (mostly) a decimal grid. */
export const madeColumn = (reading: fc.Arbitrary<number>, maxLength = 60): fc.Arbitrary<MadeColumn> =>
  fc
    .array(
      fc.tuple(
        fc.constantFrom(0.5, 1, 1, 1, 1.3, 2, 60),
        fc.oneof({ weight: 6, arbitrary: reading }, { weight: 1, arbitrary: fc.constant(NaN) }),
      ),
      {
        minLength: 1,
        maxLength,
      },
    )
    .map((rows) => {
      const time_s = new Float64Array(rows.length);
      const gaps: MadeColumn['gaps'] = [];
      rows.forEach(([interval], i) => {
        if (i === 0) return;
        const before = time_s[i - 1] ?? 0;
        time_s[i] = before + interval;
        if (interval === 60) gaps.push({ start_s: before, end_s: before + interval });
      });
      return { time_s, values: Float64Array.from(rows, ([, value]) => value), gaps };
    });
/** Tenths, as a gauge with one decimal writes them. */
export const tenths = fc.integer({ min: -30, max: 4200 }).map((k) => k / 10);

/** Rows of a window by the definition, one by one. */
export function rowsWithin(
  { time_s, gaps }: MadeColumn,
  row: number,
  width_s: number,
  samples: number,
): number[] {
  const at = time_s[row] ?? NaN;
  const parted = (other: number): boolean =>
    gaps.some(({ start_s, end_s }) => {
      const early = Math.min(at, time_s[other] ?? NaN);
      const late = Math.max(at, time_s[other] ?? NaN);
      return early <= start_s && late >= end_s;
    });
  const side = (samples - 1) / 2;
  return Array.from(time_s.keys()).filter(
    (other) =>
      !parted(other) &&
      (Math.abs((time_s[other] ?? NaN) - at) <= (width_s / 2) * (1 + 1e-9) || Math.abs(other - row) <= side),
  );
}
/** Values of rows, missing ones left out. */
export const present = ({ values }: MadeColumn, rows: number[]): number[] =>
  rows.map((row) => values[row] ?? NaN).filter((value) => !Number.isNaN(value));
export function plainMedian(list: number[]): number {
  const sorted = list.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  if (sorted.length === 0) return NaN;
  return sorted.length % 2 === 1
    ? (sorted[half] ?? NaN)
    : 0.5 * ((sorted[half - 1] ?? NaN) + (sorted[half] ?? NaN));
}
