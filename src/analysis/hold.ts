import { EXTENT_ROWS, extentsOf } from '#statistics/extents.ts';
import type { Run } from './run.ts';
import { at, breakBetween, rowAfter, rowFrom, within, type Rows, type Timeline } from './timeline.ts';

/** Within tolerance for so long, or for a tenth of the run if that is shorter, and the pressure counts as steady. */
const STEADY_s = 600;
const STEADY_SHARE = 0.1;
/** After engaging the rise is over in so long (as for a plateau), or in half of the run, if shorter. */
const RISE_s = 5;
const RISE_SHARE = 0.5;

/** The stretch whose readings are judged. */
export interface Hold {
  pieces: Rows[];
  start_s: number;
  /** Always the run's end, or where the reviewer set it. */
  end_s: number;
  /** The pressure was never steady: the hold starts by temperature alone, or at half of the run. */
  neverSteady: boolean;
  /** Times that the hold paused, for a gap, a step of the clock or a release. */
  pauses: number;
}

/** Why there is none. */
export type NoHold = 'never-warm' | 'empty';

/** What the hold is found from. */
export interface HoldInput {
  timeline: Timeline;
  run: Run;
  smoothed: Float64Array;
  tolerance: number;
  /** Smoothed oil temperature, null without the channel. */
  oil: Float64Array | null;
  /** Lowest operating temperature in the oil channel's unit, null where none is stated. */
  operatingLow: number | null;
  /** Borders set by hand, seconds from the first row. */
  start_s: number | null;
  end_s: number | null;
}

/** How long the pressure must stay within tolerance to count as steady. */
export function steadyTime_s(run: Run): number {
  return Math.min(STEADY_s, STEADY_SHARE * (run.end_s - run.start_s));
}

/**
 * Hold: from the later of the oil's first reaching operating temperature and the first instant after which the smoothed pressure
 * stays within tolerance of the final value for 10 min, to the run's end; it pauses after a gap, a whole-hour step or a release
 * until the oil is back at operating temperature (without one: until the pressure is steady again).
 */
export function holdOf(input: HoldInput): Hold | NoHold {
  const { timeline, run, operatingLow, oil } = input;
  const { time_s } = timeline;
  const warm = operatingLow === null || oil === null ? null : firstWarm(oil, run.pieces, operatingLow);
  if (warm === -1) return 'never-warm';
  // Smoothing looks ahead, so the pressure can pass for steady while it still rises: the rise itself is no hold.
  const risen_s = run.start_s + Math.min(RISE_s, RISE_SHARE * (run.end_s - run.start_s));
  const steady = firstSteady(input, 0, rowFrom(time_s, risen_s));
  let from: number;
  if (input.start_s !== null) from = rowFrom(time_s, input.start_s);
  else if (steady !== null) from = Math.max(steady, warm ?? steady);
  else
    from =
      warm === null
        ? rowFrom(time_s, 0.5 * (run.start_s + run.end_s))
        : Math.max(warm, rowFrom(time_s, risen_s));
  const to = input.end_s === null ? run.rows.to : Math.min(run.rows.to, rowAfter(time_s, input.end_s));
  const pieces: Rows[] = [];
  let pauses = 0;
  run.pieces.forEach((piece, index) => {
    const before = run.pieces[index - 1];
    const resumed = before && piece.from > from ? resumption(input, before, index) : piece.from;
    if (resumed === null || resumed > piece.from) pauses++;
    if (resumed !== null) pieces.push({ from: Math.min(resumed, piece.to), to: piece.to });
  });
  const held = within(pieces, { from, to });
  const first = held[0],
    last = held.at(-1);
  if (!first || !last) return 'empty';
  return {
    pieces: held,
    start_s: at(time_s, first.from),
    end_s: at(time_s, last.to - 1),
    neverSteady: steady === null,
    pauses,
  };
}

/** First row of the pieces at or above a temperature; −1 where it never got there. */
function firstWarm(oil: Float64Array, pieces: readonly Rows[], low: number): number {
  for (const { from, to } of pieces) for (let i = from; i < to; i++) if (at(oil, i) >= low) return i;
  return -1;
}

/**
 * First row, from a row of a piece on, after which the pressure stays within tolerance for long enough. A gap does not break the
 * stay where both sides are within; a released stretch does.
 * @returns null where it never does
 */
function firstSteady(
  { timeline, run, smoothed, tolerance }: HoldInput,
  fromPiece: number,
  fromRow: number,
): number | null {
  const need_s = steadyTime_s(run),
    extents = extentsOf(smoothed),
    { finalValue } = run;
  let start = -1;
  for (let p = fromPiece; p < run.pieces.length; p++) {
    const piece = run.pieces[p],
      before = run.pieces[p - 1];
    if (!piece) continue;
    if (before && p > fromPiece && kindBetween(timeline, run, before, piece) === 'released') start = -1;
    let found = -1;
    extents.inBlocks({ from: Math.max(piece.from, fromRow), to: piece.to }, (from, to, block) => {
      if (found >= 0) return;
      if (to - from === EXTENT_ROWS && extents.isBeyond(block, finalValue, tolerance)) {
        // Without a reading it does not break a stay.
        if (extents.least(block) < Infinity) start = -1;
        return;
      }
      for (let i = from; i < to; i++) {
        const value = at(smoothed, i);
        if (Number.isNaN(value)) continue;
        if (Math.abs(value - finalValue) > tolerance) start = -1;
        else {
          if (start < 0) start = i;
          if (at(timeline.time_s, i) - at(timeline.time_s, start) >= need_s) {
            found = start;
            return;
          }
        }
      }
    });
    if (found >= 0) return found;
  }
  return null;
}

/** What parts two neighbouring pieces of a run. */
function kindBetween(
  timeline: Timeline,
  run: Run,
  before: Rows,
  after: Rows,
): 'break' | 'released' | 'left-out' {
  const released = run.engagements.some(({ rows }) => rows.from >= before.to && rows.from <= after.from);
  if (released) return 'released';
  return breakBetween(timeline, before.to - 1, after.from) ? 'break' : 'left-out';
}

/** First row of a piece that belongs to the hold again; null where none does. */
function resumption(input: HoldInput, before: Rows, index: number): number | null {
  const { timeline, run, oil, operatingLow } = input;
  const piece = run.pieces[index];
  if (!piece) return null;
  const kind = kindBetween(timeline, run, before, piece);
  if (kind === 'left-out') return piece.from;
  const risen =
    kind === 'released'
      ? Math.max(piece.from, rowFrom(timeline.time_s, at(timeline.time_s, piece.from) + RISE_s))
      : piece.from;
  if (oil !== null && operatingLow !== null) {
    const warm = firstWarm(oil, [{ from: risen, to: piece.to }], operatingLow);
    return warm < 0 ? null : warm;
  }
  const steady = firstSteady(input, index, risen);
  if (steady !== null) return steady < piece.to ? steady : null;
  // Never steady again: hiding the rest would hide the worst runs, unless too little is left to tell.
  return run.end_s - at(timeline.time_s, piece.from) >= steadyTime_s(run) ? risen : null;
}
