import type { Quantities } from '#formats/assessment.ts';
import { levelsOf, shareLevels } from '#signal/levels.ts';
import { alongSmoothed, FEWEST_SAMPLES } from '#signal/smooth.ts';
import { weightedMedians } from '#signal/weighted-sums.ts';
import { statedText, withUnit } from '#units/number-text.ts';
import { upToTheEnd } from './channel-reading.ts';
import { foundOf, kernelWeights, WeightedMean, type Found } from './pieces.ts';
import type { Solenoid } from './solenoid.ts';
import type { Situation } from './situation.ts';
import { splitAtBreaks, without, type Rows } from './timeline.ts';

/** What the current is found from. */
export type CurrentSource = Pick<Situation, 'current' | 'timeline' | 'smoothing' | 'solenoid'> & {
  reading: { engagements: Situation['reading']['engagements'] };
};

/** Mean and maximum of the smoothed current while engaged; smoothed over engaged rows alone, so that its edges do not count. */
export function solenoidCurrent(situation: CurrentSource): Quantities['solenoidCurrent'] {
  const { current, timeline, reading, smoothing, solenoid } = situation;
  const none = (reason: string): Quantities['solenoidCurrent'] => ({
    mean: null,
    max: null,
    unit: 'A',
    reason,
  });
  if (!current) return none('the log has no solenoid current');
  const unit = current.channel.unit;
  if (unit !== 'A' && unit !== 'mA') return none('the solenoid current has no unit of current');
  const engaged: Rows[] = reading.engagements.flatMap(({ rows }) => splitAtBreaks(timeline, rows));
  if (engaged.length === 0) return { ...none('there is no engagement in this log'), unit };
  // What stood at the end of the range was at least that: left out, a coil that draws too much would pass by the rest.
  const { kept, end } = upToTheEnd(current);
  // A median is of the readings in its window and knows nothing of rows before and behind; a fit may.
  const rows = smoothing.method === 'median' ? spanned(engaged) : { from: 0, to: kept.length };
  const on = engagedReadings(kept, rows, engaged, solenoid);
  if (kept === current.channel.values) {
    // The column's grid will be asked for again where it is listed.
    levelsOf(kept);
    if (on !== kept) shareLevels(on, kept);
  }
  const found = smoothedMean(situation, on, rows);
  if (found && found.max >= end)
    return {
      ...none(
        `the solenoid current stood at the end of its range (${withUnit(statedText(end), unit)}): how high it went is not known`,
      ),
      atLeast: end,
      unit,
    };
  return found
    ? { mean: found.mean, max: found.max, unit }
    : { ...none('the solenoid current has no valid reading while engaged'), unit };
}

/** Of the smoothed readings of some rows; null without one. */
export function smoothedMean(
  situation: Pick<Situation, 'timeline' | 'smoothing'>,
  on: Float64Array,
  rows: Rows,
): Found | null {
  const { timeline, smoothing } = situation,
    levels = smoothing.method === 'median' ? levelsOf(on) : null;
  const told =
    levels &&
    kernelWeights(timeline, (weights) =>
      weightedMedians(weights, rows, {
        values: on,
        levels,
        gaps: timeline.gaps,
        size: { width_s: smoothing.window_s, samples: FEWEST_SAMPLES },
      }),
    );
  return told === null
    ? smoothedByScript(situation, on, rows)
    : told.reference === told.reference
      ? foundOf(told)
      : null;
}

/** The same to the bit, however it is smoothed. */
export function smoothedByScript(
  { timeline, smoothing }: Pick<Situation, 'timeline' | 'smoothing'>,
  on: Float64Array,
  rows: Rows,
): Found | null {
  const mean = new WeightedMean(timeline);
  const time_s = timeline.time_s.subarray(rows.from, rows.to);
  alongSmoothed(time_s, on, smoothing, timeline.gaps, (from, to, smoothed) => {
    // A window reaches into neighbouring rows: only rows with a reading of their own count, and those are the engaged ones.
    leaveOut(smoothed, on, from, to);
    mean.add(rows.from + from, rows.from + to, smoothed);
  });
  return mean.found();
}

/** From the first row of pieces to the last. */
function spanned(pieces: readonly Rows[]): Rows {
  return { from: pieces[0]?.from ?? 0, to: pieces.at(-1)?.to ?? 0 };
}

/** Readings of some rows, NaN where the unit is not engaged or the solenoid is off; the column's own where there is no such row. */
function engagedReadings(
  kept: Float64Array,
  rows: Rows,
  engaged: readonly Rows[],
  solenoid: Solenoid | null,
): Float64Array {
  const own = kept.subarray(rows.from, rows.to);
  const between = without([rows], engaged),
    off = solenoid?.on.subarray(rows.from, rows.to);
  if (between.length === 0 && off?.includes(0) !== true) return own;
  const result = own.slice();
  for (const { from, to } of between) result.fill(NaN, from - rows.from, to - rows.from);
  if (off) for (let i = 0; i < result.length; i++) if (off[i] === 0) result[i] = NaN;
  return result;
}

/** Takes the smoothed values of rows out that have no reading. */
function leaveOut(smoothed: Float64Array, readings: Float64Array, from: number, to: number): void {
  for (let i = from; i < to; i++) {
    const reading = readings[i] ?? NaN;
    if (reading !== reading) smoothed[i - from] = NaN;
  }
}
