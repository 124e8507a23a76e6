import type { Quantities } from '#formats/assessment.ts';
import { blockMeans } from '#signal/block-medians.ts';
import { fitExponentialApproach, type NoFitReason } from '#statistics/fit-exponential-approach.ts';
import { log } from '#statistics/elementary.ts';
import { serialWidening } from '#statistics/lag-one-correlation.ts';
import { studentTQuantile } from '#statistics/student-t.ts';
import { temperatureDifferenceFactor, type TemperatureUnit } from '#units/temperature.ts';
import type { Run } from './run.ts';
import { at, type Rows, type Timeline } from './timeline.ts';

const BLOCK_s = 60;
/** Two-sided 95 %. */
const QUANTILE = 0.975;
/** Noise of so much of a step of the indication smears the steps (theory of quantising, from memory; the coverage study shows it). */
const DITHER_SHARE = 0.5;
/** "There" means within so much of the fitted end. */
const THERE_degC = 1;
/** Oil that is cooler by more than this after a break: what follows is a second warm-up, not the same one. */
const COOLED_degC = 2;

const reasons: Readonly<Record<NoFitReason, string>> = {
  'too-few': 'too few readings of the oil temperature for a fit',
  constant: 'the oil temperature did not change',
  'no-bend': 'the oil temperature does not bend enough towards an end to tell a time constant',
  'too-fast': 'the oil was at its end temperature within the first minutes',
  uncertain: 'the oil temperature does not tell a time constant: its standard error is over half of it',
};

/** What the warm-up is found from. */
export interface WarmUpInput {
  timeline: Timeline;
  run: Run;
  /** NaN where set aside. */
  kept: Float64Array;
  smoothed: Float64Array;
  unit: TemperatureUnit;
  operatingLow: number | null;
  /** Step of the temperature's indication, 0 where none is known. */
  step: number;
  /** Usual noise of the column, one standard deviation, same unit. */
  noise: number;
}

/** The quantity without its values. */
export function noWarmUp(unit: TemperatureUnit, reason: string): Quantities['warmUp'] {
  return {
    timeConstant_s: null,
    low_s: null,
    high_s: null,
    startTemperature: null,
    finalTemperature: null,
    unit,
    reachedOperating_s: null,
    stillToGo_s: null,
    reason,
  };
}

/**
 * Time constant of the oil's warming: least squares of T∞ − (T∞ − T0)·exp(−t/τ) on one-minute means from the run's start, up to
 * the first break after which the oil is cooler. Interval by Student's t on the standard error, widened for serial correlation,
 * and, where the readings do not tremble over the steps of the indication, never narrower than one step makes the end temperature
 * uncertain: a share step/rise of the constant to either side (computed: without it four in five intervals held the truth at whole
 * degrees). Noise of half a step and more smears the steps: the mean of a minute then knows nothing of them (dither).
 */
export function warmUpOf({
  timeline,
  run,
  kept,
  smoothed,
  unit,
  operatingLow,
  step,
  noise,
}: WarmUpInput): Quantities['warmUp'] {
  const { time_s } = timeline;
  const reached = operatingLow === null ? -1 : firstAt(smoothed, run.pieces, operatingLow);
  const reachedOperating_s = reached < 0 ? null : at(time_s, reached) - run.start_s;
  const degree = temperatureDifferenceFactor('degC', unit);
  const end_s = at(time_s, firstWarming(run.pieces, smoothed, COOLED_degC * degree).to - 1);
  const blocks = blockMeans(time_s, kept, { start_s: run.start_s, end_s, block_s: BLOCK_s });
  const fit = fitExponentialApproach(
    blocks.time_s.map((t) => t - run.start_s),
    blocks.values,
  );
  if (!fit.ok) return { ...noWarmUp(unit, reasons[fit.reason]), reachedOperating_s };
  if (fit.final <= fit.start)
    return { ...noWarmUp(unit, 'the oil cooled down instead of warming up'), reachedOperating_s };
  const half = Math.max(
    studentTQuantile(QUANTILE, fit.degreesOfFreedom) *
      fit.timeConstantStandardError *
      serialWidening(fit.residualLagOne),
    noise >= DITHER_SHARE * step ? 0 : (fit.timeConstant * step) / (fit.final - fit.start),
  );
  const left = fit.final - lastKept(smoothed, run.rows);
  return {
    timeConstant_s: fit.timeConstant,
    low_s: Math.max(0, fit.timeConstant - half),
    high_s: fit.timeConstant + half,
    startTemperature: fit.start,
    finalTemperature: fit.final,
    unit,
    reachedOperating_s,
    stillToGo_s: left > THERE_degC * degree ? fit.timeConstant * log(left / (THERE_degC * degree)) : 0,
    ...(operatingLow === null
      ? { reason: 'no operating temperature is stated' }
      : reached < 0
        ? { reason: 'the oil never reached operating temperature' }
        : {}),
  };
}

/** First row of pieces at or above a level; −1 for none. */
function firstAt(values: Float64Array, pieces: readonly Rows[], level: number): number {
  for (const { from, to } of pieces)
    for (let i = from; i < to; i++) if ((values[i] ?? NaN) >= level) return i;
  return -1;
}

/** The rows up to the first break after which the oil is cooler. */
function firstWarming(pieces: readonly Rows[], smoothed: Float64Array, cooled: number): Rows {
  const from = pieces[0]?.from ?? 0;
  let to = pieces[0]?.to ?? 1;
  for (const piece of pieces.slice(1)) {
    if (at(smoothed, piece.from) < at(smoothed, to - 1) - cooled) break;
    to = piece.to;
  }
  return { from, to };
}

function lastKept(values: Float64Array, { from, to }: Rows): number {
  for (let i = to - 1; i >= from; i--) if (!Number.isNaN(at(values, i))) return at(values, i);
  return NaN;
}
