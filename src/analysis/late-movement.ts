import { blockMedians } from '#signal/block-medians.ts';
import { fitLine } from '#statistics/fit-line.ts';
import { lagOneCorrelation, serialWidening } from '#statistics/lag-one-correlation.ts';
import { mannKendall } from '#statistics/mann-kendall.ts';
import { theilSen } from '#statistics/theil-sen.ts';
import { betweenPieces } from './pieces.ts';
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
  return Math.abs(change) > MOVING_SHARE * tolerance ? { change, over_s } : null;
}
