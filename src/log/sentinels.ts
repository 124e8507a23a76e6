import { SetAside } from '#formats/log.ts';
import { extentsOf } from '#statistics/extents.ts';

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
    // What is not kept is NaN at first; once a sentinel was found, its flags must be looked at.
    const ends =
      round === 0 ? extentsOf(values).of([{ from: 0, to: values.length }]) : endsOfKept(values, flags);
    if (ends === null) break;
    const { min, max } = ends;
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

/** The lowest and the highest reading that is kept; null for none. */
function endsOfKept(values: Float64Array, flags: Uint8Array): { min: number; max: number } | null {
  let min = Infinity,
    max = -Infinity;
  for (let i = 0; i < values.length; i++) {
    if (flags[i] !== SetAside.kept) continue;
    const value = values[i] ?? NaN;
    if (value < min) min = value;
    if (value > max) max = value;
  }
  return min > max ? null : { min, max };
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
