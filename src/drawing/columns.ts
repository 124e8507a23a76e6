import { SetAside } from '#formats/log.ts';
import { reduceForDrawing } from '#signal/reduce-for-drawing.ts';

/** Width of a column of paper on which the lowest and the highest reading are drawn. */
export const COLUMN_MM = 0.25;

/** Readings that fall on one column of paper. */
export interface Column {
  /** Middle of the column. */
  x: number;
  lowest: number;
  highest: number;
}

/** True where the record is broken between two neighbouring rows. */
export type Broken = (before_s: number, after_s: number) => boolean;

/**
 * Whether one of the gaps lies between two instants.
 * @param gaps in rising order
 */
export function brokenAt(gaps: readonly { start_s: number; end_s: number }[]): Broken {
  return (before_s, after_s) => gaps.some((gap) => gap.start_s < after_s && gap.end_s > before_s);
}

/**
 * Lowest and highest kept reading of each column, in stretches that end at gaps and where a whole column holds no reading
 * although readings were due.
 * @param values NaN for no reading
 * @param flags a SetAside byte a sample; only kept readings count
 */
export function envelope(
  time_s: Float64Array,
  values: Float64Array,
  flags: Uint8Array,
  x: (t_s: number) => number,
  gaps: readonly { start_s: number; end_s: number }[],
  medianInterval_s: number,
): Column[][] {
  const stretches: Column[][] = [];
  let stretch: Column[] = [],
    column: { index: number; lowest: number; highest: number } | null = null,
    last_s: number | null = null;
  const close = (): void => {
    if (column)
      stretch.push({
        x: (column.index + 0.5) * COLUMN_MM,
        lowest: column.lowest,
        highest: column.highest,
      });
    column = null;
  };
  const broken = brokenAt(gaps);
  for (let i = 0; i < time_s.length; i++) {
    const t = time_s[i] ?? NaN,
      value = values[i] ?? NaN;
    if (flags[i] !== SetAside.kept || Number.isNaN(value) || Number.isNaN(t)) continue;
    if (last_s !== null && t - last_s > 1.5 * medianInterval_s) {
      const bare = x(t) - x(last_s) > 2 * COLUMN_MM && t - last_s > 5 * medianInterval_s;
      if (bare || broken(last_s, t)) {
        close();
        if (stretch.length > 0) stretches.push(stretch);
        stretch = [];
      }
    }
    last_s = t;
    const index = Math.floor(x(t) / COLUMN_MM);
    if (column && column.index === index) {
      if (value < column.lowest) column.lowest = value;
      if (value > column.highest) column.highest = value;
    } else {
      close();
      column = { index, lowest: value, highest: value };
    }
  }
  close();
  if (stretch.length > 0) stretches.push(stretch);
  return stretches;
}

/**
 * A smoothed line for the paper: at most four points a column; broken at gaps and where there is no value.
 * @returns polylines of x, value, x, value …
 */
export function reducedLine(
  time_s: Float64Array,
  smoothed: Float64Array,
  x: (t_s: number) => number,
  gaps: readonly { start_s: number; end_s: number }[],
): number[][] {
  const start_s = time_s[0] ?? 0,
    last_s = time_s[time_s.length - 1] ?? 0;
  const width = x(last_s) - x(start_s);
  if (!(width > 0)) return [];
  const columns = Math.max(1, Math.ceil(width / COLUMN_MM));
  const reduced = reduceForDrawing(time_s, smoothed, {
    from: 0,
    to: time_s.length,
    start_s,
    end_s: start_s + ((last_s - start_s) * columns * COLUMN_MM) / width,
    columns,
    gaps,
  });
  const lines: number[][] = [];
  let line: number[] = [];
  const end = (): void => {
    if (line.length >= 4) lines.push(line);
    line = [];
  };
  reduced.values.forEach((value, index) => {
    if (Number.isNaN(value)) end();
    else line.push(x(reduced.time_s[index] ?? NaN), value);
  });
  end();
  return lines;
}

/** Runs of the polylines between two places on the paper, as lowest and highest value there; null where the line does not pass. */
export function extentBetween(
  lines: readonly (readonly number[])[],
  from: number,
  to: number,
): { lowest: number; highest: number } | null {
  let lowest = Infinity,
    highest = -Infinity;
  for (const points of lines)
    for (let i = 0; i + 1 < points.length; i += 2) {
      const at = points[i] ?? NaN;
      if (at < from || at > to) continue;
      lowest = Math.min(lowest, points[i + 1] ?? NaN);
      highest = Math.max(highest, points[i + 1] ?? NaN);
    }
  return lowest <= highest ? { lowest, highest } : null;
}
