import type { Quantities } from '#formats/assessment.ts';
import { SetAside } from '#formats/log.ts';
import { shareText } from '#units/number-text.ts';
import { temperatureDifferenceFactor } from '#units/temperature.ts';
import { extentsOf } from '#statistics/extents.ts';
import { driftOf, noDrift, type DriftFound } from './drift.ts';
import { rangeOf } from './judged-pressure.ts';
import { eachMarked } from './marked-rows.ts';
import { holdMean, operatingPressureOf, type HoldMean } from './operating-pressure.ts';
import { weightedMean } from './pieces.ts';
import type { Oil, Situation } from './situation.ts';
import { sensitivityOf } from './temperature-sensitivity.ts';
import { bandShares } from './time-in-band.ts';
import { within, type Rows } from './timeline.ts';
import { typeBParts, type TypeBPart } from './type-b.ts';
import { whyNoHold } from './why-not.ts';

/** Contributions to the pressure's uncertainty at a judged level, in the judged unit; with the zero's where it was subtracted. */
export function pressureParts({ reading }: Situation, level: number): TypeBPart[] {
  const { line, rigChannel, resolution } = reading;
  const parts = typeBParts({
    rigChannel,
    range: rangeOf(rigChannel),
    resolution,
    reading: (level - line.offset) / line.slope,
    factor: line.slope,
  });
  if (
    rigChannel?.subtractZeroAtRest === true &&
    reading.restReading !== null &&
    reading.restScatter !== null
  ) {
    // The scatter of single readings at rest, not of their mean: their correlation is not known.
    const size = reading.restScatter * Math.abs(line.slope);
    parts.push({
      source: 'zero',
      distribution: 'normal',
      size,
      standardUncertainty: size,
      degreesOfFreedom: reading.restReadings - 1,
    });
  }
  return parts;
}

/** Operating pressure; `mean` is null where there is no hold. */
export function operatingPressure(situation: Situation): {
  quantity: Quantities['operatingPressure'];
  mean: HoldMean | null;
} {
  const { hold, timeline, reading, unit } = situation;
  const mean = hold && holdMean(timeline, hold, reading.kept);
  if (!hold || !mean)
    return {
      quantity: {
        value: null,
        unit,
        standardUncertainty: null,
        expandedUncertainty: null,
        coverageFactor: null,
        effectiveDegreesOfFreedom: null,
        start_s: hold?.start_s ?? null,
        end_s: hold?.end_s ?? null,
        budget: [],
        reason: whyNoHold(situation) ?? 'the hold has no valid reading',
      },
      mean: null,
    };
  return { quantity: operatingPressureOf(hold, mean, pressureParts(situation, mean.value), unit), mean };
}

/** Lowest and highest smoothed pressure of the hold. */
export function holdRange(situation: Situation): Quantities['holdRange'] {
  const { hold, smoothed, unit } = situation;
  const found = hold && extentsOf(smoothed).of(hold.pieces);
  return found
    ? { min: found.min, max: found.max, unit }
    : { min: null, max: null, unit, reason: whyNoHold(situation) ?? 'the hold has no valid reading' };
}

/** Shares of the hold inside, above and below the band. */
export function timeInBand(situation: Situation): Quantities['timeInBand'] {
  const { hold, timeline, smoothed, band } = situation;
  const none = (reason: string): Quantities['timeInBand'] => ({
    inside: null,
    above: null,
    below: null,
    reason,
  });
  if (band === null) return none('no band was given');
  const shares = hold && bandShares(timeline, hold, smoothed, band);
  return shares ?? none(whyNoHold(situation) ?? 'the hold has no valid reading');
}

/** Step of the indication in the judged unit, 0 where none is known. */
function stepOf({ resolution, line }: Situation['reading']): number {
  return (resolution ?? 0) * Math.abs(line.slope);
}

