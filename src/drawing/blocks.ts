/** Readings of one block level: so many rows to a block. */
export interface Level {
  rows: number;
  lowest: Float64Array;
  highest: Float64Array;
}

/**
 * Lowest and highest reading of every ten, hundred and thousand rows, so that a frame looks at a few hundred numbers a column at
 * most, however many rows there are. Exact: the ends that no whole block covers are read row by row.
 */
export interface Blocks {
  values: Float64Array;
  /** Rows whose byte is not 0 do not count; null: every number counts. */
  flags: Uint8Array | null;
  levels: Level[];
}

/** Lowest and highest reading of some rows. */
export interface Extent {
  lowest: number;
  highest: number;
}

const FACTOR = 10,
  LEVELS = 3;

/** A list with its levels. @param flags readings set aside are left out of the levels; null where none are */
export const blocksOf = (values: Float64Array, flags: Uint8Array | null): Blocks => ({
  values,
  flags,
  levels: levelsOf(values, flags),
});

/** Lowest and highest by blocks of rows, each level over blocks of the one before. @param flags as above */
export function levelsOf(values: Float64Array, flags: Uint8Array | null): Level[] {
  const levels: Level[] = [];
  let rows = FACTOR;
  for (let level = 0; level < LEVELS && rows * 2 <= values.length; level++, rows *= FACTOR) {
    const count = Math.ceil(values.length / rows);
    const lowest = new Float64Array(count).fill(NaN),
      highest = new Float64Array(count).fill(NaN);
    const below = levels.at(-1);
    if (below === undefined) {
      for (let block = 0; block < count; block++) {
        const end = Math.min(values.length, (block + 1) * FACTOR);
        let low = Infinity,
          high = -Infinity;
        for (let row = block * FACTOR; row < end; row++) {
          if (flags !== null && flags[row] !== 0) continue;
          // NaN is neither under nor over anything.
          const value = values[row] ?? NaN;
          if (value < low) low = value;
          if (value > high) high = value;
        }
        if (low <= high) {
          lowest[block] = low;
          highest[block] = high;
        }
      }
    } else
      for (let k = 0; k < below.lowest.length; k++) {
        const low = below.lowest[k] ?? NaN,
          high = below.highest[k] ?? NaN;
        if (Number.isNaN(low)) continue;
        const block = Math.floor(k / FACTOR);
        if (!(low >= (lowest[block] ?? NaN))) lowest[block] = low;
        if (!(high <= (highest[block] ?? NaN))) highest[block] = high;
      }
    levels.push({ rows, lowest, highest });
  }
  return levels;
}

/**
 * Lowest and highest of the rows from … to (the second not included), written into `into`.
 * @returns false where none of them counts
 */
export function extentOf(blocks: Blocks, from: number, to: number, into: Extent): boolean {
  into.lowest = Infinity;
  into.highest = -Infinity;
  widen(blocks, from, Math.min(to, blocks.values.length), blocks.levels.length - 1, into);
  return into.lowest <= into.highest;
}

function widen(blocks: Blocks, from: number, to: number, level: number, into: Extent): void {
  const here = blocks.levels[level];
  if (here === undefined) {
    for (let row = from; row < to; row++) {
      const value = blocks.values[row] ?? NaN;
      if (blocks.flags !== null && blocks.flags[row] !== 0) continue;
      if (value < into.lowest) into.lowest = value;
      if (value > into.highest) into.highest = value;
    }
    return;
  }
  const first = Math.ceil(from / here.rows),
    end = Math.floor(to / here.rows);
  if (first >= end) {
    widen(blocks, from, to, level - 1, into);
    return;
  }
  for (let block = first; block < end; block++) {
    const low = here.lowest[block] ?? NaN,
      high = here.highest[block] ?? NaN;
    if (low < into.lowest) into.lowest = low;
    if (high > into.highest) into.highest = high;
  }
  widen(blocks, from, first * here.rows, level - 1, into);
  widen(blocks, end * here.rows, to, level - 1, into);
}
