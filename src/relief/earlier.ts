import type { Advice } from '#formats/advice.ts';
import type { Adjustments, Relief } from '#formats/relief.ts';
import { mean, sampleStandardDeviation } from '#statistics/mean.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';
import { changesOf, outliersOf, sensitivityOf, type FromHistory } from './sensitivity.ts';

type Earlier = NonNullable<Advice['earlier']>;

/**
 * How good earlier changes were predicted, against what was found: by the prediction that was kept when it was advised, else from
 * all that is known but the change itself. The uncertainty holds both readings, the sensitivity and one refitting, so that about 19 in 20
 * found values lie within twice it. Changes that nothing else tells of are left out.
 */
export function earlierPredictions(
  relief: Relief,
  history: Adjustments | null,
  learned: FromHistory,
  unit: PressureUnit,
): Earlier {
  if (history === null) return [];
  const repeatability =
    relief.repeatability === undefined
      ? 0
      : relief.repeatability.standardUncertainty * pressureFactor(relief.repeatability.unit, unit);
  const changes = changesOf(history, unit, repeatability);
  const outliers = outliersOf(learned);
  return history.adjustments.flatMap((adjustment, index) => {
    const change = changes[index];
    if (!change || change.change_mm === 0) return [];
    const { pressureBefore, pressureAfter, predicted: said, notAlike } = adjustment;
    const before = pressureBefore.value * pressureFactor(pressureBefore.unit, unit);
    const about = {
      ...(change.date === undefined ? {} : { date: change.date }),
      ...(change.serial === undefined ? {} : { serial: change.serial }),
      ...(notAlike === undefined ? {} : { notAlike }),
      change_mm: change.change_mm,
      found: before + change.difference,
      unit,
      outlier: outliers.some(
        (outlier) =>
          outlier.change.change_mm === change.change_mm &&
          outlier.change.difference === change.difference &&
          outlier.change.serial === change.serial &&
          outlier.change.date === change.date,
      ),
    };
    if (said !== undefined) {
      const factor = pressureFactor(said.unit, unit);
      const found = (pressureAfter.standardUncertainty ?? 0) * pressureFactor(pressureAfter.unit, unit);
      const u = said.standardUncertainty * factor;
      return [
        {
          ...about,
          predicted: said.value * factor,
          standardUncertainty: Math.sqrt(u * u + found * found),
          kept: true,
        },
      ];
    }
    const serial = adjustment.serial ?? history.serial;
    const others: Adjustments = {
      ...history,
      // Seen from the unit that was changed: its own changes come first, also those of the unit that is to be set are another's.
      ...(serial === undefined ? {} : { serial }),
      adjustments: history.adjustments
        .filter((_, at) => at !== index)
        .map((each) =>
          serial === undefined || each.serial !== undefined
            ? each
            : { ...each, serial: history.serial ?? '' },
        ),
    };
    const { sensitivity } = sensitivityOf(relief, others, unit);
    if (sensitivity === null) return [];
    const fromSlope = sensitivity.standardUncertainty * change.change_mm;
    return [
      {
        ...about,
        predicted: before + sensitivity.value * change.change_mm,
        standardUncertainty: Math.sqrt(
          change.standardUncertainty * change.standardUncertainty + fromSlope * fromSlope,
        ),
      },
    ];
  });
}

/** Found less predicted over all of them: mean, spread, and how many lie outside of twice their standard uncertainty; null without any. */
export function earlierSummaryOf(earlier: Earlier, unit: PressureUnit): Advice['earlierSummary'] {
  if (earlier.length === 0) return null;
  const differences = earlier.map(({ found, predicted }) => found - predicted);
  return {
    changes: earlier.length,
    outside: earlier.filter(
      ({ found, predicted, standardUncertainty }) => Math.abs(found - predicted) > 2 * standardUncertainty,
    ).length,
    meanDifference: mean(differences),
    standardDeviation: differences.length < 2 ? null : sampleStandardDeviation(differences),
    unit,
  };
}
