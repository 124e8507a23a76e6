import { blockMeans } from '#signal/block-medians.ts';
import { lagOneCorrelation, serialWidening } from '#statistics/lag-one-correlation.ts';
import { leastSquares } from '#statistics/least-squares.ts';
import { studentTQuantile } from '#statistics/student-t.ts';
import type { StayingStep } from './change-point.ts';
import { betweenPieces } from './pieces.ts';
import type { Rows, Timeline } from './timeline.ts';

const BLOCK_s = 60;
const HOUR_s = 3600;
const QUANTILE = 0.975;
/** Temperature must span so much, and the two regressors must not lean on one another more than this. */
const SPAN_degC = 5;
const MOST_INFLATION = 10;
const REGRESSORS = 3;

/** A value with its 95 % interval. */
export interface Interval {
  value: number;
  low: number;
  high: number;
}

/** How pressure goes with heat, and how it goes with time at constant heat. */
export interface Sensitivity {
  perDegree: Interval;
  perHour: Interval;
}

/**
 * Least squares of one-minute pressure on oil temperature and time; intervals by Student's t, standard errors widened for the
 * serial correlation of the residuals.
 * @param pressure judged, NaN where set aside
 * @param oil corrected, NaN where set aside
 * @param pieces the run after the first entry into tolerance
 * @param degree one °C in the oil channel's unit
 * @param step a step that stays, taken out of the pressure after it: it is neither heat nor time
 * @returns the reason where the log can't tell the two apart
 */
export function sensitivityOf(
  { time_s }: Timeline,
  pressure: Float64Array,
  oil: Float64Array,
  pieces: readonly Rows[],
  degree: number,
  step: StayingStep | null,
): Sensitivity | { reason: string } {
  const first = pieces[0],
    last = pieces.at(-1);
  if (!first || !last) return { reason: 'the pressure never came within tolerance' };
  const choice = {
    start_s: time_s[first.from] ?? NaN,
    end_s: time_s[last.to - 1] ?? NaN,
    block_s: BLOCK_s,
  };
  const p = byBlock(blockMeans(time_s, betweenPieces(pressure, pieces), choice), choice),
    t = byBlock(blockMeans(time_s, betweenPieces(oil, pieces), choice), choice);
  const rows: number[] = [...p.keys()].filter((block) => t.has(block));
  const stepped = (block: number): number =>
    step !== null && choice.start_s + (block + 0.5) * BLOCK_s > step.at_s ? step.after - step.before : 0;
  const y = rows.map((block) => (p.get(block) ?? NaN) - stepped(block)),
    temperature = rows.map((block) => t.get(block) ?? NaN),
    hours = rows.map((block) => ((block + 0.5) * BLOCK_s) / HOUR_s);
  let low = Infinity,
    high = -Infinity;
  for (const value of temperature) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (!(high - low >= SPAN_degC * degree))
    return {
      reason: 'the oil temperature spans less than 5 °C after the pressure first came within tolerance',
    };
  const fit = leastSquares([rows.map(() => 1), temperature, hours], y);
  if (rows.length <= REGRESSORS) return { reason: 'too few minutes with both pressure and oil temperature' };
  // No fit at all: one is a straight line of the other, to the last digit.
  if (!fit || !((fit.varianceInflation[1] ?? Infinity) <= MOST_INFLATION))
    return { reason: 'oil temperature and time rose together: their effects cannot be told apart' };
  const factor =
    studentTQuantile(QUANTILE, fit.degreesOfFreedom) * serialWidening(lagOneCorrelation(fit.residuals));
  const interval = (index: number): Interval => {
    const value = fit.coefficients[index] ?? NaN,
      half = factor * (fit.standardErrors[index] ?? NaN);
    return { value, low: value - half, high: value + half };
  };
  return { perDegree: interval(1), perHour: interval(2) };
}

/** Block values by the number of their minute, so that a minute without one channel is left out of both. */
function byBlock(
  blocks: { time_s: Float64Array; values: Float64Array },
  { start_s, block_s }: { start_s: number; block_s: number },
): Map<number, number> {
  const result = new Map<number, number>();
  blocks.time_s.forEach((t, i) =>
    result.set(Math.floor((t - start_s) / block_s + 1e-9), blocks.values[i] ?? NaN),
  );
  return result;
}
