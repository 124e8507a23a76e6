import type { Gap, Log } from '#formats/log.ts';
import { emptyLike } from '#statistics/like.ts';
import { stepsOf } from '#statistics/steps.ts';

/** Rows `from` to `to`, the last not included. */
export interface Rows {
  from: number;
  to: number;
}

/** Why two neighbouring rows are not neighbours in time. `step`: a clock step by whole hours that was taken out. */
export type BreakKind = 'gap' | 'step' | 'cut';
/** A place where two neighbouring rows are not neighbours in time. */
export interface Break {
  /** The first row after it. */
  row: number;
  kind: BreakKind;
}

/** The log's time axis with its breaks, and the part of it that is judged. */
export interface Timeline {
  /** Seconds from the first row, never going back. */
  time_s: Float64Array;
  medianInterval_s: number;
  gaps: Gap[];
  /** In order of rows. */
  breaks: Break[];
  /** The longest part between clock steps that cut the log; the whole log without one. */
  part: Rows;
  /** Whether a clock step cuts the log. */
  cut: boolean;
  /** How long each row stands for, seconds, where rows share a time; null where none do. */
  shared_s: Float64Array | null;
}

/** An interval of so many median intervals or more is a gap (definitions, "Time"). */
export const GAP_INTERVALS = 5;

/** Builds the {@link Timeline} of a log. */
export function timelineOf(log: Log): Timeline {
  const { time_s, medianInterval_s, gaps } = log;
  const breaks: Break[] = [
    ...gaps.map((gap): Break => ({ row: rowAfter(time_s, gap.start_s), kind: 'gap' })),
    ...log.clockSteps.map((step): Break => ({
      row: rowAfter(time_s, step.at_s),
      kind: step.cuts ? 'cut' : 'step',
    })),
  ].sort((a, b) => a.row - b.row);
  const cuts = breaks.filter((border) => border.kind === 'cut').map((border) => border.row);
  let part: Rows = { from: 0, to: time_s.length },
    longest = -1;
  const borders = [0, ...cuts, time_s.length];
  for (let i = 1; i < borders.length; i++) {
    const from = borders[i - 1] ?? 0,
      to = borders[i] ?? 0;
    const span = to > from ? at(time_s, to - 1) - at(time_s, from) : -1;
    if (span > longest) {
      longest = span;
      part = { from, to };
    }
  }
  return {
    time_s,
    medianInterval_s,
    gaps,
    breaks,
    part,
    cut: cuts.length > 0,
    shared_s: sharedWeights(time_s, medianInterval_s),
  };
}

/**
 * The entry at a place that is known to be inside; NaN outside. Not for a loop over a whole log: once anybody has read outside of an
 * array here, what is read here comes in boxes for good; such loops read the array themselves.
 */
export function at(values: Float64Array, index: number): number {
  return values[index] ?? NaN;
}

/** First row at or after a time; the number of rows where none is. O(log n). */
export function rowFrom(time_s: Float64Array, t_s: number): number {
  let low = 0,
    high = time_s.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (at(time_s, middle) < t_s) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** First row later than a time. O(log n). */
export function rowAfter(time_s: Float64Array, t_s: number): number {
  let low = 0,
    high = time_s.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (at(time_s, middle) <= t_s) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Weights where rows share a time: each has its share of the time to the next other one. Null where none do. O(n). */
function sharedWeights(time_s: Float64Array, medianInterval_s: number): Float64Array | null {
  if (stepsOf(time_s).shared === 0) return null;
  const weights = emptyLike(time_s);
  for (let from = 0; from < time_s.length;) {
    let to = from + 1;
    while (to < time_s.length && time_s[to] === time_s[from]) to++;
    weights.fill(toNext_s(at(time_s, to) - at(time_s, from), medianInterval_s) / (to - from), from, to);
    from = to;
  }
  return weights;
}

/** An interval between rows as a weight: one median interval for a gap, and for the log's end, where it is NaN. */
function toNext_s(interval_s: number, medianInterval_s: number): number {
  return interval_s < GAP_INTERVALS * medianInterval_s ? interval_s : medianInterval_s;
}

/**
 * How long a row stands for: the time to the next row, one median interval where that is a gap or where the log ends. Rows that
 * share a time share it: a logger that writes whole seconds twenty times a second has read all twenty.
 */
export function weight_s({ time_s, medianInterval_s, shared_s }: Timeline, row: number): number {
  return weightIn_s(time_s, medianInterval_s, shared_s, row);
}

/** The same for a loop over a whole log, which takes the timeline's fields out once and not for each row. */
export function weightIn_s(
  time_s: Float64Array,
  medianInterval_s: number,
  shared_s: Float64Array | null,
  row: number,
): number {
  if (shared_s !== null) return shared_s[row] ?? NaN;
  const next_s = row + 1 < time_s.length ? (time_s[row + 1] ?? NaN) : NaN;
  return toNext_s(next_s - (time_s[row] ?? NaN), medianInterval_s);
}

/** Whether a break lies between the two rows, `earlier` before `later`. */
export function breakBetween(timeline: Timeline, earlier: number, later: number): boolean {
  return firstBreak(timeline, earlier + 1, later + 1) !== null;
}

/** The first break whose row lies in [from, to). */
export function firstBreak(timeline: Timeline, from: number, to: number): Break | null {
  return timeline.breaks.find((border) => border.row >= from && border.row < to) ?? null;
}

/** Cuts a stretch of rows at every break inside it. */
export function splitAtBreaks(timeline: Timeline, rows: Rows): Rows[] {
  const pieces: Rows[] = [];
  let from = rows.from;
  for (const border of timeline.breaks)
    if (border.row > from && border.row < rows.to) {
      pieces.push({ from, to: border.row });
      from = border.row;
    }
  if (rows.to > from) pieces.push({ from, to: rows.to });
  return pieces;
}

/** What is left of pieces when other stretches are taken out; both in order, stretches not overlapping. */
export function without(pieces: readonly Rows[], taken: readonly Rows[]): Rows[] {
  const left: Rows[] = [];
  for (const piece of pieces) {
    let from = piece.from;
    for (const out of taken) {
      if (out.to <= from || out.from >= piece.to) continue;
      if (out.from > from) left.push({ from, to: out.from });
      from = Math.max(from, out.to);
    }
    if (from < piece.to) left.push({ from, to: piece.to });
  }
  return left;
}

/** The parts of pieces inside a stretch. */
export function within(pieces: readonly Rows[], rows: Rows): Rows[] {
  return pieces
    .map(({ from, to }) => ({ from: Math.max(from, rows.from), to: Math.min(to, rows.to) }))
    .filter(({ from, to }) => to > from);
}

/** Seconds from the first to the last row of each piece, summed. */
export function span_s(timeline: Timeline, pieces: readonly Rows[]): number {
  let sum = 0;
  for (const { from, to } of pieces) sum += at(timeline.time_s, to - 1) - at(timeline.time_s, from);
  return sum;
}
