import { levelCounts, levelsOf } from './levels.ts';

/**
 * Smallest difference between two different readings of a column: what the log's digits can tell apart.
 * @param values NaN for no reading
 * @returns null where there are not two different readings
 * Cost: n for readings on a decimal grid, else a sort.
 * @example smallestStep(Float64Array.of(30, 30.2, 30.1)) // 0.1
 */
export function smallestStep(values: Float64Array): number | null {
  const levels = levelsOf(values);
  if (!levels) return smallestDifference(values);
  const counts = levelCounts(values);
  let smallest = Infinity;
  let before = -1;
  for (let k = 0; k < levels.count; k++)
    if ((counts?.[k] ?? 0) > 0) {
      if (before >= 0) smallest = Math.min(smallest, k - before);
      before = k;
    }
  return Number.isFinite(smallest) ? smallest * levels.step : null;
}

function smallestDifference(values: Float64Array): number | null {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort();
  let smallest = Infinity;
  for (let i = 1; i < sorted.length; i++) {
    const difference = (sorted[i] ?? NaN) - (sorted[i - 1] ?? NaN);
    if (difference > 0 && difference < smallest) smallest = difference;
  }
  return Number.isFinite(smallest) ? smallest : null;
}
