import type { Quantities } from '#formats/assessment.ts';
import type { Spec } from '#formats/spec.ts';
import { factsWithoutRig, type DecisionFacts } from '#decision/facts.ts';

/** Quantities of a tidy six-hour run at 411.2 psi; every test changes what it is about. */
export function tidyQuantities(change: Partial<Quantities> = {}): Quantities {
  return {
    operatingPressure: {
      value: 411.2,
      unit: 'psi',
      standardUncertainty: 1.1,
      expandedUncertainty: 2.2,
      coverageFactor: 2,
      effectiveDegreesOfFreedom: 210,
      start_s: 2961,
      end_s: 21541,
      budget: [],
    },
    holdRange: { min: 408.8, max: 413.9, unit: 'psi' },
    peakPressure: { value: 431, unit: 'psi' },
    timeInBand: { inside: 0.997, above: 0.002, below: 0.001 },
    drift: {
      slope: -0.42,
      low: -0.55,
      high: -0.3,
      unit: 'psi/h',
      confidence: 0.95,
      overHold: { value: -2.17, unit: 'psi', low: -2.84, high: -1.55 },
      trend: 'falling',
      temperatureCorrectedSlope: -0.12,
      bandExit_h: 22,
    },
    settling: { time_s: 2710, tolerance: 8.2, unit: 'psi', finalValue: 411 },
    warmUp: {
      timeConstant_s: 1490,
      low_s: 1460,
      high_s: 1520,
      startTemperature: 18.2,
      finalTemperature: 62.4,
      unit: 'degC',
      reachedOperating_s: 2900,
    },
    holdTemperature: { mean: 61, min: 58.7, max: 63.2, unit: 'degC' },
    temperatureSensitivity: { value: -0.11, unit: 'psi/degC', low: -0.13, high: -0.09 },
    ripple: {
      peakToPeak: null,
      unit: 'psi',
      frequency_Hz: null,
      order: null,
      reason: 'sampled once a second; ripple needs 20',
    },
    engagements: [],
    releasedPressure: { value: 18, unit: 'psi' },
    zeroAtRest: { value: 0.4, unit: 'psi' },
    leakDown: { halfTime_s: 41 },
    plateauSpread: { value: 1.9, unit: 'psi', engagements: 6 },
    solenoidCurrent: { mean: 0.81, max: 0.92, unit: 'A' },
    runLength: { length_s: 21480 },
    recordCoverage: { share: 0.9989 },
    ...change,
  };
}

/** The same run with another operating pressure and uncertainty. */
export function at(
  value: number | null,
  standardUncertainty: number | null = null,
  nu: number | null = null,
): Quantities {
  const tidy = tidyQuantities();
  return {
    ...tidy,
    operatingPressure: {
      ...tidy.operatingPressure,
      value,
      standardUncertainty,
      expandedUncertainty: standardUncertainty === null ? null : 2 * standardUncertainty,
      effectiveDegreesOfFreedom: nu,
    },
  };
}

export const band = (low: number | null, high: number | null, change: Partial<Spec> = {}): Spec => ({
  format: 'overdrive-bench/spec',
  version: 1,
  name: 'test',
  pressureBand: { low, high, unit: 'psi' },
  ...change,
});

/** Facts of a rig that states its gauge: ± `half` psi, rectangular, 0 to 600 psi. */
export function statedGauge(typeBExpanded: number, change: Partial<DecisionFacts> = {}): DecisionFacts {
  return {
    ...factsWithoutRig(),
    pressure: { stated: true, typeBExpanded },
    gaugeRange: { low: 0, high: 600 },
    runSpan_s: 21480,
    ...change,
  };
}