/** Drift of the hold with its temperature-corrected slope, and how pressure goes with heat. */
export function driftAndSensitivity(situation: Situation): {
  found: DriftFound;
  sensitivity: Quantities['temperatureSensitivity'];
} {
  const { hold, timeline, reading, unit, band, oil } = situation;
  const whyNot = whyNoHold(situation);
  const found =
    hold && whyNot === null
      ? driftOf(timeline, hold, reading.kept, unit, band, stepOf(reading))
      : noDrift(unit, whyNot ?? 'there is no hold');
  const sensitivityUnit = `${unit}/${oil?.unit ?? 'degC'}`;
  const none = (reason: string): Quantities['temperatureSensitivity'] => ({
    value: null,
    unit: sensitivityUnit,
    low: null,
    high: null,
    reason,
  });
  if (!oil) return { found, sensitivity: none('the log has no oil temperature') };
  const pieces = fromFirstEntry(situation);
  if (pieces.length === 0)
    return { found, sensitivity: none(whyNot ?? 'the pressure never came within tolerance') };
  const result = sensitivityOf(
    timeline,
    reading.kept,
    oil.kept,
    pieces,
    temperatureDifferenceFactor('degC', oil.unit),
    found.step,
  );
  if ('reason' in result) return { found, sensitivity: none(result.reason) };
  const { perDegree, perHour } = result;
  return {
    found: {
      ...found,
      drift: {
        ...found.drift,
        temperatureCorrectedSlope: perHour.value,
        temperatureCorrectedLow: perHour.low,
        temperatureCorrectedHigh: perHour.high,
      },
    },
    sensitivity: { value: perDegree.value, unit: sensitivityUnit, low: perDegree.low, high: perDegree.high },
  };
}

/** The run after the smoothed pressure's first entry into tolerance of the final value. */
function fromFirstEntry({ run, smoothed, tolerance, input }: Situation): Rows[] {
  if (!run || tolerance === null) return [];
  const extents = extentsOf(smoothed);
  let first = -1;
  for (const piece of run.pieces)
    extents.inBlocks(piece, (from, to, block) => {
      if (extents.isBeyond(block, run.finalValue, tolerance)) return;
      for (let i = from; first < 0 && i < to; i++)
        if (Math.abs((smoothed[i] ?? NaN) - run.finalValue) <= tolerance) first = i;
    });
  return first < 0 ? [] : within(run.pieces, { from: first, to: input.log.rows });
}

/** Out of the sensor's range for more than this share of the hold: nothing is left to judge. */
const MOST_BEYOND = 0.5;

function shareBeyondRange({ channel, flags }: Oil, pieces: readonly Rows[]): number {
  let beyond = 0,
    rows = 0;
  for (const { from, to } of pieces) {
    rows += to - from;
    eachMarked(flags, from, to, (row) => {
      if (flags[row] === SetAside.outOfRange && channel.flags[row] === SetAside.kept) beyond++;
    });
  }
  return rows > 0 ? beyond / rows : 0;
}

/** Oil temperature over the hold: mean of the valid readings, lowest and highest of the smoothed ones. */
export function holdTemperature(situation: Situation): Quantities['holdTemperature'] {
  const { hold, oil, timeline } = situation;
  const unit = oil?.unit ?? situation.input.spec?.operatingTemperature?.unit ?? 'degC';
  const none = (reason: string): Quantities['holdTemperature'] => ({
    mean: null,
    min: null,
    max: null,
    unit,
    reason,
  });
  if (!oil) return none('the log has no oil temperature');
  if (!hold) return none(whyNoHold(situation) ?? 'there is no hold');
  const beyond = shareBeyondRange(oil, hold.pieces);
  // The rest is what the oil was while the sensor could still follow: no mean of the hold.
  if (beyond > MOST_BEYOND)
    return none(
      `the oil temperature stood at the end of its range, or beyond it, for ${shareText(beyond, 0)} of the hold`,
    );
  const mean = weightedMean(timeline, oil.kept, hold.pieces),
    ends = extentsOf(oil.smoothed).of(hold.pieces);
  return mean && ends
    ? { mean: mean.mean, min: ends.min, max: ends.max, unit }
    : none('the oil temperature has no valid reading in the hold');
}
