/** d2 for two values: the mean range of two in standard deviations. As the handbook's table has it, exact is 2/√π = 1.128379. */
const D2 = 1.128;
/** D4 for two values, the same table; its lower limit D3 is 0. */
const D4 = 3.267;

/** Limits of an individuals and moving-range chart. */
export interface ControlLimits {
  center: number;
  low: number;
  high: number;
  meanMovingRange: number;
  movingRangeHigh: number;
}

/** Distances between neighbours; one fewer than values. */
export function movingRanges(values: readonly number[]): number[] {
  return values.slice(1).map((value, index) => Math.abs(value - (values[index] ?? NaN)));
}

/**
 * Individuals and moving range: centre ± 3·MR̄/d2, moving ranges up to D4·MR̄.
 * Source: NIST/SEMATECH e-Handbook, 6.3.2.2 (results read second-hand). For one value a run, never for raw samples: neighbours that are
 * alike make the limits too narrow (by √(1 − ρ)).
 * @param values one a run, in order, all finite
 * @returns null below two values
 */
export function controlLimits(values: readonly number[]): ControlLimits | null {
  if (values.length < 2) return null;
  const center = values.reduce((sum, value) => sum + value, 0) / values.length;
  const ranges = movingRanges(values);
  const meanMovingRange = ranges.reduce((sum, value) => sum + value, 0) / ranges.length;
  const half = (3 * meanMovingRange) / D2;
  return {
    center,
    low: center - half,
    high: center + half,
    meanMovingRange,
    movingRangeHigh: D4 * meanMovingRange,
  };
}
