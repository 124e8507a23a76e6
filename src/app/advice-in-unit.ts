import type { Advice } from '#formats/advice.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';

/**
 * Advice in the unit for viewing; chances, stacks and the sentences of its remarks stay as they were advised. Nothing is advised on it,
 * and nothing of it is kept.
 */
export function adviceInUnit(advice: Advice, unit: PressureUnit): Advice {
  const from = advice.target.unit;
  if (from === unit) return advice;
  const factor = pressureFactor(from, unit);
  const sized = (value: number | null): number | null => (value === null ? null : value * factor);
  const { operatingPressure, pressurePerShim, earlierSummary } = advice;
  return {
    ...advice,
    operatingPressure: {
      ...operatingPressure,
      unit,
      value: sized(operatingPressure.value),
      standardUncertainty: sized(operatingPressure.standardUncertainty),
      expandedUncertainty: sized(operatingPressure.expandedUncertainty),
      // Not shown on the card.
      budget: [],
    },
    target: { value: advice.target.value * factor, unit },
    pressurePerShim: pressurePerShim && {
      ...pressurePerShim,
      unit: `${unit}/mm`,
      value: pressurePerShim.value * factor,
      standardUncertainty: pressurePerShim.standardUncertainty * factor,
    },
    options: advice.options.map((option) => ({
      ...option,
      predicted: {
        ...option.predicted,
        unit,
        value: option.predicted.value * factor,
        standardUncertainty: option.predicted.standardUncertainty * factor,
      },
    })),
    ...(advice.earlier === undefined
      ? {}
      : {
          earlier: advice.earlier.map((each) => ({
            ...each,
            unit,
            predicted: each.predicted * factor,
            found: each.found * factor,
            standardUncertainty: each.standardUncertainty * factor,
          })),
        }),
    ...(earlierSummary === null || earlierSummary === undefined
      ? {}
      : {
          earlierSummary: {
            ...earlierSummary,
            unit,
            meanDifference: earlierSummary.meanDifference * factor,
            standardDeviation: sized(earlierSummary.standardDeviation),
          },
        }),
  };
}
