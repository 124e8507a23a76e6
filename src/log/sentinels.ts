import { SetAside } from '#formats/log.ts';

/**
 * Numbers that loggers write for "no reading" (common practice, no source): -200, -127, ±999…, 999.9, 9999.9, full scales of 16-bit
 * counts, the over-range number of instruments (9.9E37).
 */
const known =
  /^(?:-?9{3,8}(?:\.9{0,3})?|-200|-127|-?8888(?:\.8)?|-999\.25|32767|-32768|65535|3276\.7|-3276\.8|6553\.5|9\.9e\+37|-9\.9e\+37|9\.91e\+37|1e\+3\d)$/u;
/** Nearer to the next reading than this share of itself it is a reading like the others: 999 beside 998. */
const NEAR = 0.05;
const isKnown = (value: number): boolean => known.test(String(value));

/** A column does not go below zero where its lowest reading is above a tenth of the sentinel. */
const NEAR_ZERO = 0.1;

/** A sentinel found in a column. */
export interface Sentinel {
  value: number;
  count: number;
}

/**
 * Sets aside a sentinel at either end of a column: a number of the known ones, there more than once, and further from its nearest
 * neighbour than all other readings lie apart, or far below zero where no other is. A column that holds nothing else is all sentinel.
 * @param values NaN for no reading; not changed
 * @param flags marked with out of range
 */
export function setSentinelsAside(values: Float64Array, flags: Uint8Array): Sentinel[] {
  const found: Sentinel[] = [];
  for (let round = 0; round < 2; round++) {
    const ends = { min: Infinity, max: -Infinity };
    // What is not kept is NaN at first; once a sentinel was found, its flags must be looked at.
    for (let from = 0; from < values.length; from += SOME_ROWS)
      lookFor(values, round === 0 ? null : flags, ends, from, Math.min(values.length, from + SOME_ROWS));
    const { min, max } = ends;
    if (min > max) break;
    const suspects = [min, max].filter(isKnown);
    const sentinel = suspects.map((value) => check(values, flags, value)).find((result) => result !== null);
    if (sentinel === undefined || sentinel === null) break;
    for (let i = 0; i < values.length; i++)
      if (flags[i] === SetAside.kept && values[i] === sentinel.value) flags[i] = SetAside.outOfRange;
    found.push(sentinel);
    if (min === max) break;
  }
  return found;
}

/** Rows that are gone over in one call: a function that is called often is compiled as a whole. */
const SOME_ROWS = 1024;

/** Some rows more. */
function lookFor(
  values: Float64Array,
  flags: Uint8Array | null,
  ends: { min: number; max: number },
  from: number,
  to: number,
): void {
  let { min, max } = ends;
  for (let i = from; i < to; i++) {
    const value = values[i] ?? NaN;
    if (value < min && (flags === null || flags[i] === SetAside.kept)) min = value;
    if (value > max && (flags === null || flags[i] === SetAside.kept)) max = value;
  }
  ends.min = min;
  ends.max = max;
}

function check(values: Float64Array, flags: Uint8Array, suspect: number): Sentinel | null {
  let count = 0,
    low = Infinity,
    high = -Infinity;
  for (let i = 0; i < values.length; i++) {
    if (flags[i] !== SetAside.kept) continue;
    const value = values[i] ?? NaN;
    if (value === suspect) count++;
    else {
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  if (count < 2) return null;
  if (low > high) return { value: suspect, count };
  const distance = suspect < low ? low - suspect : suspect - high;
  // Nothing that is measured here lies so far below zero where nothing else does: -999 beside 0 to 3000 kPa.
  const farBelowZero = suspect < 0 && low > NEAR_ZERO * suspect;
  const apart = distance > high - low && distance > NEAR * Math.abs(suspect);
  return apart || farBelowZero ? { value: suspect, count } : null;
}
