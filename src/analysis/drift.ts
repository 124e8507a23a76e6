import type { Quantities } from '#formats/assessment.ts';
import { blockMedians, type Blocks } from '#signal/block-medians.ts';
import { lagOneCorrelation, serialWidening } from '#statistics/lag-one-correlation.ts';
import { leastSquares } from '#statistics/least-squares.ts';
import { mannKendall } from '#statistics/mann-kendall.ts';
import { theilSen } from '#statistics/theil-sen.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { stepIn, type StayingStep } from './change-point.ts';
import type { Hold } from './hold.ts';
import { betweenPieces } from './pieces.ts';
import type { Band } from './time-in-band.ts';
import type { Timeline } from './timeline.ts';

/** Blocks start at a minute, are lengthened by this factor, and number between these (definitions, "Drift"). */
const BLOCK_s = 60;
const LENGTHENED_BY = 1.25;
const FEWEST_BLOCKS = 10;
const MOST_BLOCKS = 1000;
const SHORTEST_HOLD_s = 1200;
/** Block medians whose neighbours are less alike than this pass as independent. */
const ALIKE = 0.2;
const BLOCKS_FOR_A_CURVE = 40;
const CURVE_DEGREE = 3;
const CONFIDENCE = 0.95;
const SIGNIFICANCE = 0.05;
/** The line is not drawn further than so many hold lengths. */
const EXIT_WITHIN_HOLDS = 10;
const HOUR_s = 3600;

export type Drift = Quantities['drift'];

/** The drift of a hold and what was found on the way. */
export interface DriftFound {
  drift: Drift;
  step: StayingStep | null;
  /** Height of the line at the hold's end, in the judged unit; null without a line. */
  atHoldEnd: number | null;
}

/** Why the hold has no drift, as the quantity with its nulls. */
export function noDrift(unit: PressureUnit, reason: string): DriftFound {
  return {
    drift: {
      slope: null,
      low: null,
      high: null,
      unit: `${unit}/h`,
      confidence: CONFIDENCE,
      overHold: { value: null, unit, low: null, high: null },
      trend: null,
      temperatureCorrectedSlope: null,
      temperatureCorrectedLow: null,
      temperatureCorrectedHigh: null,
      bandExit_h: null,
      reason,
    },
    step: null,
    atHoldEnd: null,
  };
}

/**
 * Drift of the hold: Theil–Sen slope of block medians with its interval, and whether there is a trend (Mann–Kendall), both widened
 * for what serial correlation the blocks still have (USEPA 2009, 17.3.2 and 17.3.3). Where a step that stays is found its size is
 * taken out before the slope and put back into the change over the hold.
 * The interval reaches at least one step of the indication over the hold to either side: what is rounded may have moved by so much
 * unseen (computed: without it no interval held the truth where the noise was half a step or less). A trend counts where the
 * interval leaves out 0 as well.
 * @param kept judged pressure, NaN where set aside
 * @param band in the judged unit, null without a spec
 * @param resolution step of the indication in the judged unit, 0 where none is known
 */
export function driftOf(
  timeline: Timeline,
  hold: Hold,
  kept: Float64Array,
  unit: PressureUnit,
  band: Band | null,
  resolution: number,
): DriftFound {
  const hold_s = hold.end_s - hold.start_s;
  if (hold_s < SHORTEST_HOLD_s) return noDrift(unit, 'the hold is shorter than 20 min');
  const values = betweenPieces(kept, hold.pieces);
  const first = blocksOf(
    { time_s: timeline.time_s, values },
    hold,
    Math.max(BLOCK_s, hold_s / MOST_BLOCKS),
    resolution,
  );
  const found = stepIn(first);
  // One step of the indication is how a slow change looks on a quiet log.
  const step = found && Math.abs(found.after - found.before) > 1.5 * resolution ? found : null;
  const blocks = independentBlocks(hold, first, step);
  if (blocks.values.length < FEWEST_BLOCKS)
    return noDrift(
      unit,
      `the hold gives only ${blocks.values.length} block medians; a drift needs ${FEWEST_BLOCKS}`,
    );
  const level = levelled(blocks, step);
  const hours = blocks.time_s.map((t) => (t - hold.start_s) / HOUR_s);
  const widen = serialWidening(residualCorrelation(hours, level));
  const line = theilSen(hours, level, { confidence: CONFIDENCE, widen });
  const test = mannKendall(level, { widen });
  if (!line || !test) return noDrift(unit, 'the block medians of the hold give no line');
  const hold_h = hold_s / HOUR_s,
    unseen = resolution / hold_h;
  const low = line.low === null ? null : Math.min(line.low, line.slope - unseen),
    high = line.high === null ? null : Math.max(line.high, line.slope + unseen);
  const moves = test.probability < SIGNIFICANCE && Math.abs(line.slope) > unseen;
  const trend = moves && line.slope > 0 ? 'rising' : moves && line.slope < 0 ? 'falling' : 'none';
  const stepSize = step === null ? 0 : step.after - step.before;
  const over = (slope: number | null): number | null => (slope === null ? null : slope * hold_h + stepSize);
  const atEnd = line.intercept + line.slope * hold_h + stepSize;
  return {
    drift: {
      slope: line.slope,
      low,
      high,
      unit: `${unit}/h`,
      confidence: CONFIDENCE,
      overHold: { value: over(line.slope), unit, low: over(low), high: over(high) },
      trend,
      temperatureCorrectedSlope: null,
      temperatureCorrectedLow: null,
      temperatureCorrectedHigh: null,
      bandExit_h:
        band === null
          ? null
          : bandExit_h(atEnd, trend === 'none' ? 0 : line.slope, band, EXIT_WITHIN_HOLDS * hold_h),
      ...(line.low === null ? { reason: 'too few blocks for an interval of the slope' } : {}),
    },
    step,
    atHoldEnd: atEnd,
  };
}

