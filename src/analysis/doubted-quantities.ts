import type { Quantities } from '#formats/assessment.ts';
import type { GraveFinding } from './finding.ts';

/**
 * Quantities without those that hang on readings that are none: a number made of a clipped or frozen sensor's leftovers would be
 * taken for the unit's. They are null with the finding's reason.
 */
export function withoutDoubted(quantities: Quantities, grave: readonly GraveFinding[]): Quantities {
  const why = (reach: GraveFinding['reach']): string | undefined =>
    grave.find((finding) => finding.reach === reach)?.reason;
  let result = quantities;
  const pressure = why('pressure'),
    oil = why('oil-temperature'),
    current = why('solenoid-current'),
    length = why('run-length'),
    coverage = why('record-coverage');
  if (pressure !== undefined) result = withoutPressure(result, pressure);
  if (oil !== undefined) result = withoutOil(result, oil);
  const hold = why('operating-pressure'),
    heat = why('hold-temperature');
  if (hold !== undefined && pressure === undefined) result = withReasonForHold(result, hold);
  if (heat !== undefined && oil === undefined)
    result = { ...result, holdTemperature: { ...result.holdTemperature, reason: heat } };
  if (current !== undefined)
    result = {
      ...result,
      solenoidCurrent: { ...result.solenoidCurrent, mean: null, max: null, reason: current },
    };
  if (length !== undefined) result = { ...result, runLength: { length_s: null, reason: length } };
  if (coverage !== undefined) result = { ...result, recordCoverage: { share: null, reason: coverage } };
  return result;
}

function withoutPressure({ changePoint: _step, ...given }: Quantities, reason: string): Quantities {
  const q = given;
  const { unit } = q.operatingPressure;
  return {
    ...q,
    operatingPressure: {
      ...q.operatingPressure,
      value: null,
      standardUncertainty: null,
      expandedUncertainty: null,
      coverageFactor: null,
      effectiveDegreesOfFreedom: null,
      budget: [],
      reason,
    },
    holdRange: { min: null, max: null, unit, reason },
    peakPressure: { value: null, unit, reason },
    timeInBand: { inside: null, above: null, below: null, reason },
    drift: {
      slope: null,
      low: null,
      high: null,
      unit: q.drift.unit,
      confidence: q.drift.confidence,
      overHold: { value: null, unit },
      trend: null,
      temperatureCorrectedSlope: null,
      bandExit_h: null,
      reason,
    },
    settling: {
      time_s: null,
      tolerance: q.settling.tolerance,
      unit: q.settling.unit,
      finalValue: null,
      reason,
    },
    temperatureSensitivity: noSensitivity(q, reason),
    ...(q.speedDependence
      ? { speedDependence: { exponent: null, low: null, high: null, kind: null, reason } }
      : {}),
    ripple: { peakToPeak: null, unit, frequency_Hz: null, order: null, reason },
    engagements: q.engagements.map(({ start_s, end_s, plateau, peak }) => ({
      start_s,
      end_s,
      rise_s: null,
      plateau: { value: null, unit: plateau.unit },
      peak: { value: null, unit: peak.unit },
      overshoot: null,
      fall_s: null,
      dip: null,
      recovery_s: null,
      reason,
    })),
    releasedPressure: { value: null, unit, reason },
    zeroAtRest: { value: null, unit, reason },
    leakDown: { halfTime_s: null, reason },
    plateauSpread: { ...q.plateauSpread, value: null, reason },
  };
}

/** There is no hold, so all of these are null already: only why is another. */
function withReasonForHold(q: Quantities, reason: string): Quantities {
  return {
    ...q,
    operatingPressure: { ...q.operatingPressure, reason },
    holdRange: { ...q.holdRange, reason },
    timeInBand: { ...q.timeInBand, reason },
    drift: { ...q.drift, reason },
  };
}

function withoutOil(q: Quantities, reason: string): Quantities {
  return {
    ...q,
    warmUp: {
      timeConstant_s: null,
      low_s: null,
      high_s: null,
      startTemperature: null,
      finalTemperature: null,
      unit: q.warmUp.unit,
      reachedOperating_s: null,
      reason,
    },
    holdTemperature: { ...q.holdTemperature, mean: null, min: null, max: null, reason },
    temperatureSensitivity: noSensitivity(q, reason),
    drift: withoutCorrected(q.drift),
  };
}

const noSensitivity = (q: Quantities, reason: string): Quantities['temperatureSensitivity'] => ({
  value: null,
  unit: q.temperatureSensitivity.unit,
  low: null,
  high: null,
  reason,
});

function withoutCorrected({
  temperatureCorrectedLow: _low,
  temperatureCorrectedHigh: _high,
  ...drift
}: Quantities['drift']): Quantities['drift'] {
  return { ...drift, temperatureCorrectedSlope: null };
}
