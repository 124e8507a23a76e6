// Where the kernels that go along a column have their lists. A script puts some rows into TIMES and VALUES, calls, and takes what came
// out of RESULTS. Pages of the memory that nobody writes to cost nothing, so that the lists may be as long as they ever need to be.

/** Rows that are handed over at once, at most. */
export const ROWS: i32 = 16384;
export const TIMES: usize = 65536;
export const VALUES: usize = TIMES + 8 * ROWS;
export const RESULTS: usize = VALUES + 8 * ROWS;
/** A byte a row. */
export const MARKS: usize = RESULTS + 8 * ROWS;

/** Counts of readings by level, a bit a level that has any, and a bit a word of those bits; all zero between two uses. */
export const MOST_LEVELS: i32 = 1 << 20;
export const FINE: usize = MARKS + ROWS;
export const OCCUPIED: usize = FINE + 4 * MOST_LEVELS;
export const OCCUPIED_BLOCKS: usize = OCCUPIED + MOST_LEVELS / 8;
/** The reading at each level, for a grid that is not decimal. */
export const TABLE: usize = OCCUPIED_BLOCKS + MOST_LEVELS / 512;

/** Rows that a window may reach over. */
export const MOST_REACH: i32 = 1 << 18;
/** What is kept of the rows in reach, in rings: times, levels or values, least values. */
export const RING_TIMES: usize = TABLE + 8 * MOST_LEVELS;
export const RING_LEVELS: usize = RING_TIMES + 8 * MOST_REACH;
export const RING_VALUES: usize = RING_LEVELS + 4 * MOST_REACH;
export const RING_LEAST: usize = RING_VALUES + 8 * MOST_REACH;
/** Of blocks of 64 rows the lowest and the highest reading; twice as many as are in reach, since blocks are cut. */
export const RING_BLOCKS: i32 = MOST_REACH / 32;
export const RING_LOWEST: usize = RING_LEAST + 8 * MOST_REACH;
export const RING_HIGHEST: usize = RING_LOWEST + 8 * RING_BLOCKS;
/** Rows that the script decides on: the row, its window's first row and the row after its last, each a list of ROWS. */
export const DOUBTS: usize = RING_HIGHEST + 8 * RING_BLOCKS;
export const END: usize = DOUBTS + 12 * ROWS;

export function placesEnd(): usize {
  return END;
}
export function placeOfTimes(): usize {
  return TIMES;
}
export function placeOfValues(): usize {
  return VALUES;
}
export function placeOfResults(): usize {
  return RESULTS;
}
export function placeOfMarks(): usize {
  return MARKS;
}
export function placeOfDoubts(): usize {
  return DOUBTS;
}
export function placeOfCounts(): usize {
  return FINE;
}
export function placeOfTable(): usize {
  return TABLE;
}
export function mostRows(): i32 {
  return ROWS;
}
export function mostLevels(): i32 {
  return MOST_LEVELS;
}
