import type { Blocks } from '#signal/block-medians.ts';
import { changePoint } from '#statistics/change-point.ts';
import { lagOneCorrelation, serialWidening } from '#statistics/lag-one-correlation.ts';
import { leastSquares } from '#statistics/least-squares.ts';
import { median } from '#statistics/median.ts';

/** A step of the level that stays to the end. */
export interface StayingStep {
  /** Between the last block before it and the first one after it. */
  at_s: number;
  /** Median levels. */
  before: number;
  after: number;
  /** Of Pettitt's test; small means no chance. */
  probability: number;
}

/** Blocks at least on either side, and looked at in the end to tell that the step stayed. */
const FEW_BLOCKS = 5;
/** Blocks on either side in which a line with a step in it is held against a line alone. */
const NEAR_BLOCKS = 20;
/** A step happens at once: so much of the change of level is the step in that line, and no more there than stays. */
const AT_ONCE = 0.7;
/** …and so much of it is still there at the end. */
const STAYED = 0.5;
/** The ranks of six hours do not tell a step in the last minutes, however large it is: the end is also looked at alone (the number is ours, chosen by simulation). */
const END_BLOCKS = 40;
/** The step against its standard error: a place that was searched for needs more than the usual two. */
const AGAINST_ERROR = 5;

/**
 * A step that stays, told from chance (Pettitt's test), from a straight line over the whole (which fits worse) and from a slow
 * change: near it, a line with a step in it needs the step.
 * @param blocks medians of about a minute
 */
export function stepIn(blocks: Blocks): StayingStep | null {
  const { length } = blocks.values;
  return stepFrom(blocks, 0) ?? (length > 2 * END_BLOCKS ? stepFrom(blocks, length - END_BLOCKS) : null);
}

/** The step that the blocks from one on show; its levels are those of all blocks. */
function stepFrom({ time_s, values }: Blocks, from: number): StayingStep | null {
  const found = changePoint(values.subarray(from), { atLeast: FEW_BLOCKS });
  if (found === null) return null;
  const k = from + found.index;
  const before = median(values.subarray(0, k)),
    after = median(values.subarray(k)),
    size = after - before;
  const left = median(values.subarray(values.length - FEW_BLOCKS)) - before;
  const near = stepNear(time_s, values, k);
  if (near === null || !(Math.abs(near.size) >= AGAINST_ERROR * near.standardError)) return null;
  if (!(near.size / size >= AT_ONCE && size / near.size >= AT_ONCE && left / size >= STAYED)) return null;
  const at_s = 0.5 * ((time_s[k - 1] ?? NaN) + (time_s[k] ?? NaN));
  return { at_s, before, after, probability: found.probability };
}

/** The step at a place in a line through the blocks about it. */
function stepNear(
  time_s: Float64Array,
  values: Float64Array,
  k: number,
): { size: number; standardError: number } | null {
  const from = Math.max(0, k - NEAR_BLOCKS),
    to = Math.min(values.length, k + NEAR_BLOCKS);
  const rows = Array.from({ length: to - from }, (_, i) => from + i);
  const fit = leastSquares(
    [
      rows.map(() => 1),
      rows.map((row) => (time_s[row] ?? NaN) - (time_s[k] ?? NaN)),
      rows.map((row) => (row < k ? 0 : 1)),
    ],
    values.subarray(from, to),
  );
  if (!fit) return null;
  return {
    size: fit.coefficients[2] ?? NaN,
    standardError: (fit.standardErrors[2] ?? NaN) * serialWidening(lagOneCorrelation(fit.residuals)),
  };
}
