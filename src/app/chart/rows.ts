/** First row at or after an instant; the number of rows where there is none. `time_s` never falls. */
export function firstRowFrom(time_s: Float64Array, at_s: number): number {
  let low = 0,
    high = time_s.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((time_s[middle] ?? Infinity) < at_s) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Row nearest to an instant; 0 in a log without rows. */
export function nearestRow(time_s: Float64Array, at_s: number): number {
  const after = firstRowFrom(time_s, at_s);
  if (after === 0) return 0;
  if (after >= time_s.length) return time_s.length - 1;
  const before = after - 1;
  return at_s - (time_s[before] ?? NaN) <= (time_s[after] ?? NaN) - at_s ? before : after;
}

/** Rows from … to (the second not included) without a break between them. */
export interface Stretch {
  from: number;
  to: number;
}

/** The rows of a log, parted at its gaps. */
export function stretchesOf(
  time_s: Float64Array,
  gaps: readonly { start_s: number; end_s: number }[],
): Stretch[] {
  const stretches: Stretch[] = [];
  let from = 0;
  for (const gap of gaps) {
    // A gap lies between two rows: half way is in it, whatever rounding did to its ends.
    const to = firstRowFrom(time_s, (gap.start_s + gap.end_s) / 2);
    if (to > from) stretches.push({ from, to });
    from = to;
  }
  if (from < time_s.length) stretches.push({ from, to: time_s.length });
  return stretches;
}
