import { probabilityOfConformity } from '#decision/conformity.ts';
import { passZone, type Limits } from '#decision/rule.ts';
import { rounded } from '#formats/number.ts';
import { welchSatterthwaite, type UncertaintyPart } from '#statistics/welch-satterthwaite.ts';
import type { Sensitivity } from './sensitivity.ts';

/** The reading that advice starts from, and the rule that the re-test will be judged by; one pressure unit throughout. */
export interface Start {
  value: number;
  standardUncertainty: number;
  degreesOfFreedom: number;
  /** U of the re-test, taken to be that of this test. */
  expandedUncertainty: number;
  /** Scatter part of the standard uncertainty; null where the budget does not tell. */
  scatter: number | null;
  limits: Limits;
  guarded: boolean;
  guardFactor: number;
  repeatability: number;
  sensitivity: Sensitivity;
}

/** How a change should come out. */
export interface Prediction {
  value: number;
  standardUncertainty: number;
  degreesOfFreedom: number;
  probabilityOfConformity: number;
  probabilityOfPass: number;
  probabilityOfPassSameGauge: number | null;
}

/** The chance to lie in limits; without any uncertainty it is yes or no. */
function chance(value: number, parts: readonly UncertaintyPart[], limits: Limits): number {
  const { combined, effectiveDegreesOfFreedom } = welchSatterthwaite(parts);
  if (combined > 0)
    return probabilityOfConformity(rounded(value), combined, effectiveDegreesOfFreedom, limits);
  const inside =
    (limits.low === null || value >= limits.low) && (limits.high === null || value <= limits.high);
  return inside ? 1 : 0;
}

/**
 * What the pressure should be after a change of the stack: reading + pressure per mm · change, its uncertainty from the reading, the
 * sensitivity and one refitting (JCGM 100:2008, 5.1.2). Left as it is, it has the reading's uncertainty alone.
 *
 * The chance that the re-test passes takes the re-test's own error in, as large as that of this test and independent of it. Where the same
 * gauge reads both, its error is the same in both and does not move the second reading against the first: that chance is given apart,
 * from the scatter of the two readings, the sensitivity and the refitting alone.
 */
export function predict(start: Start, change_mm: number): Prediction {
  const { sensitivity, limits } = start;
  const reading: UncertaintyPart = {
    standardUncertainty: start.standardUncertainty,
    degreesOfFreedom: start.degreesOfFreedom,
  };
  const made: UncertaintyPart[] =
    change_mm === 0
      ? []
      : [
          {
            standardUncertainty: Math.abs(change_mm) * sensitivity.standardUncertainty,
            degreesOfFreedom: sensitivity.degreesOfFreedom,
          },
          { standardUncertainty: start.repeatability, degreesOfFreedom: Infinity },
        ];
  const value = rounded(start.value + sensitivity.value * change_mm);
  const { combined, effectiveDegreesOfFreedom } = welchSatterthwaite([reading, ...made]);
  const zone = start.guarded
    ? passZone(limits, rounded(start.guardFactor * start.expandedUncertainty))
    : { ...limits, empty: false };
  const passes = (parts: readonly UncertaintyPart[]): number => (zone.empty ? 0 : chance(value, parts, zone));
  const scatter: UncertaintyPart | null =
    start.scatter === null
      ? null
      : { standardUncertainty: start.scatter, degreesOfFreedom: start.degreesOfFreedom };
  return {
    value,
    standardUncertainty: combined,
    degreesOfFreedom: effectiveDegreesOfFreedom,
    probabilityOfConformity: chance(value, [reading, ...made], limits),
    probabilityOfPass: passes([reading, ...made, reading]),
    probabilityOfPassSameGauge: scatter === null ? null : passes([scatter, ...made, scatter]),
  };
}
