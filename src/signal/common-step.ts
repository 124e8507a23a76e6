import { levelCounts, levelsOf } from './levels.ts';

/** Two readings are always one step apart: they say nothing of a grid. */
const FEWEST_LEVELS = 3;

/**
 * The step of which all differences between the readings of a column are whole numbers: an indication that moves by 5 shows it however
 * many digits are written.
 * @param values NaN for no reading
 * @returns null where the readings lie on no grid, or have fewer than three different values
 * Cost: n, once a column.
 * @example commonStep(Float64Array.of(0, 405, 415)) // 5
 */
export function commonStep(values: Float64Array): number | null {
  const levels = levelsOf(values),
    counts = levelCounts(values);
  if (levels === null || counts === null) return null;
  let first = -1,
    common = 0,
    seen = 0;
  for (let k = 0; k < levels.count; k++) {
    if ((counts[k] ?? 0) === 0) continue;
    seen++;
    if (first < 0) first = k;
    else common = commonDivisor(common, k - first);
    if (common === 1 && seen >= FEWEST_LEVELS) break;
  }
  return seen >= FEWEST_LEVELS ? common * levels.step : null;
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}
