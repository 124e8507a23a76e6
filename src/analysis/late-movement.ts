import { blockMedians } from '#signal/block-medians.ts';
import { exp, log } from '#statistics/elementary.ts';
import { fitExponentialApproach } from '#statistics/fit-exponential-approach.ts';
import { fitLine } from '#statistics/fit-line.ts';
import { lagOneCorrelation, serialWidening } from '#statistics/lag-one-correlation.ts';
import { mannKendall } from '#statistics/mann-kendall.ts';
import { theilSen } from '#statistics/theil-sen.ts';
import { betweenPieces } from './pieces.ts';
import type { Run } from './run.ts';
import type { Situation } from './situation.ts';
import { rowFrom, within } from './timeline.ts';

/** The last third of the run, as for the final value, in one-minute blocks. */
const LATE_SHARE = 1 / 3;
const BLOCK_s = 60;
const BLOCKS_NEEDED = 10;
const SIGNIFICANCE = 0.05;
/** Moving: more than half of the tolerance within that time. */
const MOVING_SHARE = 0.5;

/** A pressure that still moves at the end: how far it went in that time. */
export interface LateMovement {
  change: number;
  over_s: number;
  /** Where it is on its way to, and how long the run would have to go on to come near that; null where the log does not tell. */
  end: { value: number; in_s: number } | null;
}

/** How far the pressure went in the last third of the run, where that is more than noise and more than half of the tolerance. */
export function lateMovement({ timeline, run, reading, tolerance }: Situation): LateMovement | null {
  if (!run || tolerance === null) return null;
  const over_s = LATE_SHARE * (run.end_s - run.start_s),
    start_s = run.end_s - over_s;
  const pieces = within(run.pieces, { from: rowFrom(timeline.time_s, start_s), to: run.rows.to });
  const number = Math.max(BLOCKS_NEEDED, Math.floor(over_s / BLOCK_s));
  const blocks = blockMedians(timeline.time_s, betweenPieces(reading.kept, pieces), {
    start_s,
    end_s: run.end_s,
    block_s: over_s / Math.min(number, 1000),
  });
  if (blocks.values.length < BLOCKS_NEEDED) return null;
  const line = fitLine(blocks.time_s, blocks.values);
  const left = blocks.values.map(
    (value, i) => value - (line?.intercept ?? 0) - (line?.slope ?? 0) * (blocks.time_s[i] ?? NaN),
  );
  const test = mannKendall(blocks.values, { widen: serialWidening(lagOneCorrelation(left)) }),
    slope = theilSen(blocks.time_s, blocks.values)?.slope;
  if (!test || slope === undefined || test.probability >= SIGNIFICANCE) return null;
  const change = slope * over_s;
  if (!(Math.abs(change) > MOVING_SHARE * tolerance)) return null;
  return { change, over_s, end: endOf({ timeline, run, reading }, change, MOVING_SHARE * tolerance) };
}

/**
 * The end that the pressure goes to, by the exponential approach that its one-minute medians show from the run's first minute on.
 * @param near the run would have to go on until the rest is this small
 * @returns null where they do not bend towards an end, or where the end is behind
 */
function endOf(
  { timeline, run, reading }: Pick<Situation, 'timeline' | 'reading'> & { run: Run },
  change: number,
  near: number,
): LateMovement['end'] {
  const { time_s, values } = blockMedians(timeline.time_s, betweenPieces(reading.kept, run.pieces), {
    start_s: run.start_s + BLOCK_s,
    end_s: run.end_s,
    block_s: Math.max(BLOCK_s, (run.end_s - run.start_s) / 1000),
  });
  const fit = fitExponentialApproach(
    time_s.map((at_s) => at_s - run.start_s),
    values,
  );
  if (!fit.ok) return null;
  const rest =
    (fit.final - fit.start) * exp(-(run.end_s - run.start_s) / fit.timeConstant) * Math.sign(change);
  return rest > near ? { value: fit.final, in_s: fit.timeConstant * log(rest / near) } : null;
}
