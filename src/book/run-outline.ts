import type { BookRun } from '#formats/book.ts';
import type { Series } from '#formats/series.ts';

/** The list holds at most so many columns a run (formats/book.ts). */
const COLUMNS = 200;

/**
 * The judged pressure as a thin line for the list: lowest and highest smoothed value in equal spans of time, null where nothing was
 * recorded. null as a whole: the log has no pressure.
 */
export function runOutline({ time_s, pressure, gaps }: Series): BookRun['outline'] {
  if (pressure === null) return null;
  const low = Array.from<number | null>({ length: COLUMNS }).fill(null);
  const high = [...low];
  const first = time_s[0] ?? 0;
  const span = (time_s[time_s.length - 1] ?? 0) - first;
  const columnOf = (at_s: number): number =>
    span > 0 ? Math.min(COLUMNS - 1, Math.floor(((at_s - first) / span) * COLUMNS)) : 0;
  let before = -1;
  let held: number | null = null;
  for (let i = 0; i < time_s.length; i++) {
    const value = pressure.smoothed[i] ?? NaN;
    if (Number.isNaN(value)) continue;
    const column = columnOf(time_s[i] ?? first);
    // Readings minutes apart leave columns without one: the line goes on through them, but not through a gap.
    if (
      held !== null &&
      column > before + 1 &&
      !gaps.some(({ start_s, end_s }) => start_s < (time_s[i] ?? 0) && end_s > timeOf(before))
    )
      for (let empty = before + 1; empty < column; empty++) low[empty] = high[empty] = held;
    const lowest = low[column] ?? null,
      highest = high[column] ?? null;
    if (lowest === null || value < lowest) low[column] = value;
    if (highest === null || value > highest) high[column] = value;
    before = column;
    held = value;
  }
  return { unit: pressure.unit, low, high };

  function timeOf(column: number): number {
    return first + (column / COLUMNS) * span;
  }
}
