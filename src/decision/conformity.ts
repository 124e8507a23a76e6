import { rounded } from '#formats/number.ts';
import { studentTCdf } from '#statistics/student-t.ts';
import type { Limits } from './rule.ts';

/**
 * The chance that the true value lies in the limits, given a reading and its standard uncertainty.
 * JCGM 106:2012, Eq. 11 (two-sided) and Eq. 10 (one-sided), with Student's t in place of the normal distribution where the degrees
 * of freedom are few (as in its 8.3.3, example 2). Each tail is taken from its own side, so that a small chance keeps its digits.
 * @param value reading, in the unit of the limits
 * @param standardUncertainty above 0, same unit
 * @param degreesOfFreedom above 0; null for infinite
 * @returns 0 to 1
 * @example probabilityOfConformity(13.6, 1.8, null, { low: 12.5, high: 16.3 }) // 0.66263, the motor oil of JCGM 106, 7.4
 */
export function probabilityOfConformity(
  value: number,
  standardUncertainty: number,
  degreesOfFreedom: number | null,
  limits: Limits,
): number {
  const nu = degreesOfFreedom ?? Infinity;
  const below = (z: number): number => studentTCdf(z, nu);
  const toLow = limits.low === null ? Infinity : (value - limits.low) / standardUncertainty;
  const toHigh = limits.high === null ? Infinity : (limits.high - value) / standardUncertainty;
  if (toLow >= 0 && toHigh >= 0) {
    const outside = (toLow === Infinity ? 0 : below(-toLow)) + (toHigh === Infinity ? 0 : below(-toHigh));
    return rounded(Math.max(0, 1 - outside));
  }
  // Outside: the mass beyond the near limit less the mass beyond the far one, both measured in the tail.
  const near = toLow < 0 ? toLow : toHigh,
    far = toLow < 0 ? toHigh : toLow;
  return rounded(Math.max(0, below(near) - (far === Infinity ? 0 : below(-far))));
}