function blocksOf(
  { time_s, values }: { time_s: Float64Array; values: Float64Array },
  hold: Hold,
  block_s: number,
  resolution: number,
): Blocks {
  const hold_s = hold.end_s - hold.start_s;
  const number = Math.max(FEWEST_BLOCKS, Math.floor(hold_s / block_s));
  return blockMedians(time_s, values, {
    start_s: hold.start_s,
    end_s: hold.end_s,
    block_s: hold_s / number,
    step: resolution,
  });
}

/**
 * Blocks lengthened until their medians are no more alike than independent ones, or 10 remain. A longer block has the median of its
 * one-minute medians: a log of millions is not gone through again for each length.
 */
function independentBlocks(hold: Hold, first: Blocks, step: StayingStep | null): Blocks {
  const longest_s = (hold.end_s - hold.start_s) / FEWEST_BLOCKS;
  let blocks = first,
    block_s = Math.max(BLOCK_s, (hold.end_s - hold.start_s) / MOST_BLOCKS);
  while (block_s < longest_s) {
    const alike = residualCorrelation(blocks.time_s, levelled(blocks, step));
    if (!(alike >= ALIKE)) break;
    block_s = Math.min(block_s * LENGTHENED_BY, longest_s);
    blocks = blocksOf(first, hold, block_s, 0);
  }
  return blocks;
}

/** Block medians with a step that stays taken out: all at the level before it. */
function levelled(blocks: Blocks, step: StayingStep | null): Float64Array {
  if (step === null) return blocks.values;
  return blocks.values.map((value, i) =>
    (blocks.time_s[i] ?? NaN) < step.at_s ? value : value - (step.after - step.before),
  );
}

/**
 * Lag-one correlation of what a smooth curve leaves. A trend and a bend (what is left of the warm-up) are no likeness of neighbours:
 * with a straight line alone a bend passes for noise of hours. A cubic from 40 blocks on; fewer bear no more than a line.
 */
function residualCorrelation(x: Float64Array, y: Float64Array): number {
  const degree = y.length >= BLOCKS_FOR_A_CURVE ? CURVE_DEGREE : 1;
  const from = x[0] ?? 0,
    half = 0.5 * ((x.at(-1) ?? 1) - from);
  const unit = x.map((value) => (value - from) / half - 1);
  const columns = [unit.map(() => 1)];
  for (let power = 1; power <= degree; power++)
    columns.push(unit.map((value, i) => value * (columns[power - 1]?.[i] ?? NaN)));
  const fit = leastSquares(columns, y);
  return fit ? lagOneCorrelation(fit.residuals) : 0;
}

/** Hours from the hold's end until a line leaves the band; 0 where it is outside, null where it stays inside for long enough. */
function bandExit_h(
  level: number,
  slopePerHour: number,
  { low, high }: Band,
  within_h: number,
): number | null {
  if ((low !== null && level < low) || (high !== null && level > high)) return 0;
  const limit = slopePerHour > 0 ? high : slopePerHour < 0 ? low : null;
  if (limit === null) return null;
  const hours = (limit - level) / slopePerHour;
  return hours <= within_h ? hours : null;
}
